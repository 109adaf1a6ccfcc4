package recipe

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// kindOf is how an ingredient keeps by its words, raw, as it goes into a dish; known is false where no word tells.
// That is then taken for cooked food, the strict way to be wrong.
func kindOf(name string) (k safety.Kind, known bool) {
	if k, known = food.KindOf(name); !known {
		k = safety.Cooked
	}
	return k, known
}

// skeleton is the reading's dish with nothing said of its waits and of what its steps leave, and what food each step
// leaves by its ingredients and words.
func (r *Reading) skeleton(keys []planner.StepKey) (d planner.Dish, after [][]int, leaves []leaving) {
	d = planner.Dish{Key: "dish", Name: r.Title, Serves: max(r.Serves, 1)}
	after = r.Order()
	r.putAside()
	for i := range r.Steps {
		s := r.step(i, keys, planner.Food{})
		stand(&s)
		for _, a := range after[i] {
			s.After = append(s.After, planner.After{Step: keys[a], Aside: r.beside(i, a)})
		}
		d.Steps = append(d.Steps, s)
	}
	d.Ingredients = r.ingredients(keys)
	switch {
	case len(d.Steps) == 0:
	case r.Unlisted && !r.namedToKeep():
		for i := range d.Steps {
			d.Steps[i].Leaves = planner.Food{Perishable: true, Kind: safety.Cooked}
		}
	case r.keeps == "yes" && len(d.Ingredients) == 0:
		d.Steps[0].Leaves.Kind = safety.None
	case r.keeps == "no":
		last := &d.Steps[len(d.Steps)-1]
		last.Leaves = planner.Food{Perishable: true, Kind: safety.Cooked}
	}
	foods := trace.OfDish(&planner.Party{}, &d)
	for i := range d.Steps {
		l := foods.Leaves(d.Key, d.Steps[i].Key)
		left := leaving{Food: planner.Food{Perishable: l.Perishable, Kind: l.Kind(), PartCooked: l.PartCooked}, hot: l.Hot}
		if classes, known := foods.Made(&d, &d.Steps[i]); known {
			left.keeps, left.known = keepsAs(classes)
			left.sets, left.soaks = slices.ContainsFunc(classes, setsCold), slices.ContainsFunc(classes, inWater)
		}
		leaves = append(leaves, left)
	}
	return d, after, leaves
}

// leaving is what a step leaves, and how that waits where the table of waits knows its class.
type leaving struct {
	planner.Food
	hot   bool
	keeps planner.Wait
	known bool
	sets  bool // in the cold it sets, and is to be warmed before it can be used
	soaks bool // it waits in water, and is cooked out of that
}

// waitsFor says whether the table's wait holds before a step: what sets is not used cold, and what lies in water goes
// from there into a pot or pan, and not into milk or between layers, which want its starch.
func (r *Reading) waitsFor(l *leaving, next *Step) bool {
	creamy := slices.ContainsFunc(next.Parts, func(g int) bool {
		f, ok := food.Find(r.Ingredients[g].Name)
		return ok && (f.Class.Name == "milk" || f.Class.Name == "cream")
	})
	return l.known && !((l.sets || l.soaks) && next.Heat == "") && !(l.soaks && creamy)
}

// inWater says whether food of a class waits in water: potatoes that are cut.
func inWater(c *food.Class) bool {
	row, ok := food.WaitOf(c, string(planner.Refrigerator))
	return ok && strings.HasPrefix(row.Finish, "change the water")
}

// setsCold says whether food of a class is liquid only while it is warm: melted chocolate.
func setsCold(c *food.Class) bool {
	row, ok := food.WaitOf(c, string(planner.Refrigerator))
	return ok && row.Finish == "melt again"
}

// keepsAs is how food of one class, or of several at once, waits for hours or days without loss: in the refrigerator if
// any of it does. What is best after a while may still be eaten before.
func keepsAs(classes []*food.Class) (w planner.Wait, known bool) {
	w.State = planner.Counter
	for _, c := range classes {
		if _, ok := food.WaitOf(c, string(planner.Counter)); !ok || c.Keep == string(planner.Refrigerator) {
			w.State = planner.Refrigerator
		}
	}
	for _, c := range classes {
		row, ok := food.WaitOf(c, string(w.State))
		if !ok {
			if row, ok = food.WaitOf(c, string(planner.Counter)); !ok {
				return planner.Wait{}, false
			}
		}
		if until := planner.Minutes(row.BestUntil); w.BestUntil == 0 || until < w.BestUntil {
			w.BestUntil = until
		}
		if until := planner.Minutes(row.WorthUntil); w.WorthUntil == 0 || until < w.WorthUntil {
			w.WorthUntil = min(until, planner.MaxWait)
		}
	}
	return w, len(classes) > 0
}

