package solve

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/cp"
)

// ovenful is something in an oven, from one instant to another.
type ovenful struct {
	hold     int
	job      *duty
	use      *planner.Use
	from, to cp.Point
	end      cp.Point       // as to, but without the spare time that the level Spare asks for
	ovens    []int          // those that can take it
	in       map[int]cp.Var // by oven, where there is a choice
	set      cp.Point       // the setting in °C when it goes in
	out      cp.Point       // when it comes out
	alone    bool           // its temperature changes: it has the oven to itself
	shut     bool
	touched  bool
	empty    cp.Var // the load has no length; cp.None where it always has one
	settled  bool   // and comes out at a known minute
	begun    bool   // the job is settled: oven and setting are as they were told
}

// addLoad makes a load of a hold.
func (m *model) addLoad(i int) {
	h := &m.held[i]
	u := h.use
	l := ovenful{hold: i, job: h.job, use: u, from: h.from, to: h.free, end: h.to, alone: len(u.Then) > 0, shut: u.Shut,
		touched: h.job.Attention == planner.Touch &&
			h.to == m.work[h.job.i].end, empty: cp.None, settled: h.settled, begun: h.job.settled}
	for k := range m.p.Kitchen.Ovens {
		if o := &m.p.Kitchen.Ovens[k]; u.Name == "" || u.Name == o.Name {
			if lo, hi := settings(o, u); lo <= hi && u.Units() <= o.Shelves || l.begun {
				l.ovens = append(l.ovens, k)
			}
		}
	}
	if len(l.ovens) == 0 {
		m.cannot(func() Requirement { return Requirement{Text: m.sayNoOven(h), Task: h.job.Key} })
		return
	}
	if l.begun {
		m.settleLoad(&l)
	} else {
		m.chooseOven(&l)
	}
	if _, hi := m.bounds(h.to); h.from.X != h.to.X && !h.settled && hi >= m.now {
		l.empty = m.cp.NewBool("no load " + string(h.job.Key))
		m.gapAtMost(h.from, h.to, 0, l.empty.True())
		m.derived(l.empty, func(v []int) int { return truth(at(h.to, v) <= at(h.from, v)) })
	}
	h.load = len(m.loads)
	m.loads = append(m.loads, l)
}

// settings are the °C that a use accepts in this oven; none when lo > hi.
func settings(o *planner.Oven, u *planner.Use) (lo, hi int) {
	switch {
	case u.C == 0 && len(u.Then) == 0:
		return 0, 0
	case len(u.Then) > 0:
		for _, s := range u.Then {
			if s.C != 0 && (s.C < o.MinC || s.C > o.MaxC) {
				return 1, 0
			}
		}
		if u.C != 0 && (u.C < o.MinC || u.C > o.MaxC) {
			return 1, 0
		}
		return u.C, u.C
	}
	return max(u.C-u.Tolerance, o.MinC), min(u.C+u.Tolerance, o.MaxC)
}

// settleLoad takes a begun load's oven and setting from the plan in force: what it held from the job's start for a
// use, from its end for the wait after it.
func (m *model) settleLoad(l *ovenful) {
	oven, c := l.ovens[0], l.use.C
	if t := l.job.told; t != nil {
		from := t.Start
		if l.from == m.work[l.job.i].end {
			from = t.End
		}
		found := false
		for _, u := range t.Uses {
			if u.What != planner.AnOven || found && !u.From.Equal(from) {
				continue
			}
			for _, k := range l.ovens {
				if m.p.Kitchen.Ovens[k].Name == u.Name {
					oven, c, found = k, u.C, true
				}
			}
		}
	}
	l.ovens = []int{oven}
	l.set, l.out = cp.Const(c), cp.Const(c)
	if l.alone {
		l.out = cp.Const(l.use.Then[len(l.use.Then)-1].C)
	}
}

func (m *model) chooseOven(l *ovenful) {
	name := string(l.job.Key)
	if len(l.ovens) > 1 {
		l.in = map[int]cp.Var{}
		var one []cp.Var
		for _, k := range l.ovens {
			l.in[k] = m.cp.NewBool(fmt.Sprintf("%s in %s", name, m.p.Kitchen.Ovens[k].Name))
			one = append(one, l.in[k])
		}
		m.cp.ExactlyOne(one...)
	}
	lo, hi := 1<<20, 0
	for _, k := range l.ovens {
		a, b := settings(&m.p.Kitchen.Ovens[k], l.use)
		lo, hi = min(lo, a), max(hi, b)
	}
	if lo == hi {
		l.set = cp.Const(lo)
	} else {
		set := m.cp.NewVar(lo, hi, name+" °C")
		l.set = set.At()
		for _, k := range l.ovens {
			a, b := settings(&m.p.Kitchen.Ovens[k], l.use)
			m.cp.AddClause(unless(l.inside(k), set.AtLeast(a))...)
			m.cp.AddClause(unless(l.inside(k), set.AtMost(b))...)
		}
	}
	l.out = l.set
	if l.alone {
		l.out = cp.Const(l.use.Then[len(l.use.Then)-1].C)
	}
}

// inside is the condition that the load is in an oven.
func (l *ovenful) inside(k int) []cp.Lit {
	if l.in == nil {
		return nil
	}
	return []cp.Lit{l.in[k].True()}
}

func (l *ovenful) real() []cp.Lit {
	if l.empty == cp.None {
		return nil
	}
	return []cp.Lit{l.empty.False()}
}

