package cp

import (
	"context"
	"slices"
)

// Solve searches for the best solution of a valid problem. When the context or a limit ends it early, the best
// solution so far comes back with the bounds proved so far. It panics on a problem that Validate refuses.
func Solve(ctx context.Context, p *Problem, lim Limits) Result {
	if err := p.Validate(); err != nil {
		panic("cp: " + err.Error())
	}
	pr := newProof(lim.Proof)
	defer pr.close()
	e, objectives, ok := compile(p, pr)
	s := &solver{p: p, objectives: objectives}
	s.searcher = searcher{e: e, ctx: ctx, lim: lim, branch: newBrancher(p)}
	s.near = newNeighbours(p, lim.Seed)
	if !ok {
		pr.clause("r")
		pr.line("i")
		return s.result(Infeasible)
	}
	s.assume()
	if ctx.Err() != nil {
		return s.result(Unknown)
	}
	if !s.atOnce() {
		switch s.first() {
		case refuted:
			s.minimiseCore()
			pr.numbers("i", s.clash)
			return s.result(Infeasible)
		case limited:
			return s.result(Unknown)
		}
		s.improved()
	}
	for l := range objectives {
		s.bound[l] = s.atRoot(l)
	}
	for l := range s.bound {
		pr.line("b %d %d", l, s.bound[l])
	}
	s.proved()
	if !lim.FirstOnly {
		s.assert(s.assumed...)
		s.assumed = nil
		s.minimise()
	}
	for i := range s.bound {
		if s.bound[i] < s.best[i] {
			return s.result(Feasible)
		}
	}
	return s.result(Optimal)
}

// solver takes a problem through its phases: first solution or core, then level by level.
type solver struct {
	searcher
	p          *Problem
	objectives []objective
	near       *neighbours
	breeder    Breeder // nil: there is none

	assumed []atom // the problem's assumptions, a literal each
	owner   []int  // by position in assumed, the assumption it belongs to

	values []int // the best solution
	best   []int // its value by level
	bound  []int // by level, proved under the values of the levels before
	vain   []int // by level, how often in a row its neighbourhoods brought nothing
	frozen int   // the levels before this one are proved, and held to their best at the root

	clash        []int // assumptions that cannot hold together
	clashMinimal bool
	solutions    int64
}

func (s *solver) result(status Status) Result {
	e := s.e
	r := Result{Status: status, Core: s.clash, CoreMinimal: s.clashMinimal, Stats: Stats{
		Work: e.work, Conflicts: e.conflicts, Decisions: e.decisions, Restarts: e.restarts, Solutions: s.solutions}}
	if status == Feasible || status == Optimal {
		r.Values = s.values
		for i := range s.best {
			r.Levels = append(r.Levels, LevelResult{s.best[i], s.bound[i], s.best[i] == s.bound[i]})
		}
	}
	return r
}

// assume lists the literals of the problem's assumptions.
func (s *solver) assume() {
	c := compiler{p: s.p, e: s.e, zero: viewOf(Var(len(s.p.Vars)))}
	for i, a := range s.p.Assumptions {
		for _, l := range a.Lits {
			s.assumed = append(s.assumed, c.atom(l))
			s.owner = append(s.owner, i)
		}
	}
	s.bound = make([]int, len(s.objectives))
	s.best = make([]int, len(s.objectives))
	s.vain = make([]int, len(s.objectives))
}

// improved takes the engine's solution as the best; the caller has made sure that it is better.
func (s *solver) improved() { s.take(s.e.values(len(s.p.Vars))) }

// take takes the values as the best solution.
func (s *solver) take(values []int) {
	s.values = values
	if err := Check(s.p, s.values); err != nil {
		panic("cp: the search accepted a wrong solution: " + err.Error())
	}
	for i, l := range s.p.Levels {
		s.best[i] = l.Value(s.values)
	}
	s.e.proof.numbers("s", s.values)
	s.solutions++
	s.branch.aim(s.values)
	if f := s.lim.OnSolution; f != nil && !f(s.values, s.best) {
		s.stopped = true
	}
}

// first looks for a first solution. A makespan is held near its bound at first, and let go step by step: in a wide
// horizon a dead end may be walked through in small steps before it is seen, and the schedules found are loose. A
// refutation that does not name the horizon is final.
func (s *solver) first() outcome {
	if len(s.objectives) > 0 && s.makespan(0) {
		o := s.objectives[0]
		low, high := s.atRoot(0), int(-s.e.root[o.w^1]+o.off)
		budget := int64(firstBudget)
		for h := low + low/4; low > 0 && h < high; h += h/2 + 1 {
			assume := append(slices.Clone(s.assumed), o.atMost(h))
			out := s.run(assume, nil, budget)
			if out == solved || s.stopped {
				return out
			}
			if out == refuted && !slices.Contains(s.core, int32(len(s.assumed))) {
				return refuted
			}
			budget *= 2
		}
	}
	return s.run(s.assumed, nil, 0)
}

