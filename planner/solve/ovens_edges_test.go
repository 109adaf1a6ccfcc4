package solve

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
)

// TestOvenLoadsInOrder: loads are listed by when they go in, whatever the order of the plan's tasks, each with the oven
// that its food then waits in.
func TestOvenLoadsInOrder(t *testing.T) {
	p, plan := partygen.Rich()
	warm := planner.Use{What: planner.AnOven, C: 80}
	p.Dish("tart").Step("bake").Serve = &planner.Wait{State: planner.HotHold, Hold: &warm}
	forth := ovenLoads(p, plan)
	slices.Reverse(plan.Tasks)
	back := ovenLoads(p, plan)
	if len(forth) < 2 || len(back) != len(forth) {
		t.Fatalf("%d and %d loads", len(forth), len(back))
	}
	held := 0
	for i, l := range back {
		if i > 0 && l.held.From.Before(back[i-1].held.From) {
			t.Errorf("load %d goes in at %v, after one of %v", i, l.held.From, back[i-1].held.From)
		}
		if l.next != nil {
			held++
			if l.next.C != 80 {
				t.Errorf("load %d: then at %d °C", i, l.next.C)
			}
		}
	}
	if held != 1 {
		t.Errorf("%d loads are kept warm afterwards, want the tart", held)
	}
	begun := plan.Tasks[0].Start.Add(-time.Hour)
	for i := range plan.Tasks {
		p.Work = append(p.Work, planner.Work{Task: plan.Tasks[i].Task, Progress: planner.Started, Start: &begun})
	}
	if got := ovenLoads(p, plan); len(got) > 0 {
		t.Errorf("all has begun, and %d loads can still be turned", len(got))
	}
}

// TestOvenOfBegunWork: what has begun stays in the oven that it was told, at the heat that it was told.
func TestOvenOfBegunWork(t *testing.T) {
	use := &planner.Use{What: planner.AnOven, Name: "oven", C: 180}
	for _, c := range []struct {
		name  string
		told  *planner.Placed
		where string
		heat  int
	}{
		{"nothing was told", nil, "oven", 180},
		{"another oven was told", &planner.Placed{Uses: []planner.Held{{What: planner.AVessel, Name: "tin"},
			{What: planner.AnOven, Name: "small oven", C: 200}}}, "small oven", 200},
		{"a tin only was told", &planner.Placed{Uses: []planner.Held{{What: planner.AVessel, Name: "tin"}}}, "oven", 180},
	} {
		h := &hold{use: use, job: &duty{told: c.told}, load: -1}
		if where, heat := new(model).ovenOf(h, nil); where != c.where || heat != c.heat {
			t.Errorf("%s: %s at %d, want %s at %d", c.name, where, heat, c.where, c.heat)
		}
	}
}
