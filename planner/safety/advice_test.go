package safety_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"tureen/planner/food"
	"tureen/planner/safety"
)

// TestAdviceInEachCountry: what published advice says of a food has no mark left of another country, and no figure
// that is of no row of the limits.
func TestAdviceInEachCountry(t *testing.T) {
	heat := regexp.MustCompile(`-?[\d.]+ °C \([\d.]+ °F\)`)
	rows := heat.FindAllString(safety.Reheat(safety.Elsewhere).Figure()+safety.Row("cook-uk-core").Figure(), -1)
	seen := map[string]bool{}
	for _, name := range food.Names() {
		for _, d := range safety.Diets() {
			conflicts, _ := safety.Against(d, name)
			for _, c := range conflicts {
				for _, in := range []safety.Country{safety.UnitedKingdom, safety.UnitedStates, safety.Elsewhere} {
					said := c.In(in, "somebody")
					if strings.ContainsAny(said, "[]") {
						t.Fatalf("%s in %q: %s", name, in, said)
					}
					for _, f := range heat.FindAllString(said, -1) {
						seen[f] = true
						if !slices.Contains(rows, f) {
							t.Errorf("%s in %q: %s is of no row", name, in, f)
						}
					}
				}
			}
		}
	}
	if len(seen) == 0 {
		t.Error("no figure was seen")
	}
}

// TestWhoAdvises: who is named for advice publishes it in that country; alcohol has a source as the rest has, and
// what a list of allergens says is not said to who keeps a diet by choice.
func TestWhoAdvises(t *testing.T) {
	for _, c := range []struct {
		diet         safety.Diet
		food         string
		in           safety.Country
		want, absent string
	}{
		{safety.Pregnant, "salami", safety.UnitedKingdom, "cooked ham is no matter (NHS)", "CDC"},
		{safety.Pregnant, "salami", safety.UnitedStates, "74 °C (165 °F) or steaming (CDC", "UK"},
		{safety.Pregnant, "brie", safety.UnitedStates, "only if made from pasteurized milk (CDC", "steaming"},
		{safety.Pregnant, "brie", safety.Elsewhere, "steaming hot (UK); only if made from pasteurized milk (US)", "[else"},
		{safety.Pregnant, "dark rum", safety.UnitedKingdom, "not in pregnancy (rum) (CDC, About Alcohol Use", "composition"},
		{safety.SmallChild, "sherry", safety.UnitedKingdom, "no alcohol (UK Chief Medical Officers", "composition"},
		{safety.Vegetarian, "oyster sauce", safety.UnitedKingdom, "not vegetarian (oyster sauce)", "allergen"},
		{safety.GlutenFree, "rye bread", safety.Elsewhere, "not a US major allergen", "composition"},
	} {
		conflicts, _ := safety.Against(c.diet, c.food)
		var said []string
		for _, x := range conflicts {
			said = append(said, x.In(c.in, "NHS"))
		}
		if all := strings.Join(said, " | "); !strings.Contains(all, c.want) || strings.Contains(all, c.absent) {
			t.Errorf("%s, %s in %q: %s, want %s, without %s", c.diet, c.food, c.in, all, c.want, c.absent)
		}
	}
}
