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

// TestRiceGoesColdSoon: cooked rice is in the cold within an hour of leaving the heat (FSA), mixed with other food too,
// and any cooked food within two (USDA FSIS, Danger Zone), the half hour in which it steams off where it is hot still
// included; to the minute.
func TestRiceGoesColdSoon(t *testing.T) {
	arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		what, food, amount, do string
		spread                 planner.Minutes // on the counter before the cold
		work                   planner.Minutes // and after it
		says                   string          // of the clash; empty where there is a plan
	}{
		{"rice", "rice", "300 g", "Boil the rice", 29, 10, ""},
		{"rice left for an hour", "rice", "300 g", "Boil the rice", 60, 10, ""},
		{"rice left for a minute more", "rice", "300 g", "Boil the rice", 61, 10, "rice has left the heat (published limit"},
		{"much rice, which is hot still", "rice", "1 kg", "Boil the rice", 30, 10, ""},
		{"much rice, a minute more", "rice", "1 kg", "Boil the rice", 31, 10, "of which it steams off for 30 min"},
		{"rice, mixed: the other part stood a minute", "rice", "300 g", "Boil the rice; cooked chicken", 59, 10, ""},
		{"rice, mixed, a minute more", "rice", "300 g", "Boil the rice; cooked chicken", 60, 10, "rice has left the heat"},
		{"a stew, hot still", "dried beans", "1 kg", "Simmer the stew", 90, 10, ""},
		{"a stew, a minute more", "dried beans", "1 kg", "Simmer the stew", 91, 10, "of which it steams off for 30 min"},
	} {
		p := &planner.Party{Zone: "UTC", Arrival: arrival, Covers: 4, Kitchen: planner.HomeKitchen(), PrepDays: 1,
			Courses: []planner.Course{{Key: "main", Name: "Main", Servings: []planner.Serving{{At: arrival.Add(time.Hour)}}}},
			People:  []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{From: 9 * 60, Until: 22 * 60}}},
			Dishes: []planner.Dish{{Key: "dish", Name: "Dish", Course: "main", Serves: 4,
				Ingredients: []planner.Ingredient{{Name: c.food, Amount: c.amount}},
				Steps: []planner.Step{
					{Key: "cook", Do: c.do, Attention: planner.Watch, Where: planner.Heat, Cooks: true, Time: partygen.Exactly(60),
						Until: "tender"},
					{Key: "spread", Do: "Spread it out", Attention: planner.Hands, Where: planner.Counter,
						Time: partygen.Exactly(c.spread), After: []planner.After{{Step: "cook"}}},
					{Key: "plate", Do: "Arrange it", Attention: planner.Hands, Where: planner.Counter, Time: partygen.Exactly(c.work),
						After: []planner.After{{Step: "spread", Wait: planner.Wait{State: planner.Refrigerator, Least: 120}}},
						Serve: &planner.Wait{State: planner.Straight}}}}}}
		if do, with, mixed := strings.Cut(c.do, "; "); mixed {
			d := &p.Dishes[0]
			d.Steps[0].Do = do
			d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: with, Amount: "300 g", Step: "unpack"})
			d.Steps[1].After = append(d.Steps[1].After, planner.After{Step: "unpack"})
			d.Steps = append(d.Steps, planner.Step{Key: "unpack", Do: "Unpack it", Attention: planner.Hands,
				Where: planner.Counter, Time: partygen.Exactly(1)})
		}
		plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: arrival.Add(-8 * time.Hour)})
		switch {
		case err != nil || (c.says == "") != (plan != nil):
			t.Errorf("%s: %v, %+v, %v", c.what, partygen.Show(plan), clash, err)
		case plan == nil:
			all := ""
			for _, r := range clash.Requirements {
				all += r.Text + "\n"
			}
			if !strings.Contains(all, c.says) {
				t.Errorf("%s:\n%s", c.what, all)
			}
		default:
			for _, b := range check.Plan(p, plan) {
				t.Errorf("%s: %s", c.what, b.Text)
			}
		}
	}
}
