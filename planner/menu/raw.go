package menu

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/caution"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// undercooked finds what published advice keeps from a guest who falls ill easily, by how a dish is done: each warning
// of package caution that is of such food, and what words tell beside them. What nobody knows to be cooked is not free.
func undercooked(p *planner.Party, d *planner.Dish, g *planner.Guest) []Reason {
	advice := adviceTo(g)
	if len(advice) == 0 {
		return nil
	}
	var out []Reason
	add := func(ingredient, word, text string, sure bool, source string) {
		if !slices.ContainsFunc(out, func(r Reason) bool { return r.Ingredient == ingredient && (r.Sure || !sure) }) {
			out = append(out, Reason{ingredient, false, Finding{Text: text + " (" + source + ")", Word: word, Sure: sure}})
		}
	}
	in := p.AuthoritiesOf()
	for _, c := range caution.OfDish(p, d) {
		for _, a := range advice {
			if sure, source, ok := c.ForGuest(a, in); ok {
				add(c.Ingredient, c.Title, c.Guest, sure, source)
				break
			}
		}
	}
	source := caution.AdviceTo(advice[0], in)
	for i := range d.Ingredients {
		name := d.Ingredients[i].Name
		switch k, ok := food.KindOf(name); {
		case !ok || madeSafe(name) || bought(name):
		case len(d.Steps) == 0 && (k.Raw() || shellEgg(name)):
			add(name, "", "no step says how it is done", false, source)
		case k.Raw() && k != food.SmokedFish && !slices.ContainsFunc(d.Steps, heats):
			add(name, "", "no step cooks it: raw, unless it was bought cooked", false, source)
		}
	}
	if word := says(d, "raw", "raw-too", "rare"); word != "" && animal(d) {
		add("", word, "its name says "+word, false, source)
	}
	if egg := slices.IndexFunc(d.Ingredients, func(i planner.Ingredient) bool {
		return shellEgg(i.Name) && !madeSafe(i.Name)
	}); egg >= 0 && !caution.Lion(p, d) && says(d, "egg", "runny") != "" {
		add(d.Ingredients[egg].Name, rawEggWord, "perhaps raw or only lightly cooked", false, source)
	}
	if egg := caution.MarkedEgg(p, d); egg != "" && slices.Contains(advice, safety.Vulnerable) {
		add(egg, rawEggWord, "marked eggs may be runny, but not for a severely weak immune system", false, lionSource)
	}
	return out
}

// lionSource is who lets marked eggs be eaten runny, and for whom not.
const lionSource = "Food Standards Agency, advice on runny eggs" // from memory

// rawEggWord is what the substitutes' table calls egg that is not cooked.
const rawEggWord = "raw egg"

// adviceTo are the guest's diets that are published advice.
func adviceTo(g *planner.Guest) []safety.Diet {
	var out []safety.Diet
	for _, d := range g.Diets {
		if safety.Diet(d).IsAdvice() {
			out = append(out, safety.Diet(d))
		}
	}
	return out
}

// madeSafe reports whether the egg that an ingredient names is cooked, or pasteurised.
func madeSafe(ingredient string) bool {
	f, ok := food.Find(ingredient)
	return ok && (f.Is(food.CookedThrough) && !f.Is("part-cooked") || f.Is(food.Pasteurised))
}

// says is the word of a dish's name, or of its steps, that tells of something raw or lightly cooked; empty when none
// does.
func says(d *planner.Dish, about ...string) string {
	texts := []string{d.Name}
	if slices.Contains(about, "egg") {
		for i := range d.Steps {
			texts = append(texts, d.Steps[i].Do, d.Steps[i].Until)
		}
	}
	for _, text := range texts {
		for _, t := range food.Tells(text) {
			if t.Tag == food.Pregnant && slices.Contains(about, t.About) {
				return t.Word
			}
		}
	}
	return ""
}

