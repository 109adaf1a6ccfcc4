package trace

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/portion"
	"tureen/planner/safety"
)

// Part is one food in a dish, as it is after a step.
type Part struct {
	Name   string // "chicken thighs", as the dish has it
	Class  *food.Class
	Kind   safety.Kind // for the published limits; [safety.None] for what keeps
	Grams  float64     // of the dish's amounts; 0 where nobody knows
	Half   bool        // raw animal food that has met heat and is not cooked through
	Cooked bool        // it was cooked through in the dish, or was bought so
	Known  bool        // its kind follows from its words, or was said
	Whole  bool        // it is as it was bought, uncut or unopened
	Said   bool        // it stands for what somebody said that a step leaves
	loose  bool        // raw animal food that no step names, and that none has done anything to
	aside  bool        // it waits beside what is being done
	kept   bool        // it became bread or a preserve, which no further heat makes spoil
	food   string      // its own name in the table of foods
	group  string      // what it was bought as: meat, fish
}

func (p *Part) role() role { return data().roles[p.Class] }

// histamine says whether the part is fish that forms what no cooking takes away.
func (p *Part) histamine() bool { return slices.Contains(data().histamine, p.food) }

// renews says whether first cooking makes the food's time on the counter begin anew: raw meat, fish and what is cut. It
// does not for what grows spores or poisons that cooking leaves.
func (p *Part) renews() bool {
	produce := p.Kind == safety.CutProduce || p.Kind == safety.Sprouts
	return p.Kind == safety.None || !p.Cooked && !p.Said && (p.Kind.Raw() || produce) && !p.histamine()
}

// partsOf are the foods of an ingredient, for the caller to change.
func partsOf(in *planner.Ingredient) []Part { return slices.Clone(ingredients.Of(*in, readParts)) }

func readParts(in planner.Ingredient) []Part {
	name := in.Name
	if in.Amount != "" && read(in.Amount).any[tinned] {
		name = "tinned " + name
	}
	kind, known := food.KindOf(name)
	var out []Part
	for _, f := range named(name) {
		out = append(out, partOf(in.Name, f))
	}
	switch {
	case in.Kind != "":
		if len(out) == 0 || out[0].Kind == safety.None || !known {
			out = []Part{{Name: in.Name, Kind: in.Kind, Known: true, Cooked: !in.Kind.Raw()}}
		}
	case !known && !slices.ContainsFunc(out, func(p Part) bool { return p.Kind.Raw() }):
		out = []Part{{Name: in.Name, Kind: safety.Cooked}}
	case known && len(out) > 1:
		// What stands beside the noun ("in oil", "with skin") says nothing where the noun is known.
		out = slices.DeleteFunc(out, func(p Part) bool { return p.Kind != kind && !p.Kind.Raw() && p.Kind != safety.None })
	}
	if len(out) > 0 {
		out[0].Grams = weight(&in, &out[0])
	}
	return out
}

// Weights of what nobody has weighed: a little where no amount is given, and more than anything else where one is that
// no table knows.
const (
	littleGrams  = 15
	unknownGrams = 1e6
	bunchGrams   = 300 // of roots and leaves, a large one; common practice, no source
)

// weight is how much there is of an ingredient, in grams.
func weight(in *planner.Ingredient, p *Part) float64 {
	if g, ok := portion.Grams(in); ok {
		return g
	}
	q, err := measure.ParseWhole(in.Amount)
	if in.Amount == "" || err != nil || q.IsZero() {
		if in.Amount == "" {
			return littleGrams
		}
		return unknownGrams
	}
	n, _ := q.High().Float64()
	if ml, err := q.Convert(measure.Millilitre); err == nil {
		n, _ = ml.High().Float64()
		return n // as water
	}
	if q.Unit().Kind() == measure.Count && p.Class != nil {
		if p.Class.Name == "eggs" || p.Class.Name == "raw-egg" {
			return n * eggGrams
		}
		if each := p.pieceGrams(in.Name); q.Unit() == measure.Each && each > 0 {
			return n * each
		}
		if q.Unit().Name(false) == "bunch" && p.role() == "vegetable" {
			return n * bunchGrams
		}
	}
	if s := p.role(); s == "leaven" || s == "season" || s == "herb" || p.food == "garlic" {
		return littleGrams
	}
	return unknownGrams
}

func partOf(name string, f food.Food) Part {
	p := Part{Name: name, Class: f.Class, Kind: f.Kind(), Known: true, food: f.Name, group: f.Class.Group}
	p.Cooked = p.Kind != safety.None && !p.Kind.Raw() && (f.Class.Group == "made" || f.Is("cooked"))
	return p
}

