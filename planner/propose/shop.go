package propose

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/words"
)

// Trip is one way to one shop, and what is bought on it.
type Trip struct {
	Chore planner.ChoreKey
	Shop  string // empty: wherever
	Items []TripItem
}

// want is something to buy: the trip may end from "from" to "to", and by is what it hangs on.
type want struct {
	item     TripItem
	shop     string
	by       planner.Anchor
	from, to time.Time
	use      usable // of an ingredient: when the step that needs it may start
	usual    bool   // no host has named the shop: a ready dish's card has
}

// shopLead is how long before the last possible use a trip is thought of at the latest; nobody wants to
// shop at the last minute.
const shopLead = 6 * time.Hour

// shopHours are when a shop can be counted on, until somebody says better; common practice, no source.
var shopHours = planner.DayHours{From: 9 * 60, Until: 19 * 60}

func (w *proposer) shop() {
	w.stocks = w.supply()
	w.supplied = map[planner.Item]bool{}
	for t := range w.stocks {
		w.supplied[t] = true
	}
	var wants []*want
	for i := range w.p.Dishes {
		if w.p.Dishes[i].BroughtBy == "" { // else whoever brings the dish buys for it
			wants = append(wants, w.wantsOf(i)...)
		}
	}
	wants = append(wants, w.extras()...)
	w.placed(wants)
	w.noTripForOne(wants)
	var shops []string
	for _, x := range wants {
		if !slices.Contains(shops, x.shop) {
			shops = append(shops, x.shop)
		}
	}
	for i := range wants {
		// Nobody goes a second way for what the shop that is gone to anyway has too.
		if at := slices.IndexFunc(shops, sellsAll); wants[i].shop == "" && at >= 0 {
			wants[i].shop = shops[at]
		}
	}
	if drinks := w.wantsOfDrinks(mainShop(shops, wants)); len(shops) > 0 || len(drinks) > 0 {
		w.placed(drinks)
		for _, x := range drinks {
			if !slices.Contains(shops, x.shop) {
				shops = append(shops, x.shop)
			}
		}
		wants = append(wants, drinks...)
	}
	wants = w.net(w.brought(wants))
	for _, shop := range shops {
		var here []*want
		for _, x := range wants {
			if x.shop == shop {
				here = append(here, x)
			}
		}
		w.tripsTo(shop, here)
	}
}

// sellsAll says whether a shop has what may come from wherever.
func sellsAll(shop string) bool {
	switch planner.Key(shop) {
	case "supermarket", "hypermarket", "grocery", "grocery-store", "grocer":
		return true
	}
	return false
}

// mainShop is the shop with most to buy; the first of them when there are several.
func mainShop(shops []string, wants []*want) string {
	best, most := "", 0
	for _, s := range shops {
		n := 0
		for _, x := range wants {
			if x.shop == s {
				n++
			}
		}
		if n > most {
			best, most = s, n
		}
	}
	return best
}

func (w *proposer) wantsOf(dish int) []*want {
	d := &w.p.Dishes[dish]
	if len(d.Steps) == 0 {
		return nil
	}
	starts := usableStarts(w.p, d)
	out := make([]*want, 0, len(d.Ingredients))
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		if in.Have {
			continue
		}
		step := in.Step
		if step == "" {
			step = d.Steps[0].Key
		}
		use := starts[step]
		x := &want{
			item: TripItem{Dish: d.Key, Ingredient: i, Drink: -1, Good: -1, order: dish*1000 + i}, shop: in.Shop,
			by: planner.Anchor{Task: planner.StepTask(d.Key, step, 1)}, from: w.opens(), to: use.to,
			use: use, usual: in.ShopUsual,
		}
		w.fill(&x.item, d)
		bound, told, life := keeps(w.p, d, in, d.Step(step))
		x.item.Keeps, x.item.Shelf = told, life
		if thaw := w.thawOf(d, i); thaw != nil {
			x.by = planner.Anchor{Task: planner.ChoreTask(thaw.Key)}
			x.to = x.to.Add(-thaw.Time.Likely.Duration())
			x.item.Keeps = 0
		} else if bound > 0 && w.opens().Add(bound.Duration()).Before(use.to) {
			x.by.Within = bound
			x.from = planner.Later(x.from, use.from.Add(-bound.Duration()))
		}
		x.item.Use = x.by.Task
		out = append(out, x)
	}
	return out
}

