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

// lateTick is what a tick long after a task's planned end, without a time, says of food that spoils.
type lateTick int

const (
	inTime lateTick = iota
	itStood
	itWaited
	itWasEaten
)

// tickedLate says of a task that is ticked long after its planned end, without a time, and whose food spoils, what is
// taken then: that it was done when planned, and what it leaves has stood since; or that what came before waited for it
// on the counter until now. Of a dish that has been eaten by the plan somebody only forgot to tick it off.
func (t *Turn) tickedLate(task *planner.Task, w *planner.Work) (planned time.Time, how lateTick) {
	if t.Plan == nil || t.has("at") || w.Start != nil || w.NotBefore != nil {
		return planned, inTime
	}
	pl, d := t.Plan.Placed(task.Key), t.Party.Dish(task.Dish)
	if pl == nil || d == nil || t.Now.Before(pl.End.Add(overdueLeast)) ||
		!trace.OfDish(t.Party, d).Leaves(d.Key, task.Step).Perishable {
		return planned, inTime
	}
	switch {
	case t.Plan.Eaten(d, t.Now):
		return pl.End, itWasEaten
	case waitsOnCounter(d, task.Step) && t.couldBegin(task, pl.Start) &&
		(task.Attention != planner.Hands || !t.busyElsewhere(pl)):
		return pl.End, itStood
	case slices.ContainsFunc(d.Step(task.Step).After, func(a planner.After) bool {
		return !a.FromStart && onCounter(a.Wait.State)
	}):
		return pl.End, itWaited
	}
	return pl.End, inTime
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
