package menu

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
)

// pairs are what the guest's diets do not have together.
func pairs(g *planner.Guest) []safety.Pair {
	var out []safety.Pair
	for _, d := range g.Diets {
		out = append(out, safety.Pairs(safety.Diet(d))...)
	}
	return out
}

// holder is the ingredient of a dish that most surely has something in it; nil where none has.
func holder(d *planner.Dish, tag food.Tag) (in *planner.Ingredient, c safety.Certainty, word string) {
	for i := range d.Ingredients {
		got, w := safety.Told(d.Ingredients[i].Name, tag)
		if got != "" && (c == "" || c == safety.MayContain && got == safety.Contains) {
			in, c, word = &d.Ingredients[i], got, w
		}
	}
	return in, c, word
}

// together finds in one dish what the guest's diets do not have together.
func together(d *planner.Dish, g *planner.Guest) []Reason {
	var out []Reason
	for _, p := range pairs(g) {
		a, first, one := holder(d, p.First)
		b, second, other := holder(d, p.Second)
		if a == nil || b == nil || a == b && (first == safety.MayContain || second == safety.MayContain) {
			continue
		}
		sure := p.Certainty == safety.Contains && first == safety.Contains && second == safety.Contains
		text := fmt.Sprintf("not %s with %s: %s (%s and %s; %s)", p.Diet, a.Name, p.Text, one, other, p.Source)
		if !sure {
			text = "perhaps " + text
		}
		out = append(out, Reason{b.Name, a.Optional || b.Optional, Finding{Text: text, Word: other, Sure: sure}})
	}
	return out
}

// meetings says where a menu serves a guest, in one meal, what the diet does not have together.
func meetings(p *planner.Party) []string {
	var out []string
	for i := range p.Guests {
		g := &p.Guests[i]
		for _, pair := range pairs(g) {
			if pair.Certainty != safety.Contains {
				continue
			}
			var firsts, seconds []string
			for j := range p.Courses {
				c := &p.Courses[j]
				if !Eats(c, g) {
					continue
				}
				for _, d := range menuOf(p, c) {
					_, one, _ := holder(d, pair.First)
					_, two, _ := holder(d, pair.Second)
					if one == safety.Contains && two != safety.Contains {
						firsts = append(firsts, d.Name)
					}
					if two == safety.Contains && one != safety.Contains {
						seconds = append(seconds, d.Name)
					}
				}
			}
			if len(firsts) > 0 && len(seconds) > 0 {
				out = append(out, fmt.Sprintf("%s (%s): %s has %s and %s has %s: not in one meal where that is kept (%s).",
					g.Name, pair.Diet, firsts[0], pair.First, seconds[0], pair.Second, pair.Source))
			}
		}
	}
	return slices.Compact(out)
}
