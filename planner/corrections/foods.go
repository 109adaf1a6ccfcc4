package corrections

import (
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/ingredient"
	"tureen/planner/method"
	"tureen/planner/recipe"
	"tureen/planner/times"
	"tureen/planner/words"
)

// What is said of the ingredients: that one is none, is missing, is another, or is more or less.

// foodsSaid reads what one piece says of an ingredient.
func (r said) foodsSaid(said string) ([]recipe.Correction, bool) {
	said = strings.TrimSpace(strings.TrimRight(said, ".!"))
	low := words.Small(said)
	if len(low) != len(said) || low == "" || len(times.Lengths(low)) > 0 || len(r.Ingredients) == 0 {
		return nil, false
	}
	if all, ok := r.noFood(low); ok {
		return all, true
	}
	if all, ok := r.otherFood(said, low); ok {
		return all, true
	}
	if all, ok := r.moreFood(said, low); ok {
		return all, true
	}
	return r.amountSaid(said, low)
}

// noFood reads "no cabbage", "walnut is not an ingredient", "leave out the nuts".
func (r said) noFood(low string) (out []recipe.Correction, ok bool) {
	name := ""
	for _, p := range phrases.Phrases("says no food") {
		if rest, cut := strings.CutPrefix(low, p+" "); cut && len(rest) > len(name) {
			name = rest
		}
	}
	for _, p := range phrases.Phrases("says is no food") {
		if rest, cut := strings.CutSuffix(low, " "+p); cut {
			name = rest
		}
	}
	if name == "" {
		return nil, false
	}
	for _, p := range phrases.Phrases("says in it") {
		name = strings.TrimSuffix(name, " "+p)
	}
	for _, one := range times.Pieces(name) {
		all := r.foodsNamed(one)
		if len(all) == 0 {
			return nil, false
		}
		for _, g := range all {
			out = append(out, recipe.Correction{Food: g, Drop: true})
		}
	}
	return out, true
}

// otherFood reads "rename flour to spelt flour", "cream instead of coconut milk", "swap the butter for oil".
func (r said) otherFood(said, low string) ([]recipe.Correction, bool) {
	old, name := "", ""
	for _, p := range phrases.Phrases("says instead") { // Y instead of X
		if at := strings.Index(low, " "+p+" "); at > 0 {
			old, name = said[at+len(p)+2:], said[:at]
			for _, lead := range phrases.Phrases("says use") {
				if rest, ok := strings.CutPrefix(words.Small(name), lead+" "); ok {
					name = name[len(name)-len(rest):]
				}
			}
		}
	}
	for _, p := range phrases.Phrases("says swap") { // swap X for Y
		rest, ok := strings.CutPrefix(low, p+" ")
		for _, by := range phrases.Phrases("says by") {
			if at := strings.Index(rest, " "+by+" "); ok && at > 0 && old == "" {
				rest = said[len(said)-len(rest):]
				old, name = rest[:at], rest[at+len(by)+2:]
			}
		}
	}
	g := r.foodNamed(words.Small(old))
	if name = strings.TrimPrefix(strings.TrimPrefix(name, "the "), "a "); g == 0 || name == "" {
		return nil, false
	}
	if ingredient.StartsAmount(name) {
		return []recipe.Correction{{Food: g, Line: name}}, true
	}
	return []recipe.Correction{{Food: g, Line: r.Ingredients[g-1].Written("", name)}}, true
}

// moreFood reads "add 2 tbsp dripping", "you forgot the salt", "chives are missing", "add 6 anchovies to the sauce".
func (r said) moreFood(said, low string) ([]recipe.Correction, bool) {
	line := ""
	for _, p := range phrases.Phrases("says more food") {
		if rest, ok := strings.CutPrefix(low, p+" "); ok && len(rest) > len(line) {
			line = said[len(said)-len(rest):]
		}
	}
	for _, p := range phrases.Phrases("says missing") {
		if rest, ok := strings.CutSuffix(low, " "+p); ok {
			line = said[:len(rest)]
		}
	}
	if line == "" || strings.ContainsAny(line, ":;") || method.Instructs(line) && !ingredient.StartsAmount(line) {
		return nil, false
	}
	c := recipe.Correction{Line: line}
	for _, p := range phrases.Phrases("says for") { // to the sauce; to step 3
		at := strings.LastIndex(line, " "+p+" ")
		if at < 0 {
			continue
		}
		where := words.Small(line[at+len(p)+2:])
		if n := r.stepsSaid(where); words.Has(where, "step") && len(n) == 1 {
			c.Line, c.Step = line[:at], n[0]
		} else if part := r.partNamed(where); part != "" {
			c.Line, c.Part = line[:at], part
		} else if r.isDish(where) {
			c.Line = line[:at]
		}
	}
	c.Line = strings.TrimSuffix(strings.TrimPrefix(strings.TrimPrefix(c.Line, "the "), "some "), " too")
	l, err := ingredient.ParseAs(r.Usage, c.Line)
	if err != nil || l.Name == "" || len(strings.Fields(l.Name)) > 4 || words.Has(words.Small(l.Name), "step", "steps") {
		return nil, false
	}
	if _, known := food.Find(l.Name); !known && l.Amount.IsZero() {
		return nil, false
	}
	if g := r.foodNamed(words.Small(l.Name)); g > 0 && c.Step > 0 && l.Amount.IsZero() {
		return []recipe.Correction{{Step: c.Step, Takes: []int{g}}}, true
	}
	return []recipe.Correction{c}, true
}

