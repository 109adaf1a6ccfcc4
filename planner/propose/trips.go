package propose

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/words"
)

// How a host goes shopping: once some days before for what keeps, once for what is fresh, with an order at the butcher
// before that, a look into the cupboard first, and nowhere for one thing alone.

// shopPart is which of the ways to one shop it is.
type shopPart int

const (
	wholeShop shopPart = iota
	mainShopping
	freshShopping
)

// freshKey ends the key of the way for what is fresh.
const freshKey = "fresh"

// A second way to a shop is worth it from so many things on that keep and so many that do not; fresh is what keeps no
// longer than so, and the way for what keeps is made in so many days before the eve. Common practice, no source;
// published timelines have the main shop three days before and the fresh one on the eve, as the medians.
const (
	mainLeast   = 8
	freshLeast  = 3
	freshKeeps  = 3 * minutesADay
	mainWithin  = 4 * 24 * time.Hour
	longEvening = 5 * time.Hour
	orderLength = 5
)

// eve is the midnight at which the day before the party's begins.
func (w *proposer) eve() time.Time { return w.p.Day().AddDate(0, 0, -1) }

// mainAndFresh proposes two ways to a shop where what is bought there is worth it and there are shop hours that
// somebody has on both sides of the eve's midnight, or one way before it where nothing is fresh and the eve is short;
// it says whether it did.
func (w *proposer) mainAndFresh(shop string, wants []*want) bool {
	var keep, fresh []*want
	things, must := map[planner.Item]bool{}, map[planner.Item]bool{}
	for _, x := range wants {
		strictly, freshly := w.isFresh(x)
		switch {
		case freshly:
			fresh = append(fresh, x)
		default:
			keep = append(keep, x)
			things[x.item.Item] = true
		}
		if strictly {
			must[x.item.Item] = true
		}
	}
	main := w.chore(shop, false)
	switch stands := w.chore(shop, true) != nil; {
	case w.now.IsZero() && !stands: // it was decided otherwise
		return false
	case stands && (main == nil || w.p.TripOver(main.Key)):
		if fresh = wants; len(fresh) == 0 {
			return false
		}
		keep = nil // what was not got is bought with what is fresh
	case stands && w.now.IsZero():
	case main != nil && !w.now.Before(w.eve()) && w.p.Progress(planner.ChoreTask(main.Key)) != planner.Waiting:
		if !stands {
			return false
		}
	case len(things) < mainLeast || w.ownWay(shop) || !w.timeForMain(main, keep):
		return false
	case len(must) == 0:
		if !w.shortEve() {
			return false
		}
		keep, fresh = wants, nil
	case len(must) == 1 || len(must) < freshLeast && !w.shortEve() || !w.timeForFresh(fresh):
		return false
	}
	if len(keep) > 0 {
		w.trip(shop, keep, mainShopping)
	}
	if len(fresh) > 0 {
		w.trip(shop, fresh, freshShopping)
	}
	return true
}

// ownWay says whether the hosts have a way of their own to a shop.
func (w *proposer) ownWay(shop string) bool {
	return slices.ContainsFunc(w.p.Chores, func(c planner.Chore) bool {
		return c.Kind == planner.Shop && !c.Proposed && planner.Key(c.Shop) == planner.Key(shop) && !w.p.TripOver(c.Key)
	})
}

// bigShop is a long way to a shop, to see whether there is time for one.
func bigShop() planner.Chore {
	return planner.Chore{Attention: planner.Hands, Open: shopHours, Time: planner.Span{Low: 30, Likely: 50, High: 75}}
}

// timeForMain says whether somebody can go for what keeps before the eve, and yet before it is wanted.
func (w *proposer) timeForMain(way *planner.Chore, keep []*want) bool {
	c, last := bigShop(), w.eve()
	for _, x := range keep {
		last = minTime(last, x.to)
	}
	first := planner.Later(w.now, last.Add(-mainWithin)).Add(c.Time.Likely.Duration())
	if way != nil {
		if said := w.p.WorkOn(planner.ChoreTask(way.Key)); said != nil && said.NotBefore != nil {
			first = planner.Later(first, *said.NotBefore)
		}
	}
	return first.Before(last) && w.canEnd(&c, first, last)
}

// timeForFresh says whether somebody can go for what is fresh on the eve or after it.
func (w *proposer) timeForFresh(fresh []*want) bool {
	c, last := bigShop(), w.p.Arrival
	for _, x := range fresh {
		last = minTime(last, x.to)
	}
	return w.canEnd(&c, planner.Later(w.now, w.eve()).Add(c.Time.Likely.Duration()), last.Add(-shopLead/2))
}

