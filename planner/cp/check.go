package cp

import (
	"fmt"
	"slices"
)

// Check says whether the values (one a variable) keep every domain, constraint and assumption of a valid problem; nil
// if they do, else the first one broken. It is written from the meaning of the constraints and shares no code with
// the search.
func Check(p *Problem, values []int) error {
	if len(values) != len(p.Vars) {
		return fmt.Errorf("%d values for %d variables", len(values), len(p.Vars))
	}
	c := checker{values}
	for i, d := range p.Vars {
		if values[i] < d.Lo || values[i] > d.Hi {
			return fmt.Errorf("variable %d (%s) = %d is outside %d..%d", i, d.Name, values[i], d.Lo, d.Hi)
		}
	}
	for i, cl := range p.Clauses {
		if !slices.ContainsFunc(cl, c.holds) {
			return fmt.Errorf("clause %d: no literal holds", i)
		}
	}
	for i, l := range p.Lags {
		if c.all(l.If) && c.point(l.To) < c.point(l.From)+l.Min {
			return fmt.Errorf("lag %d: %d < %d + %d", i, c.point(l.To), c.point(l.From), l.Min)
		}
	}
	for i, l := range p.Linears {
		if s := c.sum(l.Terms); c.all(l.If) && s > l.Max {
			return fmt.Errorf("linear %d: sum %d > %d", i, s, l.Max)
		}
	}
	for i, r := range p.Cumulatives {
		if err := c.cumulative(r); err != nil {
			return fmt.Errorf("cumulative %d (%s): %w", i, r.Name, err)
		}
	}
	for i, d := range p.Disjunctives {
		if err := c.disjunctive(d); err != nil {
			return fmt.Errorf("disjunctive %d (%s): %w", i, d.Name, err)
		}
	}
	for i, k := range p.Calendars {
		if t := c.point(k.At); c.all(k.If) && inRanges(k.Forbidden, t) {
			return fmt.Errorf("calendar %d: %d is forbidden", i, t)
		}
	}
	for i, g := range p.Guards {
		if err := c.guard(g); err != nil {
			return fmt.Errorf("guard %d: %w", i, err)
		}
	}
	for i, m := range p.Maxima {
		best := c.point(m.Xs[0])
		for _, x := range m.Xs {
			if m.Least {
				best = min(best, c.point(x))
			} else {
				best = max(best, c.point(x))
			}
		}
		if y := c.point(m.Y); c.all(m.If) && y != best {
			return fmt.Errorf("maximum %d: %d instead of %d", i, y, best)
		}
	}
	for i, a := range p.Assumptions {
		if !c.all(a.Lits) {
			return fmt.Errorf("assumption %d (%s) does not hold", i, a.Name)
		}
	}
	return nil
}

// Value is what the level's objective comes to under the values.
func (l Level) Value(values []int) int { return checker{values}.sum(l.Terms) + l.Const }

// checker evaluates parts of a problem under an assignment.
type checker struct{ values []int }

func (c checker) point(p Point) int {
	if p.X == None {
		return p.Off
	}
	return c.values[p.X] + p.Off
}

func (c checker) holds(l Lit) bool {
	v := 0
	if l.X != None {
		v = c.values[l.X]
	}
	if l.Upper {
		return v <= l.Bound
	}
	return v >= l.Bound
}

func (c checker) all(ls []Lit) bool {
	for _, l := range ls {
		if !c.holds(l) {
			return false
		}
	}
	return true
}

func (c checker) sum(ts []Term) int {
	s := 0
	for _, t := range ts {
		s += t.Coef * c.values[t.X]
	}
	return s
}

// cumulative looks at the starts of the uses alone: a sum of intervals is greatest at one of them.
func (c checker) cumulative(r Cumulative) error {
	for _, at := range r.Uses {
		t, sum := c.point(at.Start), 0
		for _, u := range r.Uses {
			if c.all(u.If) && c.point(u.Start) <= t && t < c.point(u.End) {
				sum += u.Demand
			}
		}
		if sum > r.Capacity {
			return fmt.Errorf("%d in use at %d, capacity %d", sum, t, r.Capacity)
		}
	}
	return nil
}

func (c checker) disjunctive(d Disjunctive) error {
	setup := func(a, b DisjTask) int {
		if d.Setup == nil {
			return 0
		}
		return d.Setup[a.Kind][b.Kind]
	}
	for j, b := range d.Tasks {
		for i, a := range d.Tasks[:j] {
			if !c.all(a.If) || !c.all(b.If) {
				continue
			}
			if c.point(b.Start) < c.point(a.End)+setup(a, b) && c.point(a.Start) < c.point(b.End)+setup(b, a) {
				return fmt.Errorf("tasks %d and %d overlap", i, j)
			}
		}
	}
	return nil
}

// guard looks at the instants where a watcher may leave: the guard's start, and the starts of all absences within.
func (c checker) guard(g Guard) error {
	start, end := c.point(g.Start), c.point(g.End)
	instants := []int{start}
	for _, w := range g.Watchers {
		for _, r := range w.Off {
			instants = append(instants, r.From)
		}
		for _, b := range w.Busy {
			instants = append(instants, c.point(b.Start))
		}
	}
	for _, t := range instants {
		if t < start || t >= end {
			continue
		}
		if !slices.ContainsFunc(g.Watchers, func(w Watcher) bool { return c.watches(w, t) }) {
			return fmt.Errorf("nobody watches at %d", t)
		}
	}
	return nil
}

func (c checker) watches(w Watcher, t int) bool {
	for _, b := range w.Busy {
		if c.all(b.If) && c.point(b.Start) <= t && t < c.point(b.End) {
			return false
		}
	}
	return !inRanges(w.Off, t)
}

func inRanges(rs []Range, t int) bool {
	return slices.ContainsFunc(rs, func(r Range) bool { return r.From <= t && t < r.To })
}
