package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/mise"
	"tureen/planner/words"
)

// A session, a dish or a course is claimed, handed on, started and ticked off as one: what a command does to a
// task, it does to each of theirs that it can be done to.

// findMany is all the tasks of a session, a course or a dish that a text names, in the order of the plan, and
// what that is called.
func (t *Turn) findMany(text string) ([]planner.TaskKey, string) {
	key := planner.Key(text)
	if t.Plan != nil {
		for _, s := range planner.Sessions(t.Party, t.Plan) {
			if s.Key == key || t.Me != nil && s.Key == key+"-"+string(t.Me.Key) {
				return s.Tasks, t.sessionName(&s)
			}
			if day, cut := strings.CutPrefix(key, cutOf); cut && (s.Key == day || t.Me != nil &&
				s.Key == day+"-"+string(t.Me.Key)) {
				if g := t.sharedCutting(&s); g != nil {
					return g.Tasks, "what is cut for several dishes"
				}
			}
		}
	}
	var dishes []planner.DishKey
	of := ""
	if i := slices.IndexFunc(t.Party.Courses, func(c planner.Course) bool {
		return string(c.Key) == key || planner.Key(c.Name) == key
	}); i >= 0 {
		of = "the " + t.Party.Courses[i].Named()
		for _, d := range t.Party.Dishes {
			if d.Course == t.Party.Courses[i].Key {
				dishes = append(dishes, d.Key)
			}
		}
	} else if k, err := t.findDish(text); err == nil {
		of, dishes = t.Party.Dish(k).Name, []planner.DishKey{k}
	}
	var keys []planner.TaskKey
	for _, task := range planner.Tasks(t.Party) {
		if slices.Contains(dishes, task.Dish) {
			keys = append(keys, task.Key)
		}
	}
	if t.Plan != nil {
		slices.SortStableFunc(keys, func(a, b planner.TaskKey) int { return t.startAt(a).Compare(t.startAt(b)) })
	}
	return keys, of
}

// offerMany offers what stands for several tasks.
func (t *Turn) offerMany(out *suggestions) {
	if t.Plan != nil {
		for _, s := range planner.Sessions(t.Party, t.Plan) {
			out.add(s.Key, words.PlainStamps(t.sessionName(&s)))
			if t.sharedCutting(&s) != nil {
				out.add(cutOf+s.Key, "what is cut for several dishes then")
			}
		}
	}
	for _, c := range t.Party.Courses {
		out.add(string(c.Key), "all of the "+c.Named())
	}
	for _, d := range t.Party.Dishes {
		out.add(string(d.Key), "all of "+d.Name)
	}
}

// cutOf begins the key of what is cut for several dishes in a session: "cut-thu-noor".
const cutOf = "cut-"

// sharedCutting is what is cut for several dishes in a session, but for the last hours.
func (t *Turn) sharedCutting(s *planner.Session) *mise.Group {
	var all []*planner.Placed
	for _, k := range s.Tasks {
		if pl := t.Plan.Placed(k); pl != nil && pl.Start.Before(t.Party.Arrival.Add(-planner.LateOn)) {
			all = append(all, pl)
		}
	}
	return mise.Of(t.Party, all)
}

// sessionName is a session as a sentence names it: "Noor's work on Thursday".
func (t *Turn) sessionName(s *planner.Session) string {
	return t.personName(s.Person) + "'s work on " + t.day(s.Day.Add(12*time.Hour))
}

// startAt is when a task is planned; zero where it is not.
func (t *Turn) startAt(k planner.TaskKey) time.Time {
	if t.Plan != nil {
		if pl := t.Plan.Placed(k); pl != nil {
			return pl.Start
		}
	}
	return time.Time{}
}

// firstOf does a command on the first task that it names and that is still to be done.
func firstOf(run runner) runner {
	return func(ctx context.Context, t *Turn) (talk.Reply, error) {
		v := t.values["task"]
		for _, k := range v.tasks {
			if t.Party.Progress(k) == planner.Waiting {
				v.task = k
				break
			}
		}
		if v.task == "" {
			return talk.Reply{}, talk.Refuse("/task list show:all", "Nothing of %s is left to start.", v.of)
		}
		t.values["task"] = v
		return run(ctx, t)
	}
}

// manyHead is how a command's reply begins that was done to several tasks.
var manyHead = map[string]string{"task claim": "Yours", "task give-back": "Free again", "task pass": "Handed on",
	"task assign": "Handed on", "task done": "Done", "task skip": "Left out"}

