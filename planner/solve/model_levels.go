package solve

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/cp"
)

// missedLevel is the engine's first level in an evening plan: what may be missed, as little as can be. It is not one
// of the plan's levels.
const missedLevel = "missed"

// addLevels states what makes a plan good, as the levels are defined in package planner, in their order.
func (m *model) addLevels() {
	if m.explain || m.yields != nil {
		return
	}
	if len(m.late) > 0 {
		m.level(missedLevel, m.late, 0)
	}
	for _, l := range m.p.Levels() {
		switch l {
		case planner.OnTime:
			m.level(string(planner.OnTime), m.misses, 0)
		case planner.HostFree:
			m.addHostFree()
		case planner.AtBest:
			m.addAtBest()
		case planner.Steady:
			if m.ask.InForce != nil {
				m.addSteady()
			}
		case planner.Ahead:
			m.addAhead()
		case planner.Calm:
			m.addCalm()
		case planner.Shared:
			m.addShared()
		case planner.Spare: // is looked for afterwards, in a search of its own (makeRoom)
		}
	}
}

func (m *model) level(name string, terms []cp.Term, constant int) {
	m.cp.Levels = append(m.cp.Levels, cp.Level{Name: name, Terms: terms, Const: constant})
}

// touches is the clause part "the job does not touch the stretch", with the derivation of whether it does.
func touches(w placed, r cp.Range, v []int) bool {
	return at(w.start, v) < r.To && at(w.end, v) > r.From
}

// busyIn makes a Boolean that is true when a person has hands work of the given jobs in a stretch; known says that it
// is so whatever the plan.
func (m *model) busyIn(p int, r cp.Range, of []*duty, name string) (x cp.Var, always, ever bool) {
	type may struct {
		cond []cp.Lit
		w    placed
	}
	var mays []may
	for _, j := range of {
		w := m.work[j.i]
		if j.settled {
			if j.start < r.To && j.end > r.From && slices.Contains(m.peopleOf(j), m.people[p].Key) {
				return cp.None, true, true
			}
			continue
		}
		cond, ok := m.by(j, p)
		if !ok {
			continue
		}
		slo, _ := m.bounds(w.start)
		_, ehi := m.bounds(w.end)
		if slo >= r.To || ehi <= r.From {
			continue
		}
		mays = append(mays, may{cond, w})
	}
	if len(mays) == 0 {
		return cp.None, false, false
	}
	x = m.cp.NewBool(name)
	for _, y := range mays {
		m.cp.AddClause(unless(y.cond, y.w.start.AtLeast(r.To), y.w.end.AtMost(r.From), x.True())...)
	}
	m.derived(x, func(v []int) int {
		return truth(slices.ContainsFunc(mays, func(y may) bool {
			for _, c := range y.cond {
				if !holds(c, v) {
					return false
				}
			}
			return touches(y.w, r, v)
		}))
	})
	return x, false, true
}

// handsJobs are the jobs that take hands, without those that keep says no to.
func (m *model) handsJobs(keep func(j *duty) bool) []*duty {
	var out []*duty
	for _, j := range m.jobs {
		if j.Attention == planner.Hands && !j.skipped && keep(j) {
			out = append(out, j)
		}
	}
	return out
}

// addHostFree counts the quarters of an hour around dinner in which a host has hands work.
func (m *model) addHostFree() {
	terms, constant := m.dinnerWork(func(p *planner.Person) bool { return p.Role == planner.Host })
	m.level(string(planner.HostFree), terms, constant)
}

// dinnerWork counts the quarters of an hour around dinner in which somebody of a kind has hands work.
func (m *model) dinnerWork(of func(*planner.Person) bool) (terms []cp.Term, constant int) {
	const quarter = 15
	from, to := m.minute(m.p.Arrival)-30, m.minute(m.p.Arrival)-30
	for _, c := range m.p.Courses {
		for _, s := range c.Servings {
			to = max(to, m.minute(s.At))
		}
	}
	jobs := m.handsJobs(func(j *duty) bool { return j.chore.AtDinner() && (j.node == nil || !j.node.step.Serves()) })
	for p, person := range m.people {
		if !of(person) {
			continue
		}
		for t := from; t < to; t += quarter {
			r := cp.Range{From: t, To: min(t+quarter, to)}
			x, always, ever := m.busyIn(p, r, jobs, fmt.Sprintf("%s works at %d", person.Key, t))
			switch {
			case always:
				constant++
			case ever:
				terms = append(terms, cp.Term{Coef: 1, X: x})
			}
		}
	}
	m.hint(terms)
	return terms, constant
}