// bought reports whether an ingredient's first word says that it comes cooked: roast chicken. Only a step commands.
func bought(ingredient string) bool {
	w := food.Words(ingredient)
	return len(w) > 0 && slices.ContainsFunc(food.Verbs(), func(v food.Verb) bool {
		return v.Name == w[0] && v.Leaves == food.CookedThrough
	})
}

func heats(s planner.Step) bool { return s.Cooks || s.Where == planner.Heat }

// hotThrough is how many minutes of heat make cheese, sliced meat or sprouts steaming hot: common practice, no source.
const hotThrough = 5

// takenAway reports whether what is done in a dish, or where, takes a doubt about an ingredient away: it is cooked
// through, or cut small. An ingredient that no step names may well go in at the end, raw: then nothing is taken away.
func takenAway(p *planner.Party, d *planner.Dish, in *planner.Ingredient, how string) bool {
	first := entersAt(d, in)
	switch how {
	case food.InUK:
		return p.AuthoritiesOf() == safety.UnitedKingdom
	case food.Small:
		return first >= 0 && cutsSmall(d.Steps[first].Do, in)
	case food.CookedThrough:
		return first >= 0 && cookedAfter(d, first)
	}
	return false
}

// cutsSmall says whether a step's words cut an ingredient small: it, and not what they name beside it.
func cutsSmall(do string, in *planner.Ingredient) bool {
	named := false
	for _, part := range byVerb(do) {
		if !trace.Names(part, in) {
			continue
		}
		named = true
		if food.CutsSmall(part) && !slices.Contains(food.Words(part), "whole") {
			return true
		}
	}
	return !named && food.CutsSmall(do)
}

// byVerb are the parts of a step's words, each from one verb to the next.
func byVerb(do string) []string {
	parts := []string{""}
	for w := range strings.FieldsSeq(do) {
		plain := strings.Trim(strings.ToLower(w), ",;.:()")
		if slices.ContainsFunc(food.Verbs(), func(v food.Verb) bool {
			return v.Name == plain || slices.Contains(v.Forms, plain)
		}) {
			parts = append(parts, "")
		}
		parts[len(parts)-1] += " " + w
	}
	return parts
}

// entersAt is the first step that takes or names an ingredient, by its number; -1 where none does.
func entersAt(d *planner.Dish, in *planner.Ingredient) int {
	return slices.IndexFunc(d.Steps, func(s planner.Step) bool { return s.Key == in.Step || trace.Names(s.Do, in) })
}

// comesOf are a step and those that its food goes on to.
func comesOf(d *planner.Dish, first int) map[planner.StepKey]bool {
	reached := map[planner.StepKey]bool{d.Steps[first].Key: true}
	for range d.Steps {
		for i := range d.Steps {
			for _, a := range d.Steps[i].After {
				if a.Dish == "" && reached[a.Step] && !a.Aside {
					reached[d.Steps[i].Key] = true
				}
			}
		}
	}
	return reached
}

// cookedAfter reports whether a step, or one that its food goes on to, cooks it through.
func cookedAfter(d *planner.Dish, first int) bool {
	reached := comesOf(d, first)
	for i := range d.Steps {
		if s := &d.Steps[i]; reached[s.Key] && s.Time.Likely >= hotThrough && trace.Steams(s) {
			return true
		}
	}
	return false
}

// shellEgg reports whether what tells of egg is egg itself, or a part of it.
func shellEgg(word string) bool {
	f, ok := food.Find(word)
	return ok && (f.Class.Name == "eggs" || f.Class.Name == "raw-egg")
}

// animal reports whether a dish has meat or fish, as far as its words tell.
func animal(d *planner.Dish) bool {
	for i := range d.Ingredients {
		conflicts, _ := safety.Against(safety.Vegetarian, d.Ingredients[i].Name)
		for _, c := range conflicts {
			if c.Certainty == safety.Contains {
				return true
			}
		}
	}
	return false
}
