package corrections

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner/food"
	"tureen/planner/method"
	"tureen/planner/recipe"
	"tureen/planner/times"
	"tureen/planner/ware"
	"tureen/planner/words"
)

// What is meant by a food or a part of the dish instead of a number, and what of a piece nobody has understood.

// ofFood are the indexes of the steps that work with what a text names: an ingredient, or a part of the dish.
func (r said) ofFood(low string) (out []int) {
	low = strings.TrimPrefix(strings.TrimSpace(low), "the ")
	part, foods := r.partNamed(low), r.foodsNamed(low)
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.Ready {
			continue
		}
		other := func(g int) bool { return r.Ingredients[g].Section != part }
		named := func(g int) bool { return slices.Contains(foods, g+1) }
		if words.Has(words.Small(s.Do), low) || slices.ContainsFunc(s.Parts, named) ||
			part != "" && len(s.Parts) > 0 && !slices.ContainsFunc(s.Parts, other) {
			out = append(out, i)
		}
	}
	return out
}

// apart lets the steps with one food come after none of those with another: "the beans don't wait for the lamb".
func (r said) apart(one, other string) (out []recipe.Correction) {
	ours, theirs := r.ofFood(one), r.ofFood(other)
	if len(ours) == 0 || len(theirs) == 0 {
		return nil
	}
	for _, i := range ours {
		if slices.Contains(theirs, i) {
			continue
		}
		after, cut := []int{}, false
		for _, a := range r.Order()[i] {
			if slices.Contains(theirs, a) && !slices.Contains(ours, a) {
				cut = true
				continue
			}
			after = append(after, r.Number(a))
		}
		if cut {
			if k := slices.Index(ours, i); k > 0 && len(after) == 0 {
				after = append(after, r.Number(ours[k-1]))
			}
			if len(after) == 0 {
				after = []int{0}
			}
			out = append(out, recipe.Correction{Step: r.Number(i), After: after})
		}
	}
	return out
}

// goesWith reads "the rosemary goes in with the onions": into the step that takes those in.
func (r said) goesWith(low string) (c recipe.Correction, ok bool) {
	a, b, ok := cutPhrase(low, "says goes with")
	if !ok {
		return c, false
	}
	one, with := r.foodNamed(a), r.foodNamed(b)
	if one == 0 || with == 0 || one == with {
		return c, false
	}
	i := slices.IndexFunc(r.Steps, func(s recipe.Step) bool { return !s.Ready && slices.Contains(s.Parts, with-1) })
	if i < 0 {
		return c, false
	}
	return recipe.Correction{Step: r.Number(i), Takes: []int{one}}, true
}

// partStep is the index of the last step that works with nothing but a part of the dish that a text names: the green
// sauce; -1: none does.
func (r said) partStep(low string) int {
	for _, g := range r.Ingredients {
		if g.Section == "" || !words.Has(low, words.Small(g.Section)) {
			continue
		}
		for i, s := range slices.Backward(r.Steps) {
			if !s.Ready && len(s.Parts) > 0 && !slices.ContainsFunc(s.Parts, func(p int) bool {
				return r.Ingredients[p].Section != g.Section
			}) {
				return i
			}
		}
	}
	return -1
}

// finished is the index of the step that leaves the dish as it is served: the last one that is no serving.
func (r said) finished() int {
	for i, s := range slices.Backward(r.Steps) {
		if first, _ := words.First(words.Small(s.Do)); !slices.Contains(phrases.Phrases("says served"), first) {
			return i
		}
	}
	return -1
}

// known are words that a correction may have whatever it is about.
var known = func() map[string]bool {
	out := map[string]bool{}
	for _, row := range words.Rows("phrases.tsv", table, 2) {
		for _, w := range words.Apart(strings.ReplaceAll(row[1], "|", " ")) {
			out[w] = true
		}
	}
	for w := range waitingWords {
		out[w] = true
	}
	for w := range ordinals {
		out[w] = true
	}
	for _, p := range placesSaid {
		for _, w := range p.words {
			for _, one := range words.Apart(w) {
				out[one] = true
			}
		}
	}
	return out
}()

// leftOver are the words of a piece that neither it nor the steps that it names explain.
func (r said) leftOver(low string, steps []int) (out []string) {
	rest := times.Without(times.Scaled(low))
	for _, lead := range []string{" until ", " till "} {
		if at := strings.Index(" "+rest, lead); at >= 0 {
			rest = rest[:at] // a sign in anybody's words
		}
	}
	touched := words.Has(low, "every")
	for _, w := range words.Apart(rest) {
		if len(w) < 2 || known[w] || r.explains(w, steps) || touched && method.Verb(w) != nil {
			continue
		}
		if t, ok := ware.First(w); ok && t.Name != "" || words.Has(low, ware.Of(w).Name) && ware.Of(w).Appliance {
			continue
		}
		out = append(out, w)
	}
	if t, ok := ware.First(rest); ok {
		out = slices.DeleteFunc(out, func(w string) bool { return words.Has(t.Name, w) })
	}
	return out
}

// explains reports whether a word is of the dish's name or of one of the steps.
func (r said) explains(w string, steps []int) bool {
	return hasWord(r.Title, w) || slices.ContainsFunc(steps, func(n int) bool { return r.tellsOf(n, w) })
}

// tellsOf reports whether a word is of a step: of its words, its verbs, or what it takes in.
func (r said) tellsOf(n int, w string) bool {
	i := r.Numbered(n)
	if i < 0 {
		return false
	}
	s, row := &r.Steps[i], verbOf(w)
	return hasWord(s.Do, w) || hasWord(s.Section, w) || hasWord(s.Until, w) || row != nil && row.Name == s.Verb() ||
		slices.ContainsFunc(s.Parts, func(g int) bool {
			return hasWord(r.Ingredients[g].Name, w) || hasWord(r.Ingredients[g].Section, w)
		})
}

