package propose

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/safety"
)

// TripItem is something that is wanted: an ingredient of a dish (Drink and Good are -1), a drink of the party or
// a good that is for no dish (Dish is empty). All three are without for the ice.
type TripItem struct {
	Dish       planner.DishKey
	Ingredient int // in Dish.Ingredients
	Drink      int // in Party.Drinks
	Good       int // in Party.Goods

	Use    planner.TaskKey // the task that needs it first, thawing and chilling included; empty: the arrival
	Item   planner.Item
	Name   string
	Amount measure.Quantity // as it is bought, for the covers; none: Text, or as much as is needed
	Text   string           // an amount that nobody can add up, as it was written
	Left   measure.Quantity // what of Amount is neither in the house nor was bought on a trip that is over
	Met    bool             // nothing is left to buy, or the task that wants it is done
	Used   bool             // Met only since the task is done: of Left nobody knows where it came from

	Loss  *food.Piece       // Amount is more than the dish asks for, by what is trimmed away; nil: it is not
	Keeps planner.Minutes   // in the refrigerator once bought; 0: as long as need be
	Shelf *safety.ShelfLife // what is published about that; nil: nothing, or the host knows better
	order int
}

// Buying is what a party needs, sorted by how it comes into the house.
type Buying struct {
	Trips   []Trip     // in the order in which they are made
	Brought []TripItem // somebody brings them
	There   []TripItem // in the house by what was said of the thing, or bought before: nothing is left to buy
	Have    []TripItem // in the house by what the dish says
}

// ToBuy says what is bought on which way to which shop, as it is proposed: as few trips a shop as the shelf
// lives allow, in the order in which they are made. What is in the house, was bought on a trip that is over, or
// is brought by somebody is on none.
func ToBuy(p *planner.Party) Buying {
	w := proposer{p: p, amounts: true}
	w.thaw()
	w.drinks()
	w.shop()
	w.buying.Trips = append(w.trips, w.buying.Trips...) // the ice last
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for j := range d.Ingredients {
			if d.Ingredients[j].Have && d.BroughtBy == "" {
				item := TripItem{Dish: d.Key, Ingredient: j, Drink: -1, Good: -1}
				w.fill(&item, d)
				if g := p.Good(item.Item); g != nil && g.Have == planner.Enough {
					item.Met = true // somebody has looked
					w.buying.There = append(w.buying.There, item)
					continue
				}
				w.buying.Have = append(w.buying.Have, item)
			}
		}
	}
	return w.buying
}

// fill sets what an ingredient's item says of itself.
func (w *proposer) fill(item *TripItem, d *planner.Dish) {
	in := &d.Ingredients[item.Ingredient]
	item.Name, item.Item = in.Name, planner.ItemOf(in.Name, in.Frozen)
	if !in.Frozen && measure.SaysTrimmed(in.Name) {
		if _, _, ok := food.AsBought(oneKilo, in.Name); ok {
			item.Name = measure.Untrimmed(in.Name)
			item.Item = planner.ItemOf(item.Name, false)
		}
	}
	if q, err := measure.ParseWhole(in.Amount); err == nil && !in.Frozen && w.p.Good(item.Item) == nil &&
		w.p.Purchased(item.Item) == nil {
		as, _ := planner.BoughtAs(item.Name, q)
		item.Item = planner.ItemOf(as, false)
	}
	if w.amounts || w.supplied[item.Item] {
		item.amount(d, in, d.Makes(w.p))
	}
}

// oneKilo asks whether package food knows what is trimmed off something.
var oneKilo = func() measure.Quantity { q, _ := measure.New(1, 1, measure.Kilogram); return q }()

// amount reads an ingredient's amount, for the covers that the dish is made for.
func (i *TripItem) amount(d *planner.Dish, in *planner.Ingredient, covers int) {
	text := strings.TrimSpace(in.Amount)
	if text == "" {
		return
	}
	q, err := measure.ParseWhole(text)
	if err == nil && !q.IsZero() {
		var g planner.Grown
		g, err = d.Grow(in, q, covers)
		q = g.Amount
	}
	if err != nil {
		i.Text = text
		return
	}
	if !in.Frozen && (in.Trimmed || measure.SaysTrimmed(in.Name)) {
		if bought, loss, ok := food.AsBought(q, in.Name); ok {
			q, i.Loss = bought, loss
		}
	}
	if as, same := planner.BoughtAs(i.Name, q); planner.ItemOf(as, false) == i.Item {
		q = same
	}
	i.Amount, i.Left = q, q
}

// supply is what there is of each thing before any trip that is still to be made.
func (w *proposer) supply() map[planner.Item]*measure.Stock {
	stocks := map[planner.Item]*measure.Stock{}
	of := func(t planner.Item, name string) *measure.Stock {
		if stocks[t] == nil {
			stocks[t] = measure.NewStock(food.DensityOf(name))
		}
		return stocks[t]
	}
	for i := range w.p.Goods {
		g := &w.p.Goods[i]
		if g.Have == planner.Enough {
			of(g.Item, g.Name).All = true
		} else if q, err := measure.ParseWhole(g.Have); err == nil && !q.IsZero() {
			of(g.Item, g.Name).Put(q)
		}
	}
	for i := range w.p.Bought {
		b := &w.p.Bought[i]
		for j := range b.Got {
			if g := &b.Got[j]; w.p.TripOver(g.Trip) {
				g.PutInto(of(b.Item, b.Name))
			}
		}
	}
	return stocks
}

