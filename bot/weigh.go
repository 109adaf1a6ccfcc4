package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/propose"
	"tureen/planner/solve"
	"tureen/planner/words"
)

// A tick is weighed: hands may be quick, but nothing roasts, cools, thaws or rises in less than its shortest time. Who
// says so early is asked; and what was only taken as done is noted when somebody says it.

// weighed asks whether a task is really done that needs no hands, and has not had its shortest time by an instant.
func (t *Turn) weighed(task *planner.Task, w *planner.Work, at time.Time) (rep talk.Reply, early bool) {
	if task.Attention == planner.Hands || task.Away || t.yes("sure", false) || task.Time.Low <= 0 ||
		propose.AnyTime(task.Chore) {
		return rep, false
	}
	key, name := string(task.Key), t.taskName(task.Key)
	began := w.Start
	if began == nil && t.has("at") {
		return rep, false // who says when it was over knows that it was
	}
	if began == nil && t.Plan != nil {
		if pl := t.Plan.Placed(task.Key); pl != nil {
			began = &pl.Start
		}
	}
	switch {
	case began == nil, began.After(at) && t.many: // who says that all of it is done was before the plan
		return rep, false
	case began.After(at):
		rep.Text = fmt.Sprintf("%s is planned for %s only, and takes %s: really done, or only started?", name,
			t.dayClock(*began), words.ShortRange(task.Time.Low, task.Time.High))
	case at.Sub(*began) < task.Time.Low.Duration():
		rep.Text = fmt.Sprintf("%d of %s: really done, or only started? %s.",
			words.Minutes(at.Sub(*began)), words.Count(int(task.Time.Low), "minute"), name)
	default:
		return rep, false
	}
	options := []string{"task", key, "sure", "yes"}
	if t.has("at") {
		options = append(options, "at", at.In(t.zone()).Format("15:04"))
	}
	really := t.button("Really done", "task done", options...)
	really.InPlace = true
	rep.Buttons = []talk.Button{really}
	if w.Progress == planner.Waiting {
		started := t.button("Only started", "task start", "task", key)
		started.InPlace = true
		rep.Buttons = append([]talk.Button{started}, rep.Buttons...)
	} else {
		rep.Buttons = append(rep.Buttons, talk.Button{Label: "Not yet", Do: talk.No, InPlace: true})
	}
	rep.Buttons[0].Style = talk.Main
	rep.Next = fmt.Sprintf("Next: /task done task:%s sure:yes if it is done", key)
	return rep, true
}

// noted is the answer to who ticks off what was only taken as done: it stands as said now.
func (t *Turn) noted(task *planner.Task) talk.Reply {
	w := t.workOn(task.Key)
	w.Assumed = false
	if w.Person == "" {
		w.Person = t.doer(task)
	}
	name := t.taskName(task.Key)
	t.did("did %s", name)
	return talk.Reply{Text: fmt.Sprintf("Noted: %s was done, %s, as I had taken it.", name, t.dayClock(*w.End)),
		Next: fmt.Sprintf("Next: /task done task:%s at:… if it was another time", task.Key)}
}

// taskAgain takes a task and what it was made of back to the beginning: burnt food is nobody's any more.
func taskAgain(_ context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	name := t.taskName(task.Key)
	if w.Progress == planner.Waiting || w.Progress == planner.Skipped {
		return talk.Reply{}, talk.Refuse("/task show task:"+string(task.Key), "%s has not begun: there is nothing to do "+
			"again.", name)
	}
	lost := t.lostWith(task.Key)
	var lines []string
	for _, k := range slices.Backward(lost) {
		had := t.workOn(k)
		if had.Progress == planner.Waiting {
			continue
		}
		now := wholeMinute(t.Now) // no sooner: its planned time is not taken for the second time
		*had = planner.Work{Task: k, Person: had.Person, By: had.By, NotBefore: &now}
		lines = append(lines, t.taskName(k))
	}
	t.tidyWork()
	t.replan = true
	t.did("does again: %s", name)
	return talk.Reply{Text: fmt.Sprintf("To be done again: %s.", name),
		Sections: []talk.Section{{Title: "From the beginning", Lines: lines}},
		Next:     "Next: /shopping add for what is not there a second time; /undo"}, nil
}

// lostWith is a task with all that it was made of, the latest first.
func (t *Turn) lostWith(k planner.TaskKey) []planner.TaskKey {
	lost := []planner.TaskKey{k}
	for i := 0; i < len(lost); i++ {
		d, s := t.Party.StepOf(taskOf(t.Party, lost[i]))
		if s == nil {
			continue
		}
		for _, a := range s.After {
			for _, before := range planner.Tasks(t.Party) {
				if a.Dish == "" && !a.FromStart && before.Dish == d.Key && before.Step == a.Step &&
					!slices.Contains(lost, before.Key) {
					lost = append(lost, before.Key)
				}
			}
		}
	}
	return lost
}