// shortEve says whether nobody has more than an evening on the day before: then it is for cooking.
func (w *proposer) shortEve() bool {
	for i := range w.p.People {
		long := time.Duration(0)
		for _, h := range w.p.CookingHours(&w.p.People[i]) {
			if from, to := planner.Later(h.From, w.eve()), minTime(h.To, w.p.Day()); from.Before(to) {
				long += to.Sub(from)
			}
		}
		if long > longEvening {
			return false
		}
	}
	return true
}

// isFresh says whether something is bought on the eve, since it does not keep for longer (strictly), or since it is the
// better for it and nothing wants it before.
func (w *proposer) isFresh(x *want) (strictly, freshly bool) {
	life := x.item.Shelf
	if x.item.Dish == "" || x.use.to.IsZero() || x.item.Keeps == 0 && life != nil {
		return false, false
	}
	keeps := x.item.Keeps
	if life != nil && !life.Limit && x.by.Within == 0 {
		keeps = planner.Minutes(life.From) * minutesADay
	}
	if f, known := food.Find(x.item.Name); keeps == 0 && known && f.Class != nil && f.Class.Name == "bread" {
		keeps = minutesADay
	}
	if keeps == 0 || x.use.to.Before(w.eve().Add(shopLead)) {
		return false, false
	}
	strictly = x.use.to.Add(-keeps.Duration()).After(w.eve().AddDate(0, 0, -1))
	return strictly, strictly || keeps <= freshKeeps && !x.use.from.Before(w.eve())
}

// freshSorts is what sorts of things are bought fresh, as a shop has them: "fish and herbs".
func freshSorts(wants []*want) string {
	var sorts []string
	for _, x := range wants {
		if f, known := food.Find(x.item.Name); known && f.Class != nil && f.Class.Sold != "" &&
			!slices.Contains(sorts, f.Class.Sold) {
			sorts = append(sorts, f.Class.Sold)
		}
	}
	if len(sorts) == 0 || len(sorts) > 3 {
		return "what is fresh"
	}
	return "fresh " + words.And(sorts)
}

// chore is the way to a shop that stands proposed, the one for what is fresh or the other; nil when there is none.
func (w *proposer) chore(shop string, fresh bool) *planner.Chore {
	for i := range w.p.Chores {
		c := &w.p.Chores[i]
		if c.Kind == planner.Shop && c.Proposed && planner.Key(c.Shop) == planner.Key(shop) && (c.From != nil) == fresh {
			return c
		}
	}
	return nil
}

// part has one of two ways end, or begin, at the eve's midnight.
func (w *proposer) part(c *planner.Chore, part shopPart) {
	at := planner.Anchor{Arrival: true, Offset: -planner.Minutes(words.Minutes(w.p.Arrival.Sub(w.eve())))}
	switch part {
	case mainShopping:
		c.By = append(slices.DeleteFunc(c.By, func(a planner.Anchor) bool { return a.Arrival }), at)
	case freshShopping:
		c.From = &at
	}
}

// TooLate has a way to a shop that was not made in its time made all the same.
func TooLate(c *planner.Chore, p *planner.Party, now time.Time) {
	c.By = slices.DeleteFunc(slices.Clone(c.By), func(a planner.Anchor) bool {
		return c.Proposed && a.Arrival && p.Arrival.Add(a.Offset.Duration()).Before(now.Add(c.Time.Likely.Duration()))
	})
}

// noTripForOne has what would be the only thing at a shop that no host has named bought where all things are.
func (w *proposer) noTripForOne(wants []*want) {
	things := map[string]map[planner.Item]bool{}
	named := map[string]bool{}
	all := ""
	for _, x := range wants {
		if things[x.shop] == nil {
			things[x.shop] = map[planner.Item]bool{}
		}
		things[x.shop][x.item.Item] = true
		g := w.p.Good(x.item.Item)
		named[x.shop] = named[x.shop] || !x.usual || g != nil && g.Shop != ""
		if all == "" && sellsAll(x.shop) {
			all = x.shop
		}
	}
	for _, x := range wants {
		if all != "" && x.shop != "" && !sellsAll(x.shop) && !named[x.shop] && len(things[x.shop]) == 1 {
			x.shop = all
		}
	}
}