// pieceGrams is what one of a food weighs trimmed, as it goes into the pot; 0 where the table does not say.
func (p *Part) pieceGrams(name string) float64 {
	f, _ := food.Find(name)
	one := f.Piece()
	if one == nil || one.Refuse == nil {
		return 0
	}
	g := one.Edible
	if g == nil {
		g = one.AsBought
	}
	if g == nil {
		return 0
	}
	n, _ := g.Float64()
	return n
}

// bought says whether the part came into the dish as cooked meat or fish: "the chicken" of a step is then that.
func (p *Part) bought() bool {
	return p.Class != nil && slices.Contains([]string{"cooked-meat", "roast-joint", "roast-bird", "cooked-fish",
		"cooked-shellfish"}, p.Class.Name)
}

// joint is the raw joint that somebody means who lists roast beef and has it roasted.
func (p *Part) joint(d *planner.Dish) {
	if p.Class == nil || p.Class.Name != "roast-joint" {
		return
	}
	for i := range d.Steps {
		if s := &d.Steps[i]; read(s.Do).do[bakes] && heatOf(s, nil) == throughly {
			p.Class, _ = food.ClassOf("raw-meat")
			p.Kind, p.Cooked, p.group = p.Class.Kind, false, p.Class.Group
		}
	}
}

// eggGrams is what an egg weighs without its shell: USDA National Nutrient Database SR28, NDB 01123, large, 50 g.
const eggGrams = 50

// staysWhole says whether nothing was ordered but to handle a food, or to wash one whose skin keeps the water off.
func (p *Part) staysWhole(do map[role]bool) bool {
	skin := p.Class.Group == "fruit" || p.Class.Name == "tender-produce"
	for r := range do {
		if r != handles && !(r == washes && skin) && r != tops && r != counter && r != refrigerator && r != leaving {
			return false
		}
	}
	return do[handles] || do[washes]
}

// swells are the classes that spoil once they are soaked, beside rice.
var swells = []string{"dry-pulses", "grains", "pasta", "potato", "dried-vegetable"}

// wet makes what is dry spoil once it is soaked, or pulses once they are ground: nobody grinds them dry.
func (p *Part) wet(do said) {
	if p.Class == nil || p.Kind != safety.None {
		return
	}
	soaked := do.any[soaks] || do.any[water]
	if soaked && (p.Class.Cooked.Kind == safety.Rice || slices.Contains(swells, p.Class.Name)) ||
		do.do[pulps] && p.Class.Name == "dry-pulses" {
		p.Kind = safety.Cooked
	}
}

// Names says whether a step's words name an ingredient, by its own name, by a word for all such ("the fish"), or, where
// nobody knows it, by one of its words.
func Names(do string, in *planner.Ingredient) bool {
	own, words := named(in.Name), wordsOf(in.Name)
	for _, f := range named(do) {
		for _, o := range own {
			if f.Name == o.Name || f.Class == o.Class && (f.Generic() || within(f.Said(), words) ||
				within(o.Said(), wordsOf(f.Said()))) {
				return true
			}
		}
	}
	if len(own) > 0 {
		return false
	}
	words = wordsOf(do)
	for _, w := range wordsOf(in.Name) {
		if len(w) > 3 && slices.Contains(words, w) {
			return true
		}
	}
	return false
}

// namesPart says whether a step's words name a part's class of food.
func namesPart(do string, p *Part) bool {
	return slices.ContainsFunc(named(do), func(f food.Food) bool { return f.Class == p.Class })
}

// within says whether all words of a name are among others.
func within(name string, words []string) bool {
	return !slices.ContainsFunc(wordsOf(name), func(w string) bool { return !slices.Contains(words, w) })
}

// spoken are the foods that a step's words name by themselves, for a dish that lists none; with a list only animal
// food counts that is not on it, since "the sauce" was made before. What is there already does not come once more: the
// lamb that rests is the one that was roasted.
func spoken(do string, listed, there []Part) []Part {
	var out []Part
	for _, f := range named(do) {
		group := f.Class.Group
		is := func(p Part) bool {
			return p.food == f.Name || f.Generic() && p.group == group || p.bought() && within(f.Said(), wordsOf(p.Name))
		}
		if slices.ContainsFunc(there, is) || slices.ContainsFunc(listed, is) {
			continue
		}
		if len(listed) > 0 && (!strings.Contains("meat fish egg dairy", group) ||
			slices.ContainsFunc(listed, func(p Part) bool { return p.Class != nil && p.Class.Group == group })) {
			continue
		}
		out = append(out, partOf(f.Name, f))
	}
	return out
}
