package bot

import (
	"context"
	"fmt"
	"slices"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/propose"
)

// workTime is when a person says that something happened: now, or earlier.
func (t *Turn) workTime() (time.Time, error) {
	if !t.has("at") {
		return t.Now.Truncate(time.Minute), nil
	}
	at, err := t.timeOn("at", talk.DayOf(t.Now.In(t.zone())), t.zone())
	if err == nil && t.values["at"].Moment.Day == (talk.Day{}) && at.After(t.Now) && at.Add(-24*time.Hour).Before(t.Now) {
		at = at.Add(-24 * time.Hour) // 23:50, said at 0:10
		if t.Now.Sub(at) > 6*time.Hour {
			at = at.Add(24 * time.Hour)
		}
	}
	if err == nil && at.After(t.Now) {
		err = talk.Refuse(t.command.Example, "%s is still to come; it is %s now.", t.dayClock(at), t.dayClock(t.Now))
	}
	return at, err
}

func taskStart(_ context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	if w.Assumed { // it was only taken as begun, or as done: now somebody says how it is
		w = planner.Work{Task: task.Key, Person: w.Person, By: w.By}
	}
	if err := t.over(task, w); err != nil {
		return talk.Reply{}, err
	}
	name := t.taskName(task.Key)
	if w.Progress == planner.Started {
		return talk.Reply{}, talk.Refuse("/task done task:"+string(task.Key), "%s was started at %s.", name,
			t.dayClock(*w.Start))
	}
	if w.Person != "" && w.Person != t.Me.Key {
		return talk.Reply{}, talk.Refuse("/task pass task:"+string(task.Key)+" to:"+t.Me.Name,
			"%s has it: %s. Ask %s to pass it on.", t.personName(w.Person), name, t.personName(w.Person))
	}
	if err := t.mayTake(task, t.Me); err != nil {
		return talk.Reply{}, err
	}
	at, err := t.workTime()
	if err != nil {
		return talk.Reply{}, err
	}
	closed := t.closeBefore(task, at)
	if task.Attention == planner.Hands {
		closed = append(closed, t.closeLast(task.Key, at)...)
	}
	o := t.workOn(task.Key)
	o.Person, o.Progress, o.Start, o.End, o.Extra, o.Assumed = t.Me.Key, planner.Started, &at, nil, 0, false
	t.replan = true
	t.did("started %s", name)
	rep := t.aboutTask("Started: "+name, task.Key, "Next: /task done task:"+string(task.Key)+" when it is")
	rep.Sections = closedSection(closed)
	return rep, nil
}

// closeLast marks as done what a person was at with their hands when they begin something else.
func (t *Turn) closeLast(but planner.TaskKey, at time.Time) []string {
	var names []string
	for _, task := range planner.Tasks(t.Party) {
		w := t.Party.WorkOn(task.Key)
		if task.Key == but || task.Attention != planner.Hands || w == nil || w.Person != t.Me.Key ||
			w.Progress != planner.Started {
			continue
		}
		end := at
		if w.Start != nil {
			if likely := t.likelyEnd(&task, w); likely.Before(end) {
				end = likely // nobody said so then; the time since was not spent on it
			}
			if end.Before(*w.Start) {
				end = *w.Start
			}
		}
		w.Progress, w.End, w.Assumed = planner.Done, &end, true
		names = append(names, t.taskName(task.Key))
	}
	return names
}

// closeBefore marks as done, as of an instant, all that a step comes after: what has begun shows that they
// are. Steps of the same dish or of others count; chores do not, since nothing shows it.
func (t *Turn) closeBefore(task *planner.Task, at time.Time) []string {
	d := t.Party.Dish(task.Dish)
	if d == nil {
		return nil
	}
	var names []string
	for _, a := range d.Step(task.Step).After {
		if a.FromStart {
			continue
		}
		of := task.Dish
		if a.Dish != "" {
			of = a.Dish
		}
		for _, before := range planner.Tasks(t.Party) {
			if before.Dish != of || before.Step != a.Step {
				continue
			}
			w := t.workOn(before.Key)
			if isOver(*w) {
				continue
			}
			end, began := at, at.Add(-before.Time.Likely.Duration())
			if w.Start != nil {
				began = *w.Start
			}
			if end.Before(began) {
				end = began
			}
			w.Progress, w.End, w.Assumed = planner.Done, &end, true
			names = append(t.closeBefore(&before, began), append([]string{t.taskName(before.Key)}, names...)...)
		}
	}
	return names
}

func closedSection(names []string) []talk.Section {
	if len(names) == 0 {
		return nil
	}
	return []talk.Section{{Title: "Done with it", Lines: names}}
}

