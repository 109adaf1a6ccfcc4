package scale

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/measure"
)

func dishOf(name, do string, lines ...string) *planner.Dish {
	d := &planner.Dish{Key: "dish", Name: name, Serves: 8, Steps: []planner.Step{{Key: "make", Do: do}}}
	for i := 0; i+1 < len(lines); i += 2 {
		d.Ingredients = append(d.Ingredients, planner.Ingredient{Amount: lines[i], Name: lines[i+1]})
	}
	return d
}

// TestGrowth: what grows how, from the words. That spice, leavening and frying fat grow less, and salt in doughs,
// brines, cures and pickles in proportion, is common practice, no source.
func TestGrowth(t *testing.T) {
	for _, c := range []struct {
		dish, do, amount, name string
		want                   measure.Growth
	}{
		{"Stew", "Simmer it", "1 kg", "beef", measure.Linear},
		{"Stew", "Simmer it", "2 tsp", "ground cumin", measure.Sublinear},
		{"Stew", "Simmer it", "2", "onions", measure.Linear},
		{"Stew", "Simmer it", "2 cloves", "garlic", measure.Linear},
		{"Stew", "Simmer it", "1 bunch", "coriander", measure.Linear},
		{"Stew", "Simmer it", "1 tsp", "ground coriander", measure.Sublinear},
		{"Salad", "Toss it", "300 g", "mustard greens", measure.Linear},
		{"Cake", "Mix it", "2 tsp", "baking powder", measure.Sublinear},
		{"Cake", "Mix it", "7 g", "dried yeast", measure.Sublinear},
		{"Cake", "Mix it", "3", "eggs", measure.Stepwise},
		{"Ratatouille", "Stew it", "3", "eggplants", measure.Linear},
		{"Stew", "Simmer it", "2 tins", "tomatoes", measure.Stepwise},
		{"Roast", "Roast it", "2", "whole chickens", measure.Stepwise},
		{"Fritters", "Fry the fritters", "500 ml", "sunflower oil", measure.Sublinear},
		{"Salad", "Toss it", "50 ml", "olive oil", measure.Linear},
		{"Soup", "Simmer it", "2 tsp", "salt", measure.Sublinear},
		{"Loaf", "Knead the dough", "15 g", "salt", measure.Linear},
		{"Pickled cucumbers", "Pack them", "50 g", "salt", measure.Linear},
		{"Cured salmon", "Cure the fish", "80 g", "salt", measure.Linear},
		{"Brine", "Make the brine", "80 g", "salt", measure.Linear},
		{"Soup", "Simmer it", "", "salt", measure.Linear},
	} {
		d := dishOf(c.dish, c.do, c.amount, c.name)
		if got := d.GrowthOf(&d.Ingredients[0]); got != c.want {
			t.Errorf("%s of %s: got %q, want %q", c.name, c.dish, got, c.want)
		}
	}
	d := dishOf("Stew", "Simmer it", "2 tsp", "ground cumin")
	d.Ingredients[0].Grows = planner.InProportion
	if got := d.GrowthOf(&d.Ingredients[0]); got != measure.Linear {
		t.Errorf("the host's word does not count: %q", got)
	}
}

func TestAmounts(t *testing.T) {
	cake := func(amount, name string) *planner.Dish {
		d := dishOf("Cake", "Mix it", amount, name)
		d.Ingredients = append(d.Ingredients, planner.Ingredient{Amount: "200 g", Name: "sugar"})
		return d
	}
	for _, c := range []struct {
		dish   *planner.Dish
		covers int
		want   string
		note   string // a part of it
	}{
		{cake("250 g", "flour"), 8, "250 g", ""},
		{cake("250 g", "flour"), 10, "310 g", ""},
		{cake("3", "eggs"), 4, "2", "1 egg, and beat 1 more and use 25 g of it"},
		{cake("3", "eggs"), 10, "4", "by the sum 3¾"}, // within a tenth
		{cake("3", "eggs"), 23, "9", "by the sum 8⅝"},
		{cake("1", "eggs"), 10, "2", "1.25: 1 egg, and beat 1 more and use 13 g of it"},
		{cake("2", "egg yolks"), 10, "3", "by the sum 2½"},
		{cake("1 tsp", "baking powder"), 10, "1¼ tsp", ""}, // hardly less: simply more
		{cake("1 tsp", "baking powder"), 23, "2¼ tsp", "which would be 1 tbsp: a larger dough"},
		{cake("4 tbsp", "honey"), 23, "170 ml", ""},
		{dishOf("Cake", "Mix it", "4 tbsp", "honey", "2 cups", "flour"), 23, "11½ tbsp", ""}, // no grams in it
		{dishOf("Cabbage", "Braise it", "4 tbsp", "vinegar"), 23, "170 ml", ""},              // nor cups
		{cake("1 tbsp", "honey"), 23, "3 tbsp", ""},
		{dishOf("Couscous", "Fluff it", "0.75 metric cup", "almonds"), 10, "235 ml", ""}, // nobody counts 16 spoons
		{cake("⅓ cup", "milk"), 16, "⅔ cup", ""},
		{cake("1", "bay leaf"), 5, "1", ""}, // nobody divides a leaf
		{cake("1", "bay leaf"), 23, "3", ""},
		{cake("2", "cinnamon sticks"), 3, "1", ""},
		{cake("", "salt"), 23, "", ""},
		{cake("a little", "salt"), 23, "a little", "for 8 covers: reckon it for 23"},
	} {
		l := For(c.dish, c.covers)[0]
		if l.Amount != c.want || !strings.Contains(l.Note, c.note) || (c.note == "") != (l.Note == "") {
			t.Errorf("%s %s for %d: got %q, note %q; want %q, %q", c.dish.Ingredients[0].Amount, c.dish.Ingredients[0].Name,
				c.covers, l.Amount, l.Note, c.want, c.note)
		}
	}
}

