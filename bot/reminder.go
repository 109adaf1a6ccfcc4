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
	"tureen/planner/check"
	"tureen/planner/words"
	"tureen/reminders"
	"tureen/store"
)

// remindAgain is how long snooze and more mean when nobody says how long.
const remindAgain planner.Minutes = 10

var reminderCommands = []command{
	{talk.Command{Name: "task snooze", Help: "Be reminded of a task again later",
		Access: talk.CoHosts, TellsDone: true, Example: "/task snooze task:pear-tart/roll for:10",
		Options: []talk.Option{taskOption, {Name: "for", Help: "for how long; 10 minutes by default", Kind: talk.Length,
			Min: 1, Max: 24 * 60, Example: "10"}}}, taskSnooze},
	{talk.Command{Name: "task longer", Help: "Say that a task under way takes longer",
		Access: talk.CoHosts, TellsDone: true, Example: "/task longer task:pear-tart/bake for:10", Slow: true,
		Options: []talk.Option{taskOption, {Name: "for", Help: "how much longer from now; 10 minutes by default",
			Kind: talk.Length, Min: 1, Max: 12 * 60, Example: "10"}}}, taskMore},
	{talk.Command{Name: "remind list", Help: "What you will be reminded of next",
		Access: talk.CoHosts, Own: talk.OwnAlways, Example: "/remind list"}, remindList},
	{talk.Command{Name: "remind digest", Help: "Your tasks for a day, as in the morning message",
		Access: talk.CoHosts, Own: talk.OwnAlways, Example: "/remind digest day:sat",
		Options: []talk.Option{{Name: "day", Help: "which day; today by default", Kind: talk.DateOption, Example: "sat"}}},
		remindDigest},
	{talk.Command{Name: "remind quiet", Help: "Hours in which your reminders stay silent",
		Access: talk.CoHosts, Own: talk.OwnAlways, Example: "/remind quiet hours:22:00-7:00",
		Options: []talk.Option{{Name: "hours", Help: "from when to when, or none", Kind: talk.HoursOption, Required: true,
			Example: "22:00-7:00"}}}, remindQuiet},
	{talk.Command{Name: "remind direct", Help: "Get your reminders as direct messages, or in the channel",
		Access: talk.CoHosts, Own: talk.OwnAlways, Example: "/remind direct on:yes",
		Options: []talk.Option{{Name: "on", Help: "yes: direct messages; no: the channel", Kind: talk.YesNo, Required: true,
			Example: "yes"}}}, remindDirect},
	{talk.Command{Name: "remind night", Help: "Be reminded of a task even in your quiet hours",
		Access: talk.CoHosts, Example: "/remind night task:terrine/unmould", Slow: true,
		Options: []talk.Option{taskOption, {Name: "on", Help: "no: keep quiet again", Kind: talk.YesNo, Example: "no"}}},
		remindNight},
}

// NoteReply is a reminder as a face draws it. The key names the message for [reminders.Note].
func NoteReply(n reminders.Note) talk.Reply {
	rep := talk.Reply{Text: n.Text}
	for i, b := range n.Buttons {
		style := talk.Plain
		if i == 0 {
			style = talk.Main
		}
		rep.Buttons = append(rep.Buttons, talk.Button{Label: b.Label, Do: b.Do, Style: style})
	}
	return rep
}

// length is the option for, or the usual ten minutes.
func (t *Turn) length() planner.Minutes {
	if t.has("for") {
		return t.minutes("for")
	}
	return remindAgain
}

