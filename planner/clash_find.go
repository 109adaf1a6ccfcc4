package planner

import (
	"context"
	"slices"
	"strings"

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
	short, _ := m.tooLong()
	out := &Clash{Requirements: short}
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
	var out []Mend
	helped := map[string]bool{}
	for i, c := range m.menu(against, said) {
		if i == mostTries || len(out) == mostMends || ctx.Err() != nil {
			break
		}
		if helped[c.kind] {
			continue
		}
		changed := m.p.clone()
		if changed == nil || !c.apply(changed) {
			continue
		}
		ask := m.ask
		ask.Work, ask.FirstOnly, ask.InForce = mendWork, true, nil
		if plan, _, err := attempt(ctx, changed, ask); err == nil && plan != nil {
			helped[c.kind] = true
			out = append(out, c.mend(m.p))
		}
	}
	return out
}

// menu lists what may help, the likeliest first: what the clashing requirements themselves suggest, then a later meal, another day, another pair of
// hands, and a dish less.
func (m *model) menu(against []requirement, said []Requirement) []change {
	var out []change
	add := func(cs ...change) {
		for _, c := range cs {
			if !slices.ContainsFunc(out, func(d change) bool { return d.text == c.text }) {
				out = append(out, c)
			}
		}
	}
	_, later := m.tooLong()
	add(later...)
	for _, r := range against {
		add(r.mend...)
	}
	late := slices.ContainsFunc(against, func(r requirement) bool { return strings.HasPrefix(r.id, "serve ") })
	if late {
		add(serveAllLater(30), serveAllLater(60), serveAllLater(120))
	}
	add(addPrepDay(), addHelper())
	for _, r := range said {
		if d, _, _, _, ok := r.Task.Split(); ok && m.p.Dish(d) != nil {
			add(dropDish(m.p.Dish(d)))
		}
	}
	for i := range m.p.Dishes {
		add(dropDish(&m.p.Dishes[i]))
	}
	return out
}
