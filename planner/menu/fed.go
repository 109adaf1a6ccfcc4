package menu

import (
	"fmt"

	"tureen/planner"
	"tureen/planner/safety"
)

// Finding is what of an ingredient stands against a guest, as far as words tell.
type Finding struct {
	Text string // "contains milk (butter)"
	Sure bool   // and not: check the label
}

// Against finds what of an ingredient stands against a guest's allergies and diets. None is no promise:
// [safety.AllergenCaution] goes with every list of them.
func Against(ingredient string, g *planner.Guest) []Finding {
	var out []Finding
	for _, word := range g.Allergies {
		known, err := safety.ParseAllergen(word)
		if err == nil {
			if f, ok := safety.AllergenIn(ingredient, known...); ok {
				out = append(out, Finding{f.String(), f.Certainty == safety.Contains})
				continue
			}
		}
		if safety.Mentions(ingredient, word) {
			out = append(out, Finding{fmt.Sprintf("it says %s", word), true})
		}
	}
	for _, diet := range g.Diets {
		conflicts, _ := safety.Against(safety.Diet(diet), ingredient)
		for _, c := range conflicts {
			out = append(out, Finding{c.String(), c.Certainty == safety.Contains})
		}
	}
	return out
}

// unfed names guests for whom something surely stands against every dish of a course. It does not say what: that is for
// the cooks to look up and not for the whole channel. What may be left out of a dish does not count, and a dish without
// ingredients may suit anybody.
func unfed(p *planner.Party) []string {
	var out []string
	for i := range p.Courses {
		c := &p.Courses[i]
		for j := range p.Guests {
			g := &p.Guests[j]
			dishes, barred := 0, 0
			for k := range p.Dishes {
				if d := &p.Dishes[k]; d.Course == c.Key {
					dishes++
					if bars(d, g) {
						barred++
					}
				}
			}
			if dishes > 0 && barred == dishes {
				out = append(out, fmt.Sprintf("%s leaves %s nothing, as far as the ingredients tell: add a dish, or change one.", capital(c.Name), g.Name))
			}
		}
	}
	return out
}

func bars(d *planner.Dish, g *planner.Guest) bool {
	for i := range d.Ingredients {
		if in := &d.Ingredients[i]; !in.Optional {
			for _, f := range Against(in.Name, g) {
				if f.Sure {
					return true
				}
			}
		}
	}
	return false
}
