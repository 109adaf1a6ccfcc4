package portion

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
)

// Cover is what a cover gets of a dish's main food, beside what handbooks reckon.
type Cover struct {
	Food   string
	Kind   Kind
	Amount float64 // in Range.Unit
	Range  Range
}

// Text is the whole in a sentence for a host.
func (c Cover) Text() string {
	text := fmt.Sprintf("About %d %s %s a cover; handbooks: %s (%s)", roundCook(c.Amount), c.Range.Unit, c.Food, c.Range,
		strings.Join(c.Range.Sources, "; "))
	for _, n := range c.Range.Notes {
		text += "; " + n
	}
	return text + "."
}

// Warning is a sentence when the amount is far from the range; empty when it is not.
func (c Cover) Warning(dish string) string {
	switch c.Range.Far(c.Amount) {
	case -1:
		return fmt.Sprintf("%s has little %s: about %d %s a cover, where handbooks begin at %g %s, more than %g times as "+
			"much.",
			dish, c.Food, roundCook(c.Amount), c.Range.Unit, c.Range.Low, c.Range.Unit, FarFactor)
	case 1:
		return fmt.Sprintf("%s has much %s: about %d %s a cover, more than %g times the %g %s at which handbooks end.",
			dish, c.Food, roundCook(c.Amount), c.Range.Unit, FarFactor, c.Range.High, c.Range.Unit)
	}
	return ""
}

// Serves is for how many covers the dish's amounts are enough when a cover gets what the handbooks begin or end at,
// whichever is nearer to what it gets now; 0 where that is near enough.
func (c Cover) Serves(d *planner.Dish) int {
	total := c.Amount * float64(d.Serves)
	switch c.Range.Far(c.Amount) {
	case -1:
		return max(1, int(total/c.Range.Low+1e-9))
	case 1:
		return max(1, int(total/c.Range.High+1-1e-9))
	}
	return 0
}

// roundCook is to 5 from 20 on.
func roundCook(v float64) int {
	if v < 20 {
		return int(v + 0.5)
	}
	return int(v/5+0.5) * 5
}

// Of finds a dish's main food and what a cover gets of it: of what main courses are reckoned by the heaviest, else soup
// by its volume, else the heaviest of the rest. ok is false when no ingredient tells, when the course is none that the
// figures are for (meat in a starter), or when nothing is weighed.
func Of(p *planner.Party, d *planner.Dish) (c Cover, ok bool) {
	if d.Serves < 1 || PartyKind(p) == planner.Standing { // bites are counted in pieces
		return c, false
	}
	main := isMain(p, d.Course)
	if c, ok = soupOf(d, main); !ok {
		if c, ok = heaviest(d, main); !ok {
			return c, false
		}
	}
	others := 1
	for i := range p.Dishes {
		if o := &p.Dishes[i]; o.Key != d.Key && o.Course == d.Course {
			if x, ok := heaviest(o, true); ok && x.Kind.Protein() {
				others++
			}
		}
	}
	c.Range, ok = For(c.Kind, len(p.Courses), others)
	return c, ok
}

// heaviest sums a dish's foods by kind; those of a main course count only in one.
func heaviest(d *planner.Dish, main bool) (best Cover, ok bool) {
	var all []Cover
	protein := false
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		kind, food, known := KindOf(in.Name)
		if !known || in.Optional {
			continue
		}
		protein = protein || kind.Protein()
		grams, weighed := Grams(in)
		if !weighed {
			if kind.Protein() {
				return best, false // what counts most has no weight
			}
			continue
		}
		at := slices.IndexFunc(all, func(c Cover) bool { return c.Kind == kind })
		if at < 0 {
			all, at = append(all, Cover{Food: food, Kind: kind}), len(all)
		}
		all[at].Amount += grams / float64(d.Serves)
	}
	if protein && !main {
		return best, false
	}
	for _, c := range all {
		if (!protein || c.Kind.Protein()) && c.Amount > best.Amount {
			best, ok = c, true
		}
	}
	if best.Kind == Pasta && !main {
		best.Kind = PastaSide
	}
	return best, ok
}

// soupOf is a soup's volume by its last step that says one.
func soupOf(d *planner.Dish, main bool) (c Cover, ok bool) {
	if !slices.Contains(Words(d.Name), "soup") {
		return c, false
	}
	c = Cover{Food: "of soup", Kind: Soup}
	if main {
		c.Kind = SoupMain
	}
	for i := range d.Steps {
		if f := d.Steps[i].Leaves; f.Millilitres > 0 {
			c.Amount, ok = float64(f.Millilitres)/float64(d.Serves), true
		}
	}
	return c, ok
}

// isMain: the main course goes by its name; where only one course is served, by that.
func isMain(p *planner.Party, k planner.CourseKey) bool {
	c := p.Course(k)
	return c != nil && (len(p.Courses) == 1 || slices.Contains(Words(c.Name), "main") ||
		strings.HasPrefix(string(k), "main"))
}

// Grams is an ingredient's weight for Dish.Serves covers: as it is weighed, by its volume where package food knows its
// density, or by the piece where its note says what one weighs ("about 1.6 kg each"). Of a range it is the middle.
func Grams(in *planner.Ingredient) (grams float64, ok bool) {
	q, err := measure.ParseWhole(in.Amount)
	if err != nil || q.IsZero() {
		return 0, false
	}
	switch q.Unit().Kind() {
	case measure.Volume:
		w, err := measure.Weigh(q, food.DensityOf(in.Name), measure.Gram)
		if err != nil {
			return 0, false
		}
		q = w.Amount
	case measure.Count:
		each, ok := eachGrams(in)
		if !ok {
			return 0, false
		}
		return middle(q) * each, true
	}
	if q, err = q.Convert(measure.Gram); err != nil {
		return 0, false
	}
	return middle(q), true
}

func eachGrams(in *planner.Ingredient) (float64, bool) {
	if in.Frozen && in.Grams > 0 {
		return float64(in.Grams), true
	}
	note, about := strings.CutPrefix(strings.ToLower(strings.TrimSpace(in.Note)), "about ")
	if !about && !strings.Contains(note, "each") {
		return 0, false
	}
	q, rest, err := measure.Parse(note)
	if err != nil || q.IsZero() || q.Unit().Kind() != measure.Mass || !strings.Contains(rest, "each") {
		return 0, false
	}
	if q, err = q.Convert(measure.Gram); err != nil {
		return 0, false
	}
	return middle(q), true
}

func middle(q measure.Quantity) float64 {
	low, _ := q.Low().Float64()
	high, _ := q.High().Float64()
	return (low + high) / 2
}
