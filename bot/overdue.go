package bot

import (
	"fmt"
	"time"

	"tureen/planner"
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
