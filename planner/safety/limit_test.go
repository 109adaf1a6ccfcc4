package safety

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const (
	hour = 60
	day  = 24 * hour
)

// TestPublishedTimes holds the time limits against the documents named in each
// line, written here apart from limits.csv.
func TestPublishedTimes(t *testing.T) {
	for _, c := range []struct {
		name   string
		got    Limit
		want   int // minutes
		source string
	}{
		{"counter, 20 °C", CounterLimit(20), 2 * hour, `USDA FSIS, "Danger Zone" (40F - 140F)`},
		{"counter, 32 °C", CounterLimit(32), 2 * hour, `USDA FSIS, "Danger Zone" (40F - 140F)`},
		{"counter, 32.5 °C", CounterLimit(32.5), 1 * hour, `USDA FSIS, "Danger Zone" (40F - 140F)`},
		{"counter, unknown air", CounterLimit(math.NaN()), 1 * hour, `USDA FSIS, "Danger Zone" (40F - 140F)`},
		{"raw poultry", RefrigeratorLimit(Poultry), 2 * day, "foodsafety.gov Cold Food Storage Chart"},
		{"ground meat", RefrigeratorLimit(GroundMeat), 2 * day, "foodsafety.gov Cold Food Storage Chart"},
		{"steaks, chops, roasts", RefrigeratorLimit(RedMeat), 5 * day, "foodsafety.gov Cold Food Storage Chart"},
		// Raw fish is 1-3 days on the chart; FDA says two days from purchase: the shorter counts.
		{"raw fish", RefrigeratorLimit(Fish), 2 * day, "FDA, Selecting and Serving Fresh and Frozen Seafood"},
		{"shellfish", RefrigeratorLimit(Shellfish), 2 * day, "FDA, Selecting and Serving Fresh and Frozen Seafood"},
		{"cut fruit and leaves", RefrigeratorLimit(CutProduce), 4 * day, "FoodKeeper"},
		// Older copies of NCHFP's page say seven days, the present one four.
		{"garlic in oil", RefrigeratorLimit(GarlicOil), 4 * day, "National Center for Home Food Preservation"},
		{"live crab", RefrigeratorLimit(LiveShellfish), 1 * day, "foodsafety.gov Cold Food Storage Chart"},
		{"eggs in the shell", RefrigeratorLimit(Eggs), 35 * day, "foodsafety.gov Cold Food Storage Chart"},
		// The chart's 2 to 4 days are of eggs taken apart; for what is made of raw egg nobody publishes any.
		{"raw egg", RefrigeratorLimit(RawEgg), 2 * day, "the low end of the 2 to 4 days of foodsafety.gov's chart"},
		{"raw egg, in the UK", RefrigeratorLimitIn(UnitedKingdom, RawEgg), 2 * day, "common practice"},
		{"raw egg, in the US", RefrigeratorLimitIn(UnitedStates, RawEgg), 2 * day, "common practice"},
		// US charts give 3-4 days for leftovers, soups and egg dishes, the UK 48 h.
		{"leftovers", RefrigeratorLimit(Cooked), 2 * day, "Food Standards Agency"},
		{"soup", RefrigeratorLimit(Soup), 2 * day, "Food Standards Agency"},
		{"egg dish", RefrigeratorLimit(EggDish), 2 * day, "Food Standards Agency"},
		{"nobody has said", RefrigeratorLimit(""), 2 * day, "Food Standards Agency"},
		// The US gives 4-6 days, the UK 1 day.
		{"cooked rice", RefrigeratorLimit(Rice), 1 * day, "Food Standards Agency"},
		{"custard", RefrigeratorLimit(Custard), 2 * day, "common practice, no source"},
		{"pate", RefrigeratorLimit(Pate), 2 * day, "FoodKeeper"},
		{"rice into the refrigerator", limit("rice-cool"), 1 * hour, "Food Standards Agency"},
		{"soup into the refrigerator", limit("counter"), 2 * hour, `USDA FSIS, "Danger Zone"`},
		{"thawed poultry", KeepsAfterThaw(Poultry, InRefrigerator), 2 * day, "USDA FSIS, The Big Thaw"},
		{"thawed roast", KeepsAfterThaw(RedMeat, InRefrigerator), 5 * day, "USDA FSIS, The Big Thaw"},
		{"thawed in cold water", KeepsAfterThaw(RedMeat, InColdWater), 0, "USDA FSIS, The Big Thaw"},
		{"thawed in the microwave", KeepsAfterThaw(Poultry, InMicrowave), 0, "USDA FSIS, The Big Thaw"},
		{"rest of a roast", RestAfterCooking(RedMeat), 3, "foodsafety.gov Safe Minimum Internal Temperatures"},
	} {
		if !c.got.Timed || c.got.Minutes != c.want {
			t.Errorf("%s: got %d minutes (timed %v), want %d by %s", c.name, c.got.Minutes, c.got.Timed, c.want, c.source)
		}
		if !strings.Contains(c.got.Source, c.source) {
			t.Errorf("%s: source %q, want %q", c.name, c.got.Source, c.source)
		}
	}
	first, whole := TwoStageCooling()
	// FDA Food Code 2022, 3-501.14(A): 57 to 21 °C in 2 h, to 5 °C in 6 h from the start.
	if first.Minutes != 2*hour || first.TempC != 21 || whole.Minutes != 6*hour || whole.TempC != 5 {
		t.Errorf("two-stage cooling: got %v and %v", first, whole)
	}
}

