package propose

import (
	"time"

	"tureen/planner"
	"tureen/planner/trace"
)

// usable is the stretch in which a step can start at all: from its earliest instant, when everything after
// it waits as long as it may, to its latest, when nothing waits longer than it must. Hands, equipment and
// other dishes are left out of it.
type usable struct{ from, to time.Time }

// usableStarts gives that stretch for every step of a dish, with first and last the servings of its course.
func usableStarts(p *planner.Party, d *planner.Dish) map[planner.StepKey]usable {
	first, last := p.Arrival, p.Arrival
	if c := p.Course(d.Course); c != nil && len(c.Servings) > 0 {
		first, last = c.Servings[0].At, c.Servings[0].At
		for _, s := range c.Servings {
			first, last = minTime(first, s.At), planner.Later(last, s.At)
		}
	}
	length := map[planner.StepKey]planner.Minutes{}
	for _, t := range planner.Tasks(&planner.Party{Covers: p.Covers, Kitchen: p.Kitchen, Dishes: []planner.Dish{*d}}) {
		length[t.Step] += t.Length(t.MaxHands)
	}
	foods := trace.OfDish(p, d)
	found := map[planner.StepKey]usable{}
	var look func(k planner.StepKey, depth int) usable
	look = func(k planner.StepKey, depth int) usable {
		if u, ok := found[k]; ok {
			return u
		}
		s := d.Step(k)
		u := usable{from: p.Opens(), to: last}
		tighten := func(w planner.Wait, next usable) {
			u.to = minTime(u.to, next.to.Add(-(w.Least + length[k]).Duration()))
			if longest := longestWait(p, &w, foods.Leaves(d.Key, k)); longest >= 0 {
				u.from = planner.Later(u.from, next.from.Add(-(longest + length[k]).Duration()))
			}
		}
		followed := false
		for i := range d.Steps {
			next := &d.Steps[i]
			for _, a := range next.After {
				if a.Step != k || a.Dish != "" && a.Dish != d.Key || a.FromStart || depth > len(d.Steps) {
					continue
				}
				followed = true
				tighten(a.Wait, look(next.Key, depth+1))
			}
		}
		switch {
		case s.Serve != nil:
			tighten(*s.Serve, usable{first, first})
		case !followed:
			tighten(planner.Wait{State: s.Stays()}, usable{first, first})
		}
		found[k] = u
		return u
	}
	for i := range d.Steps {
		look(d.Steps[i].Key, 0)
	}
	return found
}

// longestWait is how long food may wait by its card and by the published limits; negative: no end known.
func longestWait(p *planner.Party, w *planner.Wait, f *trace.Leaves) planner.Minutes {
	longest := planner.Minutes(-1)
	limit := func(m planner.Minutes) {
		if m > 0 && (longest < 0 || m < longest) {
			longest = m
		}
	}
	if w.State == planner.Straight {
		return 0
	}
	limit(w.Longest)
	limit(w.WorthUntil)
	if f.Perishable {
		switch w.State {
		case planner.Counter, planner.Warm:
			limit(planner.Minutes(p.CounterLimit().Minutes))
		case planner.Refrigerator:
			for _, c := range f.Colds() {
				limit(planner.Minutes(p.RefrigeratorLimit(c.Kind).Minutes))
			}
		}
	}
	return longest
}

func minTime(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}
