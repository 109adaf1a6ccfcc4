package solve

import (
	"cmp"
	"slices"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cp"
)

// plan reads the engine's values back as a plan.
func (m *model) plan(v []int) *planner.Plan {
	out := &planner.Plan{Made: m.instant(m.minuteUp(m.ask.Now)), Status: planner.Feasible, Soft: m.ask.Soft,
		Without: m.ask.without, Tables: check.Tables()}
	uses := make([][]planner.Held, len(m.jobs))
	for i := range m.held {
		h := &m.held[i]
		from, to := at(h.from, v), at(h.to, v)
		if from >= to {
			continue
		}
		held := planner.Held{What: h.use.What, Name: h.use.Name, Amount: h.use.Units(), From: m.instant(from),
			To: m.instant(to)}
		if h.use.What == planner.AnOven {
			held.Name, held.C = m.ovenOf(h, v)
		}
		uses[h.job.i] = append(uses[h.job.i], held)
	}
	for _, j := range m.jobs {
		if j.left {
			continue
		}
		w := m.work[j.i]
		t := planner.Placed{Task: j.Key, Start: m.instant(at(w.start, v)), End: m.instant(at(w.end, v)), Uses: uses[j.i]}
		switch {
		case j.skipped:
		case j.settled:
			t.People = m.peopleOf(j)
		default:
			t.People = m.peopleIn(j, v)
		}
		out.Tasks = append(out.Tasks, t)
	}
	slices.SortFunc(out.Tasks, func(a, b planner.Placed) int {
		return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Task, b.Task))
	})
	for _, h := range m.heating {
		out.Heating = append(out.Heating, planner.Held{What: planner.AnOven, Name: h.name, C: h.c, From: out.Made,
			To: m.instant(h.ready)})
	}
	for c := range m.p.Courses {
		course := &m.p.Courses[c]
		for s := range course.Servings {
			out.Served = append(out.Served, planner.Served{Course: course.Key, Group: course.Servings[s].Group,
				At: m.instant(v[m.serve[c][s]])})
		}
	}
	return out
}

// ovenOf is a load's oven and setting; for a load that was over before the plan's making, what the plan in force says.
func (m *model) ovenOf(h *hold, v []int) (string, int) {
	if h.load < 0 {
		if h.job.told != nil {
			for _, u := range h.job.told.Uses {
				if u.What == planner.AnOven {
					return u.Name, u.C
				}
			}
		}
		return h.use.Name, h.use.C
	}
	l := &m.loads[h.load]
	for _, k := range l.ovens {
		if l.in == nil || v[l.in[k]] == 1 {
			return m.p.Kitchen.Ovens[k].Name, at(l.set, v)
		}
	}
	return h.use.Name, at(l.set, v)
}

// peopleIn are a job's people, the one in charge first: whoever claimed it, else who was told so before, else the
// first who may.
func (m *model) peopleIn(j *duty, v []int) []planner.PersonKey {
	w := m.work[j.i]
	var who []int
	for p, x := range w.person {
		if x != cp.None && v[x] == 1 {
			who = append(who, p)
		}
	}
	charge := -1
	for _, p := range who {
		if !slices.Contains(j.lead, p) {
			continue
		}
		told := j.told != nil && len(j.told.People) > 0 && j.told.People[0] == m.people[p].Key
		if charge < 0 || p == j.claim || told && charge != j.claim {
			charge = p
		}
	}
	var out []planner.PersonKey
	if charge >= 0 {
		out = append(out, m.people[charge].Key)
	}
	for _, p := range who {
		if p != charge {
			out = append(out, m.people[p].Key)
		}
	}
	return out
}

// values puts a plan into the model's variables, auxiliary ones by their derivations. Tasks that the plan does not have
// stand at their variables' lower bounds; values that a variable cannot have are moved to the nearest that it can.
func (m *model) values(plan *planner.Plan) []int {
	v := make([]int, len(m.cp.Vars))
	set := func(x cp.Var, value int) {
		if x != cp.None {
			v[x] = min(max(value, m.cp.Vars[x].Lo), m.cp.Vars[x].Hi)
		}
	}
	for x := range v {
		v[x] = m.cp.Vars[x].Lo
	}
	for _, j := range m.jobs {
		t := plan.Placed(j.Key)
		if t == nil || j.settled {
			continue
		}
		w := m.work[j.i]
		set(w.start.X, m.minute(t.Start)-w.start.Off)
		if len(w.modes) > 0 {
			set(w.end.X, m.minute(t.End)-w.end.Off)
		}
		for _, md := range w.modes {
			set(md.chosen, truth(md.people == len(t.People)))
		}
		for p, x := range w.person {
			set(x, truth(slices.Contains(t.People, m.people[p].Key)))
		}
	}
	for c := range m.p.Courses {
		for s := range m.p.Courses[c].Servings {
			set(m.serve[c][s], m.minute(m.p.Courses[c].Servings[s].At))
			for _, served := range plan.Served {
				if served.Course == m.p.Courses[c].Key && served.Group == m.p.Courses[c].Servings[s].Group {
					set(m.serve[c][s], m.minute(served.At))
				}
			}
		}
	}
	m.loadValues(plan, v, set)
	for _, d := range m.derive {
		d(v)
	}
	return v
}

// loadValues finds each load's oven and setting in the plan, by what it is and when it goes in and comes out.
func (m *model) loadValues(plan *planner.Plan, v []int, set func(cp.Var, int)) {
	// The ends of loads may be derived, so that they come first; deriving twice does no harm.
	for _, d := range m.derive {
		d(v)
	}
	for i := range m.loads {
		l := &m.loads[i]
		oven, c := l.ovens[0], l.use.C
		if t := plan.Placed(l.job.Key); t != nil {
			for _, u := range t.Uses {
				if u.What != planner.AnOven || m.minute(u.From) != at(l.from, v) || m.minute(u.To) != at(l.to, v) {
					continue
				}
				for _, k := range l.ovens {
					if m.p.Kitchen.Ovens[k].Name == u.Name {
						oven, c = k, u.C
					}
				}
			}
		}
		if l.set.X != cp.None {
			set(l.set.X, c-l.set.Off)
		}
		for k, x := range l.in {
			set(x, truth(k == oven))
		}
	}
}
