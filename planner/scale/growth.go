package scale

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/portion"
)

// Words that tell how an ingredient grows, in the singular. They are ours.
var (
	spices = words(`cumin cinnamon turmeric allspice cayenne nutmeg mace paprika cardamom saffron anise clove caraway fenugreek sumac
		peppercorn curry chilli chili chile mustard wasabi horseradish vanilla asafoetida`)
	groundSpices = words("coriander ginger pepper fennel garlic onion celery") // when ground, dried or seeds
	leavenings   = words("yeast bicarbonate")
	fats         = words("oil ghee lard dripping butter fat")
	frying       = words("fry fried deep-fry frying sauté saute brown")
	salted       = words("dough bread loaf brine cure cured curing pickle pickled pastry knead ferment rub flatbread focaccia pasta sauerkraut kimchi")
	birds        = words("chicken duck goose turkey hen partridge pheasant quail poussin")
)

// wholeUnits are sold and used whole.
var wholeUnits = []measure.Unit{"tin", "can", "jar", "packet", "package", "pack", "envelope", "sachet", "box", "carton", "container", "tub", "pot",
	"fillet", "piece", "sheet", "cube"}

func words(list string) []string { return strings.Fields(list) }

func anyOf(have, list []string) bool {
	return slices.ContainsFunc(have, func(w string) bool { return slices.Contains(list, w) })
}

// reason is why an ingredient does not grow in proportion.
type reason string

const (
	isEgg    reason = "egg"
	isWhole  reason = "whole"
	isSpice  reason = "spice"
	isLeaven reason = "leavening"
	isFat    reason = "fat"
	isSalt   reason = "salt"
	isSaid   reason = "said" // by the host
	isPlain  reason = ""
)

// GrowthOf says how an ingredient's amount follows the covers of its dish.
func GrowthOf(d *planner.Dish, in *planner.Ingredient) measure.Growth {
	switch why(d, in) {
	case isEgg, isWhole:
		return measure.Stepwise
	case isSpice, isLeaven, isFat, isSalt:
		return measure.Sublinear
	case isSaid:
		return map[planner.Grows]measure.Growth{planner.InWholeOnes: measure.Stepwise, planner.LessThanThat: measure.Sublinear}[in.Grows]
	}
	return measure.Linear
}

func why(d *planner.Dish, in *planner.Ingredient) reason {
	q, err := measure.ParseWhole(in.Amount)
	if err != nil || q.IsZero() {
		return isPlain
	}
	if in.Grows != planner.AsItsWordsTell {
		return isSaid
	}
	ws := portion.Words(in.Name)
	switch unit := q.Unit(); {
	case unit == measure.Each && slices.Contains(ws, "egg"):
		return isEgg
	case slices.Contains(wholeUnits, unit), unit == measure.Each && anyOf(ws, birds):
		return isWhole
	case unit == "clove" || unit == "bunch" || unit == "head" || unit == "sprig":
		return isPlain // cloves of garlic, a bunch of coriander
	}
	has := func(w ...string) bool { return anyOf(ws, w) }
	switch {
	case anyOf(ws, leavenings) && !has("extract"), has("baking") && has("powder", "soda"):
		return isLeaven
	case has("salt"):
		if anyOf(dishWords(d), salted) || hasFlour(d) || saltsIt(d) {
			return isPlain
		}
		return isSalt
	case anyOf(ws, spices) && !has("oil", "leaf", "leaves") && !bulky(q):
		return isSpice
	case anyOf(ws, groundSpices) && has("ground", "seed", "dried", "powder", "black", "white") && !bulky(q):
		return isSpice
	case anyOf(ws, fats) && fries(d, in):
		return isFat
	}
	return isPlain
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

// dishWords are the words of a dish's name and of all that is done.
func dishWords(d *planner.Dish) []string {
	out := portion.Words(d.Name)
	for i := range d.Steps {
		out = append(out, portion.Words(d.Steps[i].Do)...)
	}
	return out
}

func hasFlour(d *planner.Dish) bool {
	return slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool { return slices.Contains(portion.Words(in.Name), "flour") })
}

// saltsIt: meat that is salted ahead is cured by weight.
func saltsIt(d *planner.Dish) bool {
	return slices.ContainsFunc(d.Steps, func(s planner.Step) bool {
		return strings.HasPrefix(s.Do, "Salt ") && strings.Contains(s.Do, "refrigerator")
	})
}

// fries says whether the fat goes into a pan: the step that it is for says so or, where nobody has said which, any does.
func fries(d *planner.Dish, in *planner.Ingredient) bool {
	for i := range d.Steps {
		s := &d.Steps[i]
		if (in.Step == "" || in.Step == s.Key) && anyOf(portion.Words(s.Do), frying) {
			return true
		}
	}
	return false
}
