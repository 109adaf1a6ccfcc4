package measure

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// TestAsBought: of a kilogram that is ready to cook a quarter, or all of it, is thrown away.
func TestAsBought(t *testing.T) {
	for _, c := range []struct {
		amount string
		refuse *big.Rat
		want   string // "" and no weight to buy
	}{
		{"1 kg", big.NewRat(1, 4), "1⅓ kg"}, {"90 g", big.NewRat(1, 10), "100 g"}, {"1 kg", new(big.Rat), "1 kg"},
		{"1 kg", big.NewRat(1, 1), ""}, {"3", big.NewRat(1, 4), ""}, {"1 cup", big.NewRat(1, 4), ""},
	} {
		q := mustParse(t, c.amount)
		got, ok := AsBought(q, c.refuse)
		if ok != (c.want != "") || ok && got.String() != c.want || !ok && !got.Equal(q) {
			t.Errorf("%s, %s thrown away: %s, %v; want %s", c.amount, c.refuse, got, ok, c.want)
		}
	}
}

// TestJuicedRoundsUp: a lemon gives 48 g, and without a density a millilitre is a gram.
func TestJuicedRoundsUp(t *testing.T) {
	for amount, want := range map[string]int{"48 g": 1, "49 g": 2, "48 ml": 1, "97 ml": 3, "3": 0} {
		if got := Juiced(mustParse(t, amount), big.NewRat(48, 1), nil); got != want {
			t.Errorf("%s: %d, want %d", amount, got, want)
		}
	}
}

func TestSaysTrimmed(t *testing.T) {
	for name, want := range map[string]bool{
		"peeled potatoes": true, "Trimmed leeks": true, "potatoes, peeled": false, "peeled": false, "pitted": false,
		"potatoes": false, "": false,
	} {
		if got := SaysTrimmed(name); got != want {
			t.Errorf("%q: got %v, want %v", name, got, want)
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
		var d *Density
		if c.name == "flour" {
			d = flour
		}
		s := NewStock(d)
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
		s := NewStock(nil)
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
