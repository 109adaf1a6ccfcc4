package measure

import (
	"encoding/csv"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestYieldsAreReferenceRows: every row of yield.csv is a row of the reference table, unchanged.
func TestYieldsAreReferenceRows(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "reference", "produce_yield.csv"))
	if err != nil {
		t.Skipf("the shared reference tables are not beside this repository: %v", err)
	}
	known := map[string]bool{}
	for _, f := range csvRows("produce_yield.csv", string(text)) {
		known[strings.Join(f, "|")] = true
	}
	for _, f := range csvRows("yield.csv", yieldCSV) {
		if row := strings.Join(f[1:], "|"); !known[row] {
			t.Errorf("not a row of the reference table: %s", row)
		}
	}
}

// TestAsBought: what to buy for a kilogram ready to cook, by hand from the source's refuse: bought = edible / (1 -
// refuse). The source is USDA National Nutrient Database SR28, FOOD_DES, by its NDB number.
func TestAsBought(t *testing.T) {
	for _, c := range []struct {
		name     string
		percent  int
		num, den int64 // grams to buy for 1 kg
		ndb      string
	}{
		{"potatoes", 25, 4000, 3, "NDB 11352"},
		{"peeled potatoes", 25, 4000, 3, "NDB 11352"},
		{"onions", 10, 10000, 9, "NDB 11282"},
		{"carrot", 11, 100000, 89, "NDB 11124"},
		{"cauliflower", 61, 100000, 39, "NDB"},
		{"leeks", 56, 100000, 44, "NDB 11246"},
		{"trimmed leeks", 56, 100000, 44, "NDB 11246"},
		{"asparagus", 47, 100000, 53, "NDB"},
		{"spring onions", 4, 100000, 96, "NDB 11291"},
		{"courgettes", 5, 100000, 95, "NDB 11477"},
		{"apples", 23, 100000, 77, "NDB"},
	} {
		kilo, _ := New(1, 1, Kilogram)
		got, loss, ok := AsBought(kilo, c.name)
		if !ok {
			t.Errorf("%s: nothing is known", c.name)
			continue
		}
		grams, _ := got.Convert(Gram)
		if want := big.NewRat(c.num, c.den); grams.High().Cmp(want) != 0 || loss.Percent != c.percent ||
			!strings.Contains(loss.Source, c.ndb) {
			t.Errorf("%s: %s g, %s; want %s g, %d %%", c.name, grams.High().FloatString(1), loss, want.FloatString(1), c.percent)
		}
	}
}

func TestAsBoughtKnowsItsLimits(t *testing.T) {
	three, _ := New(3, 1, Each)
	gram, _ := New(500, 1, Gram)
	for name, q := range map[string]Quantity{"carrots": three, "beef": gram, "": gram, "chicken stock": gram} {
		if got, _, ok := AsBought(q, name); ok || !got.Equal(q) {
			t.Errorf("%s %s became %s", q, name, got)
		}
	}
	for name, want := range map[string]bool{
		"peeled potatoes": true, "Trimmed leeks": true, "potatoes, peeled": false, "peeled": false, "pitted": false,
		"potatoes": false, "": false,
	} {
		if got := SaysTrimmed(name); got != want {
			t.Errorf("%q: got %v, want %v", name, got, want)
		}
	}
}

// TestJuiced: a lemon gives 48 g of juice, a lime 44, an orange 86 (USDA SR28, NDB 09152, 09160, 09206).
func TestJuiced(t *testing.T) {
	for _, c := range []struct {
		amount, name string
		want         int
	}{
		{"48 g", "lemon juice", 1}, {"49 g", "lemon juice", 2}, {"88 g", "lime juice", 2}, {"430 g", "orange juice", 5},
		{"430 g", "lemons", 0}, {"3", "lemon juice", 0},
	} {
		q, err := ParseWhole(c.amount)
		if err != nil {
			t.Fatal(err)
		}
		if got, source := Juiced(q, c.name); got != c.want || got > 0 && source == "" {
			t.Errorf("%s %s: got %d, %q; want %d", c.amount, c.name, got, source, c.want)
		}
	}
}

