package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
)

var (
	taskOption  = Option{Name: "task", Help: "which task", Kind: TaskOption, Required: true, Example: "pear-tart/roll"}
	atOption    = Option{Name: "at", Help: "when, if not now", Kind: TimeOption, Example: "17:40"}
	listChoices = []string{"open", "mine", "today", "all"}
)

var taskCommands = []Command{
	{Name: "task list", Help: "Tasks: open, yours, today's, all, or a dish's", Access: Lookers, Example: "/task list show:mine", Run: taskList,
		Options: []Option{
			{Name: "show", Help: "which", Kind: Choice, Choices: listChoices, Example: "mine"},
			{Name: "dish", Help: "only this dish's", Kind: DishOption, Example: "pear-tart"},
			{Name: "who", Help: "only this person's", Kind: PersonOption, Example: "Ben"},
		}},
	{Name: "task claim", Help: "Take a task on", Access: CoHosts, Example: "/task claim task:pear-tart/roll", Run: taskClaim, Slow: true, Options: []Option{taskOption}},
	{Name: "task give-back", Help: "Give back a task you have", Access: CoHosts, Example: "/task give-back task:pear-tart/roll", Run: taskGiveBack, Slow: true, Options: []Option{taskOption}},
	{Name: "task hand", Help: "Hand a task of yours to somebody", Access: CoHosts, Example: "/task hand task:pear-tart/roll to:Ben", Run: taskHand, Slow: true,
		Options: []Option{taskOption, {Name: "to", Help: "to whom", Kind: PersonOption, Required: true, Example: "Ben"}}},
	{Name: "task assign", Help: "Give a free task to somebody", Access: CoHosts, Example: "/task assign task:pear-tart/roll to:Ben", Run: taskAssign, Slow: true,
		Options: []Option{taskOption, {Name: "to", Help: "to whom", Kind: PersonOption, Required: true, Example: "Ben"}}},
	{Name: "task start", Help: "Say that a task has begun; your last one with hands is done then", Access: CoHosts, Example: "/task start task:pear-tart/roll", Run: taskStart, Slow: true, Options: []Option{taskOption, atOption}},
	{Name: "task done", Help: "Say that a task is done", Access: CoHosts, Example: "/task done task:pear-tart/roll", Run: taskDone, Slow: true, Options: []Option{taskOption, atOption}},
	{Name: "task skip", Help: "Say that a task is left out", Access: CoHosts, Example: "/task skip task:pear-tart/roll", Run: taskSkip, Slow: true, Options: []Option{taskOption}},
}

// theTask is the task that the task option names, with what is said about it so far.
func (t *Turn) theTask() (*planner.Task, planner.Work) {
	task := taskOf(t.Party, t.values["task"].task)
	if w := t.Party.WorkOn(task.Key); w != nil {
		return task, *w
	}
	return task, planner.Work{Task: task.Key}
}

// when a task is planned, as the end of a sentence: ", Sat 17:35 to 17:55".
func (t *Turn) planned(k planner.TaskKey) string {
	if t.Plan == nil {
		return ""
	}
	pl := t.Plan.Placed(k)
	if pl == nil {
		return ""
	}
	return fmt.Sprintf(", %s to %s", t.dayClock(pl.Start), t.clock(pl.End))
}

// mayTake says why somebody may not have a task; nil when they may.
func (t *Turn) mayTake(task *planner.Task, x *planner.Person) error {
	switch {
	case x.Role == planner.Looker:
		return refuse("/people change who:"+x.Name+" role:co-host", "%s only looks on and is given no work.", x.Name)
	case task.Who.Person != "" && task.Who.Person != x.Key:
		return refuse("", "%s is for %s alone.", t.taskName(task.Key), t.personName(task.Who.Person))
	case task.Who.Skill != "" && !slices.Contains(x.Skills, task.Who.Skill):
		return refuse(fmt.Sprintf("/people change who:%s skills:%s", x.Name, task.Who.Skill), "%s wants somebody for %s, and %s is not noted for it.", t.taskName(task.Key), task.Who.Skill, x.Name)
	}
	return nil
}

// over refuses what cannot be done to a task that is done or skipped.
func (t *Turn) over(task *planner.Task, w planner.Work) error {
	switch w.Progress {
	case planner.Done:
		return refuse("/undo", "%s is done already%s.", t.taskName(task.Key), t.byAndWhen(w))
	case planner.Skipped:
		return refuse("/undo", "%s was left out%s.", t.taskName(task.Key), t.byAndWhen(w))
	}
	return nil
}

func (t *Turn) byAndWhen(w planner.Work) string {
	text := ""
	if w.Person != "" {
		text = ", by " + t.personName(w.Person)
	}
	if w.End != nil {
		text += ", " + t.dayClock(*w.End)
	}
	return text
}

