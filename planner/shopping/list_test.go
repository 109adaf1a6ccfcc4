package shopping

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/repertoire"
	"tureen/planner/scale"
)

func dish(key string, serves int, ingredients ...planner.Ingredient) planner.Dish {
	for i := range ingredients {
		if ingredients[i].Section == "" {
			ingredients[i].Section = "all"
		}
	}
	return planner.Dish{Key: planner.DishKey(key), Name: key, Serves: serves, Ingredients: ingredients,
		Steps: []planner.Step{{Key: "cook"}}}
}

// TestSums: one row a thing on the list, from two dishes for ten covers.
func TestSums(t *testing.T) {
	for _, c := range []struct {
		name   string
		a, b   string // for 4 and for 5 covers
		aa, bb string // the names, "thing" when empty
		want   string // "amount name", lines with " | "
	}{
		{name: "same unit", a: "100 g", b: "50 g", want: "350 g thing"},
		{name: "units of one kind", a: "1 kg", b: "250 g", want: "3 kg thing"},
		{name: "counted things go up", a: "1", b: "1", want: "5 things"},
		{name: "singular and plural", a: "2", b: "4", aa: "onion", bb: "Onions", want: "13 Onions"},
		{name: "tomatoes", a: "2", b: "5", aa: "tomato", bb: "tomatoes", want: "15 tomatoes"},
		{name: "different kinds side by side", a: "2 tins", b: "200 g", want: "5 tins + 400 g thing"},
		{name: "what cannot be read stays", a: "a little", b: "2 tbsp",
			want: "4 tbsp + a little for 4 covers; you cook for 10 thing"},
		{name: "a pinch is not measured, whatever else is", a: "1 pinch", b: "50 g", aa: "salt", bb: "flour",
			want: "100 g flour | 2 pinches salt"},
		{name: "to taste", a: "", b: "", want: " thing"},
		{name: "two things", a: "1", b: "1", aa: "leek", bb: "lemon", want: "3 leeks | 2 lemons"},
	} {
		name := func(n string) string {
			if n == "" {
				return "thing"
			}
			return n
		}
		p := &planner.Party{Zone: "UTC", Arrival: time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC), Covers: 10,
			Dishes: []planner.Dish{
				dish("first", 4, planner.Ingredient{Name: name(c.aa), Amount: c.a}),
				dish("second", 5, planner.Ingredient{Name: name(c.bb), Amount: c.b})}}
		var got []string
		for _, tr := range Of(p, nil).Trips {
			for _, s := range tr.Sections {
				for _, l := range s.Lines {
					got = append(got, l.Text()+" "+l.Name)
				}
			}
		}
		if g := strings.Join(got, " | "); g != c.want {
			t.Errorf("%s: got %q, want %q", c.name, g, c.want)
		}
	}
}

// TestSumsAddUp: of random ready dishes and covers, every gram, millilitre and piece that a dish asks for is on
// the list, and nothing else: the sums by thing and unit's base are equal, computed apart.
func TestSumsAddUp(t *testing.T) {
	var names []string
	for _, c := range repertoire.List() {
		names = append(names, c.Name)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := &planner.Party{Zone: "UTC", Arrival: time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC),
			Covers: rapid.IntRange(1, 60).Draw(t, "covers"), PrepDays: 3}
		for _, n := range rapid.SliceOfNDistinct(rapid.SampledFrom(names), 1, 8, rapid.ID[string]).Draw(t, "menu") {
			c, _ := repertoire.Find(n)
			p.Dishes = append(p.Dishes, c.Dish())
		}
		want, got := map[string]*big.Rat{}, map[string]*big.Rat{}
		add := func(to map[string]*big.Rat, name string, q measure.Quantity, times *big.Rat) {
			if q.IsZero() {
				return
			}
			kind := fmt.Sprint(q.Unit().Kind())
			if q.Unit().Kind() == measure.Count {
				kind = string(q.Unit())
			}
			key := string(planner.ItemOf(name, false)) + " in " + kind
			if to[key] == nil {
				to[key] = new(big.Rat)
			}
			v := new(big.Rat).Mul(q.High(), q.Unit().InBase())
			to[key].Add(to[key], v.Mul(v, times))
		}
		for _, d := range p.Dishes {
			for _, in := range d.Ingredients {
				q, err := measure.ParseWhole(in.Amount)
				if err != nil {
					t.Fatal(err)
				}
				if g, err := d.Grow(&in, q, p.Covers); err == nil { // what the dish says that it takes
					q = g.Amount
				}
				add(want, in.Name, q, big.NewRat(1, 1))
			}
		}
		list := Of(p, nil)
		lines := list.Have
		for _, tr := range list.Trips {
			for _, s := range tr.Sections {
				lines = append(lines, s.Lines...)
			}
		}
		for _, l := range lines {
			for _, q := range l.Amounts {
				add(got, l.Name, q, big.NewRat(1, 1))
			}
		}
		for k, v := range want {
			if got[k] == nil || got[k].Cmp(v) != 0 {
				t.Fatalf("%s: the list has %v, the dishes want %v", k, got[k], v)
			}
		}
		if len(got) != len(want) {
			t.Fatalf("%d things on the list, %d wanted", len(got), len(want))
		}
	})
}