func taskDone(_ context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	if w.Progress == planner.Skipped && w.Assumed && !t.has("at") {
		return talk.Reply{}, talk.Refuse("/task done task:"+string(task.Key)+" at:20:15", "%s should have been done by %s; "+
			"nobody has said that it was. Say when, with at:.", t.taskName(task.Key), t.dayClock(*w.End))
	}
	if (w.Progress == planner.Done || w.Progress == planner.Skipped) && w.Assumed && t.has("at") {
		w = planner.Work{Task: task.Key, Person: w.Person} // it was only taken so: now somebody says when
		*t.workOn(task.Key) = w
		if t.Plan != nil { // a dish that was left out for that may have a place again
			t.Plan.Without = slices.DeleteFunc(t.Plan.Without, func(l planner.LeftOut) bool { return l.Dish == task.Dish })
		}
	}
	if w.Progress == planner.Done && w.Assumed {
		return t.noted(task), nil
	}
	if err := t.over(task, w); err != nil {
		return talk.Reply{}, err
	}
	at, err := t.workTime()
	if err != nil {
		return talk.Reply{}, err
	}
	if rep, early := t.weighed(task, &w, at); early {
		return rep, nil
	}
	if w.Start != nil && at.Before(*w.Start) {
		return talk.Reply{}, talk.Refuse("/task done task:"+string(task.Key), "It was started at %s, which is after %s.",
			t.dayClock(*w.Start), t.dayClock(at))
	}
	name := t.taskName(task.Key)
	more := ""
	if end, is := t.overdue(task, &w); is && !t.has("at") {
		at, more = end, fmt.Sprintf(", its likely end; say at: if it was another time: /task done task:%s at:%s", task.Key,
			t.Now.In(t.zone()).Format("15:04"))
	}
	planned, how := t.tickedLate(task, &w)
	other := t.Now
	switch how {
	case itWasEaten:
		at, more = planned, ", as planned: by the plan its course is over"
	case itStood:
		at, more = planned, ", as planned; since then it may have stood out"
	case itWaited:
		other, more = planned, ", long after its time; until then what it is made of may have stood out"
	}
	late := how != inTime
	if late {
		more += fmt.Sprintf(" (/task done task:%s at:%s says another time)", task.Key,
			other.In(t.zone()).Format("15:04"))
	}
	began := at.Add(-task.Time.Likely.Duration())
	if w.Start != nil {
		began = *w.Start
	}
	closed := t.closeBefore(task, began)
	tooLate := t.putAwayLate(task, at, t.has("at"))
	o := t.workOn(task.Key)
	if o.Person == "" {
		o.Person = t.doer(task)
	}
	o.Progress, o.End, o.Assumed = planner.Done, &at, late
	t.replan = true
	t.did("did %s", name)
	t.finish = func(r *talk.Reply) { r.Text += t.keepLine(task) + t.mineNext(task.Key) }
	if task.Chore == propose.CupboardKey && !t.many {
		more += t.cupboardLooked()
	}
	return talk.Reply{Text: fmt.Sprintf("Done: %s, %s%s.", name, t.dayClock(at), more) + tooLate,
		Sections: closedSection(closed),
		Next:     "Next: /task list show:mine"}, nil
}

// doer is who did a task that nobody had claimed: the asker, if the asker may have done it.
func (t *Turn) doer(task *planner.Task) planner.PersonKey {
	if t.mayTake(task, t.Me) != nil {
		return ""
	}
	return t.Me.Key
}

// mineNext says what the asker does next.
func (t *Turn) mineNext(but planner.TaskKey) string {
	if t.Plan == nil {
		return ""
	}
	for _, pl := range t.Plan.Tasks {
		w := t.Party.WorkOn(pl.Task)
		if pl.Task == but || len(pl.People) == 0 || !slices.Contains(pl.People, t.Me.Key) || w != nil &&
			w.Progress != planner.Waiting {
			continue
		}
		return fmt.Sprintf("\nYour next: %s, %s.", t.taskName(pl.Task), t.dayClock(pl.Start))
	}
	return ""
}

func taskSkip(_ context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	if err := t.over(task, w); err != nil {
		return talk.Reply{}, err
	}
	at := t.Now.Truncate(time.Minute)
	if w.Start != nil && at.Before(*w.Start) {
		at = *w.Start
	}
	name := t.taskName(task.Key)
	o := t.workOn(task.Key)
	o.Progress, o.End = planner.Skipped, &at
	t.replan = true
	t.did("left out %s", name)
	return talk.Reply{Text: fmt.Sprintf("Left out: %s.", name), Next: "Next: /undo if it was not meant; else /task list"},
		nil
}