// orders.tsv has the shops at which a host orders, and how many days before.
//
//go:embed orders.tsv
var ordersTSV string

// orderDays is how many days before what is bought at a shop is ordered there; 0: nobody orders there.
func orderDays(shop string) int {
	return orderTable()[words.Fold(strings.TrimSpace(shop))]
}

// orderTable reads orders.tsv once. A fault in it is ours and every test meets it: hence the panic.
var orderTable = sync.OnceValue(func() map[string]int {
	out := map[string]int{}
	for _, f := range words.Rows("orders.tsv", ordersTSV, 3) {
		days, err := strconv.Atoi(f[1])
		if err != nil {
			panic("propose: orders.tsv: " + err.Error())
		}
		for _, name := range strings.Split(f[0], "|") {
			out[words.Fold(name)] = days
		}
	}
	return out
})

// order proposes to order what is bought on a way, where that shop wants it and there is time for it.
func (w *proposer) order(trip *planner.Chore, wants []*want) {
	days := orderDays(trip.Shop)
	if days == 0 || w.madeTrip(trip.Key) {
		return
	}
	ahead := time.Duration(days) * 24 * time.Hour
	last := w.lastShopping(w.p.Arrival)
	for _, x := range wants {
		last = minTime(last, w.lastShopping(x.to.Add(-shopLead)))
	}
	var what []string
	for _, x := range wants {
		if !slices.Contains(what, x.item.Name) {
			what = append(what, x.item.Name)
		}
	}
	if len(what) > 3 {
		what = append(what[:2:2], words.Count(len(what)-2, "more thing"))
	}
	c := planner.Chore{Key: w.freeKey(orderKey + " " + trip.Shop), Kind: planner.Other, Attention: planner.Unattended,
		Open: shopHours, Time: planner.Span{Low: orderLength, Likely: orderLength, High: orderLength},
		Do:   fmt.Sprintf("Order at the %s: %s", trip.Shop, words.And(what)),
		By:   []planner.Anchor{{Task: planner.ChoreTask(trip.Key), Offset: -planner.Minutes(days) * minutesADay}},
		Note: fmt.Sprintf("%s before it is fetched, so that it is there.", words.Upper(words.Count(days, "day")))}
	stands := slices.ContainsFunc(w.p.Chores, func(o planner.Chore) bool { return o.Key == c.Key && o.Proposed })
	if w.now.IsZero() && stands || !w.now.IsZero() && w.canEnd(&c, w.now.Add(time.Hour), last.Add(-ahead)) {
		w.add(c)
	}
}

// cupboardSections are the parts of a shop whose things keep for long and stand in most kitchens: common practice, no
// source.
var cupboardSections = []string{"spices", "baking", "oils and vinegar", "condiments"}

// InCupboard says whether something to buy may well be in the house.
func InCupboard(name string) bool {
	f, known := food.Find(name)
	return known && f.Class != nil && slices.Contains(cupboardSections, f.Class.Sold)
}

// cupboardLeast is for how many things a look into the cupboard is worth a line; common practice, no source.
const cupboardLeast = 3

// AnyTime says of a task that it may well be done before its time.
func AnyTime(k planner.ChoreKey) bool {
	return k == CupboardKey || strings.HasPrefix(string(k), orderKey+"-")
}

// orderKey begins the key of an order at a shop.
const orderKey = "order"

// CupboardKey is the key of the task to look what is in the house; ticked, all of it is.
const CupboardKey = planner.ChoreKey("cupboard")

// cupboard proposes to look before the first way to a shop whether what most kitchens have is there.
func (w *proposer) cupboard() {
	var names []string
	var by []planner.Anchor
	for _, t := range w.trips {
		if w.madeTrip(t.Chore) {
			return
		}
		by = append(by, planner.Anchor{Task: planner.ChoreTask(t.Chore)})
		for _, i := range t.Items {
			if InCupboard(i.Name) && !i.Met && !slices.Contains(names, i.Name) {
				names = append(names, i.Name)
			}
		}
	}
	if len(names) < cupboardLeast || len(w.p.Bought) > 0 {
		return
	}
	w.add(planner.Chore{Key: CupboardKey, Kind: planner.Other, Attention: planner.Unattended, Time: about(5), By: by,
		Do: "Look what the cupboard has: " + words.Count(len(names), "thing"), Quiet: true,
		Note: "To tick, if all of it is there: " + strings.Join(names, "; ") + "."})
}
