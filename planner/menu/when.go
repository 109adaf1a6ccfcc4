package menu

import (
	"slices"
	"time"

	"tureen/planner"
)

// Between when a step is done follows backwards from the service of its course. The latest: it and all that comes after
// it are over by then, with the shortest waits. The earliest: food waits no longer than it may, is worth serving, or is
// at its best. A step that something may follow at any distance has no earliest time. Minutes count from the party's
// arrival.

// free stands for an earliest time that nothing sets.
const free = -1 << 30

// span is between when one step ends. Of one in rounds it is the last round: the others can be earlier, though not all
// of their food is at its best then, so that they are not counted.
type span struct {
	dish             *planner.Dish
	step             *planner.Step
	long, short      int // one round's length, with as few people as it needs and as many as it takes
	service          int // of the dish's course
	earliest, latest int // of its end; earliest is free when nothing sets it
	people           int // whose hands one round needs
	known, now       bool
}

// starts are the earliest and the latest start.
func (s *span) starts() (earliest, latest int) {
	if s.earliest == free {
		return free, s.latest - s.short
	}
	return s.earliest - s.long, s.latest - s.short
}

type reckoning struct {
	p     *planner.Party
	spans []span
}

// reckon finds the spans of all steps whose dish's course has a time.
func reckon(p *planner.Party) *reckoning {
	w := &reckoning{p: p}
	tasks := planner.Tasks(p)
	for i := range p.Dishes {
		d := &p.Dishes[i]
		c := p.Course(d.Course)
		if c == nil {
			continue
		}
		at, ok := served(c)
		if !ok {
			continue
		}
		for j := range d.Steps {
			s := span{dish: d, step: &d.Steps[j], service: int(at.Sub(p.Arrival) / time.Minute)}
			for k := range tasks {
				if t := &tasks[k]; t.Dish == d.Key && t.Step == s.step.Key {
					s.long, s.short = int(t.Length(t.Hands)), int(t.Length(t.MaxHands))
					s.people = t.Hands
					break
				}
			}
			w.spans = append(w.spans, s)
		}
	}
	for i := range w.spans {
		w.settle(i)
	}
	return w
}

// settle finds a step's times from those of the steps after it. A circle of steps, which validation refuses, is cut.
func (w *reckoning) settle(i int) {
	s := &w.spans[i]
	if s.known || s.now {
		return
	}
	s.now = true
	s.earliest, s.latest = free, s.service
	for j := range w.spans {
		next := &w.spans[j]
		for _, a := range next.step.After {
			if a.Step != s.step.Key || !(a.Dish == s.dish.Key || a.Dish == "" && next.dish.Key == s.dish.Key) {
				continue
			}
			w.settle(j)
			if next.now {
				continue
			}
			early, late := next.starts()
			most, some := longest(&a.Wait)
			least := int(a.Wait.Least)
			if a.FromStart {
				late += s.long - least
				if a.Wait.Longest > 0 && early != free {
					s.earliest = max(s.earliest, early-int(a.Wait.Longest)+s.short)
				}
			} else {
				late -= least
				if some && early != free {
					s.earliest = max(s.earliest, early-most)
				}
			}
			s.latest = min(s.latest, late)
		}
	}
	if wait := s.step.Serve; wait != nil {
		s.latest = min(s.latest, s.service-int(wait.Least))
		if most, some := longest(wait); some {
			s.earliest = max(s.earliest, s.service-most)
		}
	}
	if s.earliest > s.latest {
		s.earliest = s.latest // nobody can do both: the plan will say so
	}
	s.known, s.now = true, false
}

// longest is how long food waits at most if it is to be at its best.
func longest(w *planner.Wait) (most int, some bool) {
	if w.State == planner.Straight {
		return 0, true
	}
	limits := slices.DeleteFunc([]int{int(w.BestUntil), int(w.WorthUntil), int(w.Longest)}, func(m int) bool {
		return m <= 0
	})
	if len(limits) == 0 {
		return 0, false
	}
	return slices.Min(limits), true
}
