package bot

import (
	"context"
	"fmt"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/sheet"
	"tureen/planner/solve"
	"tureen/planner/ways"
	"tureen/planner/words"
)

// A dish is made on the day that somebody says: those of its steps that can wait so long are done on it, the others
// stay where they are best. It is planned at once; where no plan has it so, nothing changes and the reply says why.

var taskDayCommand = command{talk.Command{Name: "task day",
	Help: "Say on which day a dish or a task is made; without a day: when it suits", Access: talk.CoHosts,
	TellsDone: true, Slow: true, Example: "/task day task:pear-tart day:fri part:evening",
	Options: []talk.Option{tasksOption, {Name: "day", Help: "the day", Kind: talk.DateOption, Example: "fri"},
		{Name: "part", Help: "which part of it", Kind: talk.Choice, Choices: []string{"morning", "afternoon", "evening"},
			Example: "evening"}}}, taskDay}

func taskDay(ctx context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	if t.has("part") && !t.has("day") {
		return talk.Reply{}, talk.Refuse("/task day task:… day:fri part:evening", "Say which day, too.")
	}
	v, on := t.values["task"], (*planner.Window)(nil)
	what, when := v.of, "when it suits"
	if v.task != "" {
		what = t.taskName(v.task)
		v.tasks = []planner.TaskKey{v.task}
	}
	if t.has("day") {
		day, hours := t.values["day"].Day, dayHours[t.choice("part", "")]
		at := func(m planner.Minutes) time.Time {
			return time.Date(day.Year, day.Month, day.Day, 0, int(m), 0, 0, t.zone())
		}
		on = &planner.Window{From: at(hours.From), To: at(hours.Until)}
		if when = "on " + t.day(on.From); t.has("part") {
			when += " in the " + t.choice("part", "")
		}
		if !on.To.After(t.Now) || on.From.After(t.Party.Day().AddDate(0, 0, 1)) {
			return talk.Reply{}, talk.Refuse("", "%s is no day before the meal that is still to come.", t.day(on.From))
		}
		if on.To.Before(t.Party.Day()) && v.of != "" {
			v.tasks = t.madeAhead(v.tasks)
		}
		for t.Party.PrepDays < planner.MaxPrepDays && on.From.Before(t.Party.Opens()) {
			t.Party.PrepDays++
		}
	}
	moved := t.putOn(v.tasks, on)
	if len(moved) == 0 {
		return talk.Reply{}, talk.Refuse("/task why task:"+string(v.tasks[0]),
			"%s cannot be made %s: it does not keep so long.", words.Upper(what), when)
	}
	before := t.Plan
	plan, clash, err := t.keeping(ctx, solve.Ask{Now: wholeMinute(t.Now), InForce: before})
	if err != nil {
		return talk.Reply{}, talk.Refuse("", "%s", talk.Sentence(err.Error()))
	}
	if clash != nil {
		rep := t.clashReply(clash, nil)
		rep.Text = fmt.Sprintf("There is no plan with %s %s, and nothing is changed.", what, when)
		return rep, nil
	}
	t.putPlan(plan, fmt.Sprintf("planned: %s %s", what, when))
	rep := talk.Reply{Text: fmt.Sprintf("%s is made %s: %s.", words.Upper(what), when, t.stretchesOf(moved)),
		Next: "Next: /plan prep; /undo takes it back"}
	if on != nil && len(moved) < len(v.tasks) {
		var names []string
		for _, k := range moved {
			names = append(names, words.Lower(strings.TrimRight(taskOf(t.Party, k).Do, ".")))
		}
		rep.Text = fmt.Sprintf("%s, as far as it keeps, %s: %s (%s).\nThe rest is done at its time.", words.Upper(what),
			when, words.Few(names, 2), t.stretchesOf(moved))
	}
	if lines := sheet.Changes(t.Party, before, plan, t.format()); len(lines) > 0 {
		rep.Sections = []talk.Section{{Title: "Changed",
			Lines: firstLines(lines, mostChanges, "/plan show has the whole plan")}}
	}
	return rep, nil
}

// putOn says of tasks that they are done within a window, where they can be; without one, that they are done when it
// suits. It answers which.
func (t *Turn) putOn(tasks []planner.TaskKey, on *planner.Window) (moved []planner.TaskKey) {
	for _, k := range tasks {
		task := taskOf(t.Party, k)
		if task == nil || t.Party.Progress(k) != planner.Waiting {
			continue
		}
		if d := t.Party.Dish(task.Dish); on != nil && d != nil {
			reach := t.reach(d, d.Step(task.Step), longestReach)
			if reach > 0 && t.serviceOf(d).until.Add(-reach).After(on.To) {
				continue
			}
		}
		w := t.workOn(k)
		w.NotBefore, w.NotAfter = nil, nil
		if on != nil {
			from, to := planner.Later(on.From, wholeMinute(t.Now)), on.To
			w.NotBefore, w.NotAfter = &from, &to
		}
		moved = append(moved, k)
	}
	t.tidyWork()
	return moved
}

// madeAhead has the dishes of some tasks made ahead where they can be so, and answers all their tasks then.
func (t *Turn) madeAhead(tasks []planner.TaskKey) (out []planner.TaskKey) {
	of := map[planner.DishKey]bool{}
	for _, k := range tasks {
		if task := taskOf(t.Party, k); task != nil {
			of[task.Dish] = true
		}
	}
	for i := range t.Party.Dishes {
		d := &t.Party.Dishes[i]
		if of[d.Key] && d.Way == "" && ways.Has(t.Party, d, planner.MadeAhead) {
			d.Way = planner.MadeAhead
			if ways.Take(t.Party, d, d.Way) {
				renewCooling(t.Party, t.Now)
			}
		}
	}
	for _, task := range planner.Tasks(t.Party) {
		if of[task.Dish] {
			out = append(out, task.Key)
		}
	}
	return out
}

// longestReach is how many steps after one another are followed.
const longestReach = 30

// reach is how long before its service a step may begin at most, by how long what it leaves may wait; 0 where nothing
// bounds that.
func (t *Turn) reach(d *planner.Dish, s *planner.Step, deep int) (out time.Duration) {
	if s == nil || deep == 0 {
		return 0
	}
	long := s.Time.High.Duration()
	bound := func(w *planner.Wait, then time.Duration, bounded bool) {
		most := w.WorthUntil
		if w.Longest > 0 && (most == 0 || w.Longest < most) {
			most = w.Longest
		}
		if w.State == planner.Straight {
			most = 0
		} else if most == 0 {
			bounded = false
		}
		if all := long + most.Duration() + then; bounded && (out == 0 || all < out) {
			out = all
		}
	}
	if s.Serve != nil {
		bound(s.Serve, 0, true)
	}
	for i := range d.Steps {
		for j := range d.Steps[i].After {
			if a := &d.Steps[i].After[j]; a.Dish == "" && a.Step == s.Key && !a.FromStart {
				then := t.reach(d, &d.Steps[i], deep-1)
				bound(&a.Wait, then, then > 0)
			}
		}
	}
	return out
}