// addOvens keeps loads that share an oven on one setting and within the shelves, and leaves time to change over
// otherwise.
func (m *model) addOvens() {
	m.findHeat()
	for k := range m.p.Kitchen.Ovens {
		m.addShelves(k)
		m.addPreheat(k)
	}
	for j := range m.loads {
		for i := range m.loads[:j] {
			if a, b := &m.loads[i], &m.loads[j]; !(a.begun && b.begun) {
				m.sharing(a, b)
			}
		}
	}
}

func (m *model) addShelves(k int) {
	o := &m.p.Kitchen.Ovens[k]
	r := cp.Cumulative{Name: "shelves of " + o.Name, Capacity: o.Shelves}
	sum := 0
	var fixed []block
	for i := range m.loads {
		l := &m.loads[i]
		switch {
		case !slices.Contains(l.ovens, k):
		case l.settled:
			fixed = append(fixed, block{l.from.Off, l.to.Off, l.use.Units()})
		default:
			sum += l.use.Units()
			r.Uses = append(r.Uses, cp.Use{Start: l.from, End: l.to, Demand: l.use.Units(),
				If: join(l.inside(k), m.needOven(k))})
		}
	}
	for _, s := range clipped(fixed, m.now, o.Shelves) {
		sum += s.demand
		r.Uses = append(r.Uses, cp.Use{Start: cp.Const(s.from), End: cp.Const(s.to), Demand: s.demand,
			If: m.needOven(k)})
	}
	if sum > o.Shelves {
		m.cp.Cumulatives = append(m.cp.Cumulatives, r)
	}
}

// sharing puts two loads one after the other, or together on one setting, wherever they are in the same oven.
func (m *model) sharing(a, b *ovenful) {
	var both []int
	for _, k := range a.ovens {
		if slices.Contains(b.ovens, k) {
			both = append(both, k)
		}
	}
	if len(both) == 0 {
		return
	}
	name := fmt.Sprintf("%s and %s", a.job.Key, b.job.Key)
	ab, ba := m.cp.NewBool(name+" in turn"), m.cp.NewBool(name+" in turn, reversed")
	m.derived(ab, func(v []int) int { return truth(at(a.to, v) <= at(b.from, v)) })
	m.derived(ba, func(v []int) int { return truth(at(b.to, v) <= at(a.from, v) && v[ab] == 0) })
	m.gapAtLeast(a.to, b.from, 0, ab.True())
	m.gapAtLeast(b.to, a.from, 0, ba.True())
	choice := []cp.Lit{ab.True(), ba.True()}
	if together, ok := m.together(a, b, name, ab, ba); ok {
		choice = append(choice, together.True())
	}
	for _, l := range []*ovenful{a, b} {
		if l.empty != cp.None {
			choice = append(choice, l.empty.True())
		}
	}
	for _, k := range both {
		o := &m.p.Kitchen.Ovens[k]
		here := join(a.inside(k), b.inside(k), m.needOven(k))
		real := join(here, a.real(), b.real())
		m.cp.AddClause(unless(here, choice...)...)
		if !m.staysFor(a, b) {
			m.changeOver(o, a, b, join(real, []cp.Lit{ab.True()}))
		}
		if !m.staysFor(b, a) {
			m.changeOver(o, b, a, join(real, []cp.Lit{ba.True()}))
		}
	}
}

// staysFor says that the food of a stays in the oven for b while the setting changes: b is the wait after it, or,
// in an evening plan, the step after its wait.
func (m *model) staysFor(a, b *ovenful) bool {
	then := m.held[a.hold].then
	goesOn := a.job == b.job || m.ask.Soft && then != nil && then == b.job.node
	return goesOn && a.end == b.from
}

// together is the Boolean that two loads share an oven at the same time, where their settings and doors allow it.
func (m *model) together(a, b *ovenful, name string, ab, ba cp.Var) (cp.Var, bool) {
	alo, ahi := m.bounds(a.set)
	blo, bhi := m.bounds(b.set)
	if a.alone || b.alone || ahi < blo || bhi < alo || a.shut && b.touched || b.shut && a.touched {
		return cp.None, false
	}
	x := m.cp.NewBool(name + " together")
	m.derived(x, func(v []int) int { return truth(v[ab] == 0 && v[ba] == 0 && a.meets(b, v)) })
	m.equal(a.set, b.set, x.True())
	if a.shut { // b is in before it shuts, and stays until it opens
		m.gapAtLeast(b.from, a.from, 0, x.True())
		m.gapAtLeast(a.end, b.end, 0, x.True())
	}
	if b.shut {
		m.gapAtLeast(a.from, b.from, 0, x.True())
		m.gapAtLeast(b.end, a.end, 0, x.True())
	}
	return x, true
}

// meets says whether two loads, of which neither is empty, are in one oven.
func (l *ovenful) meets(o *ovenful, v []int) bool {
	if l.empty != cp.None && v[l.empty] == 1 || o.empty != cp.None && v[o.empty] == 1 {
		return false
	}
	return slices.ContainsFunc(l.ovens, func(k int) bool {
		return slices.Contains(o.ovens, k) && (l.in == nil || v[l.in[k]] == 1) && (o.in == nil || v[o.in[k]] == 1)
	})
}

func (m *model) equal(a, b cp.Point, conds ...cp.Lit) {
	if a == b {
		return
	}
	m.lag(a, b, 0, conds)
	m.lag(b, a, 0, conds)
}

func truth(b bool) int {
	if b {
		return 1
	}
	return 0
}
