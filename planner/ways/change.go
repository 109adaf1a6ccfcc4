package ways

import (
	"fmt"
	"reflect"
	"slices"

	"tureen/planner"
	"tureen/planner/cooling"
)

// cold is how long what is made ahead is in the refrigerator at least: so long may hot food take until it is cold
// through (FDA Food Code 2022, 3-501.14(A)(1)), and nobody makes hot again what is not.
const cold = 6 * 60

// How long food stands hot before it is served, and before the next step, without loss and at all: common practice, no
// source, as package recipe has it.
var (
	served  = planner.Wait{State: planner.Counter, BestUntil: 10, WorthUntil: 30}
	between = planner.Wait{State: planner.Counter, BestUntil: 10, WorthUntil: 45}
)

// finishKey is the key of the step that finishes.
const finishKey = "finish"

// base are a dish's steps as they were read; changed says that somebody has changed them since the way was taken, so
// that they are now as they are.
func base(p *planner.Party, d *planner.Dish) (steps []planner.Step, changed bool) {
	if len(d.AsRead) == 0 {
		return d.Steps, false
	}
	made, ok := applied(p, d, d.AsRead, d.Taken)
	if !ok || !same(made, d.Steps) {
		return d.Steps, true
	}
	return d.AsRead, false
}

// same says whether two lists of steps differ in nothing but how long their finishing takes, which follows the covers.
func same(a, b []planner.Step) bool {
	timeless := func(all []planner.Step) []planner.Step {
		out := slices.Clone(all)
		for i := range out {
			if out[i].Finish {
				out[i].Time = planner.Span{}
			}
			if len(out[i].After) == 0 {
				out[i].After = nil
			}
			if len(out[i].Uses) == 0 {
				out[i].Uses = nil
			}
		}
		return out
	}
	return reflect.DeepEqual(timeless(a), timeless(b))
}

// applied are the steps of a dish, changed for a way; ok is false where it has no such way.
func applied(p *planner.Party, d *planner.Dish, steps []planner.Step, way planner.Way) (out []planner.Step, ok bool) {
	all := spotsOf(p, d, steps)
	if len(all) == 0 || !can(all, way) {
		return nil, false
	}
	for _, st := range steps {
		st.After = slices.Clone(st.After)
		if st.Serve != nil {
			w := *st.Serve
			st.Serve = &w
		}
		out = append(out, st)
	}
	slices.SortFunc(all, func(a, b spot) int { return b.at - a.at }) // so that places before stay where they are
	for i := range all {
		switch s := &all[i]; {
		case way == planner.ForService && s.bakes:
			for _, w := range onward(out, s.at) {
				*w = between
			}
		case way == planner.ForService && (s.cool || s.own && out[s.at].Where != planner.Heat):
			// It stays: what was blended is warmed up, and what comes from the fire is not.
		case s.cool && way == planner.MadeAhead && s.finish == nil:
		case s.own && way == planner.MadeAhead:
			for _, w := range onward(out, s.at) {
				*w = s.chilled()
			}
			if s.bakes {
				out[s.again].Time = fromCold(out[s.again].Time)
			}
		case way == planner.Frozen && s.frozen != nil:
			out = frozen(p, d, out, s)
		case way == planner.ForService:
			out = straightOn(out, s)
		case s.finish != nil:
			out = finished(p, d, out, s, s.at, s.chilled())
		default:
			for _, w := range onward(out, s.at) {
				if w.State == planner.Refrigerator {
					w.Least = max(w.Least, cold)
					w.BestUntil, w.WorthUntil = atLeast(w.BestUntil, cold), atLeast(w.WorthUntil, cold)
				}
			}
		}
	}
	return out, true
}

// fromCold is how long what comes out of the refrigerator bakes, that would take so long warm. Common practice, no
// source; the sign that it is done, and its middle, decide.
func fromCold(t planner.Span) planner.Span {
	const more = 15
	return planner.Span{Low: t.Low + more, Likely: t.Likely + more, High: t.High + more + more/3}
}

func atLeast(m, least planner.Minutes) planner.Minutes {
	if m == 0 {
		return 0
	}
	return max(m, least)
}

// onward are the waits of the food that a step leaves.
func onward(steps []planner.Step, at int) (out []*planner.Wait) {
	if steps[at].Serve != nil {
		out = append(out, steps[at].Serve)
	}
	for i := range steps {
		for k := range steps[i].After {
			if a := &steps[i].After[k]; a.Step == steps[at].Key && a.Dish == "" && !a.FromStart && !a.Aside {
				out = append(out, &a.Wait)
			}
		}
	}
	return out
}

// hotWait is how food waits that stays hot.
func hotWait(s *spot, next bool) planner.Wait {
	w := served
	if next {
		w = between
	}
	if s.finish != nil && s.finish.heat == planner.AnOven {
		w.BestUntil, w.WorthUntil = 20, max(w.WorthUntil, 60) // what comes out of the oven in its dish stays hot
	}
	return w
}

