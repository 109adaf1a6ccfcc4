package solve

import (
	"tureen/planner/cp"
)

// model puts a graph to the scheduling engine: each rule of package planner's documentation has a file or a
// method here. Times are minutes from graph.origin.
//
// A model is built in one of three ways. To plan, every rule is a constraint. To explain why there is no plan, each
// rule that a host could give way on (or has to know of) hangs on a requirement: a Boolean that an assumption of the
// problem sets, so that the engine names those that clash. To find what would mend it, what a host could give way on
// has grades (concede.go).
//
// Every auxiliary variable comes with a derivation of its value from the plan's own (derive), so that a
// plan made elsewhere can be put to the model: as a warm start, and in tests as a question.
type model struct {
	*graph
	cp      cp.Problem
	explain bool
	caps    caps    // not nil: a search for spare time alone
	yields  *yields // not nil: a search for what to give way on
	tights  []cp.Term
	needs   []requirement
	needOf  map[string]int
	never   []requirement // what cannot be kept whatever the clock says; not empty: there is no plan

	work    []placed // by job
	serve   [][]cp.Var
	first   []cp.Point // by course, its first and its last serving
	last    []cp.Point
	loads   []ovenful
	heating []heat
	late    []cp.Term // misses of an evening plan, in bands of lateBand minutes
	misses  []cp.Term // OnTime: bands off the targets
	wishes  []cp.Var  // Booleans of levels that the first descent decides low, in this order
	verdict cp.Status
	past    []Requirement // what the plan found breaks by the checker's word
	derive  []func(v []int)
	held    []hold // what waits and steps take, for the plan's Uses
}

// placed is a job in the model. A settled one has constants, and no persons.
type placed struct {
	start, end cp.Point
	free       cp.Point // when its people and things are free, with time to spare
	tight      cp.Var   // it has no time to spare; cp.None when nobody asks
	person     []cp.Var // by person; cp.None where the person cannot
	modes      []mode   // by number of people, where more hands shorten the job
}

// mode is a number of people with the Boolean that chooses it.
type mode struct {
	people, length int
	chosen         cp.Var
}

const lateBand = 5 // minutes

func newModel(g *graph, explain bool, reached caps) *model {
	m := &model{graph: g, explain: explain, caps: reached, needOf: map[string]int{}}
	m.build()
	return m
}

func (m *model) build() {
	m.addJobsAndPeople()
	m.addSpare()
	m.addServings()
	m.addWaits()
	m.addHours()
	m.addHands()
	m.addWatches()
	m.addAnchors()
	m.addKeeping()
	m.addMarks()
	m.addNights()
	m.addEquipment()
	m.addCold()
	m.addCounterClock()
	m.addRefrigeratorClocks()
	m.addConceded()
	m.addLevels()
	if m.caps != nil {
		m.keepCaps()
	}
	m.addBranching()
	for _, r := range m.needs {
		m.cp.Assumptions = append(m.cp.Assumptions, cp.Assumption{Name: r.id, Lits: append(r.lits, r.on.True())})
	}
}

// requirement is something that a plan has to keep and that a host can understand.
type requirement struct {
	id   string
	on   cp.Var
	lits []cp.Lit
	say  func() Requirement
}

// need is the condition under which a requirement's constraints hold: nothing when planning, its Boolean when
// explaining.
func (m *model) need(id string, say func() Requirement) []cp.Lit {
	if !m.explain {
		return nil
	}
	i, known := m.needOf[id]
	if !known {
		i = len(m.needs)
		m.needOf[id] = i
		on := m.cp.NewBool(id)
		m.derived(on, func([]int) int { return 1 })
		m.needs = append(m.needs, requirement{id: id, on: on, say: say})
	}
	return []cp.Lit{m.needs[i].on.True()}
}

// cannot notes a requirement that no clock can keep.
func (m *model) cannot(say func() Requirement) {
	m.never = append(m.never, requirement{say: say})
}

// derived says how a variable's value follows from those made before it.
func (m *model) derived(x cp.Var, value func(v []int) int) {
	m.derive = append(m.derive, func(v []int) { v[x] = min(max(value(v), m.cp.Vars[x].Lo), m.cp.Vars[x].Hi) })
}

