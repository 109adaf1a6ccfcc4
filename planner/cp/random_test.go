package cp

import "math/rand/v2"

// random draws small problems in which every kind of constraint occurs, small enough to be enumerated.
type random struct {
	*rand.Rand
	p *Problem
}

func newRandom(seed uint64) *random { return &random{rand.New(rand.NewPCG(seed, 1)), &Problem{}} }

// problem draws times (domain up to 0..7), Booleans and a handful of constraints.
func (r *random) problem() *Problem {
	p := r.p
	times := 2 + r.IntN(3)
	r.vars(times, 1+r.IntN(3))
	for range 1 + r.IntN(5) {
		r.constraint(times)
	}
	for range r.IntN(3) {
		p.Levels = append(p.Levels, Level{Name: "l", Terms: r.terms(), Const: r.IntN(5)})
	}
	for range r.IntN(4) {
		p.Assumptions = append(p.Assumptions, Assumption{Name: "a", Lits: r.lits(1 + r.IntN(2))})
	}
	r.hints()
	return p
}

// planted draws a problem that is tight and yet has a solution: constraints come as long as one drawn assignment keeps
// them. Such problems are searched, where most of the others fall to propagation.
func (r *random) planted() *Problem {
	p := r.p
	times := 4 + r.IntN(2)
	r.vars(times, 2)
	witness := make([]int, len(p.Vars))
	for x, d := range p.Vars {
		witness[x] = d.Lo + r.IntN(d.Hi-d.Lo+1)
	}
	for range 20 {
		before := *p
		if r.constraint(times); Check(p, witness) != nil {
			*p = before
		}
	}
	for range 1 + r.IntN(2) {
		p.Levels = append(p.Levels, Level{Name: "l", Terms: append(r.terms(), r.terms()...)})
	}
	r.hints()
	return p
}

func (r *random) vars(times, bools int) {
	for range times {
		lo := r.IntN(3) - 1
		r.p.NewVar(lo, lo+2+r.IntN(5), "t")
	}
	for range bools {
		r.p.NewBool("b")
	}
}

// constraint adds one of a kind drawn; the first times variables are times.
func (r *random) constraint(times int) {
	p := r.p
	kinds := []func(){
		func() { p.AddClause(r.lits(1 + r.IntN(3))...) },
		func() { p.AddLag(r.point(), r.point(), r.IntN(7)-3, r.conds()...) },
		func() { p.AddLinear(r.terms(), r.IntN(9)-2, r.conds()...) },
		func() { p.Cumulatives = append(p.Cumulatives, r.cumulative()) },
		func() { p.Cumulatives = append(p.Cumulatives, r.packed(times)) },
		func() { p.Disjunctives = append(p.Disjunctives, r.disjunctive()) },
		func() { p.Calendars = append(p.Calendars, Calendar{r.point(), r.ranges(), r.conds()}) },
		func() { p.Guards = append(p.Guards, r.guard()) },
		func() {
			m := Maximum{Y: r.point(), Least: r.IntN(2) == 0, If: r.conds()}
			for range 1 + r.IntN(3) {
				m.Xs = append(m.Xs, r.point())
			}
			p.Maxima = append(p.Maxima, m)
		},
	}
	kinds[r.IntN(len(kinds))]()
}

func (r *random) hints() {
	for x := range r.p.Vars {
		if r.IntN(2) == 0 {
			r.p.Branch = append(r.p.Branch, Decision{Var(x), Prefer(r.IntN(4)), r.IntN(2)})
		}
	}
}

func (r *random) variable() Var { return Var(r.IntN(len(r.p.Vars))) }

func (r *random) point() Point {
	if r.IntN(8) == 0 {
		return Const(r.IntN(6))
	}
	return r.variable().Plus(r.IntN(4) - 1)
}

func (r *random) lits(n int) []Lit {
	ls := make([]Lit, n)
	for i := range ls {
		x := r.variable()
		d := r.p.Vars[x]
		ls[i] = x.AtLeast(d.Lo + r.IntN(d.Hi-d.Lo+2))
		if r.IntN(2) == 0 {
			ls[i] = ls[i].Not()
		}
	}
	return ls
}

// conds is empty half of the time.
func (r *random) conds() []Lit { return r.lits(max(0, r.IntN(4)-1)) }

func (r *random) terms() []Term {
	ts := make([]Term, 1+r.IntN(4))
	for i := range ts {
		ts[i] = Term{r.IntN(7) - 3, r.variable()}
	}
	return ts
}

// interval has a fixed duration two times in three.
func (r *random) interval() (s, e Point) {
	s = r.point()
	if r.IntN(3) > 0 {
		return s, Point{s.X, s.Off + r.IntN(4)}
	}
	return s, r.point()
}

func (r *random) cumulative() Cumulative {
	c := Cumulative{Name: "c", Capacity: 1 + r.IntN(3)}
	for range 2 + r.IntN(3) {
		s, e := r.interval()
		c.Uses = append(c.Uses, Use{s, e, r.IntN(3), r.conds()})
	}
	return c
}

// packed is a resource whose uses are all there, of fixed duration and tight together, for reasoning about energy.
func (r *random) packed(times int) Cumulative {
	c := Cumulative{Name: "packed", Capacity: 2 + r.IntN(2)}
	for x := range 3 + r.IntN(2) {
		s := Var(x % times).Plus(r.IntN(2) * (x / times))
		c.Uses = append(c.Uses, Use{s, Point{s.X, s.Off + 1 + r.IntN(3)}, 1 + r.IntN(2), nil})
	}
	return c
}

func (r *random) disjunctive() Disjunctive {
	d := Disjunctive{Name: "d"}
	kinds := 1
	if r.IntN(2) == 0 {
		kinds = 2
		d.Setup = [][]int{{0, r.IntN(3)}, {r.IntN(3), 0}}
	}
	for range 2 + r.IntN(2) {
		s, e := r.interval()
		d.Tasks = append(d.Tasks, DisjTask{s, e, r.IntN(kinds), r.conds()})
	}
	return d
}

func (r *random) ranges() []Range {
	var rs []Range
	t := r.IntN(4) - 2
	for range 1 + r.IntN(2) {
		to := t + 1 + r.IntN(3)
		rs = append(rs, Range{t, to})
		t = to + r.IntN(3)
	}
	return rs
}

func (r *random) guard() Guard {
	var g Guard
	g.Start, g.End = r.interval()
	for range 1 + r.IntN(3) {
		var w Watcher
		if r.IntN(2) == 0 {
			w.Off = r.ranges()
		}
		for range r.IntN(3) {
			s, e := r.interval()
			w.Busy = append(w.Busy, Absence{s, e, r.conds()})
		}
		g.Watchers = append(g.Watchers, w)
	}
	return g
}

// enumerate calls f with every assignment of the variables' domains until it returns false.
func enumerate(p *Problem, f func(values []int) bool) {
	values := make([]int, len(p.Vars))
	var rec func(x int) bool
	rec = func(x int) bool {
		if x == len(values) {
			return f(values)
		}
		for v := p.Vars[x].Lo; v <= p.Vars[x].Hi; v++ {
			values[x] = v
			if !rec(x + 1) {
				return false
			}
		}
		return true
	}
	rec(0)
}
