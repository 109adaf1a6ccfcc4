package solve_test

import (
	"context"
	"testing"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// TestOvensStandOnMarks plans the ordinary dinner: whatever the engine chose within the tolerances, a cook
// is asked for a temperature that the dial has, and for the dish's own where nothing else shares the oven.
func TestOvensStandOnMarks(t *testing.T) {
	p := partygen.Dinner(8)
	plan, clash, err := solve.Make(context.Background(), p, solve.Ask{Now: p.Opens()})
	if plan == nil {
		t.Fatal(clash, err)
	}
	loads := 0
	for _, task := range plan.Tasks {
		for _, h := range task.Uses {
			if h.What == planner.AnOven {
				loads++
				if h.C%5 != 0 {
					t.Errorf("%s: the oven stands at %d °C", task.Task, h.C)
				}
			}
		}
	}
	if loads == 0 {
		t.Error("the dinner has nothing in the oven")
	}
	if broken := check.Plan(p, plan); len(broken) > 0 {
		t.Error(broken)
	}
}
