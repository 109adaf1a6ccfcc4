package reminders

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// shopped is a party with a way to the supermarket in its plan, and wine that Ben brings.
func shopped() (*planner.Party, *planner.Plan) {
	p, plan := tart()
	p.Chores[0] = planner.Chore{Key: "shop-supermarket", Kind: planner.Shop, Shop: "supermarket",
		Do: "Shop at the supermarket", Attention: planner.Hands, Time: span(30), Away: true, Proposed: true}
	plan.Tasks[1].Task = "shop-supermarket"
	for _, in := range []planner.Ingredient{{Name: "butter", Amount: "125 g"}, {Name: "flour", Amount: "250 g"},
		{Name: "pear", Amount: "6"}, {Name: "cream", Amount: "200 ml"}, {Name: "sugar"}} {
		in.Shop = "supermarket"
		p.Dishes[0].Ingredients = append(p.Dishes[0].Ingredients, in)
	}
	p.Drinks = []planner.Drink{{Name: "Rioja", Kind: planner.Red, Bottles: 3}}
	p.Goods = []planner.Good{{Item: "rioja", Name: "Rioja", Brings: "ben"}}
	return p, plan
}

func ofKind(list []store.Reminder, kind store.ReminderKind) []store.Reminder {
	var out []store.Reminder
	for _, r := range list {
		if r.Kind == kind {
			out = append(out, r)
		}
	}
	return out
}

// TestShoppingNamesThings: a lock screen says where to go, the next line what for, and a button has the list. What is
// bought is not named any more.
func TestShoppingNamesItems(t *testing.T) {
	p, plan := shopped()
	list := ofKind(each(p, plan), ShopBy)
	if len(list) != 1 || !strings.HasPrefix(list[0].Text, "Shop at the supermarket at ") ||
		!strings.Contains(list[0].Text, "\nBuy 125 g butter, 200 ml cream, 250 g flour and 2 more.\n") {
		t.Fatalf("got %+v", list)
	}
	last := list[0].Buttons[len(list[0].Buttons)-1]
	if last.Label != "The list" || last.Do != "shopping list shop:supermarket party:1" {
		t.Errorf("got %+v", last)
	}
	for _, thing := range []planner.Item{"butter", "cream", "flour", "sugar"} {
		p.Bought = append(p.Bought, planner.Purchase{Item: thing, Name: string(thing),
			Got: []planner.Got{{Amounts: []string{"1 kg"}}}})
	}
	if got := ofKind(each(p, plan), ShopBy)[0].Text; !strings.Contains(got, "\nBuy 6 pears.\n") {
		t.Errorf("all else is there: got %s", got)
	}
}

// TestBringing: who brings something hears of it on the morning of the day before and of the day, until it is ticked.
func TestBringing(t *testing.T) {
	p, plan := shopped()
	list := ofKind(each(p, plan), Bring)
	if len(list) != 2 || list[0].Person != "ben" ||
		!strings.HasPrefix(words.PlainStamps(list[0].Text), "You bring 3 bottles Rioja, by Sat 19:00.") {
		t.Fatalf("got %+v", list)
	}
	if !list[1].Due.Equal(list[0].Due.Add(24*time.Hour)) || !list[1].Due.Before(p.Arrival) {
		t.Errorf("due %s and %s", list[0].Due, list[1].Due)
	}
	p.Bought = []planner.Purchase{{Item: "rioja", Name: "Rioja",
		Got: []planner.Got{{Amounts: []string{"3 bottles"}, By: "ben"}}}}
	if list := ofKind(each(p, plan), Bring); len(list) != 0 {
		t.Errorf("it is there, and Ben is told: %+v", list)
	}
}

// TestBringingOnlyWhatIsOpen: what is ticked is passed over, and what comes after it is not; all that one brings stands
// in one word, by the first of it; and no word comes when it is too late.
func TestBringingOnlyWhatIsOpen(t *testing.T) {
	p, plan := shopped()
	p.Drinks = append(p.Drinks, planner.Drink{Name: "Cava", Kind: planner.Red, Bottles: 2},
		planner.Drink{Name: "Sherry", Kind: planner.Red, Bottles: 1})
	p.Goods = append(p.Goods, planner.Good{Item: "cava", Name: "Cava", Brings: "ben"},
		planner.Good{Item: "sherry", Name: "Sherry", Brings: "ada"})
	said := func() map[planner.PersonKey]string {
		out := map[planner.PersonKey]string{}
		for _, r := range ofKind(each(p, plan), Bring) {
			out[r.Person], _, _ = strings.Cut(words.PlainStamps(r.Text), ", by ")
			if !r.Until.Equal(r.Due.Add(3*time.Hour)) || !r.Due.Before(r.At) || len(r.Buttons) != 1 {
				t.Errorf("%+v", r)
			}
		}
		return out
	}
	if got := said(); len(got) != 2 || !strings.Contains(got["ben"], " and ") {
		t.Errorf("got %q", got)
	}
	for _, g := range p.Goods[:2] { // either of Ben's, whichever stands first
		p.Bought = []planner.Purchase{{Item: g.Item, Name: g.Name, Got: []planner.Got{{Amounts: []string{"9 bottles"}}}}}
		if got := said()["ben"]; strings.Contains(got, g.Name) || !strings.Contains(got, "bottles") {
			t.Errorf("%s is ticked: got %q", g.Name, got)
		}
	}
	p.Bought, p.Arrival = nil, at(7, 30) // before the word of the morning
	for _, r := range ofKind(each(p, plan), Bring) {
		if !r.Due.Before(at(0, 0)) {
			t.Errorf("told at %v to bring it by half past seven", r.Due)
		}
	}
}

// TestToBuyNamesTheShop: a button names the shop by its key; what is bought anywhere goes by that word.
func TestToBuyNamesTheShop(t *testing.T) {
	for shop, want := range map[string]string{"supermarket": "supermarket", "Corner shop": "corner-shop", "": "anywhere"} {
		p, plan := shopped()
		p.Chores, p.Goods, p.Drinks = nil, nil, nil
		p.Dishes[0].Ingredients = []planner.Ingredient{{Name: "kumquat jelly", Amount: "2 jars", Shop: shop}}
		v := see(p, plan)
		trips := v.shopping().Trips
		if len(trips) != 1 {
			t.Fatalf("%q: %+v", shop, trips)
		}
		if what, got := v.toBuy(trips[0].Chore); got != want || what != "Buy 2 jars kumquat jelly." {
			t.Errorf("%q: %q at %q, want %q", shop, what, got, want)
		}
	}
}