// straightOn are the steps for who cooks for service: what is hot stays so.
func straightOn(steps []planner.Step, s *spot) []planner.Step {
	chilled := func(w *planner.Wait) bool { return w.State == planner.Refrigerator && w.Least == 0 }
	if w := steps[s.at].Serve; w != nil && chilled(w) {
		*w = hotWait(s, false)
	}
	for i := range steps {
		for k := range steps[i].After {
			a := &steps[i].After[k]
			if a.Step == steps[s.at].Key && a.Dish == "" && !a.FromStart && !a.Aside && chilled(&a.Wait) {
				a.Wait = hotWait(s, true)
			}
		}
	}
	if s.again < 0 {
		return steps
	}
	gone := steps[s.again]
	for i := range steps {
		for k := range steps[i].After {
			if a := &steps[i].After[k]; a.Step == gone.Key && a.Dish == "" && !a.FromStart {
				a.Step = gone.After[0].Step
				a.Wait = between
			}
		}
		if steps[i].Key == gone.After[0].Step && gone.Serve != nil {
			w := *gone.Serve
			steps[i].Serve = &w
		}
	}
	return slices.Delete(steps, s.again, s.again+1)
}

// chilled is how long food waits for its finish, which was hot before.
func (s *spot) chilled() planner.Wait {
	wait := s.wait
	if !s.cool {
		wait.Least = max(wait.Least, cold)
		wait.BestUntil, wait.WorthUntil = atLeast(wait.BestUntil, cold), atLeast(wait.WorthUntil, cold)
	}
	return wait
}

// finished are the steps with one more, after the one at a place, that finishes what has waited so.
func finished(p *planner.Party, d *planner.Dish, steps []planner.Step, s *spot, at int,
	wait planner.Wait) []planner.Step {
	from := &steps[s.at]
	f := planner.Step{Key: freeKey(steps, finishKey), Do: s.finish.do, Component: from.Component,
		Attention: s.finish.attention, Where: planner.Counter, Finish: true}
	if s.finish.heat != "" {
		f.Where = planner.Heat
	}
	if s.finish.hot {
		f.Cooks, f.Until = true, "steaming hot all through"
	}
	litres := (cooling.Volume(p, d, from) + 999) / 1000
	likely := planner.Minutes(min(s.finish.minutes+s.finish.litre*max(0, litres-1), mostAgain))
	f.Time = planner.Span{Low: likely * 3 / 4, Likely: likely, High: likely * 4 / 3}
	use := planner.Use{What: s.finish.heat}
	if use.What == "" {
		use.What = planner.ACounter
	}
	if s.finish.heat == planner.AnOven {
		use.C, use.Tolerance = s.finish.celsius, ovenGives
		for _, u := range from.Uses {
			if u.What == planner.AnOven {
				use.For = u.For
			}
		}
	}
	if s.finish.heat != "" || s.finish.attention == planner.Hands {
		f.Uses = []planner.Use{use}
	}
	f.After = []planner.After{{Step: steps[at].Key, Wait: wait}}
	return inserted(steps, at, f, onFinished(s, false), onFinished(s, true))
}

// onFinished is how food waits that was finished.
func onFinished(s *spot, next bool) planner.Wait {
	if !s.cool {
		return hotWait(s, next)
	}
	return planner.Wait{State: planner.Counter, BestUntil: 30, WorthUntil: 60}
}

// freeKey is a key that no step has yet.
func freeKey(steps []planner.Step, key planner.StepKey) planner.StepKey {
	free := key
	for n := 2; slices.ContainsFunc(steps, func(o planner.Step) bool { return o.Key == free }); n++ {
		free = planner.StepKey(fmt.Sprintf("%s-%d", key, n))
	}
	return free
}

// inserted are the steps with one more after the one at a place: what its food went into comes after the new one, with
// these waits for service and for the next step.
func inserted(steps []planner.Step, at int, f planner.Step, serve, next planner.Wait) []planner.Step {
	from := &steps[at]
	for i := range steps {
		for k := range steps[i].After {
			if a := &steps[i].After[k]; a.Step == from.Key && a.Dish == "" && !a.FromStart && !a.Aside {
				a.Step, a.Wait = f.Key, next
			}
		}
	}
	if from.Serve != nil {
		f.Serve, from.Serve = &serve, nil
	}
	return slices.Insert(steps, at+1, f)
}

// frozen are the steps of a dish that waits in the freezer, is thawed and then finished.
func frozen(p *planner.Party, d *planner.Dish, steps []planner.Step, s *spot) []planner.Step {
	thaw := thawing(p, d, &steps[s.at], s)
	thaw.Key = freeKey(steps, thaw.Key)
	after := s.wait
	after.Least, after.BestFrom = 0, 0
	steps = inserted(steps, s.at, thaw, after, after)
	if s.finish == nil {
		return steps
	}
	return finished(p, d, steps, s, s.at+1, planner.Wait{State: planner.Refrigerator, WorthUntil: hard})
}

// can says whether a dish with such places can be made in a way.
func can(all []spot, way planner.Way) bool {
	return way == planner.ForService || way == planner.MadeAhead ||
		way == planner.Frozen && slices.ContainsFunc(all, func(s spot) bool { return s.frozen != nil })
}

// Common practice, no source: the longest that anybody warms up a pot, and by how much an oven may be off for it.
const (
	mostAgain = 45
	ovenGives = 20 // °C
)
