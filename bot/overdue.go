package bot

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/trace"
)

// People forget to say that a task is done. One that takes hands, or that somebody went out for, cannot go on for
// ever: long after its likely end it counts as done at that end, for whatever is asked next.

// When a task that was started and never ticked off is taken as done: so many times its length after its likely
// end, and no sooner than so long after it. The figures are ours.
const (
	overdueTimes = 2
	overdueLeast = 30 * time.Minute
)

// likelyEnd is when a task that has begun likely ends, with the people it has in the plan.
func (t *Turn) likelyEnd(task *planner.Task, w *planner.Work) time.Time {
	people := 1
	if t.Plan != nil {
		if pl := t.Plan.Placed(task.Key); pl != nil {
			people = max(1, len(pl.People))
		}
	}
	return w.Start.Truncate(time.Minute).Add((task.Length(people) + w.Extra).Duration())
}

// overdue reports whether a task that was started must have ended by now, and when it likely did.
func (t *Turn) overdue(task *planner.Task, w *planner.Work) (end time.Time, is bool) {
	if w == nil || w.Progress != planner.Started || w.Start == nil || task.Attention != planner.Hands && !task.Away {
		return end, false
	}
	end = t.likelyEnd(task, w)
	patience := max(overdueLeast, overdueTimes*end.Sub(*w.Start))
	return end, !t.Now.Before(end.Add(patience))
}

// closeOverdue takes as done what must have ended long ago, but for the task that the request is about, and says so.
func (t *Turn) closeOverdue() []string {
	about := t.values["task"].task
	var lines []string
	for _, task := range planner.Tasks(t.Party) {
		w := t.Party.WorkOn(task.Key)
		end, is := t.overdue(&task, w)
		if !is || task.Key == about {
			continue
		}
		w.Progress, w.End, w.Assumed = planner.Done, &end, true
		lines = append(lines, fmt.Sprintf("%s: done at %s", t.taskName(task.Key), t.dayClock(end)))
	}
	if len(lines) > 0 && t.Plan != nil {
		t.followWork()
	}
	return lines
}

// tickedLate says of a task that is ticked long after its planned end, without a time, and whose food spoils, that it
// is late, and whether it is taken as done as planned: nobody knows, and the longer time on the counter is the strict
// one.
// What it leaves may have stood there since; it cannot, where what the task comes after was over too late for that, or
// somebody's hands were at something else. What waited for it may have stood until now.
func (t *Turn) tickedLate(task *planner.Task, w *planner.Work) (planned time.Time, stood, late bool) {
	if t.Plan == nil || t.has("at") || w.Start != nil || w.NotBefore != nil {
		return planned, false, false
	}
	pl, d := t.Plan.Placed(task.Key), t.Party.Dish(task.Dish)
	if pl == nil || d == nil || t.Now.Before(pl.End.Add(overdueLeast)) ||
		!trace.OfDish(t.Party, d).Leaves(d.Key, task.Step).Perishable {
		return planned, false, false
	}
	stood = waitsOnCounter(d, task.Step) && t.couldBegin(task, pl.Start) &&
		(task.Attention != planner.Hands || !t.busyElsewhere(pl))
	return pl.End, stood, stood || slices.ContainsFunc(d.Step(task.Step).After, func(a planner.After) bool {
		return !a.FromStart && onCounter(a.Wait.State)
	})
}

func onCounter(s planner.State) bool { return s == planner.Counter || s == planner.Warm }

// waitsOnCounter says whether what a step leaves waits on the counter, for another step or for service.
func waitsOnCounter(d *planner.Dish, k planner.StepKey) bool {
	followed := false
	for i := range d.Steps {
		for _, a := range d.Steps[i].After {
			if a.Step == k && !a.FromStart && (a.Dish == "" || a.Dish == d.Key) {
				if followed = true; onCounter(a.Wait.State) {
					return true
				}
			}
		}
	}
	s := d.Step(k)
	return s.Serve != nil && onCounter(s.Serve.State) || s.Serve == nil && !followed && onCounter(s.Stays())
}
