package cp

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// Large-neighbourhood search (Shaw 1998) inside the one engine: most variables are held at their value in the best
// solution, as assumptions, and the rest is searched for a little counted work. What is learned stays true afterwards.
//
// A bundle is an integer variable (a start, say) with the Booleans that occur beside it in conditions and clauses
// (who does it). Variables that objectives count are never held: they follow from the others.

// neighbourhood is which centres are freed together.
type neighbourhood uint8

const (
	closeInTime neighbourhood = iota
	tiedByLags
	scattered
	kinds
)

// mostGive is how far at most held integers may move from their value.
const mostGive = 3

// neighbours knows the bundles of a problem.
type neighbours struct {
	rnd     *rand.Rand
	centres []Var                        // the integer variables that may be held
	bundle  [][]Var                      // by variable: the Booleans beside it
	near    [][]Var                      // by variable: integer variables that a time lag ties to it
	boolean []bool                       // by variable
	held    []bool                       // by variable: may be held at all
	loose   []Var                        // Booleans in no bundle that may be held
	size    [kinds][mostGive + 1]float64 // how many centres to free, adapted to what comes of it
}

func newNeighbours(p *Problem, seed uint64) *neighbours {
	n := &neighbours{rnd: rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15))}
	for k := range n.size {
		for give := range n.size[k] {
			n.size[k][give] = 6
		}
	}
	n.bundle = make([][]Var, len(p.Vars))
	n.near = make([][]Var, len(p.Vars))
	n.held = make([]bool, len(p.Vars))
	for x, d := range p.Vars {
		n.held[x] = d.Lo < d.Hi
	}
	for _, l := range p.Levels {
		for _, t := range l.Terms {
			n.held[t.X] = false
		}
	}
	n.boolean = make([]bool, len(p.Vars))
	for x, d := range p.Vars {
		n.boolean[x] = d.Lo >= 0 && d.Hi <= 1
	}
	inBundle := make([]bool, len(p.Vars))
	join := func(x Var, conds []Lit) {
		if x == None || n.boolean[x] {
			return
		}
		for _, l := range conds {
			if l.X != None && n.boolean[l.X] && n.held[l.X] && !slices.Contains(n.bundle[x], l.X) {
				n.bundle[x] = append(n.bundle[x], l.X)
				inBundle[l.X] = true
			}
		}
	}
	for _, c := range p.Clauses {
		for _, l := range c {
			join(l.X, c)
		}
	}
	for _, l := range p.Lags {
		join(l.From.X, l.If)
		join(l.To.X, l.If)
		if a, b := l.From.X, l.To.X; a != None && b != None && a != b {
			n.near[a] = append(n.near[a], b)
			n.near[b] = append(n.near[b], a)
		}
	}
	for _, c := range p.Cumulatives {
		for _, u := range c.Uses {
			join(u.Start.X, u.If)
			join(u.End.X, u.If)
		}
	}
	for _, d := range p.Disjunctives {
		for _, t := range d.Tasks {
			join(t.Start.X, t.If)
			join(t.End.X, t.If)
		}
	}
	for _, c := range p.Calendars {
		join(c.At.X, c.If)
	}
	for x := range p.Vars {
		switch {
		case !n.held[x]:
		case !n.boolean[x]:
			n.centres = append(n.centres, Var(x))
		case !inBundle[x]:
			n.loose = append(n.loose, Var(x))
		}
	}
	return n
}

// pick draws a kind of neighbourhood.
func (n *neighbours) pick(give int) neighbourhood {
	switch r := n.rnd.IntN(10); {
	case r < 5:
		return closeInTime
	case r < 8 || give > 0: // with give, scattered ones found nothing on J120
		return tiedByLags
	}
	return scattered
}

// hold draws a neighbourhood of the kind and returns the atoms that hold everything else at the values, integers to
// within give.
func (n *neighbours) hold(kind neighbourhood, values []int, give int) []atom {
	free := make([]bool, len(values))
	k := min(int(n.size[kind][give]), len(n.centres))
	var chosen []Var
	switch {
	case len(n.centres) == 0:
	case kind == closeInTime:
		at := values[n.centres[n.rnd.IntN(len(n.centres))]]
		byTime := slices.Clone(n.centres)
		distance := func(x Var) int { return max(values[x]-at, at-values[x]) }
		slices.SortStableFunc(byTime, func(x, y Var) int { return cmp.Compare(distance(x), distance(y)) })
		chosen = byTime[:k]
	case kind == tiedByLags:
		chosen = n.tied(k)
	default:
		for range k {
			chosen = append(chosen, n.centres[n.rnd.IntN(len(n.centres))])
		}
	}
	for _, x := range chosen {
		free[x] = true
		for _, b := range n.bundle[x] {
			free[b] = true
		}
	}
	for _, x := range n.loose {
		free[x] = n.rnd.IntN(3) == 0
	}
	var atoms []atom
	for x, v := range values {
		if n.held[x] && !free[x] {
			w, d := viewOf(Var(x)), 0
			if !n.boolean[x] {
				d = give
			}
			atoms = append(atoms, atom{w, int32(v - d)}, atom{w ^ 1, int32(-v - d)})
		}
	}
	return atoms
}

// tied walks the time lags from a random centre, breadth first, and from another one when the walk ends.
func (n *neighbours) tied(k int) []Var {
	var out []Var
	seen := make([]bool, len(n.held))
	for next := 0; len(out) < k; next++ {
		if next == len(out) {
			x := n.centres[n.rnd.IntN(len(n.centres))]
			for seen[x] {
				x = n.centres[n.rnd.IntN(len(n.centres))]
			}
			seen[x] = true
			out = append(out, x)
		}
		ties := n.near[out[next]]
		for _, i := range n.rnd.Perm(len(ties)) {
			if y := ties[i]; !seen[y] && n.held[y] && len(out) < k {
				seen[y] = true
				out = append(out, y)
			}
		}
	}
	return out
}

// adapt makes the next neighbourhoods larger when one was searched through, smaller when it was too much.
func (n *neighbours) adapt(kind neighbourhood, give int, out outcome) {
	size := &n.size[kind][give]
	step := 0.05
	if give > 0 {
		step = 0.1
	}
	switch out {
	case refuted:
		*size = min(*size*(1+step), float64(len(n.centres)))
	case limited:
		*size = max(*size*(1-step), 2)
	}
}

// sliceWork is the work spent on one neighbourhood.
const sliceWork = 300_000

// explore searches neighbourhoods of the best solution for a better value of level l, for at most budget work.
func (s *solver) explore(l int, budget int64) {
	if len(s.near.centres)+len(s.near.loose) < 8 {
		return // small enough for the main search
	}
	if s.makespan(l) && s.small() {
		return
	}
	for end := s.e.work + budget; s.e.work < end && s.bound[l] < s.best[l] && !s.stopped; {
		give := 0
		if s.makespan(l) {
			give = 1 + s.near.rnd.IntN(mostGive)
		}
		kind := s.near.pick(give)
		s.branch.hinted = false
		out := s.run(s.better(l), s.near.hold(kind, s.values, give), sliceWork)
		s.learn(l, out, s.bound[l]-1) // a refutation is about the neighbourhood only
		s.near.adapt(kind, give, out)
	}
}

// makespan says whether level l is one integer variable. Then everything behind the neighbourhood must be able to
// move for the level to improve.
func (s *solver) makespan(l int) bool {
	t := s.p.Levels[l].Terms
	return len(t) == 1 && !s.near.boolean[t[0].X]
}