func taskSnooze(ctx context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	if err := t.over(task, w); err != nil {
		return talk.Reply{}, err
	}
	name := t.taskName(task.Key)
	if t.Plan != nil { // what was said before somebody else got the task does not make it one's own
		if pl := t.Plan.Placed(task.Key); pl != nil && len(pl.People) > 0 && !slices.Contains(pl.People, t.Me.Key) {
			return talk.Reply{}, talk.Refuse("/task list show:mine", "%s has it: %s. There is nothing for you to put off.",
				t.personName(pl.People[0]), name)
		}
	}
	again := t.Now.Add(t.length().Duration())
	_, err := t.bot.store.Snooze(ctx, t.community(), t.Party.ID, task.Key, t.Me.Key, again)
	if errors.Is(err, store.ErrNotFound) {
		return talk.Reply{}, talk.Refuse("/remind list", "You have no reminder about %s that could wait.", name)
	}
	if err != nil {
		return talk.Reply{}, err
	}
	rep := talk.Reply{
		Text: fmt.Sprintf("I remind you again at %s: %s.", t.clock(again), name),
		Buttons: []talk.Button{t.button("Started", "task start", "task", string(task.Key)),
			t.button("Done", "task done", "task", string(task.Key))},
		Next: "Next: /task start task:" + string(task.Key) + " when you begin",
	}
	if cost := t.costOf(task.Key, w, again); cost != "" {
		rep.Text += "\n" + cost
	}
	return rep, nil
}

// costOf says what it costs to begin a task, or to go on with it, only at an instant.
func (t *Turn) costOf(k planner.TaskKey, w planner.Work, at time.Time) string {
	if t.Plan == nil || w.Progress != planner.Waiting {
		return ""
	}
	pl := t.Plan.Placed(k)
	if pl == nil || !at.After(pl.Start) {
		return "That is still before it is due; it costs nothing."
	}
	late := planner.Minutes((at.Sub(pl.Start) + time.Minute - 1) / time.Minute)
	room, decider := check.SpareOf(t.Party, t.Plan, k)
	switch {
	case decider == "":
		return "It costs nothing that I know of."
	case late <= room:
		last := pl.Start.Add(room.Duration())
		return fmt.Sprintf("It can wait that long: until %s. After that: %s", t.clock(last), talk.Sentence(decider))
	}
	return fmt.Sprintf("That is %s longer than it can wait. %s\nIf it cannot begin sooner, /late task:%s by:%d moves "+
		"the rest around it.",
		words.Short(late-room), talk.Sentence(decider), k, late)
}

func taskMore(ctx context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	if err := t.over(task, w); err != nil {
		return talk.Reply{}, err
	}
	name := t.taskName(task.Key)
	start, length, err := t.underWay(task, w)
	if err != nil {
		return talk.Reply{}, err
	}
	now := t.Now.Truncate(time.Minute)
	until := now.Add(t.length().Duration())
	end := start.Add((length + w.Extra).Duration())
	if !until.After(end) && w.Progress == planner.Started {
		return t.askAgain(ctx, task, until, end)
	}
	o := t.workOn(task.Key)
	if o.Progress == planner.Waiting {
		o.Progress, o.Start = planner.Started, &start
		if o.Person == "" {
			o.Person = t.doer(task)
		}
	}
	if until.After(end) {
		o.Extra = planner.Minutes(until.Sub(start)/time.Minute) - length
	}
	t.replan = true
	t.did("gave %s %s more", name, words.Short(t.length()))
	rep := talk.Reply{
		Text:    fmt.Sprintf("Until %s then: %s.\nI ask again at that time.", t.clock(until), name),
		Buttons: []talk.Button{t.button("Done", "task done", "task", string(task.Key))},
		Next:    "Next: /task done task:" + string(task.Key) + " when it is",
	}
	t.otherReading(&rep, task, end)
	return rep, nil
}

// otherReading says that more time was counted from now, where the plan has some left, and offers to count it from
// there.
func (t *Turn) otherReading(rep *talk.Reply, task *planner.Task, end time.Time) {
	now := t.Now.Truncate(time.Minute)
	if !end.After(now) {
		return
	}
	beyond := end.Add(t.length().Duration())
	if now.Add(t.length().Duration()).After(end) {
		rep.Text += fmt.Sprintf("\nThat is %s from now; the plan had it until %s.", words.Short(t.length()), t.clock(end))
	}
	rep.Buttons = append(rep.Buttons, t.button("Until "+beyond.In(t.zone()).Format("15:04"), "task longer", "task",
		string(task.Key), "for", fmt.Sprint(words.Minutes(beyond.Sub(now)))))
}

