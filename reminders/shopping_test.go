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
	list := ofKind(For(p, plan), ShopBy)
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
	if got := ofKind(For(p, plan), ShopBy)[0].Text; !strings.Contains(got, "\nBuy 6 pears.\n") {
		t.Errorf("all else is there: got %s", got)
	}
}

// TestBringing: who brings something hears of it on the morning of the day before and of the day, until it is ticked.
func TestBringing(t *testing.T) {
	p, plan := shopped()
	list := ofKind(For(p, plan), Bring)
	if len(list) != 2 || list[0].Person != "ben" ||
		!strings.HasPrefix(words.PlainStamps(list[0].Text), "You bring 3 bottles Rioja, by Sat 19:00.") {
		t.Fatalf("got %+v", list)
	}
	if !list[1].Due.Equal(list[0].Due.Add(24*time.Hour)) || !list[1].Due.Before(p.Arrival) {
		t.Errorf("due %s and %s", list[0].Due, list[1].Due)
	}
	p.Bought = []planner.Purchase{{Item: "rioja", Name: "Rioja",
		Got: []planner.Got{{Amounts: []string{"3 bottles"}, By: "ben"}}}}
	if list := ofKind(For(p, plan), Bring); len(list) != 0 {
		t.Errorf("it is there, and Ben is told: %+v", list)
	}
}
