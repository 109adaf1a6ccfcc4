package partygen

import (
	"strings"

	"tureen/planner"
)

// story is what a random dish is made of, in words that a cook would type, and what may be done to it: in the cold,
// with heat that cooks it to the middle, and with heat that only colours it.
type story struct {
	noun         string
	ingredients  []planner.Ingredient
	cold, cooked []string
	coloured     string
}

// Nobody says of these dishes what they leave for the limits: it is to be inferred.
var stories = []story{
	{noun: "chicken", ingredients: []planner.Ingredient{{Name: "chicken thighs", Amount: "800 g"}},
		cold:   []string{"Joint the chicken", "Leave the chicken", "Slice the chicken"},
		cooked: []string{"Roast the chicken", "Simmer the chicken"}, coloured: "Brown the chicken"},
	{noun: "rice", ingredients: []planner.Ingredient{{Name: "basmati rice", Amount: "300 g"}},
		cold:   []string{"Rinse the rice", "Soak the rice", "Spread out the rice"},
		cooked: []string{"Boil the rice", "Steam the rice"}},
	{noun: "custard", ingredients: []planner.Ingredient{{Name: "eggs", Amount: "4"}, {Name: "milk", Amount: "500 ml"}},
		cold:   []string{"Whisk the eggs with the milk", "Strain the custard", "Pour the custard"},
		cooked: []string{"Cook the custard"}},
	{noun: "tuna", ingredients: []planner.Ingredient{{Name: "tuna steaks", Amount: "600 g"}},
		cold:   []string{"Season the tuna", "Slice the tuna"},
		cooked: []string{"Grill the tuna", "Poach the tuna"}, coloured: "Sear the tuna"},
	{noun: "dough", ingredients: []planner.Ingredient{{Name: "flour", Amount: "500 g"}, {Name: "eggs", Amount: "2"},
		{Name: "milk", Amount: "150 ml"}, {Name: "yeast", Amount: "7 g"}},
		cold:   []string{"Knead the dough", "Let the dough rise", "Shape the dough"},
		cooked: []string{"Bake the dough"}},
	{noun: "beef", // named by its steps alone
		cold:   []string{"Trim the beef", "Carve the beef"},
		cooked: []string{"Roast the beef", "Braise the beef"}, coloured: "Sear the beef"},
	{noun: "shortbread", ingredients: []planner.Ingredient{{Name: "flour", Amount: "300 g"},
		{Name: "sugar", Amount: "100 g"},
		{Name: "butter", Amount: "200 g"}},
		cold: []string{"Rub in the butter", "Roll out the dough"}, cooked: []string{"Bake the shortbread"}},
	{noun: "rest", ingredients: []planner.Ingredient{{Name: "what is left", Amount: "1"}}, // which nobody knows
		cold: []string{"Do it"}, cooked: []string{"Cook it"}},
}

// made gives a dish a story now and then, and words to its steps. Food that is said to be part-cooked stays so, in the
// story's words where it has some.
func (g *drawing) made(d *planner.Dish, often int) {
	if !chance(g, often) {
		return
	}
	of := pick(g, stories...)
	d.Name = "Dish of " + of.noun
	if d.Ingredients = of.ingredients; chance(g, 25) && of.noun != "dough" {
		d.Ingredients = nil // the steps name it
	}
	last := len(d.Steps) - 1
	begun := of.coloured != "" && last > 0 && chance(g, 50) // begun on the hob, to be finished
	for i := range d.Steps {
		s := &d.Steps[i]
		part := s.Leaves.PartCooked
		if begun && (i == 0 || i == last) {
			s.Where, s.Cooks, s.Cool = planner.Heat, true, nil
		}
		switch {
		case begun && i == 0:
			s.Do = of.coloured
		case begun && i == last && !part:
			s.Do = pick(g, of.cooked...)
		case s.Where != planner.Heat:
			s.Do = pick(g, of.cold...)
		case !s.Cooks:
			s.Do = "Warm the " + of.noun
		case of.coloured != "" && (part || chance(g, 60)):
			s.Do = of.coloured
		case !part:
			s.Do = pick(g, of.cooked...)
		}
		if !part && chance(g, 80) {
			s.Leaves.Perishable, s.Leaves.Kind = false, ""
		}
	}
}

// colours says whether a step leaves what was raw raw inside.
func colours(s *planner.Step) bool {
	return s.Leaves.PartCooked || strings.HasPrefix(s.Do, "Brown ") || strings.HasPrefix(s.Do, "Sear ")
}

// neverChilled lets food that is raw inside wait in the cold nowhere, and for no least time: such a party is refused,
// and has neither plan nor clash.
func (g *drawing) neverChilled() {
	raw := map[planner.TaskKey]bool{}
	mend := func(w *planner.Wait) {
		if w.State == planner.Refrigerator || w.State == planner.Freezer {
			w.State = planner.Counter
		}
		if w.State != planner.HotHold {
			w.Least, w.BestFrom = 0, 0
		}
	}
	for i := range g.p.Dishes {
		d := &g.p.Dishes[i]
		for j := range d.Steps {
			s := &d.Steps[j]
			k := planner.StepTask(d.Key, s.Key, 1)
			raw[k] = colours(s)
			for n := range s.After {
				a := &s.After[n]
				from := a.Dish
				if from == "" {
					from = d.Key
				}
				if a.FromStart || !raw[planner.StepTask(from, a.Step, 1)] {
					continue
				}
				mend(&a.Wait)
				raw[k] = raw[k] || !s.Cooks
			}
			if s.Serve != nil && raw[k] {
				mend(s.Serve)
			}
			if raw[k] && s.Stays() != planner.Counter {
				s.Where = planner.Counter
			}
		}
	}
}