// underWay is when a task began and how long it is planned to take. One that nobody has called started
// counts as under way once its time has come.
func (t *Turn) underWay(task *planner.Task, w planner.Work) (time.Time, planner.Minutes, error) {
	people := 1
	var pl *planner.Placed
	if t.Plan != nil {
		if pl = t.Plan.Placed(task.Key); pl != nil {
			people = len(pl.People)
		}
	}
	switch {
	case w.Start != nil:
		return w.Start.Truncate(time.Minute), task.Length(people), nil
	case pl == nil || pl.Start.After(t.Now):
		return time.Time{}, 0, talk.Refuse("/task start task:"+string(task.Key), "%s has not begun yet%s.",
			t.taskName(task.Key), t.planned(task.Key))
	}
	return pl.Start, task.Length(people), nil
}

// askAgain puts the question about a task off to an instant that is still within its planned time, so that
// nothing else changes.
func (t *Turn) askAgain(ctx context.Context, task *planner.Task, at, end time.Time) (talk.Reply, error) {
	rows, err := t.bot.store.Reminders(ctx, t.community(), t.Party.ID)
	if err != nil {
		return talk.Reply{}, err
	}
	rep := talk.Reply{
		Text:    fmt.Sprintf("It is planned until %s anyway: %s. That changes nothing.", t.clock(end), t.taskName(task.Key)),
		Buttons: []talk.Button{t.button("Done", "task done", "task", string(task.Key))},
		Next:    "Next: /task done task:" + string(task.Key) + " when it is",
	}
	for _, r := range rows {
		if r.Task != task.Key || r.Kind != reminders.Check || r.State != store.Sent && r.State != store.Sending {
			continue
		}
		if _, err := t.bot.store.Snooze(ctx, t.community(), t.Party.ID, task.Key, r.Person, at); err != nil {
			return talk.Reply{}, err
		}
		rep.Text = fmt.Sprintf("I ask again at %s: %s.\nIt is planned until %s, so that this costs nothing.", t.clock(at),
			t.taskName(task.Key), t.clock(end))
		break
	}
	t.otherReading(&rep, task, end)
	return rep, nil
}

func remindList(ctx context.Context, t *Turn) (talk.Reply, error) {
	const most = 10
	rows, err := t.bot.store.Reminders(ctx, t.community(), t.Party.ID)
	if err != nil {
		return talk.Reply{}, err
	}
	rep := talk.Reply{Next: "Next: /remind quiet, /remind direct or /remind digest"}
	n, last := 0, talk.Day{}
	for _, r := range rows {
		if r.State != store.Waiting || r.Kind == store.Edit || r.Person != "" && r.Person != t.Me.Key {
			continue
		}
		if n++; n > most {
			continue
		}
		if day := talk.DayOf(r.Due.In(t.zone())); day != last {
			rep.Sections, last = append(rep.Sections, talk.Section{Title: t.day(r.Due)}), day
		}
		s := &rep.Sections[len(rep.Sections)-1]
		first, _, _ := strings.Cut(r.Text, "\n")
		s.Lines = append(s.Lines, t.clock(r.Due)+" "+first)
	}
	switch {
	case n == 0:
		rep.Text = "There is nothing to remind you of."
		if t.Plan == nil {
			rep.Text, rep.Next = "There is nothing to remind you of, since there is no plan yet.", "Next: /plan make"
		}
	case n > most:
		rep.Text = fmt.Sprintf("The next %d of %d reminders for you.", most, n)
	default:
		rep.Text = words.Count(n, "reminder") + " for you to come."
	}
	return rep, nil
}

