package planner

import (
	"context"
	"slices"

	"tureen/planner/cp"
)

// clash says why a model has no plan.
func (m *model) clash(ctx context.Context) *Clash {
	if m.verdict == cp.Unknown {
		return &Clash{Unproved: true, Requirements: []Requirement{{
			Text: "I found no plan in the time I had; there may be one. More time, a dish less or longer service windows would help."}}}
	}
	against := m.never
	if len(against) == 0 {
		against = m.against(ctx)
	}
	out := &Clash{}
	for _, r := range against {
		out.Requirements = append(out.Requirements, r.say())
	}
	if len(out.Requirements) == 0 {
		out.Requirements = []Requirement{{Text: "The steps' own lengths and waits contradict each other, whatever the clock says."}}
	}
	out.Mends = m.mends(ctx, against, out.Requirements)
	return out
}

// against are the requirements that clash, as few as the engine could find.
func (m *model) against(ctx context.Context) []requirement {
	e := newModel(m.graph, true, nil)
	if len(e.never) > 0 {
		return e.never
	}
	r := cp.Solve(ctx, &e.cp, cp.Limits{Work: explainWork, Seed: m.ask.Seed, FirstOnly: true})
	if r.Status != cp.Infeasible {
		return nil
	}
	var out []requirement
	for _, i := range r.Core {
		out = append(out, e.needs[i])
	}
	return out
}

// mends tries, one at a time, the changes that the clashing requirements suggest, and returns those after which there is a plan.
func (m *model) mends(ctx context.Context, against []requirement, said []Requirement) []Mend {
	var menu []change
	add := func(c change) {
		if !slices.ContainsFunc(menu, func(d change) bool { return d.text == c.text }) {
			menu = append(menu, c)
		}
	}
	for _, r := range against {
		for _, c := range r.mend {
			add(c)
		}
	}
	for i := range m.p.Courses {
		add(serveLater(m.p.Courses[i].Key, 30))
	}
	add(addPrepDay())
	add(addHelper())
	for _, r := range said {
		if d, _, _, _, ok := r.Task.Split(); ok && m.p.Dish(d) != nil {
			add(dropDish(m.p.Dish(d)))
		}
	}
	for i := range m.p.Dishes {
		add(dropDish(&m.p.Dishes[i]))
	}
	var out []Mend
	for i, c := range menu {
		if i == mostTries || len(out) == mostMends || ctx.Err() != nil {
			break
		}
		changed := m.p.clone()
		if changed == nil || !c.apply(changed) {
			continue
		}
		ask := m.ask
		ask.Work, ask.FirstOnly, ask.InForce = mendWork, true, nil
		if plan, _, err := make1(ctx, changed, ask); err == nil && plan != nil {
			out = append(out, Mend{Text: c.text})
		}
	}
	return out
}
