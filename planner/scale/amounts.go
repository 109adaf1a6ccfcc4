package scale

import (
	"fmt"
	"math"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
)

// Line is an ingredient at the covers that its dish is made for.
type Line struct {
	Amount string // as a cook weighs, spoons or counts it; "" to taste
	Was    string // for the covers that the dish serves; "" when the amount is the same
	Note   string // what a cook should know of it; "" when it simply grew in proportion
}

// Amounts are a dish's ingredients in its order, for the covers that it is made for at the party.
func Amounts(p *planner.Party, d *planner.Dish) []Line { return For(d, d.Makes(p)) }

// For is the dish's ingredients for so many covers.
func For(d *planner.Dish, covers int) []Line {
	out := make([]Line, len(d.Ingredients))
	for i := range d.Ingredients {
		out[i] = lineFor(d, &d.Ingredients[i], covers)
	}
	return out
}

func lineFor(d *planner.Dish, in *planner.Ingredient, covers int) Line {
	as := strings.TrimSpace(in.Amount)
	if as == "" || covers == d.Serves || covers < 1 || d.Serves < 1 {
		return Line{Amount: as}
	}
	q, err := measure.ParseWhole(as)
	if err != nil || q.IsZero() {
		return Line{Amount: as, Note: fmt.Sprintf("for %d covers: reckon it for %d", d.Serves, covers)}
	}
	grown, err := d.Grow(in, q, covers)
	if err != nil {
		return Line{Amount: as, Note: fmt.Sprintf("for %d covers; too much to reckon for %d", d.Serves, covers)}
	}
	exact, l := grown.Exact, Line{Was: as}
	if leaf(in.Name, grown.Amount) {
		grown.Amount = wholeOnes(grown.Amount)
	}
	l.Amount, l.Note = spoken(d, grown.Amount), grown.Note
	because := "taste, and add if it wants more"
	switch d.WhyGrows(in) {
	case planner.GrowsAsEggs:
		l.egg(exact, grown.Amount, in.Name)
		return l
	case planner.GrowsAsLeaven:
		because = "a larger dough rises as well with less"
	case planner.GrowsAsFat:
		because = "it covers the pan, not the food"
	}
	if d.GrowthOf(in) == measure.Sublinear && l.Note != "" {
		l.Note = fmt.Sprintf("less than in proportion, which would be %s: %s", spoken(d, exact), because)
	}
	return l
}

// leaf reports whether something is counted that nobody divides: a bay leaf, a cinnamon stick, a star anise.
func leaf(name string, q measure.Quantity) bool {
	f, ok := food.Find(name)
	return ok && !q.IsZero() && q.Unit().Kind() == measure.Count && (f.Class.Group == "herb" || f.Class.Group == "spice")
}

// wholeOnes is a number as whole ones, the nearest, and at least one.
func wholeOnes(q measure.Quantity) measure.Quantity {
	n, _ := q.High().Float64()
	whole, err := measure.New(int64(max(math.Round(n), 1)), 1, q.Unit())
	if err != nil {
		return q
	}
	return whole
}

// manySpoons is from how many tablespoons on a cook who weighs takes the measuring jug.
const manySpoons = 6

// spoken is an amount as a cook says it: rounded, and many tablespoons in millilitres where the dish is otherwise in
// grams.
func spoken(d *planner.Dish, q measure.Quantity) string {
	r := noEighths(q.Round()).Round()
	if spoons, err := q.Convert(measure.Tablespoon); err == nil && q.Unit().System() != measure.Metric && isMetric(d) {
		n, _ := spoons.Low().Float64()
		if (n >= manySpoons || r.Unit() == measure.Cup) && isSpoon(q.Unit()) {
			if ml, err := q.Convert(measure.Millilitre); err == nil {
				return ml.Round().String()
			}
		}
	}
	if n, _ := r.Low().Float64(); n >= manySpoons && isSpoon(r.Unit()) && q.Unit().System() == measure.Metric {
		if ml, err := q.Convert(measure.Millilitre); err == nil {
			return ml.Round().String() // of a metric cup or spoon
		}
	}
	return r.String()
}

// offForQuarters is how far an amount may be moved so that it comes to quarters of a spoon.
const offForQuarters = 0.07

// noEighths takes more than a spoon with an eighth to the nearest quarter, where that is near enough: nobody has 2⅞
// spoons.
func noEighths(q measure.Quantity) measure.Quantity {
	low := q.Low()
	if q.IsRange() || q.Unit().Kind() != measure.Volume || low.Denom().Int64() != 8 || low.Num().Int64() < 8 {
		return q
	}
	for _, num := range []int64{low.Num().Int64() + 1, low.Num().Int64() - 1} {
		if r, err := measure.New(num, 8, q.Unit()); err == nil && q.Off(r) <= offForQuarters {
			return r
		}
	}
	return q
}

// isMetric says whether a dish weighs in grams and litres: it has some, or at least no cups, ounces or pounds.
func isMetric(d *planner.Dish) bool {
	others := false
	for i := range d.Ingredients {
		q, err := measure.ParseWhole(d.Ingredients[i].Amount)
		if err != nil || q.IsZero() || q.Unit().Kind() == measure.Count || isSpoon(q.Unit()) {
			continue
		}
		if q.Unit().System() == measure.Metric {
			return true
		}
		others = true
	}
	return !others
}

func isSpoon(u measure.Unit) bool {
	return strings.HasSuffix(string(u), "tbsp") || strings.HasSuffix(string(u), "tsp")
}

// egg proposes what to do with a number of eggs that does not come out even.
func (l *Line) egg(exact, whole measure.Quantity, name string) {
	if exact.Off(whole) <= planner.WholeEggs || strings.Contains(name, "white") || strings.Contains(name, "yolk") {
		return
	}
	n, beaten, advice := measure.Eggs(exact)
	if beaten == 0 {
		l.Note = "by the sum " + exact.String()
		return
	}
	up, err := measure.New(int64(n+1), 1, measure.Each)
	if err != nil {
		return
	}
	l.Amount = up.String()
	sum, _ := exact.High().Float64()
	l.Note = fmt.Sprintf("by the sum %g: %s", math.Round(sum*100)/100, advice)
}

// Text is the line with its ingredient: "5.8 kg stewing beef (2 kg for 8)".
func (l *Line) Text(d *planner.Dish, name string) string {
	if q, err := measure.ParseWhole(l.Amount); err == nil && !q.IsZero() {
		name = measure.NameFor(name, q)
	}
	text := strings.TrimSpace(l.Amount + " " + name)
	if l.Was != "" {
		text += fmt.Sprintf(" (%s for %d", l.Was, d.Serves)
		if l.Note != "" {
			text += "; " + l.Note
		}
		return text + ")"
	}
	if l.Note != "" {
		text += " (" + l.Note + ")"
	}
	return text
}
