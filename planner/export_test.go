package planner

import (
	"fmt"

	"tureen/planner/cp"
)

// Admits puts a plan made elsewhere to the model's constraints, for tests: nil when the model allows it. A plan that keeps
// every rule and is refused shows a model that forbids too much, which the checker cannot see.
func Admits(p *Party, ask Ask, plan *Plan) error {
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
	out := ""
	for _, l := range m.cp.Lags {
		held := at(l.To, v) >= at(l.From, v)+l.Min
		var conds []string
		for _, c := range l.If {
			held = held || !holds(c, v)
			conds = append(conds, m.cp.Vars[c.X].Name)
		}
		if !held {
			out += fmt.Sprintf("; %s >= %s + %d if %v", name(l.To), name(l.From), l.Min, conds)
		}
	}
	return out
}

// ModelLevels is what the model makes of a plan, level by level.
func ModelLevels(p *Party, ask Ask, plan *Plan) (map[LevelName]int, error) {
	g, err := newGraph(p, ask)
	if err != nil {
		return nil, err
	}
	m := newModel(g, false, nil)
	v := m.values(plan)
	out := map[LevelName]int{}
	for _, l := range m.cp.Levels {
		out[LevelName(l.Name)] = l.Value(v)
	}
	return out, nil
}