// TestDraw: one row a want from a stock.
func TestDraw(t *testing.T) {
	for _, c := range []struct {
		name, stock, want string
		missing           string // "" and met
	}{
		{"butter", "250 g", "100 g", ""},
		{"butter", "250 g", "250 g", ""},
		{"butter", "250 g", "400 g", "150 g"},
		{"butter", "1 kg", "2 sticks", ""},
		{"milk", "1 l", "1500 ml", "500 ml"},
		{"lemon", "2", "3", "1"},
		{"lemon", "2", "200 g", "200 g"}, // nobody knows how much two are
		{"flour", "1 kg", "2 cups", ""},
		{"xyzzy", "1 kg", "2 cups", "2 cups"}, // no density, no comparison
		{"egg", "2-3", "3", "1"},              // the near end counts for what is there
		{"egg", "3", "2-4", "1"},              // the far end for what is wanted
	} {
		s := NewStock(c.name)
		have, err := ParseWhole(c.stock)
		if err != nil {
			t.Fatal(err)
		}
		s.Put(have)
		want, err := ParseWhole(c.want)
		if err != nil {
			t.Fatal(err)
		}
		missing, met := s.Draw(want)
		if met != (c.missing == "") || missing.String() != c.missing {
			t.Errorf("%s of %s, where %s is: missing %s, met %v; want %q", c.want, c.name, c.stock, missing, met, c.missing)
		}
	}
}

// TestDrawLosesNothing: whatever is drawn, what is missing and what is left together are what was there and wanted.
func TestDrawLosesNothing(t *testing.T) {
	units := []Unit{Gram, Kilogram, Ounce, Pound}
	rapid.Check(t, func(t *rapid.T) {
		s := NewStock("something")
		there, wanted, missing := new(big.Rat), new(big.Rat), new(big.Rat)
		grams := func(q Quantity) *big.Rat { g, _ := q.Convert(Gram); return g.High() }
		draw := func(label string) Quantity {
			q, err := New(rapid.Int64Range(1, 5000).Draw(t, label), rapid.Int64Range(1, 7).Draw(t, "den"),
				rapid.SampledFrom(units).Draw(t, "unit"))
			if err != nil {
				t.Fatal(err)
			}
			return q
		}
		for range rapid.IntRange(0, 3).Draw(t, "puts") {
			q := draw("put")
			s.Put(q)
			there.Add(there, grams(q))
		}
		for range rapid.IntRange(1, 6).Draw(t, "wants") {
			q := draw("want")
			wanted.Add(wanted, grams(q))
			m, met := s.Draw(q)
			if met != m.IsZero() {
				t.Fatalf("met %v and missing %s", met, m)
			}
			if !met {
				missing.Add(missing, grams(m))
			}
		}
		left := new(big.Rat)
		for _, q := range s.amounts {
			left.Add(left, grams(q))
		}
		used := new(big.Rat).Sub(there, left)
		if got := new(big.Rat).Sub(wanted, missing); got.Cmp(used) != 0 {
			t.Fatalf("there %s, wanted %s, missing %s, left %s", there, wanted, missing, left)
		}
		if left.Sign() > 0 && missing.Sign() > 0 {
			t.Fatalf("%s g is missing though %s g is left", missing, left)
		}
	})
}

// TestUpIsNeverLess: what is bought is never less than what is needed; grams and millilitres are no more than a tenth
// over, but for the least.
func TestUpIsNeverLess(t *testing.T) {
	units := []Unit{Gram, Kilogram, Millilitre, Litre, Cup, Tablespoon, Teaspoon, Ounce, Pound, Each, "bunch"}
	rapid.Check(t, func(t *rapid.T) {
		q, err := New(rapid.Int64Range(1, 9999).Draw(t, "num"), rapid.Int64Range(1, 48).Draw(t, "den"),
			rapid.SampledFrom(units).Draw(t, "unit"))
		if err != nil {
			t.Skip(err)
		}
		up := q.Up()
		c, ok := up.Cmp(q)
		if !ok || c < 0 {
			t.Fatalf("%s is bought as %s", q, up)
		}
		if q.Unit().Kind() == Count {
			if !up.High().IsInt() {
				t.Fatalf("%s is bought as %s", q, up)
			}
			return
		}
		inBase := new(big.Rat).Mul(q.High(), q.Unit().InBase())
		if off := q.Off(up); isSI(q.Unit()) && off > 0.1 && inBase.Cmp(big.NewRat(5, 1)) > 0 {
			t.Fatalf("%s is bought as %s, %.0f %% more", q, up, 100*off)
		}
	})
}

// TestYieldNamesAreRead: a table with two meanings for a name would panic; here every name of it is found.
func TestYieldNamesAreRead(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(yieldCSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range rows[1:] {
		for _, name := range strings.Split(f[0], "|") {
			if r, ok := yieldOf(name); !ok || r.item != f[1] {
				t.Errorf("%s is %q, want %q", name, r.item, f[1])
			}
		}
	}
}
