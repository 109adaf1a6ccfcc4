package planner_test

import (
	"testing"

	"tureen/planner"
)

// TestHotIsHalf holds that a blender is filled to a half with what comes from the heat, and whole with what is cold,
// has cooled or is blended in its pot.
func TestHotIsHalf(t *testing.T) {
	for _, c := range []struct {
		name, with string
		heat       planner.State
		wait       planner.Wait
		want       int
	}{
		{"straight off", "blender", planner.Heat, planner.Wait{State: planner.Straight}, 4},
		{"at any time", "blender", planner.Heat, planner.Wait{State: planner.Counter}, 4},
		{"twenty minutes later", "blender", planner.Heat, planner.Wait{State: planner.Counter, Least: 20}, 2},
		{"out of the refrigerator", "blender", planner.Heat, planner.Wait{State: planner.Refrigerator}, 2},
		{"never hot", "blender", planner.Counter, planner.Wait{State: planner.Straight}, 2},
		{"in the pot", "stick blender", planner.Heat, planner.Wait{State: planner.Straight}, 2},
	} {
		p := &planner.Party{Covers: 8, Kitchen: planner.Kitchen{Appliances: []planner.Ware{
			{Name: "blender", Count: 1, Millilitres: 2000}, {Name: "stick blender", Count: 1, Millilitres: 2000}}}}
		d := &planner.Dish{Key: "soup", Name: "Soup", Serves: 8, Steps: []planner.Step{
			{Key: "simmer", Do: "Simmer", Attention: planner.Watch, Time: planner.Span{Low: 30, Likely: 30, High: 30},
				Where: c.heat},
			{Key: "blend", Do: "Blend", Attention: planner.Hands, Time: planner.Span{Low: 10, Likely: 10, High: 10},
				Where:  planner.Counter,
				Uses:   []planner.Use{{What: planner.AnAppliance, Name: c.with}},
				Leaves: planner.Food{Millilitres: 4000},
				After:  []planner.After{{Step: "simmer", Wait: c.wait}}},
		}}
		p.Dishes = []planner.Dish{*d}
		if got := p.Fit(d, &d.Steps[1]).Batches; got != c.want {
			t.Errorf("%s: %d fillings of 4 l, want %d", c.name, got, c.want)
		}
	}
}
