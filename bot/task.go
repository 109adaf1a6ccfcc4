package bot

import (
	"context"
	"fmt"
	"slices"

	"tureen/bot/talk"
	"tureen/planner"
)

var (
	taskOption = talk.Option{Name: "task", Help: "which task", Kind: talk.TaskOption, Required: true,
		Example: "pear-tart/roll"}
	tasksOption = talk.Option{Name: "task", Help: "which task, or a session, a dish or a course for all of its tasks",
		Kind: talk.TaskOption, Required: true, Many: true, Example: "pear-tart/roll"}
	freeTask = talk.Option{Name: "task", Help: "which task, or a session, a dish or a course for all of its tasks",
		Kind: talk.TaskOption, Required: true, Free: true, Many: true, Example: "pear-tart/roll"}
	atOption    = talk.Option{Name: "at", Help: "when, if not now", Kind: talk.TimeOption, Example: "17:40"}
	sureOption  = talk.Option{Name: "sure", Help: "yes: although it is early", Kind: talk.YesNo, Example: "yes"}
	listChoices = []string{"open", "mine", "today", "all"}
)

var taskCommands = []command{
	{talk.Command{Name: "task list", Help: "Tasks: open, yours, today's, all, or a dish's",
		Access: talk.Onlookers, TellsDone: true, Own: "show:mine", Example: "/task list show:mine",
		Options: []talk.Option{
			{Name: "show", Help: "which", Kind: talk.Choice, Choices: listChoices, Example: "mine"},
			{Name: "dish", Help: "only this dish's", Kind: talk.DishOption, Example: "pear-tart"},
			{Name: "who", Help: "only this person's", Kind: talk.PersonOption, Example: "Ben"},
		}}, taskList},
	{talk.Command{Name: "task show", Help: "One task: when, who, how, and what can be done with it",
		Access: talk.Onlookers, TellsDone: true,
		Example: "/task show task:pear-tart/roll", Options: []talk.Option{taskOption}}, taskShow},
	{talk.Command{Name: "task claim", Help: "Take a task on",
		Access: talk.CoHosts, TellsDone: true,
		Example: "/task claim task:pear-tart/roll", Slow: true, Options: []talk.Option{freeTask}}, each(taskClaim)},
	{talk.Command{Name: "task give-back", Help: "Give back a task you have",
		Access: talk.CoHosts, TellsDone: true,
		Example: "/task give-back task:pear-tart/roll", Slow: true, Options: []talk.Option{tasksOption}},
		each(taskGiveBack)},
	{talk.Command{Name: "task pass", Help: "Pass a task of yours to somebody",
		Access: talk.CoHosts, TellsDone: true, Example: "/task pass task:pear-tart/roll to:Ben", Slow: true,
		Options: []talk.Option{tasksOption, {Name: "to", Help: "to whom", Kind: talk.PersonOption, Required: true,
			Example: "Ben"}}}, each(taskPass)},
	{talk.Command{Name: "task assign", Help: "Give a free task to somebody",
		Access: talk.CoHosts, TellsDone: true, Example: "/task assign task:pear-tart/roll to:Ben", Slow: true,
		Options: []talk.Option{tasksOption, {Name: "to", Help: "to whom", Kind: talk.PersonOption, Required: true,
			Example: "Ben"}}}, each(taskAssign)},
	swapCommand,
	{talk.Command{Name: "task start", Help: "Say that a task has begun; the last one that had your hands is then done",
		Access: talk.CoHosts, TellsDone: true,
		Example: "/task start task:pear-tart/roll", Slow: true, Options: []talk.Option{tasksOption, atOption}},
		firstOf(taskStart)},
	{talk.Command{Name: "task done", Help: "Say that a task is done",
		Access: talk.CoHosts, Shopped: true, TellsDone: true,
		Example: "/task done task:pear-tart/roll", Slow: true, Options: []talk.Option{tasksOption, atOption, sureOption}},
		each(taskDone)},
	{talk.Command{Name: "task again", Help: "Say that a task went wrong, and what it needs is made again",
		Access: talk.CoHosts, TellsDone: true,
		Example: "/task again task:pear-tart/bake", Slow: true, Options: []talk.Option{taskOption}}, taskAgain},
	{talk.Command{Name: "task caught-up", Help: "Say that all that should be over by now is done",
		Access: talk.CoHosts, TellsDone: true, Example: "/task caught-up", Slow: true,
		Options: []talk.Option{{Name: "who", Help: "whose tasks; yours by default", Kind: talk.Text, Offers: talk.PeopleOrAll,
			Example: "everybody"}}}, taskCaughtUp},
	{talk.Command{Name: "task skip", Help: "Say that a task is left out",
		Access: talk.CoHosts, TellsDone: true,
		Example: "/task skip task:pear-tart/roll", Slow: true, Options: []talk.Option{tasksOption}}, each(taskSkip)},
	taskDayCommand,
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
	case x.Role == planner.Onlooker:
		return talk.Refuse("/people change who:"+x.Name+" role:co-host", "%s only looks on and is given no work.", x.Name)
	case task.Who.Person != "" && task.Who.Person != x.Key:
		return talk.Refuse("", "%s is for %s alone.", t.taskName(task.Key), t.personName(task.Who.Person))
	case task.Who.Skill != "" && !slices.Contains(x.Skills, task.Who.Skill):
		return talk.Refuse(fmt.Sprintf("/people change who:%s skills:%s", x.Name, task.Who.Skill),
			"%s wants somebody for %s, and %s is not noted for it.", t.taskName(task.Key), task.Who.Skill, x.Name)
	}
	return nil
}