func (w *proposer) wantsOfDrinks(shop string) []*want {
	var out []*want
	for i := range w.p.Drinks {
		d := &w.p.Drinks[i]
		x := &want{
			item: TripItem{Drink: i, Good: -1, Item: planner.ItemOf(d.Name, false), Name: d.Name, order: 1_000_000 + i},
			shop: shop,
			by:   planner.Anchor{Arrival: true, Offset: -60}, from: w.opens(), to: w.p.Arrival.Add(-time.Hour),
		}
		if q, err := measure.New(int64(d.Bottles), 1, "bottle"); err == nil {
			x.item.Amount, x.item.Left = q, q
		}
		if c := w.chillOf(d.Kind); c != nil {
			x.by = planner.Anchor{Task: planner.ChoreTask(c.Key)}
			x.to = x.to.Add(-c.Time.Likely.Duration())
		}
		x.item.Use = x.by.Task
		out = append(out, x)
	}
	return out
}

// opens is Party.Opens, asked for once.
func (w *proposer) opens() time.Time {
	if w.first.IsZero() {
		w.first = w.p.Opens()
	}
	return w.first
}

// tripsTo splits what one shop has into a main shop and a fresh one where that is worth a second way, and else into as
// few trips as will do: each is placed as late as its most urgent thing allows and takes along whatever still keeps
// from then.
func (w *proposer) tripsTo(shop string, wants []*want) {
	if w.mainAndFresh(shop, wants) {
		return
	}
	rest := slices.Clone(wants)
	slices.SortStableFunc(rest, func(a, b *want) int { return a.to.Compare(b.to) })
	for len(rest) > 0 {
		at := w.lastShopping(rest[0].to.Add(-shopLead))
		var now, later []*want
		for i, x := range rest {
			if i == 0 || !x.from.After(at) {
				now = append(now, x)
			} else {
				later = append(later, x)
			}
		}
		w.trip(shop, now, wholeShop)
		rest = later
	}
}

// lastShopping is the last instant up to t when a shop is open and somebody has hands to give, or t when there
// is none.
func (w *proposer) lastShopping(t time.Time) time.Time {
	best := time.Time{}
	open := w.p.OpenHours(&planner.Chore{Open: shopHours})
	for i := range w.p.People {
		for _, h := range w.p.CookingHours(&w.p.People[i]) {
			for _, o := range open {
				if from, to := planner.Later(h.From, o.From), minTime(minTime(h.To, o.To), t); from.Before(to) {
					best = planner.Later(best, to)
				}
			}
		}
	}
	if best.IsZero() {
		return planner.Later(t, w.opens())
	}
	return best
}

func (w *proposer) trip(shop string, wants []*want, part shopPart) {
	name, where := "shop", "Go shopping"
	if shop != "" {
		name, where = "shop "+shop, "Shop at the "+shop
	}
	switch part {
	case mainShopping:
		where += " for what keeps"
	case freshShopping:
		name, where = name+" "+freshKey, where+" for "+freshSorts(wants)
	}
	if w.amounts { // only what is bought is asked for, not the task to buy it
		c := planner.Chore{Key: w.tripKey(name, shop)}
		w.out = append(w.out, c)
		w.trips = append(w.trips, tripOf(c.Key, shop, wants))
		return
	}
	c := planner.Chore{Key: w.tripKey(name, shop), Kind: planner.Shop, Attention: planner.Hands, Away: true, Shop: shop,
		Where: planner.Straight, Open: shopHours}
	c.By = w.anchorsOf(wants)
	w.part(&c, part)
	// A small shop is a quarter of an hour with the way there, a big one grows with the list.
	c.Time = about(min(75, 15+5*planner.CeilDiv(len(wants), 5)))
	items := map[planner.Item]bool{}
	for _, x := range wants {
		items[x.item.Item] = true
	}
	c.Do = fmt.Sprintf("%s: %s", where, words.Count(len(items), "item"))
	if soon := w.urgent(wants); soon != "" {
		c.Note = "Not too early, for " + soon + "."
	}
	w.trips = append(w.trips, tripOf(c.Key, shop, wants))
	w.add(c)
	w.order(&c, wants)
}

