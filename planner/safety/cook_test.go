package safety_test

import (
	"testing"

	"tureen/planner/safety"
)

// TestCookingByCountry: the UK's Food Standards Agency has one figure for the middle of food, 70 °C for 2 minutes
// (Cooking safely in your business; limits.csv, cook-uk-core), and none for fish and whole cuts of beef and lamb;
// elsewhere the chart of foodsafety.gov holds (Safe Minimum Internal Temperatures).
func TestCookingByCountry(t *testing.T) {
	const core = "at least 70 °C (158 °F) for 2 min"
	for _, c := range []struct {
		what      string
		of        func(safety.Country) safety.Limit
		uk, other string
	}{
		{"poultry", of(safety.Poultry), core, "at least 73.9 °C (165 °F)"},
		{"mince", of(safety.GroundMeat), core, "at least 71.1 °C (160 °F)"},
		{"offal", of(safety.Offal), core, "at least 71.1 °C (160 °F)"},
		{"game", of(safety.Game), core, "at least 73.9 °C (165 °F)"},
		{"egg dishes", of(safety.EggDish), core, "at least 71.1 °C (160 °F)"},
		{"whole cuts", of(safety.RedMeat), "at least 62.8 °C (145 °F)", "at least 62.8 °C (145 °F)"},
		{"fish", of(safety.Fish), "at least 62.8 °C (145 °F)", "at least 62.8 °C (145 °F)"},
		{"what keeps", of(safety.None), "no published limit", "no published limit"},
		{"pork", safety.CookPorkTo, core, "at least 62.8 °C (145 °F)"},
		{"heated again", safety.Reheat, core, "at least 74 °C (165 °F)"},
		{"stuffing", safety.CookStuffingTo, core, "at least 73.9 °C (165 °F)"},
	} {
		for in, want := range map[safety.Country]string{safety.UnitedKingdom: c.uk, safety.UnitedStates: c.other,
			safety.Elsewhere: c.other, safety.OtherCountry: c.other} {
			if got := c.of(in).Figure(); got != want {
				t.Errorf("%s in %q: %s, want %s", c.what, in, got, want)
			}
		}
	}
}

func of(k safety.Kind) func(safety.Country) safety.Limit {
	return func(c safety.Country) safety.Limit { return safety.CookToIn(c, k) }
}

// TestHotDay: why the time out of the cold is halved is said beside it, 32 °C (90 °F) (USDA FSIS, "Danger Zone").
func TestHotDay(t *testing.T) {
	if got := safety.CounterLimit(33).Air(); got != " where the air is above 32 °C (90 °F)" {
		t.Errorf("on a hot day: %q", got)
	}
	if got := safety.CounterLimit(20).Air(); got != "" {
		t.Errorf("on any other: %q", got)
	}
}
