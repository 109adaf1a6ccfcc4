package cp

import "slices"

// minimiseCore shrinks a clash by deletion: each assumption is left out once; if the rest still clashes it stays out,
// and whatever the new proof did not need goes with it. Every answer comes from a search over the same constraints.
func (s *solver) minimiseCore() {
	core := s.owners()
	for i := 0; i < len(core); {
		rest := slices.Delete(slices.Clone(core), i, i+1)
		assumed, owner := s.only(rest)
		s.assumed, s.owner = assumed, owner
		switch s.run(assumed, nil, 0) {
		case refuted:
			// Those before i have been found necessary for a superset; they are in every core found later.
			core = s.owners()
		case solved:
			i++
		case limited:
			s.clash = core
			return
		}
	}
	s.clash, s.clashMinimal = core, true
}

// owners are the assumptions named by the searcher's core.
func (s *solver) owners() []int {
	var out []int
	for _, n := range s.core {
		out = append(out, s.owner[n])
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// only lists the literals of the given assumptions.
func (s *solver) only(which []int) (assumed []atom, owner []int) {
	all := solver{searcher: searcher{e: s.e}, p: s.p}
	all.assume()
	for n, a := range all.assumed {
		if slices.Contains(which, all.owner[n]) {
			assumed, owner = append(assumed, a), append(owner, all.owner[n])
		}
	}
	return assumed, owner
}
