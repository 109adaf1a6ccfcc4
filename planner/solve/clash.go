package solve

import (
	"context"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/mend"
)

// Clash says why a party has no plan: requirements that cannot all be kept, and what would mend it.
type Clash struct {
	Requirements []Requirement `json:"requirements"`
	// each verified by planning again; none of them touches a safety limit
	Mends    []planner.Mend `json:"mends,omitempty"`
	Unproved bool           `json:"unproved,omitempty"` // time ran out: no plan was found, but there may be one
}

// Requirement is one of the things that clash, as a sentence a host understands.
type Requirement struct {
	Text  string          `json:"text"`
	Task  planner.TaskKey `json:"task,omitempty"`
	Limit bool            `json:"limit,omitempty"` // a published safety limit: never relaxed
}

// clash says why a model has no plan.
func (m *model) clash(ctx context.Context) *Clash {
	if m.verdict == cp.Unknown {
		return &Clash{Unproved: true, Mends: m.concessions(ctx, mostSets, m.ask.work()/2), Requirements: []Requirement{{
			Text: "I found no plan in the time I had; there may be one. More time, a dish less or longer service windows " +
				"would help."}}}
	}
	against, found := m.against(ctx)
	short, _ := m.tooLong()
	out := &Clash{Requirements: short}
	late := slices.ContainsFunc(against, func(r requirement) bool { return strings.HasPrefix(r.id, "serve ") })
	for _, r := range against {
		out.Requirements = append(out.Requirements, r.say())
	}
	switch {
	case len(out.Requirements) > 0:
	case found:
		out.Requirements = []Requirement{{Text: "The steps' own lengths and waits contradict each other, whatever the " +
			"clock says."}}
	default:
		out.Requirements = []Requirement{{Text: "There is no plan; what it is that clashes I could not find in the time I " +
			"had."}}
	}
	out.Mends = m.mends(ctx, out.Requirements, late)
	return out
}

// against are the requirements that clash, as few as the engine could find; found says whether it could.
func (m *model) against(ctx context.Context) (out []requirement, found bool) {
	if len(m.never) > 0 {
		return m.never, true
	}
	for _, r := range m.past {
		out = append(out, requirement{id: "past " + string(r.Task), say: func() Requirement { return r }})
	}
	if len(out) > 0 {
		return out, true
	}
	if ctx.Err() != nil {
		return nil, false
	}
	e := newModel(m.graph, true, nil)
	if len(e.never) > 0 {
		return e.never, true
	}
	r := cp.Solve(ctx, &e.cp, cp.Limits{Work: explainWork, Seed: m.ask.Seed, FirstOnly: true})
	if r.Status == cp.Infeasible && len(r.Core) == 0 {
		// Nothing that a host said clashes: it is the steps, and what goes straight on from what.
		named := *m.graph
		named.names = true
		e = newModel(&named, true, nil)
		r = cp.Solve(ctx, &e.cp, cp.Limits{Work: explainWork, Seed: m.ask.Seed, FirstOnly: true})
	}
	for _, i := range r.Core {
		out = append(out, e.needs[i])
	}
	return out, r.Status == cp.Infeasible
}

// mends are what a host could change so that there is a plan, each planned anew: the smallest concessions
// (concede.go); then a later meal and a dish less, which are greater changes. Where only these are enough by
// themselves, two concessions together are proposed as well; where nothing is, as many together as it takes.
func (m *model) mends(ctx context.Context, said []Requirement, late bool) []planner.Mend {
	out := m.concessions(ctx, mostMends, concedeWork)
	var sets []planner.Mend
	if len(out) > 0 && len(out[0].With) > 0 {
		sets, out = out[:min(len(out), mostSets)], nil
	}
	helped := map[string]bool{}
	for i, c := range m.menu(said, late) {
		if i == mostTries || len(out) == mostMends || ctx.Err() != nil {
			break
		}
		if !helped[c.Kind] && m.mendsIt(ctx, []mend.Change{c}) {
			helped[c.Kind] = true
			out = append(out, c.Mend(m.p))
		}
	}
	for _, s := range sets {
		if len(out) == 0 || len(s.With) == 1 {
			out = append(out, s)
		}
	}
	return out
}

// menu lists greater changes: what was said to begin late begins as it can, after all; a later meal, where the dishes'
// own steps take too long or service is what clashes, and a dish less, first those that the clash speaks of.
func (m *model) menu(said []Requirement, late bool) []mend.Change {
	var out []mend.Change
	add := func(cs ...mend.Change) {
		for _, c := range cs {
			if !slices.ContainsFunc(out, func(d mend.Change) bool { return d.Text == c.Text }) {
				out = append(out, c)
			}
		}
	}
	for _, j := range m.jobs {
		if (j.soonest > 0 || j.before > 0) && slices.ContainsFunc(said, func(r Requirement) bool { return r.Task == j.Key }) {
			add(mend.BeginSooner(j.Key, j.label()))
		}
	}
	_, later := m.tooLong()
	add(later...)
	if late {
		add(mend.ServeAllLater(30), mend.ServeAllLater(60), mend.ServeAllLater(120))
	}
	for _, r := range said {
		if d, _, _, _, ok := r.Task.Split(); ok && m.p.Dish(d) != nil {
			add(mend.DropDish(m.p.Dish(d)))
		}
	}
	for i := range m.p.Dishes {
		add(mend.DropDish(&m.p.Dishes[i]))
	}
	return out
}