// over refuses what cannot be done to a task that is done or skipped.
func (t *Turn) over(task *planner.Task, w planner.Work) error {
	switch w.Progress {
	case planner.Done:
		return talk.Refuse("/undo", "%s is done already%s.", t.taskName(task.Key), t.byAndWhen(w))
	case planner.Skipped:
		return talk.Refuse("/undo", "%s was left out%s.", t.taskName(task.Key), t.byAndWhen(w))
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

func taskClaim(_ context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	if err := t.over(task, w); err != nil {
		return talk.Reply{}, err
	}
	name := t.taskName(task.Key)
	switch {
	case w.Person == t.Me.Key:
		return talk.Reply{Text: fmt.Sprintf("You have it already: %s%s.", name, t.planned(task.Key)),
			Next: "Next: /task list show:mine"}, nil
	case w.Person != "":
		return talk.Reply{}, talk.Refuse("/task list show:open", "%s has it: %s. Ask %s to pass it on.",
			t.personName(w.Person), name, t.personName(w.Person))
	}
	if err := t.mayTake(task, t.Me); err != nil {
		return talk.Reply{}, err
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
func (t *Turn) aboutTask(first string, k planner.TaskKey, next string) talk.Reply {
	rep := talk.Reply{Next: next}
	t.finish = func(r *talk.Reply) { r.Text = first + t.planned(k) + "." }
	w := t.Party.WorkOn(k)
	if w == nil || w.Progress == planner.Waiting {
		rep.Buttons = []talk.Button{t.button("Started", "task start", "task", string(k)),
			t.button("Done", "task done", "task", string(k))}
		if w != nil && w.Person != "" {
			rep.Buttons = append(rep.Buttons, t.button("Give back", "task give-back", "task", string(k)))
		}
	} else if w.Progress == planner.Started {
		rep.Buttons = []talk.Button{t.button("Done", "task done", "task", string(k))}
	}
	rep.Buttons[0].Style = talk.Main
	return rep
}

func taskGiveBack(_ context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	name := t.taskName(task.Key)
	if err := t.over(task, w); err != nil {
		return talk.Reply{}, err
	}
	switch {
	case w.Person == "":
		return talk.Reply{}, talk.Refuse("/task list show:mine", "Nobody has claimed %s.", name)
	case w.Person != t.Me.Key && t.Me.Role != planner.Host:
		return talk.Reply{}, talk.Refuse("/task list show:mine", "It is not yours to give back: %s has %s.",
			t.personName(w.Person), name)
	}
	had := w.Person
	// what was begun is to be begun anew
	*t.workOn(task.Key) = planner.Work{Task: task.Key, NotBefore: w.NotBefore, NotAfter: w.NotAfter}
	t.tidyWork()
	t.replan = true
	t.did("gave back %s", name)
	text := fmt.Sprintf("It is free again: %s", name)
	if had != t.Me.Key {
		text = fmt.Sprintf("Taken from %s, and free again: %s", t.personName(had), name)
	}
	return talk.Reply{Text: text + ".", Buttons: []talk.Button{t.button("Claim", "task claim", "task", string(task.Key))},
		Next: "Next: /task list show:open"}, nil
}

func taskPass(_ context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	if w.Person != t.Me.Key && t.Me.Role != planner.Host {
		if w.Person == "" {
			return talk.Reply{}, talk.Refuse("/task assign task:"+string(task.Key)+" to:"+t.text("to"),
				"%s is not yours; nobody has claimed it.", t.taskName(task.Key))
		}
		return talk.Reply{}, talk.Refuse("/task list show:mine", "It is not yours to pass on: %s has %s.",
			t.personName(w.Person), t.taskName(task.Key))
	}
	return t.give(task, w)
}

func taskAssign(_ context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	if w.Person != "" && w.Person != t.Me.Key && t.Me.Role != planner.Host {
		return talk.Reply{}, talk.Refuse("", "%s has it: %s. Only %s or a host can pass it on.", t.personName(w.Person),
			t.taskName(task.Key), t.personName(w.Person))
	}
	return t.give(task, w)
}

// give gives a task to the person of the option to.
func (t *Turn) give(task *planner.Task, w planner.Work) (talk.Reply, error) {
	if err := t.over(task, w); err != nil {
		return talk.Reply{}, err
	}
	x := t.Party.Person(t.values["to"].person)
	name := t.taskName(task.Key)
	if w.Person == x.Key {
		return talk.Reply{}, talk.Refuse("/task list who:"+x.Name, "%s has it already: %s.", x.Name, name)
	}
	if err := t.mayTake(task, x); err != nil {
		return talk.Reply{}, err
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
