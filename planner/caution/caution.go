package caution

import (
	"slices"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// Caution is a warning that holds of a dish.
type Caution struct {
	Dish  planner.DishKey
	Key   string // "raw-fish": what somebody says that they know
	Title string // "raw fish", for a button
	Text  string // what is wrong, what to do instead, and who says so
	Short string // the same in a few words, for a list of what holds

	Refused    bool   // no plan is made while it holds
	Ingredient string // what it is of, where one ingredient is; of the dish as a whole it is empty

	Guest string // what it is to a guest under published advice

	risk, own string // how it stands with such a guest, and who says so where the row's own source does
}

// ForGuest is how a dish of which the warning holds stands with a guest under published advice, and who says so: sure
// where it is not for them as it is done. ok is false where it is nothing to them.
func (c Caution) ForGuest(advice safety.Diet, in safety.Country) (sure bool, source string, ok bool) {
	if source = AdviceTo(advice, in); c.risk == "" || source == "" {
		return false, "", false
	}
	if c.own != "" {
		source = c.own
	}
	return c.risk == "no", source, true
}

// AdviceTo is who publishes, in a country, what people of a sort are not to eat raw or underdone.
func AdviceTo(who safety.Diet, in safety.Country) string {
	by := data().advice[string(who)]
	if in == safety.UnitedKingdom {
		return by[0]
	}
	return by[1]
}

// Lion says whether a dish's eggs bear the mark with which the UK's authority lets them be eaten runny, and the party
// is in the UK.
func Lion(p *planner.Party, d *planner.Dish) bool {
	k := kitchen{party: p, trace: trace.OfDish(p, d), dish: d}
	k.scenes()
	return k.lion()
}

func (k *kitchen) lion() bool {
	return !k.unmarked && has(k.words, "lion") && k.country() == safety.UnitedKingdom
}

// MarkedEgg is the ingredient whose egg is raw or soft, and let be so by its mark alone; empty where there is none. The
// mark is worth nothing to who has a severely weak immune system.
func MarkedEgg(p *planner.Party, d *planner.Dish) string {
	if !Lion(p, d) {
		return ""
	}
	for _, c := range ofDish(&kitchen{party: p, trace: trace.OfDish(p, d), dish: d, complete: true, unmarked: true}) {
		if c.Key == "raw-egg" || c.Key == "soft-egg" {
			return c.Ingredient
		}
	}
	return ""
}

// Of lists what holds of a party's dishes, by dish and in the order of the table. Complete says that no more steps are
// to come: food that nothing more is done to is served then. It is pure.
func Of(p *planner.Party, complete bool) []Caution {
	return OfDishes(p, complete, func(*planner.Dish) bool { return true })
}

// OfDishes is [Of] for those dishes that are wanted.
func OfDishes(p *planner.Party, complete bool, wanted func(*planner.Dish) bool) []Caution {
	var out []Caution
	t := trace.Of(p)
	for i := range p.Dishes {
		d := &p.Dishes[i]
		if !wanted(d) {
			continue
		}
		out = append(out, ofDish(&kitchen{party: p, trace: t, dish: d, complete: complete})...)
	}
	return out
}

// OfDish is [Of] for a dish that may not be on the menu yet, with all its steps.
func OfDish(p *planner.Party, d *planner.Dish) []Caution {
	return ofDish(&kitchen{party: p, trace: trace.OfDish(p, d), dish: d, complete: true})
}

func ofDish(k *kitchen) []Caution {
	scenes := k.scenes()
	if k.dish.BroughtBy != "" { // how it is made is for who makes it; how it comes here is for the hosts
		scenes = []*scene{{k: k, s: &planner.Step{}, l: &trace.Leaves{}}}
	}
	var out []Caution
	for i := range data().rows {
		r := &data().rows[i]
		if (k.dish.BroughtBy != "") != r.brought() {
			continue
		}
		at := slices.IndexFunc(scenes, func(x *scene) bool { return x.holds(r.when) })
		if at < 0 {
			continue
		}
		k.held = append(k.held, r.key)
		in := k.country()
		c := Caution{Dish: k.dish.Key, Key: r.key, Title: r.title, Short: safety.InCountry(r.short, in), risk: r.risk,
			Text: safety.InCountry(r.says+" ("+r.source+")", in), Ingredient: k.ingredient(r),
			Refused: slices.ContainsFunc(scenes, func(x *scene) bool { return x.holds(r.when) && x.holds(r.refuses) })}
		if c.Guest = safety.InCountry(r.guest, in); c.Guest == "" {
			c.Guest = c.Short
		}
		if r.own {
			c.own = safety.InCountry(r.source, in)
		}
		out = append(out, c)
	}
	return out
}

func (k *kitchen) country() safety.Country { return k.party.AuthoritiesOf() }

// ingredient is the first one of the dish that a row speaks of by a sort of food.
func (k *kitchen) ingredient(r *row) string {
	for i := range k.dish.Ingredients {
		name := k.dish.Ingredients[i].Name
		for _, f := range food.All(name) {
			p := trace.Part{Name: name, Class: f.Class, Kind: f.Kind()}
			for _, all := range r.when {
				if slices.ContainsFunc(all, func(c term) bool { return !c.not && sorts(c.what) && in(&p, c.of) }) {
					return name
				}
			}
		}
	}
	return ""
}

// sorts says whether a term is of a sort of food.
func sorts(what string) bool {
	return slices.Contains([]string{"raw", "half", "under", "had", "of", "out", "raw-plant", "never-hot"}, what)
}

// holds says whether one of several alternatives is so at a step.
func (x *scene) holds(when [][]term) bool {
	return slices.ContainsFunc(when, func(all []term) bool {
		return !slices.ContainsFunc(all, func(c term) bool { return tests[c.what](x, c.of) == c.not })
	})
}

// News lists what holds now and did not before, of dishes whose hosts have not said that they know it, but for a guest
// at risk. What holds of a dish at all counts when such a guest has come.
func News(before, now *planner.Party) []Caution {
	old := map[planner.DishKey]*planner.Dish{}
	for i := range before.Dishes {
		old[before.Dishes[i].Key] = &before.Dishes[i]
	}
	risk := now.AtRisk() && !before.AtRisk()
	changed := func(d *planner.Dish) bool { return risk || old[d.Key] == nil || !same(old[d.Key], d) }
	if !slices.ContainsFunc(now.Dishes, func(d planner.Dish) bool { return changed(&d) }) {
		return nil
	}
	held := map[planner.DishKey][]string{}
	for _, c := range OfDishes(before, false, func(d *planner.Dish) bool {
		is := now.Dish(d.Key)
		return !risk && is != nil && changed(is)
	}) {
		held[c.Dish] = append(held[c.Dish], c.Key)
	}
	return slices.DeleteFunc(OfDishes(now, false, changed), func(c Caution) bool {
		return slices.Contains(held[c.Dish], c.Key) || Quiet(now, c)
	})
}

// Quiet says whether the hosts have said that they know a warning, and nobody at the table makes it matter more.
func Quiet(p *planner.Party, c Caution) bool {
	d := p.Dish(c.Dish)
	return d != nil && slices.Contains(d.Known, c.Key) && !p.AtRisk()
}

// Said lists what holds of the dishes and is not known.
func Said(p *planner.Party, complete bool, wanted func(*planner.Dish) bool) []Caution {
	return slices.DeleteFunc(OfDishes(p, complete, wanted), func(c Caution) bool { return Quiet(p, c) })
}
