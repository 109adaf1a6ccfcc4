package recipe

import (
	"tureen/planner/ingredient"
	"tureen/planner/words"
)

// partsOf finds the ingredients that a step of our own export names, by their head nouns.
func (r *Reading) partsOf(s *Step) []int {
	said := map[string]bool{}
	for _, w := range words.Apart(words.Small(s.Do)) {
		said[words.Singular(w)] = true
	}
	var out []int
	for i := range r.Ingredients {
		g := &r.Ingredients[i]
		if s.Ready && g.Section == s.Section && g.madeReady() || !s.Ready && said[words.Singular(ingredient.Head(g.Name))] {
			out = append(out, i)
		}
	}
	return out
}
