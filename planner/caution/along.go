package caution

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// The terms that look along the steps of a dish.

// before are the steps of the dish that food comes from, with the step itself.
func (x *scene) before() []*scene {
	out := []*scene{x}
	for i := 0; i < len(out); i++ {
		for _, a := range out[i].s.After {
			from := x.k.scene(a.Step)
			if from != nil && !a.FromStart && (a.Dish == "" || a.Dish == x.k.dish.Key) && !slices.Contains(out, from) {
				out = append(out, from)
			}
		}
	}
	return out
}

// after are the steps that the food goes on to.
func (x *scene) after() []*scene {
	var out []*scene
	add := func(from *scene) {
		for _, l := range from.later {
			if !slices.Contains(out, l.to) {
				out = append(out, l.to)
			}
		}
	}
	add(x)
	for i := 0; i < len(out); i++ {
		add(out[i])
	}
	return out
}

const (
	heldMinutes   = 120         // from when food that is put together ahead is put together ahead
	warmMinutes   = 60          // rice: UK Food Standards Agency, cool within 1 h
	freezeMinutes = 7 * 24 * 60 // FDA Food Code 2022, 3-402.11
)

// held says whether the food may lie for hours before it is heated.
func (x *scene) held(string) bool {
	for _, y := range append([]*scene{x}, x.after()...) {
		if y.l.Hot {
			continue
		}
		if y.s.Time.Likely >= heldMinutes && y != x || y != x && has(y.words, "ahead") {
			return true
		}
		for _, l := range y.later {
			if long(l.wait, heldMinutes) {
				return true
			}
		}
	}
	return false
}

// Heat that is over so soon, and that heat of so many minutes at least ends, cooks no raw meat to the middle; our own
// figures, no source.
const (
	briefMinutes = 4
	endsMinutes  = 8
)

// brief says whether raw food of a set meets heat only for moments, and is cooked later in earnest.
func (x *scene) brief(of string) bool {
	return x.l.Hot && x.s.Time.Likely > 0 && x.s.Time.Likely <= briefMinutes &&
		slices.ContainsFunc(x.l.In, func(p trace.Part) bool { return raw(&p) && in(&p, of) && in(&p, "whole-cuts") }) &&
		slices.ContainsFunc(x.after(), func(y *scene) bool {
			return y.l.Hot && y.s.Time.Likely >= endsMinutes && !has(y.words, "reheats")
		})
}

// A large piece has not thawed in the refrigerator in less than a day for each 5 lb, the quick end of what the chart
// says; smaller ones are what a night is for.
const quickGrams = 5 * 453.592

// thawsShort says whether a step thaws a large piece in the refrigerator in less time than it can.
func (x *scene) thawsShort(string) bool {
	if x.s.ThawsBy() != safety.InRefrigerator {
		return false
	}
	has := x.s.Time.Likely
	for _, l := range x.later {
		if l.wait.State == planner.Refrigerator {
			has += max(l.wait.Least, 0)
		}
	}
	return slices.ContainsFunc(x.k.dish.Ingredients, func(i planner.Ingredient) bool {
		as := food.ThawingOf(i.Name + " " + i.Note)
		if as.How != food.InOne || !x.thaws(i.Name) {
			return false
		}
		grams := float64(as.Grams)
		for _, p := range x.l.Parts {
			if p.Name == i.Name && p.Grams > 0 && p.Grams <= safety.MaxThawGrams {
				grams = p.Grams
			}
		}
		if i.Grams > 0 {
			grams = float64(i.Grams)
		}
		return grams > quickGrams && float64(has) < grams/quickGrams*24*60
	})
}

// thaws says whether the step is the one that thaws an ingredient.
func (x *scene) thaws(name string) bool {
	d := x.k.dish
	i := slices.IndexFunc(d.Ingredients, func(in planner.Ingredient) bool { return in.Name == name })
	s := d.Thawer(&d.Ingredients[i])
	return s != nil && s.Key == x.s.Key
}

// itself says whether a step's words name the dish itself: by the last word of its name.
func (x *scene) itself() bool {
	name := food.Words(x.k.dish.Name)
	if len(name) == 0 {
		return false
	}
	last := name[len(name)-1]
	if f, known := food.Find(last); known && f.Class.Group != "made" {
		return false // the rice of yesterday is only an ingredient of fried rice
	}
	return slices.Contains(food.Words(x.s.Do), last)
}

