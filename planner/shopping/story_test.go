package shopping

import (
	"encoding/json"
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
)

var saturday = time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC)

// supper is a party of one cook, with dishes for its covers.
func supper(covers int, dishes ...planner.Dish) *planner.Party {
	return &planner.Party{Zone: "UTC", Arrival: saturday, Covers: covers, PrepDays: 3, Dishes: dishes,
		People: []planner.Person{{Key: "ada", Name: "Ada", Role: planner.Host, Cooks: planner.DayHours{From: 9 * 60, Until: 21 * 60}}}}
}

func of(name, amount, shop, section string) planner.Ingredient {
	return planner.Ingredient{Name: name, Amount: amount, Shop: shop, Section: section}
}

// told writes a list a line a thing: what is bought, how, and what has been.
func told(l *List) []string {
	var out []string
	write := func(where string, line *Line) {
		text := strings.TrimSpace(line.Text() + " " + line.Name)
		if len(line.Buy.Packs) > 0 && !line.Ticked {
			var packs []string
			for _, p := range line.Buy.Packs {
				packs = append(packs, p.String())
			}
			text += " as " + strings.Join(packs, " + ")
			if !line.Buy.LeftOver.IsZero() {
				text += ", " + line.Buy.LeftOver.Round().String() + " over"
			}
		}
		if line.Cost != nil && !line.Ticked {
			text += " for " + line.Cost.FloatString(2)
		}
		if line.Ticked {
			text = "✓ " + text
		}
		if len(line.Short) > 0 {
			text += " more"
		}
		out = append(out, where+": "+text)
	}
	for i := range l.Trips {
		t := &l.Trips[i]
		for j := range t.Sections {
			where := string(t.Chore)
			if s := t.Sections[j].Name; s != "" {
				where += "/" + s
			}
			for k := range t.Sections[j].Lines {
				write(where, &t.Sections[j].Lines[k])
			}
		}
	}
	for where, lines := range map[string][]Line{"brought": l.Brought, "there": l.There, "house": l.House, "over": l.Over} {
		for i := range lines {
			write(where, &lines[i])
		}
	}
	slices.Sort(out)
	return out
}

func expect(t *testing.T, what string, l List, want ...string) {
	t.Helper()
	if got := told(&l); !slices.Equal(got, want) {
		t.Errorf("%s: got\n\t%s\nwant\n\t%s", what, strings.Join(got, "\n\t"), strings.Join(want, "\n\t"))
	}
}

// TestOneLineAThing: one row a list, of two dishes for the party's covers.
func TestOneLineAThing(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b planner.Ingredient
		want []string
	}{
		{"sticks and grams", of("butter", "2 sticks", "s", "dairy"), of("butter", "100 g", "s", "dairy"), []string{"shop-s/dairy: 330 g butter as 2 packets of 250 g, 170 g over"}},
		{"with and without a section", of("limes", "1", "s", "fruit"), of("lime", "1", "s", ""), []string{"shop-s/fruit: 2 limes"}},
		{"with and without a shop", of("limes", "1", "greengrocer", "fruit"), of("lime", "1", "", ""), []string{"shop-greengrocer/fruit: 2 limes"}},
		{"shops spelt two ways", of("limes", "1", "Supermarket", ""), of("lime", "1", "supermarket", ""), []string{"shop-supermarket: 2 limes"}},
		{"one", of("limes", "1", "s", ""), of("salt", "", "s", ""), []string{"shop-s: 1 lime", "shop-s: salt"}},
		{"berries", of("strawberry", "6", "s", ""), of("bay leaf", "2", "s", ""), []string{"shop-s: 2 bay leaves", "shop-s: 6 strawberries"}},
		{"cups and grams", of("flour", "2 cups", "s", ""), of("flour", "500 g", "s", ""), []string{"shop-s: 790 g flour as 1 bag of 1 kg, 210 g over"}},
		{"frozen is another thing", of("peas", "200 g", "s", ""), planner.Ingredient{Name: "peas", Amount: "200 g", Shop: "s", Frozen: true},
			[]string{"shop-s: 200 g peas", "shop-s: 200 g peas"}},
		{"peeled potatoes are potatoes", of("potatoes", "1 kg", "s", ""), of("peeled potatoes", "750 g", "s", ""), []string{"shop-s: 2 kg potatoes"}},
		{"trimmed by the host's word", planner.Ingredient{Name: "leeks", Amount: "1 kg", Shop: "s", Trimmed: true}, of("salt", "", "s", ""), []string{"shop-s: 2.3 kg leeks", "shop-s: salt"}},
	} {
		c.a.Step, c.b.Step = "cook", "cook"
		p := supper(4, planner.Dish{Key: "a", Name: "a", Serves: 4, Ingredients: []planner.Ingredient{c.a}, Steps: []planner.Step{{Key: "cook"}}},
			planner.Dish{Key: "b", Name: "b", Serves: 4, Ingredients: []planner.Ingredient{c.b}, Steps: []planner.Step{{Key: "cook"}}})
		expect(t, c.name, Of(p, nil), c.want...)
		slices.Reverse(p.Dishes)
		expect(t, c.name+", the other way round", Of(p, nil), c.want...)
	}
}