// TestPublishedTemperatures: foodsafety.gov Safe Minimum Internal Temperatures
// (HHS/USDA), FDA Food Code 2022 3-501.16 and the UK regulations of 2013.
func TestPublishedTemperatures(t *testing.T) {
	for _, c := range []struct {
		name  string
		got   Limit
		bound Bound
		f, c  float64
	}{
		{"poultry", CookTo(Poultry), AtLeast, 165, 73.9},
		{"ground meat", CookTo(GroundMeat), AtLeast, 160, 71.1},
		{"whole red meat", CookTo(RedMeat), AtLeast, 145, 62.8},
		{"fish", CookTo(Fish), AtLeast, 145, 62.8},
		{"egg dish", CookTo(EggDish), AtLeast, 160, 71.1},
		{"leftovers", CookTo(Cooked), AtLeast, 165, 73.9},
		{"reheating", Reheat(Elsewhere), AtLeast, 165, 74},
		{"hot holding, UK law is the strictest", HotHold(), AtLeast, 145.4, 63},
		{"cold holding, USDA is the strictest", strictest(Published(ColdHolding)), AtMost, 40, 4},
		{"freezer", limit("freezer"), AtMost, 0, -18},
	} {
		if !c.got.Heated || c.got.TempF != c.f || c.got.TempC != c.c || c.got.Bound != c.bound {
			t.Errorf("%s: got %s, want %s %v °F %v °C", c.name, c.got, c.bound, c.f, c.c)
		}
	}
	for _, k := range []Kind{Shellfish, Eggs} {
		if l := CookTo(k); !l.Applies() || l.Heated || l.Note == "" {
			t.Errorf("CookTo(%s): got %+v, want a sign in words and no temperature", k, l)
		}
	}
}

// TestStrictestOfSources: the answer is never laxer than any source listed for
// the kind, and food that needs none has none.
func TestStrictestOfSources(t *testing.T) {
	for _, k := range Kinds() {
		got := RefrigeratorLimit(k)
		if k == None {
			if got.Applies() || CookTo(k).Applies() || KeepsAfterThaw(k, InRefrigerator).Applies() || k.Perishable() {
				t.Errorf("None has a limit")
			}
			continue
		}
		if !got.Timed || got.Minutes <= 0 || got.Bound != AtMost {
			t.Errorf("%s: refrigerator limit %+v is no longest time", k, got)
		}
		for _, l := range limitsOf(k).refrigerator {
			if got.Minutes > l.Minutes {
				t.Errorf("%s: %s is laxer than %s", k, got, l)
			}
			if l.From > l.Minutes {
				t.Errorf("%s: range runs backwards: %+v", k, l)
			}
		}
		if k.Label() == "" || got.Source == "" || got.How == "" || got.Authority == "" {
			t.Errorf("%s: label, source, how or authority missing", k)
		}
		if again, err := ParseKind(strings.ToUpper(strings.ReplaceAll(string(k), "-", " "))); err != nil || again != k {
			t.Errorf("ParseKind of %s: got %v, %v", k, again, err)
		}
	}
	if _, err := ParseKind("dragon"); err == nil || !strings.Contains(err.Error(), "ground-meat") {
		t.Errorf("ParseKind(dragon): got %v, want an error with the names", err)
	}
}

