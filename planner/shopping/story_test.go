package shopping

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/propose"
)

var saturday = time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC)

// supper is a party of one cook, with dishes for its covers.
func supper(covers int, dishes ...planner.Dish) *planner.Party {
	return &planner.Party{Zone: "UTC", Arrival: saturday, Covers: covers, PrepDays: 3, Dishes: dishes,
		People: []planner.Person{{Key: "ada", Name: "Ada", Role: planner.Host,
			Cooks: planner.DayHours{From: 9 * 60, Until: 21 * 60}}}}
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
	for where, lines := range map[string][]Line{"brought": l.Brought, "there": l.There, "house": l.Have, "over": l.Over} {
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
func TestOneLineAnItem(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b planner.Ingredient
		want []string
	}{
		{"sticks and grams", of("butter", "2 sticks", "s", "dairy"), of("butter", "100 g", "s", "dairy"),
			[]string{"shop-s/dairy: 330 g butter as 2 packets of 250 g, 170 g over"}},
		{"with and without a section", of("limes", "1", "s", "fruit"), of("lime", "1", "s", ""),
			[]string{"shop-s/fruit: 2 limes"}},
		{"with and without a shop", of("limes", "1", "greengrocer", "fruit"), of("lime", "1", "", ""),
			[]string{"shop-greengrocer/fruit: 2 limes"}},
		{"shops spelt two ways", of("limes", "1", "Supermarket", ""), of("lime", "1", "supermarket", ""),
			[]string{"shop-supermarket: 2 limes"}},
		{"one", of("limes", "1", "s", ""), of("salt", "", "s", ""), []string{"shop-s: 1 lime", "shop-s: salt"}},
		{"berries", of("strawberry", "6", "s", ""), of("bay leaf", "2", "s", ""),
			[]string{"shop-s: 2 bay leaves", "shop-s: 6 strawberries"}},
		{"cups and grams", of("flour", "2 cups", "s", ""), of("flour", "500 g", "s", ""),
			[]string{"shop-s: 790 g flour as 1 bag of 1 kg, 210 g over"}},
		{"frozen is another thing", of("peas", "200 g", "s", ""), planner.Ingredient{Name: "peas", Amount: "200 g", Shop: "s",
			Frozen: true},
			[]string{"shop-s: 200 g peas", "shop-s: 200 g peas"}},
		{"peeled potatoes are potatoes", of("potatoes", "1 kg", "s", ""), of("peeled potatoes", "750 g", "s", ""),
			[]string{"shop-s: 2 kg potatoes"}},
		{"trimmed by the host's word", planner.Ingredient{Name: "leeks", Amount: "1 kg", Shop: "s", Trimmed: true},
			of("salt", "", "s", ""), []string{"shop-s: 2.3 kg leeks", "shop-s: salt"}},
	} {
		c.a.Step, c.b.Step = "cook", "cook"
		p := supper(4, planner.Dish{Key: "a", Name: "a", Serves: 4, Ingredients: []planner.Ingredient{c.a},
			Steps: []planner.Step{{Key: "cook"}}},
			planner.Dish{Key: "b", Name: "b", Serves: 4, Ingredients: []planner.Ingredient{c.b},
				Steps: []planner.Step{{Key: "cook"}}})
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
	if l.Text() != "1.35 kg" || l.Name != "potatoes" || l.Trimmed.String() != "1 kg" || l.Loss == nil ||
		!strings.Contains(l.Loss.Source, "NDB 11352") {
		t.Errorf("got %s %s for %s trimmed: %v", l.Text(), l.Name, l.Trimmed, l.Loss)
	}
}

// story is a supper with a supermarket trip that is in the party's tasks.
func story() *planner.Party {
	p := supper(4, planner.Dish{Key: "cake", Name: "Cake", Serves: 4, Steps: []planner.Step{{Key: "bake"}},
		Ingredients: []planner.Ingredient{
			of("butter", "200 g", "supermarket", ""), of("limes", "2", "supermarket", ""),
			of("sugar", "100 g", "supermarket", "")}})
	propose.Renew(p, p.Opens())
	return p
}

func line(t *testing.T, l *List, thing planner.Item) *Line {
	t.Helper()
	var found *Line
	for i := range l.Trips {
		l.Trips[i].Each(func(x *Line) {
			if x.Item == thing && found == nil {
				found = x
			}
		})
	}
	if found == nil {
		t.Fatalf("no %s on any trip", thing)
	}
	return found
}

func tick(t *testing.T, p *planner.Party, thing planner.Item) {
	t.Helper()
	l := Of(p, nil)
	x := line(t, &l, thing)
	Note(p, x, planner.Got{Amounts: x.Bought(), Trip: l.Trips[0].Chore, By: "ada"})
}

// TestTheMenuChangesAfterTheShop: more, enough, no longer, new; and the second trip.
func TestTheMenuChangesAfterTheShop(t *testing.T) {
	p := story()
	expect(t, "before", Of(p, nil), "shop-supermarket: 100 g sugar as 1 bag of 1 kg, 900 g over",
		"shop-supermarket: 2 limes",
		"shop-supermarket: 200 g butter as 1 packet of 250 g, 50 g over")
	tick(t, p, "butter")
	tick(t, p, "lime")
	expect(t, "in the shop", Of(p, nil), "shop-supermarket: 100 g sugar as 1 bag of 1 kg, 900 g over",
		"shop-supermarket: ✓ 2 limes", "shop-supermarket: ✓ 250 g butter")

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
		{"five covers", func(p *planner.Party) {
			p.Covers = 5
		}, "enough butter: has 250 g butter, wants 250 g; more lime: has 2 limes, wants 1"},
		{"eight covers", func(p *planner.Party) {
			p.Covers = 8
		}, "more butter: has 250 g butter, wants 150 g; more limes: has 2 limes, wants 2"},
		{"two covers", func(p *planner.Party) {
			p.Covers = 2
		}, "enough butter: has 250 g butter, wants 100 g; enough lime: has 2 limes, wants 1"},
		{"no limes", func(p *planner.Party) {
			p.Dishes[0].Ingredients = p.Dishes[0].Ingredients[:1]
		}, "no longer limes: has 2 limes, wants"},
		{"no cake", func(p *planner.Party) {
			p.Dishes = nil
		}, "no longer butter: has 250 g butter, wants; no longer limes: has 2 limes, wants"},
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
	p.Work = []planner.Work{{Task: "shop-supermarket", Person: "ada", Progress: planner.Started, Start: &start}}
	if got := news(func(p *planner.Party) {
		p.Dishes[0].Ingredients = append(p.Dishes[0].Ingredients, of("mint", "1 bunch", "supermarket", ""))
	}); got != "new mint: has , wants 1 bunch" {
		t.Errorf("mint while Ada is at the shop: %q", got)
	}
	end := start.Add(time.Hour)
	p.Work[0].Progress, p.Work[0].End = planner.Done, &end
	settled := Settle(p, "shop-supermarket")
	if len(settled) != 1 || len(settled[0].Taken) != 0 || len(settled[0].Left) != 1 || settled[0].Left[0].Name != "sugar" {
		t.Errorf("two of three were ticked off, so sugar is left: %+v", settled)
	}
	p.Covers = 8
	expect(t, "back home", Of(p, nil), "shop-supermarket-2: 150 g butter as 1 packet of 250 g, 100 g over more",
		"shop-supermarket-2: 2 limes more",
		"shop-supermarket-2: 200 g sugar as 1 bag of 1 kg, 800 g over")
	came, _ := propose.Renew(p, p.Opens())
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
	p.Work = []planner.Work{{Task: "shop-supermarket", Person: "ada", Progress: planner.Done, End: &end}}
	// As a party that was stored before purchases were noted: its trip has what it had.
	expect(t, "before it is noted", Of(p, nil), "shop-supermarket: 100 g sugar as 1 bag of 1 kg, 900 g over",
		"shop-supermarket: 2 limes",
		"shop-supermarket: 200 g butter as 1 packet of 250 g, 50 g over")
	if s := Settle(p, ""); len(s) != 1 || len(s[0].Taken) != 3 {
		t.Fatalf("got %+v", s)
	}
	expect(t, "after", Of(p, nil), "there: ✓ 1 kg sugar", "there: ✓ 2 limes", "there: ✓ 250 g butter")
	if b := p.Purchased("butter"); b.Got[0].By != "ada" || !b.Got[0].Taken {
		t.Errorf("got %+v", b)
	}
	propose.Renew(p, p.Opens())
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
		p := supper(4, planner.Dish{Key: "bird", Name: "Bird", Serves: 4, Ingredients: []planner.Ingredient{in},
			Steps: []planner.Step{{Key: "roast"}}})
		p.PrepDays = 6
		propose.Renew(p, p.Opens())
		thaw := p.Chore("thaw-turkey")
		if thaw == nil || int(thaw.Time.Likely) != c.days*24*60 || !strings.Contains(thaw.Note, "Big Thaw") {
			t.Errorf("%d g: %+v, want %d days", c.grams, thaw, c.days)
			continue
		}
		use := saturday.Add(-4 * time.Hour)
		begin := use.Add(-time.Duration(c.days) * 24 * time.Hour)
		plan := &planner.Plan{Tasks: []planner.Placed{{Task: "thaw-turkey", Start: begin, End: use},
			{Task: "bird/roast", Start: use, End: saturday}}}
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
		{Item: "butter", Name: "butter", Have: "150 g"}, {Item: "sugar", Name: "sugar", Have: planner.Enough},
		{Item: "rioja", Name: "Rioja", Brings: "ada"}, {Item: "candle", Name: "candles", Extra: "12"},
		{Item: "lime", Name: "limes", Shop: "market"},
	}
	expect(t, "all kinds of words", Of(p, nil), "brought: 3 bottles Rioja", "shop-market: 2 limes",
		"shop-supermarket: 12 candles",
		"shop-supermarket: 50 g butter as 1 packet of 250 g, 200 g over", "there: ✓ 100 g sugar")
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