// each does a command on every task that it names; what cannot be done to one of them is said.
func each(run runner) runner {
	return func(ctx context.Context, t *Turn) (talk.Reply, error) {
		v := t.values["task"]
		if len(v.tasks) == 0 {
			return run(ctx, t)
		}
		var done, not []string
		var first error
		t.many = true
		for _, k := range v.tasks {
			name := t.taskName(k)
			if later := t.notDue(k); later != "" {
				not = append(not, later)
				continue
			}
			t.values["task"], t.what = value{task: k}, ""
			rep, err := run(ctx, t)
			if refusal := (*talk.Refusal)(nil); err != nil && !errors.As(err, &refusal) {
				return talk.Reply{}, err
			} else if err != nil {
				if w := t.Party.WorkOn(k); w == nil || !isOver(*w) { // what is over is no news
					not = append(not, refusal.Text)
				}
				first = err
			} else if t.what != "" {
				done = append(done, name)
			} else {
				not = append(not, rep.Text) // it asks first
			}
		}
		t.values["task"], t.what, t.finish = v, "", nil
		if len(done) == 0 {
			if first != nil && len(not) == 0 && t.command.Name == "task done" {
				return talk.Reply{Text: fmt.Sprintf("All of %s is ticked off already.", v.of), Next: "Next: /now"}, nil
			}
			if first != nil {
				return talk.Reply{}, first
			}
			rep := talk.Reply{Text: fmt.Sprintf("Nothing changes: %s.", v.of), Next: "Next: /task list show:mine"}
			if len(not) > 0 {
				rep.Sections = []talk.Section{{Title: "Not these", Lines: slices.Compact(not)}}
			}
			return rep, nil
		}
		head := manyHead[t.command.Name]
		if to := t.values["to"].person; to != "" {
			head = t.personName(to) + " has it now"
		}
		t.did("%s: %s (%s)", words.Lower(head), v.of, words.Count(len(done), "task"))
		rep := talk.Reply{Text: fmt.Sprintf("%s: %s (%s).", head, v.of, words.Count(len(done), "task")),
			Next: "Next: /task list show:mine"}
		rep.Sections = []talk.Section{{Title: "Its tasks", Lines: firstLines(done, mostChanges, "/task list has them all")}}
		if len(not) > 0 {
			rep.Sections = append(rep.Sections, talk.Section{Title: "Not these", Lines: slices.Compact(not)})
		}
		t.finish = func(r *talk.Reply) {
			if when := t.stretchesOf(v.tasks); when != "" && t.command.Name != "task done" && t.command.Name != "task skip" {
				r.Text = strings.TrimSuffix(r.Text, ".") + ": " + when + "."
			}
		}
		return rep, nil
	}
}

// dueSoon is how long before its time a task may be done that is ticked off with others; ours.
const dueSoon = time.Hour

// notDue says of a task that is ticked off with others, and is to begin much later, that it is not done: the soup of
// Friday is, and not its reheating on Saturday.
func (t *Turn) notDue(k planner.TaskKey) string {
	if t.command.Name != "task done" || t.Plan == nil || t.Party.Progress(k) != planner.Waiting {
		return ""
	}
	pl := t.Plan.Placed(k)
	if pl == nil || !pl.Start.After(t.Now.Add(dueSoon)) {
		return ""
	}
	return fmt.Sprintf("%s is planned for %s: /task done task:%s if it is done all the same.", t.taskName(k),
		t.dayClock(pl.Start), k)
}

// stretchesOf is when some tasks are planned: "Thu 19:30-20:45 and Sat 10:00-11:15".
func (t *Turn) stretchesOf(keys []planner.TaskKey) string {
	if t.Plan == nil {
		return ""
	}
	var all []*planner.Placed
	for i := range t.Plan.Tasks {
		if slices.Contains(keys, t.Plan.Tasks[i].Task) {
			all = append(all, &t.Plan.Tasks[i])
		}
	}
	return t.stretches(planner.SessionOf(t.Party, all).Stretches)
}

// stretches says from when to when, each day once.
func (t *Turn) stretches(all []planner.Window) string {
	var out []string
	var last talk.Day
	for _, w := range all {
		text := t.clock(w.From)
		if day := talk.DayOf(w.From.In(t.zone())); day != last {
			text, last = t.dayClock(w.From), day
		}
		if w.To.After(w.From) {
			text += "-" + t.clock(w.To)
		}
		out = append(out, text)
	}
	return words.And(out)
}
