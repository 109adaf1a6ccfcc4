package recipe

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/words"
)

// How a reading's steps are put into another order, divided, and added to. Each keeps the number that it was shown
// with; what is new has the next one.

// orderAnew lets a step come after others, by their numbers; 0 alone: after none. Where one of them stands behind it,
// the steps are put into another order.
func (r *Reading) orderAnew(i int, numbers []int) error {
	after := []int{}
	for _, n := range numbers {
		at := r.Numbered(n)
		switch {
		case n == 0:
		case at < 0:
			return r.noStep(n)
		case at == i:
			return Refuse(fmt.Sprintf("Step %d cannot come after itself.", n), "")
		default:
			after = append(after, at)
		}
	}
	steps := slices.Clone(r.Steps)
	explicit := r.Order()
	for n := range steps {
		if steps[n].after == nil {
			steps[n].after = explicit[n]
		}
	}
	steps[i].after, steps[i].straight = after, false
	if i+1 < len(steps) && slices.Max(append([]int{-1}, after...)) > i {
		steps[i+1].straight = false
	}
	order := inOrder(steps)
	if order == nil {
		return Refuse(fmt.Sprintf("Step %d comes after step %d itself, over what stands between them.", numbers[0],
			r.Number(i)), fmt.Sprintf("Say first what step %d comes after, as in: %d needs nothing before it.", numbers[0],
			numbers[0]))
	}
	r.Steps = steps
	r.rearrange(order)
	return nil
}

// inOrder puts steps behind what they come after, else as they stand: their indexes; nil where that goes in a circle.
func inOrder(steps []Step) (order []int) {
	placed := make([]bool, len(steps))
	for len(order) < len(steps) {
		next := -1
		for i := range steps {
			if !placed[i] && !slices.ContainsFunc(steps[i].after, func(a int) bool { return !placed[a] }) {
				next = i
				break
			}
		}
		if next < 0 {
			return nil
		}
		placed[next] = true
		order = append(order, next)
	}
	return order
}

// rearrange puts the steps, by their indexes, into another order.
func (r *Reading) rearrange(order []int) {
	if slices.IsSorted(order) {
		return
	}
	to := make([]int, len(order)+1)
	to[len(order)] = len(order)
	steps := make([]Step, len(order))
	for n, i := range order {
		to[i], steps[n] = n, r.Steps[i]
	}
	for n := range steps {
		after := make([]int, len(steps[n].after))
		for k, a := range steps[n].after {
			after[k] = to[a]
		}
		slices.Sort(after)
		steps[n].after = after
	}
	r.Steps, r.Remarks = steps, slices.Clone(r.Remarks)
	for n := range r.Remarks {
		r.Remarks[n].step = to[min(r.Remarks[n].step, len(order))]
	}
}

// stepsIn are the steps that are said in a few words, one after the other; each: every order is one. The error is a
// *[Refusal].
func (r *Reading) stepsIn(text string, each bool) (out []Step, err error) {
	for _, said := range strings.FieldsFunc(text, func(c rune) bool { return c == ';' || c == '\n' }) {
		for _, p := range saidInTurn(said, each) {
			all := stepsOf(p)
			if len(all) == 0 {
				all = []Step{{Do: words.Upper(p), Attention: planner.Hands, Where: planner.Counter, clauses: 1,
					Time: measure.Duration{Low: readyLow, High: readyHigh}, Guessed: true}}
			}
			out = append(out, all...)
		}
	}
	if len(out) == 0 || len(out)+len(r.Steps) > MaxSteps {
		return nil, Refuse("I do not know what "+fmt.Sprintf("%q", words.Cut(text, 40))+" adds.",
			"Write it as: add a step after 3: chill 1 hour.")
	}
	next := 0
	for i := range r.Steps {
		next = max(next, r.Steps[i].number)
	}
	for i := range out {
		out[i].number, out[i].straight, out[i].spans = next+1+i, false, nil
		out[i].From = Place{Text: out[i].Do}
	}
	return out, nil
}

// wantedBy is the index of the later step that takes in what new steps behind the i-th work with, where the step that
// comes next does not: the gelatine that is soaked while the fruit simmers; -1: what comes next waits for them.
func (r *Reading) wantedBy(i int, all []Step) int {
	of := map[int]bool{}
	for k := range all {
		for _, g := range r.Named(words.Small(all[k].Do)) {
			of[g-1] = true
		}
	}
	takes := func(n int) bool {
		return slices.ContainsFunc(r.Steps[n].Parts, func(g int) bool { return of[g] })
	}
	if len(of) == 0 || takes(i) {
		return -1
	}
	first := -1
	for n := i + 1; n < len(r.Steps); n++ {
		if !takes(n) || r.Steps[n].Ready {
			continue
		}
		if slices.Contains(r.Order()[n], i) {
			return -1
		}
		if first < 0 {
			first = n
		}
	}
	return first
}

