package shopping

import (
	"cmp"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/propose"
)

// What says what a change means for a purchase.
type What string

// What a change may mean.
const (
	More     What = "more"      // more is needed than was bought
	Enough   What = "enough"    // what was bought is enough, still or again
	NoLonger What = "no longer" // nothing wants it any more
	New      What = "new"       // nobody has bought it, and the trip to its shop is under way or over
)

// Change is what a change of the party means for somebody who has bought something, or is buying.
type Change struct {
	Item  planner.Item
	Name  string
	What  What
	By    planner.PersonKey // who has bought it, or is at the shop
	Has   string            // what was bought, with its name: "250 g butter"
	Was   string            // with New: what was still to be bought before; empty: nothing
	Wants string            // what is wanted now; with More and New what is still to be bought
	Shop  string
	Going bool // with New and More: By is on the way there now
}

// state is a thing in one list.
type state struct {
	wanted []measure.Quantity
	text   []string
	short  string
	open   bool
	name   string
	trip   *Trip
}

// News compares a party before and after a change and lists what it means for what was bought, by name. What
// nobody has bought is only spoken of where somebody is at the shop, or has been.
func News(before, after *planner.Party) []Change {
	if len(before.Bought) == 0 && !anyTripBegun(before) {
		return nil
	}
	was, is := states(before), states(after)
	var out []Change
	for t, now := range is {
		then := was[t]
		had, has := before.Purchased(t), after.Purchased(t)
		if then != nil && same(then, now) && (then.open == now.open || sameGood(before.Good(t), after.Good(t))) ||
			!sameGot(had, has) {
			continue // nothing has changed, or that it was bought
		}
		c := Change{Item: t, Name: now.name}
		if now.trip != nil {
			c.Shop = now.trip.Shop
			if now.trip.Progress == planner.Started {
				c.By, c.Going = now.trip.Who, true
			}
		}
		switch {
		case has != nil:
			last := has.Got[len(has.Got)-1]
			if !c.Going {
				c.By = last.By
			}
			c.Has = gotText(has)
			c.What, c.Wants = Enough, joined(now)
			if now.open {
				c.What, c.Wants = More, now.short
			}
		case now.open && now.trip != nil && (c.Going || (then == nil || !then.open) && hasBeen(after, now.trip.Shop)):
			c.What, c.Wants = New, now.short
			if then != nil && then.open {
				c.Was = then.short
			}
		default:
			continue
		}
		out = append(out, c)
	}
	for t, then := range was {
		if has := after.Purchased(t); is[t] == nil && has != nil && sameGot(before.Purchased(t), has) {
			out = append(out, Change{Item: t, Name: then.name, What: NoLonger, By: has.Got[len(has.Got)-1].By,
				Has: gotText(has)})
		}
	}
	slices.SortFunc(out, func(a, b Change) int { return cmp.Compare(a.Item, b.Item) })
	return out
}

func states(p *planner.Party) map[planner.Item]*state {
	list := Of(p, nil)
	out := map[planner.Item]*state{}
	for _, items := range wantsOf(p) { // as the dishes want them, whatever there is of them
		for i := range items {
			it := &items[i]
			s := out[it.Item]
			if s == nil {
				s = &state{name: it.Name}
				out[it.Item] = s
			}
			if s.wanted = add(s.wanted, it.Amount); it.Text != "" {
				s.text = append(s.text, it.Text)
			}
		}
	}
	note := func(l *Line, trip *Trip) {
		s := out[l.Item]
		if s.name = l.Name; !l.Ticked {
			s.open, s.short, s.trip = true, l.Text(), trip
		}
	}
	for i := range list.Trips {
		list.Trips[i].Each(func(l *Line) { note(l, &list.Trips[i]) })
	}
	for i := range list.Brought {
		note(&list.Brought[i], nil)
	}
	for i := range list.There {
		note(&list.There[i], nil)
	}
	for _, s := range out {
		slices.Sort(s.text)
		slices.SortFunc(s.wanted, byUnit)
	}
	return out
}

func wantsOf(p *planner.Party) [][]propose.TripItem {
	b := propose.ToBuy(p)
	out := [][]propose.TripItem{b.Brought, b.There}
	for _, t := range b.Trips {
		out = append(out, t.Items)
	}
	return out
}

// same reports whether two states want the same amounts.
func same(a, b *state) bool {
	return slices.EqualFunc(a.wanted, b.wanted, func(x, y measure.Quantity) bool {
		c, ok := x.Cmp(y)
		return ok && c == 0
	}) && slices.Equal(a.text, b.text)
}

func sameGot(a, b *planner.Purchase) bool {
	return (a == nil) == (b == nil) && (a == nil || len(a.Got) == len(b.Got))
}

func sameGood(a, b *planner.Good) bool {
	return (a == nil) == (b == nil) && (a == nil || a.Have == b.Have)
}

func joined(s *state) string {
	return strings.Join(append(texts(together(s.wanted, s.name)), s.text...), " + ")
}

func gotText(b *planner.Purchase) string {
	var sum []measure.Quantity
	for _, g := range b.Got {
		if g.Used {
			continue
		}
		for _, a := range g.Amounts {
			if q, err := measure.ParseWhole(a); err == nil {
				sum = add(sum, q)
			}
		}
	}
	return strings.TrimSpace(strings.Join(texts(sum), " + ") + " " + measure.NameFor(b.Name, sum...))
}

func anyTripBegun(p *planner.Party) bool {
	return slices.ContainsFunc(p.Chores, func(c planner.Chore) bool {
		return c.Kind == planner.Shop && p.Progress(planner.ChoreTask(c.Key)) != planner.Waiting
	})
}

// hasBeen reports whether a trip to a shop is over.
func hasBeen(p *planner.Party, shop string) bool {
	return slices.ContainsFunc(p.Chores, func(c planner.Chore) bool {
		return c.Kind == planner.Shop && planner.Key(c.Shop) == planner.Key(shop) && p.TripOver(c.Key)
	})
}
