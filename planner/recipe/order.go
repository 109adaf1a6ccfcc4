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
	ready := -1
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
		case s.Ready:
			ready = i
		case s.Meanwhile && i > 0 && !r.Steps[i-1].Ready:
			out[i] = append(out[i], out[i-1]...)
		case s.Section != "" && !begun[s.Section]:
			for _, o := range slices.Clone(open) {
				if r.names(s, o) {
					take(i, o)
				}
			}
			if len(out[i]) == 0 && ready >= 0 {
				take(i, ready)
			}
		case i > 0 && r.branch(i):
			take(i, i-1)
		default:
			for _, o := range slices.Clone(open) {
				same := r.Steps[o].Section == s.Section
				meant := r.names(s, o)
				if o == ready && len(open) > 1 && i-1 != ready {
					same = false
				}
				if same || meant {
					take(i, o)
				}
			}
			if len(out[i]) == 0 && i > 0 {
				take(i, i-1)
			}
		}
		begun[s.Section] = true
		open = append(open, i)
	}
	// What is still open joins the last step.
	if n := len(r.Steps); n > 0 {
		for _, o := range slices.Clone(open) {
			if o != n-1 && !r.Steps[n-1].told {
				take(n-1, o)
			}
		}
	}
	for i := range out {
		slices.Sort(out[i])
	}
	return out
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
	for w := range strings.FieldsSeq("batter dough pastry sauce dressing custard marinade glaze syrup brine filling mash") {
		if containsWord(s.Do, w) && slices.ContainsFunc(r.Steps, func(o Step) bool { return o.Section == part && containsWord(o.Do, w) }) {
			return true // to a smooth batter …; pour in the batter
		}
	}
	return containsWord(s.Do, part, Head(part), Head(part)+"s")
}
