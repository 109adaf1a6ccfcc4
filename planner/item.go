package planner

import (
	"strings"

	"tureen/planner/measure"
	"tureen/planner/words"
)

// Item is the key of what is bought: what goes by the same name, in the singular or plural and however it is
// spelt, is one item, whichever dish wants it. What is bought frozen is another item than what is not.
type Item string

const frozenItem = " (frozen)"

// ItemOf is the item that a name means.
func ItemOf(name string, frozen bool) Item {
	list := strings.Fields(strings.ToLower(name))
	for i, w := range list {
		for range len(w) + 1 { // what is left of "s.s." may be a plural again
			word := strings.TrimRight(list[i], ",;.")
			one := words.Singular(word) + list[i][len(word):]
			if one == list[i] {
				break
			}
			list[i] = one
		}
	}
	key := strings.Join(list, " ")
	if frozen {
		key += frozenItem
	}
	return Item(key)
}

// Frozen reports whether the item is bought frozen.
func (t Item) Frozen() bool { return strings.HasSuffix(string(t), frozenItem) }

// Good is what the hosts have said about an item that is bought, for all dishes that want it and for none.
type Good struct {
	Item Item   `json:"item"`
	Name string `json:"name"`
	// what of it is in the house, as measure.Parse reads it; [Enough]: whatever is wanted
	Have    string    `json:"have,omitempty"`
	Extra   string    `json:"extra,omitempty"`   // wanted for no dish, by the arrival: an amount, or [AsNeeded]
	Shop    string    `json:"shop,omitempty"`    // where it is bought, whatever the dishes say
	Section string    `json:"section,omitempty"` // where it stands there
	Packs   []Pack    `json:"packs,omitempty"`   // the sizes in which it is sold; none: by the piece or by weight
	Price   string    `json:"price,omitempty"`   // decimal: of Per
	Per     string    `json:"per,omitempty"`     // what Price is for: "kg", "100 g"; empty: one of it
	Brings  PersonKey `json:"brings,omitempty"`  // who brings it along, so that it is on no trip
}

// Words of a Good that are no amounts.
const (
	Enough   = "enough"
	AsNeeded = "as needed"
)

// Pack is a size in which something is sold.
type Pack struct {
	Size  string `json:"size"`            // an amount: "250 g", "6"
	Price string `json:"price,omitempty"` // decimal; empty: nobody has said
}

// Purchase is what has been bought of one item.
type Purchase struct {
	Item Item   `json:"item"`
	Name string `json:"name"`
	Got  []Got  `json:"got"` // at least one
}

// Got is one time that something was bought.
type Got struct {
	Amounts []string  `json:"amounts,omitempty"` // as measure.Parse reads them; none: nobody has said how much
	Trip    ChoreKey  `json:"trip,omitempty"`    // on which way to the shop; empty: on none
	By      PersonKey `json:"by,omitempty"`
	Paid    string    `json:"paid,omitempty"`  // decimal, for all of it
	Taken   bool      `json:"taken,omitempty"` // nobody ticked it off: the trip was over
	Used    bool      `json:"used,omitempty"`  // not bought, but used before anybody said that any was bought
}

// Good finds what was said about an item; nil when nothing was.
func (p *Party) Good(t Item) *Good {
	for i := range p.Goods {
		if p.Goods[i].Item == t {
			return &p.Goods[i]
		}
	}
	return nil
}

// Purchased finds what was bought of an item; nil when nothing was.
func (p *Party) Purchased(t Item) *Purchase {
	for i := range p.Bought {
		if p.Bought[i].Item == t {
			return &p.Bought[i]
		}
	}
	return nil
}

// PutInto adds what was bought to a stock.
func (g *Got) PutInto(s *measure.Stock) {
	if len(g.Amounts) == 0 {
		s.Some = true
	}
	for _, text := range g.Amounts {
		if q, err := measure.ParseWhole(text); err == nil {
			s.Put(q)
		} else {
			s.Some = true
		}
	}
}

// TripOver reports whether nothing more is bought on a way to a shop: it was made, and what was bought on it
// has been noted, or there is no such task any more.
func (p *Party) TripOver(k ChoreKey) bool {
	if k == "" || p.Chore(k) == nil {
		return true
	}
	w := p.WorkOn(ChoreTask(k))
	return w != nil && w.Progress == Done && w.Noted
}
