package recipe

import (
	"slices"
	"strings"

	"tureen/planner/safety"
)

// placeUnnamed gives perishable ingredients that no step names ("add the meat") to the first step of their part, so
// that their limits hold from the start.
func (r *Reading) placeUnnamed() {
	for g := range r.Ingredients {
		k, _ := kindOf(r.Ingredients[g].Name)
		if k == safety.None || slices.ContainsFunc(r.Steps, func(s Step) bool { return slices.Contains(s.Parts, g) }) {
			continue
		}
		first := slices.IndexFunc(r.Steps, func(s Step) bool { return !s.Ready && s.kind != standing && s.Section == r.Ingredients[g].Section })
		if first < 0 {
			first = slices.IndexFunc(r.Steps, func(s Step) bool { return !s.Ready && s.kind != standing })
		}
		if first >= 0 {
			r.Steps[first].Parts = append(r.Steps[first].Parts, g)
		}
	}
}

// partsOf finds the ingredients that a step names, by their head nouns.
func (r *Reading) partsOf(s *Step) []int {
	var out []int
	words := map[string]bool{}
	for _, w := range strings.FieldsFunc(lower(s.Do), func(c rune) bool {
		return c == ' ' || c == ',' || c == ';' || c == '.' || c == '(' || c == ')' || c == ':'
	}) {
		words[Singular(w)] = true
	}
	everything := words["everything"] || strings.Contains(lower(s.Do), "all the ingredients")
	for i, g := range r.Ingredients {
		named := everything || g.Section != "" && words[Singular(Head(g.Section))] && !r.begun(s, g.Section)
		head := Head(g.Name)
		for _, w := range strings.Fields(lower(g.Name)) {
			w = Singular(strings.Trim(w, ",'"))
			if len(w) > 2 && words[w] && !adjectives[w] && !participles[w] && !commonWords[w] && (w == head || !madeOf[head]) {
				named = true
			}
		}
		if s.Ready {
			named = g.Section == s.Section && r.Ingredients[i].madeReady()
		}
		if named && (s.Ready || g.Section == "" || s.Section == "" || g.Section == s.Section || words[head]) {
			out = append(out, i)
		}
	}
	return out
}

// begun reports whether an earlier step made the part that is named.
func (r *Reading) begun(s *Step, section string) bool {
	for i := range r.Steps {
		o := &r.Steps[i]
		if o == s {
			return false
		}
		if !o.Ready && (o.Section == section || containsWord(o.Do, section, Head(section))) {
			return true
		}
	}
	return false
}

// madeOf are heads of names whose other words say what they are made of: beef stock is no beef.
var madeOf = set(`stock broth oil powder sauce vinegar syrup juice paste purée puree extract flakes sugar flour seed wine water zest rind peel cube granule`)

var commonWords = set(`and with the for bunch head stick skin bone piece ball of tablespoon nice big`)
