package menu_test

import (
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/menu"
	"tureen/planner/safety"
)

// TestHelpIsForTheWholeFood: what stands in for egg or cream does so where the ingredient is that, not for a Scotch egg
// or salad cream, of which it is a part.
func TestHelpIsForTheWholeFood(t *testing.T) {
	for _, c := range []struct {
		ingredient string
		allergen   safety.Allergen
		want       string
	}{
		{"large eggs", safety.AllergenEgg, "flax"},
		{"scotch eggs", safety.AllergenEgg, ""},
		{"scotch eggs", safety.AllergenGluten, ""},
		{"egg pasta", safety.AllergenEgg, ""},
		{"double cream", safety.AllergenMilk, "cream"},
		{"salad cream", safety.AllergenMustard, ""},
		{"nut butter", safety.AllergenNuts, ""},
		{"unsalted butter", safety.AllergenMilk, "margarine"},
		{"celeriac remoulade", safety.AllergenCelery, ""},
		{"couscous", safety.AllergenGluten, "quinoa"},
	} {
		p := &planner.Party{Covers: 4, Guests: []planner.Guest{{Name: "Iris", Allergies: []string{string(c.allergen)}}}}
		d := planner.Dish{Key: "plate", Name: "Plate", Ingredients: []planner.Ingredient{{Name: c.ingredient}}}
		p.Dishes = []planner.Dish{d}
		got := menu.Help(p, &d, &p.Guests[0])
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s, without %s: %q, want %q in it", c.ingredient, c.allergen, got, c.want)
		}
	}
}
