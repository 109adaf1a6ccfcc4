package cooling

import (
	"slices"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// large are the kinds of which a piece is large enough to be hot by itself.
var large = []safety.Kind{safety.Poultry, safety.RedMeat, safety.Game}

// StillHot is for how many minutes after the end of each step its food is hot by itself (rule 2): of roast meat of a
// piece and of whole birds that are cooked through there. Steps whose food is not are left out. A dish made for more
// covers has more pieces, not a heavier one.
func StillHot(p *planner.Party, foods *trace.Trace) map[planner.TaskKey]int {
	var out map[planner.TaskKey]int
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for j := range d.Steps {
			s := &d.Steps[j]
			l := foods.Leaves(d.Key, s.Key)
			if !l.Anew || !slices.ContainsFunc(l.In, func(p trace.Part) bool {
				return slices.Contains(large, p.Kind) && p.Class != nil && p.Grams > smallBirdGrams
			}) {
				continue
			}
			f := (&traced{p, d, foods}).look(s)
			if f.body != bird && f.body != joint {
				continue
			}
			grams := f.Grams * max(d.Serves, 1) / max(d.Makes(p), d.Serves, 1) / max(p.Fit(d, s).Rounds, 1)
			if m := safety.StaysHot(grams, foods.EndsAt(d, s), float64(p.AirC())); m > 0 {
				if out == nil {
					out = map[planner.TaskKey]int{}
				}
				out[planner.StepTask(d.Key, s.Key, 1)] = m
			}
		}
	}
	return out
}
