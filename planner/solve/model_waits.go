package solve

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/mend"
)

// addWaits puts rule 1: order, shortest and longest waits, straight on, rounds in their order.
func (m *model) addWaits() {
	for _, n := range m.nodes {
		m.orderRounds(n)
	}
	for k := range m.arcs {
		a := &m.arcs[k]
		if a.to < 0 {
			m.waitForService(k, a)
			continue
		}
		m.waitForStep(k, a)
	}
}

func (m *model) orderRounds(n *node) {
	for i := 1; i < len(n.rounds); i++ {
		before, after := n.rounds[i-1], n.rounds[i]
		if !after.settled {
			m.gapAtLeast(m.work[before.i].start, m.work[after.i].start, int(n.step.RoundGap))
		}
	}
}

// ends and starts of a node's rounds.
func (m *model) ends(n *node) []cp.Point {
	var out []cp.Point
	for _, j := range n.rounds {
		out = append(out, m.work[j.i].end)
	}
	return out
}

func (m *model) starts(n *node) []cp.Point {
	var out []cp.Point
	for _, j := range n.rounds {
		out = append(out, m.work[j.i].start)
	}
	return out
}

func (m *model) waitForStep(k int, a *arc) {
	from, to := m.nodes[a.from], m.nodes[a.to]
	if to.settled() {
		return
	}
	// The first start is past, whatever comes.
	begun := slices.ContainsFunc(to.rounds, func(j *duty) bool { return j.settled })
	if a.wait.State == planner.Straight && !a.fromStart && !begun {
		m.straightOn(k, a, m.latest(m.ends(from), "last of "+string(from.step.Key)),
			m.earliest(m.starts(to), "first of "+string(to.step.Key)))
	}
	for _, p := range from.rounds {
		for _, s := range to.rounds {
			if s.settled {
				continue
			}
			origin, ready := m.work[p.i].end, m.work[p.i].free
			if a.fromStart {
				origin, ready = m.work[p.i].start, m.work[p.i].start
			}
			arrive := m.work[s.i].start
			m.gapAtLeast(origin, arrive, max(0, int(a.wait.Least)))
			if ready != origin && !a.straight {
				m.gapAtLeast(ready, arrive, max(0, int(a.wait.Least)))
			}
			if a.wait.Longest > 0 {
				m.gapAtMost(origin, arrive, int(a.wait.Longest), m.needMax(k)...)
			}
			if a.wait.WorthUntil > 0 && !a.fromStart {
				m.floor(k, origin, arrive)
			}
			if !a.fromStart && goesOnAtOnce(a, p, p.food.ToFinish) {
				m.gapAtMost(origin, arrive, 0)
			}
		}
	}
}

func (m *model) waitForService(k int, a *arc) {
	from := m.nodes[a.from]
	first, last := m.first[a.course], m.last[a.course]
	if a.wait.State == planner.Straight {
		m.straightOn(k, a, m.latest(m.ends(from), "last of "+string(from.step.Key)), first)
	}
	for _, p := range from.rounds {
		end := m.work[p.i].end
		m.gapAtLeast(end, first, max(0, int(a.wait.Least)))
		if free := m.work[p.i].free; free != end {
			m.gapAtLeast(free, first, max(0, int(a.wait.Least)))
		}
		if a.wait.Longest > 0 {
			m.gapAtMost(end, last, int(a.wait.Longest), m.needMax(k)...)
		}
		if a.wait.WorthUntil > 0 {
			m.floor(k, end, last)
		}
		if goesOnAtOnce(a, p, false) {
			m.gapAtMost(end, last, 0)
		}
	}
}

// goesOnAtOnce says of part-cooked food that none of it may wait to be finished, or in the cold, whatever the other
// rounds and servings do.
func goesOnAtOnce(a *arc, j *duty, finished bool) bool {
	chilled := a.wait.State == planner.Refrigerator || a.wait.State == planner.Freezer
	return j.food.PartCooked && (finished || chilled) && a.wait.State != planner.HotHold && !j.settled
}

// straightOn leaves no gap; in an evening plan, after settled work, as little as can be.
func (m *model) straightOn(k int, a *arc, end, start cp.Point) {
	if m.isConst(end) && m.isConst(start) {
		return
	}
	m.gapAtLeast(end, start, 0)
	if m.ask.Soft && m.nodes[a.from].settled() {
		m.missed(fmt.Sprintf("straight %d", k), end, start, 0, nil)
		return
	}
	m.gapAtMost(end, start, 0, m.needStraight(k)...)
}

func (m *model) floor(k int, from, to cp.Point) {
	most := int(m.arcs[k].wait.WorthUntil)
	if m.ask.Soft {
		m.missed(fmt.Sprintf("floor %d", k), from, to, most, nil)
		return
	}
	if m.yields != nil {
		n := m.nodes[m.arcs[k].from]
		m.gapAtMost(from, to, most, m.untouched(mildWait, mend.WorthLonger(n.dish, n.step))...)
		most += mend.WorthMore
	}
	m.gapAtMost(from, to, most, m.needFloor(k)...)
}

// missed lets to - from pass most, by as few bands as can be.
func (m *model) missed(name string, from, to cp.Point, most int, conds []cp.Lit) {
	flo, _ := m.bounds(from)
	_, thi := m.bounds(to)
	worst := (max(0, thi-flo-most) + lateBand - 1) / lateBand
	if worst == 0 {
		return
	}
	over := m.cp.NewVar(0, worst, name+" missed")
	terms := []cp.Term{{Coef: -lateBand, X: over}}
	bound := most
	if to.X != cp.None {
		terms = append(terms, cp.Term{Coef: 1, X: to.X})
	}
	if from.X != cp.None {
		terms = append(terms, cp.Term{Coef: -1, X: from.X})
	}
	bound += from.Off - to.Off
	m.cp.AddLinear(terms, bound, conds...)
	m.derived(over, func(v []int) int { return (max(0, at(to, v)-at(from, v)-most) + lateBand - 1) / lateBand })
	m.late = append(m.late, cp.Term{Coef: 1, X: over})
}
