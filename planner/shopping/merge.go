package shopping

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/propose"
)

// piece is one want as it goes onto a list.
type piece struct {
	item      *propose.TripItem
	section   string
	note      string
	text      string // an amount that nobody can add up
	optional  bool
	use       time.Time
	notBefore time.Time
}

func (m *maker) piece(item *propose.TripItem) piece {
	x := piece{item: item}
	switch {
	case item.Dish != "":
		d := m.dishes[item.Dish]
		in := &d.Ingredients[item.Ingredient]
		x.section, x.note, x.optional, x.text = in.Section, in.Note, in.Optional, item.Text
		if makes := d.Makes(m.p); item.Text != "" && makes != d.Serves {
			x.text = fmt.Sprintf("%s for %d covers; you cook for %d", item.Text, d.Serves, makes)
		}
	case item.Drink >= 0:
		x.section = "drinks"
	}
	if g := m.goods[item.Item]; g != nil && g.Section != "" {
		x.section = g.Section
	}
	if m.plan == nil {
		return x
	}
	x.use = m.p.Arrival
	if at := m.placed[item.Use]; at != nil {
		x.use = at.Start
	} else if item.Use != "" {
		x.use = time.Time{} // not in the plan: nothing is known
		return x
	}
	if item.Keeps > 0 {
		x.notBefore = x.use.Add(-item.Keeps.Duration())
	}
	return x
}

// lines merges wants: what is the same thing is one line, and only where one purchase could not keep for all of
// its uses there is one more. The lines are sorted by name; in which order the wants come makes no difference.
func (m *maker) lines(items []propose.TripItem) []Line {
	if len(items) == 0 {
		return nil
	}
	pieces := make([]piece, len(items))
	for i := range items {
		pieces[i] = m.piece(&items[i])
	}
	by := make([]int, len(pieces))
	for i := range by {
		by[i] = i
	}
	slices.SortFunc(by, func(a, b int) int {
		x, y := &pieces[a], &pieces[b]
		if c := strings.Compare(string(x.item.Item), string(y.item.Item)); c != 0 {
			return c
		}
		return cmp.Or(x.use.Compare(y.use), a-b)
	})
	things := 1
	for i := 1; i < len(by); i++ {
		if pieces[by[i]].item.Item != pieces[by[i-1]].item.Item {
			things++
		}
	}
	lines := make([]Line, 0, things)
	for from := 0; from < len(by); {
		first := &pieces[by[from]]
		to, use := from+1, first.use // of some nothing is known: they go with the others
		for ; to < len(by) && pieces[by[to]].item.Item == first.item.Item; to++ {
			x := &pieces[by[to]]
			if !use.IsZero() && x.notBefore.After(use) {
				break
			}
			use = sooner(use, x.use)
		}
		group := by[from:to]
		slices.Sort(group) // the order of the menu
		lines = append(lines, m.line(pieces, group))
		from = to
	}
	return lines
}

// line makes one line of some wants of one thing.
func (m *maker) line(pieces []piece, group []int) Line {
	first := pieces[group[0]].item
	l := Line{Item: first.Item, Name: first.Name, Frozen: first.Item.Frozen(), Optional: true, used: m.used[first.Item]}
	if g := m.goods[l.Item]; g != nil {
		l.Brings = g.Brings
	}
	var sections map[string]int
	several := slices.ContainsFunc(group, func(i int) bool { return pieces[i].item.Name != first.Name })
	if several {
		l.Name = asBought(first)
	}
	for _, i := range group {
		x := &pieces[i]
		name := x.item.Name
		if several {
			name = asBought(x.item)
		}
		if better(name, l.Name) {
			l.Name = name
		}
		switch {
		case x.text != "":
			l.AsWritten = append(l.AsWritten, x.text)
		default:
			q := x.item.Left
			if x.item.Met {
				q = x.item.Amount
			}
			l.Amounts = add(l.Amounts, q)
		}
		if l.Loss == nil {
			l.Loss = x.item.Loss
		}
		if d := x.item.Dish; d != "" && !slices.Contains(l.For, d) {
			l.For = append(l.For, d)
		}
		if x.note != "" && !slices.Contains(l.Notes, x.note) {
			l.Notes = append(l.Notes, x.note)
		}
		l.Optional, l.Used = l.Optional && x.optional, l.Used || x.item.Used
		l.FirstUse = sooner(l.FirstUse, x.use)
		if x.notBefore.After(l.NotBefore) {
			l.NotBefore = x.notBefore
		}
		if s := x.item.Shelf; s != nil && !slices.Contains(l.Shelf, s) {
			l.Shelf = append(l.Shelf, s)
		}
		switch {
		case x.section == "":
		case len(group) == 1:
			l.section = x.section
		default:
			if sections == nil {
				sections = map[string]int{}
			}
			sections[x.section]++
		}
	}
	l.BuyBy = l.FirstUse
	for name, n := range sections {
		if best := sections[l.section]; l.section == "" || n > best || n == best && name < l.section {
			l.section = name
		}
	}
	l.Amounts = m.inOneSystem(l.Amounts, l.Name)
	slices.SortFunc(l.Amounts, byUnit)
	if l.Loss != nil {
		l.Trimmed = trimmedPart(pieces, group)
	}
	l.Name = measure.NameFor(l.Name, l.Amounts...)
	return l
}

