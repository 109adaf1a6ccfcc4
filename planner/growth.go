package planner

import (
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/measure"
)

// Words of what is done that tell how an ingredient grows. They are ours.
var (
	frying = wordList("fry fried deep-fry frying sauté saute brown")
	salted = wordList("brine cure cured curing knead ferment rub")
)

// wholeUnits are sold and used whole.
var wholeUnits = []measure.Unit{"tin", "can", "jar", "packet", "package", "pack", "envelope", "sachet", "box", "carton",
	"container", "tub", "pot",
	"fillet", "piece", "sheet", "cube"}

func wordList(list string) []string { return strings.Fields(list) }

func hasAny(have, list []string) bool {
	return slices.ContainsFunc(have, func(w string) bool { return slices.Contains(list, w) })
}

// GrowReason is why an ingredient does not grow in proportion.
type GrowReason string

const (
	GrowsAsEggs   GrowReason = "egg"
	GrowsInWholes GrowReason = "whole"
	GrowsAsSpice  GrowReason = "spice"
	GrowsAsLeaven GrowReason = "leavening"
	GrowsAsFat    GrowReason = "fat"
	GrowsAsSalt   GrowReason = "salt"
	GrowsAsSaid   GrowReason = "said" // by the host
	GrowsPlainly  GrowReason = ""
)

// GrowthOf says how an ingredient's amount follows the covers of its dish.
func (d *Dish) GrowthOf(in *Ingredient) measure.Growth {
	switch d.WhyGrows(in) {
	case GrowsAsEggs, GrowsInWholes:
		return measure.Stepwise
	case GrowsAsSpice, GrowsAsLeaven, GrowsAsFat, GrowsAsSalt:
		return measure.Sublinear
	case GrowsAsSaid:
		return map[Grows]measure.Growth{InWholeOnes: measure.Stepwise, LessThanThat: measure.Sublinear}[in.Grows]
	}
	return measure.Linear
}

// WhyGrows says why an ingredient does not grow in proportion, by its words or the host's.
func (d *Dish) WhyGrows(in *Ingredient) GrowReason {
	q, err := measure.ParseWhole(in.Amount)
	if err != nil || q.IsZero() {
		return GrowsPlainly
	}
	if in.Grows != AsItsWordsTell {
		return GrowsAsSaid
	}
	f, _ := food.Find(in.Name)
	class := f.Class
	if class == nil {
		class = &food.Class{}
	}
	switch unit := q.Unit(); {
	case unit == measure.Each && (class.Name == "eggs" || class.Name == "raw-egg"):
		return GrowsAsEggs
	case slices.Contains(wholeUnits, unit), unit == measure.Each && class.Name == "raw-poultry":
		return GrowsInWholes
	case unit == "clove" || unit == "bunch" || unit == "head" || unit == "sprig":
		return GrowsPlainly // cloves of garlic, a bunch of coriander
	}
	switch {
	case class.Name == "leaven":
		return GrowsAsLeaven
	case class.Name == "salt":
		if d.isSalted() || d.hasFlour() || d.saltsIt() {
			return GrowsPlainly
		}
		return GrowsAsSalt
	case (class.Name == "spices" || f.Hot()) && !bulky(q):
		return GrowsAsSpice
	case (class.Name == "oil" || class.Name == "fat" || class.Name == "butter") && d.fries(in):
		return GrowsAsFat
	}
	return GrowsPlainly
}

// bulky is a spice by the handful: it is a vegetable then.
func bulky(q measure.Quantity) bool {
	g, err := q.Convert(measure.Gram)
	if err != nil {
		return false
	}
	low, _ := g.Low().Float64()
	return low > 100
}

// isSalted reports whether salt goes by weight in a dish: bread and dough, pickles, the water of pasta, a cure.
func (d *Dish) isSalted() bool {
	text := d.Name
	for i := range d.Steps {
		text += "; " + d.Steps[i].Do
	}
	return hasAny(measure.Words(text), salted) || slices.ContainsFunc(food.All(text), func(f food.Food) bool {
		switch f.Class.Name {
		case "pickles", "pasta", "fresh-pasta", "cooked-pasta":
			return true
		}
		return f.Class.Group == "bread" || f.Class.Group == "dough"
	})
}

func (d *Dish) hasFlour() bool {
	return slices.ContainsFunc(d.Ingredients, func(in Ingredient) bool {
		return slices.Contains(measure.Words(in.Name), "flour")
	})
}

// saltsIt: meat that is salted ahead is cured by weight.
func (d *Dish) saltsIt() bool {
	return slices.ContainsFunc(d.Steps, func(s Step) bool {
		return strings.HasPrefix(s.Do, "Salt ") && strings.Contains(s.Do, "refrigerator")
	})
}

// fries says whether the fat goes into a pan: the step that it is for says so or, where nobody has said which, any
// does.
func (d *Dish) fries(in *Ingredient) bool {
	for i := range d.Steps {
		s := &d.Steps[i]
		if (in.Step == "" || in.Step == s.Key) && hasAny(measure.Words(s.Do), frying) {
			return true
		}
	}
	return false
}

// Grown is an ingredient's amount for other covers.
type Grown struct {
	Exact  measure.Quantity // in proportion
	Amount measure.Quantity // as it is weighed, counted and bought; not rounded
	Note   string           // of [measure.Quantity.ScaleAs]
}

// hardlyLess is up to what difference an amount simply grows in proportion: nobody weighs spice so exactly.
const hardlyLess = 0.1

// WholeEggs is how far a whole number of eggs may be from the sum before one more is broken, and a part of it used.
const WholeEggs = 0.1

// Grow is an ingredient's amount q, which is for the covers that the dish serves, for others.
func (d *Dish) Grow(in *Ingredient, q measure.Quantity, covers int) (Grown, error) {
	if covers == d.Serves || covers < 1 || d.Serves < 1 {
		return Grown{Exact: q, Amount: q}, nil
	}
	exact, err := q.Scale(covers, d.Serves)
	if err != nil {
		return Grown{}, err
	}
	growth := d.GrowthOf(in)
	s, err := q.ScaleAs(growth, covers, d.Serves)
	switch {
	case err != nil:
		return Grown{Exact: exact, Amount: exact}, nil
	case growth == measure.Sublinear && exact.Off(s.Amount) <= hardlyLess:
		return Grown{Exact: exact, Amount: exact}, nil
	case d.WhyGrows(in) == GrowsAsEggs && exact.Off(s.Amount) > WholeEggs && !eggPart(in):
		if _, beaten, _ := measure.Eggs(exact); beaten > 0 {
			return Grown{Exact: exact, Amount: exact.Up(), Note: s.Note}, nil
		}
	}
	return Grown{Exact: exact, Amount: s.Amount, Note: s.Note}, nil
}

// eggPart says whether an ingredient is whites or yolks, of which none is beaten and divided.
func eggPart(in *Ingredient) bool {
	return strings.Contains(in.Name, "white") || strings.Contains(in.Name, "yolk")
}
