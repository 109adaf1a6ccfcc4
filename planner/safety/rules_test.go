package safety

import (
	"slices"
	"strings"
	"testing"

	"tureen/planner/food"
)

// TestWhichLimitHolds: each question has its row's answer, with its figure and who says so.
func TestWhichLimitHolds(t *testing.T) {
	first, whole := TwoStageCooling()
	from60, further := FurtherCooling()
	weight, thick := CoolPiece()
	for _, c := range []struct {
		name       string
		l          Limit
		figure, by string
	}{
		{"on the counter", CounterLimit(32), "at most 2 h", "USDA FSIS"},
		{"a hot day", CounterLimit(32.1), "at most 1 h", "USDA FSIS"},
		{"stage one", first, "down to 21 °C (70 °F) within 2 h", "FDA Food Code"},
		{"both stages", whole, "down to 5 °C (41 °F) within 6 h", "FDA Food Code"},
		{"the other stage one", from60, "down to 21 °C (70 °F) within 2 h", "FSANZ"},
		{"the other stage two", further, "down to 5 °C (41 °F) within 4 h", "FSANZ"},
		{"thick", CoolDepth(Thick), "at most 5 cm", "Southern Nevada"},
		{"thin", CoolDepth(Thin), "at most 10 cm", "Southern Nevada"},
		{"a piece", weight, "at most 1.8 kg", "Southern Nevada"},
		{"its thickness", thick, "at most 10 cm", "Southern Nevada"},
		{"rice", IntoTheCold(Rice, 20), "at most 1 h", ""},
		{"rice on a hot day", IntoTheCold(Rice, 35), "at most 1 h", ""},
		{"cooked", IntoTheCold(Cooked, 20), "at most 2 h", "USDA FSIS"},
		{"cooked on a hot day", IntoTheCold(Cooked, 35), "at most 1 h", "USDA FSIS"},
		{"a bird", CoolBird(), CoolBird().Note, "USDA FSIS, Turkey"},
		{"thawed in water", KeepsAfterThaw(Poultry, InColdWater), "at once", ""},
		{"thawed in the cold", KeepsAfterThaw(Poultry, InRefrigerator), "at most 2 days", ""},
		{"thawed on the counter", ThawOnCounter(), ThawOnCounter().Note, ""},
		{"a row by its name", Row("cool-thin-depth"), "at most 10 cm", "Southern Nevada"},
	} {
		if got := c.l.Figure(); !strings.HasPrefix(got, c.figure) || got == "" || !strings.Contains(c.l.Source, c.by) {
			t.Errorf("%s: %q (%s), want %q by %q", c.name, got, c.l.Source, c.figure, c.by)
		}
		if got, want := c.l.String(), c.l.Figure()+c.l.Air()+" ("+c.l.Source+")"; got != want {
			t.Errorf("%s: %q, want %q", c.name, got, want)
		}
	}
	if got := (Limit{}).String(); got != "no published limit" {
		t.Errorf("none: %q", got)
	}
	if KeepsAfterThaw(None, InRefrigerator).Applies() || KeepsAfterThaw(None, InColdWater).Applies() ||
		RefrigeratorLimit(None).Applies() {
		t.Error("what is no food keeps for so long")
	}
}

// TestBy: whose limit it is, and whose figures hold in a country.
func TestBy(t *testing.T) {
	for want, got := range map[string]string{
		"published limit: " + limit("counter").Source:              limit("counter").By(),
		"no published limit, " + limit("fridge-custard").Source:    limit("fridge-custard").By(),
		"foodsafety.gov's and USDA's figures (United States)":      UnitedStates.By(),
		"the Food Standards Agency's figures (United Kingdom)":     UnitedKingdom.By(),
		"the strictest published figures":                          Elsewhere.By(),
		"Coventry City Council, Controlling allergens":             source(ByMachine),
		"Food Standards Agency, Allergen guidance for food busine": source(ByOil),
	} {
		if !strings.HasPrefix(got, want) {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	if OtherCountry.By() != Elsewhere.By() {
		t.Error("a country without an authority has figures of its own")
	}
	seen := map[string]bool{}
	for _, c := range []Contact{ByOil, ByMachine, ByBoard} {
		do, source := ContactAdvice(c)
		if do == "" || source == "" || seen[do] {
			t.Errorf("%s: %q (%q)", c, do, source)
		}
		seen[do] = true
	}
}

func source(c Contact) string {
	_, source := ContactAdvice(c)
	return source
}

// TestFirstOfTheSurest: of several words that tell of one allergen the surest is named, and of those as sure the first.
func TestFirstOfTheSurest(t *testing.T) {
	for ingredient, want := range map[string]string{"butter or cream": "butter", "cream or butter": "cream",
		"cream, butter": "cream", "milk and cream": "milk"} {
		n := 0
		for _, f := range Allergens(ingredient) {
			if f.Allergen == "milk" {
				n++
				if f.Word != want || f.Certainty != Contains {
					t.Errorf("%s: %s", ingredient, f)
				}
			}
		}
		if n != 1 {
			t.Errorf("%s: milk is found %d times", ingredient, n)
		}
	}
	for _, ingredient := range []string{"biscuits or cake", "salad dressing", "pesto and stock", "curry paste or sauce"} {
		for _, f := range Allergens(ingredient) {
			got := slices.DeleteFunc(slices.Clone(tell(ingredient)), func(x food.Tell) bool {
				return x.Tag != f.Allergen || x.Certainty != f.Certainty
			})
			if len(got) == 0 || got[0].Word != f.Word {
				t.Errorf("%s: %s, of %+v", ingredient, f, got)
			}
		}
	}
}

// TestTold: the surest that an ingredient tells of something, with the word that tells it; nothing where it tells
// nothing.
func TestTold(t *testing.T) {
	for _, c := range []struct {
		ingredient string
		tag        food.Tag
		want       Certainty
		word       string
	}{
		{"butter", "milk", Contains, "butter"}, {"butter", "fish", "", ""}, {"anchovies", "fish", Contains, "anchov"},
		{"pesto", "milk", Contains, "pesto"}, {"carrots", "milk", "", ""},
		{"stock and butter", "milk", Contains, "butter"},
	} {
		got, word := Told(c.ingredient, c.tag)
		if got != c.want || !strings.HasPrefix(word, c.word) || (word == "") != (c.want == "") {
			t.Errorf("%s of %s: %q by %q, want %q by %q", c.ingredient, c.tag, got, word, c.want, c.word)
		}
	}
	for _, ingredient := range []string{"butter", "pesto", "batter mix", "salad dressing", "biscuits", "chocolate"} {
		for _, one := range tell(ingredient) {
			sure, may := false, false
			for _, other := range tell(ingredient) {
				if other.Tag == one.Tag {
					sure, may = sure || other.Certainty == Contains, may || other.Certainty == MayContain
				}
			}
			want := MayContain
			if sure {
				want = Contains
			}
			if got, _ := Told(ingredient, one.Tag); got != want {
				t.Errorf("%s of %s: %q, want %q (sure %v, may %v)", ingredient, one.Tag, got, want, sure, may)
			}
		}
	}
}