// preparesFor reports whether new steps before the i-th prepare what no step has taken in by then, so that they wait
// for none: peeling and chopping, and no frying.
func (r *Reading) preparesFor(i int, all []Step) bool {
	for k := range all {
		first, _ := words.First(words.Small(all[k].Do))
		named := r.Named(words.Small(all[k].Do))
		v := method.Verb(first)
		if v == nil || len(named) == 0 {
			return false
		}
		for _, g := range named {
			f, _ := food.Find(r.Ingredients[g-1].Name)
			if s := method.Sense(v.Name, f.Class); s == nil || s.Per != "kg" && s.Per != "piece" {
				return false
			}
		}
		for _, s := range r.Steps[:i] {
			if !s.Ready && slices.ContainsFunc(named, func(g int) bool { return slices.Contains(s.Parts, g-1) }) {
				return false
			}
		}
	}
	return true
}

// put puts new steps before or behind the i-th, one after the other, between that and what comes next to it, or, where
// that is not -1, the wanted-th.
func (r *Reading) put(i int, all []Step, before bool, wanted int) {
	steps := slices.Clone(r.Steps)
	for n, after := range r.Order() {
		steps[n].after = after
	}
	at := i + 1
	if before {
		at = i
	}
	moved := func(a int) int {
		if a >= at {
			return a + len(all)
		}
		return a
	}
	for n := range steps {
		after := make([]int, 0, len(steps[n].after))
		for _, a := range steps[n].after {
			if a == i && !before && wanted < 0 {
				a = at + len(all) - 1 // behind the last new one
			} else {
				a = moved(a)
			}
			after = append(after, a)
		}
		steps[n].after = after
	}
	if wanted >= 0 && !before {
		steps[wanted].after = append(steps[wanted].after, at+len(all)-1)
	}
	for k := range all {
		all[k].after = []int{at + k - 1}
	}
	all[0].after = []int{i}
	switch {
	case before && r.preparesFor(i, all):
		all[0].after, steps[i].after = []int{}, append(steps[i].after, at+len(all)-1)
	case before:
		all[0].after, steps[i].after = steps[i].after, []int{at + len(all) - 1}
	}
	if at < len(steps) {
		steps[at].straight = false
	}
	r.Steps = slices.Insert(steps, at, all...)
	r.Remarks = slices.Clone(r.Remarks)
	for n := range r.Remarks {
		if r.Remarks[n].step > i {
			r.Remarks[n].step += len(all)
		}
	}
}

// split puts several steps in the place of the i-th; the first keeps its number, and what it took in goes into that of
// them which names it.
func (r *Reading) split(i int, all []Step) {
	old, first := r.Steps[i], all[0]
	first.number, first.Section, first.From, first.straight = old.number, old.Section, old.From, old.straight
	for k := range all {
		all[k].Section, all[k].Parts = old.Section, nil
		all[k].number = all[max(k, 1)].number - 1
	}
	first.Parts = nil
	r.put(i, all[1:], false, -1)
	first.after = r.Steps[i].after
	r.Steps[i] = first
	for _, g := range old.Parts {
		to := i
		for k := i; k < i+len(all); k++ {
			if slices.Contains(r.Named(words.Small(r.Steps[k].Do)), g+1) {
				to = k
				break
			}
		}
		r.Steps[to].Parts = append(r.Steps[to].Parts, g)
	}
}

// saidInTurn cuts a text behind each order that says how long: "poach it 25 min, and shred it"; each: behind every
// order.
func saidInTurn(said string, each bool) (out []string) {
	open := false
	for _, p := range times.Pieces(said) {
		timed := len(times.Lengths(p)) > 0
		switch n := len(out); {
		case p == "":
		case n > 0 && !method.Instructs(p):
			out[n-1] += ", " + p
		case n > 0 && open && (!each || timed):
			out[n-1] += " and " + p
		default:
			out = append(out, p)
		}
		open = len(out) > 0 && len(times.Lengths(out[len(out)-1])) == 0
	}
	return out
}

// Named are the ingredients, from 1, whose names a text has: all of it, or its last word.
func (r *Reading) Named(low string) (out []int) {
	for i := range r.Ingredients {
		name := words.Small(r.Ingredients[i].Name)
		w := strings.Fields(name)
		if len(w) > 0 && (words.Has(low, name) || words.Has(low, w[len(w)-1])) {
			out = append(out, i+1)
		}
	}
	return out
}