func taskClaim(_ context.Context, t *Turn) (Reply, error) {
	task, w := t.theTask()
	if err := t.over(task, w); err != nil {
		return Reply{}, err
	}
	name := t.taskName(task.Key)
	switch {
	case w.Person == t.Me.Key:
		return Reply{Text: fmt.Sprintf("You have it already: %s%s.", name, t.planned(task.Key)), Next: "Next: /task list show:mine"}, nil
	case w.Person != "":
		return Reply{}, refuse("/task list show:open", "%s has it: %s. Ask %s to hand it over.", t.personName(w.Person), name, t.personName(w.Person))
	}
	if err := t.mayTake(task, t.Me); err != nil {
		return Reply{}, err
	}
	t.workOn(task.Key).Person = t.Me.Key
	t.replan = true
	t.did("claimed %s", name)
	rep := t.aboutTask(fmt.Sprintf("It is yours: %s", name), task.Key, "Next: /task list show:mine")
	t.offerNight(task.Key)
	return rep, nil
}

// aboutTask is a reply whose first line ends with when the task is planned, as it is once the plan has been
// settled, and which offers what one does with a task.
func (t *Turn) aboutTask(first string, k planner.TaskKey, next string) Reply {
	rep := Reply{Next: next}
	t.finish = func(r *Reply) { r.Text = first + t.planned(k) + "." }
	w := t.Party.WorkOn(k)
	if w == nil || w.Progress == planner.Waiting {
		rep.Buttons = []Button{t.button("Started", "task start", "task", string(k)), t.button("Done", "task done", "task", string(k))}
		if w != nil && w.Person != "" {
			rep.Buttons = append(rep.Buttons, t.button("Give back", "task give-back", "task", string(k)))
		}
	} else if w.Progress == planner.Started {
		rep.Buttons = []Button{t.button("Done", "task done", "task", string(k))}
	}
	rep.Buttons[0].Style = Main
	return rep
}

func taskGiveBack(_ context.Context, t *Turn) (Reply, error) {
	task, w := t.theTask()
	name := t.taskName(task.Key)
	if err := t.over(task, w); err != nil {
		return Reply{}, err
	}
	switch {
	case w.Person == "":
		return Reply{}, refuse("/task list show:mine", "Nobody has claimed %s.", name)
	case w.Person != t.Me.Key && t.Me.Role != planner.Host:
		return Reply{}, refuse("/task list show:mine", "It is not yours to give back: %s has %s.", t.personName(w.Person), name)
	}
	had := w.Person
	*t.workOn(task.Key) = planner.Work{Task: task.Key} // what was begun is to be begun anew
	t.tidyWork()
	t.replan = true
	t.did("gave back %s", name)
	text := fmt.Sprintf("It is free again: %s", name)
	if had != t.Me.Key {
		text = fmt.Sprintf("Taken from %s, and free again: %s", t.personName(had), name)
	}
	return Reply{Text: text + ".", Buttons: []Button{t.button("Claim", "task claim", "task", string(task.Key))}, Next: "Next: /task list show:open"}, nil
}

func taskHand(_ context.Context, t *Turn) (Reply, error) {
	task, w := t.theTask()
	if w.Person != t.Me.Key && t.Me.Role != planner.Host {
		if w.Person == "" {
			return Reply{}, refuse("/task assign task:"+string(task.Key)+" to:"+t.text("to"), "%s is not yours; nobody has claimed it.", t.taskName(task.Key))
		}
		return Reply{}, refuse("/task list show:mine", "It is not yours to hand over: %s has %s.", t.personName(w.Person), t.taskName(task.Key))
	}
	return t.give(task, w)
}

func taskAssign(_ context.Context, t *Turn) (Reply, error) {
	task, w := t.theTask()
	if w.Person != "" && w.Person != t.Me.Key && t.Me.Role != planner.Host {
		return Reply{}, refuse("", "%s has it: %s. Only %s or a host can hand it over.", t.personName(w.Person), t.taskName(task.Key), t.personName(w.Person))
	}
	return t.give(task, w)
}

// give gives a task to the person of the option to.
func (t *Turn) give(task *planner.Task, w planner.Work) (Reply, error) {
	if err := t.over(task, w); err != nil {
		return Reply{}, err
	}
	x := t.Party.Person(t.values["to"].person)
	name := t.taskName(task.Key)
	if w.Person == x.Key {
		return Reply{}, refuse("/task list who:"+x.Name, "%s has it already: %s.", x.Name, name)
	}
	if err := t.mayTake(task, x); err != nil {
		return Reply{}, err
	}
	o := t.workOn(task.Key)
	o.Person, o.By, o.AtNight = x.Key, "", false
	if x.Key != t.Me.Key {
		o.By = t.Me.Key
	}
	t.replan = true
	t.did("gave %s to %s", name, x.Name)
	return t.aboutTask(fmt.Sprintf("%s has it now: %s", x.Name, name), task.Key, "Next: /task list who:"+x.Name), nil
}

