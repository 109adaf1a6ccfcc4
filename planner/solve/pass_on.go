package solve

import (
	"cmp"
	"slices"
	"time"

	"tureen/planner"
)

// passOn leaves what needs no hands with whoever had the food in hand before: who has sweated the vegetables also
// minds the pot. But while the guests are there, what has to be minded is a co-host's, if one can: the host sits with
// them. Who is in charge of such a task weighs on no level, so it is settled after the search; what somebody has
// claimed or has been told stays with them.
func (m *model) passOn(plan *planner.Plan) {
	for _, n := range m.order {
		for _, j := range n.rounds {
			if j.settled || j.Attention == planner.Hands || j.Away || j.claim >= 0 || j.told != nil {
				continue
			}
			people := m.hadItBefore(plan, n)
			if m.atDinner(plan.Placed(j.Key)) && (j.Attention == planner.Watch || j.Attention == planner.Touch) {
				people = m.hostsLast(plan, j, people)
			}
			m.giveTo(plan, j, people)
		}
	}
}

// atDinner says whether a task reaches into the time in which hosts are to have their hands free.
func (m *model) atDinner(t *planner.Placed) bool {
	from, to := m.p.Arrival.Add(-30*time.Minute), m.p.Arrival
	for _, c := range m.p.Courses {
		for _, s := range c.Servings {
			to = planner.Later(to, s.At)
		}
	}
	return t != nil && t.Start.Before(to) && t.End.After(from)
}

// hostsLast puts the co-hosts first: those of the people given, then who has their hands free for most of a task.
func (m *model) hostsLast(plan *planner.Plan, j *duty, people []planner.PersonKey) []planner.PersonKey {
	var out, rest []planner.PersonKey
	busy := map[planner.PersonKey]time.Duration{}
	for _, x := range m.people {
		if x.Role == planner.CoHost && !slices.Contains(people, x.Key) {
			rest = append(rest, x.Key)
			busy[x.Key] = m.busyDuring(plan, x.Key, plan.Placed(j.Key))
		}
	}
	slices.SortStableFunc(rest, func(a, b planner.PersonKey) int { return cmp.Compare(busy[a], busy[b]) })
	for _, k := range people {
		if x := m.p.Person(k); x != nil && x.Role == planner.CoHost {
			out = append(out, k)
		}
	}
	return append(append(out, rest...), people...)
}

// busyDuring is how long somebody has their hands full during a task.
func (m *model) busyDuring(plan *planner.Plan, k planner.PersonKey, t *planner.Placed) (sum time.Duration) {
	for _, j := range m.jobs {
		o := plan.Placed(j.Key)
		if j.Attention != planner.Hands || o == nil || !slices.Contains(o.People, k) {
			continue
		}
		from, to := planner.Later(o.Start, t.Start), o.End
		if t.End.Before(to) {
			to = t.End
		}
		sum += max(0, to.Sub(from))
	}
	return sum
}

// hadItBefore lists who is in charge of the steps before a node, the last one to end first.
func (m *model) hadItBefore(plan *planner.Plan, n *node) []planner.PersonKey {
	var before []*planner.Placed
	for _, k := range n.in {
		for _, p := range m.nodes[m.arcs[k].from].rounds {
			if t := plan.Placed(p.Key); t != nil && len(t.People) > 0 {
				before = append(before, t)
			}
		}
	}
	slices.SortStableFunc(before, func(a, b *planner.Placed) int { return b.End.Compare(a.End) })
	var out []planner.PersonKey
	for _, t := range before {
		out = append(out, t.People[0])
	}
	return out
}

// giveTo puts the first of the people in charge with whom the plan keeps every rule.
func (m *model) giveTo(plan *planner.Plan, j *duty, people []planner.PersonKey) {
	t := plan.Placed(j.Key)
	for _, k := range people {
		if p := m.personIndex(k); p < 0 || !slices.Contains(j.lead, p) {
			continue
		}
		had := t.People
		t.People = []planner.PersonKey{k}
		if k == had[0] {
			return
		}
		if m.judge.Staffed(plan) { // who minds a pot matters to these alone
			return
		}
		t.People = had
	}
}