// TestThawTime: USDA FSIS, The Big Thaw: 24 h for each 4 to 5 lb in the
// refrigerator, a full day even for a pound; in cold water an hour for a pound,
// 2 to 3 h for 3-4 lb, about 30 min a pound for a turkey. The whole-turkey rows
// are the long ends of that table.
func TestThawTime(t *testing.T) {
	lb := func(n float64) int { return int(n * gramsPerPound) }
	for _, c := range []struct {
		grams  int
		method ThawMethod
		want   int
	}{
		{lb(1), InRefrigerator, 1 * day},
		{150, InRefrigerator, 1 * day},
		{lb(4), InRefrigerator, 1 * day},
		{lb(4.5), InRefrigerator, 2 * day},
		{lb(12), InRefrigerator, 3 * day},
		{lb(16), InRefrigerator, 4 * day},
		{lb(20), InRefrigerator, 5 * day},
		{lb(24), InRefrigerator, 6 * day},
		{lb(1), InColdWater, 1 * hour},
		{lb(4), InColdWater, 3 * hour},
		{lb(12), InColdWater, 6 * hour},
		{lb(16), InColdWater, 8 * hour},
		{lb(20), InColdWater, 10 * hour},
		{lb(24), InColdWater, 12 * hour},
	} {
		got, rate, err := ThawTime(c.grams, c.method)
		if err != nil || got != c.want || !rate.Applies() {
			t.Errorf("%d g, %s: got %d min, %v, %v; want %d min", c.grams, c.method, got, rate, err, c.want)
		}
	}
	for _, c := range []struct {
		grams  int
		method ThawMethod
		say    string
	}{
		{500, OnCounter, "refrigerator"},
		{500, InMicrowave, "book"},
		{500, "hairdryer", "refrigerator"},
		{0, InRefrigerator, "between"},
		{-5, InColdWater, "between"},
		{math.MaxInt32, InColdWater, "between"},
	} {
		if _, _, err := ThawTime(c.grams, c.method); err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%d g, %s: got %v, want an error that says %q", c.grams, c.method, err, c.say)
		}
	}
}

func TestThawTimeGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.IntRange(1, MaxThawGrams).Draw(t, "a")
		b := rapid.IntRange(a, MaxThawGrams).Draw(t, "b")
		for _, m := range []ThawMethod{InRefrigerator, InColdWater} {
			short, _, err := ThawTime(a, m)
			if err != nil {
				t.Fatal(err)
			}
			long, _, err := ThawTime(b, m)
			if err != nil {
				t.Fatal(err)
			}
			if short > long || short <= 0 {
				t.Fatalf("%s: %d g takes %d min, %d g takes %d min", m, a, short, b, long)
			}
			// Never quicker than the published rate itself.
			if m == InColdWater && float64(long) < 30*float64(b)/gramsPerPound {
				t.Fatalf("%d g in cold water: %d min is under 30 min a pound", b, long)
			}
		}
	})
}

func TestFigure(t *testing.T) {
	for _, c := range []struct {
		l    Limit
		want string
	}{
		{CounterLimit(20), "at most 2 h"},
		{CounterLimit(35), "at most 1 h"},
		{RefrigeratorLimit(Rice), "at most 1 day"},
		{RefrigeratorLimit(Poultry), "at most 2 days at 4 °C (40 °F) or below"},
		{CookTo(Poultry), "at least 73.9 °C (165 °F)"},
		{HotHold(), "at least 63 °C (145.4 °F)"},
		{KeepsAfterThaw(Fish, InColdWater), "at once"},
		{limit("cool-stage1"), "down to 21 °C (70 °F) within 2 h"},
		{Limit{}, "no published limit"},
	} {
		if got := c.l.Figure(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