// againCosts says how long it takes to do a task again with all that it was made of, and how late that makes its
// course; empty where nothing of it has begun.
func (t *Turn) againCosts(k planner.TaskKey) string {
	task := taskOf(t.Party, k)
	if task == nil || t.Plan == nil {
		return ""
	}
	takes := planner.Minutes(0)
	for _, lost := range t.lostWith(k) {
		if t.Party.Progress(lost) != planner.Waiting {
			takes += taskOf(t.Party, lost).Length(1)
		}
	}
	pl, d := t.Plan.Placed(k), t.Party.Dish(task.Dish)
	if takes == 0 || pl == nil || d == nil {
		return ""
	}
	cost := fmt.Sprintf("\nThat takes %s again, from the beginning", words.Length(int(takes)))
	late := planner.Minutes(t.Now.Add(takes.Duration()).Sub(pl.End) / time.Minute)
	if spare, _ := check.SpareOf(t.Party, t.Plan, k); late > spare {
		return cost + fmt.Sprintf(": %s comes about %s later, or without it.", t.courseNamed(d), words.Short(late-spare))
	}
	return cost + ", and costs no course its time."
}

// courseNamed is a dish's course as a sentence names it.
func (t *Turn) courseNamed(d *planner.Dish) string {
	if c := t.Party.Course(d.Course); c != nil {
		return "the " + c.Named()
	}
	return "the course"
}

// taskCaughtUp ticks off, as planned, all of somebody's tasks that should be over.
func taskCaughtUp(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	who, all := t.Me, strings.EqualFold(t.text("who"), "everybody")
	if t.has("who") && !all {
		k, err := t.findPerson(t.text("who"))
		if err != nil {
			return talk.Reply{}, err
		}
		who = t.Party.Person(k)
	}
	var lines, asked []string
	for i := range t.Plan.Tasks {
		pl := &t.Plan.Tasks[i]
		task := taskOf(t.Party, pl.Task)
		if task == nil || pl.End.After(t.Now) || !all && !slices.Contains(pl.People, who.Key) {
			continue
		}
		w := t.workOn(pl.Task)
		if isOver(*w) && !w.Assumed {
			continue
		}
		if c := t.Party.Chore(task.Chore); c != nil && (c.Kind == planner.Cool || c.Key == "leftovers") {
			asked = append(asked, t.nameOf(task)) // hot food is not cold because the hour has come
			continue
		}
		start, end := pl.Start, pl.End
		if w.Start != nil {
			start = *w.Start
		}
		if w.End != nil {
			end = *w.End
		}
		if end.Before(start) {
			end = start
		}
		if w.Person == "" && len(pl.People) > 0 {
			w.Person = pl.People[0]
		}
		w.Progress, w.Start, w.End, w.Assumed = planner.Done, &start, &end, false
		lines = append(lines, t.nameOf(task))
	}
	t.tidyWork()
	rep := talk.Reply{Text: "Nothing is open that should be over by now.", Next: "Next: /now"}
	if len(lines) > 0 {
		t.replan = true
		t.did("ticked off %s as planned", words.Count(len(lines), "task"))
		rep.Text = fmt.Sprintf("Done as planned: %s.", words.Count(len(lines), "task"))
		rep.Sections = []talk.Section{{Title: "Ticked off", Lines: firstLines(lines, mostChanges, "/task list has them all")}}
	}
	if len(asked) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Not these: is it in the cold? Tick it off by itself",
			Lines: asked})
	}
	return rep, nil
}

// planAsTold makes a plan in which what should have been over by the one in force stays where it was, taken as done;
// where there is none so, it is planned again.
func (t *Turn) planAsTold(ctx context.Context) (plan *planner.Plan, clash *solve.Clash, ticked []string,
	better []talk.Section, err error) {
	if t.Plan != nil {
		said := slices.Clone(t.Party.Work)
		t.makes = true
		plan, clash, ticked, err = t.planPast(ctx, solve.Ask{Now: wholeMinute(t.Now), InForce: t.Plan})
		t.makes = false
		if err == nil && plan != nil {
			return plan, clash, ticked, nil, nil
		}
		t.Party.Work = said
	}
	plan, clash, better, err = t.planFor(ctx)
	return plan, clash, nil, better, err
}

// cooledAsPlanned reports whether food may be taken as put into the cold as planned, before the party's day: where
// nobody ticked what it was cooked by either, and so the whole of the work was done without a word. It is asked about.
func (t *Turn) cooledAsPlanned(c *planner.Chore, pl *planner.Placed, taken []planner.TaskKey) bool {
	return c.Kind == planner.Cool && t.Now.Before(t.Party.Day()) && !pl.End.After(t.Now) && c.From != nil &&
		slices.Contains(taken, c.From.Task)
}

// mayBePast reports whether a task may be taken as begun, or as over, though nobody said so: on the party's day once
// its time has come, and before that, when there is no hurry, once it should have been over for a while.
func (t *Turn) mayBePast(pl *planner.Placed) bool {
	if t.Now.Before(t.Party.Day()) {
		return !pl.End.Add(overdueLeast).After(t.Now)
	}
	return !pl.Start.After(t.Now)
}

// unboughtTrip reports whether a trip to a shop, of which nobody has said a word, is planned again all the same: what
// was not bought is no dinner. On the party's day a word about something else does not send anybody out.
func (t *Turn) unboughtTrip(c *planner.Chore) bool {
	return c.Kind == planner.Shop && (t.makes || t.Now.Before(t.Party.Day()))
}