// TestTrimmings: 1 kg of potatoes ready to cook is 1.33 kg to buy (25 % parings, USDA SR28, NDB 11352), so 1.35 kg, and
// the line says for how much.
func TestTrimmings(t *testing.T) {
	p := supper(4, dish("mash", 4, planner.Ingredient{Name: "peeled potatoes", Amount: "1 kg"}))
	l := Of(p, nil).Trips[0].Sections[0].Lines[0]
	if l.Text() != "1.35 kg" || l.Name != "potatoes" || l.Trimmed.String() != "1 kg" || l.Loss == nil || !strings.Contains(l.Loss.Source, "NDB 11352") {
		t.Errorf("got %s %s for %s trimmed: %v", l.Text(), l.Name, l.Trimmed, l.Loss)
	}
}

// TestPacks: what is bought for an amount, by the sizes that are sold; the least left over, then the fewest.
func TestPacks(t *testing.T) {
	for _, c := range []struct {
		amount string
		sold   []planner.Pack
		want   string
	}{
		{"350 g", []planner.Pack{{Size: "250 g"}}, "350 g stuff as 2 × 250 g, 150 g over"},
		{"350 g", []planner.Pack{{Size: "250 g"}, {Size: "100 g"}}, "350 g stuff as 1 × 250 g + 1 × 100 g"},
		{"900 g", []planner.Pack{{Size: "500 g"}, {Size: "300 g"}}, "900 g stuff as 3 × 300 g"},
		{"7", []planner.Pack{{Size: "6"}, {Size: "10"}}, "7 stuffs as 1 × 10, 3 over"},
		{"12", []planner.Pack{{Size: "6"}, {Size: "10"}}, "12 stuffs as 2 × 6"},
		{"1 l", []planner.Pack{{Size: "750 ml"}}, "1 l stuff as 2 × 750 ml, 500 ml over"},
		{"3", []planner.Pack{{Size: "250 g"}}, "3 stuffs"}, // nobody knows how much three are
		{"500 g", []planner.Pack{{Size: "400 g", Price: "1.00"}, {Size: "500 g", Price: "2.10"}}, "500 g stuff as 2 × 400 g, 300 g over for 2.00"},
		{"500 g", []planner.Pack{{Size: "400 g", Price: "1.10"}, {Size: "500 g", Price: "2.10"}}, "500 g stuff as 1 × 500 g for 2.10"},
		{"500 g", []planner.Pack{{Size: "400 g", Price: "1.10"}, {Size: "500 g"}}, "500 g stuff as 1 × 500 g"},
	} {
		p := supper(4, dish("d", 4, planner.Ingredient{Name: "stuff", Amount: c.amount}))
		p.Goods = []planner.Good{{Thing: "stuff", Name: "stuff", Sold: c.sold}}
		expect(t, fmt.Sprint(c.amount, c.sold), Of(p, nil), "shop/all: "+c.want)
	}
}

