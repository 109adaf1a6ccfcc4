package caution

import (
	"slices"

	"tureen/planner"
	"tureen/planner/trace"
)

// Caution is a warning that holds of a dish.
type Caution struct {
	Dish  planner.DishKey
	Key   string // "raw-fish": what somebody says that they know
	Title string // "raw fish", for a button
	Text  string // what is wrong, what to do instead, and who says so
	Short string // the same in a few words, for a list of what holds
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
		if d.BroughtBy != "" || !wanted(d) {
			continue
		}
		out = append(out, ofDish(&kitchen{party: p, trace: t, dish: d, complete: complete})...)
	}
	return out
}

func ofDish(k *kitchen) []Caution {
	scenes := k.scenes()
	var out []Caution
	for i := range data().rows {
		r := &data().rows[i]
		if slices.ContainsFunc(scenes, func(x *scene) bool { return x.holds(r) }) {
			k.held = append(k.held, r.key)
			out = append(out, Caution{k.dish.Key, r.key, r.title, r.says + " (" + r.source + ")", r.short})
		}
	}
	return out
}

// holds says whether one of a row's alternatives is so at a step.
func (x *scene) holds(r *row) bool {
	return slices.ContainsFunc(r.when, func(all []term) bool {
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
