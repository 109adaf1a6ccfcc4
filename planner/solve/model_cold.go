package solve

import (
	"slices"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/mend"
)

// inCold is space taken in the cold from one instant to another.
type inCold struct {
	job      *duty
	state    planner.State
	from, to cp.Point
	ml, flat int
}

// addCold keeps the refrigerator and the freezer within the space that the hosts have given (rule 5), where not
// everything fits anyway.
func (m *model) addCold() {
	volumes := m.p.Volumes()
	for _, state := range []planner.State{planner.Refrigerator, planner.Freezer} {
		ml, flat := m.p.Kitchen.GivenSpace(state)
		if ml < 0 && flat < 0 {
			continue
		}
		var in []inCold
		for _, j := range m.jobs {
			if !j.skipped {
				in = append(in, m.inTheCold(j, state, volumes)...)
			}
		}
		if ml >= 0 {
			m.addSpace(state, "ml", ml, in, func(c inCold) int { return c.ml })
		}
		if flat >= 0 {
			m.addSpace(state, "flat", flat, in, func(c inCold) int { return c.flat })
		}
	}
}

// chilled lists a job's stay in the cold while it is done there, and what it leaves while that waits.
func (m *model) inTheCold(j *duty, state planner.State, volumes *planner.Volumes) []inCold {
	ml, flat := m.space(j, volumes)
	if ml == 0 && flat == 0 {
		return nil
	}
	w := m.work[j.i]
	var out []inCold
	if j.where == state {
		out = append(out, inCold{j, state, w.start, w.end, ml, flat})
	}
	if j.node == nil {
		return out
	}
	var until []cp.Point
	for _, k := range j.node.out {
		a := &m.arcs[k]
		switch {
		case a.fromStart || a.wait.State != state:
		case a.to < 0:
			until = append(until, m.last[a.course])
		default:
			until = append(until, m.starts(m.nodes[a.to])...)
		}
	}
	if len(until) > 0 {
		out = append(out, inCold{j, state, w.end, m.latest(until, "cold until "+string(j.Key)), ml, flat})
	}
	return out
}

// space is what a job leaves takes in the cold: a step's share of a round, a chore's as it says.
func (m *model) space(j *duty, volumes *planner.Volumes) (ml, flat int) {
	if j.node == nil {
		return j.leaves.Millilitres, j.leaves.Flat
	}
	if d := j.node.dish; j.fit.Millilitres == 0 {
		covers := max(d.Makes(m.p), 1)
		serves := d.Serves
		if serves <= 0 {
			serves = covers
		}
		return planner.CeilDiv(volumes.Of(d, j.node.step)*covers, serves*j.fit.Rounds), j.fit.Flat
	}
	return j.fit.Millilitres, j.fit.Flat
}

func (m *model) addSpace(state planner.State, kind string, have int, in []inCold, of func(inCold) int) {
	r := cp.Cumulative{Name: string(state) + " " + kind, Capacity: have}
	need := m.need("cold "+r.Name, func() Requirement { return Requirement{Text: m.sayCold(state, kind, have, in)} })
	sum := 0
	if m.yields != nil {
		more := 1
		if kind == "ml" {
			more = mend.MoreLitres * 1000
		}
		r.Capacity = have + more
		r.Uses = append(r.Uses, m.spared(more, mend.MoreCold(state, kind)))
		sum += more
	}
	var fixed []block
	for _, c := range in {
		n := of(c)
		switch {
		case n == 0:
		case m.isConst(c.from) && m.isConst(c.to):
			fixed = append(fixed, block{c.from.Off, c.to.Off, n})
		default:
			sum += n
			from := c.from
			if m.isConst(from) {
				from.Off = max(from.Off, m.now)
			}
			r.Uses = append(r.Uses, cp.Use{Start: from, End: c.to, Demand: n, If: need})
			if n > r.Capacity && !m.explain {
				m.tooLarge(c, kind, have)
			}
		}
	}
	for _, s := range clipped(fixed, m.now, have) {
		sum += s.demand
		r.Uses = append(r.Uses, cp.Use{Start: cp.Const(s.from), End: cp.Const(s.to), Demand: s.demand, If: need})
	}
	if sum > r.Capacity {
		m.cp.Cumulatives = append(m.cp.Cumulatives, r)
	}
}

// tooLarge notes food that does not fit into the cold by itself, while it has to be there.
func (m *model) tooLarge(c inCold, kind string, have int) {
	if c.job.where == c.state && c.to == m.work[c.job.i].end {
		m.cannot(func() Requirement { return Requirement{Text: m.sayTooLarge(c, kind, have), Task: c.job.Key} })
	}
}

// cutsOf are the instants from now on at which a sum of fixed demands changes.
func cutsOf(fixed []block, now int) []int {
	var cuts []int
	for _, s := range fixed {
		if s.to > now && s.from < s.to {
			cuts = append(cuts, max(s.from, now), s.to)
		}
	}
	slices.Sort(cuts)
	return slices.Compact(cuts)
}
