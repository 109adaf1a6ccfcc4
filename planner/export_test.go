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
	return cp.Check(&m.cp, m.values(plan))
}
