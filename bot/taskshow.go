package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// mostHands is to how many people a task's card offers to pass it on.
const mostHands = 4

// taskShow is one task's card: when, who, how, and what can be done with it.
func taskShow(_ context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	rep := talk.Reply{Text: t.taskName(task.Key) + t.planned(task.Key) + t.taskState(task, w) + "."}
	manner := attentionText(task.Attention, task.Hands, task.MaxHands, t.everyOf(task))
	switch task.Attention {
	case planner.Watch:
		manner = "keep an eye on it"
	case planner.Unattended:
		manner = "it goes by itself"
	}
	if own := talk.Clean(task.Do, false); words.Brief(own, longName) != words.Brief(own, len(own)) {
		rep.Text += "\nIn full: " + own
	}
	rep.Text += "\nIt takes " + spanText(task.Time) + "; " + manner + "."
	if w := t.Party.WorkOn(task.Key); w != nil && w.Progress == planner.Waiting && w.NotBefore != nil {
		until := " at the earliest"
		if w.NotAfter != nil {
			until = ", and before " + t.dayClock(*w.NotAfter)
		}
		rep.Text += fmt.Sprintf("\nIt is to begin at %s%s; /late task:%s by:0 takes that back.",
			t.dayClock(*w.NotBefore), until, task.Key)
	}
	var how []string
	if d := t.Party.Dish(task.Dish); d != nil {
		how = stepParts(t, d, d.Step(task.Step))
		if to := trace.CookedTo(t.Party, d, d.Step(task.Step)); to != "" {
			how = append(how, "published: "+to)
		}
	} else if c := t.Party.Chore(task.Chore); c != nil {
		for i := range c.Uses {
			how = append(how, useText(&c.Uses[i]))
		}
		if c.Note != "" {
			how = append(how, talk.Clean(c.Note, false))
		}
		if c.Away {
			how = append(how, "out of the house")
		}
	}
	for i := range how {
		how[i] = words.Upper(how[i])
	}
	if len(how) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "How", Lines: how})
	}
	rep.Buttons = t.taskButtons(task, w)
	rep.Next = "Next: /task list"
	return rep, nil
}

// everyOf is how often a task wants a touch.
func (t *Turn) everyOf(task *planner.Task) planner.Minutes {
	if d := t.Party.Dish(task.Dish); d != nil {
		return d.Step(task.Step).Every
	}
	return 0
}

// taskState says whose a task is and how far it is, as the end of a sentence.
func (t *Turn) taskState(task *planner.Task, w planner.Work) string {
	switch {
	case w.Progress == planner.Done:
		return "; done" + t.byAndWhen(w)
	case w.Progress == planner.Skipped:
		return "; left out"
	case w.Progress == planner.Started && w.Person != "":
		return "; under way, " + t.personName(w.Person)
	case w.Progress == planner.Started:
		return "; under way"
	case w.Person != "":
		return "; " + t.personName(w.Person) + " has it"
	case task.Attention == planner.Unattended:
		return "; nobody is needed"
	}
	if names := t.plannedFor(task.Key); len(names) > 0 {
		return "; " + words.And(names) + " in the plan"
	}
	return "; free"
}

// plannedFor are the names of whom the plan gives a task.
func (t *Turn) plannedFor(k planner.TaskKey) []string {
	if t.Plan == nil {
		return nil
	}
	pl := t.Plan.Placed(k)
	if pl == nil {
		return nil
	}
	var names []string
	for _, x := range pl.People {
		names = append(names, t.personName(x))
	}
	return names
}

