package recipe

import (
	"strings"
	"testing"

	"tureen/planner"
)

// TestRemarkNamesItsPlace: what can be done before is known by its food, its verb or its words, and waits so long
// there.
func TestRemarkNamesItsPlace(t *testing.T) {
	const (
		ham = "Glazed ham\nServes 8. The ham can be simmered two days ahead and glazed on the day.\n\n1 gammon joint\n" +
			"4 tbsp marmalade\n\nPut the gammon in a large pot, cover with water and bring to the boil. Simmer for 2 hours. " +
			"Leave to cool. Take off the skin and spread with the marmalade. Bake at 200 °C for 40 minutes."
		salad = "Green salad\nServes 4\n\n2 heads lettuce\n1 shallot\n4 tbsp olive oil\n1 tbsp vinegar\n\nWash and dry the " +
			"lettuce; it keeps in a bag in the refrigerator until the evening. Whisk the oil and vinegar in a bowl. Pile in " +
			"the leaves and toss at the table."
		mango = "Panna cotta with mango\nServes 6. Prepare the day before.\n\n3 leaves gelatine\n500 ml double cream\n" +
			"2 mangoes\n1 lime\n\nSoak the gelatine for 5 minutes. Heat the cream, stir in the gelatine, pour into moulds and " +
			"chill overnight. Dice the mangoes and mix with the lime juice; this may be done in the morning. Dip the moulds " +
			"in hot water, turn out and serve with the mango."
	)
	for _, row := range []struct {
		text, from string
		state      planner.State
		until      planner.Minutes
	}{
		{ham, "Leave to cool", planner.Refrigerator, 2 * day},
		{salad, "Wash and dry", planner.Refrigerator, 12 * hour},
		{mango, "Dice the mangoes", planner.Refrigerator, 12 * hour},
		{mango, "Dip the moulds", planner.Counter, 0},
	} {
		r, err := Read(row.text)
		if err != nil {
			t.Fatal(err)
		}
		d, _ := r.Dish("main", 0)
		found := false
		for _, s := range d.Steps {
			for _, a := range s.After {
				if from := d.Step(a.Step); strings.HasPrefix(from.Do, row.from) {
					found = true
					if a.Wait.State != row.state || a.Wait.WorthUntil != row.until {
						t.Errorf("%q waits %+v, want %s for %d minutes", from.Do, a.Wait, row.state, row.until)
					}
				}
			}
		}
		if !found {
			t.Errorf("no step waits after %q", row.from)
		}
	}
}
