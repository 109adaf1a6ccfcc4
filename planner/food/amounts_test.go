package food_test

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"tureen/planner/food"
	"tureen/planner/measure"
)

func amount(t *testing.T, text string) measure.Quantity {
	t.Helper()
	q, err := measure.ParseWhole(text)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func number(q measure.Quantity) float64 {
	f, _ := q.Low().Float64()
	return f
}

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
		{"1 cup", "butter beans", [2]float64{202, 202}, [2]float64{}}, // no butter, which is 227
		{"1 cup", "kidney beans", [2]float64{158, 158}, [2]float64{}},
		// Two makes of coarse salt: packages, by GNU units 2.22.
		{"1 cup", "kosher salt", [2]float64{134.4, 134.4}, [2]float64{135, 230}},
		{"250 ml", "water", [2]float64{249, 251}, [2]float64{}},
		{"100 g", "anything at all", [2]float64{100, 100}, [2]float64{}},
	} {
		w, err := measure.Weigh(amount(t, c.amount), food.DensityOf(c.ingredient), measure.Gram)
		if err != nil {
			t.Errorf("%s %s: %v", c.amount, c.ingredient, err)
			continue
		}
		got, low, high := number(w.Amount), number(w.Low), number(w.High)
		if got < c.within[0]-1e-9 || got > c.within[1]+1e-9 || low > got || high < got {
			t.Errorf("%s %s: got %v g (%v to %v), want within %v", c.amount, c.ingredient, got, low, high, c.within)
		}
		if c.spread[0] > 0 && (low > c.spread[0] || high < c.spread[1]) {
			t.Errorf("%s %s: spread %v to %v, want it to hold %v", c.amount, c.ingredient, low, high, c.spread)
		}
		if d := food.DensityOf(c.ingredient); (d == nil || d.Source == "") && c.amount != "100 g" {
			t.Errorf("%s %s: no source", c.amount, c.ingredient)
		}
	}
	w, err := measure.Weigh(amount(t, "1½ cups"), food.DensityOf("flour"), measure.Gram)
	if got := fmt.Sprint(w.Amount.Round(), w.Low.Round(), w.High.Round()); err != nil || got != "190 g 170 g 215 g" {
		t.Errorf("got %q, %v", got, err)
	}
	// And back again.
	w, err = measure.Weigh(amount(t, "100 g"), food.DensityOf("sugar"), measure.Cup)
	if err != nil || w.Amount.String() != "½ cup" {
		t.Errorf("100 g of sugar in cups: got %s, %v", w.Amount, err)
	}
	for _, c := range []struct{ amount, ingredient string }{
		{"1 cup", "butter dish"}, {"1 cup", "dragon"}, {"1 cup", ""}, {"3", "eggs"}, {"2 cloves", "garlic"},
	} {
		if w, err := measure.Weigh(amount(t, c.amount), food.DensityOf(c.ingredient), measure.Gram); err == nil {
			t.Errorf("%s %s: got %s, want a refusal", c.amount, c.ingredient, w.Amount)
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
		kilo, _ := measure.New(1, 1, measure.Kilogram)
		got, loss, ok := food.AsBought(kilo, c.name)
		if !ok {
			t.Errorf("%s: nothing is known", c.name)
			continue
		}
		grams, _ := got.Convert(measure.Gram)
		if want := big.NewRat(c.num, c.den); grams.High().Cmp(want) != 0 || loss.Percent() != c.percent ||
			!strings.Contains(loss.Source, c.ndb) {
			t.Errorf("%s: %s g, %s; want %s g, %d %%", c.name, grams.High().FloatString(1), loss.Trimming(),
				want.FloatString(1), c.percent)
		}
	}
}

// TestNotAsBought: what is counted, what the table does not have and what has no name is bought as it is.
func TestNotAsBought(t *testing.T) {
	for name, q := range map[string]measure.Quantity{
		"carrots": amount(t, "3"), "beef": amount(t, "500 g"), "": amount(t, "500 g"), "chicken stock": amount(t, "500 g"),
		"lemon juice": amount(t, "500 g"),
	} {
		if got, _, ok := food.AsBought(q, name); ok || !got.Equal(q) {
			t.Errorf("%s %s became %s", q, name, got)
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
		q, err := measure.ParseWhole(c.amount)
		if err != nil {
			t.Fatal(err)
		}
		if got, source := food.Juiced(q, c.name); got != c.want || got > 0 && source == "" {
			t.Errorf("%s %s: got %d, %q; want %d", c.amount, c.name, got, source, c.want)
		}
	}
}
