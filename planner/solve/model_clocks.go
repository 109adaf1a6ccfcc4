package solve

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/propose"
	"tureen/planner/trace"
)

// ageing is one of the food clocks of rule 2: a time that adds up along the waits. Each job that food passes through
// has a value, the clock at its end: a constant where nothing but fixed lengths adds up, else a variable at or above
// every way to reach it (a mixture inherits its oldest part).
type ageing struct {
	name string
	// waits says that the clock runs during a wait; works, in which part of a job it runs.
	waits func(a *arc) bool
	works func(j *duty, w placed) way
	// has says that there is such a clock at a job; passes that it goes on there from the food that goes into the job.
	has    func(j *duty) bool
	passes func(j *duty) bool
	// fresh says that the clock of a job may begin there, at begins; lowest is the least that begins ever says.
	// after is how long the clock runs on after the last serving; nil for never.
	after  func(n *node) int
	fresh  func(j *duty) bool
	begins func(j *duty) int
	lowest int
	// limit is the longest that the clock may show at the end of the job and of the waits after it; ok is false for
	// none.
	limit func(j *duty) (most int, ok bool)
	need  func(j *duty) []cp.Lit
	say   func(j *duty) Requirement
	value []cp.Point
	there []bool
}

func perishable(j *duty) bool { return j.food.Perishable }

// counterLimit is how long a job's food may be on the counter.
func (g *graph) counterLimit(j *duty) int {
	if j.food.Dough {
		return 2 * g.p.CounterLimit().Minutes
	}
	return g.p.CounterLimit().Minutes
}

// addCounterClock adds up time at room temperature. It begins anew behind a first cooking: the clock's value at the end
// of such a job is nothing, while the waits before it are held to what came into them.
func (m *model) addCounterClock() {
	for i := range m.p.Dishes {
		if far := propose.TooFar(m.p, &m.p.Dishes[i]); far != "" && !m.ask.Soft {
			m.cannot(func() Requirement { return Requirement{Limit: true, Text: far} })
		}
	}
	m.run(&ageing{
		name: "counter",
		waits: func(a *arc) bool {
			s := a.wait.State
			return perishable(m.nodes[a.from].jobs[0]) && (s == planner.Counter || s == planner.Warm || s == planner.Straight)
		},
		works: func(j *duty, w placed) way {
			return way{from: w.start, to: m.cooled(j, w),
				counts: perishable(j) && j.where == planner.Counter && !j.food.Hot}
		},
		has:    func(*duty) bool { return true },
		passes: func(j *duty) bool { return !j.food.Anew },
		fresh:  func(j *duty) bool { return j.food.Anew || j.way > 0 || !m.staysOnCounter(j) },
		begins: func(j *duty) int {
			if j.food.Anew {
				return -j.hot
			}
			return j.way
		},
		lowest: -m.hottest(),
		after: func(n *node) int {
			if !perishable(n.jobs[0]) {
				return 0
			}
			return int(propose.OnTable(m.p, n.dish))
		},
		limit: func(j *duty) (int, bool) { return m.counterLimit(j), perishable(j) },
		need:  m.needCounter, say: m.sayCounter,
	})
}

// staysOnCounter says of a job that its food comes to it over the counter alone and stands there in it, and that
// nothing that spoils joins it: then its clock only goes on, below nothing too while a joint is hot by itself.
func (m *model) staysOnCounter(j *duty) bool {
	fed := false
	for _, k := range j.node.in {
		switch a := &m.arcs[k]; {
		case a.fromStart:
		case a.wait.State == planner.Counter || a.wait.State == planner.Warm || a.wait.State == planner.Straight:
			fed = true
		default:
			return false
		}
	}
	return fed && j.where == planner.Counter && !j.food.Hot && !j.food.Joined
}

// hottest is the longest that any job's food is hot by itself.
func (m *model) hottest() int {
	most := 0
	for _, j := range m.jobs {
		most = max(most, j.hot)
	}
	return most
}

