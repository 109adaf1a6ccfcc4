package planner_test

import (
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/safety"
)

// TestThawsBy: how a step thaws, by its words; a step that only cooks what is frozen does not.
func TestThawsBy(t *testing.T) {
	for do, want := range map[string]safety.ThawMethod{
		"Leave the frozen thighs on the worktop": safety.OnCounter, "Defrost the mince in the sink": safety.OnCounter,
		"Take the prawns out of the freezer":      safety.OnCounter,
		"Thaw the turkey overnight in the fridge": safety.InRefrigerator,
		"Thaw the fish in cold water":             safety.InColdWater, "Defrost it under the cold tap": safety.InColdWater,
		"Thaw it in a bowl of hot water": safety.OnCounter, "Defrost in the microwave": safety.InMicrowave,
		"Leave out until thawed": safety.OnCounter, "Fold in the thawed berries": "", "Do not thaw the peas": "",
		"Chop the onions": "", "Store in the freezer": "", "Bake from frozen": "",
	} {
		s := planner.Step{Do: do, Where: planner.Counter, Attention: planner.Unattended, Time: planner.Span{Likely: 600}}
		if got := s.ThawsBy(); got != want {
			t.Errorf("%s: %q, want %q", do, got, want)
		}
	}
	if s := (planner.Step{Do: "Boil the frozen peas", Where: planner.Heat}); s.ThawsBy() != "" {
		t.Error("peas that are boiled are thawed")
	}
}

// TestThawingOnTheCounter: never on the counter; what has stood there more than two hours is not at a safe temperature,
// and what was thawed in water is cooked at once (USDA FSIS, Turkey Basics: Safe Thawing; The Big Thaw).
func TestThawingOnTheCounter(t *testing.T) {
	for _, c := range []struct {
		food, do string
		minutes  planner.Minutes
		wait     planner.Wait // before it is cooked
		want     string       // part of the complaint; empty: there is none
	}{
		{"chicken thighs", "Thaw on the worktop", 120, planner.Wait{}, ""},
		{"chicken thighs", "Thaw on the worktop", 121, planner.Wait{}, "changed every 30 minutes (USDA FSIS, The Big Thaw)"},
		{"salmon", "Take it out of the freezer", 5, planner.Wait{State: planner.Counter, Least: 116}, "The Big Thaw"},
		{"salmon", "Take it out of the freezer", 5, planner.Wait{State: planner.Counter, Least: 115}, ""},
		{"lamb shoulder", "Defrost in a basin of hot water", 180, planner.Wait{}, "warm water"},
		{"lamb shoulder", "Defrost in the fridge", 2880, planner.Wait{}, ""},
		{"puff pastry", "Thaw on the worktop", 240, planner.Wait{}, ""},
		{"raspberries", "Thaw at room temperature", 240, planner.Wait{}, ""},
		{"zorblat", "Thaw at room temperature", 240, planner.Wait{}, "The Big Thaw"},
		{"prawns", "Thaw in cold water", 60, planner.Wait{State: planner.Refrigerator}, "cooked at once"},
		{"prawns", "Thaw in cold water", 60, planner.Wait{State: planner.Counter}, ""},
		{"prawns", "Thaw in the fridge", 600, planner.Wait{State: planner.Refrigerator}, ""},
	} {
		d := planner.Dish{Key: "dish", Name: "Dish", Serves: 4, Course: "main",
			Ingredients: []planner.Ingredient{{Name: c.food, Amount: "1 kg"}},
			Steps: []planner.Step{{Key: "thaw", Do: c.do, Attention: planner.Unattended, Where: planner.Counter,
				Time: planner.Span{Low: c.minutes, Likely: c.minutes, High: c.minutes}},
				{Key: "cook", Do: "Cook it", Attention: planner.Watch, Where: planner.Heat, Cooks: true,
					Time: planner.Span{Low: 30, Likely: 30, High: 30}, After: []planner.After{{Step: "thaw", Wait: c.wait}}}}}
		p := &planner.Party{Covers: 4, Dishes: []planner.Dish{d}, Courses: []planner.Course{{Key: "main"}}}
		got := ""
		for _, x := range planner.ValidateStep(p, &p.Dishes[0], &p.Dishes[0].Steps[0]) {
			got += x.Text
		}
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s, %s, %d min: %q, want %q", c.food, c.do, c.minutes, got, c.want)
		}
	}
}

// TestNeedsThawing: who says frozen of an ingredient, and whether it is thawed by a chore of its own.
func TestNeedsThawing(t *testing.T) {
	for _, c := range []struct {
		in          planner.Ingredient
		do          string
		minutes     planner.Minutes
		frozen, own bool
	}{
		{planner.Ingredient{Name: "frozen prawns"}, "Fry them", 5, true, true},
		{planner.Ingredient{Name: "prawns", Note: "frozen"}, "Fry them", 5, true, true},
		{planner.Ingredient{Name: "prawns"}, "Fry them", 5, false, false},
		{planner.Ingredient{Name: "prawns", Frozen: true}, "Fry them", 5, true, true},
		{planner.Ingredient{Name: "fresh or frozen prawns"}, "Fry them", 5, false, false},
		{planner.Ingredient{Name: "frozen peas"}, "Boil them", 5, true, false},
		{planner.Ingredient{Name: "frozen spinach", Note: "thawed and squeezed"}, "Fold in", 5, true, true},
		{planner.Ingredient{Name: "frozen peas", Frozen: true, Grams: 500}, "Boil them", 5, true, true},
		{planner.Ingredient{Name: "ice cream", Frozen: true}, "Scoop it", 5, true, false},
		{planner.Ingredient{Name: "turkey"}, "Thaw the turkey in the fridge", 4320, true, false},
		{planner.Ingredient{Name: "turkey"}, "Take the turkey out of the freezer", 5, true, true},
	} {
		d := planner.Dish{Ingredients: []planner.Ingredient{c.in}, Steps: []planner.Step{{Key: "a", Do: c.do,
			Where: planner.Counter, Attention: planner.Unattended, Time: planner.Span{Likely: c.minutes}}}}
		in := &d.Ingredients[0]
		if frozen, own := d.IsFrozen(in), d.NeedsThawing(in); frozen != c.frozen || own != c.own {
			t.Errorf("%s (%s), %s: frozen %v, a chore %v", c.in.Name, c.in.Note, c.do, frozen, own)
		}
	}
}
