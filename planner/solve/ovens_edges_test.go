package solve

import (
	"testing"

	"tureen/planner"
)

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
