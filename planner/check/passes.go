package check

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/cooling"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// Passing is when food that stands on the counter passes the published limit there, by what has been done.
type Passing struct {
	At   time.Time
	Step *planner.Step // what it waits after
	Next *planner.Step // what it waits for, and nobody has begun; nil: its service
	Told bool          // people have said when; else some of it was only taken as planned
}

// Passes says when the first of a dish's food passes the counter's limit, from what is done of the dish and until
// something more is done with it; ok is false where nothing stands, and nothing stood for too long.
func Passes(p *planner.Party, dish planner.DishKey) (first Passing, ok bool) {
	d := p.Dish(dish)
	if d == nil {
		return first, false
	}
	h := newHistory(p, d)
	for i := range d.Steps {
		s := &d.Steps[i]
		at := h.after(s)
		food := h.foods.Leaves(d.Key, s.Key)
		if at == nil || !food.Perishable {
			continue
		}
		most := p.CounterLimit().Minutes
		if food.Dough {
			most *= 2
		}
		next, stands := h.standsAfter(s)
		if !stands && at.counter <= most {
			continue // what had passed it before it came into the cold has passed it
		}
		x := Passing{at.end.Add(time.Duration(most-at.counter) * time.Minute), s, next, at.told}
		if !ok || x.At.Before(first.At) {
			first, ok = x, true
		}
	}
	return first, ok
}

// Instead says what is served where a dish is not: what else its course has, or where to look for something.
func Instead(p *planner.Party, plan *planner.Plan, d *planner.Dish) string {
	c := p.Course(d.Course)
	if c == nil || plan == nil {
		return ""
	}
	var names []string
	for i := range p.Dishes {
		if o := &p.Dishes[i]; o.Course == d.Course && o.Key != d.Key && !plan.LeavesOut(o.Key) {
			names = append(names, o.Name)
		}
	}
	if len(names) == 0 {
		return fmt.Sprintf("For the %s there is nothing else: /repertoire list says what is quick to make.", c.Named())
	}
	return fmt.Sprintf("Without it the %s still has %s.", c.Named(), words.And(names))
}

// stood is how long food has been on the counter by the end of a step that is done.
type stood struct {
	start, end time.Time
	counter    int
	told       bool
}

type history struct {
	p     *planner.Party
	d     *planner.Dish
	foods *trace.Trace
	hot   map[planner.TaskKey]int
	known map[planner.StepKey]*stood
}

func newHistory(p *planner.Party, d *planner.Dish) *history {
	foods := trace.Of(p)
	return &history{p, d, foods, cooling.StillHot(p, foods), map[planner.StepKey]*stood{}}
}

// after is the clock at the end of a step, as rule 2 counts; nil where the step is not done.
func (h *history) after(s *planner.Step) *stood {
	if at, ok := h.known[s.Key]; ok {
		return at
	}
	h.known[s.Key] = nil // cuts a circle, which no valid party has
	w := h.p.WorkOn(planner.StepTask(h.d.Key, s.Key, 1))
	if w == nil || w.Progress != planner.Done || w.End == nil {
		return nil
	}
	at := &stood{start: w.End.Add(-s.Time.Likely.Duration()), end: *w.End, told: !w.Assumed}
	if w.Start != nil {
		at.start = *w.Start
	}
	food := h.foods.Leaves(h.d.Key, s.Key)
	if !slices.ContainsFunc(s.After, func(a planner.After) bool { return a.Dish == "" && !a.FromStart }) {
		at.counter = int(h.foods.OnTheWay(h.d))
	}
	reached, keepsHot := at.counter > 0, s.Where == planner.Counter && !food.Hot && !food.Joined &&
		!slices.ContainsFunc(s.After, func(a planner.After) bool { return !a.FromStart && !onCounter(a.Wait.State) })
	for _, a := range s.After {
		before := h.d.Step(a.Step)
		if a.Dish != "" && a.Dish != h.d.Key || a.FromStart || before == nil {
			continue
		}
		was := h.after(before)
		if was == nil {
			continue
		}
		counter := was.counter
		if h.foods.Leaves(h.d.Key, before.Key).Perishable && onCounter(a.Wait.State) {
			counter += gap(was.end, at.start)
		}
		if counter >= at.counter || keepsHot && !reached {
			reached, at.counter = true, counter
			at.told = at.told && was.told
		}
	}
	if food.Perishable && s.Where == planner.Counter && !food.Hot {
		at.counter += gap(at.start, at.end)
	}
	if food.Anew {
		at.counter = -h.hot[planner.StepTask(h.d.Key, s.Key, 1)]
	}
	h.known[s.Key] = at
	return at
}

func onCounter(s planner.State) bool {
	return s == planner.Counter || s == planner.Warm || s == planner.Straight
}

// standsAfter says whether the food of a step waits on the counter now: for its service, or for a step that has not
// begun, which is next.
func (h *history) standsAfter(s *planner.Step) (next *planner.Step, stands bool) {
	followed := false
	for i := range h.d.Steps {
		next := &h.d.Steps[i]
		for _, a := range next.After {
			if a.Step != s.Key || a.Dish != "" && a.Dish != h.d.Key || a.FromStart {
				continue
			}
			followed = true
			if h.p.Progress(planner.StepTask(h.d.Key, next.Key, 1)) == planner.Waiting && onCounter(a.Wait.State) {
				return next, true
			}
		}
	}
	return nil, s.Serve != nil && onCounter(s.Serve.State) || s.Serve == nil && !followed && onCounter(s.Stays())
}
