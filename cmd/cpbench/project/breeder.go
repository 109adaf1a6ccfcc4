package project

import "tureen/planner/cp"

// breeder puts an evolution behind the engine's door for bred solutions.
type breeder struct {
	*evolution
	p    *cp.Problem
	sink cp.Var
}

// Breeder is for cp.Limits.Breed: it breeds schedules if p is a project, else it is nil.
func Breeder(p *cp.Problem, least []int, seed uint64) cp.Breeder {
	pr := newProject(p, least)
	if pr == nil {
		return nil
	}
	v := newEvolution(pr, seed)
	if v == nil {
		return nil
	}
	return (&breeder{v, p, p.Levels[0].Terms[0].X}).better
}

// better makes the schedules of the rules, then breeds on, taking in the best that the search found between the calls.
func (b *breeder) better(best []int, spend func(work int64) (on bool)) (values []int, ok bool) {
	if best == nil {
		for k := 0; b.seed(k) && spend(b.steps()); k++ {
		}
		return b.values()
	}
	if best[b.sink] < int(b.best.makespan) {
		b.join(best)
	}
	for {
		b.step()
		on := spend(b.steps())
		if int(b.best.makespan) < best[b.sink] {
			return b.values()
		}
		if !on {
			return nil, true
		}
	}
}

// values are those of the best schedule. If it breaks an upper bound, the only constraint that generation does not look
// at, generation gives up.
func (b *breeder) values() (values []int, ok bool) {
	values = make([]int, len(b.p.Vars))
	for i, x := range b.gens[0].variable {
		values[x] = int(b.best.starts[i])
	}
	values[b.sink] = max(int(b.best.makespan), b.p.Vars[b.sink].Lo)
	for x, d := range b.p.Vars {
		if values[x] > d.Hi {
			return nil, false
		}
	}
	return values, true
}
