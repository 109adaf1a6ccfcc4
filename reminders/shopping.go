package reminders

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/shopping"
	"tureen/planner/words"
	"tureen/store"
)

// namedThings is how many things a reminder to go shopping names; a lock screen shows little more.
const namedItems = 4

// toBuy names the first things that are still to be bought on a way to a shop, and the shop as a button can name it;
// both are empty when there is nothing.
func (v *view) toBuy(k planner.ChoreKey) (things, shop string) {
	trip := v.shopping().Trip(k)
	if trip == nil {
		return "", ""
	}
	wanted := trip.Wanted()
	if len(wanted) == 0 {
		return "", ""
	}
	if shop = planner.Key(trip.Shop); shop == "" {
		shop = "anywhere"
	}
	var names []string
	for i, w := range wanted {
		if i == namedItems-1 && len(wanted) > namedItems {
			names = append(names, fmt.Sprintf("%d more", len(wanted)-i))
			break
		}
		names = append(names, named(w))
	}
	return "Buy " + words.And(names) + ".", shop
}

// bringWithin is how long the word about what somebody brings is worth sending: who says so at noon need not hear
// at once that they did.
const bringWithin = 3 * time.Hour

// brings tells everybody what they have said they would bring, on the morning of the day before and of the day.
func (v *view) brings() []store.Reminder {
	if !slices.ContainsFunc(v.p.Goods, func(g planner.Good) bool { return g.Brings != "" }) {
		return nil
	}
	l := v.shopping()
	var out []store.Reminder
	for i := range v.p.People {
		who := &v.p.People[i]
		var what []string
		var by time.Time
		for j := range l.Brought {
			b := &l.Brought[j]
			if b.Brings != who.Key || b.Ticked || b.BuyBy.IsZero() {
				continue
			}
			name := b.Name
			if a := b.Text(); a != "" {
				name = a + " " + name
			}
			what = append(what, named(name))
			if by.IsZero() || b.BuyBy.Before(by) {
				by = b.BuyBy
			}
		}
		if len(what) == 0 {
			continue
		}
		for _, days := range []int{1, 0} {
			due := v.morning(who, by.AddDate(0, 0, -days))
			if !due.Before(by) {
				continue
			}
			out = append(out, store.Reminder{
				Key: fmt.Sprintf("bring/%d/%s", days, who.Key), Kind: Bring, Person: who.Key, Due: due, At: by,
				Until: due.Add(bringWithin),
				Text: fmt.Sprintf("You bring %s, by %s.\nNobody else has it on a list.", words.And(what),
					words.Stamp(by, words.DayClock, v.zone)),
				Buttons: []store.Press{{Label: "The list", Do: fmt.Sprintf("shopping list party:%d", v.p.ID)}},
			})
		}
	}
	return out
}

func (v *view) shopping() *shopping.List {
	if v.list == nil {
		l := shopping.Of(v.p, v.plan)
		v.list = &l
	}
	return v.list
}
