package cp

import "fmt"

// Validate says what is wrong with the problem as data: the first fault found, named by its place. A valid problem
// may still be infeasible.
func (p *Problem) Validate() error {
	v := validator{n: Var(len(p.Vars))}
	for i, d := range p.Vars {
		v.at("variable %d (%s)", i, d.Name)
		v.number(d.Lo)
		v.number(d.Hi)
		if d.Lo > d.Hi {
			v.fault("empty domain %d..%d", d.Lo, d.Hi)
		}
	}
	v.constraints(p)
	v.levels(p)
	for i, a := range p.Assumptions {
		v.at("assumption %d (%s)", i, a.Name)
		v.lits(a.Lits)
	}
	for i, d := range p.Branch {
		v.at("branch %d", i)
		v.variable(d.X)
		if d.Prefer > Latest {
			v.fault("unknown preference %d", d.Prefer)
		}
	}
	v.at("start")
	if len(p.Start) != 0 && len(p.Start) != len(p.Vars) {
		v.fault("%d values for %d variables", len(p.Start), len(p.Vars))
	}
	return v.err
}

func (v *validator) constraints(p *Problem) {
	for i, c := range p.Clauses {
		v.at("clause %d", i)
		v.lits(c)
	}
	for i, l := range p.Lags {
		v.at("lag %d", i)
		v.points(l.From, l.To)
		v.number(l.Min)
		v.lits(l.If)
	}
	for i, l := range p.Linears {
		v.at("linear %d", i)
		v.number(l.Max)
		v.terms(l.Terms)
		v.lits(l.If)
	}
	for i, c := range p.Cumulatives {
		v.at("cumulative %d (%s)", i, c.Name)
		v.cumulative(c)
	}
	for i, d := range p.Disjunctives {
		v.at("disjunctive %d (%s)", i, d.Name)
		v.disjunctive(d)
	}
	for i, c := range p.Calendars {
		v.at("calendar %d", i)
		v.points(c.At)
		v.ranges(c.Forbidden)
		v.lits(c.If)
	}
	for i, g := range p.Guards {
		v.at("guard %d", i)
		v.points(g.Start, g.End)
		for _, w := range g.Watchers {
			v.ranges(w.Off)
			for _, b := range w.Busy {
				v.points(b.Start, b.End)
				v.lits(b.If)
			}
		}
	}
	for i, m := range p.Maxima {
		v.at("maximum %d", i)
		v.points(m.Y)
		v.points(m.Xs...)
		v.lits(m.If)
		if len(m.Xs) == 0 {
			v.fault("nothing to take the maximum of")
		}
	}
}

func (v *validator) cumulative(c Cumulative) {
	v.number(c.Capacity)
	if c.Capacity < 0 {
		v.fault("negative capacity %d", c.Capacity)
	}
	sum := 0
	for _, u := range c.Uses {
		v.points(u.Start, u.End)
		v.number(u.Demand)
		v.lits(u.If)
		if u.Demand < 0 {
			v.fault("negative demand %d", u.Demand)
		}
		sum += u.Demand
	}
	v.number(sum)
}

func (v *validator) levels(p *Problem) {
	for i, l := range p.Levels {
		v.at("level %d (%s)", i, l.Name)
		v.terms(l.Terms)
		v.number(l.Const)
		if v.err == nil {
			lo, hi := p.sumBounds(l.Terms)
			v.number(lo + l.Const)
			v.number(hi + l.Const)
		}
	}
}

// sumBounds is the least and greatest value that the terms can sum to over the variables' domains.
func (p *Problem) sumBounds(terms []Term) (lo, hi int) {
	for _, t := range terms {
		a, b := t.Coef*p.Vars[t.X].Lo, t.Coef*p.Vars[t.X].Hi
		lo += min(a, b)
		hi += max(a, b)
	}
	return lo, hi
}

// validator keeps the first fault, and the place in the problem that is being looked at.
type validator struct {
	n      Var
	format string
	args   []any
	err    error
}

func (v *validator) at(format string, args ...any) { v.format, v.args = format, args }

func (v *validator) fault(format string, args ...any) {
	if v.err == nil {
		v.err = fmt.Errorf("%s: %s", fmt.Sprintf(v.format, v.args...), fmt.Sprintf(format, args...))
	}
}

func (v *validator) number(x int) {
	if x < -MaxValue || x > MaxValue {
		v.fault("%d is out of range (±%d)", x, MaxValue)
	}
}

func (v *validator) variable(x Var) {
	if x < 0 || x >= v.n {
		v.fault("no variable %d", x)
	}
}

func (v *validator) points(ps ...Point) {
	for _, p := range ps {
		if p.X != None {
			v.variable(p.X)
		}
		v.number(p.Off)
	}
}

func (v *validator) lits(ls []Lit) {
	for _, l := range ls {
		if l.X != None {
			v.variable(l.X)
		}
		// One more than MaxValue may arise by negating a bound at the edge.
		if l.Bound < -2*MaxValue || l.Bound > 2*MaxValue {
			v.fault("literal bound %d is out of range", l.Bound)
		}
	}
}

func (v *validator) terms(ts []Term) {
	for _, t := range ts {
		v.variable(t.X)
		v.number(t.Coef)
	}
}

func (v *validator) ranges(rs []Range) {
	for i, r := range rs {
		v.number(r.From)
		v.number(r.To)
		if r.From >= r.To {
			v.fault("empty range %d..%d", r.From, r.To)
		}
		if i > 0 && rs[i-1].To > r.From {
			v.fault("ranges %d and %d are out of order or overlap", i-1, i)
		}
	}
}

func (v *validator) disjunctive(d Disjunctive) {
	for _, row := range d.Setup {
		if len(row) != len(d.Setup) {
			v.fault("setup is not square")
		}
		for _, s := range row {
			v.number(s)
			if s < 0 {
				v.fault("negative setup %d", s)
			}
		}
	}
	for i, t := range d.Tasks {
		v.points(t.Start, t.End)
		v.lits(t.If)
		if t.Kind < 0 || t.Kind >= max(1, len(d.Setup)) {
			v.fault("task %d has kind %d of %d", i, t.Kind, len(d.Setup))
		}
	}
}
