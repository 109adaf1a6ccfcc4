package shopping

import (
	"cmp"
	"math/big"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/propose"
	"tureen/planner/safety"
)

// List is what to buy, trip by trip in the order in which they are made, and what need not be bought.
type List struct {
	Trips   []Trip
	Brought []Line // somebody brings them: Line.Brings
	There   []Line // bought on trips that are over, or in the house by what was said of the thing
	Have    []Line // in the house by what the dishes say: look whether it is
	Over    []Line // bought, and no longer wanted
	Cost    Cost   // of all of it
}

// Trip is one way to a shop.
type Trip struct {
	Chore    planner.ChoreKey
	Shop     string // empty: wherever
	Start    time.Time
	End      time.Time         // zero without a plan, or when it is not in the plan
	Who      planner.PersonKey // who goes; empty without a plan
	Progress planner.Progress
	From, By time.Time // the days between which all of it keeps and is in time; From is zero when nothing hurries
	Sections []Section
	Cost     Cost // of what is still to be bought on it
}

// Section is a part of a shop.
type Section struct {
	Name  string
	Lines []Line
}

// Line is one thing to buy. Instants are zero without a plan.
type Line struct {
	Item      planner.Item
	Name      string             // in the singular or plural, as its amount has it
	Amounts   []measure.Quantity // the exact sums as bought, one for each kind of measure; none: as needed
	AsWritten []string           // amounts that nobody can add up
	For       []planner.DishKey  // the dishes that want it, in menu order; none: the party
	Notes     []string
	Optional  bool // for every dish that wants it
	Frozen    bool
	Loss      *food.Piece      // Amounts has what is trimmed away in it; nil: there is nothing
	Trimmed   measure.Quantity // the weight ready to cook, with Loss

	FirstUse  time.Time
	BuyBy     time.Time           // when the first task needs it: thawing and chilling count
	NotBefore time.Time           // bought earlier it would not keep until the last use; zero: it keeps
	Shelf     []*safety.ShelfLife // what is published about that

	Buy    Buy
	Cost   *big.Rat           // of what is still to be bought; nil: nobody has said a price
	Brings planner.PersonKey  // who brings it
	Got    []planner.Got      // what was bought of it
	Ticked bool               // nothing is left to buy
	Short  []measure.Quantity // what is still missing where some was bought; exact
	Used   bool               // it was used, and nobody said that it was bought

	section string
	used    []measure.Quantity // of the thing, and bought by nobody
}

// Of makes the party's list; plan may be nil.
func Of(p *planner.Party, plan *planner.Plan) List {
	m := maker{p: p, plan: plan, need: propose.ToBuy(p), metric: mostlyMetric(p)}
	m.prepare()
	var list List
	for i := range m.need.Trips {
		list.Trips = append(list.Trips, m.trip(&m.need.Trips[i]))
	}
	if plan != nil {
		slices.SortStableFunc(list.Trips, func(a, b Trip) int {
			return cmp.Or(cmp.Compare(unplanned(&a), unplanned(&b)), a.Start.Compare(b.Start))
		})
	}
	for i := range list.Trips {
		m.tick(&list.Trips[i])
	}
	list.Brought = m.lines(m.need.Brought)
	for i := range list.Brought {
		m.buy(&list.Brought[i])
		m.tickLine(&list.Brought[i])
	}
	list.There = m.lines(m.need.There)
	for i := range list.There {
		l := &list.There[i]
		l.Ticked = true
		l.Got = m.got(l.Item)
		l.Used = l.Used && len(l.Got) == 0
	}
	m.plan = nil
	list.Have = m.lines(m.need.Have)
	list.Over = m.over()
	list.Cost = m.costOf(&list)
	return list
}

func unplanned(t *Trip) int {
	if t.Start.IsZero() {
		return 1
	}
	return 0
}

// maker makes one list.
type maker struct {
	p      *planner.Party
	plan   *planner.Plan
	need   propose.Buying
	placed map[planner.TaskKey]*planner.Placed
	dishes map[planner.DishKey]*planner.Dish
	goods  map[planner.Item]*planner.Good
	bought map[planner.Item]*planner.Purchase
	ticks  map[planner.Item]*measure.Stock     // what was bought on trips that are not over
	used   map[planner.Item][]measure.Quantity // what was used and bought by nobody
	places int                                 // behind the point of a price
	metric bool                                // the list is in grams and litres
}

