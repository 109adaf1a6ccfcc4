package safety_test

import (
	"slices"
	"testing"

	"tureen/planner/safety"
)

// TestAllergenIn: of several findings the surest is told, and of those as sure the first, in whatever order they are
// asked for.
func TestAllergenIn(t *testing.T) {
	for _, c := range []struct {
		ingredient string
		asked      []safety.Allergen
		want       safety.Certainty
		of         safety.Allergen
	}{
		{"pesto", []safety.Allergen{"nuts", "milk"}, safety.Contains, "milk"},
		{"pesto", []safety.Allergen{"milk", "nuts"}, safety.Contains, "milk"},
		{"pesto", []safety.Allergen{"milk"}, safety.Contains, "milk"},
		{"carrots", []safety.Allergen{"milk", "nuts"}, "", ""},
	} {
		got, ok := safety.AllergenIn(c.ingredient, c.asked...)
		if ok != (c.want != "") || got.Certainty != c.want || got.Allergen != c.of {
			t.Errorf("%s, asked for %v: got %+v, %v, want %s %s", c.ingredient, c.asked, got, ok, c.want, c.of)
		}
	}
	both := safety.Allergens("batter mix")
	sure := slices.DeleteFunc(both, func(f safety.Finding) bool { return f.Certainty != safety.Contains })
	if len(sure) < 2 {
		t.Fatalf("two are contained for sure: %v", sure)
	}
	if got, _ := safety.AllergenIn("batter mix", sure[1].Allergen, sure[0].Allergen); got != sure[0] {
		t.Errorf("got %+v, want the first that is found, %+v", got, sure[0])
	}
}
