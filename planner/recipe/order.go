package recipe

import (
	"slices"
	"strings"
)

// order is, for each step, the steps that it comes right after. A method goes on line by line; what is done
// "meanwhile" runs beside the step before it, and a part of the dish of its own begins anew and joins where it is
// named, or at the end.
func (r *Reading) order() [][]int {
	out := make([][]int, len(r.Steps))
	var open []int // steps that nothing comes after yet
	begun := map[string]bool{}
	take := func(i int, all ...int) {
		for _, a := range all {
			if !slices.Contains(out[i], a) {
				out[i] = append(out[i], a)
			}
			open = slices.DeleteFunc(open, func(o int) bool { return o == a })
		}
	}
	for i := range r.Steps {
		s := &r.Steps[i]
		switch {
		case s.told:
			take(i, s.after...)
		case s.Ready, s.apart:
		case s.Meanwhile && i > 0 && !r.Steps[i-1].Ready:
			out[i] = append(out[i], out[i-1]...)
		case s.Section != "" && !begun[s.Section]:
			for _, o := range slices.Clone(open) {
				if r.names(s, o) {
					take(i, o)
				}
			}
		case i > 0 && r.branch(i) && !s.mid && !r.Steps[i-1].mid:
			take(i, i-1)
		default:
			for _, o := range slices.Clone(open) {
				same := r.Steps[o].Section == s.Section && !r.Steps[o].Ready
				meant := r.names(s, o)
				if same || meant {
					take(i, o)
				}
			}
			if len(out[i]) == 0 && i > 0 && !r.Steps[i-1].Ready {
				take(i, i-1)
			}
		}
		if !s.told {
			for o := range i {
				if r.Steps[o].Ready && r.uses(o) == i {
					take(i, o)
				}
			}
		}
		begun[s.Section] = begun[s.Section] || !s.Ready
		open = append(open, i)
	}
	// What is still open joins the last step.
	if n := len(r.Steps); n > 0 {
		for _, o := range slices.Clone(open) {
			if o != n-1 && !r.Steps[n-1].told && r.Steps[n-1].after == nil {
				take(n-1, o)
			}
		}
	}
	for i := range out {
		slices.Sort(out[i])
	}
	return out
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

// branch reports whether a step goes on with what was begun "meanwhile" in the same paragraph.
func (r *Reading) branch(i int) bool {
	for j := i - 1; j >= 0 && r.Steps[j].paragraph == r.Steps[i].paragraph; j-- {
		if r.Steps[j].Meanwhile {
			return true
		}
	}
	return false
}

// names reports whether a step speaks of the part of the dish that another one made.
func (r *Reading) names(s *Step, other int) bool {
	part := r.Steps[other].Section
	if part == "" || part == s.Section {
		return false
	}
	for w := range strings.FieldsSeq(
		"batter dough pastry sauce dressing custard marinade glaze syrup brine filling mash") {
		if containsWord(s.Do, w) && slices.ContainsFunc(r.Steps, func(o Step) bool {
			return o.Section == part && containsWord(o.Do, w)
		}) {
			return true // to a smooth batter …; pour in the batter
		}
	}
	return containsWord(s.Do, part, Head(part), Head(part)+"s")
}