// TestPacksAreBest: against trying every combination, as far as the search goes: up to a dozen of each size.
func TestPacksAreBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need := rapid.Int64Range(1, 60).Draw(t, "need")
		n := rapid.IntRange(1, 3).Draw(t, "sizes")
		priced := rapid.Bool().Draw(t, "priced")
		var sizes []Packs
		for range n {
			q, _ := measure.New(rapid.Int64Range(5, 30).Draw(t, "size"), 1, measure.Gram)
			s := Packs{Size: q}
			if priced {
				s.price = big.NewRat(rapid.Int64Range(0, 500).Draw(t, "price"), 100)
			}
			sizes = append(sizes, s)
		}
		want, _ := measure.New(need, 1, measure.Gram)
		have, cost, number := int64(0), new(big.Rat), 0
		for _, p := range fewest(want, sizes) {
			size := p.Size.Low().Num().Int64()
			have += size * int64(p.Number)
			number += p.Number
			if priced {
				cost.Add(cost, new(big.Rat).Mul(p.price, big.NewRat(int64(p.Number), 1)))
			}
		}
		if have < need {
			t.Fatalf("%d is bought for %d", have, need)
		}
		var try func(i int, h int64, c *big.Rat, k int)
		try = func(i int, h int64, c *big.Rat, k int) {
			if h >= need || i == len(sizes) {
				if h < need {
					return
				}
				better := h < have || h == have && k < number
				if priced {
					order := c.Cmp(cost)
					better = order < 0 || order == 0 && better
				}
				if better {
					t.Fatalf("for %d of %v: %d in %d packs for %s, and %d in %d for %s is better", need, sizes, have, number, cost, h, k, c)
				}
			}
			if i == len(sizes) {
				return
			}
			size := sizes[i].Size.Low().Num().Int64()
			for m := int64(0); m <= need/size+1; m++ {
				nc := new(big.Rat).Set(c)
				if priced {
					nc.Add(nc, new(big.Rat).Mul(sizes[i].price, big.NewRat(m, 1)))
				}
				try(i+1, h+m*size, nc, k+int(m))
			}
		}
		try(0, 0, new(big.Rat), 0)
	})
}

// TestPrices: exact sums, rounded line by line to the coins of the currency.
func TestPrices(t *testing.T) {
	for _, c := range []struct {
		amount, price, per, currency string
		want                         string
	}{
		{"1.25 kg", "3", "kg", "€", "€3.75"},
		{"350 g", "1.80", "100 g", "€", "€6.30"},
		{"3", "0.35", "", "€", "€1.05"},
		{"3 bunches", "1.20", "", "CHF", "CHF 3.60"},
		{"2 cups", "4", "l", "", "1.89"},        // 473 ml
		{"333 g", "0.1", "100 g", "€", "€0.34"}, // 340 g, 0.34 exactly
		{"250 g", "333", "kg", "¥", "¥83"},      // 83.25
		{"250 g", "335", "100 g", "¥", "¥838"},  // 837.5, halves up
		{"1 kg", "1.125", "kg", "KD", "KD 1.125"},
	} {
		p := supper(4, dish("d", 4, planner.Ingredient{Name: "milk", Amount: c.amount}))
		p.Currency = c.currency
		p.Goods = []planner.Good{{Thing: "milk", Name: "milk", Price: c.price, Per: c.per}}
		l := Of(p, nil)
		line := l.Trips[0].Sections[0].Lines[0]
		if line.Cost == nil {
			t.Errorf("%s at %s a %s: no cost", c.amount, c.price, c.per)
			continue
		}
		if got := Money(p, line.Cost); got != c.want || Money(p, &l.Cost.Sum) != got {
			t.Errorf("%s (%s) at %s a %s: got %s, in all %s, want %s", c.amount, line.Text(), c.price, c.per, got, Money(p, &l.Cost.Sum), c.want)
		}
	}
	for _, text := range []string{"-1", "1.2345", "abc", "1e3", "1,2,3", ".5", "5.", "99999999999", "1/3"} {
		if r, err := ParsePrice(text); err == nil {
			t.Errorf("%q is the price %v", text, r)
		}
	}
}

// story is a supper with a supermarket trip that is in the party's tasks.
func story() *planner.Party {
	p := supper(4, planner.Dish{Key: "cake", Name: "Cake", Serves: 4, Steps: []planner.Step{{Key: "bake"}}, Ingredients: []planner.Ingredient{
		of("butter", "200 g", "supermarket", ""), of("limes", "2", "supermarket", ""), of("sugar", "100 g", "supermarket", "")}})
	planner.Renew(p)
	return p
}

func line(t *testing.T, l *List, thing planner.Thing) *Line {
	t.Helper()
	var found *Line
	for i := range l.Trips {
		l.Trips[i].Each(func(x *Line) {
			if x.Thing == thing && found == nil {
				found = x
			}
		})
	}
	if found == nil {
		t.Fatalf("no %s on any trip", thing)
	}
	return found
}