func (m *maker) prepare() {
	p := m.p
	m.dishes = make(map[planner.DishKey]*planner.Dish, len(p.Dishes))
	for i := range p.Dishes {
		m.dishes[p.Dishes[i].Key] = &p.Dishes[i]
	}
	if m.plan != nil {
		m.placed = make(map[planner.TaskKey]*planner.Placed, len(m.plan.Tasks))
		for i := range m.plan.Tasks {
			m.placed[m.plan.Tasks[i].Task] = &m.plan.Tasks[i]
		}
	}
	m.goods = make(map[planner.Item]*planner.Good, len(p.Goods))
	for i := range p.Goods {
		m.goods[p.Goods[i].Item] = &p.Goods[i]
	}
	m.bought = make(map[planner.Item]*planner.Purchase, len(p.Bought))
	m.ticks = map[planner.Item]*measure.Stock{}
	for i := range p.Bought {
		b := &p.Bought[i]
		m.bought[b.Item] = b
		for j := range b.Got {
			if g := &b.Got[j]; !p.TripOver(g.Trip) || m.brings(b.Item) {
				if m.ticks[b.Item] == nil {
					m.ticks[b.Item] = measure.NewStock(food.DensityOf(b.Name))
				}
				g.PutInto(m.ticks[b.Item])
			}
		}
	}
	m.places = placesOf(p)
	m.used = map[planner.Item][]measure.Quantity{}
	for i := range m.need.There {
		if it := &m.need.There[i]; it.Used {
			m.used[it.Item] = add(m.used[it.Item], it.Left)
		}
	}
}

func (m *maker) brings(t planner.Item) bool {
	g := m.goods[t]
	return g != nil && g.Brings != ""
}

func (m *maker) got(t planner.Item) []planner.Got {
	if b := m.bought[t]; b != nil {
		return b.Got
	}
	return nil
}

func (m *maker) trip(t *propose.Trip) Trip {
	trip := Trip{Chore: t.Chore, Shop: t.Shop, Progress: m.p.Progress(planner.ChoreTask(t.Chore))}
	if at := m.placed[planner.ChoreTask(t.Chore)]; at != nil {
		trip.Start, trip.End = at.Start, at.End
		if len(at.People) > 0 {
			trip.Who = at.People[0]
		}
	}
	if w := m.p.WorkOn(planner.ChoreTask(t.Chore)); w != nil && w.Person != "" {
		trip.Who = w.Person
	}
	lines := m.lines(t.Items)
	for i := range lines {
		l := &lines[i]
		m.buy(l)
		if l.NotBefore.After(trip.From) {
			trip.From = l.NotBefore
		}
		trip.By = sooner(trip.By, l.BuyBy)
	}
	trip.Sections = sectionsOf(lines)
	return trip
}

// tick takes off a trip what was bought on it, and sums up what the rest costs.
func (m *maker) tick(t *Trip) {
	for i := range t.Sections {
		for j := range t.Sections[i].Lines {
			l := &t.Sections[i].Lines[j]
			m.tickLine(l)
			t.Cost.line(l)
		}
	}
}

func (m *maker) tickLine(l *Line) {
	s := m.ticks[l.Item]
	got := m.got(l.Item)
	if s.Empty() {
		if slices.ContainsFunc(got, func(g planner.Got) bool { return !g.Used }) {
			l.Got, l.Short = got, l.Amounts // some of it was bought before, and this is what is wanted beside it
		}
		m.price(l)
		return
	}
	l.Got = got
	l.Ticked = true
	var short []measure.Quantity
	for _, q := range l.Amounts {
		if missing, met := s.Draw(q); !met {
			short, l.Ticked = append(short, missing), false
		}
	}
	if !l.Ticked {
		l.Short = short
		l.Name = measure.NameFor(l.Name, short...)
		l.Buy = m.buyOf(l, short)
		m.price(l)
	}
}

// over lists what was bought and is not wanted any more.
func (m *maker) over() []Line {
	if len(m.p.Bought) == 0 {
		return nil
	}
	wanted := map[planner.Item]bool{}
	note := func(items []propose.TripItem) {
		for i := range items {
			wanted[items[i].Item] = true
		}
	}
	for i := range m.need.Trips {
		note(m.need.Trips[i].Items)
	}
	note(m.need.Brought)
	note(m.need.There)
	var out []Line
	for i := range m.p.Bought {
		b := &m.p.Bought[i]
		if !wanted[b.Item] {
			l := Line{Item: b.Item, Name: b.Name, Got: b.Got, Ticked: true, Frozen: b.Item.Frozen()}
			out = append(out, l)
		}
	}
	return out
}

func sectionsOf(lines []Line) []Section {
	var out []Section
	at, size := map[string]int{}, map[string]int{}
	for i := range lines {
		size[lines[i].section]++
	}
	for i := range lines {
		name := lines[i].section
		k, ok := at[name]
		if !ok {
			k = len(out)
			at[name] = k
			out = append(out, Section{name, make([]Line, 0, size[name])})
		}
		out[k].Lines = append(out[k].Lines, lines[i])
	}
	slices.SortFunc(out, func(a, b Section) int { return cmp.Compare(a.Name, b.Name) })
	return out
}
