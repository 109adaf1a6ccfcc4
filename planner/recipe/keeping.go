package recipe

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
)

// kindOf is how an ingredient keeps by its words, raw, as it goes into a dish; known is false where no word tells.
// That is then taken for cooked food, the strict way to be wrong.
func kindOf(name string) (k safety.Kind, known bool) {
	if k, known = food.KindOf(name); !known {
		k = safety.Cooked
	}
	return k, known
}

// isBaked reports whether the dish is baked goods by its name and ingredients: what keeps on the counter once it is
// baked, where nothing moist is put on or into it.
func (r *Reading) isBaked() bool {
	if r.keeps == "no" || !bakedGoods(food.All(r.Title)) {
		return false
	}
	for _, g := range r.Ingredients {
		k, known := kindOf(g.Name)
		if !known || k.Raw() || k == safety.CuredMeat || k == safety.CutProduce || k == safety.Soup {
			return false
		}
		if slices.ContainsFunc(food.All(g.Name), moist) {
			return false
		}
	}
	for _, s := range r.Steps {
		if s.Heat == planner.AnOven {
			return true
		}
	}
	return false
}

// bakedGoods reports whether the foods of a title are bread, cake and their like, and nothing that spoils on them.
func bakedGoods(named []food.Food) bool {
	baked := false
	for _, f := range named {
		baked = baked || f.Class.Group == "bread" || f.Class.Name == "meringue"
		if k := f.Kind(); k.Raw() || f.Class.Group == "made" && k.Perishable() {
			return false
		}
	}
	return baked
}

// moist is what keeps baked goods from lasting on the counter. Milk and eggs go into the dough, where they do not.
func moist(f food.Food) bool {
	switch f.Class.Name {
	case "cream", "whipped-cream", "soft-cheese", "custard", "cheesecake":
		return true
	}
	return false
}

// soupy reports whether the dish is a soup, stew or sauce by its name.
func (r *Reading) soupy() bool {
	return slices.ContainsFunc(food.All(r.Title), func(f food.Food) bool {
		return f.Kind() == safety.Soup || f.Class.Name == "braise" || f.Class.Name == "bean-stew"
	})
}

// leaves is what each step leaves, as far as the ingredients tell.
func (r *Reading) leaves(after [][]int) []planner.Food {
	kinds := make([]safety.Kind, len(r.Steps))
	cooked := make([]bool, len(r.Steps))
	parts := make([]bool, len(r.Steps))
	baked := r.isBaked()
	out := make([]planner.Food, len(r.Steps))
	later := func(i int) bool { return slices.ContainsFunc(r.Steps[i+1:], func(s Step) bool { return s.Cooks }) }
	r.putAside()
	first := slices.IndexFunc(r.Steps, func(s Step) bool { return !s.Ready })
	for i := range r.Steps {
		s := &r.Steps[i]
		k := safety.None
		for _, p := range after[i] {
			if r.beside(i, p) {
				continue
			}
			if r.Steps[p].Ready {
				k = food.Stricter(k, r.unnamed(p))
				continue
			}
			k = food.Stricter(k, kinds[p])
			cooked[i] = cooked[i] || cooked[p]
			parts[i] = parts[i] || parts[p]
		}
		if len(r.Ingredients) == 0 {
			// Nothing but a name: what it says, and else the strict way to be wrong.
			one, known := kindOf(r.Title)
			if !known || one == safety.None && !baked {
				one = safety.Cooked
			}
			k = food.Stricter(k, one)
			if cooked[i] && k.Raw() {
				k = safety.Cooked
			}
		}
		taken := s.Parts
		if i == first {
			taken = append(slices.Clone(taken), r.untaken()...)
		}
		for _, g := range taken {
			one := r.kindOf(g)
			if one == safety.Soup && !r.soupy() {
				one = safety.Cooked
			}
			k = food.Stricter(k, one)
		}
		if i > 0 && r.Steps[i-1].aside && !s.aside && !s.Cooks && k.Raw() {
			parts[i] = true // the browned meat comes back
		}
		if s.Cooks {
			switch {
			case s.browns() && k.Raw() && later(i):
				parts[i] = true // not cooked through: the kind stays raw
			case s.Heat == planner.AnOven && baked:
				k, parts[i] = safety.None, false
			default:
				k, parts[i] = r.cookedFrom(k, s), false
			}
			cooked[i] = true
		}
		kinds[i] = k
		if k != safety.None {
			out[i] = planner.Food{Perishable: true, Kind: k, PartCooked: parts[i]}
		}
	}
	return out
}