// TestAmountsAreNear: no amount is farther from the sum than rounding or its growth explains, and it can be read back.
func TestAmountsAreNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]string{"g", "ml", "tsp", "tbsp", "cup", "kg"}).Draw(t, "unit")
		n := rapid.SampledFrom([]string{"1", "2", "3", "5", "15", "120", "250", "½", "1½", "¾"}).Draw(t, "n")
		d := dishOf("Pudding", "Stir it", n+" "+unit, "sugar")
		covers := rapid.IntRange(2, 40).Draw(t, "covers")
		l := For(d, covers)[0]
		got, err := measure.ParseWhole(l.Amount)
		if err != nil {
			t.Fatalf("%q cannot be read: %v", l.Amount, err)
		}
		was, _ := measure.ParseWhole(d.Ingredients[0].Amount)
		exact, err := was.Scale(covers, 8)
		if err != nil {
			t.Fatal(err)
		}
		// The least amounts may be off by the least marks: see package measure.
		if low, _ := exact.Low().Float64(); low > 1 && exact.Off(got) > offForQuarters+measure.RoundingLimit {
			t.Fatalf("%s for %d: %s is %.0f %% off", d.Ingredients[0].Amount, covers, l.Amount, 100*exact.Off(got))
		}
	})
}

func bakery(covers int) (*planner.Party, *planner.Dish) {
	p := &planner.Party{Covers: covers, Kitchen: planner.HomeKitchen()}
	for i := range p.Kitchen.Vessels {
		p.Kitchen.Vessels[i].Given = true
	}
	d := dishOf("Tart", "Bake the tart", "900 g", "plums")
	d.Steps[0].Uses = []planner.Use{{What: planner.AnOven, C: 190, For: 8}, {What: planner.AVessel, Name: "tart tin",
		For: 8}}
	d.Steps[0].Attention, d.Steps[0].Time = planner.Watch, planner.Span{Low: 40, Likely: 40, High: 40}
	p.Dishes = []planner.Dish{*d}
	return p, &p.Dishes[0]
}

// TestPans: by area, at the same depth: a 27 cm tart is for eight, ten fill one of 30 cm (27 times the root of 1.25).
func TestPans(t *testing.T) {
	for covers, want := range map[int]string{
		8:  "",
		16: "", // two whole ones
		4:  "4 fill one of 19 cm",
		10: "10 fill one of 30 cm, or 2 of 22 cm. 2 whole ones are for 16",
		20: "20 fill one of 43 cm, or 3 of 25 cm. 3 whole ones are for 24",
	} {
		p, d := bakery(covers)
		got := strings.Join(Pans(p, d), "\n")
		if (want == "") != (got == "") || !strings.Contains(got, want) {
			t.Errorf("%d covers: got %q, want %q", covers, got, want)
		}
	}
}

func TestWork(t *testing.T) {
	p, d := bakery(23)
	got := Work(p, d)
	want := []string{
		"Bake the tart: 2 rounds of 12 covers, the last of 11 (1 shelf of the oven for 8)",
		"Bake the tart: 2 shelves at once",
		"Bake the tart: it wants 2 tart tins and there is 1: borrow 1 (/kitchen ware name:tart tin count:2), or share it " +
			"out over others",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if p, d = bakery(8); len(Work(p, d)) > 0 {
		t.Errorf("as the dish has it: %v", Work(p, d))
	}
}

// A vessel is never told to be borrowed that the oven has no space for: it would turn a braise into two.
func TestBorrow(t *testing.T) {
	s := &planner.Step{Do: "Braise it"}
	for _, c := range []struct {
		lack planner.Lack
		want string
	}{
		{planner.Lack{Name: "pot", Wanted: 3, Have: 1},
			"wants 3 pots and there is 1: borrow 2 (/kitchen ware name:pot count:3), or share"},
		{planner.Lack{Name: "pot", Wanted: 3, Have: 1, On: planner.AnOven, Space: 2},
			"wants 3 pots and the oven takes 2 at once: borrow 1 (/kitchen ware name:pot count:2), and cook"},
		{planner.Lack{Name: "pot", Wanted: 3, Have: 2, On: planner.AnOven, Space: 2},
			"wants 3 pots and the oven takes 2 at once: cook the rest"},
		{planner.Lack{Name: "pot", Wanted: 6, Have: 4, On: planner.ABurner, Space: 4},
			"wants 6 pots and the stove takes 4 at once: cook"},
		{planner.Lack{Name: "pot", Wanted: 3, Have: 1, Guess: true},
			"wants 3 pots: borrow, use others, or tell me"},
	} {
		if got := Borrow(s, c.lack); !strings.Contains(got, c.want) {
			t.Errorf("got %s, want %s", got, c.want)
		}
	}
	p, _ := bakery(23)
	stew := planner.Dish{Name: "Stew", Serves: 8,
		Steps: []planner.Step{{Key: "braise", Do: "Braise it", Attention: planner.Watch, Cooks: true, Where: planner.Heat,
			Leaves: planner.Food{Millilitres: 5000}, Uses: []planner.Use{{What: planner.AnOven, C: 150},
				{What: planner.AVessel, Name: "casserole"}}}}}
	p.Dishes = []planner.Dish{stew}
	if got := strings.Join(Work(p, &p.Dishes[0]), "\n"); !strings.Contains(got, "count:2") ||
		strings.Contains(got, "count:3") {
		t.Errorf("an oven of two shelves: %s", got)
	}
}
