package menu

import (
	"fmt"
	"regexp"
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
	// Dishes whose egg stays raw or only thickens, by name; common practice, and the list of US FDA egg safety.
	lightEgg = regexp.MustCompile(`(?i)\b(mousse|tiramis[uù]|mayonnaise|aioli|hollandaise|b[ée]arnaise|caesar|` +
		`sabayon|zabaglione|egg ?nog|poached eggs?|soft[- ]boiled)\b`)
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
		if ok && f.Certainty == safety.Contains && shellEgg(f.Word) && !cookedEgg.MatchString(name) {
			has = name
			break
		}
	}
	if has == "" || len(d.Steps) == 0 {
		return "", "", false
	}
	words := d.Name
	for i := range d.Steps {
		words += " | " + d.Steps[i].Do + " " + d.Steps[i].Until
	}
	cooks := false
	for i := range d.Steps {
		cooks = cooks || d.Steps[i].Cooks || d.Steps[i].Where == planner.Heat
	}
	switch {
	case !cooks:
		return has, "no step cooks it", true
	case lightEgg.MatchString(words):
		return has, "perhaps raw or only lightly cooked", false
	}
	return "", "", false
}

var cookedEgg = regexp.MustCompile(`(?i)pasteuri[sz]ed|hard[- ](boiled|cooked)`)

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
