// Package shopping says what to buy for a party, where and by when.
//
// [Of] takes the trips that planner.Trips has found, scales every ingredient to the covers that its dish is
// made for, and adds up what is the same thing. What does not add up (2 tins and 400 g) stands side by side
// on one line; an amount that package measure cannot read stands as it was written. Nothing is left out:
// every ingredient is on exactly one line, and the tests count. With a plan each line knows when it is
// first used, by when it must be bought and before when it would be too old.
package shopping

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/measure"
)

// List is what to buy, trip by trip in the order in which they are made, and what to look for at home.
type List struct {
	Trips []Trip
	House []Line // said to be in the house: look whether it is
}

// Trip is one way to a shop.
type Trip struct {
	Chore    planner.ChoreKey
	Shop     string // empty: wherever
	Start    time.Time
	Who      planner.PersonKey // who goes; empty without a plan
	Sections []Section
}

// Section is a part of a shop.
type Section struct {
	Name  string
	Lines []Line
}

// Line is one thing to buy. Instants are zero without a plan.
type Line struct {
	Name      string
	Amounts   []measure.Quantity // the exact sums, one for each kind of measure; none: to taste
	AsWritten []string           // amounts that nobody can add up
	For       []planner.DishKey  // the dishes that want it, in menu order; none: a drink
	Notes     []string
	Optional  bool // for every dish that wants it
	Frozen    bool
	FirstUse  time.Time
	BuyBy     time.Time // when the first task needs it, or the trip is over
	NotBefore time.Time // bought earlier it would not keep until then; zero: it keeps
}

// Text is the amount as a shopper reads it: rounded as a cook does, counted things up to whole ones.
func (l *Line) Text() string {
	var parts []string
	for _, q := range l.Amounts {
		parts = append(parts, toBuy(q).String())
	}
	return strings.Join(append(parts, l.AsWritten...), " + ")
}

// toBuy rounds: nobody sells a quarter of an onion.
func toBuy(q measure.Quantity) measure.Quantity {
	if q.Unit().Kind() != measure.Count {
		if q.Unit() == measure.Gram || q.Unit() == measure.Millilitre {
			big := map[measure.Unit]measure.Unit{measure.Gram: measure.Kilogram, measure.Millilitre: measure.Litre}[q.Unit()]
			if r, err := q.Round().Convert(big); err == nil {
				if f, _ := r.Low().Float64(); f >= 1 {
					return r
				}
			}
		}
		return q.Round()
	}
	high := q.High()
	whole := (high.Num().Int64() + high.Denom().Int64() - 1) / high.Denom().Int64()
	if up, err := measure.New(whole, 1, q.Unit()); err == nil {
		return up
	}
	return q
}

// Of makes the party's list; plan may be nil.
func Of(p *planner.Party, plan *planner.Plan) List {
	var list List
	for _, t := range planner.Trips(p) {
		trip := Trip{Chore: t.Chore, Shop: t.Shop}
		var done time.Time
		if plan != nil {
			if at := plan.Placed(planner.ChoreTask(t.Chore)); at != nil {
				trip.Start, done = at.Start, at.End
				if len(at.People) > 0 {
					trip.Who = at.People[0]
				}
			}
		}
		var all []piece
		for _, item := range t.Items {
			all = append(all, pieceOf(p, plan, item, done))
		}
		trip.Sections = sectionsOf(all)
		list.Trips = append(list.Trips, trip)
	}
	if plan != nil {
		slices.SortStableFunc(list.Trips, func(a, b Trip) int { return a.Start.Compare(b.Start) })
	}
	var house []piece
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for j := range d.Ingredients {
			if d.Ingredients[j].InHouse {
				house = append(house, pieceOf(p, nil, planner.TripItem{Dish: d.Key, Ingredient: j, Drink: -1}, time.Time{}))
			}
		}
	}
	list.House = merge(house)
	return list
}

// piece is one ingredient or drink as it goes onto a list.
type piece struct {
	line    Line
	section string
}

func pieceOf(p *planner.Party, plan *planner.Plan, item planner.TripItem, done time.Time) piece {
	x := piece{section: "drinks"}
	var keeps planner.Minutes
	if item.Dish == "" {
		d := p.Drinks[item.Drink]
		x.line = Line{Name: d.Name}
		if q, err := measure.New(int64(d.Bottles), 1, "bottle"); err == nil {
			x.line.Amounts = []measure.Quantity{q}
		}
	} else {
		d := p.Dish(item.Dish)
		in := &d.Ingredients[item.Ingredient]
		x.section, keeps = in.Section, planner.Minutes(in.KeepDays)*24*60
		x.line = Line{Name: in.Name, For: []planner.DishKey{d.Key}, Optional: in.Optional, Frozen: in.Frozen}
		if in.Note != "" {
			x.line.Notes = []string{in.Note}
		}
		x.line.amount(in.Amount, d.Makes(p), d.Serves)
	}
	if plan == nil {
		return x
	}
	use := p.Arrival
	if at := plan.Placed(item.Use); at != nil {
		use = at.Start
	} else if item.Use != "" {
		return x // not in the plan: nothing is known
	}
	x.line.FirstUse, x.line.BuyBy = use, use
	if !done.IsZero() && done.Before(use) {
		x.line.BuyBy = done
	}
	if keeps > 0 && !x.line.Frozen {
		x.line.NotBefore = use.Add(-keeps.Duration())
	}
	return x
}

// amount sets a line's amount from a dish's text, scaled to the covers.
func (l *Line) amount(text string, makes, serves int) {
	if strings.TrimSpace(text) == "" {
		return
	}
	q, err := measure.ParseWhole(text)
	if err == nil && makes != serves && serves > 0 {
		q, err = q.Scale(makes, serves)
	}
	switch {
	case err == nil:
		l.Amounts = []measure.Quantity{q}
	case makes == serves:
		l.AsWritten = []string{text}
	default:
		l.AsWritten = []string{text + " " + forCovers(serves, makes)}
	}
}

func sectionsOf(all []piece) []Section {
	var names []string
	for _, x := range all {
		if !slices.Contains(names, x.section) {
			names = append(names, x.section)
		}
	}
	slices.SortFunc(names, func(a, b string) int { return cmp.Compare(a, b) })
	var out []Section
	for _, n := range names {
		var here []piece
		for _, x := range all {
			if x.section == n {
				here = append(here, x)
			}
		}
		out = append(out, Section{Name: n, Lines: merge(here)})
	}
	return out
}