// frozen says whether the fish was bought frozen, or is frozen long enough here.
func (x *scene) frozen(string) bool {
	if has(x.k.words, "still-frozen") {
		return true
	}
	for _, y := range x.before() {
		if has(y.words, "still-frozen") || y.s.Where == planner.Freezer && y.s.Time.Likely >= freezeMinutes {
			return true
		}
		for _, w := range y.waits() {
			if w.State == planner.Freezer && w.Least >= freezeMinutes {
				return true
			}
		}
	}
	return false
}

// boiled says whether food of a set has boiled by the end of the step, as far as words tell.
func (x *scene) boiled(of string) bool {
	return slices.ContainsFunc(x.before(), func(y *scene) bool {
		return has(y.words, "boils") && (of == "" || y.had(of))
	})
}

// endsSo says that the food is served, and that nothing heats it on the way: it is eaten as it is then.
func (x *scene) endsSo(string) bool {
	to := append(x.after(), x)
	return slices.ContainsFunc(to, (*scene).served) &&
		!slices.ContainsFunc(to, func(y *scene) bool { return y != x && y.l.Hot })
}

func (x *scene) everHot(string) bool {
	return slices.ContainsFunc(x.before(), func(y *scene) bool { return y.l.Hot })
}

func (x *scene) hotLater(string) bool {
	return x.l.Hot || slices.ContainsFunc(x.after(), func(y *scene) bool { return y.l.Hot })
}

// neverHot says whether food of a set is there that no step has heated since it came in.
func (x *scene) neverHot(of string) bool {
	for i := range x.l.Parts {
		p := &x.l.Parts[i]
		if in(p, of) && !slices.ContainsFunc(x.before(), func(y *scene) bool {
			return y.l.Hot && slices.ContainsFunc(y.l.Parts, func(o trace.Part) bool { return o.Name == p.Name })
		}) {
			return true
		}
	}
	return false
}

// lukewarm says whether hot food waits below the temperature of hot holding for longer than rice may.
func (x *scene) lukewarm(string) bool {
	return slices.ContainsFunc(x.waits(), func(w planner.Wait) bool {
		return w.State == planner.Warm || w.State == planner.Counter && (w.Least > warmMinutes || w.Longest > warmMinutes)
	})
}

// reheats counts how often food that was cooked has come out of the cold and been heated by the end of a step, and says
// whether it has been in the cold since. A dish that it is cooked into with something new is another food.
func (x *scene) reheats(seen []*scene) (n int, chilled bool) {
	if slices.Contains(seen, x) {
		return 0, false // a circle, which validation names
	}
	seen = append(slices.Clone(seen), x)
	var came []trace.Part
	for _, a := range x.s.After {
		from := x.k.scene(a.Step)
		if from == nil || a.FromStart || a.Dish != "" && a.Dish != x.k.dish.Key {
			continue
		}
		came = append(came, from.l.Parts...)
		m, c := from.reheats(seen)
		n = max(n, m)
		chilled = chilled || c || cold(a.Wait.State) && slices.ContainsFunc(from.l.Parts, spoiltCooked)
	}
	anew := slices.ContainsFunc(x.l.In, func(p trace.Part) bool {
		isNew := !slices.ContainsFunc(came, func(o trace.Part) bool { return o.Name == p.Name })
		return raw(&p) && !p.Said || p.Class != nil && isNew &&
			!slices.Contains([]string{"spice", "fat", "drink", "herb"}, p.Class.Group)
	})
	switch {
	case !x.l.Hot:
		return n, chilled || x.inCold() && slices.ContainsFunc(x.l.In, spoiltCooked)
	case anew:
		return 0, false
	case chilled && slices.ContainsFunc(x.l.In, spoiltCooked):
		return n + 1, false
	}
	return n, chilled
}

func spoiltCooked(p trace.Part) bool { return p.Cooked && p.Kind != safety.None }

func (x *scene) reheatedTwice(string) bool {
	n, _ := x.reheats(nil)
	return n > 1
}