// asBought is an item's name on a list with others of its kind: without its size, and eggs for their whites.
func asBought(item *propose.TripItem) string {
	name := planner.WithoutSize(item.Name, item.Amount)
	if planner.ItemOf(name, false) == item.Item || item.Item.Frozen() {
		return name
	}
	as, _ := planner.BoughtAs(item.Name, item.Amount)
	if planner.ItemOf(as, false) == item.Item {
		if item.Item == "olive oil" {
			return name // the better one serves for both
		}
		return as
	}
	return item.Name
}

// mostSpoons is from how many tablespoons on a shopper reads millilitres.
const mostSpoons = 6

// inOneSystem puts amounts by weight or volume into grams and millilitres where most of the list is in them. A few
// spoons stay, and what is counted.
func (m *maker) inOneSystem(amounts []measure.Quantity, name string) (out []measure.Quantity) {
	if !m.metric {
		return amounts
	}
	for _, q := range amounts {
		to := map[measure.Kind]measure.Unit{measure.Mass: measure.Gram, measure.Volume: measure.Millilitre}[q.Unit().Kind()]
		if to == "" || q.Unit().System() == measure.Metric && !isSpoon(q.Unit()) && !isCup(q.Unit()) {
			out = add(out, q)
			continue
		}
		if n, _ := q.High().Float64(); (isSpoon(q.Unit()) || isPinch(q.Unit())) && n < mostSpoons {
			out = add(out, q)
			continue
		}
		if same, err := q.Convert(to); err == nil {
			q = same
		}
		out = add(out, q)
	}
	return out
}

func isSpoon(u measure.Unit) bool {
	return strings.HasSuffix(string(u), "tbsp") || strings.HasSuffix(string(u), "tsp")
}

// isPinch says whether it is what fingers or a shake of the hand take: nobody measures that.
func isPinch(u measure.Unit) bool {
	return slices.Contains([]measure.Unit{"pinch", "dash", "smidgen"}, u)
}

func isCup(u measure.Unit) bool { return strings.HasSuffix(string(u), "cup") }

// mostlyMetric reports whether a party's dishes weigh in grams and litres: more of their amounts are in those than in
// others, spoons and cups apart.
func mostlyMetric(p *planner.Party) bool {
	metric, others := 0, 0
	for i := range p.Dishes {
		for k := range p.Dishes[i].Ingredients {
			q, err := measure.ParseWhole(p.Dishes[i].Ingredients[k].Amount)
			switch {
			case err != nil || q.IsZero() || q.Unit().Kind() == measure.Count || isSpoon(q.Unit()) || isCup(q.Unit()):
			case q.Unit().System() == measure.Metric:
				metric++
			default:
				others++
			}
		}
	}
	return metric > others
}

// byUnit orders amounts: counted, weighed, measured.
func byUnit(a, b measure.Quantity) int {
	return cmp.Or(cmp.Compare(rankOf(a.Unit().Kind()), rankOf(b.Unit().Kind())), cmp.Compare(a.Unit(), b.Unit()))
}

func rankOf(k measure.Kind) int {
	return slices.Index([]measure.Kind{measure.Count, measure.Mass, measure.Volume}, k)
}

// trimmedPart is the sum ready to cook of the wants that are meant so.
func trimmedPart(pieces []piece, group []int) measure.Quantity {
	var sum measure.Quantity
	for _, i := range group {
		it := pieces[i].item
		if it.Loss == nil {
			continue
		}
		ready, err := it.Left.Scale(100-it.Loss.Percent(), 100)
		if err != nil {
			continue
		}
		if s, err := sum.Add(ready); err == nil {
			sum = s
		}
	}
	return sum
}

// add sums an amount into those of its kind.
func add(sums []measure.Quantity, q measure.Quantity) []measure.Quantity {
	if q.IsZero() {
		return sums
	}
	for i := range sums {
		if sums[i].Adds(q) {
			if sum, err := sums[i].Add(q); err == nil {
				sums[i] = sum
				return sums
			}
		}
	}
	return append(sums, q)
}

// better prefers, of two spellings of one thing, the longer (the plural, mostly), then the first by the alphabet.
func better(a, b string) bool {
	if len(a) != len(b) {
		return len(a) > len(b)
	}
	return a < b
}

func sooner(a, b time.Time) time.Time {
	if a.IsZero() || !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}