// addRefrigeratorClocks adds up time in the refrigerator, a clock for every sort of food that the party has.
func (m *model) addRefrigeratorClocks() {
	var all []trace.Cold
	for _, j := range m.jobs {
		for _, c := range j.food.Colds() {
			if m.p.RefrigeratorLimit(c.Kind).Applies() && !slices.Contains(all, c) {
				all = append(all, c)
			}
		}
	}
	for _, s := range all {
		has := func(j *duty) bool { return slices.Contains(j.food.Colds(), s) }
		most := m.p.RefrigeratorLimit(s.Kind).Minutes
		m.run(&ageing{
			name:  "refrigerator",
			waits: func(a *arc) bool { return a.wait.State == planner.Refrigerator },
			works: func(j *duty, w placed) way {
				from := w.start
				if j.where == planner.Counter { // what cools is as cold as in there once it is at 21 °C
					from = m.cooled(j, w)
				}
				if n := j.node; n != nil && j.where == planner.Refrigerator {
					from = m.thawed(w, propose.FrozenIn(m.p, n.dish, n.step, s.Kind))
				}
				return way{from: from, to: w.end,
					counts: j.where == planner.Refrigerator || j.where == planner.Counter && !j.food.Hot && from != w.end}
			},
			has:    has,
			passes: func(*duty) bool { return true },
			fresh:  func(*duty) bool { return true },
			begins: func(*duty) int { return 0 },
			limit:  func(j *duty) (int, bool) { return most, has(j) },
			need:   func(j *duty) []cp.Lit { return m.needRefrigerator(j, s.Kind) },
			say:    func(j *duty) Requirement { return m.sayRefrigerator(j, s.Kind) },
		})
	}
}

// thawed is when what is frozen for so long from a job's start counts as in the refrigerator.
func (m *model) thawed(w placed, frozen int) cp.Point {
	if m.isConst(w.start) && m.isConst(w.end) {
		return cp.Const(min(w.end.Off, w.start.Off+frozen))
	}
	return cp.Point{X: w.start.X, Off: w.start.Off + frozen}
}

// cooled is when a job's food stops counting as on the counter, if it is there: its end, or sooner where it cools.
func (m *model) cooled(j *duty, w placed) cp.Point {
	if j.fit == nil || j.fit.Cool == nil {
		return w.end
	}
	if m.isConst(w.start) && m.isConst(w.end) {
		return cp.Const(w.start.Off + j.fit.Warm(max(0, w.end.Off-w.start.Off)))
	}
	return cp.Point{X: w.start.X, Off: w.start.Off + j.fit.Cool.StageOne}
}

// run puts a clock over all steps, earlier ones first.
func (m *model) run(c *ageing) {
	c.value, c.there = make([]cp.Point, len(m.jobs)), make([]bool, len(m.jobs))
	for _, n := range m.order {
		for _, j := range n.rounds {
			m.tick(c, j)
		}
	}
	for k := range m.arcs {
		a := &m.arcs[k]
		if a.fromStart {
			continue
		}
		if a.to < 0 && c.after != nil {
			m.standOut(c, a)
		}
		if !c.waits(a) {
			continue
		}
		for _, p := range m.nodes[a.from].rounds {
			if !c.there[p.i] {
				continue
			}
			if a.to < 0 {
				m.capWait(c, p, m.last[a.course])
				continue
			}
			if !a.straight {
				for _, s := range m.nodes[a.to].rounds {
					m.capWait(c, p, m.work[s.i].start)
				}
			}
		}
	}
}

// standOut keeps what stands out after it is served within what its clock has left.
func (m *model) standOut(c *ageing, a *arc) {
	n := m.nodes[a.from]
	long := c.after(n)
	if long == 0 {
		return
	}
	for _, p := range n.rounds {
		if !c.there[p.i] {
			continue
		}
		m.within(c.value[p.i], long, c, p)
		if c.waits(a) {
			last := m.last[a.course]
			m.capWait(c, p, cp.Point{X: last.X, Off: last.Off + long})
		}
	}
}

// way is one way for time to reach a job: a value, and the wait to add where it counts.
type way struct {
	value    cp.Point
	from, to cp.Point
	counts   bool
}

// tick works out a clock's value at the end of a job, and keeps it within its limit.
func (m *model) tick(c *ageing, j *duty) {
	if c.there[j.i] = c.has(j); !c.there[j.i] {
		return
	}
	var ways []way
	if c.fresh(j) {
		ways = append(ways, way{value: cp.Const(c.begins(j))})
	}
	for _, k := range j.node.in {
		a := &m.arcs[k]
		if a.fromStart {
			continue
		}
		for _, p := range m.nodes[a.from].rounds {
			if !c.there[p.i] {
				continue
			}
			if c.passes(j) {
				ways = append(ways, way{c.value[p.i], m.work[p.i].end, m.work[j.i].start, c.waits(a) && !a.straight})
			}
		}
	}
	c.value[j.i] = m.oldest(c, j, ways, c.works(j, m.work[j.i]))
	m.within(c.value[j.i], 0, c, j)
	if j.soon != nil && c.after != nil {
		soon := *c
		soon.limit = func(j *duty) (int, bool) {
			if j.settled {
				return j.soon.Limit.Minutes, true // steaming off is no duty: it goes into the cold at once
			}
			return j.soon.Most, true
		}
		soon.need = func(j *duty) []cp.Lit {
			return m.need("soon cold "+string(j.Key), func() Requirement { return m.saySoon(j) })
		}
		soon.say = m.saySoon
		m.within(c.value[j.i], 0, &soon, j)
	}
}