// at reads a point's value.
func at(p cp.Point, v []int) int {
	if p.X == cp.None {
		return p.Off
	}
	return v[p.X] + p.Off
}

func holds(l cp.Lit, v []int) bool {
	x := 0
	if l.X != cp.None {
		x = v[l.X]
	}
	if l.Upper {
		return x <= l.Bound
	}
	return x >= l.Bound
}

func (m *model) isConst(p cp.Point) bool { return p.X == cp.None }

// bounds are the least and the greatest value that a point can have by its variable's domain.
func (m *model) bounds(p cp.Point) (int, int) {
	if p.X == cp.None {
		return p.Off, p.Off
	}
	return m.cp.Vars[p.X].Lo + p.Off, m.cp.Vars[p.X].Hi + p.Off
}

// latest is a point at or after each of ps, and no later than it must be as far as the search cares.
func (m *model) latest(ps []cp.Point, name string) cp.Point {
	if p, ok := m.single(ps, false); ok {
		return p
	}
	return m.extreme(ps, false, name)
}

// earliest is the least of ps.
func (m *model) earliest(ps []cp.Point, name string) cp.Point {
	if p, ok := m.single(ps, true); ok {
		return p
	}
	return m.extreme(ps, true, name)
}

// single finds the extreme point where it is known without asking the clock.
func (m *model) single(ps []cp.Point, least bool) (cp.Point, bool) {
	for i, p := range ps {
		wins := true
		lo, hi := m.bounds(p)
		for k, q := range ps {
			if k == i || p.X == q.X && (p.Off == q.Off || (p.Off < q.Off) == least) {
				continue
			}
			qlo, qhi := m.bounds(q)
			if least && hi > qlo || !least && lo < qhi {
				wins = false
			}
		}
		if wins {
			return p, true
		}
	}
	return cp.Point{}, false
}

func (m *model) extreme(ps []cp.Point, least bool, name string) cp.Point {
	lo, hi := m.bounds(ps[0])
	for _, p := range ps[1:] {
		l, h := m.bounds(p)
		if least {
			lo, hi = min(lo, l), min(hi, h)
		} else {
			lo, hi = max(lo, l), max(hi, h)
		}
	}
	y := m.cp.NewVar(lo, hi, name)
	m.cp.Maxima = append(m.cp.Maxima, cp.Maximum{Y: y.At(), Xs: ps, Least: least})
	m.derived(y, func(v []int) int {
		best := at(ps[0], v)
		for _, p := range ps[1:] {
			if least {
				best = min(best, at(p, v))
			} else {
				best = max(best, at(p, v))
			}
		}
		return best
	})
	return y.At()
}

// gapAtMost adds to - from <= most, gapAtLeast to - from >= least.
func (m *model) gapAtMost(from, to cp.Point, most int, conds ...cp.Lit) {
	m.lag(to, from, -most, conds)
}

func (m *model) gapAtLeast(from, to cp.Point, least int, conds ...cp.Lit) {
	m.lag(from, to, least, conds)
}

// lag adds a lag, as a bound on one variable where the other end is a constant.
func (m *model) lag(from, to cp.Point, least int, conds []cp.Lit) {
	switch {
	case from.X == cp.None:
		m.cp.AddClause(unless(conds, to.AtLeast(from.Off+least))...)
	case to.X == cp.None:
		m.cp.AddClause(unless(conds, from.AtMost(to.Off-least))...)
	default:
		m.cp.AddLag(from, to, least, conds...)
	}
}

// unless is the clause "one of then, when all conditions hold".
func unless(conds []cp.Lit, then ...cp.Lit) []cp.Lit {
	out := make([]cp.Lit, 0, len(conds)+len(then))
	for _, c := range conds {
		out = append(out, c.Not())
	}
	return append(out, then...)
}

// join makes one list of conditions.
func join(lists ...[]cp.Lit) []cp.Lit {
	var out []cp.Lit
	for _, l := range lists {
		out = append(out, l...)
	}
	return out
}