// workTime is when a person says that something happened: now, or earlier.
func (t *Turn) workTime() (time.Time, error) {
	if !t.has("at") {
		return t.Now.Truncate(time.Minute), nil
	}
	at, err := t.timeOn("at", civilOf(t.Now.In(t.zone())), t.zone())
	if err == nil && t.values["at"].moment.day == (civil{}) && at.After(t.Now) && at.Add(-24*time.Hour).Before(t.Now) {
		at = at.Add(-24 * time.Hour) // 23:50, said at 0:10
		if t.Now.Sub(at) > 6*time.Hour {
			at = at.Add(24 * time.Hour)
		}
	}
	if err == nil && at.After(t.Now) {
		err = refuse(t.command.Example, "%s is still to come; it is %s now.", t.dayClock(at), t.dayClock(t.Now))
	}
	return at, err
}

func taskStart(_ context.Context, t *Turn) (Reply, error) {
	task, w := t.theTask()
	if err := t.over(task, w); err != nil {
		return Reply{}, err
	}
	name := t.taskName(task.Key)
	if w.Progress == planner.Started {
		return Reply{}, refuse("/task done task:"+string(task.Key), "%s was started at %s.", name, t.dayClock(*w.Start))
	}
	if w.Person != "" && w.Person != t.Me.Key {
		return Reply{}, refuse("/task hand task:"+string(task.Key)+" to:"+t.Me.Name, "%s has it: %s. Ask %s to hand it over.", t.personName(w.Person), name, t.personName(w.Person))
	}
	if err := t.mayTake(task, t.Me); err != nil {
		return Reply{}, err
	}
	at, err := t.workTime()
	if err != nil {
		return Reply{}, err
	}
	closed := t.closeBefore(task, at)
	if task.Attention == planner.Hands {
		closed = append(closed, t.closeLast(task.Key, at)...)
	}
	o := t.workOn(task.Key)
	o.Person, o.Progress, o.Start, o.End, o.Extra = t.Me.Key, planner.Started, &at, nil, 0
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
		if task.Key == but || task.Attention != planner.Hands || w == nil || w.Person != t.Me.Key || w.Progress != planner.Started {
			continue
		}
		end := at
		if w.Start != nil && end.Before(*w.Start) {
			end = *w.Start
		}
		w.Progress, w.End = planner.Done, &end
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
			if w.Progress == planner.Done || w.Progress == planner.Skipped {
				continue
			}
			end, began := at, at.Add(-before.Time.Likely.Duration())
			if w.Start != nil {
				began = *w.Start
			}
			if end.Before(began) {
				end = began
			}
			w.Progress, w.End = planner.Done, &end
			names = append(t.closeBefore(&before, began), append([]string{t.taskName(before.Key)}, names...)...)
		}
	}
	return names
}

func closedSection(names []string) []Section {
	if len(names) == 0 {
		return nil
	}
	return []Section{{"Done with it", names}}
}

func taskDone(_ context.Context, t *Turn) (Reply, error) {
	task, w := t.theTask()
	if err := t.over(task, w); err != nil {
		return Reply{}, err
	}
	at, err := t.workTime()
	if err != nil {
		return Reply{}, err
	}
	if w.Start != nil && at.Before(*w.Start) {
		return Reply{}, refuse("/task done task:"+string(task.Key), "It was started at %s, which is after %s.", t.dayClock(*w.Start), t.dayClock(at))
	}
	name := t.taskName(task.Key)
	began := at.Add(-task.Time.Likely.Duration())
	if w.Start != nil {
		began = *w.Start
	}
	closed := t.closeBefore(task, began)
	o := t.workOn(task.Key)
	if o.Person == "" {
		o.Person = t.doer(task)
	}
	o.Progress, o.End = planner.Done, &at
	t.replan = true
	t.did("did %s", name)
	t.finish = func(r *Reply) { r.Text += t.mineNext(task.Key) }
	return Reply{Text: fmt.Sprintf("Done: %s, %s.", name, t.dayClock(at)), Sections: closedSection(closed), Next: "Next: /task list show:mine"}, nil
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
		if pl.Task == but || len(pl.People) == 0 || !slices.Contains(pl.People, t.Me.Key) || w != nil && w.Progress != planner.Waiting {
			continue
		}
		return fmt.Sprintf("\nYour next: %s, %s.", t.taskName(pl.Task), t.dayClock(pl.Start))
	}
	return ""
}

