package menu

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/words"
)

var (
	deepFried = regexp.MustCompile(`(?i)\bdeep[- ]?(fr(y|ied|ying)|fat)\b|\bfryer\b|` +
		`\b(in|into|through) (the )?(hot|same|deep) oil\b|\b(cm|inch(es)?|litres?|l) of (hot )?oil\b`)
	// handled is work on a board, in a bowl, by hand: nearly every dish has some.
	handled = regexp.MustCompile(`(?i)\b(chop|slice|cut|dice|mince|grate|peel|trim|` +
		`carve|knead|roll|shape|shred|mix|rub|dish up|plate)`)
)

// InTheKitchen says, for the cooks alone, where an allergen may get from a dish that a guest must not have into one
// that the guest can have: through oil, through a machine, over boards and hands. Only what traces matter for counts:
// allergies, and the diets kept for them.
func InTheKitchen(p *planner.Party) []string {
	out := meetings(p)
	vs := verdicts{p: p}
	ways := map[planner.DishKey]way{}
	for i := range p.Dishes {
		d := &p.Dishes[i]
		ways[d.Key] = way{fries(d), does(d, handled), machinesOf(d)}
	}
	for j := range p.Guests {
		g := &p.Guests[j]
		if !traced(g) {
			continue
		}
		var with, without []*planner.Dish
		what := map[planner.DishKey]string{}
		for i := range p.Dishes {
			d := &p.Dishes[i]
			if word := carries(p, d, g); word != "" {
				with = append(with, d)
				what[d.Key] = word
			} else if v := vs.of(d, g); v == Free || v == Check {
				without = append(without, d)
			}
		}
		if len(with) == 0 || len(without) == 0 {
			continue
		}
		boards := false
		for _, d := range without {
			for _, b := range with {
				if d.BroughtBy != "" || b.BroughtBy != "" {
					continue
				}
				boards = boards || ways[d.Key].handled && ways[b.Key].handled
				if ways[d.Key].fries && ways[b.Key].fries {
					do, source := safety.ContactAdvice(safety.ByOil)
					out = append(out, fmt.Sprintf("%s: %s and %s (%s) are both fried in oil: %s (%s).", g.Name,
						d.Name, b.Name, what[b.Key], do, source))
				}
				for _, m := range shared(ways[d.Key].machines, ways[b.Key].machines) {
					do, source := safety.ContactAdvice(safety.ByMachine)
					out = append(out, fmt.Sprintf("%s: %s and %s (%s) share the %s: %s (%s).", g.Name, d.Name, b.Name,
						what[b.Key], m, do, source))
				}
			}
		}
		if boards {
			var names []string
			for _, b := range with {
				names = append(names, fmt.Sprintf("%s (%s)", b.Name, what[b.Key]))
			}
			do, source := safety.ContactAdvice(safety.ByBoard)
			out = append(out, fmt.Sprintf("%s: what is made in the same kitchen as %s: %s (%s).", g.Name, words.And(names),
				do, source))
		}
	}
	return out
}

// way is how an allergen may get out of a dish, or into it.
type way struct {
	fries, handled bool
	machines       []string
}

// traced reports whether traces matter to a guest.
func traced(g *planner.Guest) bool {
	return len(g.Allergies) > 0 || slices.ContainsFunc(g.Diets,
		func(d string) bool { return slices.Contains(forAllergy, safety.Diet(d)) })
}

// carries is the word of what a dish surely has in it that a guest must not get traces of, optional or not; else empty.
func carries(p *planner.Party, d *planner.Dish, g *planner.Guest) string {
	for i := range d.Ingredients {
		for _, f := range Against(d.Ingredients[i].Name, g, p.AuthoritiesOf()) {
			if f.Sure && f.Strict {
				return f.Word
			}
		}
	}
	return ""
}

func does(d *planner.Dish, work *regexp.Regexp) bool {
	for i := range d.Steps {
		if work.MatchString(d.Steps[i].Do) {
			return true
		}
	}
	return false
}

func fries(d *planner.Dish) bool {
	if does(d, deepFried) {
		return true
	}
	for _, m := range machinesOf(d) {
		if strings.Contains(m, "fryer") && !strings.Contains(m, "air") {
			return true
		}
	}
	return false
}

// shared lists the appliances that two dishes share. A kettle only boils water.
func shared(a, b []string) []string {
	var out []string
	for _, m := range a {
		for _, n := range b {
			if m == n && m != "kettle" && !strings.Contains(m, "fryer") {
				out = append(out, m)
			}
		}
	}
	return out
}

func machinesOf(d *planner.Dish) []string {
	var out []string
	seen := map[string]bool{}
	for i := range d.Steps {
		for _, u := range d.Steps[i].Uses {
			if name := strings.ToLower(u.Name); u.What == planner.AnAppliance && !seen[name] {
				seen[name] = true
				out = append(out, name)
			}
		}
	}
	return out
}
