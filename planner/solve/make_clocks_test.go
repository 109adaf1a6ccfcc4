package solve_test

import (
	"testing"
	"time"

	"tureen/planner"
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

// Part-cooked food that is served straight on waits for nobody: two groups eat it at one time, or there is no plan.
// Listing every plan of a tiny party found that the second group's was left to wait.
func TestPartCookedFoodDoesNotWaitForTheSecondGroup(t *testing.T) {
	arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
	for _, late := range []planner.Minutes{0, 3} {
		p := &planner.Party{Zone: "UTC", Arrival: arrival, Covers: 2,
			Courses: []planner.Course{{Key: "main", Servings: []planner.Serving{{Group: "children",
				At: arrival.Add(30 * time.Minute), Late: late},
				{At: arrival.Add(33 * time.Minute)}}}},
			People: []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{From: 9 * 60, Until: 22 * 60}}},
			Dishes: []planner.Dish{{Key: "tuna", Course: "main", Serves: 2, Steps: []planner.Step{
				{Key: "sear", Attention: planner.Hands, Time: partygen.Exactly(5), Where: planner.Heat, Cooks: true,
					Leaves: planner.Food{Perishable: true, Kind: safety.Fish, PartCooked: true}, Serve: &planner.Wait{}}}}},
		}
		plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: arrival.Add(-2 * time.Hour)})
		switch {
		case err != nil:
			t.Errorf("children up to %d minutes later: %v", late, err)
		case late == 0 && (plan != nil || clash.Unproved):
			t.Errorf("got %s, want a clash: the groups eat three minutes apart", partygen.Show(plan))
		case late == 3 && plan == nil:
			t.Errorf("got %+v, want a plan: the groups may eat at one time", clash)
		}
	}
}
