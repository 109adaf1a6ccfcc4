package menu

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/scale"
	"tureen/planner/words"
)

// wares says which plates are short for a course, and glasses for the covers, where the hosts have said how many there
// are. What is short only over the whole meal is washed in between: propose makes a task of it.
func wares(p *planner.Party) []string {
	var out []string
	for i := range p.Kitchen.Plates {
		ware := &p.Kitchen.Plates[i]
		for j := range p.Courses {
			c := &p.Courses[j]
			if need := p.PlatesFor(c, ware.Name); need > ware.Count && ware.PlatesGiven() {
				out = append(out, fmt.Sprintf("%s takes %s and you have %d: borrow %d, or serve a dish on something else.",
					words.Upper(c.Name), words.Count(need, ware.Name), ware.Count, need-ware.Count))
			}
		}
	}
	if n, some, given := glasses(p); some && given && n < p.Covers {
		out = append(out, fmt.Sprintf("There are %s for %s: borrow %d.", words.Count(n, "glass"),
			words.Count(p.Covers, "cover"), p.Covers-n))
	}
	return out
}

// glasses counts them where something is poured, and says whether the hosts have.
func glasses(p *planner.Party) (n int, some, given bool) {
	if !slices.ContainsFunc(p.Drinks, func(d planner.Drink) bool { return d.Bottles > 0 }) {
		return 0, false, false
	}
	for i := range p.Kitchen.Plates {
		if w := &p.Kitchen.Plates[i]; strings.Contains(strings.ToLower(w.Name), "glass") {
			n, some, given = n+w.Count, true, given || w.PlatesGiven()
		}
	}
	return n, some, given
}

// countHead begins the one piece of advice about what nobody has counted.
const countHead = "Count what you have: "

// uncounted is one sentence about everything of which the menu takes more than many homes have, and nobody has said
// how much there is.
func (w *reckoning) uncounted() []string {
	p, how := w.p, "/kitchen ware name:… count:…"
	var want []string
	for i := range p.Kitchen.Plates {
		ware, most := &p.Kitchen.Plates[i], 0
		for j := range p.Courses {
			most = max(most, p.PlatesFor(&p.Courses[j], ware.Name))
		}
		if most > ware.Count && !ware.PlatesGiven() {
			want = append(want, words.Count(most, ware.Name))
		}
	}
	if n, some, given := glasses(p); some && !given && n < p.Covers {
		want = append(want, words.Count(p.Covers, "glass"))
	}
	for i := range p.Kitchen.Vessels {
		v, most := &p.Kitchen.Vessels[i], 0
		if p.Kitchen.Binds(planner.AVessel, v.Name) {
			continue
		}
		for _, set := range crowds(w.loads(planner.AVessel, v.Name), func(set []*load) bool { return sum(set) <= v.Count }) {
			most = max(most, sum(set))
		}
		for j := range p.Dishes {
			for k := range p.Dishes[j].Steps {
				for _, l := range p.Fit(&p.Dishes[j], &p.Dishes[j].Steps[k]).Lacks {
					if l.Name == v.Name {
						most = max(most, l.Wanted)
					}
				}
			}
		}
		if most > v.Count {
			want = append(want, words.Count(most, v.Name))
		}
	}
	if given, _ := p.Kitchen.GivenSpace(planner.Refrigerator); given < 0 {
		if ml := p.ChilledMillilitres(); ml > p.Kitchen.Refrigerator.Millilitres {
			if how += ", "; len(want) == 0 {
				how = ""
			}
			how += "/kitchen space refrigerator:two shelves"
			want = append(want, fmt.Sprintf("space for %d litres in the refrigerator", planner.CeilDiv(ml, 1000)))
		}
	}
	if len(want) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("%sthe menu takes %s, more than many homes have. Fewer? Tell me (%s).", countHead,
		words.And(want), how)}
}

// lacks says which vessels a dish wants more of, for the covers that it is made for, than there are;
// with guesses, also than many homes have where nobody has said.
func lacks(p *planner.Party, d *planner.Dish, guesses bool) []string {
	var out []string
	for i := range d.Steps {
		s := &d.Steps[i]
		fit := p.Fit(d, s)
		for _, l := range fit.Lacks {
			if guesses || !l.Guess {
				out = append(out, d.Name+": "+scale.Borrow(s, l)+".")
			}
		}
	}
	return out
}

// Lacking says what vessels the dishes want that the kitchen has not: a plan does with what there is.
func Lacking(p *planner.Party) []string {
	var out []string
	for i := range p.Dishes {
		out = append(out, lacks(p, &p.Dishes[i], true)...)
	}
	return out
}