// amountSaid reads "bacon is 6 slices", "it's 3 lemons, not 1", "use 600 ml of stock", "5 eggs instead of 4".
func (r said) amountSaid(said, low string) ([]recipe.Correction, bool) {
	for _, p := range append(phrases.Phrases("says instead"), "not") {
		if at := strings.LastIndex(low, " "+p+" "); at > 0 && ingredient.StartsAmount(said[at+len(p)+2:]) {
			said, low = strings.TrimRight(said[:at], ", "), strings.TrimRight(low[:at], ", ")
		}
	}
	for _, p := range phrases.Phrases("says amounts to") {
		at := strings.Index(low, " "+p+" ")
		if p == ":" {
			at = strings.Index(low, ": ") - 1
		}
		if at <= 0 {
			continue
		}
		amount := strings.TrimSpace(said[at+len(p)+1:])
		for _, lead := range phrases.Phrases("says use") {
			amount = strings.TrimPrefix(amount, lead+" ")
		}
		g := r.foodNamed(low[:at])
		if g == 0 || !ingredient.StartsAmount(amount) {
			continue
		}
		line := r.Ingredients[g-1].Written(amount, "")
		if l, err := ingredient.ParseAs(r.Usage, line); err != nil || len(r.foodsNamed(words.Small(l.Name))) == 0 {
			return nil, false
		}
		return []recipe.Correction{{Food: g, Line: line}}, true
	}
	for _, lead := range phrases.Phrases("says use") {
		if rest, ok := strings.CutPrefix(low, lead+" "); ok {
			said, low = said[len(said)-len(rest):], rest
			break
		}
	}
	if !ingredient.StartsAmount(said) {
		return nil, false
	}
	l, err := ingredient.ParseAs(r.Usage, said)
	if err != nil || l.Amount.IsZero() {
		return nil, false
	}
	g := r.foodNamed(words.Small(l.Name))
	if g == 0 {
		return nil, false
	}
	at := strings.LastIndex(low, words.Small(l.Name))
	if at <= 0 {
		return nil, false
	}
	amount := strings.TrimSuffix(strings.TrimSpace(said[:at]), " of")
	return []recipe.Correction{{Food: g, Line: r.Ingredients[g-1].Written(amount, "")}}, true
}

// foodNamed is the one ingredient, from 1, that a text names and nothing else; 0: none, or several.
func (r said) foodNamed(low string) int {
	if all := r.foodsNamed(low); len(all) == 1 {
		return all[0]
	}
	return 0
}

// foodsNamed are the ingredients, from 1, that a text names and nothing else: by the whole name, or words of it that
// end with its last one, or else by some of its words; for a part of the dish, where that is said.
func (r said) foodsNamed(low string) (out []int) {
	low = strings.Trim(low, " .,;:!?\"'“”")
	part := ""
	if a, b, ok := strings.Cut(low, " for the "); ok && r.partNamed(b) != "" {
		low, part = a, r.partNamed(b)
	} else if a, b, ok := strings.Cut(low, " in the "); ok && r.partNamed(b) != "" {
		low, part = a, r.partNamed(b)
	}
	for _, lead := range phrases.Phrases("says the") {
		low = strings.TrimPrefix(low, lead+" ")
	}
	if low == "" {
		return nil
	}
	said := r.nameWords(low)
	best := 0
	for i := range r.Ingredients {
		g := &r.Ingredients[i]
		if part != "" && g.Section != part {
			continue
		}
		have := r.nameWords(words.Small(g.Name))
		fit := 0
		switch {
		case slices.Equal(said, have), slices.Equal(said, r.nameWords(words.Small(g.Written("", "")))),
			slices.Equal(said, r.nameWords(words.Small(g.Text))):
			fit = 3
		case !within(said, have):
		case said[len(said)-1] == have[len(have)-1]:
			fit = 2
		default:
			fit = 1
		}
		if fit > best {
			best, out = fit, nil
		}
		if fit == best && fit > 0 {
			out = append(out, i+1)
		}
	}
	return out
}

// nameWords are the words of a name, each as of one.
func (r said) nameWords(low string) (out []string) {
	for _, w := range strings.FieldsFunc(low, func(c rune) bool { return strings.ContainsRune(" ,.()&/", c) }) {
		out = append(out, words.Singular(w))
	}
	return out
}

// within reports whether all words stand among others.
func within(some, all []string) bool {
	return len(some) > 0 && !slices.ContainsFunc(some, func(w string) bool { return !slices.Contains(all, w) })
}

// partNamed is the part of the dish that a text names; empty: none.
func (r said) partNamed(low string) string {
	low = strings.TrimPrefix(strings.TrimSpace(low), "the ")
	for i := range r.Ingredients {
		if s := r.Ingredients[i].Section; s != "" && words.Singular(words.Small(s)) == words.Singular(low) {
			return s
		}
	}
	return ""
}

// isDish reports whether a text means the dish as a whole: it, the list, the soup of a leek soup.
func (r said) isDish(low string) bool {
	low = strings.TrimPrefix(low, "the ")
	return slices.Contains(phrases.Phrases("says dish"), low) || low != "" && words.Has(words.Small(r.Title), low)
}
