package menu

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// raw is one thing in a dish that is eaten raw or lightly cooked.
type raw struct {
	ingredient string // what of it, "" for the dish as a whole
	text       string
	source     string
	sure       bool
}

var (
	pink    = regexp.MustCompile(`(?i)\b(medium[- ]rare|rare|pink|bloody|runny|soft[- ]boiled|(?:just|barely) set)\b`)
	denied  = regexp.MustCompile(`(?i)\b(no longer|not|no|nothing|without|never)\W+(\w+\W+){0,2}$`)
	degrees = regexp.MustCompile(`(?i)\b(\d{2,3})\s*(?:°|degrees?\s*)?\s*([CF])\b`)
)

// undercooked finds what published advice keeps from those who fall ill easily: egg that nothing cooks, meat or fish
// taken off the heat below the published temperature or by a sign such as pink. It goes by the ingredients' words, by
// which steps cook, and by the signs that end them.
func undercooked(d *planner.Dish) []raw {
	var out []raw
	if egg, text, sure := rawEgg(d); text != "" {
		out = append(out, raw{egg, text, safety.RawForSusceptible().Source, sure})
	}
	if !animal(d) {
		return out
	}
	out = append(out, rawAnimal(d)...)
	if word := says(d.Name, "raw", "raw-too", "rare"); word != "" {
		out = append(out, raw{"", "its name says " + word, safety.RawForSusceptible().Source, false})
	}
	for i := range d.Steps {
		s := &d.Steps[i]
		if m := pink.FindStringIndex(s.Until); m != nil && !denied.MatchString(s.Until[:m[0]]) {
			out = append(out, raw{"", fmt.Sprintf("done when %s", s.Until), safety.RawForSusceptible().Source, false})
			continue
		}
		m := degrees.FindStringSubmatch(s.Until)
		if m == nil || !s.Cooks && s.Where != planner.Heat {
			continue
		}
		c, _ := strconv.ParseFloat(m[1], 64)
		if strings.EqualFold(m[2], "F") {
			c = (c - 32) / 1.8
		}
		if limit := safety.CookTo(kindBefore(d, s)); limit.Heated && c < limit.TempC-0.5 {
			out = append(out, raw{"", fmt.Sprintf("done at %s, below %s", m[0], limit.Figure()), limit.Source, false})
		}
	}
	return out
}

// rawEgg names the egg of a dish that no step cooks, or that may be only lightly cooked; empty when there is none.
func rawEgg(d *planner.Dish) (has, text string, sure bool) {
	for i := range d.Ingredients {
		name := d.Ingredients[i].Name
		f, ok := safety.AllergenIn(name, safety.AllergenEgg)
		if ok && f.Certainty == safety.Contains && shellEgg(f.Word) && !madeSafe(name) {
			has = name
			break
		}
	}
	if has == "" || len(d.Steps) == 0 {
		return "", "", false
	}
	words := d.Name
	for i := range d.Steps {
		words += " | " + d.Steps[i].Do + " | " + d.Steps[i].Until
	}
	switch {
	case !slices.ContainsFunc(d.Steps, heats):
		return has, "no step cooks it", true
	case says(words, "egg", "runny") != "":
		return has, "perhaps raw or only lightly cooked", false
	}
	return "", "", false
}

// madeSafe reports whether the egg that an ingredient names is cooked, or pasteurised.
func madeSafe(ingredient string) bool {
	f, ok := food.Find(ingredient)
	return ok && (f.Is(food.CookedThrough) && !f.Is("part-cooked") || f.Is(food.Pasteurised))
}

// says is the word of a text that tells of something raw or lightly cooked; empty when none does.
func says(text string, about ...string) string {
	for _, t := range food.Tells(text) {
		if t.Tag == food.Pregnant && slices.Contains(about, t.About) {
			return t.Word
		}
	}
	return ""
}

// rawAnimal names the meat, fish and shellfish of a dish of which no step cooks anything.
func rawAnimal(d *planner.Dish) []raw {
	var out []raw
	if len(d.Steps) == 0 || slices.ContainsFunc(d.Steps, heats) {
		return nil
	}
	for i := range d.Ingredients {
		name := d.Ingredients[i].Name
		if k, ok := food.KindOf(name); ok && k.Raw() && !bought(name) {
			out = append(out, raw{name, "no step cooks it: raw, unless it was bought cooked",
				safety.RawForSusceptible().Source, false})
		}
	}
	return out
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

// takenAway reports whether what is done in a dish takes a doubt about an ingredient away: it is cooked through, or cut
// small. An ingredient that no step names may well go in at the end, raw: then nothing is taken away.
func takenAway(d *planner.Dish, in *planner.Ingredient, how string) bool {
	first := -1
	f, known := food.Find(in.Name)
	for i := range d.Steps {
		s := &d.Steps[i]
		if s.Key == in.Step || known && names(s.Do, f.Name) {
			first = i
			break
		}
	}
	switch how {
	case food.Small:
		return first >= 0 && food.CutsSmall(d.Steps[first].Do)
	case food.CookedThrough:
		return first >= 0 && cookedAfter(d, first)
	}
	return false
}

func names(text, name string) bool {
	return slices.ContainsFunc(food.All(text), func(f food.Food) bool { return f.Name == name })
}

func cooksThrough(s *planner.Step) bool {
	m := pink.FindStringIndex(s.Until)
	return heats(*s) && s.Time.Likely >= hotThrough && (m == nil || denied.MatchString(s.Until[:m[0]]))
}

// cookedAfter reports whether a step, or one that its food goes on to, cooks it through.
func cookedAfter(d *planner.Dish, first int) bool {
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
	for i := range d.Steps {
		if reached[d.Steps[i].Key] && cooksThrough(&d.Steps[i]) {
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

// kindBefore is what a step cooks, by the food that goes into it; where nothing raw is known to, whole cuts, for which
// the published temperature is the lowest, so that nothing is called undercooked that may not be.
func kindBefore(d *planner.Dish, s *planner.Step) safety.Kind {
	kind := safety.None
	for _, p := range trace.OfDish(&planner.Party{}, d).Leaves(d.Key, s.Key).In {
		if p.Kind.Raw() {
			kind = food.Stricter(kind, p.Kind)
		}
	}
	if kind == safety.None {
		return safety.RedMeat
	}
	return kind
}