func tick(t *testing.T, p *planner.Party, thing planner.Thing) {
	t.Helper()
	l := Of(p, nil)
	x := line(t, &l, thing)
	Note(p, x, planner.Got{Amounts: x.Bought(), Trip: l.Trips[0].Chore, By: "ada"})
}

// TestTheMenuChangesAfterTheShop: more, enough, no longer, new; and the second trip.
func TestTheMenuChangesAfterTheShop(t *testing.T) {
	p := story()
	expect(t, "before", Of(p, nil), "shop-supermarket: 100 g sugar as 1 bag of 1 kg, 900 g over", "shop-supermarket: 2 limes",
		"shop-supermarket: 200 g butter as 1 packet of 250 g, 50 g over")
	tick(t, p, "butter")
	tick(t, p, "lime")
	expect(t, "in the shop", Of(p, nil), "shop-supermarket: 100 g sugar as 1 bag of 1 kg, 900 g over", "shop-supermarket: ✓ 2 limes", "shop-supermarket: ✓ 250 g butter")

	news := func(change func(p *planner.Party)) string {
		after := clone(t, p)
		change(after)
		var out []string
		for _, c := range News(p, after) {
			out = append(out, strings.TrimSpace(fmt.Sprintf("%s %s: has %s, wants %s", c.What, c.Name, c.Has, c.Wants)))
		}
		return strings.Join(out, "; ")
	}
	for _, c := range []struct {
		what   string
		change func(p *planner.Party)
		want   string
	}{
		{"nothing", func(*planner.Party) {}, ""},
		{"five covers", func(p *planner.Party) { p.Covers = 5 }, "enough butter: has 250 g butter, wants 250 g; more lime: has 2 limes, wants 1"},
		{"eight covers", func(p *planner.Party) { p.Covers = 8 }, "more butter: has 250 g butter, wants 150 g; more limes: has 2 limes, wants 2"},
		{"two covers", func(p *planner.Party) { p.Covers = 2 }, "enough butter: has 250 g butter, wants 100 g; enough lime: has 2 limes, wants 1"},
		{"no limes", func(p *planner.Party) { p.Dishes[0].Ingredients = p.Dishes[0].Ingredients[:1] }, "no longer limes: has 2 limes, wants"},
		{"no cake", func(p *planner.Party) { p.Dishes = nil }, "no longer butter: has 250 g butter, wants; no longer limes: has 2 limes, wants"},
		{"mint, while nobody is at the shop", func(p *planner.Party) {
			p.Dishes[0].Ingredients = append(p.Dishes[0].Ingredients, of("mint", "1 bunch", "supermarket", ""))
		}, ""},
	} {
		if got := news(c.change); got != c.want {
			t.Errorf("%s: got %q, want %q", c.what, got, c.want)
		}
	}

	// Ada is there: what is new is for her. Then she is back, and it is for another trip.
	start := saturday.Add(-30 * time.Hour)
	p.Work = []planner.Work{{Task: "chore/shop-supermarket", Person: "ada", Progress: planner.Started, Start: &start}}
	if got := news(func(p *planner.Party) {
		p.Dishes[0].Ingredients = append(p.Dishes[0].Ingredients, of("mint", "1 bunch", "supermarket", ""))
	}); got != "new mint: has , wants 1 bunch" {
		t.Errorf("mint while Ada is at the shop: %q", got)
	}
	end := start.Add(time.Hour)
	p.Work[0].Progress, p.Work[0].End = planner.Done, &end
	settled := Settle(p, "chore/shop-supermarket")
	if len(settled) != 1 || len(settled[0].Taken) != 0 || len(settled[0].Left) != 1 || settled[0].Left[0].Name != "sugar" {
		t.Errorf("two of three were ticked off, so sugar is left: %+v", settled)
	}
	p.Covers = 8
	expect(t, "back home", Of(p, nil), "shop-supermarket-2: 150 g butter as 1 packet of 250 g, 100 g over more", "shop-supermarket-2: 2 limes more",
		"shop-supermarket-2: 200 g sugar as 1 bag of 1 kg, 800 g over")
	came, _ := planner.Renew(p)
	if !slices.Contains(came, "shop-supermarket-2") {
		t.Errorf("no second trip among %v", came)
	}
	if len(Settle(p, "")) != 0 {
		t.Error("what was settled is settled again")
	}
	tick(t, p, "butter")
	if l := Of(p, nil); line(t, &l, "butter").Ticked != true {
		t.Error("the butter of the second trip is not ticked off")
	}
}

