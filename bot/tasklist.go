package bot

import (
	"context"
	"fmt"
	"slices"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/sheet"
	"tureen/planner/words"
)

func taskList(_ context.Context, t *Turn) (talk.Reply, error) {
	show := t.choice("show", "")
	if show == "" {
		show = "open"
		if t.has("dish") || t.has("who") {
			show = "all"
		}
	}
	rows := t.taskRows(show)
	what := map[string]string{"open": "open", "mine": "yours", "today": "today's", "all": "in all"}[show]
	text := fmt.Sprintf("%s %s.", words.CountAs(len(rows), "task is", "tasks are"), what)
	if show == "all" {
		text = words.Count(len(rows), "task") + "."
	}
	if i := slices.IndexFunc(rows, func(r taskRow) bool { return !r.over && !r.at.Before(t.Now) }); i >= 0 {
		text += fmt.Sprintf(" Next, %s: %s.", t.dayClock(rows[i].at), rows[i].what)
	}
	rows = t.bySession(show, rows)
	rep := talk.Reply{Text: text}
	if t.Plan == nil && len(rows) > 0 {
		rep.Text += "\nThere is no plan yet, so they have no times."
	}
	var free []string
	var last talk.Day
	for i, r := range rows {
		if len(rep.Sections) == 0 || r.on != last {
			rep.Sections = append(rep.Sections, talk.Section{Title: r.day})
			last = r.on
		}
		s := &rep.Sections[len(rep.Sections)-1]
		s.Lines = append(s.Lines, r.line)
		if r.verb != "" {
			b := t.button(r.label+": "+short(words.Lower(r.what)), r.verb, "task", string(r.key))
			b.Line = i + 1
			rep.Buttons = append(rep.Buttons, b)
		}
		if r.free {
			free = append(free, string(r.key))
		}
	}
	switch {
	case len(rows) == 0 && show == "mine" && t.Me.Role != planner.Onlooker:
		rep.Next = "Next: /task list show:all"
		t.offerOpen(&rep)
	case len(free) > 0:
		rep.Next = "Next: /task claim task:" + free[0]
	case len(rows) == 0:
		rep.Next = "Next: /task list show:all"
	default:
		rep.Next = "Next: /task start, /task done or /task pass"
	}
	return rep, nil
}

type taskRow struct {
	key  planner.TaskKey
	on   talk.Day // the day that it is planned on
	day  string   // as the list's title has it
	at   time.Time
	what string // what is done
	who  planner.PersonKey
	dish planner.DishKey
	name string // with its dish
	line string
	free bool
	over bool // done, or left out
	// What one does with it, as a button; empty: nothing.
	label, verb string
}

// taskRows are the lines of a list of tasks, in the plan's order or, without one, the menu's.
func (t *Turn) taskRows(show string) []taskRow {
	var rows []taskRow
	for _, task := range planner.Tasks(t.Party) {
		w := planner.Work{}
		if o := t.Party.WorkOn(task.Key); o != nil {
			w = *o
		}
		var pl *planner.Placed
		if t.Plan != nil {
			pl = t.Plan.Placed(task.Key)
		}
		who := w.Person
		if who == "" && pl != nil && len(pl.People) > 0 {
			who = pl.People[0]
		}
		if c := t.Party.Chore(task.Chore); c != nil && c.Kind == planner.Serve && show != "all" {
			continue // time kept free, which nobody claims or ticks
		}
		if (!t.has("dish") || task.Dish == t.values["dish"].dish) && (!t.has("who") || who == t.values["who"].person) &&
			t.shows(show, w, pl, who) {
			rows = append(rows, t.taskRow(&task, w, pl, who))
		}
	}
	slices.SortStableFunc(rows, func(a, b taskRow) int { return a.at.Compare(b.at) })
	return rows
}

// bySession makes one row of what somebody does in one session before the last hours, but where a list is of single
// tasks: all of them, or a dish's.
func (t *Turn) bySession(show string, rows []taskRow) (out []taskRow) {
	if t.Plan == nil || show == "all" || t.has("dish") {
		return rows
	}
	sessions := planner.Sessions(t.Party, t.Plan)
	for i := 0; i < len(rows); i++ {
		s := slices.IndexFunc(sessions, func(s planner.Session) bool { return slices.Contains(s.Tasks, rows[i].key) })
		alike := func(r taskRow) bool {
			return s >= 0 && slices.Contains(sessions[s].Tasks, r.key) && r.verb == rows[i].verb && r.dish != "" &&
				r.at.Before(t.Party.Arrival.Add(-planner.LateOn))
		}
		var together []taskRow
		for _, r := range rows[i:] {
			if alike(r) {
				together = append(together, r)
			}
		}
		if !alike(rows[i]) || len(together) < 2 {
			out = append(out, rows[i])
			continue
		}
		out = append(out, t.sessionRow(&sessions[s], together))
		left := slices.DeleteFunc(slices.Clone(rows[i+1:]), alike)
		rows = append(rows[:i+1:i+1], left...)
	}
	return out
}