// TestDaysFromThePlan: first use, buy-by and not-before follow the plan.
func TestDaysFromThePlan(t *testing.T) {
	at := time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC)
	p := &planner.Party{Zone: "UTC", Arrival: at, Covers: 4, PrepDays: 4,
		Drinks: []planner.Drink{{Name: "Rioja", Kind: planner.Red, Bottles: 3}},
		Dishes: []planner.Dish{dish("soup", 4, planner.Ingredient{Name: "leek", Amount: "3", KeepDays: 2}),
			dish("stew", 4, planner.Ingredient{Name: "leek", Amount: "1", KeepDays: 2})}}
	plan := &planner.Plan{Tasks: []planner.Placed{
		{Task: "shop", Start: at.Add(-30 * time.Hour), End: at.Add(-29 * time.Hour), People: []planner.PersonKey{"ada"}},
		{Task: "soup/cook", Start: at.Add(-20 * time.Hour), End: at.Add(-19 * time.Hour)},
		{Task: "stew/cook", Start: at.Add(-3 * time.Hour), End: at.Add(-2 * time.Hour)},
	}}
	trips := Of(p, plan).Trips
	if len(trips) != 1 || trips[0].Who != "ada" || !trips[0].Start.Equal(at.Add(-30*time.Hour)) {
		t.Fatalf("got %+v", trips)
	}
	leek := trips[0].Sections[0].Lines[0]
	if !leek.FirstUse.Equal(at.Add(-20*time.Hour)) || !leek.BuyBy.Equal(at.Add(-20*time.Hour)) ||
		!leek.NotBefore.Equal(at.Add(-51*time.Hour)) {
		t.Errorf("leek: %+v", leek)
	}
	wine := trips[0].Sections[1].Lines[0]
	if wine.Text() != "3 bottles" || !wine.FirstUse.Equal(at) {
		t.Errorf("wine: %+v", wine)
	}
}

// BenchmarkList makes the list of all ready dishes, planned: more than 200 lines, of which the last figure says how
// many.
func BenchmarkList(b *testing.B) {
	p := &planner.Party{Zone: "UTC", Arrival: time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC), Covers: 10, PrepDays: 3}
	for _, c := range repertoire.List() {
		p.Dishes = append(p.Dishes, c.Dish())
	}
	for n := 0; lineCount(p) < 200; n++ { // as many more as it takes
		d := p.Dishes[n]
		d.Key, d.Ingredients = planner.DishKey(fmt.Sprintf("more-%d", n)), slices.Clone(d.Ingredients)
		for i := range d.Ingredients {
			d.Ingredients[i].Name = fmt.Sprintf("%s of kind %d", d.Ingredients[i].Name, n)
		}
		p.Dishes = append(p.Dishes, d)
	}
	plan := &planner.Plan{}
	for i, t := range planner.Tasks(p) {
		at := p.Arrival.Add(-time.Duration(i%72) * time.Hour)
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: t.Key, Start: at, End: at.Add(time.Hour)})
	}
	b.ReportAllocs()
	for b.Loop() {
		Of(p, plan)
	}
	b.ReportMetric(float64(lineCount(p)), "lines")
}

func lineCount(p *planner.Party) int {
	n := 0
	for _, t := range Of(p, nil).Trips {
		for _, s := range t.Sections {
			n += len(s.Lines)
		}
	}
	return n
}

// TestAsTheDishSays: the list has what /dish show has: tins by the dish's whole ones, leavening and spice less than in
// proportion.
func TestAsTheDishSays(t *testing.T) {
	p := &planner.Party{Zone: "UTC", Arrival: time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC), Covers: 23,
		Dishes: []planner.Dish{dish("bread", 8,
			planner.Ingredient{Name: "creamed corn", Amount: "1 can"}, planner.Ingredient{Name: "baking powder",
				Amount: "1 tbsp"},
			planner.Ingredient{Name: "cornmeal", Amount: "200 g"}, planner.Ingredient{Name: "eggs", Amount: "2"})}}
	got := map[string]string{}
	l := Of(p, nil)
	for i := range l.Trips {
		l.Trips[i].Each(func(x *Line) { got[x.Name] = x.Text() })
	}
	for i, line := range scale.Amounts(p, &p.Dishes[0]) {
		if name := p.Dishes[0].Ingredients[i].Name; got[name] != line.Amount {
			t.Errorf("%s: the list has %q, the dish %q", name, got[name], line.Amount)
		}
	}
}

// What was bought is said as a shopper says it.
func TestBoughtInKilograms(t *testing.T) {
	for amount, want := range map[string]string{"500 g": "2 kg", "600 g": "2.4 kg", "150 g": "600 g",
		"333.3 g": "1333.2 g"} {
		q, err := measure.ParseWhole(amount)
		if err != nil {
			t.Fatal(err)
		}
		l := Line{Buy: Buy{Packs: []Packs{{Number: 4, Size: q}}}}
		if got := l.Bought(); len(got) != 1 || got[0] != want {
			t.Errorf("4 of %s: got %v, want %s", amount, got, want)
		}
	}
}