// taskButtons are what the asker may do with a task, the likely first.
func (t *Turn) taskButtons(task *planner.Task, w planner.Work) []talk.Button {
	var out []talk.Button
	key := string(task.Key)
	add := func(label, command string, more ...string) {
		out = append(out, t.button(label, command, append([]string{"task", key}, more...)...))
	}
	if t.Me.Role != planner.Onlooker && !isOver(w) {
		mine := w.Person == t.Me.Key
		planned := t.Plan != nil && t.Plan.Placed(task.Key) != nil && slices.Contains(t.Plan.Placed(task.Key).People,
			t.Me.Key)
		if w.Person == "" && task.Attention != planner.Unattended && t.mayTake(task, t.Me) == nil {
			add("Claim", "task claim")
		}
		if w.Progress == planner.Waiting {
			add("Started", "task start")
		}
		add("Done", "task done")
		if w.Progress == planner.Waiting && (mine || planned) && t.Plan != nil {
			add("In 10 minutes", "task snooze")
		}
		if w.Progress == planner.Started {
			add("10 minutes more", "task longer")
		}
		if mine {
			add("Give back", "task give-back")
		}
		if w.Progress == planner.Waiting && task.Attention != planner.Unattended {
			n := 0
			for i := range t.Party.People {
				x := &t.Party.People[i]
				if x.Key == t.Me.Key || x.Key == w.Person || n == mostHands || t.mayTake(task, x) != nil {
					continue
				}
				switch {
				case w.Person == "":
					add("Give to "+short(x.Name), "task assign", "to", string(x.Key))
				case mine || t.Me.Role == planner.Host:
					add("Pass to "+short(x.Name), "task pass", "to", string(x.Key))
				default:
					continue
				}
				n++
			}
		}
	}
	if t.Plan != nil && t.Plan.Placed(task.Key) != nil {
		add("Why?", "task why")
	}
	if len(out) > 0 {
		out[0].Style = talk.Main
	}
	return out
}

// nowButtons are for what somebody is at, or should be, then for what should have been over, then for what comes.
func (t *Turn) nowButtons(who planner.PersonKey) []talk.Button {
	const most = 4
	var now, past, next []talk.Button
	tasks := map[planner.TaskKey]planner.Task{}
	for _, task := range planner.Tasks(t.Party) {
		tasks[task.Key] = task
	}
	for _, pl := range inOrder(t.Plan) {
		task, there := tasks[pl.Task]
		if !there || !slices.Contains(pl.People, who) {
			continue
		}
		what := short(words.Lower(strings.TrimRight(talk.Clean(task.Do, false), ".")))
		start, done := t.button("Started: "+what, "task start", "task", string(pl.Task)),
			t.button("Done: "+what, "task done", "task", string(pl.Task))
		switch progress := t.Party.Progress(pl.Task); {
		case progress == planner.Started:
			now = append(now, done)
		case progress != planner.Waiting:
		case !pl.End.After(t.Now):
			past = append(past, done)
		case !pl.Start.After(t.Now):
			now = append(now, start)
		default:
			next = append(next, start)
		}
	}
	out := slices.Concat(now, past, next)
	out = out[:min(len(out), most)]
	if len(out) > 0 {
		out[0].Style = talk.Main
	}
	return out
}

// dayButtons are a button for each of the first days that a plan has work on.
func (t *Turn) dayButtons() []talk.Button {
	const most = 4
	var out []talk.Button
	var last talk.Day
	for _, pl := range inOrder(t.Plan) {
		on := talk.DayOf(pl.Start.In(t.zone()))
		if on == last {
			continue
		}
		last = on
		if out = append(out, t.button(on.In(time.UTC).Format("Mon 2 Jan"), "plan show", "day",
			on.String())); len(out) == most {
			break
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// inDays says how far away a day is; empty when it has passed.
func inDays(today, day talk.Day) string {
	switch n := int(day.In(time.UTC).Sub(today.In(time.UTC)).Hours() / 24); {
	case n < 0:
		return ""
	case n == 0:
		return "today"
	case n == 1:
		return "tomorrow"
	default:
		return "in " + words.Count(n, "day")
	}
}

// inOrder are a plan's tasks by when they start.
func inOrder(plan *planner.Plan) []planner.Placed {
	out := slices.Clone(plan.Tasks)
	slices.SortStableFunc(out, func(a, b planner.Placed) int { return a.Start.Compare(b.Start) })
	return out
}