// sessionRow is the row of several tasks of a session.
func (t *Turn) sessionRow(s *planner.Session, all []taskRow) taskRow {
	var dishes []string
	var placed []*planner.Placed
	for _, r := range all {
		if name := t.Party.Dish(r.dish).Name; !slices.Contains(dishes, name) {
			dishes = append(dishes, name)
		}
		placed = append(placed, t.Plan.Placed(r.key))
	}
	r := all[0]
	r.what, r.key = words.And(dishes), planner.TaskKey(s.Key)
	when := t.clock(r.at)
	if of := planner.SessionOf(t.Party, placed).Stretches; len(of) > 0 {
		when = ""
		for i, w := range of {
			if i > 0 {
				when += " and "
			}
			when += sheet.Stretch(w, t.format())
		}
	}
	r.line = fmt.Sprintf("%s %s (%s)", when, r.what, words.Count(len(all), "task"))
	if w := t.Party.WorkOn(all[0].key); s.Person != "" {
		r.line += "; " + t.personName(s.Person)
		if w == nil || w.Person == "" {
			r.line += " in the plan"
		}
	}
	r.line += words.TypedKey(string(r.key))
	return r
}

func isOver(w planner.Work) bool { return w.Progress == planner.Done || w.Progress == planner.Skipped }

// shows reports whether a list of such tasks has one; who is its first.
func (t *Turn) shows(list string, w planner.Work, pl *planner.Placed, who planner.PersonKey) bool {
	switch list {
	case "open":
		return !isOver(w) && w.Person == ""
	case "mine":
		return !isOver(w) && (who == t.Me.Key || pl != nil && slices.Contains(pl.People, t.Me.Key))
	case "today":
		return !isOver(w) && pl != nil && talk.DayOf(pl.Start.In(t.zone())) == talk.DayOf(t.Now.In(t.zone()))
	}
	return true
}

func (t *Turn) taskRow(task *planner.Task, w planner.Work, pl *planner.Placed, who planner.PersonKey) taskRow {
	r := taskRow{key: task.Key, over: isOver(w), name: t.nameOf(task), day: "Tasks", who: who, dish: task.Dish,
		what: words.Brief(talk.Clean(task.Do, false), longName),
		free: w.Person == "" && !isOver(w) && task.Attention != planner.Unattended && task.Who.Person == ""}
	r.line = r.name
	if pl != nil {
		r.at, r.day, r.on = pl.Start, t.day(pl.Start), talk.DayOf(pl.Start.In(t.zone()))
		r.line = fmt.Sprintf("%s-%s %s", t.clock(pl.Start), t.clock(pl.End), r.name)
	}
	if s := t.standing(task, w, pl, who); s != "" {
		r.line += "; " + s
	}
	r.line += words.TypedKey(string(task.Key))
	c := t.Party.Chore(task.Chore)
	switch {
	case c != nil && c.Kind == planner.Serve:
		r.free = false
	case r.free && t.Me.Role != planner.Onlooker:
		r.label, r.verb = "Claim", "task claim"
	case w.Person == t.Me.Key && w.Progress == planner.Waiting:
		r.label, r.verb = "Start", "task start"
	case w.Person == t.Me.Key && w.Progress == planner.Started:
		r.label, r.verb = "Done", "task done"
	}
	return r
}

// standing says how far a task is, or who does it.
func (t *Turn) standing(task *planner.Task, w planner.Work, pl *planner.Placed, who planner.PersonKey) string {
	switch {
	case w.Progress == planner.Done:
		return "done" + t.byAndWhen(w)
	case w.Progress == planner.Skipped:
		return "left out"
	case w.Progress == planner.Started && who == "":
		return "under way"
	case w.Progress == planner.Started:
		return "under way, " + t.personName(who)
	case w.Person != "":
		return t.personName(w.Person)
	case who == "" || task.Attention == planner.Unattended:
		return ""
	}
	names := []string{t.personName(who)}
	if pl != nil && slices.Contains(pl.People, who) {
		names = names[:0]
		for _, x := range pl.People {
			names = append(names, t.personName(x))
		}
	}
	return words.And(names) + " in the plan"
}