// hasWord reports whether a text has a word, as of one or of many, or another form of the verb that it is.
func hasWord(text, w string) bool {
	one, row := words.Singular(w), verbOf(w)
	return slices.ContainsFunc(words.Apart(words.Small(text)), func(x string) bool {
		return x == w || words.Singular(x) == one || row != nil && method.Verb(x) == row
	})
}

// verbOf is the verb that a word is a form of: bakes, baking; nil: none.
func verbOf(w string) *food.Verb {
	if row := method.Verb(w); row != nil {
		return row
	}
	return method.Verb(strings.TrimSuffix(w, "s"))
}

// mostNear is how many things are offered that somebody perhaps meant.
const mostNear = 2

// near is what a piece that corrects nothing perhaps means, as one would say it, the likeliest first.
//
// Kept whole: each guess in turn, the likeliest first.
func (r said) near(piece string) (out []string) {
	low := words.Small(piece)
	add := func(parts ...string) {
		if one := strings.Join(parts, ""); len(out) < mostNear && !slices.Contains(out, one) {
			out = append(out, one)
		}
	}
	steps := r.stepsSaid(times.Without(times.Scaled(low)))
	steps = slices.DeleteFunc(steps, func(n int) bool { return r.Numbered(n) < 0 })
	lengths := times.Lengths(low)
	length := ""
	if len(lengths) == 1 {
		length = low[lengths[0].Start:lengths[0].End]
	}
	if do := r.workSaid(low); do != "" {
		if length != "" {
			do += ", " + length
		}
		if n, before := r.placeFor(do, steps, low); n > 0 {
			add("add a step ", map[bool]string{true: "before ", false: "after "}[before], strconv.Itoa(n), ": ", do)
		}
	}
	foods := r.foodsIn(low)
	if length != "" {
		for _, n := range append(steps, r.nearest(low)...) {
			add("step ", strconv.Itoa(n), " takes ", length)
		}
		return out
	}
	for _, h := range times.Heats(times.Scaled(low), false) {
		for i := range r.Steps {
			if r.Steps[i].Oven.Temperature != 0 {
				add("step ", strconv.Itoa(r.Number(i)), " at ", h.Setting.String())
			}
		}
	}
	switch len(steps) {
	case 1:
		add("remove ", strconv.Itoa(steps[0]))
		add(strconv.Itoa(steps[0]), " needs nothing before it")
	case 2:
		add(strconv.Itoa(steps[0]), " after ", strconv.Itoa(steps[1]))
		add("remove ", strconv.Itoa(steps[0]), " and ", strconv.Itoa(steps[1]))
	}
	for _, g := range foods {
		add("no ", words.Small(r.Ingredients[g-1].Name))
	}
	for _, n := range r.nearest(low) {
		add("remove ", strconv.Itoa(n))
	}
	return out
}

// workSaid is the work that a piece tells of, as an order: "chopping the parsnips" is "chop the parsnips"; empty: none.
func (r said) workSaid(low string) string {
	for _, lead := range phrases.Phrases("says a step") {
		low = strings.TrimPrefix(low, lead+" ")
	}
	low = strings.TrimLeft(low, " :,")
	w, _ := words.First(low)
	row := method.Verb(w)
	if row == nil || !strings.HasPrefix(low, w) || waitingWords[w] {
		return ""
	}
	rest := strings.TrimSpace(times.Without(times.Scaled(low[len(w):])))
	if m := placeRE.FindStringSubmatch(rest); m != nil {
		rest = m[1]
	}
	for _, p := range phrases.Phrases("says takes") {
		rest, _, _ = strings.Cut(rest+" ", " "+p+" ")
	}
	do := strings.TrimRight(row.Name+" "+strings.TrimSpace(rest), " ,.")
	if len(strings.Fields(do)) < 2 || !method.Instructs(do) {
		return ""
	}
	return do
}

// placeFor is where work goes that has no place yet: where that is said, before the first step that takes in what it
// names, or behind the last.
func (r said) placeFor(do string, steps []int, low string) (step int, before bool) {
	if m := placeRE.FindStringSubmatch(low); m != nil && len(steps) > 0 {
		return steps[len(steps)-1], strings.EqualFold(m[2], "before")
	}
	if len(steps) == 1 {
		return 0, false // it is said of that step
	}
	foods := r.foodsIn(words.Small(do))
	for i := range r.Steps {
		if s := &r.Steps[i]; !s.Ready && slices.ContainsFunc(s.Parts, func(g int) bool {
			return slices.Contains(foods, g+1)
		}) {
			return r.Number(i), true
		}
	}
	if len(r.Steps) == 0 {
		return 0, false
	}
	return r.Number(len(r.Steps) - 1), false
}

// foodsIn are the ingredients, from 1, whose names stand in a text.
func (r said) foodsIn(low string) (out []int) {
	for _, w := range words.Apart(low) {
		for _, g := range r.foodsNamed(w) {
			if !slices.Contains(out, g) && len(w) > 2 && !known[w] {
				out = append(out, g)
			}
		}
	}
	return out
}

// nearest are the numbers of the steps that share most words with a text, those that share most first.
func (r said) nearest(low string) (out []int) {
	shared := map[int]int{}
	for i := range r.Steps {
		n := r.Number(i)
		for _, w := range words.Apart(low) {
			if len(w) > 2 && !known[w] && r.tellsOf(n, w) {
				shared[n]++
			}
		}
		if shared[n] > 0 {
			out = append(out, n)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return shared[b] - shared[a] })
	return out
}
