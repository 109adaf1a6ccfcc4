package planner

import "slices"

// passOn leaves what needs no hands with whoever had the food in hand before: who has sweated the vegetables also
// minds the pot. Who is in charge of such a task weighs on no level, so it is settled after the search; what somebody
// has claimed or has been told stays with them.
func (m *model) passOn(plan *Plan) {
	hours := &hoursOf{}
	for _, n := range m.order {
		for _, j := range n.rounds {
			if j.settled || j.Attention == Hands || j.Away || j.claim >= 0 || j.told != nil {
				continue
			}
			m.giveTo(plan, j, m.hadItBefore(plan, n), hours)
		}
	}
}

// hadItBefore lists who is in charge of the steps before a node, the last one to end first.
func (m *model) hadItBefore(plan *Plan, n *node) []PersonKey {
	var before []*Placed
	for _, k := range n.in {
		for _, p := range m.nodes[m.arcs[k].from].rounds {
			if t := plan.Placed(p.Key); t != nil && len(t.People) > 0 {
				before = append(before, t)
			}
		}
	}
	slices.SortStableFunc(before, func(a, b *Placed) int { return b.End.Compare(a.End) })
	var out []PersonKey
	for _, t := range before {
		out = append(out, t.People[0])
	}
	return out
}

// giveTo puts the first of the people in charge with whom the plan keeps every rule.
func (m *model) giveTo(plan *Plan, j *duty, people []PersonKey, hours *hoursOf) {
	t := plan.Placed(j.Key)
	for _, k := range people {
		if p := m.personIndex(k); p < 0 || !slices.Contains(j.lead, p) {
			continue
		}
		had := t.People
		t.People = []PersonKey{k}
		if k == had[0] {
			return
		}
		c := newChecker(m.p, plan) // who minds a pot matters to these rules alone
		c.hours = hours
		c.hands()
		c.claims()
		if len(c.out) == 0 {
			return
		}
		t.People = had
	}
}
