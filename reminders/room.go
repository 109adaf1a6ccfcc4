package reminders

import (
	"fmt"
	"time"

	"tureen/planner"
)

// minRoom is the least room for which the last moment is worth a reminder of its own.
const minRoom = 10 * time.Minute

// lastStart is the latest instant at which a task can start with everything else where the plan has it,
// and what happens when it starts later ("dessert would be late"; empty: nothing). It is never before the
// planned start.
func (v *view) lastStart(t *planner.Task, pl *planner.Placed) (time.Time, string) {
	length := pl.End.Sub(pl.Start)
	var latest time.Time
	what := ""
	bound := func(end time.Time, then string) {
		if at := end.Add(-length); latest.IsZero() || at.Before(latest) {
			latest, what = at, then
		}
	}
	if d, s := v.step(t); s != nil {
		v.boundByFollowers(d, s, bound)
		v.boundByServing(d, s, bound)
		v.waitsBefore(d, s, pl, func(from *planner.Dish, pred *planner.Step, w planner.Wait, gap time.Duration) {
			if w.Max > 0 {
				end, _ := v.endOf(from.Key, pred.Key)
				bound(end.Add(w.Max.Duration()+length), thing(from, pred)+" would have waited longer than it may")
			}
		})
	}
	if c := v.p.Chore(t.Chore); c != nil {
		for _, a := range c.By {
			if at, name, ok := v.anchor(a); ok {
				bound(at, name)
			}
		}
	}
	if t.Attention == planner.Hands {
		v.boundByPeople(pl, bound)
	}
	if latest.Before(pl.Start) {
		latest = pl.Start
	}
	return latest, what
}

// room says how much a task may slip, and what happens then; empty when nothing follows from it.
func (v *view) room(pl *planner.Placed, last time.Time, then string) string {
	switch {
	case then == "":
		return ""
	case !last.After(pl.Start):
		return fmt.Sprintf("There is no room: if it starts later, %s.", then)
	}
	style := Clock
	if last.In(v.zone).Format(time.DateOnly) != pl.Start.In(v.zone).Format(time.DateOnly) {
		style = DayClock
	}
	return fmt.Sprintf("There is room until %s; after that %s.", Stamp(last, style, v.zone), then)
}

func (v *view) boundByFollowers(d *planner.Dish, s *planner.Step, bound func(time.Time, string)) {
	for i := range v.p.Dishes {
		other := &v.p.Dishes[i]
		for j := range other.Steps {
			next := &other.Steps[j]
			for _, a := range next.After {
				if a.FromStart || a.Step != s.Key || a.Dish != d.Key && (a.Dish != "" || other.Key != d.Key) {
					continue
				}
				if pl := v.at[planner.StepTask(other.Key, next.Key, 1)]; pl != nil {
					bound(pl.Start.Add(-a.Wait.Min.Duration()), fmt.Sprintf("%q comes late (%s)", trimStop(next.Do), v.dishAndCourse(other)))
				}
			}
		}
	}
}

func (v *view) boundByServing(d *planner.Dish, s *planner.Step, bound func(time.Time, string)) {
	if s.Serve == nil {
		return
	}
	for _, served := range v.plan.Served {
		if served.Course == d.Course {
			bound(served.At.Add(-s.Serve.Min.Duration()), v.course(d.Course)+" would be late")
		}
	}
}

// boundByPeople looks at the next task that needs the same hands.
func (v *view) boundByPeople(pl *planner.Placed, bound func(time.Time, string)) {
	for _, who := range pl.People {
		for i := range v.plan.Tasks {
			next := &v.plan.Tasks[i]
			t := v.tasks[next.Task]
			if t == nil || t.Attention != planner.Hands || next.Start.Before(pl.End) || next.Task == pl.Task {
				continue
			}
			for _, w := range next.People {
				if w == who {
					bound(next.Start, fmt.Sprintf("%s is wanted for %q", v.name(who), trimStop(t.Do)))
				}
			}
		}
	}
}

// anchor finds the instant that a chore has to be done by, and what would be late.
func (v *view) anchor(a planner.Anchor) (time.Time, string, bool) {
	switch {
	case a.At != nil:
		return a.At.Add(a.Offset.Duration()), "it is past its time", true
	case a.Arrival:
		return v.p.Arrival.Add(a.Offset.Duration()), "it is not ready when the guests arrive", true
	case a.Course != "":
		for _, s := range v.plan.Served {
			if s.Course == a.Course {
				return s.At.Add(a.Offset.Duration()), v.course(a.Course) + " has to wait for it", true
			}
		}
	case a.Task != "":
		if pl, t := v.at[a.Task], v.tasks[a.Task]; pl != nil && t != nil {
			return pl.Start.Add(a.Offset.Duration()), fmt.Sprintf("%q has to wait for it", trimStop(t.Do)), true
		}
	}
	return time.Time{}, "", false
}
