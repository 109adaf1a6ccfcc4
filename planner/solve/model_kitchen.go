package solve

import (
	"fmt"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/mend"
)

// hold is a piece of equipment taken from one instant to another, by a job or by the wait after it.
type hold struct {
	job      *duty
	use      *planner.Use
	from, to cp.Point
	free     cp.Point // when it is free for something else, with time to spare
	load     int      // in model.loads, for an oven; else -1
	settled  bool
	then     *node // the step that the food goes on to after this wait; nil: none, or no wait
}

// addEquipment lists what jobs and waits take, and keeps it within the kitchen (rule 4).
func (m *model) addEquipment() {
	m.collectHolds()
	type kind struct {
		what planner.Equipment
		name string
	}
	var kinds []kind
	of := map[kind][]int{}
	for i, h := range m.held {
		if h.use.What == planner.AnOven {
			m.addLoad(i)
			continue
		}
		k := kind{h.use.What, h.use.Name}
		if k.what == planner.ABurner || k.what == planner.AGrill || k.what == planner.ACounter {
			k.name = ""
		}
		if of[k] == nil {
			kinds = append(kinds, k)
		}
		of[k] = append(of[k], i)
	}
	for _, k := range kinds {
		m.addWare(k.what, k.name, of[k])
	}
	m.addOvens()
}

// collectHolds fills m.held: uses for the length of a job or until a later step, and what keeps the food of a wait.
func (m *model) collectHolds() {
	for _, j := range m.jobs {
		if j.skipped {
			continue
		}
		w := m.work[j.i]
		for u := range j.uses {
			h := hold{job: j, use: &j.uses[u], from: w.start, to: w.end, free: w.free, load: -1, settled: j.settled}
			if until := h.use.Through; until != "" && j.node != nil {
				if n := m.node(j.node.dish.Key, until); n != nil && !n.skipped {
					h.free = cp.Point{}
					h.to = m.latest(append(m.ends(n), w.end), "last of "+string(until))
					h.settled = h.settled && n.settled()
				}
			}
			if h.free == (cp.Point{}) {
				h.free = h.to
			}
			m.held = append(m.held, h)
		}
		if j.node == nil {
			continue
		}
		for _, k := range j.node.out {
			a := &m.arcs[k]
			if a.wait.Hold == nil || a.fromStart || a.straight {
				continue
			}
			h := hold{job: j, use: a.wait.Hold, from: w.end, load: -1}
			if a.to < 0 {
				h.to = m.last[a.course]
				h.free = h.to
			} else {
				to := m.nodes[a.to]
				h.then = to
				h.to = m.latest(m.starts(to), "last start of "+string(to.step.Key))
				h.free = h.to
				h.settled = j.settled && to.settled()
			}
			m.held = append(m.held, h)
		}
	}
}

// addWare keeps the uses of one kind within what there is, where they could pass it.
func (m *model) addWare(what planner.Equipment, name string, held []int) {
	if !m.p.Kitchen.Binds(what, name) {
		return
	}
	stock, _ := m.p.Kitchen.Stock(what, name)
	have := stock
	r := cp.Cumulative{Name: string(what) + " " + name, Capacity: have}
	need := m.need("kitchen "+r.Name, func() Requirement {
		return Requirement{Text: m.sayWare(what, name, have, held)}
	})
	sum := 0
	if m.yields != nil {
		r.Capacity, have = have+1, have+1
		r.Uses = append(r.Uses, m.spared(1, mend.MoreOf(what, name)))
		sum++
	}
	var fixed []block
	var tooFew []int // they want more at once than there is
	for _, i := range held {
		h := &m.held[i]
		if h.settled {
			fixed = append(fixed, m.blockOf(h, h.use.Units()))
			continue
		}
		sum += h.use.Units()
		r.Uses = append(r.Uses, cp.Use{Start: h.from, End: h.free, Demand: h.use.Units(), If: need})
		if h.use.Units() > have && h.to == m.work[h.job.i].end {
			tooFew = append(tooFew, i)
		}
	}
	for _, s := range clipped(fixed, m.now, stock) {
		sum += s.demand
		r.Uses = append(r.Uses, cp.Use{Start: cp.Const(s.from), End: cp.Const(s.to), Demand: s.demand, If: need})
	}
	if len(tooFew) > 0 && !m.explain {
		h := &m.held[tooFew[0]]
		m.cannot(func() Requirement { return Requirement{Text: m.sayTooMany(h, have, tooFew), Task: h.job.Key} })
	}
	if sum > have {
		m.cp.Cumulatives = append(m.cp.Cumulatives, r)
	}
}

// block is a fixed demand.
type block struct{ from, to, demand int }

func (m *model) blockOf(h *hold, demand int) block { return block{h.from.Off, h.to.Off, demand} }

// clipped is the sum of fixed demands from now on, cut at the capacity: settled work breaks nothing by itself.
func clipped(fixed []block, now, capacity int) []block {
	cuts := cutsOf(fixed, now)
	var out []block
	for i := 0; i+1 < len(cuts); i++ {
		sum := 0
		for _, s := range fixed {
			if s.from <= cuts[i] && cuts[i] < s.to {
				sum += s.demand
			}
		}
		if sum = min(sum, capacity); sum > 0 {
			out = append(out, block{cuts[i], cuts[i+1], sum})
		}
	}
	return out
}

// checkEquipment says which equipment is kept until a step that is not there.
func (g *graph) checkEquipment() error {
	for _, j := range g.jobs {
		if j.skipped {
			continue
		}
		uses := j.uses
		if j.node != nil {
			for _, k := range j.node.out {
				if h := g.arcs[k].wait.Hold; h != nil {
					uses = append(append([]planner.Use(nil), uses...), *h)
				}
			}
		}
		for i := range uses {
			u := &uses[i]
			if u.Through != "" && (j.node == nil || g.node(j.node.dish.Key, u.Through) == nil) {
				return fmt.Errorf("%s keeps its %s until a step %q, which is not there", j.label(),
					mend.EquipmentName(u.What, u.Name), u.Through)
			}
		}
	}
	return nil
}
