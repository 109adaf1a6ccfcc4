package recipe

import "slices"

// Order is, for each step, the steps that it comes right after: those that left what it takes in, those that made
// ready what it needs first, and for the last whatever nothing else takes in.
func (r *Reading) Order() [][]int {
	out := make([][]int, len(r.Steps))
	open := map[int]bool{}
	for i := range r.Steps {
		s := &r.Steps[i]
		out[i] = slices.Clone(s.after)
		for o := range i {
			if !s.told && r.Steps[o].Ready && !s.Ready && (r.uses(o) == i || r.shares(o, i)) && !reached(out, i, o) {
				out[i] = append(out[i], o)
			}
		}
		for _, a := range out[i] {
			delete(open, a)
		}
		open[i] = true
	}
	if n := len(r.Steps) - 1; n >= 0 && !r.Steps[n].told {
		for o := range open {
			if o != n && !slices.Contains(out[n], o) {
				out[n] = append(out[n], o)
			}
		}
	}
	for i := range out {
		out[i] = slices.DeleteFunc(slices.Clone(out[i]), func(o int) bool {
			at := r.cookedThroughIn(o)
			if at == 0 || at >= i || r.Steps[i].told || reached(out, at, o) || !reached(out, i, at) {
				return false
			}
			out[at] = append(out[at], o)
			return true
		})
	}
	for i := range out {
		slices.Sort(out[i])
	}
	return out
}

// shares reports whether a step takes in what another has made ready.
func (r *Reading) shares(ready, i int) bool {
	return slices.ContainsFunc(r.Steps[i].Parts, func(g int) bool { return slices.Contains(r.Steps[ready].Parts, g) })
}

// reached reports whether a step comes after another, over any number of steps.
func reached(after [][]int, from, to int) bool {
	return slices.ContainsFunc(after[from], func(a int) bool { return a == to || a > to && reached(after, a, to) })
}

// uses is the step that needs first what a step of making ready has made: the first that names any of it, else the
// first of its part, else the first.
func (r *Reading) uses(ready int) int {
	first := -1
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.Ready {
			continue
		}
		for _, g := range s.Parts {
			if slices.Contains(r.Steps[ready].Parts, g) {
				return i
			}
		}
		if first < 0 || s.Section == r.Steps[ready].Section && r.Steps[first].Section != s.Section {
			first = i
		}
	}
	return first
}

// direct are the steps of a list that none of the others comes after.
func (r *Reading) direct(all []int) []int {
	out := []int{}
	for _, a := range all {
		if !slices.ContainsFunc(all, func(o int) bool { return o > a && r.reaches(o, a) }) {
			out = append(out, a)
		}
	}
	slices.Sort(out)
	return out
}

// reaches reports whether a step comes after another, over any number of steps.
func (r *Reading) reaches(from, to int) bool {
	seen := map[int]bool{}
	todo := []int{from}
	for len(todo) > 0 {
		i := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, a := range r.Steps[i].after {
			if a == to {
				return true
			}
			if a > to && !seen[a] {
				seen[a] = true
				todo = append(todo, a)
			}
		}
	}
	return false
}

// cookedThroughIn is the step in which what a step only browns is cooked through, where no word says so: the longest
// that cooks after it, such as the braise that everything is in; 0 where there is none.
func (r *Reading) cookedThroughIn(i int) (at int) {
	s := &r.Steps[i]
	if verb, _, ok := actionWord(s.Do); !ok || !s.Cooks || !slices.Contains(browns, verb) {
		return 0
	}
	longest := longCooking
	for j := i + 1; j < len(r.Steps); j++ {
		if o := &r.Steps[j]; o.Section == s.Section && o.Cooks && o.kind.Heats() && o.Time.Low >= longest &&
			(at == 0 || o.Time.Low > r.Steps[at].Time.Low) {
			at = j
		}
	}
	return at
}

// browns are the verbs that colour food and no more.
var browns = phrases.Phrases("browns")

// longCooking is from how many minutes on a step cooks through what was browned before; common practice, no source.
const longCooking = 30
