package menu

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/scale"
	"tureen/planner/words"
)

// wares says which plates are short for a course, and glasses for the covers. What is short only over the whole meal is
// washed in between: propose makes a task of it.
func wares(p *planner.Party) []string {
	var out []string
	for _, ware := range p.Kitchen.Plates {
		for i := range p.Courses {
			c := &p.Courses[i]
			need := 0
			for j := range p.Dishes {
				if d := &p.Dishes[j]; d.Course == c.Key && d.Plate == ware.Name {
					need += d.Makes(p)
				}
			}
			if need > ware.Count {
				out = append(out, fmt.Sprintf("%s takes %s and you have %d: borrow %d, or serve a dish on something else.",
					words.Upper(c.Name), words.Count(need, ware.Name), ware.Count, need-ware.Count))
			}
		}
	}
	glasses, some := 0, false
	for _, w := range p.Kitchen.Plates {
		if strings.Contains(strings.ToLower(w.Name), "glass") {
			glasses, some = glasses+w.Count, true
		}
	}
	poured := slices.ContainsFunc(p.Drinks, func(d planner.Drink) bool { return d.Bottles > 0 })
	if some && poured && glasses < p.Covers {
		out = append(out, fmt.Sprintf("There are %s for %s: borrow %d.", words.Count(glasses, "glass"),
			words.Count(p.Covers, "cover"), p.Covers-glasses))
	}
	return out
}

// lacks says which vessels a dish wants more of, for the covers that it is made for, than there are.
func lacks(p *planner.Party, d *planner.Dish) []string {
	var out []string
	for i := range d.Steps {
		s := &d.Steps[i]
		fit := p.Fit(d, s)
		for _, l := range fit.Lacks {
			out = append(out, d.Name+": "+scale.Borrow(s, l)+".")
		}
	}
	return out
}

// Lacking says what vessels the dishes want that the kitchen has not: a plan does with what there is.
func Lacking(p *planner.Party) []string {
	var out []string
	for i := range p.Dishes {
		out = append(out, lacks(p, &p.Dishes[i])...)
	}
	return out
}
