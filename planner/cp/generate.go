package cp

import "slices"

// How generated schedules come into a solve. They are solutions like any other: checked before they are taken.

// atOnce finds a first solution without search: the one to start from, if it is a solution, or the best generated
// schedule, if the problem is a project. It is false if there is neither.
func (s *solver) atOnce() bool {
	if pr := newProject(s.p, s.e.root); pr != nil {
		s.evolution = newEvolution(pr, s.lim.Seed)
	}
	switch {
	case len(s.p.Start) > 0 && Check(s.p, s.p.Start) == nil:
		s.take(slices.Clone(s.p.Start))
		return true
	case len(s.p.Start) > 0 || s.evolution == nil:
		return false
	}
	for k := 0; s.evolution.seed(k) && !s.stop(); k++ {
		s.e.work += s.evolution.steps()
	}
	return s.adopt()
}

// adopt takes the best generated schedule, which is better than the best solution. If it breaks an upper bound, the
// only constraint that generation does not look at, generation is given up.
func (s *solver) adopt() bool {
	v := s.evolution
	values := make([]int, len(s.p.Vars))
	for i, x := range v.gens[0].variable {
		values[x] = int(v.best.starts[i])
	}
	sink := s.p.Levels[0].Terms[0].X
	values[sink] = max(int(v.best.makespan), s.p.Vars[sink].Lo)
	for x, d := range s.p.Vars {
		if values[x] > d.Hi {
			s.evolution = nil
			return false
		}
	}
	s.take(values)
	return true
}

// evolve breeds schedules for at most budget work, to improve level 0.
func (s *solver) evolve(budget int64) {
	v, sink := s.evolution, s.p.Levels[0].Terms[0].X
	if s.values[sink] < int(v.best.makespan) {
		v.join(s.values)
	}
	for end := s.e.work + budget; s.e.work < end && s.bound[0] < s.best[0] && !s.stop(); {
		v.step()
		s.e.work += v.steps()
		if int(v.best.makespan) < s.values[sink] {
			if !s.adopt() {
				return
			}
			s.learn(0, limited, 0)
		}
	}
}
