package solve_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/safety"
	"tureen/planner/solve"
)

// A dough with eggs may rise for twice as long as food may stand; what it becomes has that behind it only where cooking
// turned the clock back: not with ham in it, nor for a guest at risk, but bread is no matter for a clock then. Brute
// force found that Check let the ham stand.
func TestADoughMayRiseForLonger(t *testing.T) {
	arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
	for _, x := range []struct {
		name   string
		rise   planner.Minutes
		filled string
		atRisk bool
		plans  bool
	}{
		{"brioche", 180, "", false, true},
		{"brioche for somebody at risk", 180, "", true, true},
		{"a quarter of an hour too long", 230, "", false, false},
		{"with ham", 180, "cooked ham", false, false},
		{"with ham, and sooner", 60, "cooked ham", false, true},
		{"with raw chicken", 180, "chicken thighs", false, false},
	} {
		p := &planner.Party{Zone: "UTC", Arrival: arrival, Covers: 2, Kitchen: planner.HomeKitchen(),
			Courses: []planner.Course{{Key: "main", Servings: []planner.Serving{{At: arrival.Add(30 * time.Minute), Late: 10}}}},
			People:  []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{From: 9 * 60, Until: 22 * 60}}},
			Dishes: []planner.Dish{{Key: "loaf", Name: "Loaf", Course: "main", Serves: 2,
				Ingredients: []planner.Ingredient{{Name: "flour", Amount: "500 g"}, {Name: "eggs", Amount: "2"},
					{Name: "yeast", Amount: "7 g"}},
				Steps: []planner.Step{
					{Key: "knead", Do: "Knead the dough of flour, eggs and yeast", Attention: planner.Hands,
						Time: partygen.Exactly(20), Where: planner.Counter},
					{Key: "rise", Do: "Let it rise", Attention: planner.Unattended, Time: partygen.Exactly(x.rise),
						Where: planner.Counter, After: []planner.After{{Step: "knead"}}},
					{Key: "bake", Do: "Bake it", Attention: planner.Watch, Time: partygen.Exactly(40), Where: planner.Heat,
						Cooks: true, Uses: []planner.Use{{What: planner.AnOven, C: 200}},
						After: []planner.After{{Step: "rise"}}}}}},
		}
		if d := &p.Dishes[0]; x.filled != "" {
			d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: x.filled, Amount: "300 g", Step: "bake"})
		}
		if x.atRisk {
			p.Guests = []planner.Guest{{Name: "Eva", Diets: []string{"pregnant"}}}
		}
		plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: arrival.Add(-10 * time.Hour)})
		switch {
		case err != nil:
			t.Errorf("%s: %v", x.name, err)
		case x.plans && plan == nil:
			t.Errorf("%s: got %+v, want a plan", x.name, clash)
		case x.plans:
			if broken := check.Plan(p, plan); len(broken) > 0 {
				t.Errorf("%s: %+v", x.name, broken)
			}
		case plan != nil || clash.Unproved:
			t.Errorf("%s: got %s, want a clash", x.name, partygen.Show(plan))
		}
	}
}

// Days in the refrigerator count for each kind apart, as rule 2 has it: soup of 40 hours that becomes another cooked
// food
// has that food's two days before it; as soup it has not.
func TestKindsInTheRefrigeratorCountApart(t *testing.T) {
	arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
	for then, plans := range map[safety.Kind]bool{safety.Soup: false, safety.Cooked: true} {
		p := &planner.Party{Zone: "UTC", Arrival: arrival, Covers: 2, PrepDays: 6, Kitchen: planner.HomeKitchen(),
			Courses: []planner.Course{{Key: "main", Servings: []planner.Serving{{At: arrival.Add(30 * time.Minute), Late: 10}}}},
			People:  []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{From: 9 * 60, Until: 22 * 60}}},
			Dishes: []planner.Dish{{Key: "dish", Course: "main", Serves: 2, Steps: []planner.Step{
				{Key: "a", Do: "Do one", Attention: planner.Hands, Time: partygen.Exactly(10), Where: planner.Counter,
					Leaves: planner.Food{Perishable: true, Kind: safety.Soup}},
				{Key: "b", Do: "Do two", Attention: planner.Hands, Time: partygen.Exactly(10), Where: planner.Heat, Cooks: true,
					Leaves: planner.Food{Perishable: true, Kind: then},
					After:  []planner.After{{Step: "a", Wait: planner.Wait{State: planner.Refrigerator, Least: 40 * 60}}},
					Serve:  &planner.Wait{State: planner.Refrigerator, Least: 20 * 60}},
			}}},
		}
		plan, _, err := solve.Make(t.Context(), p, solve.Ask{Now: arrival.Add(-130 * time.Hour)})
		if err != nil || (plan != nil) != plans {
			t.Errorf("then %s: got %s, %v, want a plan: %v", then, partygen.Show(plan), err, plans)
		}
		if plan != nil {
			if broken := check.Plan(p, plan); len(broken) > 0 {
				t.Errorf("then %s: %+v", then, broken)
			}
		}
	}
}
