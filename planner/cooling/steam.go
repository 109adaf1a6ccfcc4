package cooling

import (
	"slices"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// Soon is how long cooked food that is in the cold next may have been on the counter by the end of the step before.
type Soon struct {
	Most  int // minutes on the counter's clock
	Steam int // of the limit, in which it steams off; in Most already
	Limit safety.Limit
}

// SoonCold says by the key of its step how soon cooked food goes into the cold (rule 2): what is published, less the
// time in which it steams off where it is hot still. Cooked rice keeps its own limit, in a mixture too. Steps of which
// the counter's limit says it all are left out.
func SoonCold(p *planner.Party, foods *trace.Trace) map[planner.TaskKey]Soon {
	var out map[planner.TaskKey]Soon
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for j := range d.Steps {
			s := &d.Steps[j]
			if d.BroughtBy != "" || !cold(s.Where) && !goesCold(p, d, s) {
				continue
			}
			kind := safety.Cooked
			if cookedSince(foods, d, s, 0) {
				kind = safety.Rice
			}
			soon := Soon{Limit: safety.IntoTheCold(kind, float64(p.AirC()))}
			if _, hot := (&traced{p, d, foods}).going(s); hot {
				soon.Steam = SteamOff
			}
			if kind != safety.Rice && (soon.Steam == 0 || !hasTo(p, d, s)) {
				continue // in the cold it may be, or not at all: then the counter's limit says it
			}
			if out == nil {
				out = map[planner.TaskKey]Soon{}
			}
			soon.Most = soon.Limit.Minutes - soon.Steam
			out[planner.StepTask(d.Key, s.Key, 1)] = soon
		}
	}
	return out
}

// hasTo says whether what a step leaves has to be in the cold, for some time at least.
func hasTo(p *planner.Party, d *planner.Dish, s *planner.Step) bool {
	return s.Serve != nil && cold(s.Serve.State) && s.Serve.Least > 0 ||
		len(next(p, d, s, func(n *planner.Step, w *planner.Wait) bool {
			return !Itself(n) && (cold(w.State) && w.Least > 0 || cold(n.Where))
		})) > 0
}

// cookedSince says whether a step leaves cooked rice that was heated in it or before it, and has not been in the cold
// since.
func cookedSince(foods *trace.Trace, d *planner.Dish, s *planner.Step, depth int) bool {
	l := foods.Leaves(d.Key, s.Key)
	if !slices.Contains(l.Colds(), trace.Cold{Kind: safety.Rice, Cooked: true}) || depth > len(d.Steps) {
		return false
	}
	return l.Hot || slices.ContainsFunc(s.After, func(a planner.After) bool {
		from := d.Step(a.Step)
		return a.Dish == "" && !a.FromStart && from != nil && !cold(a.Wait.State) && !cold(from.Where) &&
			cookedSince(foods, d, from, depth+1)
	})
}
