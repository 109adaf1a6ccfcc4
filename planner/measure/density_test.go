package measure

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tureen/planner/words"
)

// TestWeigh: common practice, no source, where a line does not name one:
// 1½ cups of flour weigh about 210 g with cooks who scoop, half a cup of
// butter 113 g, half a cup of granulated sugar 100 g.
func TestWeigh(t *testing.T) {
	for _, c := range []struct {
		amount, ingredient string
		within             [2]float64 // grams that the likeliest must be in
		spread             [2]float64 // grams that the spread must hold; 0 for none
	}{
		{"1½ cups", "all-purpose flour", [2]float64{170, 213}, [2]float64{171, 212}},
		{"½ cup", "butter", [2]float64{113, 114}, [2]float64{}},
		{"½ cup", "granulated sugar", [2]float64{100, 100}, [2]float64{}},
		// A cup of flour is 113 to 142 g: The Cake Bible by GNU units 2.22, USDA SR28.
		{"1 cup", "flour", [2]float64{125, 125}, [2]float64{113.5, 141.7}},
		{"1 cup", "sifted flour", [2]float64{113, 114}, [2]float64{}},
		{"1 cup", "flour, sifted", [2]float64{113, 114}, [2]float64{}},
		// USDA SR28.
		{"1 cup", "cooked rice", [2]float64{158, 158}, [2]float64{}},
		{"1 cup", "rice", [2]float64{185, 185}, [2]float64{}},
		{"1 cup", "onion", [2]float64{160, 160}, [2]float64{115, 160}},
		{"1 cup", "onions, finely chopped", [2]float64{160, 160}, [2]float64{}},
		{"2 cups", "fresh basil leaves", [2]float64{48, 48}, [2]float64{}},
		{"1 cup", "kidney beans", [2]float64{158, 158}, [2]float64{}},
		// Two makes of coarse salt: packages, by GNU units 2.22.
		{"1 cup", "kosher salt", [2]float64{134.4, 134.4}, [2]float64{135, 230}},
		{"250 ml", "water", [2]float64{249, 251}, [2]float64{}},
		{"100 g", "anything at all", [2]float64{100, 100}, [2]float64{}},
	} {
		w, err := Weigh(mustParse(t, c.amount), c.ingredient, Gram)
		if err != nil {
			t.Errorf("%s %s: %v", c.amount, c.ingredient, err)
			continue
		}
		got, low, high := floatOf(w.Amount.Low()), floatOf(w.Low.Low()), floatOf(w.High.Low())
		if got < c.within[0]-1e-9 || got > c.within[1]+1e-9 || low > got || high < got {
			t.Errorf("%s %s: got %v g (%v to %v), want within %v", c.amount, c.ingredient, got, low, high, c.within)
		}
		if c.spread[0] > 0 && (low > c.spread[0] || high < c.spread[1]) {
			t.Errorf("%s %s: spread %v to %v, want it to hold %v", c.amount, c.ingredient, low, high, c.spread)
		}
		if w.Source == "" && c.amount != "100 g" {
			t.Errorf("%s %s: no source", c.amount, c.ingredient)
		}
	}
	if w, err := Weigh(mustParse(t, "1½ cups"), "flour", Gram); err != nil || w.String() != "about 190 g (170 g to 215 g as people fill cups)" {
		t.Errorf("got %q, %v", w, err)
	}
	// And back again.
	if w, err := Weigh(mustParse(t, "100 g"), "sugar", Cup); err != nil || w.Amount.String() != "½ cup" {
		t.Errorf("100 g of sugar in cups: got %s, %v", w.Amount, err)
	}
	for _, c := range []struct{ amount, ingredient string }{
		{"1 cup", "butter beans"}, {"1 cup", "dragon"}, {"1 cup", ""}, {"3", "eggs"}, {"2 cloves", "garlic"},
	} {
		if w, err := Weigh(mustParse(t, c.amount), c.ingredient, Gram); err == nil {
			t.Errorf("%s %s: got %s, want a refusal", c.amount, c.ingredient, w)
		}
	}
	if _, err := Weigh(Quantity{}, "salt", Gram); err == nil {
		t.Error("no amount was weighed")
	}
}

// TestEveryDensityIsFound: each row is found by its own name, and its figures
// lie in the spread that is answered.
func TestEveryDensityIsFound(t *testing.T) {
	cup := mustParse(t, "1 cup")
	for _, r := range densities().rows {
		name := r.group
		for _, word := range strings.Fields(r.form) {
			if word = words.Singular(strings.Trim(word, ",()")); r.forms[word] {
				name += ", " + word
			}
		}
		w, err := Weigh(cup, name, Gram)
		if err != nil {
			t.Errorf("%s (%s): %v", r.ingredient, r.form, err)
			continue
		}
		if g := floatOf(r.perCup); g < floatOf(w.Low.Low())-1e-9 || g > floatOf(w.High.Low())+1e-9 {
			t.Errorf("%s (%s): %v g lies outside %s to %s of %s (%s)", r.ingredient, r.form, g, w.Low, w.High, w.Ingredient, w.Form)
		}
		// The two sources differ by at most 15 % (flour scooped against unsifted).
		if r.other != nil {
			if off := math.Abs(floatOf(r.other)/floatOf(r.perCup) - 1); off > 0.15 {
				t.Errorf("%s: USDA and GNU units differ by %.0f %%", r.ingredient, off*100)
			}
		}
	}
}

// TestTablesAreReferenceRows compares the embedded tables with the project's
// reference tables, when these stand beside the repository.
func TestTablesAreReferenceRows(t *testing.T) {
	read := func(name string) []map[string]string {
		f, err := os.Open(filepath.Join("..", "..", "..", "shared", "reference", name))
		if err != nil {
			t.Skipf("the shared reference tables are not beside this repository: %v", err)
		}
		defer f.Close()
		return maps(t, csv.NewReader(f))
	}
	units := map[string]map[string]string{}
	for _, m := range read("units.csv") {
		units[m["unit"]] = m
	}
	for _, m := range maps(t, csv.NewReader(strings.NewReader(unitsCSV))) {
		if m["row"] == "" {
			continue // SI units and counts are not in the reference table
		}
		ref := units[m["row"]]
		if ref == nil || ref["value"] != m["per_base"] || ref["source"] != m["source"] || ref["definition"] != m["definition"] || ref["exact"] != m["exact"] {
			t.Errorf("%s is not the reference row %q", m["id"], m["row"])
		}
	}
	known := map[string]bool{}
	for _, m := range read("density.csv") {
		known[m["ingredient"]+"|"+m["form"]+"|"+m["g_per_us_cup"]+"|"+m["gnu_units_g_per_cup"]+"|"+m["source"]] = true
	}
	for _, m := range maps(t, csv.NewReader(strings.NewReader(densityCSV))) {
		if key := m["ingredient"] + "|" + m["form"] + "|" + m["g_per_us_cup"] + "|" + m["gnu_units_g_per_cup"] + "|" + m["source"]; !known[key] {
			t.Errorf("not a reference row: %s", key)
		}
	}
}

func maps(t *testing.T, r *csv.Reader) []map[string]string {
	t.Helper()
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, v := range row {
			m[rows[0][i]] = v
		}
		out = append(out, m)
	}
	return out
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, _, err := Parse("1 1/2 cups all-purpose flour, sifted"); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "amounts/s")
}

func BenchmarkWeigh(b *testing.B) {
	q, err := ParseWhole("1½ cups")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Weigh(q, "all-purpose flour", Gram); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "weighed/s")
}
