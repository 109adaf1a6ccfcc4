package safety_test

import (
	"testing"

	"tureen/planner/food"
	"tureen/planner/safety"
)

// TestPairs: meat and milk are out by kashrut, meat and fish are kept apart by many (see pairs.csv for where that
// stands); nobody else has either.
func TestPairs(t *testing.T) {
	want := map[food.Tag]safety.Certainty{"milk": safety.Contains, "fish": safety.MayContain}
	for _, p := range safety.Pairs("kosher") {
		if p.First == "meat" && p.Certainty != want[p.Second] {
			t.Errorf("meat and %s: %q, want %q", p.Second, p.Certainty, want[p.Second])
		}
		delete(want, p.Second)
	}
	if len(want) > 0 {
		t.Errorf("not found: %v", want)
	}
	if got := safety.Pairs("vegan"); len(got) > 0 {
		t.Errorf("vegan: %+v", got)
	}
}

// TestUnclear: what may hold anything is unclear to who avoids something, and not to who has only advice to follow, nor
// to a diet that avoids nothing such a thing is made with.
func TestUnclear(t *testing.T) {
	for _, c := range []struct {
		ingredient string
		diets      []safety.Diet
		allergens  []safety.Allergen
		want       bool
	}{
		{"salad dressing", []safety.Diet{"vegan"}, nil, true},
		{"salad dressing", nil, []safety.Allergen{"celery"}, true},
		{"carrots", []safety.Diet{"vegan"}, []safety.Allergen{"celery"}, false},
		{"cake", []safety.Diet{"vegan"}, nil, true},
		{"cake", []safety.Diet{"pregnant"}, nil, false},
		{"cake", []safety.Diet{"pregnant"}, []safety.Allergen{"nuts"}, true},
		{"cake", nil, nil, false},
	} {
		if got := safety.Unclear(c.ingredient, c.diets, c.allergens); (got != "") != c.want {
			t.Errorf("%s for %v %v: %q, unclear is %v", c.ingredient, c.diets, c.allergens, got, c.want)
		}
	}
}
