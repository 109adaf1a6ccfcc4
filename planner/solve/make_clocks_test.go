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

// On a hot day an hour of counter time is all there is (USDA FSIS, "Danger Zone"; see package safety); a step of 70
// minutes on the counter that another one comes before has no plan, and that is a clash, not a fault. A random party
// found it.
func TestAStepLongerThanTheCounterLimitIsAClash(t *testing.T) {
	food := planner.Food{Perishable: true, Kind: safety.CutProduce}
	arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
	p := &planner.Party{Zone: "UTC", Arrival: arrival, Covers: 2, RoomTemperatureC: 33,
		Courses: []planner.Course{{Key: "main", Servings: []planner.Serving{{At: arrival.Add(30 * time.Minute), Late: 10}}}},
		People:  []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{From: 9 * 60, Until: 22 * 60}}},
		Dishes: []planner.Dish{{Key: "salad", Course: "main", Serves: 2, Steps: []planner.Step{
			{Key: "wash", Attention: planner.Hands, Time: partygen.Exactly(5), Where: planner.Counter, Leaves: food},
			{Key: "cut", Attention: planner.Hands, Time: partygen.Exactly(70), Where: planner.Counter, Leaves: food,
				After: []planner.After{{Step: "wash", Wait: planner.Wait{State: planner.Counter}}}}}}},
	}
	plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: arrival.Add(-8 * time.Hour)})
	if err != nil || plan != nil {
		t.Fatalf("got %v, %v, want a clash", partygen.Show(plan), err)
	}
	limit := false
	for _, r := range clash.Requirements {
		limit = limit || r.Limit
	}
	if clash.Unproved || !limit {
		t.Errorf("got %+v, want a proof that names the published limit", clash)
	}
}

// Food that is part-cooked and that a later step cooks goes straight on, all of it: the second of two rounds, three
// minutes after the first, has no plan. Rosy food that nothing comes after may wait for the second group: it is done.
func TestPartCookedFoodDoesNotWaitForItsSecondRound(t *testing.T) {
	arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
	for _, x := range []struct {
		name  string
		gap   planner.Minutes // between the rounds of a last step, if it has one
		last  string
		plans bool
	}{
		{"served as it is, to two groups", 0, "", true},
		{"finished at once", 0, "Roast the tuna", true},
		{"finished in two rounds", 3, "Roast the tuna", false},
		{"plated in two rounds", 3, "Slice the tuna", true},
	} {
		sear := planner.Step{Key: "sear", Do: "Sear the tuna", Attention: planner.Hands, Time: partygen.Exactly(5),
			Where: planner.Heat, Cooks: true, Uses: []planner.Use{{What: planner.ABurner}},
			Leaves: planner.Food{Perishable: true, Kind: safety.Fish, PartCooked: true}}
		p := &planner.Party{Zone: "UTC", Arrival: arrival, Covers: 2, Kitchen: planner.HomeKitchen(),
			Courses: []planner.Course{{Key: "main", Servings: []planner.Serving{
				{Group: "children", At: arrival.Add(30 * time.Minute)}, {At: arrival.Add(33 * time.Minute)}}}},
			People: []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{From: 9 * 60, Until: 22 * 60}}},
			Dishes: []planner.Dish{{Key: "tuna", Course: "main", Serves: 2, Steps: []planner.Step{sear}}},
		}
		d := &p.Dishes[0]
		if x.last != "" {
			s := planner.Step{Key: "last", Do: x.last, Attention: planner.Watch, Time: partygen.Exactly(5),
				Where: planner.Counter, After: []planner.After{{Step: "sear", Wait: planner.Wait{State: planner.Counter}}}}
			if s.Cooks = x.last[0] == 'R'; s.Cooks {
				s.Where, s.Uses = planner.Heat, []planner.Use{{What: planner.ABurner}}
			}
			if x.gap > 0 {
				s.Grows, s.PerRound, s.RoundGap = planner.InRounds, 1, x.gap
			}
			d.Steps = append(d.Steps, s)
		}
		for _, wrong := range p.Validate() { // it leaves to the plan what the plan judges
			t.Errorf("%s: %s", x.name, wrong.Text)
		}
		plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: arrival.Add(-2 * time.Hour)})
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
