package safety_test

import (
	"testing"

	"tureen/planner/safety"
)

// TestCountry: which authority's figure holds is told by the country, and where none is known the strictest.
func TestCountry(t *testing.T) {
	for zone, want := range map[string]safety.Country{
		"Europe/London": safety.UnitedKingdom, "America/Chicago": safety.UnitedStates, "US/Pacific": safety.UnitedStates,
		"America/Indiana/Knox": safety.UnitedStates, "America/Toronto": safety.Elsewhere, "": safety.Elsewhere,
		"Europe/Paris": safety.Elsewhere,
	} {
		if got := safety.CountryOf(zone); got != want {
			t.Errorf("%s: %q, want %q", zone, got, want)
		}
	}
	const day = 24 * 60
	// USDA FSIS, "Leftovers and Food Safety": 3 to 4 days; FSA, "How to chill, freeze and defrost food safely": within
	// two days (48 hours). Raw poultry, FSIS: 1 to 2 days, of raw food the high figure.
	for _, c := range []struct {
		in   safety.Country
		kind safety.Kind
		want int
	}{
		{safety.UnitedStates, safety.Cooked, 3 * day}, {safety.UnitedKingdom, safety.Cooked, 2 * day},
		{safety.Elsewhere, safety.Cooked, 2 * day}, {safety.UnitedStates, safety.Poultry, 2 * day},
	} {
		got := safety.RefrigeratorLimitIn(c.in, c.kind)
		if got.Minutes != c.want {
			t.Errorf("%s in %q: %d minutes (%s), want %d", c.kind, c.in, got.Minutes, got.Source, c.want)
		}
	}
	if got := safety.RefrigeratorLimitIn(safety.UnitedStates, safety.None); got.Applies() {
		t.Errorf("no food: %+v", got)
	}
}
