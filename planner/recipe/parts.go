package recipe

import (
	"slices"
	"strings"

	"tureen/planner/safety"
	"tureen/planner/words"
)

// placeUnnamed gives perishable ingredients that no step names ("add the meat") to the first step of their part, so
// that their limits hold from the start.
func (r *Reading) placeUnnamed() {
	for g := range r.Ingredients {
		k, _ := kindOf(r.Ingredients[g].Name)
		if k == safety.None || slices.ContainsFunc(r.Steps, func(s Step) bool { return slices.Contains(s.Parts, g) }) {
			continue
		}
		first := slices.IndexFunc(r.Steps, func(s Step) bool {
			return !s.Ready && s.kind != standing && s.Section == r.Ingredients[g].Section
		})
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
	said := map[string]bool{}
	for _, w := range strings.FieldsFunc(lower(s.Do), func(c rune) bool {
		return c == ' ' || c == ',' || c == ';' || c == '.' || c == '(' || c == ')' || c == ':'
	}) {
		said[words.Singular(w)] = true
	}
	everything := said["everything"] || strings.Contains(lower(s.Do), "all the ingredients")
	rest := containsWord(s.Do, "remaining ingredients", "rest of the ingredients", "other ingredients", "add the rest")
	for i, g := range r.Ingredients {
		named := everything || rest && !r.namedBefore(s, i) || r.groupNamed(said, g.Name) || g.Section != "" &&
			said[words.Singular(Head(g.Section))] && !r.begun(s, g.Section)
		head := Head(g.Name)
		for _, w := range strings.Fields(lower(g.Name)) {
			w = words.Singular(strings.Trim(w, ",'"))
			if len(w) > 2 && said[w] && !adjectives[w] && !participles[w] && !commonWords[w] && (w == head || !madeOf[head]) {
				named = true
			}
		}
		if s.Ready {
			named = g.Section == s.Section && r.Ingredients[i].madeReady()
		}
		if named && (s.Ready || g.Section == "" || s.Section == "" || g.Section == s.Section || said[head]) {
			out = append(out, i)
		}
	}
	return out
}

// groups are words that a method has for ingredients of a kind: add the meat.
var groups = []struct {
	word  string
	kinds []safety.Kind
}{
	{"meat", []safety.Kind{safety.RedMeat, safety.GroundMeat, safety.Poultry, safety.CuredMeat}},
	{"fish", []safety.Kind{safety.Fish}},
	{"bird", []safety.Kind{safety.Poultry}}, {"shellfish", []safety.Kind{safety.Shellfish}},
	{"seafood", []safety.Kind{safety.Shellfish, safety.Fish}},
}

// groupNamed reports whether a step's words speak of an ingredient by its group.
func (r *Reading) groupNamed(words map[string]bool, name string) bool {
	k, _ := kindOf(name)
	for _, g := range groups {
		if words[g.word] && !words["sauce"] && !words["stock"] && slices.Contains(g.kinds, k) {
			return true
		}
	}
	return false
}

// namedBefore reports whether a step before this one names an ingredient; what was made ready only is still to go in.
func (r *Reading) namedBefore(s *Step, ingredient int) bool {
	for i := range r.Steps {
		if &r.Steps[i] == s {
			return false
		}
		if !r.Steps[i].Ready && slices.Contains(r.Steps[i].Parts, ingredient) {
			return true
		}
	}
	return false
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
var madeOf = set(`stock broth oil powder sauce vinegar syrup juice paste purée puree extract flakes sugar flour seed ` +
	`wine water zest rind peel cube granule`)

var commonWords = set(`and with the for bunch head stick skin bone piece ball of tablespoon nice big`)
