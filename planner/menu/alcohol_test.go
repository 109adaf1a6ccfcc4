package menu

import (
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/partygen"
)

// TestCookedDown: wine that is cooked for a while is a matter for who is pregnant, with the published share that stays;
// a minute less than the table's first row, or poured in at the end, is a plain no, and so it is for who drinks none.
func TestCookedDown(t *testing.T) {
	for _, c := range []struct {
		diet    string
		minutes planner.Minutes
		last    string
		want    Verdict
		says    string
	}{
		{"pregnant", 180, "Serve", Check, "about 5 % of its alcohol"}, {"pregnant", 149, "Serve", Check, "about 10 %"},
		{"pregnant", 15, "Serve", Check, "about 40 %"}, {"pregnant", 14, "Serve", Not, "not in pregnancy"},
		{"alcohol-free", 180, "Serve", Not, "not alcohol-free"}, {"infant", 180, "Serve", Not, "not for infants"},
	} {
		d := &planner.Dish{Key: "daube", Name: "Daube",
			Ingredients: []planner.Ingredient{{Name: "red wine", Amount: "500 ml"}},
			Steps: []planner.Step{{Key: "simmer", Do: "Simmer in the wine", Where: planner.Heat, Cooks: true,
				Time: partygen.Exactly(c.minutes)}, {Key: "last", Do: c.last, After: []planner.After{{Step: "simmer"}}}}}
		v, why := Suits(&planner.Party{Zone: "UTC"}, d, &planner.Guest{Name: "Iris", Diets: []string{c.diet}})
		if v != c.want || len(why) != 1 || !strings.Contains(why[0].String(), c.says) {
			t.Errorf("%s, %d minutes: %s, %v", c.diet, c.minutes, v, why)
		}
	}
	late := &planner.Dish{Key: "s", Name: "Syllabub", Ingredients: []planner.Ingredient{{Name: "sherry", Amount: "50 ml"}},
		Steps: []planner.Step{{Key: "simmer", Do: "Simmer the fruit", Where: planner.Heat, Cooks: true,
			Time: partygen.Exactly(60)}, {Key: "pour", Do: "Stir in the sherry", After: []planner.After{{Step: "simmer"}}}}}
	if v, why := Suits(&planner.Party{Zone: "UTC"}, late, &planner.Guest{Diets: []string{"pregnant"}}); v != Not {
		t.Errorf("stirred in at the end: %s, %v", v, why)
	}
}
