package cp

import (
	"cmp"
	"slices"
)

// brancher chooses decisions. In turn, restart by restart, it follows the problem's hints (schedule generation) and
// the activity of variables, where each goes towards its value in the best solution so far (solution phase saving,
// Demirović, Chu, Stuckey 2018).
type brancher struct {
	groups []group
	prefer []Prefer // by variable, what the hints say; Low without any
	phase  []int32  // by variable, the value to go towards; nil at first
	hinted bool     // this descent follows the hints
}

type group struct {
	number    int
	prefer    Prefer
	variables []int32
}

func newBrancher(p *Problem) *brancher {
	b := &brancher{prefer: make([]Prefer, len(p.Vars)), hinted: true}
	hints := slices.Clone(p.Branch)
	slices.SortStableFunc(hints, func(a, b Decision) int { return cmp.Compare(a.Group, b.Group) })
	listed := make([]bool, len(p.Vars))
	for _, h := range hints {
		if listed[h.X] {
			continue
		}
		listed[h.X] = true
		b.prefer[h.X] = h.Prefer
		if n := len(b.groups); n == 0 || b.groups[n-1].number != h.Group {
			b.groups = append(b.groups, group{number: h.Group, prefer: h.Prefer})
		}
		g := &b.groups[len(b.groups)-1]
		g.variables = append(g.variables, int32(h.X))
	}
	rest := group{prefer: Low}
	for x := range p.Vars {
		if !listed[x] {
			rest.variables = append(rest.variables, int32(x))
		}
	}
	b.groups = append(b.groups, rest)
	if len(p.Start) > 0 {
		b.aim(p.Start)
		b.hinted = false
	}
	return b
}

// aim sets the values to go towards.
func (b *brancher) aim(values []int) {
	if b.phase == nil {
		b.phase = make([]int32, len(values))
	}
	for x, v := range values {
		b.phase[x] = int32(v)
	}
}

// next is the next decision; ok is false when every variable is fixed.
func (b *brancher) next(e *engine) (a atom, ok bool) {
	x := -1
	if b.hinted {
		x = b.byHint(e)
	} else {
		for x = e.order.top(); x >= 0 && e.fixed(x); x = e.order.top() {
			e.order.pop()
		}
	}
	if x < 0 {
		return atom{}, false
	}
	w := viewOf(Var(x))
	lo, hi := e.lo[w], -e.lo[w^1]
	if b.phase != nil && !b.hinted {
		switch v := b.phase[x]; {
		case v >= hi:
			return atom{w, hi}, true
		case v > lo:
			return atom{w, v}, true
		}
		return atom{w ^ 1, -lo}, true
	}
	if p := b.prefer[x]; p == High || p == Latest {
		return atom{w, hi}, true
	}
	return atom{w ^ 1, -lo}, true
}

func (e *engine) fixed(x int) bool { return e.lo[2*x] == -e.lo[2*x+1] }

// byHint is the next variable in the order of the hints.
func (b *brancher) byHint(e *engine) int {
	for i := range b.groups {
		g := &b.groups[i]
		best, key, tie := -1, int32(0), int32(0)
		for _, x := range g.variables {
			lo, hi := e.lo[2*x], -e.lo[2*x+1]
			if lo == hi {
				continue
			}
			k, t := lo, hi
			switch g.prefer {
			case Low, High:
				return int(x)
			case Latest:
				k, t = -hi, -lo
			}
			if best < 0 || k < key || k == key && t < tie {
				best, key, tie = int(x), k, t
			}
		}
		e.work += int64(len(g.variables)) / 8
		if best >= 0 {
			return best
		}
	}
	return -1
}