// net takes what there is from what is wanted, what is used already first and then the first use, and sets aside
// what is met.
func (w *proposer) net(wants []*want) []*want {
	stocks := w.stocks
	if len(stocks) > 0 {
		order := make([]int, len(wants))
		used := make([]int, len(wants)) // 0 before 1
		for i, x := range wants {
			order[i] = i
			if x.item.Use == "" || w.p.Progress(x.item.Use) != planner.Done {
				used[i] = 1
			}
		}
		slices.SortStableFunc(order, func(a, b int) int {
			return cmp.Or(used[a]-used[b], wants[a].to.Compare(wants[b].to))
		})
		for _, i := range order {
			item := &wants[i].item
			if s := stocks[item.Item]; !s.Empty() {
				if item.Text != "" {
					item.Met = true
					continue
				}
				item.Left, item.Met = s.Draw(item.Amount)
			}
		}
	}
	return slices.DeleteFunc(wants, func(x *want) bool {
		if !x.item.Met && x.item.Use != "" && w.p.Progress(x.item.Use) == planner.Done {
			x.item.Met, x.item.Used = true, true // whatever it was made with, it is made
		}
		if x.item.Met {
			w.buying.There = append(w.buying.There, x.item)
		}
		return x.item.Met
	})
}

// keeps is how long a fresh ingredient may lie from the shop to its step, and what is published about it. A
// published limit binds whatever the host says, and the days that raw food still lies after the step come
// off it, down to one; a day the host knows binds; what is published about quality is only told.
func keeps(p *planner.Party, d *planner.Dish, in *planner.Ingredient, s *planner.Step) (bound, told planner.Minutes,
	life *safety.ShelfLife) {
	said := planner.Minutes(in.KeepDays) * minutesADay
	if d.IsFrozen(in) {
		return said, said, nil
	}
	if life = safety.Shelf(in.Name); life == nil {
		return said, said, nil
	}
	days := planner.Minutes(life.Days) * minutesADay
	switch {
	case !life.Limit && said > 0:
		return said, said, nil // the host knows better
	case !life.Limit:
		return 0, days, life
	}
	if s != nil {
		days = max(minutesADay, days-rawWait(p, d, s))
	}
	if said > 0 && said < days {
		return said, said, nil
	}
	return days, days, life
}

// extras are the wants that belong to no dish.
func (w *proposer) extras() []*want {
	var out []*want
	for i := range w.p.Goods {
		g := &w.p.Goods[i]
		if g.Extra == "" {
			continue
		}
		x := &want{
			item: TripItem{Drink: -1, Good: i, Item: g.Item, Name: g.Name, order: 2_000_000 + i}, shop: g.Shop,
			by: planner.Anchor{Arrival: true, Offset: -60}, from: w.opens(), to: w.p.Arrival.Add(-time.Hour),
		}
		if q, err := measure.ParseWhole(g.Extra); err == nil {
			x.item.Amount, x.item.Left = q, q
		}
		out = append(out, x)
	}
	return out
}

// brought sets aside what somebody brings along.
func (w *proposer) brought(wants []*want) []*want {
	return slices.DeleteFunc(wants, func(x *want) bool {
		g := w.p.Good(x.item.Item)
		brings := g != nil && g.Brings != ""
		if brings {
			w.buying.Brought = append(w.buying.Brought, x.item)
		}
		return brings
	})
}

// placed says where each thing is bought: where the hosts say of the thing, else where the dish says, else
// where another dish does, the first in the menu.
func (w *proposer) placed(wants []*want) {
	spelt, where := map[string]string{}, map[planner.Item]string{}
	keys := map[string]string{} // of the shops as they are spelt
	keyOf := func(shop string) string {
		k, ok := keys[shop]
		if !ok {
			k = planner.Key(shop)
			keys[shop] = k
		}
		return k
	}
	for i := range w.p.Goods {
		if g := &w.p.Goods[i]; g.Shop != "" {
			where[g.Item] = g.Shop
		}
	}
	for _, x := range wants {
		if x.shop == "" {
			continue
		}
		if k := keyOf(x.shop); spelt[k] == "" {
			spelt[k] = x.shop
		} else {
			x.shop = spelt[k]
		}
		if where[x.item.Item] == "" {
			where[x.item.Item] = x.shop
		}
	}
	for _, x := range wants {
		if s := where[x.item.Item]; s != "" && (x.shop == "" || len(w.p.Goods) > 0 && w.p.Good(x.item.Item) != nil) {
			if k := spelt[keyOf(s)]; k != "" {
				s = k
			}
			x.shop = s
		}
	}
}
