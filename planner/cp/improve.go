package cp

// improve looks for a better value of level l where the main search is stuck, for about budget work: by neighbourhoods
// of the best solution and, where there is a breeder, by breeding, in turns, as each takes up what the other found.
//
// The longer it has brought nothing, the likelier the value cannot be improved, and the proof needs the work.
func (s *solver) improve(l int, budget int64) {
	before := s.best[l]
	switch {
	case s.promising(l):
		budget *= 2
	case !s.wide(l):
		budget >>= s.vain[l]
	}
	if s.breeder == nil || l > 0 {
		if s.makespan(l) && !s.wide(l) {
			budget /= 2
		}
		s.explore(l, budget)
	} else {
		for range turns {
			s.explore(l, budget/turns/2)
			s.breed(budget / turns)
		}
	}
	if s.best[l] < before {
		s.vain[l] = 0
	} else {
		s.vain[l] = min(s.vain[l]+1, 2)
	}
}

// turns is how often neighbourhoods and breeding take turns in one round.
const turns = 4

// wide says whether the bound of a makespan is so far from the best, and the project so large, that a proof is far off.
func (s *solver) wide(l int) bool {
	return s.makespan(l) && !s.small() && s.best[l]-s.bound[l] > s.best[l]/25
}

// promising says whether a level that is far from a proof has lately been improved: then less goes into the proof.
func (s *solver) promising(l int) bool { return s.wide(l) && s.vain[l] < 2 }

// small says whether the main search sees all that neighbourhoods of a makespan could show it.
func (s *solver) small() bool { return len(s.near.centres) < 45 }