// untaken are the ingredients that no step takes in: they are there from the start, for all that is known.
func (r *Reading) untaken() (out []int) {
	for g := range r.Ingredients {
		if !slices.ContainsFunc(r.Steps, func(s Step) bool { return !s.Ready && slices.Contains(s.Parts, g) }) {
			out = append(out, g)
		}
	}
	return out
}

// beside reports that the food of a step before does not go into this one: browned meat that waits, or what goes on its
// own way while this is done.
func (r *Reading) beside(i, before int) bool {
	s, p := &r.Steps[i], &r.Steps[before]
	return !p.Ready && (s.aside && !p.aside)
}

// browns reports whether a step cooks meat on the outside only.
func (s *Step) browns() bool {
	return s.Cooks && containsWord(s.Do, "brown", "sear", "seal", "colour", "color")
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

// unnamed is the strictest of what was made ready and no later step names: it goes on with the next step. What is
// named joins there.
func (r *Reading) unnamed(ready int) safety.Kind {
	k := safety.None
	for _, g := range r.Steps[ready].Parts {
		named := false
		for i := range r.Steps {
			named = named || i != ready && slices.Contains(r.Steps[i].Parts, g)
		}
		if !named {
			k = food.Stricter(k, r.kindOf(g))
		}
	}
	return k
}

// kindOf is how one of the ingredients keeps, by its words or, where they do not tell, by what was said.
func (r *Reading) kindOf(ingredient int) safety.Kind {
	k, known := kindOf(r.Ingredients[ingredient].Name)
	if !known && r.keeps == "yes" {
		return safety.None
	}
	return k
}

// cookedFrom is what a kind becomes when it is cooked. Vegetables that kept on the counter do so no more.
func (r *Reading) cookedFrom(k safety.Kind, s *Step) safety.Kind {
	switch k {
	case safety.RawEgg, safety.EggDish:
		return safety.EggDish
	case safety.Custard:
		if r.soupy() {
			return safety.Soup
		}
		return safety.Custard
	case safety.Rice, safety.Pasta, safety.Soup:
		return k
	}
	for _, g := range s.Parts {
		if f, ok := food.Find(r.Ingredients[g].Name); ok {
			if k := f.Class.Cooked.Kind; k == safety.Rice || k == safety.Pasta {
				return k
			}
		}
	}
	if r.soupy() {
		return safety.Soup
	}
	return safety.Cooked
}

// askKeeping asks about ingredients whose words say nothing, and about baked goods.
func (r *Reading) askKeeping() []Question {
	var qs []Question
	if r.keeps != "" {
		return nil
	}
	if len(r.Ingredients) == 0 && !r.isBaked() {
		qs = append(qs, Question{About: "keeps", Step: -1, Ask: fmt.Sprintf("What food is %s, for its limits?", r.Title),
			Guess: "cooked food, or what its name says", rank: 3})
	}
	var unknown []string
	for _, g := range r.Ingredients {
		if _, known := kindOf(g.Name); !known {
			unknown = append(unknown, g.Name)
		}
	}
	if len(unknown) > 0 {
		qs = append(qs, Question{About: "keeps", Step: -1, Ask: fmt.Sprintf("Does it keep on the counter: %s?",
			list(unknown, 4)), Guess: "no, it is taken for cooked food: " + safety.CounterLimit(20).Figure() +
			" out of the cold", rank: 3})
	}
	if r.isBaked() {
		qs = append(qs, Question{About: "keeps", Step: -1,
			Ask: fmt.Sprintf("Does the %s keep on the counter once it is baked?", lower(r.Title)), Guess: "yes", rank: 3})
	}
	return qs
}