func tripOf(k planner.ChoreKey, shop string, wants []*want) Trip {
	sorted := slices.Clone(wants)
	slices.SortFunc(sorted, func(a, b *want) int { return cmp.Compare(a.item.order, b.item.order) })
	t := Trip{Chore: k, Shop: shop, Items: make([]TripItem, len(sorted))}
	for i, x := range sorted {
		t.Items[i] = x.item
	}
	return t
}

// tripKey is the key of a way to a shop: that of the hosts' own task to go there, if there is one and it is still
// to be done. A trip that is over has had its key.
func (w *proposer) tripKey(name, shop string) planner.ChoreKey {
	for i := range w.p.Chores {
		c := &w.p.Chores[i]
		if c.Kind == planner.Shop && !c.Proposed && planner.Key(c.Shop) == planner.Key(shop) &&
			!strings.HasPrefix(string(c.Key), planner.Key(name)) && !w.p.TripOver(c.Key) &&
			!slices.ContainsFunc(w.out, func(o planner.Chore) bool { return o.Key == c.Key }) {
			return c.Key
		}
	}
	return w.freeKey(name)
}

// madeTrip reports whether a key is that of a way to a shop that has been made.
func (w *proposer) madeTrip(k planner.ChoreKey) bool {
	c := w.p.Chore(k)
	return c != nil && c.Kind == planner.Shop && w.p.TripOver(k)
}

// anchorsOf merges what a trip hangs on: one anchor a task, the shortest shelf life of each, and none that
// another one implies.
func (w *proposer) anchorsOf(wants []*want) []planner.Anchor {
	var by []planner.Anchor
	for _, x := range wants {
		at := slices.IndexFunc(by, func(a planner.Anchor) bool { return a.Task == x.by.Task && a.Arrival == x.by.Arrival })
		switch {
		case at < 0:
			by = append(by, x.by)
		case x.by.Within > 0 && (by[at].Within == 0 || x.by.Within < by[at].Within):
			by[at].Within = x.by.Within
		}
	}
	return slices.DeleteFunc(slices.Clone(by), func(a planner.Anchor) bool {
		return a.Within == 0 && slices.ContainsFunc(by, func(b planner.Anchor) bool { return w.implies(b, a) })
	})
}

// implies tells whether ending by b means ending by a, both tasks of one dish.
func (w *proposer) implies(b, a planner.Anchor) bool {
	da, sa, _, _, oka := a.Task.Split()
	db, sb, _, _, okb := b.Task.Split()
	if !oka || !okb || da == "" || da != db || sa == sb {
		return false
	}
	d := w.p.Dish(da)
	return d != nil && comesAfterPassing(d, sa, sb)
}

// comesAfterPassing is comesAfter without the links that run from start to start.
func comesAfterPassing(d *planner.Dish, later, earlier planner.StepKey) bool {
	var look func(k planner.StepKey, depth int) bool
	look = func(k planner.StepKey, depth int) bool {
		s := d.Step(k)
		if s == nil || depth > len(d.Steps) {
			return false
		}
		for _, a := range s.After {
			if !a.FromStart && (a.Dish == "" || a.Dish == d.Key) && (a.Step == earlier || look(a.Step, depth+1)) {
				return true
			}
		}
		return false
	}
	return look(later, 0)
}

// urgent names the things with the shortest shelf life on a trip, at most three.
func (w *proposer) urgent(wants []*want) string {
	var names []string
	least := planner.Minutes(0)
	for _, x := range wants {
		if x.by.Within > 0 && (least == 0 || x.by.Within < least) {
			least = x.by.Within
		}
	}
	for _, x := range wants {
		if x.by.Within == 0 || x.by.Within > least || len(names) == 3 {
			continue
		}
		name := x.item.Name
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	keep := words.Short(max(int(least)/minutesADay, 1) * minutesADay)
	return words.And(names) + " (good for " + keep + ")"
}
