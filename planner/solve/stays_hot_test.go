package solve_test

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cooling"
	"tureen/planner/partygen"
	"tureen/planner/solve"
	"tureen/planner/trace"
)

// roastBird is a party with a bird that is roasted, rests and is carved, and then waits for its service.
func roastBird(amount, until string, rest, waits planner.Minutes, more ...planner.Ingredient) *planner.Party {
	arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
	counter := planner.Wait{State: planner.Counter}
	return &planner.Party{Zone: "UTC", Arrival: arrival, Covers: 4, Kitchen: planner.HomeKitchen(),
		Courses: []planner.Course{{Key: "main", Servings: []planner.Serving{{At: arrival.Add(time.Hour)}}}},
		People:  []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{From: 9 * 60, Until: 22 * 60}}},
		Dishes: []planner.Dish{{Key: "bird", Name: "Roast chicken", Course: "main", Serves: 4,
			Ingredients: append([]planner.Ingredient{{Name: "chicken", Amount: amount, Step: "roast"}}, more...),
			Steps: []planner.Step{
				{Key: "roast", Do: "Roast the chicken", Attention: planner.Watch, Where: planner.Heat, Cooks: true,
					Time: partygen.Exactly(90), Until: until},
				{Key: "rest", Do: "Let it rest", Attention: planner.Unattended, Where: planner.Counter,
					Time:  partygen.Exactly(rest),
					After: []planner.After{{Step: "roast", Wait: counter}}},
				{Key: "carve", Do: "Carve it", Attention: planner.Hands, Where: planner.Counter, Time: partygen.Exactly(10),
					After: []planner.After{{Step: "rest", Wait: counter}},
					Serve: &planner.Wait{State: planner.Counter, Least: waits}},
			}}}}
}

// TestAJointIsHotByItself: the counter's clock of a roast bird begins when the estimate has fallen to 57 °C. A plan
// uses the last minute of that, a minute more is a clash, and what was lukewarm, or is joined by something that spoils,
// has none.
func TestAJointIsHotByItself(t *testing.T) {
	cream := planner.Ingredient{Name: "double cream", Amount: "200 ml", Step: "rest"}
	p := roastBird("1.6 kg", "", 30, 0)
	hot := planner.Minutes(cooling.StillHot(p, trace.Of(p))["bird/roast"])
	if hot < 30 || hot > 45 {
		t.Fatalf("a bird of 1.6 kg is hot for %d minutes", hot)
	}
	longest := 2*60 - 30 - 10 + hot
	for _, c := range []struct {
		what  string
		p     *planner.Party
		plans bool
	}{
		{"to the minute", roastBird("1.6 kg", "", 30, longest), true},
		{"a minute more", roastBird("1.6 kg", "", 30, longest+1), false},
		{"no weight", roastBird("", "", 30, 2*60-40+1), false},
		{"below 60 °C", roastBird("1.6 kg", "59 °C in the middle", 30, 2*60-40+1), false},
		{"joined by cream, to the minute", roastBird("1.6 kg", "", 30, 2*60-40, cream), true},
		{"joined by cream, a minute more", roastBird("1.6 kg", "", 30, 2*60-40+1, cream), false},
	} {
		plan, clash, err := solve.Make(t.Context(), c.p, solve.Ask{Now: c.p.Arrival.Add(-8 * time.Hour)})
		switch {
		case err != nil:
			t.Errorf("%s: %v", c.what, err)
		case c.plans && plan == nil:
			t.Errorf("%s: %+v", c.what, clash)
		case c.plans:
			if broken := check.Plan(c.p, plan); len(broken) > 0 {
				t.Errorf("%s: %+v", c.what, broken)
			}
			c.p.Dishes[0].Steps[2].Serve.Least = 0
			plan.Served[0].At = plan.Served[0].At.Add(time.Minute)
			c.p.Courses[0].Servings[0].Late = 1
			if broken := check.Plan(c.p, plan); len(broken) != 1 || !strings.Contains(broken[0].Text, "on the counter") {
				t.Errorf("%s, served a minute later: %+v", c.what, broken)
			}
		case plan != nil || clash.Unproved:
			t.Errorf("%s: got %s, want a clash", c.what, partygen.Show(plan))
		}
	}
}

// TestTheColdEndsIt: what is left of those minutes is lost in the cold.
func TestTheColdEndsIt(t *testing.T) {
	for _, c := range []struct {
		waits planner.Minutes
		plans bool
	}{{2*60 - 10, true}, {2*60 - 9, false}} {
		p := roastBird("1.6 kg", "", 5, c.waits)
		p.PrepDays = 1
		p.Dishes[0].Steps[2].After[0].Wait = planner.Wait{State: planner.Refrigerator, Least: 60}
		plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: p.Arrival.Add(-24 * time.Hour)})
		if err != nil || c.plans != (plan != nil) {
			t.Errorf("%d minutes: %v, %+v, %v", c.waits, partygen.Show(plan), clash, err)
		}
	}
}