// oldest is the greatest of the ways, with the job's own time added.
func (m *model) oldest(c *ageing, j *duty, ways []way, own way) cp.Point {
	var fixed, rest []way
	constant := c.lowest
	for _, w := range ways {
		k, ok := m.length(w)
		o, fixedOwn := m.length(own)
		if ok && fixedOwn && m.isConst(w.value) {
			fixed = append(fixed, w)
			constant = max(constant, w.value.Off+k+o)
			continue
		}
		rest = append(rest, w)
	}
	if len(rest) == 0 {
		return cp.Const(constant)
	}
	if len(rest) == 1 && len(fixed) <= 1 {
		// One way beside the start from nothing: the value itself, moved by a fixed length.
		k, ok := m.length(rest[0])
		o, fixedOwn := m.length(own)
		lo, _ := m.bounds(rest[0].value)
		if ok && fixedOwn && lo+k+o >= constant {
			return cp.Point{X: rest[0].value.X, Off: rest[0].value.Off + k + o}
		}
	}
	end := m.clockEnd(c, j)
	if constant > end {
		m.cannot(func() Requirement { return c.say(j) })
		end = constant
	}
	x := m.cp.NewVar(constant, end, fmt.Sprintf("%s clock of %s", c.name, j.Key))
	for _, w := range rest {
		m.addUp(w, own, x)
	}
	m.derived(x, func(v []int) int {
		most := constant
		for _, w := range rest {
			t := at(w.value, v)
			for _, s := range []way{w, own} {
				if s.counts {
					t += max(0, at(s.to, v)-at(s.from, v))
				}
			}
			most = max(most, t)
		}
		return most
	})
	return x.At()
}

// clockEnd bounds a clock's variable: its limit, or when explaining whatever the calendar holds.
func (m *model) clockEnd(c *ageing, j *duty) int {
	if most, ok := c.limit(j); ok && !m.explain {
		return max(most, 0)
	}
	return m.end + 40*24*60
}

// length is the time that a way adds, where it is known without the clock.
func (m *model) length(w way) (int, bool) {
	if !w.counts {
		return 0, true
	}
	if w.from.X == w.to.X {
		return max(0, w.to.Off-w.from.Off), true
	}
	return 0, false
}

// addUp keeps x at or above a way's value, its wait and the job's own time.
func (m *model) addUp(w, own way, x cp.Var) {
	terms := []cp.Term{{Coef: -1, X: x}}
	bound := 0
	add := func(coef int, p cp.Point) {
		bound -= coef * p.Off
		if p.X == cp.None {
			return
		}
		for i := range terms {
			if terms[i].X == p.X {
				terms[i].Coef += coef
				return
			}
		}
		terms = append(terms, cp.Term{Coef: coef, X: p.X})
	}
	add(1, w.value)
	for _, s := range []way{w, own} {
		if s.counts {
			add(1, s.to)
			add(-1, s.from)
		}
	}
	var left []cp.Term
	for _, t := range terms {
		if t.Coef != 0 {
			left = append(left, t)
		}
	}
	m.cp.AddLinear(left, bound)
}

// within keeps a value, and what is added to it, within the job's limit.
func (m *model) within(value cp.Point, added int, c *ageing, j *duty) {
	most, ok := c.limit(j)
	if !ok {
		return
	}
	if m.isConst(value) && value.Off+added <= most {
		return
	}
	need := c.need(j)
	if m.isConst(value) {
		if !m.explain {
			m.cannot(func() Requirement { return c.say(j) })
			return
		}
		m.cp.AddClause(unless(need)...)
		return
	}
	m.cp.AddClause(unless(need, value.AtMost(most-added))...)
}

// capWait keeps a wait within what its clock has left.
func (m *model) capWait(c *ageing, p *duty, to cp.Point) {
	most, ok := c.limit(p)
	if !ok {
		return
	}
	need, value, from := c.need(p), c.value[p.i], m.work[p.i].end
	if m.isConst(from) && m.isConst(to) {
		m.within(cp.Point{X: value.X, Off: value.Off}, max(0, to.Off-from.Off), c, p)
		return
	}
	lo, _ := m.bounds(value)
	m.gapAtMost(from, to, most-lo, need...)
	if m.isConst(value) {
		return
	}
	terms := []cp.Term{{Coef: 1, X: value.X}}
	bound := most - value.Off + from.Off - to.Off
	if to.X != cp.None {
		terms = append(terms, cp.Term{Coef: 1, X: to.X})
	}
	if from.X != cp.None {
		terms = append(terms, cp.Term{Coef: -1, X: from.X})
	}
	m.cp.AddLinear(terms, bound, need...)
}