// TestForgottenTicks: a trip that is done and on which nothing was ticked off has got all of it.
func TestForgottenTicks(t *testing.T) {
	p := story()
	end := saturday.Add(-29 * time.Hour)
	p.Work = []planner.Work{{Task: "chore/shop-supermarket", Person: "ada", Progress: planner.Done, End: &end}}
	// As a party that was stored before purchases were noted: its trip has what it had.
	expect(t, "before it is noted", Of(p, nil), "shop-supermarket: 100 g sugar as 1 bag of 1 kg, 900 g over", "shop-supermarket: 2 limes",
		"shop-supermarket: 200 g butter as 1 packet of 250 g, 50 g over")
	if s := Settle(p, ""); len(s) != 1 || len(s[0].Taken) != 3 {
		t.Fatalf("got %+v", s)
	}
	expect(t, "after", Of(p, nil), "there: ✓ 1 kg sugar", "there: ✓ 2 limes", "there: ✓ 250 g butter")
	if b := p.Purchased("butter"); b.Got[0].By != "ada" || !b.Got[0].Taken {
		t.Errorf("got %+v", b)
	}
	planner.Renew(p)
	if p.Chore("shop-supermarket-2") != nil {
		t.Error("a second trip for nothing")
	}
}

// TestUsedBeforeTicked: what was used before anybody ticked it off is not taken out of what is ticked off later.
func TestUsedBeforeTicked(t *testing.T) {
	p := story()
	p.Dishes = append(p.Dishes, planner.Dish{Key: "posset", Name: "Posset", Serves: 4, Steps: []planner.Step{{Key: "mix"}},
		Ingredients: []planner.Ingredient{of("limes", "3", "supermarket", "")}})
	end := saturday.Add(-20 * time.Hour)
	p.Work = []planner.Work{{Task: "posset/mix", Progress: planner.Done, End: &end}}
	l := Of(p, nil)
	if x := line(t, &l, "lime"); x.Text() != "2" {
		t.Fatalf("%s limes are left to buy, want 2", x.Text())
	}
	tick(t, p, "lime")
	l = Of(p, nil)
	if x := line(t, &l, "lime"); !x.Ticked || x.Text() != "2" {
		t.Errorf("%s limes, ticked %v", x.Text(), x.Ticked)
	}
	if len(p.Purchased("lime").Got) != 2 || !p.Purchased("lime").Got[0].Used {
		t.Errorf("got %+v", p.Purchased("lime"))
	}
}

// TestThawing: what is bought frozen is there when its thawing begins: in the refrigerator a day for each 4 lb begun,
// and a full day even for a small pack (USDA FSIS, The Big Thaw: 24 h for each 4 to 5 lb, the careful end).
func TestThawing(t *testing.T) {
	for _, c := range []struct {
		grams, days int
	}{{450, 1}, {1800, 1}, {1900, 2}, {2500, 2}, {5400, 3}} {
		in := planner.Ingredient{Name: "turkey", Amount: "1", Frozen: true, Grams: c.grams, Shop: "s", Step: "roast"}
		p := supper(4, planner.Dish{Key: "bird", Name: "Bird", Serves: 4, Ingredients: []planner.Ingredient{in}, Steps: []planner.Step{{Key: "roast"}}})
		p.PrepDays = 6
		planner.Renew(p)
		thaw := p.Chore("thaw-turkey")
		if thaw == nil || int(thaw.Time.Likely) != c.days*24*60 || !strings.Contains(thaw.Note, "Big Thaw") {
			t.Errorf("%d g: %+v, want %d days", c.grams, thaw, c.days)
			continue
		}
		use := saturday.Add(-4 * time.Hour)
		begin := use.Add(-time.Duration(c.days) * 24 * time.Hour)
		plan := &planner.Plan{Tasks: []planner.Placed{{Task: "chore/thaw-turkey", Start: begin, End: use}, {Task: "bird/roast", Start: use, End: saturday}}}
		list := Of(p, plan)
		if l := line(t, &list, "turkey (frozen)"); !l.BuyBy.Equal(begin) || !l.NotBefore.IsZero() || !l.Frozen {
			t.Errorf("%d g: buy by %s, not before %s; want by %s", c.grams, l.BuyBy, l.NotBefore, begin)
		}
	}
}

