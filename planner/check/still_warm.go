package check

import (
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/cooling"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// Warm is cooked food on its way into the cold, by what has been done of its dish.
type Warm struct {
	cooling.Going
	Left  time.Time // when the step before ended
	Told  bool      // somebody has said so; else it was taken as planned
	By    time.Time // until when it may be out of the cold
	Limit safety.Limit
}

// Chore is the key of the task that puts it away.
func (w *Warm) Chore() planner.TaskKey { return planner.ChoreTask(cooling.Key(w.Dish.Key, w.Step.Key)) }

// GoesCold is when what a step leaves has to be in the cold, once it is done; ok is false where it is not done, or
// nothing of it is hot and goes cold.
func GoesCold(p *planner.Party, d *planner.Dish, step planner.StepKey) (w Warm, ok bool) {
	for _, g := range cooling.Of(p, d) {
		if g.Step.Key == step {
			h := newHistory(p, d)
			return h.goesCold(g)
		}
	}
	return w, false
}

func (h *history) goesCold(g cooling.Going) (w Warm, ok bool) {
	at := h.after(g.Step)
	if at == nil {
		return w, false
	}
	kind := safety.Cooked
	if slices.Contains(h.foods.Leaves(h.d.Key, g.Step.Key).Colds(), trace.Cold{Kind: safety.Rice, Cooked: true}) {
		kind = safety.Rice
	}
	l := safety.IntoTheCold(kind, float64(h.p.AirC()))
	return Warm{g, at.end, at.told, at.end.Add(time.Duration(l.Minutes-at.counter) * time.Minute), l}, true
}

// StillWarm lists the cooked food of which nobody has said that it was put into the cold, and with which nobody has
// gone on since.
func StillWarm(p *planner.Party) []Warm {
	var out []Warm
	for i := range p.Dishes {
		d := &p.Dishes[i]
		if !slices.ContainsFunc(d.Steps, func(s planner.Step) bool {
			return p.Progress(planner.StepTask(d.Key, s.Key, 1)) == planner.Done
		}) {
			continue
		}
		h := newHistory(p, d)
		for _, g := range cooling.Of(p, d) {
			w, ok := h.goesCold(g)
			if !ok || !g.Task || p.Chore(cooling.Key(d.Key, g.Step.Key)) == nil {
				continue
			}
			said := p.WorkOn(w.Chore())
			if said != nil && said.Progress != planner.Waiting && (said.Progress != planner.Skipped || !said.Assumed) ||
				slices.ContainsFunc(g.After(p), func(k planner.TaskKey) bool { return p.Progress(k) != planner.Waiting }) {
				continue
			}
			out = append(out, w)
		}
	}
	return out
}