// hint has the first descent decide a level's Booleans, low, before it looks at the clock.
func (m *model) hint(terms []cp.Term) {
	for _, t := range terms {
		m.wishes = append(m.wishes, t.X)
	}
}

// addAtBest counts, for every wait with a best time, how far its gap misses it.
func (m *model) addAtBest() {
	misses := []int{0, 60, 6 * 60, 24 * 60}
	var terms []cp.Term
	constant := 0
	one := func(k int, a *arc, from, to cp.Point) {
		off := func(gap int) int {
			switch {
			case gap < int(a.wait.BestFrom):
				return int(a.wait.BestFrom) - gap
			case a.wait.BestUntil > 0 && gap > int(a.wait.BestUntil):
				return gap - int(a.wait.BestUntil)
			}
			return 0
		}
		for _, miss := range misses {
			if m.isConst(from) && m.isConst(to) {
				constant += truth(off(to.Off-from.Off) > miss)
				continue
			}
			x := m.cp.NewBool(fmt.Sprintf("wait %d off by %d", k, miss))
			if least := int(a.wait.BestFrom) - miss; least > 0 {
				m.gapAtLeast(from, to, least, x.False())
			}
			if a.wait.BestUntil > 0 {
				m.gapAtMost(from, to, int(a.wait.BestUntil)+miss, x.False())
			}
			m.derived(x, func(v []int) int { return truth(off(at(to, v)-at(from, v)) > miss) })
			terms = append(terms, cp.Term{Coef: 1, X: x})
		}
	}
	for k := range m.arcs {
		a := &m.arcs[k]
		if a.fromStart || a.wait.BestFrom == 0 && a.wait.BestUntil == 0 {
			continue
		}
		for _, p := range m.nodes[a.from].rounds {
			if a.to < 0 {
				for _, x := range m.serve[a.course] {
					one(k, a, m.work[p.i].end, x.At())
				}
				continue
			}
			for _, s := range m.nodes[a.to].rounds {
				if s.settled && !p.settled {
					continue // p comes too late for it
				}
				one(k, a, m.work[p.i].end, m.work[s.i].start)
			}
		}
	}
	m.hint(terms)
	m.level(string(planner.AtBest), terms, constant)
}

// addSteady counts what people would have to be told anew, against the plan in force.
func (m *model) addSteady() {
	const told = 30 // a start that moves by no more is not counted
	var terms []cp.Term
	constant := 0
	for _, j := range m.jobs {
		w := m.work[j.i]
		if j.told == nil || j.settled || w.person == nil {
			continue
		}
		if len(j.told.People) > 0 {
			switch p := m.personIndex(j.told.People[0]); {
			case p < 0 || w.person[p] == cp.None:
				constant += 2
			case m.cp.Vars[w.person[p]].Lo < 1:
				terms = append(terms, cp.Term{Coef: -2, X: w.person[p]})
				constant += 2
			}
		}
		before := m.minute(j.told.Start)
		lo, hi := m.localDay(j.told.Start)
		moved, day := m.cp.NewBool(string(j.Key)+" moved"), m.cp.NewBool(string(j.Key)+" on another day")
		m.cp.AddClause(moved.True(), w.start.AtLeast(before-told))
		m.cp.AddClause(moved.True(), w.start.AtMost(before+told))
		m.cp.AddClause(day.True(), w.start.AtLeast(lo))
		m.cp.AddClause(day.True(), w.start.AtMost(hi-1))
		m.cp.AddClause(day.False(), moved.True())
		m.derived(day, func(v []int) int { return truth(at(w.start, v) < lo || at(w.start, v) >= hi) })
		m.derived(moved, func(v []int) int {
			t := at(w.start, v)
			return truth(v[day] == 1 || t < before-told || t > before+told)
		})
		terms = append(terms, cp.Term{Coef: 1, X: moved}, cp.Term{Coef: 2, X: day})
	}
	m.level(string(planner.Steady), terms, constant)
}

// localDay is the local day of an instant, in minutes.
func (g *graph) localDay(t time.Time) (from, to int) {
	y, mo, d := t.In(g.p.Location()).Date()
	return g.minute(time.Date(y, mo, d, 0, 0, 0, 0, g.p.Location())), g.minute(time.Date(y, mo, d+1, 0, 0, 0, 0,
		g.p.Location()))
}
