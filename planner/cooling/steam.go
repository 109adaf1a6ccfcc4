package cooling

import (
	"slices"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// SoonCold is how many minutes the counter's clock may show at the end of a step whose cooked rice is in the cold next,
// by the key of the step (rule 2): what is published, less the time in which it steams off where it is hot still. Steps
// whose food is no rice, or was in the cold since it was cooked, are left out.
func SoonCold(p *planner.Party, foods *trace.Trace) map[planner.TaskKey]int {
	var out map[planner.TaskKey]int
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for j := range d.Steps {
			s := &d.Steps[j]
			l := foods.Leaves(d.Key, s.Key)
			if d.BroughtBy != "" || !slices.Contains(l.Colds(), trace.Cold{Kind: safety.Rice, Cooked: true}) ||
				!cookedSince(foods, d, s, 0) || !cold(s.Where) && !goesCold(p, d, s) {
				continue
			}
			soon := safety.IntoTheCold(safety.Rice, float64(p.AirC())).Minutes
			if _, hot := (&traced{p, d, foods}).going(s); hot {
				soon -= SteamOff
			}
			if out == nil {
				out = map[planner.TaskKey]int{}
			}
			out[planner.StepTask(d.Key, s.Key, 1)] = soon
		}
	}
	return out
}

// cookedSince says whether a step's food was heated in it or before it, and has neither been in the
// cold nor been mixed with other food before the step.
func cookedSince(foods *trace.Trace, d *planner.Dish, s *planner.Step, depth int) bool {
	if foods.Leaves(d.Key, s.Key).Hot {
		return true
	}
	fed := 0
	for _, a := range s.After {
		if !a.FromStart {
			fed++
		}
	}
	if fed > 1 {
		return false // mixed with something else, the mixture has the counter's limit
	}
	for _, a := range s.After {
		from := d.Step(a.Step)
		if a.Dish == "" && !a.FromStart && from != nil && !cold(a.Wait.State) && !cold(from.Where) && depth < len(d.Steps) &&
			cookedSince(foods, d, from, depth+1) {
			return true
		}
	}
	return false
}