// TestHouseAndBringing: what is in the house, and what somebody brings, is bought by nobody.
func TestHouseAndBringing(t *testing.T) {
	p := story()
	p.Drinks = []planner.Drink{{Name: "Rioja", Kind: planner.Red, Bottles: 3}}
	p.Goods = []planner.Good{
		{Thing: "butter", Name: "butter", House: "150 g"}, {Thing: "sugar", Name: "sugar", House: planner.Enough},
		{Thing: "rioja", Name: "Rioja", Brings: "ada"}, {Thing: "candle", Name: "candles", Extra: "12"}, {Thing: "lime", Name: "limes", Shop: "market"},
	}
	expect(t, "all kinds of words", Of(p, nil), "brought: 3 bottles Rioja", "shop-market: 2 limes", "shop-supermarket: 12 candles",
		"shop-supermarket: 50 g butter as 1 packet of 250 g, 200 g over", "there: ✓ 100 g sugar")
}

// TestRandomStories: whatever is ticked off, planned and changed, nothing is lost, never less than needed is bought,
// what was ticked off stays so, and the days make sense.
func TestRandomStories(t *testing.T) {
	var names []string
	for _, c := range repertoire.List() {
		names = append(names, c.Name)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := supper(rapid.IntRange(1, 30).Draw(t, "covers"))
		for _, n := range rapid.SliceOfNDistinct(rapid.SampledFrom(names), 1, 3, rapid.ID[string]).Draw(t, "menu") {
			c, _ := repertoire.Find(n)
			p.Dishes = append(p.Dishes, c.Dish())
		}
		planner.Renew(p)
		for range rapid.IntRange(0, 3).Draw(t, "ticks") {
			l := Of(p, nil)
			var open []*Line
			var trips []planner.ChoreKey
			for i := range l.Trips {
				l.Trips[i].Each(func(x *Line) {
					if !x.Ticked {
						open, trips = append(open, x), append(trips, l.Trips[i].Chore)
					}
				})
			}
			if len(open) == 0 {
				break
			}
			k := rapid.IntRange(0, len(open)-1).Draw(t, "which")
			x := open[k]
			Note(p, x, planner.Got{Amounts: x.Bought(), Trip: trips[k], By: "ada"})
			l = Of(p, nil)
			if o := openOf(&l, x.Thing); o != nil && (o.BuyBy.IsZero() && len(l.Trips) == 1) {
				t.Fatalf("%s was ticked off and is still to be bought: %s", x.Name, o.Text())
			}
		}
		wantEnough(t, p)
		ticked := tickedThings(p)
		planner.Renew(p) // planned anew
		if now := tickedThings(p); !slices.Equal(ticked, now) {
			t.Fatalf("ticked off before planning %v, after %v", ticked, now)
		}
		if rapid.Bool().Draw(t, "done") {
			for i := range p.Chores {
				if c := &p.Chores[i]; c.Kind == planner.Shop {
					end := saturday.Add(-24 * time.Hour)
					p.Work = append(p.Work, planner.Work{Task: planner.ChoreTask(c.Key), Progress: planner.Done, End: &end})
					break
				}
			}
			Settle(p, planner.TaskKey(rapid.SampledFrom([]string{"", "chore/shop-supermarket"}).Draw(t, "told")))
		}
		p.Covers = rapid.IntRange(1, 40).Draw(t, "covers later")
		if rapid.Bool().Draw(t, "one dish less") {
			p.Dishes = p.Dishes[1:]
		}
		wantEnough(t, p)
		shuffled := clone(t, p)
		slices.Reverse(shuffled.Dishes)
		a, b := Of(p, nil), Of(shuffled, nil)
		if x, y := told(&a), told(&b); !slices.Equal(sums(x), sums(y)) {
			t.Fatalf("the order of the menu shows:\n%s\n\n%s", strings.Join(x, "\n"), strings.Join(y, "\n"))
		}
	})
}

// sums leaves away which trip has a thing, since which of two comes first follows the menu's order.
func sums(lines []string) []string {
	var out []string
	for _, l := range lines {
		_, thing, _ := strings.Cut(l, ": ")
		out = append(out, thing)
	}
	slices.Sort(out)
	return out
}

func openOf(l *List, thing planner.Thing) *Line {
	for i := range l.Trips {
		var found *Line
		l.Trips[i].Each(func(x *Line) {
			if x.Thing == thing && !x.Ticked {
				found = x
			}
		})
		if found != nil {
			return found
		}
	}
	return nil
}