// stand puts a step's food where its words say that it stands, whatever its verb is usually done in: what is marinated
// on the counter, and a pot that is left on the hob, which no heat keeps.
func stand(s *planner.Step) {
	at := trace.StandsIn(strings.TrimSuffix(s.Do, takenSo(s.Where)))
	if at == "" || at == s.Where || at != planner.Counter && s.Where == planner.Freezer {
		return
	}
	s.Do = strings.TrimSuffix(s.Do, takenSo(s.Where))
	if s.Where == planner.Heat {
		s.Uses, s.Cooks, s.Attention, s.Every = nil, false, planner.Unattended, 0
	}
	s.Where = at
}

// takenSo ends the words of a step whose place no word of the recipe says.
func takenSo(where planner.State) string { return " (in the " + string(where) + ")" }

// spoils reports whether what the last step leaves does.
func (r *Reading) spoils() bool {
	_, _, leaves := r.skeleton(r.keys())
	return len(leaves) == 0 || leaves[len(leaves)-1].Perishable
}

// beside reports that the food of a step before does not go into this one: browned meat that waits, or what goes on its
// own way while this is done.
func (r *Reading) beside(i, before int) bool {
	s, p := &r.Steps[i], &r.Steps[before]
	return !p.Ready && (s.aside && !p.aside)
}

// browns reports whether a step cooks meat on the outside only.
func (s *Step) browns() bool {
	return s.Cooks && words.Has(s.Do, "brown", "sear", "seal", "colour", "color")
}

// putAside marks the steps between the browning of meat and the step that names it again: it is not in them, but it
// waits for them.
func (r *Reading) putAside() {
	for i := range r.Steps {
		r.Steps[i].aside = false
	}
	for i := range r.Steps {
		if !r.Steps[i].browns() {
			continue
		}
		var meat []int
		for _, s := range r.Steps[:i+1] {
			for _, g := range s.Parts {
				if r.kindOf(g).Raw() {
					meat = append(meat, g)
				}
			}
		}
		for back := i + 1; back < len(r.Steps) && len(meat) > 0; back++ {
			s := &r.Steps[back]
			if s.browns() || !slices.ContainsFunc(s.Parts, func(g int) bool { return slices.Contains(meat, g) }) {
				continue
			}
			for k := i + 1; k < back; k++ {
				r.Steps[k].aside = !r.Steps[k].browns()
			}
			break
		}
	}
}

// kindOf is how one of the ingredients keeps, by its words or, where they do not tell, by what was said.
func (r *Reading) kindOf(ingredient int) safety.Kind {
	k, known := kindOf(r.Ingredients[ingredient].Name)
	if !known && r.keeps == "yes" {
		return safety.None
	}
	return k
}

// askKeeping asks about ingredients whose words say nothing.
func (r *Reading) askKeeping() []Question {
	if r.keeps != "" {
		return nil
	}
	if len(r.Ingredients) == 0 {
		d, _, _ := r.skeleton(r.keys())
		foods := trace.OfDish(&planner.Party{}, &d)
		for i := range d.Steps {
			if len(foods.Leaves(d.Key, d.Steps[i].Key).Unknown) > 0 {
				return []Question{{About: "keeps", Step: -1, Ask: fmt.Sprintf("What food is %s, for its limits?", r.Title),
					Guess: "cooked food, or what its name says", rank: 3}}
			}
		}
		return nil
	}
	var unknown []string
	for _, g := range r.Ingredients {
		if _, known := kindOf(g.Name); !known {
			unknown = append(unknown, g.Name)
		}
	}
	if len(unknown) == 0 {
		return nil
	}
	return []Question{{About: "keeps", Step: -1, Ask: fmt.Sprintf("Does it keep on the counter: %s?", list(unknown, 4)),
		Guess: "no, it is taken for cooked food: " + safety.CounterLimit(20).Figure() + " out of the cold", rank: 3}}
}
