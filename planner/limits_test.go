package planner

import (
	"strings"
	"testing"

	"tureen/planner/safety"
)

// TestCountry: cooked food keeps by the authority of the country that was said, else of the zone's; the strictest
// holds elsewhere, where somebody said so, and with a guest at risk (foodsafety.gov 3 to 4 days, FSA 2).
func TestCountry(t *testing.T) {
	const day = 24 * 60
	for _, c := range []struct {
		zone    string
		country safety.Country
		risk    bool
		want    int
		source  string
	}{
		{"Europe/London", "", false, 2 * day, "Food Standards"}, {"America/Chicago", "", false, 3 * day, "foodsafety.gov"},
		{"Europe/Lisbon", "", false, 2 * day, "Food Standards"},
		{"Europe/Lisbon", safety.UnitedStates, false, 3 * day, "foodsafety.gov"},
		{"America/Chicago", safety.UnitedKingdom, false, 2 * day, "Food Standards"},
		{"America/Chicago", safety.OtherCountry, false, 2 * day, "Food Standards"},
		{"America/Chicago", safety.UnitedStates, true, 2 * day, "Food Standards"},
	} {
		p := &Party{Zone: c.zone, Country: c.country}
		if c.risk {
			p.Guests = []Guest{{Name: "Iris", Diets: []string{"pregnant"}}}
		}
		if l := p.RefrigeratorLimit(safety.Cooked); l.Minutes != c.want || !strings.Contains(l.Source, c.source) {
			t.Errorf("%+v: %s", c, l)
		}
	}
}