// usedMarinade says whether what raw meat or fish lay in goes onto food that is cooked, unboiled.
func (x *scene) usedMarinade(string) bool {
	said := place(x.words, "marinade", 0)
	if said < 0 || has(x.words, "reduces") || has(x.words, "unused") {
		return false
	}
	cooked := slices.ContainsFunc(x.before()[1:], func(y *scene) bool { return y.l.Hot && y.had("animal") })
	heats := place(x.words, "heats", 0)
	pours := place(x.words, "pours", 0)
	if heats >= 0 {
		pours = place(x.words, "pours", heats)
	}
	uses := pours >= 0 && (cooked || x.l.Hot && heats >= 0) || has(x.words, "bastes") && (cooked || x.l.Hot)
	if !uses {
		return false
	}
	lay := false
	for _, y := range x.k.all[:x.at+1] {
		mentions := has(y.words, "marinade")
		if mentions && y != x && has(y.words, "reduces") {
			return false
		}
		if !lay && mentions && has(y.words, "reserves") && (has(y.words, "portion") || !y.out("animal", raw)) && y != x {
			return false // kept back before the meat went in
		}
		soaks := has(y.words, "marinates") || y != x && !y.l.Hot && len(y.l.In) > 1
		lay = lay || soaks && slices.ContainsFunc(y.l.In, func(p trace.Part) bool {
			return raw(&p) && in(&p, "animal")
		})
	}
	return lay
}

// tinned says whether food of a set is bought cooked, in a tin or a jar.
func (x *scene) tinned(of string) bool {
	return slices.ContainsFunc(x.k.dish.Ingredients, func(i planner.Ingredient) bool {
		return has(read(i.Amount+" "+i.Name+", "+i.Note), "tinned") && slices.ContainsFunc(food.All(i.Name),
			func(f food.Food) bool { return in(&trace.Part{Name: i.Name, Class: f.Class, Kind: f.Kind()}, of) })
	})
}

// lowC is below which an oven warms poultry slowly. The authorities' figure is far higher; kitchens that roast low do
// it from about here: our own choice, no source.
const lowC = 110

// lowOven says whether raw food of a set goes into an oven that hardly cooks: by its setting, or by "at 90 °C".
func (x *scene) lowOven(of string) bool {
	if !x.l.Hot || !slices.ContainsFunc(x.l.In, func(p trace.Part) bool { return raw(&p) && in(&p, of) }) {
		return false
	}
	low := slices.ContainsFunc(x.s.Uses, func(u planner.Use) bool {
		return u.What == planner.AnOven && u.C > 0 && u.C < lowC
	})
	if set := slices.ContainsFunc(x.s.Uses, func(u planner.Use) bool { return u.C > 0 }); !set && !has(x.words, "middle") {
		_, at, found := strings.Cut(x.s.Do, " at ")
		low = low || found && slices.ContainsFunc(degrees(at), func(c float64) bool { return c < lowC })
	}
	return low
}

// blendsHot says whether what was hot a moment ago goes into a closed blender.
func (x *scene) blendsHot(string) bool {
	blender := has(x.words, "blender") && !has(x.words, "stick")
	for _, u := range x.s.Uses {
		name := words.Fold(u.Name)
		blender = blender || u.What == planner.AnAppliance && strings.Contains(name, "blender") && !has(read(name), "stick")
	}
	if !blender {
		return false
	}
	for _, a := range x.s.After {
		from := x.k.scene(a.Step)
		w := a.Wait
		if from != nil && !a.FromStart && from.l.Hot && from.had("liquid") && (w.State == planner.Straight ||
			w.State == planner.HotHold || w.State == planner.Counter && w.Least < 20) {
			return true
		}
	}
	return x.l.Hot && x.had("liquid")
}

// mayWarm says of a dish that is brought, and of which nobody has said how it travels, whether it spoils on the way.
func (k *kitchen) mayWarm() bool {
	if how, way := trace.Journey(k.dish); k.dish.BroughtBy == "" || how != "" && (how != planner.Counter || way > 0) {
		return false // or it has been said how it travels
	}
	return k.trace.Warms(k.dish)
}

// brought says whether a row is about what is brought.
func (r *row) brought() bool {
	return slices.ContainsFunc(r.when, func(all []term) bool {
		return slices.ContainsFunc(all, func(c term) bool { return c.what == "brought" })
	})
}