func tickedThings(p *planner.Party) []string {
	l := Of(p, nil)
	var out []string
	for _, s := range told(&l) {
		if strings.Contains(s, "✓") {
			out = append(out, s)
		}
	}
	return out
}

// wantEnough: by thing and kind of measure, what the dishes want, computed apart, is no more than what is in packages
// or loose on the trips and what was bought already. Trimmings are not in the ready dishes.
func wantEnough(t *rapid.T, p *planner.Party) {
	want, get := map[string]*big.Rat{}, map[string]*big.Rat{}
	put := func(to map[string]*big.Rat, thing planner.Thing, q measure.Quantity, times *big.Rat) {
		if q.IsZero() {
			return
		}
		if w, err := measure.Weigh(q, strings.TrimSuffix(string(thing), " (frozen)"), measure.Gram); err == nil {
			q = w.High // where the density is known, all of it is compared as weight
		}
		kind := string(q.Unit().Kind())
		if q.Unit().Kind() == measure.Count {
			kind = "count " + string(q.Unit())
		}
		key := string(thing) + " in " + kind
		if to[key] == nil {
			to[key] = new(big.Rat)
		}
		v := new(big.Rat).Mul(q.High(), q.Unit().InBase())
		to[key].Add(to[key], v.Mul(v, times))
	}
	one := big.NewRat(1, 1)
	for _, d := range p.Dishes {
		for _, in := range d.Ingredients {
			q, err := measure.ParseWhole(in.Amount)
			if err != nil {
				t.Fatal(err)
			}
			if in.InHouse {
				continue
			}
			k := planner.ThingOf(in.Name, in.Frozen)
			put(want, k, q, big.NewRat(int64(d.Makes(p)), int64(d.Serves)))
		}
	}
	text := func(thing planner.Thing, amounts []string) {
		for _, a := range amounts {
			q, err := measure.ParseWhole(a)
			if err != nil {
				t.Fatal(err)
			}
			put(get, thing, q, one)
		}
	}
	l := Of(p, nil)
	for i := range l.Trips {
		l.Trips[i].Each(func(x *Line) {
			if !x.Ticked {
				text(x.Thing, x.Bought())
			}
			if x.NotBefore.After(x.BuyBy) {
				t.Fatalf("%s: not before %s, by %s", x.Name, x.NotBefore, x.BuyBy)
			}
		})
	}
	for _, b := range p.Bought {
		for _, g := range b.Got {
			text(b.Thing, g.Amounts)
		}
	}
	for k, v := range want {
		if get[k] == nil || get[k].Cmp(v) < 0 {
			t.Fatalf("%s: %v is bought for %v", k, get[k], v)
		}
	}
}

// TestDaysMakeSense: with a plan, for every line of ready dishes, not before comes no later than by, and by is no
// later than the first use.
func TestDaysMakeSense(t *testing.T) {
	var names []string
	for _, c := range repertoire.List() {
		names = append(names, c.Name)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := supper(8)
		for _, n := range rapid.SliceOfNDistinct(rapid.SampledFrom(names), 1, 5, rapid.ID[string]).Draw(t, "menu") {
			c, _ := repertoire.Find(n)
			p.Dishes = append(p.Dishes, c.Dish())
		}
		planner.Renew(p)
		plan := &planner.Plan{}
		for _, task := range planner.Tasks(p) { // any times at all: the list must make sense of them
			at := saturday.Add(-time.Duration(rapid.IntRange(0, 72*60).Draw(t, "minutes")) * time.Minute)
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: task.Key, Start: at, End: at.Add(10 * time.Minute)})
		}
		l := Of(p, plan)
		for i := range l.Trips {
			l.Trips[i].Each(func(x *Line) {
				if x.BuyBy.IsZero() || x.NotBefore.After(x.BuyBy) || x.BuyBy.After(x.FirstUse) {
					t.Fatalf("%s: not before %s, by %s, first used %s", x.Name, x.NotBefore, x.BuyBy, x.FirstUse)
				}
			})
		}
	})
}

// clone is a copy by way of the JSON that the store keeps: so every story is also one of what is stored.
func clone(t interface{ Fatal(...any) }, p *planner.Party) *planner.Party {
	doc, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	var out planner.Party
	if err := json.Unmarshal(doc, &out); err != nil {
		t.Fatal(err)
	}
	return &out
}
