package solve

import (
	"tureen/planner/cp"

	"tureen/planner"
)

// caps are the values that a plan has reached on the levels before Spare, which a second search keeps while it looks
// for time to spare.
type caps map[string]int

// addSpare prepares the level Spare: a task is tight unless it can run over by so many minutes while all others stay
// where they are. Its people, its equipment and what waits for it are then free only that much later (placed.free);
// what goes straight on after it moves along.
//
// It is a little stricter than RoomOf, since several tasks may run over at once at a shared resource, and it leaves out
// the food clocks: the figure is RoomOf's.
func (m *model) addSpare() {
	for i := range m.work {
		m.work[i].free = m.work[i].end
		m.work[i].tight = cp.None
	}
	if m.caps == nil {
		return
	}
	over := make([][]cp.Var, len(m.jobs)) // by job, those whose overrun moves its end
	for _, n := range m.order {
		for _, j := range n.rounds {
			m.mayRunOver(j, over)
			for _, k := range n.in {
				if a := &m.arcs[k]; a.straight && !a.fromStart {
					over[j.i] = append(over[j.i], over[m.nodes[a.from].rounds[0].i]...)
				}
			}
			m.extend(j, over[j.i])
		}
	}
	for _, j := range m.jobs {
		if j.node == nil {
			m.mayRunOver(j, over)
			m.extend(j, over[j.i])
		}
	}
}

func (m *model) mayRunOver(j *duty, over [][]cp.Var) {
	if j.settled || j.Attention != planner.Hands && j.Attention != planner.Watch {
		return
	}
	x := m.cp.NewBool(string(j.Key) + " tight")
	m.derived(x, func([]int) int { return 1 })
	m.work[j.i].tight = x
	m.tights = append(m.tights, cp.Term{Coef: 1, X: x})
	over[j.i] = append(over[j.i], x)
}

func (m *model) extend(j *duty, over []cp.Var) {
	if j.settled || len(over) == 0 {
		return
	}
	w := &m.work[j.i]
	lo, hi := m.bounds(w.end)
	free := m.cp.NewVar(lo, hi+int(planner.Tight), string(j.Key)+" free")
	m.cp.AddLag(w.end, free.At(), 0)
	for _, x := range over {
		m.cp.AddLag(w.end, free.At(), int(planner.Tight), x.False())
	}
	end := w.end
	m.derived(free, func(v []int) int { return at(end, v) })
	w.free = free.At()
}

// roomy is the condition that a job may run over; ok is false where nobody asks.
func (m *model) spareIn(j *duty) (cond []cp.Lit, ok bool) {
	if x := m.work[j.i].tight; x != cp.None {
		return []cp.Lit{x.False()}, true
	}
	return nil, false
}

// keepCaps holds every level at what has been reached, and leaves Spare as the only one to improve.
func (m *model) keepCaps() {
	for _, l := range m.cp.Levels {
		if reached, ok := m.caps[l.Name]; ok && len(l.Terms) > 0 {
			m.cp.AddLinear(l.Terms, reached-l.Const)
		}
	}
	m.cp.Levels = []cp.Level{{Name: string(planner.Spare), Terms: m.tights}}
}