func taskSkip(_ context.Context, t *Turn) (Reply, error) {
	task, w := t.theTask()
	if err := t.over(task, w); err != nil {
		return Reply{}, err
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
	return Reply{Text: fmt.Sprintf("Left out: %s.", name), Next: "Next: /undo if it was not meant; else /task list"}, nil
}

func taskList(_ context.Context, t *Turn) (Reply, error) {
	show := t.choice("show", "")
	if show == "" {
		show = "open"
		if t.has("dish") || t.has("who") {
			show = "all"
		}
	}
	rows := t.taskRows(show)
	what := map[string]string{"open": "still open", "mine": "yours", "today": "today's", "all": "in all"}[show]
	text := fmt.Sprintf("%s %s.", count(len(rows), "task is", "tasks are"), what)
	if show == "all" {
		text = count(len(rows), "task", "tasks") + "."
	}
	rep := Reply{Text: text}
	if t.Plan == nil && len(rows) > 0 {
		rep.Text += "\nThere is no plan yet, so they have no times."
	}
	var free []string
	var last civil
	for _, r := range rows {
		if len(rep.Sections) == 0 || r.on != last {
			rep.Sections = append(rep.Sections, Section{Title: r.day})
			last = r.on
		}
		s := &rep.Sections[len(rep.Sections)-1]
		s.Lines = append(s.Lines, r.line)
		if len(rep.Buttons) < 5 && r.verb != "" {
			rep.Buttons = append(rep.Buttons, t.button(r.label+" "+shown(string(r.key)), r.verb, "task", string(r.key)))
		}
		if r.free {
			free = append(free, string(r.key))
		}
	}
	switch {
	case len(free) > 0:
		rep.Next = "Next: /task claim task:" + free[0]
	case len(rows) == 0:
		rep.Next = "Next: /task list show:all"
	default:
		rep.Next = "Next: /task start, /task done or /task hand"
	}
	return rep, nil
}

type taskRow struct {
	key  planner.TaskKey
	on   civil  // the day that it is planned on
	day  string // as the list's title has it
	at   time.Time
	line string
	free bool
	// What one does with it, as a button; empty: nothing.
	label, verb string
}

// taskRows are the lines of a list of tasks, in the plan's order or, without one, the menu's.
func (t *Turn) taskRows(show string) []taskRow {
	var rows []taskRow
	today := civilOf(t.Now.In(t.zone()))
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
		over := w.Progress == planner.Done || w.Progress == planner.Skipped
		switch {
		case t.has("dish") && task.Dish != t.values["dish"].dish,
			t.has("who") && who != t.values["who"].person,
			show == "open" && (over || w.Person != ""),
			show == "mine" && (over || who != t.Me.Key && (pl == nil || !slices.Contains(pl.People, t.Me.Key))),
			show == "today" && (over || pl == nil || civilOf(pl.Start.In(t.zone())) != today):
			continue
		}
		r := taskRow{key: task.Key, free: w.Person == "" && !over && task.Attention != planner.Rest, day: "Not on the clock"}
		var parts []string
		if pl != nil {
			r.at, r.day, r.on = pl.Start, t.day(pl.Start), civilOf(pl.Start.In(t.zone()))
			parts = append(parts, fmt.Sprintf("%s-%s", t.clock(pl.Start), t.clock(pl.End)))
		} else {
			r.day = "Tasks"
		}
		parts = append(parts, fmt.Sprintf("%s: %s", task.Key, t.taskName(task.Key)))
		switch {
		case w.Progress == planner.Done:
			parts = append(parts, "done"+t.byAndWhen(w))
		case w.Progress == planner.Skipped:
			parts = append(parts, "left out")
		case w.Progress == planner.Started:
			parts = append(parts, "under way, "+t.personName(w.Person))
		case w.Person != "":
			parts = append(parts, t.personName(w.Person))
		case who != "" && task.Attention != planner.Rest:
			parts = append(parts, t.personName(who)+" in the plan")
		}
		r.line = strings.Join(parts, "; ")
		switch {
		case r.free && t.Me.Role != planner.Looker:
			r.label, r.verb = "Claim", "task claim"
		case w.Person == t.Me.Key && w.Progress == planner.Waiting:
			r.label, r.verb = "Start", "task start"
		case w.Person == t.Me.Key && w.Progress == planner.Started:
			r.label, r.verb = "Done:", "task done"
		}
		rows = append(rows, r)
	}
	slices.SortStableFunc(rows, func(a, b taskRow) int { return a.at.Compare(b.at) })
	return rows
}
