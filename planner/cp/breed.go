package cp

import "slices"

// Breeder makes solutions without search, for problems of a shape that allows it: what it makes is better on the first
// level than best (nil: there is none yet), or nil when it came to nothing before spend, which counts the work done,
// said that it is enough. It must not change best. When ok is false it is not asked again.
//
// The engine has none of its own: cmd/cpbench/project has one for benchmark files, and says why parties go without.
type Breeder func(best []int, spend func(work int64) (on bool)) (values []int, ok bool)

// atOnce finds a first solution without search: the one to start from, if it is a solution, or a bred one. It is false
// if there is neither.
func (s *solver) atOnce() bool {
	if s.lim.Breed != nil {
		least := make([]int, len(s.p.Vars))
		for x := range least {
			least[x] = int(s.e.root[viewOf(Var(x))])
		}
		s.breeder = s.lim.Breed(s.p, least, s.lim.Seed)
	}
	if len(s.p.Start) > 0 {
		if Check(s.p, s.p.Start) != nil {
			return false
		}
		s.take(slices.Clone(s.p.Start))
		return true
	}
	return s.breeder != nil && s.bred(nil, func(work int64) bool {
		s.e.work += work
		return !s.stop()
	})
}

// bred takes what the breeder makes, a solution like any other: checked before it is taken. It is false for nothing.
func (s *solver) bred(best []int, spend func(work int64) bool) bool {
	values, ok := s.breeder(best, spend)
	if !ok {
		s.breeder = nil
	}
	if values == nil {
		return false
	}
	s.take(values)
	return true
}

// breed improves level 0 by bred solutions, for at most budget work.
func (s *solver) breed(budget int64) {
	end := s.e.work + budget
	on := func() bool { return s.e.work < end && s.bound[0] < s.best[0] && !s.stop() }
	spend := func(work int64) bool {
		s.e.work += work
		return on()
	}
	for s.breeder != nil && on() && s.bred(s.values, spend) {
		s.learn(0, limited, 0)
	}
}