func remindDigest(_ context.Context, t *Turn) (talk.Reply, error) {
	day := t.Now
	if t.has("day") {
		day = t.values["day"].Day.In(t.zone()).Add(12 * time.Hour)
	}
	rep := talk.Reply{Text: reminders.DigestOf(t.Party, t.Plan, t.Me, day),
		Next: "Next: /task start, or /remind quiet to say when mornings begin"}
	if rep.Text == "" {
		rep.Text = fmt.Sprintf("You have nothing to do on %s.", t.day(day))
		if t.Plan == nil {
			rep.Text, rep.Next = "There is no plan yet, so nobody's day is known.", "Next: /plan make"
		}
	}
	return rep, nil
}

func remindQuiet(_ context.Context, t *Turn) (talk.Reply, error) {
	hours := t.values["hours"].Hours
	next := "Next: /remind night for a task that may wake you"
	switch len(hours) {
	case 0:
		if t.Me.Quiet == (planner.DayHours{}) {
			return talk.Reply{}, talk.Refuse(t.command.Example, "You have no quiet hours as it is.")
		}
		t.Me.Quiet = planner.DayHours{}
		t.did("gave up quiet hours")
		return talk.Reply{Text: "Your reminders come at any hour now.", Next: "Next: /remind list"}, nil
	case 1:
		if t.Me.Quiet == hours[0] {
			return talk.Reply{}, talk.Refuse(t.command.Example, "Those are your quiet hours already.")
		}
		t.Me.Quiet = hours[0]
		t.did("set quiet hours to %s", talk.HoursText(hours))
		return talk.Reply{Text: fmt.Sprintf("Your reminders stay silent in these hours: %s.\nYour day comes at the end of "+
			"them.", talk.HoursText(hours)), Next: next}, nil
	}
	return talk.Reply{}, talk.Refuse(t.command.Example, "Quiet hours are one stretch, which may pass midnight.")
}

func remindDirect(_ context.Context, t *Turn) (talk.Reply, error) {
	on := t.yes("on", true)
	where := "in the channel"
	if on {
		where = "as direct messages"
	}
	if on == t.Me.Direct {
		return talk.Reply{}, talk.Refuse("/remind list", "Your reminders come %s already.", where)
	}
	t.Me.Direct = on
	t.did("gets reminders %s", where)
	return talk.Reply{Text: fmt.Sprintf("Your reminders come %s now.", where), Next: "Next: /remind list"}, nil
}

// offerNight adds to a reply about a task that it falls into the asker's quiet hours, if the plan as it is
// settled has it there, and a button to hear of it all the same.
func (t *Turn) offerNight(k planner.TaskKey) {
	settled, me := t.finish, t.Me.Key
	t.finish = func(r *talk.Reply) {
		settled(r)
		if t.Plan != nil && reminders.Silent(t.Party, t.Plan, t.Party.Person(me), k) {
			r.Text += "\nThat is in your quiet hours: you hear of it before or after them."
			r.Buttons = append(r.Buttons, t.button("Tell me at night too", "remind night", "task", string(k)))
		}
	}
}

func remindNight(_ context.Context, t *Turn) (talk.Reply, error) {
	task, w := t.theTask()
	if err := t.over(task, w); err != nil {
		return talk.Reply{}, err
	}
	name, on := t.taskName(task.Key), t.yes("on", true)
	if w.Person != "" && w.Person != t.Me.Key {
		return talk.Reply{}, talk.Refuse("/task list show:mine", "%s has it: %s.", t.personName(w.Person), name)
	}
	if w.AtNight == on {
		return talk.Reply{}, talk.Refuse("/remind list", "That is so already: %s.", name)
	}
	if err := t.mayTake(task, t.Me); err != nil {
		return talk.Reply{}, err
	}
	o := t.workOn(task.Key)
	o.AtNight = on
	if !on {
		t.tidyWork()
		t.did("keeps quiet hours for %s", name)
		return talk.Reply{Text: fmt.Sprintf("It keeps to your quiet hours again: %s.", name), Next: "Next: /remind list"}, nil
	}
	o.Person = t.Me.Key // whoever is woken for it has it
	t.replan = true
	t.did("accepted %s at night", name)
	return t.aboutTask(fmt.Sprintf("It is yours, and you hear of it at any hour: %s", name), task.Key,
		"Next: /remind list"), nil
}
