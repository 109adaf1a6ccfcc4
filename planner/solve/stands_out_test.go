package solve_test

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// TestWhatStandsOutCountsOnTheTable: prawns that are laid out for a buffet may stand before it for what their table
// time leaves of two hours, to the minute, wherever they wait; nothing is counted of what does not stand out.
func TestWhatStandsOutCountsOnTheTable(t *testing.T) {
	arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		what  string
		out   planner.YesNo
		work  planner.Minutes // on the counter before
		state planner.State   // how they wait for service then
		waits planner.Minutes
		plans bool
	}{
		{"an hour and a half on the table", planner.Yes, 20, planner.Counter, 10, true},
		{"a minute too long before", planner.Yes, 20, planner.Counter, 11, false},
		{"out of the cold", planner.Yes, 30, planner.Refrigerator, 200, true},
		{"out of the cold, a minute too long in work", planner.Yes, 31, planner.Refrigerator, 200, false},
		{"does not stand out", planner.No, 20, planner.Counter, 100, true},
		{"does not stand out, a minute too long", planner.No, 20, planner.Counter, 101, false},
	} {
		p := &planner.Party{Zone: "UTC", Arrival: arrival, Covers: 4, Kitchen: planner.HomeKitchen(),
			Courses: []planner.Course{
				{Key: "nibbles", Name: "Nibbles", Out: c.out, Servings: []planner.Serving{{At: arrival.Add(30 * time.Minute)}}},
				{Key: "main", Name: "Main", Servings: []planner.Serving{{At: arrival.Add(90 * time.Minute)}}}},
			People: []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{From: 9 * 60, Until: 22 * 60}}},
			Dishes: []planner.Dish{{Key: "prawns", Name: "Prawns", Course: "nibbles", Serves: 4,
				Ingredients: []planner.Ingredient{{Name: "cooked prawns", Amount: "500 g"}},
				Steps: []planner.Step{{Key: "dress", Do: "Dress the prawns", Attention: planner.Hands, Where: planner.Counter,
					Time: partygen.Exactly(c.work), Serve: &planner.Wait{State: c.state, Least: c.waits}}}}}}
		plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: arrival.Add(-8 * time.Hour)})
		switch {
		case err != nil || c.plans != (plan != nil):
			t.Errorf("%s: %v, %+v, %v", c.what, partygen.Show(plan), clash, err)
		case plan == nil && c.out == planner.Yes && !strings.Contains(clash.Requirements[0].Text, "stands out, which is 1 h"):
			t.Errorf("%s: %+v", c.what, clash.Requirements)
		case plan != nil:
			for _, b := range check.Plan(p, plan) {
				t.Errorf("%s: %s", c.what, b.Text)
			}
			if c.state == planner.Counter {
				pl := plan.Placed("prawns/dress")
				pl.Start, pl.End = pl.Start.Add(-time.Minute), pl.End.Add(-time.Minute)
				if b := check.Plan(p, plan); len(b) != 1 || b[0].Rule != check.RuleClocks {
					t.Errorf("%s, a minute earlier: %+v", c.what, b)
				}
			}
		}
	}
}
