package solve

import (
	"context"
	"fmt"
	"strings"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cp"
)

// Admits puts a plan made elsewhere to the model's constraints, for tests: nil when the model allows it. A plan that
// keeps every rule and is refused shows a model that forbids too much, which the checker cannot see.
func Admits(p *planner.Party, ask Ask, plan *planner.Plan) error {
	ask.without = plan.Without
	g, err := newGraph(p, ask)
	if err == nil {
		err = g.checkEquipment()
	}
	if err != nil {
		return err
	}
	m := newModel(g, false, nil)
	if err := m.cp.Validate(); err != nil {
		return fmt.Errorf("the problem is malformed: %w", err)
	}
	if len(m.never) > 0 {
		return fmt.Errorf("no plan is thought possible: %s", m.never[0].say().Text)
	}
	v := m.values(plan)
	if err := cp.Check(&m.cp, v); err != nil {
		return fmt.Errorf("%w%s", err, m.lagsBroken(v))
	}
	return nil
}

// lagsBroken names the variables of broken lags, since cp.Check gives their number only.
func (m *model) lagsBroken(v []int) string {
	name := func(p cp.Point) string {
		if p.X == cp.None {
			return fmt.Sprint(p.Off)
		}
		return fmt.Sprintf("%s%+d (%d)", m.cp.Vars[p.X].Name, p.Off, at(p, v))
	}
	var out strings.Builder
	for _, l := range m.cp.Lags {
		held := at(l.To, v) >= at(l.From, v)+l.Min
		var conds []string
		for _, c := range l.If {
			held = held || !holds(c, v)
			conds = append(conds, m.cp.Vars[c.X].Name)
		}
		if !held {
			out.WriteString(fmt.Sprintf("; %s >= %s + %d if %v", name(l.To), name(l.From), l.Min, conds))
		}
	}
	return out.String()
}

// ModelLevels is what the model makes of a plan, level by level.
func ModelLevels(p *planner.Party, ask Ask, plan *planner.Plan) (map[planner.LevelName]int, error) {
	ask.without = plan.Without
	g, err := newGraph(p, ask)
	if err != nil {
		return nil, err
	}
	m := newModel(g, false, nil)
	v := m.values(plan)
	out := map[planner.LevelName]int{}
	for _, l := range m.cp.Levels {
		out[planner.LevelName(l.Name)] = l.Value(v)
	}
	return out, nil
}

// Core solves a party that has no plan, for its clashing requirements alone: whether they clash without the others, and
// whether each of them is needed.
func Core(ctx context.Context, p *planner.Party, ask Ask) (ids []string, clash bool, needless []string, err error) {
	g, err := newGraph(p, ask)
	if err != nil {
		return nil, false, nil, err
	}
	e := newModel(g, true, nil)
	solve := func(keep []cp.Assumption) cp.Status {
		q := e.cp
		q.Assumptions = keep
		return cp.Solve(ctx, &q, cp.Limits{Work: explainWork, FirstOnly: true}).Status
	}
	r := cp.Solve(ctx, &e.cp, cp.Limits{Work: explainWork, FirstOnly: true})
	if r.Status != cp.Infeasible {
		return nil, false, nil, fmt.Errorf("explaining: %v", r.Status)
	}
	var core []cp.Assumption
	for _, i := range r.Core {
		core = append(core, e.cp.Assumptions[i])
		ids = append(ids, e.needs[i].id)
	}
	clash = solve(core) == cp.Infeasible
	for i := range core {
		rest := append(append([]cp.Assumption(nil), core[:i]...), core[i+1:]...)
		if solve(rest) == cp.Infeasible {
			needless = append(needless, ids[i])
		}
	}
	return ids, clash, needless, nil
}

// Unsound is the error of a plan that breaks rules.
func Unsound(broken []check.Broken) error { return &unsound{broken} }
