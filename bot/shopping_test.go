package bot

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/shopping"
	"tureen/store"
)

// TestThingButtons: whatever a thing is called, its button fits a face, reads back as the command that it says, and
// means this thing or, where two names begin alike, refuses to guess.
func TestThingButtons(t *testing.T) {
	commands, _ := allCommands()
	check := func(t interface{ Fatalf(string, ...any) }, names ...string) {
		p := &planner.Party{ID: 1234567, Zone: "UTC", Arrival: time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC), Covers: 4}
		d := planner.Dish{Key: "d", Name: "D", Serves: 4, Steps: []planner.Step{{Key: "s"}}}
		for _, n := range names {
			d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: n, Amount: "2"})
		}
		p.Dishes = []planner.Dish{d}
		l := shopping.Of(p, nil)
		turn := &Turn{Party: p, command: &talk.Command{}}
		for _, o := range allLines(&l) {
			for _, b := range []talk.Button{turn.button("Bought: "+o.line.Name, "shopping tick", "item", buttonThing(o.line))} {
				if len(b.Do) > talk.MaxDo || len([]rune(b.Label)) > talk.MaxLabel {
					t.Fatalf("%q: %d bytes, label of %d characters", b.Do, len(b.Do), len([]rune(b.Label)))
				}
				line, err := talk.ParseLine(commands, b.Do)
				if err != nil || line.Command != "shopping tick" {
					t.Fatalf("%q: %v, %+v", b.Do, err, line)
				}
				turn.values = map[string]value{"item": {Value: talk.Value{Text: line.Options["item"]}}}
				found, err := turn.findThing(&l)
				if err == nil && found[0].line.Item != o.line.Item {
					t.Fatalf("the button of %q means %q", o.line.Item, found[0].line.Item)
				}
				if err != nil && len(names) == 1 {
					t.Fatalf("the button of %q: %v", o.line.Item, err)
				}
			}
		}
	}
	for _, n := range []string{"butter", "chickens, about 1.6 kg each", "crème fraîche", `"best" butter`, `back\slash`,
		"a party:2", "amount:3 eggs", "牛乳", strings.Repeat("very ", 15) + "old", "-"} {
		t.Run(n, func(t *testing.T) { check(t, n) })
	}
	rapid.Check(t, func(t *rapid.T) {
		check(t, rapid.SliceOfNDistinct(rapid.StringMatching(`[a-z]{1,9}( [a-z:"]{1,9}){0,8}`), 1, 4,
			func(s string) planner.Item { return planner.ItemOf(s, false) }).Draw(t, "names")...)
	})
}

// TestShopNames: a shop is meant by the beginning of its name, by its key, and by nothing else.
func TestShopNames(t *testing.T) {
	for _, c := range []struct {
		name, typed string
		want        bool
	}{
		{"supermarket", "super", true}, {"Supermarket", "supermarket", true}, {"farmers' market", "farmers-market", true},
		{"supermarket", "market", false},
		{"anywhere", "anywhere", true}, {"butcher", "", true}, {"butcher", "-", false},
	} {
		if got := isShop(c.name, c.typed); got != c.want {
			t.Errorf("%q typed as %q: got %v", c.name, c.typed, got)
		}
	}
	long := strings.Repeat("The shop at the end of the road ", 3)
	if k := buttonShop(long); len(k) > planner.MaxKey || !isShop(long, k) {
		t.Errorf("%q stands in a button as %q", long, k)
	}
}

