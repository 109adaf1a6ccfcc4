package ways

import (
	"slices"

	"tureen/planner"
	"tureen/planner/food"
)

// servedCool are the places of a dish that is not served hot: after its last step, where it can be frozen or has to be
// brought to room temperature, and after whatever is to be stirred up again when it has waited.
func (g *gazer) servedCool() (out []spot) {
	for i := range g.d.Steps {
		s := &g.d.Steps[i]
		waits := onward(g.d.Steps, i)
		classes, known := g.foods.Made(g.d, s)
		if !known || len(classes) != 1 || len(waits) == 0 || s.Where == planner.Freezer {
			continue
		}
		place := waits[0].State
		row, ok := food.WaitOf(classes[0], string(place))
		if !ok || slices.ContainsFunc(waits, func(w *planner.Wait) bool { return w.State != place || w.Hold != nil }) {
			continue
		}
		one := spot{at: i, again: -1, class: classes[0], wait: *waits[0], loss: row.Loss, cool: true,
			finish: finishOf(classes[0], row.Finish)}
		if one.finish != nil && (one.finish.hot || one.finish.attention != planner.Hands && !g.toTable(i)) {
			one.finish = nil
		}
		if place == planner.Refrigerator {
			one.limit = g.limit(i)
		}
		if s.Serve != nil && len(waits) == 1 {
			one.freezes(s)
		}
		if one.finish != nil || one.frozen != nil {
			out = append(out, one)
		}
	}
	return out
}

// toTable says whether nothing comes after a step but serving.
func (g *gazer) toTable(i int) bool {
	if g.d.Steps[i].Serve != nil {
		return true
	}
	k := g.next(i)
	return k >= 0 && g.d.Steps[k].Serve != nil && g.d.Steps[k].Time.Likely <= mostFinishing && !g.hot(k)
}

// crisped is the spot after a step that bakes what does not spoil, where it may go cold and be crisp again.
func (g *gazer) crisped(i int, class *food.Class) *spot {
	if class == nil {
		return nil
	}
	row, ok := food.WaitOf(class, string(planner.Counter))
	if !ok {
		return nil
	}
	out := &spot{at: i, again: -1, class: class, loss: row.Loss, cool: true, finish: finishOf(class, row.Finish),
		wait: planner.Wait{State: planner.Counter, BestUntil: planner.Minutes(row.BestUntil),
			WorthUntil: min(planner.Minutes(row.WorthUntil), planner.MaxWait)}}
	if out.finish == nil {
		return nil
	}
	return out
}