// firstBudget is the work given to a level in the first round; each round doubles it.
const firstBudget = 2_000_000

// minimise improves level after level, in rounds of growing budgets, until all are proved or the limit comes. A level
// left unproved holds the later ones to its best value; a later round comes back to it.
//
// Objective bounds are assumptions as long as they may have to be taken back. What can only be wanted tighter becomes a
// fact at the root, which keeps it out of the learned clauses: the problem's assumptions once a solution is known,
// the best value of proved levels, and at the last level "better than the best".
func (s *solver) minimise() {
	for budget := int64(firstBudget); !s.stopped; budget *= 2 {
		for l := range s.objectives {
			if s.bound[l] < s.best[l] {
				s.minimiseLevel(l, budget)
				s.improve(l, budget)
			}
			if s.stopped {
				return
			}
			if l == s.frozen && s.bound[l] == s.best[l] {
				s.frozen++
				s.assert(s.objectives[l].atMost(s.best[l]))
			}
		}
		if s.frozen == len(s.objectives) {
			return
		}
	}
}

// assert makes atoms facts at the root; all of them hold in the solutions still wanted.
func (s *solver) assert(atoms ...atom) {
	s.e.cancel(0)
	for _, a := range atoms {
		s.e.proof.clause("a", a)
		if !s.dead && !s.e.set(a, reason{}) {
			s.dead = true
		}
	}
}

// better is what makes a solution worth having at level l: a fact at the last level, else to be assumed.
func (s *solver) better(l int) []atom {
	a := s.objectives[l].atMost(s.best[l] - 1)
	if l == s.frozen && l == len(s.objectives)-1 {
		s.assert(a)
		return nil
	}
	return append(s.underEarlier(l), a)
}

// minimiseLevel improves level l for at most budget work: first from below, as for a sum the best is often near what is
// proved possible; then from above, a sum by growing steps, a makespan one by one, as each schedule found is the best
// help for the next.
func (s *solver) minimiseLevel(l int, budget int64) {
	end := s.e.work + budget
	makespan := s.makespan(l)
	if makespan {
		s.raise(l, budget/16)
		if s.promising(l) {
			end -= budget / 2
		}
	} else {
		for s.bound[l] < s.best[l] && s.try(l, s.bound[l], budget/8) == refuted {
			if s.e.work >= end {
				return
			}
		}
	}
	step := 1
	for s.bound[l] < s.best[l] && !s.stopped && s.e.work < end {
		target := max(s.bound[l], s.best[l]-step)
		switch s.try(l, target, end-s.e.work) {
		case solved:
			if !makespan {
				step *= 2
			}
		case refuted:
			step = 1
		case limited:
			return
		}
	}
}

// raise raises the bound of level l by refutations that cost little, in steps that grow while it succeeds (destructive
// lower bounds, Klein and Scholl 1999).
func (s *solver) raise(l int, budget int64) {
	end := s.e.work + budget
	for step := 1; step > 0 && s.bound[l] < s.best[l] && s.e.work < end && !s.stopped; {
		target := min(s.bound[l]+step, s.best[l]) - 1
		if s.try(l, target, budget/8) == refuted {
			step *= 2
		} else {
			step /= 4
		}
	}
}

// atRoot is the bound of level l that holds whatever is assumed.
func (s *solver) atRoot(l int) int { return int(s.e.root[s.objectives[l].w] + s.objectives[l].off) }

// underEarlier says that the levels before l keep their best, where that is not a fact already.
func (s *solver) underEarlier(l int) []atom {
	var assume []atom
	for k := s.frozen; k < l; k++ {
		assume = append(assume, s.objectives[k].atMost(s.best[k]))
	}
	return assume
}

// try asks for level l ≤ target with the earlier levels at most at their best, and takes in the answer.
func (s *solver) try(l, target int, budget int64) outcome {
	var assume []atom
	if target == s.best[l]-1 {
		assume = s.better(l)
	} else {
		assume = append(s.underEarlier(l), s.objectives[l].atMost(target))
	}
	out := s.run(assume, nil, budget)
	s.learn(l, out, target)
	return out
}

// learn takes in what a search for level l ≤ target came to.
func (s *solver) learn(l int, out outcome, target int) {
	switch out {
	case solved:
		s.improved()
	case refuted:
		s.bound[l] = max(s.bound[l], target+1)
	}
	s.bound[l] = min(s.best[l], max(s.bound[l], s.atRoot(l)))
	if s.dead {
		s.bound[l] = s.best[l] // at the last level alone: nothing better is left
	}
	s.e.proof.line("b %d %d", l, s.bound[l])
	s.proved()
}

// proved tells who asks what is proved.
func (s *solver) proved() {
	if f := s.lim.OnBound; f != nil {
		f(s.best, s.bound)
	}
}