// TestTwoInTheShop: two who tick off the same thing at the same moment do not buy it twice; the second is told.
func TestTwoInTheShop(t *testing.T) {
	h := newTable(t)
	h.must("Ana", "/party new name:Supper date:2026-10-10 arrive:19:00 covers:4 zone:UTC courses:main 20:00",
		"/people add name:Ben",
		"/shopping add item:candles amount:12")
	first := h.say("Ana", "/shopping tick item:candles")
	second := h.say("Ben", "/shopping tick item:candles")
	if first.Refused || !second.Refused || !strings.Contains(second.Text, "Ticked off already: candles, bought by Ana") {
		t.Errorf("first %q, then %q", first.Text, second.Text)
	}
	for _, c := range []struct{ who, say, want string }{
		{"Ben", "/shopping untick item:candles", "Not bought after all: 12 candles."},
		{"Ben", "/shopping tick item:candles amount:5", "Bought: 5 candles.\n7 more are needed."},
		{"Ana", "/shopping tick item:candles", "Bought: 7 candles."},
		{"Ana", "/shopping list", "Nothing is left to buy."},
		{"Ana", "/undo", "Taken back: bought 7 candles."},
		{"Ana", "/shopping list", "1 item is to buy, for 4 covers."},
		{"Ben", "/undo", "Taken back: bought 5 candles."},
	} {
		if rep := h.say(c.who, c.say); !strings.HasPrefix(rep.Text, c.want) {
			t.Errorf("%s: %s: got %q, want %q", c.who, c.say, rep.Text, c.want)
		}
	}
}

// TestPartyOfBeforePurchases: a party whose trip was made before purchases were noted shows it as made, without a
// change, and the first change notes it.
func TestPartyOfBeforePurchases(t *testing.T) {
	h := newTable(t)
	h.must("Ana", "/party new name:Supper date:2026-10-10 arrive:19:00 covers:4 zone:UTC courses:main 20:00",
		"/repertoire add dish:posset at:21:00", "/plan propose")
	h.must("Ana", "/task claim task:shop-supermarket")
	snap := h.party()
	end := start.Add(-time.Hour)
	snap.Party.Work[0].Progress, snap.Party.Work[0].End = planner.Done, &end
	if _, err := h.store.Save(t.Context(), "test", store.Change{Base: snap.Revision, Actor: store.Actor{ID: "ana"},
		At: start, What: "did it long ago", Party: snap.Party}); err != nil {
		t.Fatal(err)
	}
	if got := plain(h.must("Ana", "/shopping list")); !strings.Contains(got, "Nothing is left to buy.") ||
		!strings.Contains(got, "✓ 5 lemons") && !strings.Contains(got, "✓ 2 lemons") {
		t.Errorf("got %s", got)
	}
	if p := h.party().Party; len(p.Bought) != 0 {
		t.Error("looking has changed something")
	}
	h.must("Ana", "/party change covers:6")
	if p := h.party().Party; len(p.Bought) == 0 || !p.Work[0].Noted {
		t.Errorf("not noted: %+v", p.Work)
	}
}

// A trip that the plan has in time is never shown outside its own days: they are told by when one leaves and is back.
func TestTripWindow(t *testing.T) {
	at := func(clock string) time.Time {
		when, err := time.Parse("2006-01-02 15:04", "2026-10-09 "+clock)
		if err != nil {
			t.Fatal(err)
		}
		return when
	}
	p := &planner.Party{Zone: "UTC", Arrival: time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC), Covers: 4, PrepDays: 3}
	turn := &Turn{Party: p, Now: at("08:00")}
	got := turn.tripWindow(&shopping.Trip{Start: at("14:25"), End: at("15:15"), From: at("15:14"), By: at("15:25")})
	want := "Leave no sooner than " + turn.dayClock(at("14:24")) + "; back by " + turn.dayClock(at("15:25")) +
		" at the latest"
	if got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// What the dish says is in the house is not to be looked for once somebody has said that it is there.
func TestHouseIsLookedAtOnce(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Salad course:main", "/step add dish:salad name:mix do:Mix it time:10 min leaves:none",
		"/ingredient add dish:salad name:olive oil amount:3 tbsp have:yes")
	if got := plain(tb.must("Ana", "/shopping list")); !strings.Contains(got, "look whether it is") {
		t.Errorf("before: %s", got)
	}
	got := plain(tb.must("Ana", "/shopping have item:olive oil", "/shopping list"))
	if strings.Contains(got, "look whether it is") || !strings.Contains(got, "olive oil") {
		t.Errorf("after: %s", got)
	}
}
