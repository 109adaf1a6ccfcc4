package recipe

import (
	"slices"
	"strings"

	"tureen/planner/doing"
	"tureen/planner/ingredient"
	"tureen/planner/method"
	"tureen/planner/remark"
	"tureen/planner/times"
	"tureen/planner/words"
)

// putsShort reads what a cook in a hurry notes between instructions, without a verb: food that goes somewhere ("sauce
// around."), in some amount ("5 g chives."), or for so long ("fish skin side down, 3 min.").
func (m *maker) putsShort(s *sentence) bool {
	low := words.Small(s.text)
	f := strings.Fields(low)
	all := times.Lengths(low)
	if s.note || s.about || m.said == 0 || len(f) == 1 && !m.listed(f[0]) || len(f) > mostShort ||
		words.Has(low, tellsOf...) ||
		len(all) == 0 && !strings.HasSuffix(low, ".") || method.Instructs(s.text) {
		return false
	}
	if _, says := remark.Of(low); says || remark.Supposes(low) {
		return false
	}
	if ingredient.AmountFirst(m.r.Usage, s.text) {
		l, err := ingredient.ParseAs(m.r.Usage, s.text)
		s.adds = err == nil && isFood(strings.Trim(words.Small(l.Name), "."))
		return s.adds
	}
	n := 0
	for n < len(f) && m.isHere(strings.Trim(f[n], ".,;:")) {
		n++
	}
	switch {
	case n == 0:
	case len(all) > 0:
		a := doing.Act{Text: s.text, American: m.american}
		s.adds = len(all) == 1 && !all[0].UpTo && doing.WantsTime(s.text) == 0 && a.Kind() == doing.ByHand
	default:
		s.adds = n == len(f) || putWhere[strings.Trim(f[n], ".,;:")]
	}
	return s.adds
}

// mostShort is how many words such a note has at most. Common practice, no source.
const mostShort = 10

// listed reports whether a word names a line of the ingredients: "Armagnac."
func (m *maker) listed(w string) bool {
	w = words.Singular(strings.Trim(w, ".,;:"))
	return slices.ContainsFunc(m.r.Ingredients, func(g Ingredient) bool {
		f := strings.Fields(words.Small(g.Name))
		return len(f) > 0 && words.Singular(f[len(f)-1]) == w
	})
}

// isHere reports whether a word is a food, a part of the dish, or what a method makes.
func (m *maker) isHere(w string) bool {
	if isFood(w) || madeHere[w] || m.listed(w) {
		return true
	}
	for i := range m.r.Ingredients {
		if w != "" && m.r.Ingredients[i].Section == w {
			return true
		}
	}
	return false
}

// putWhere say where food goes, tellsOf that something is told of it, and nothing to do.
var putWhere, tellsOf = phraseSet("put where"), phrases.Phrases("tells of")
