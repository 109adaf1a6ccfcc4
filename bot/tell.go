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
	"tureen/planner/solve"
	"tureen/planner/words"
	"tureen/reminders"
)

// A plan that wants the work of others than hosts is a draft: hosts see it, and nobody else is reminded of
// anything. Then a host tells everybody, and each says of what is theirs that it is fine, that it must be
// another day, or that it is not for them. To accept is to claim: what is claimed moves no more, but to keep a
// course or a limit.

var answers = []string{"fine", "another day", "not me"}

var tellCommands = []command{
	{talk.Command{Name: "plan tell", Help: "Tell everybody what is theirs in the plan, and ask whether it is fine",
		Access: talk.Hosts, TellsDone: true, Example: "/plan tell"}, planTell},
	{talk.Command{Name: "plan answer", Help: "Say whether what is yours in the plan is fine",
		Access: talk.CoHosts, TellsDone: true, Slow: true, Example: "/plan answer says:fine",
		Options: []talk.Option{
			{Name: "says", Help: "fine, another day, or not me", Kind: talk.Choice, Choices: answers, Required: true,
				Example: "fine"},
			{Name: "day", Help: "only of this day", Kind: talk.DateOption, Example: "fri"},
			{Name: "who", Help: "for whom a host says it; you by default", Kind: talk.PersonOption, Example: "Ben"},
		}}, planAnswer},
}

// carryTold carries over to a new plan what has been told of the one before; a first plan, and one that follows a
// draft, is a draft where it wants the work of others. Where nobody was ever asked, what is planned is agreed.
func (t *Turn) carryTold(before, plan *planner.Plan) {
	switch {
	case before != nil && before.Told != nil:
		plan.Told, plan.Answers = before.Told, before.Answers
	case before == nil || before.Draft || !t.wantsOthers(before):
		if wants := t.wantsOthers(plan); wants && t.Now.Before(t.Party.Day()) {
			plan.Draft = true
		} else if now := t.Now; wants { // on the day itself there is no time to ask
			plan.Told = &now
		}
	}
}

// wantsOthers says whether a plan has work for somebody who is no host and has not taken it on.
func (t *Turn) wantsOthers(plan *planner.Plan) bool {
	asked := *plan
	asked.Draft = true
	return slices.ContainsFunc(plan.Tasks, func(pl planner.Placed) bool { return t.Party.Unaccepted(&asked, &pl) })
}

// heldWork are the tasks of others that were told or taken on, and stay as they are.
func (t *Turn) heldWork() map[planner.TaskKey]bool {
	keep := map[planner.TaskKey]bool{}
	if t.Plan == nil || t.Plan.Draft {
		return keep
	}
	for _, pl := range t.Plan.Tasks {
		if len(pl.People) == 0 || t.Me != nil && pl.People[0] == t.Me.Key || t.Party.Progress(pl.Task) != planner.Waiting {
			continue
		}
		if w := t.Party.WorkOn(pl.Task); w != nil && w.Person == pl.People[0] || t.Plan.Told != nil {
			keep[pl.Task] = true
		}
	}
	return keep
}

// keeping plans with the work of others where it is, as far as that goes.
func (t *Turn) keeping(ctx context.Context, ask solve.Ask) (*planner.Plan, *solve.Clash, error) {
	if keep := t.heldWork(); len(keep) > 0 && !ask.Soft {
		held := ask
		held.Keep = keep
		if plan, _, err := makePlan(ctx, t.Party, held); err == nil && plan != nil {
			return plan, nil, nil
		}
	}
	return makePlan(ctx, t.Party, ask)
}

func planTell(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	if broken := check.Plan(t.Party, t.Plan); len(broken) > 0 {
		return talk.Reply{}, talk.Refuse("/plan make", "The plan is out of date: %s", words.Lower(broken[0].Text))
	}
	if !t.wantsOthers(t.Plan) {
		return talk.Reply{Text: "There is nobody to ask: everybody has said yes, or the work is yours.",
			Next: "Next: /task list show:mine"}, nil
	}
	now := t.Now
	t.Plan.Draft, t.Plan.Told = false, &now
	t.did("told everybody the plan")
	rep := talk.Reply{Text: "Told. Each is asked: fine, another day, or not me?", Next: "Next: /plan show"}
	if t.Party.ToldOnTheDay(t.Plan) {
		rep.Text = "Told: each has their part of today, and can say that it is not for them."
		return rep, nil
	}
	sec := talk.Section{Title: "What they are asked"}
	for i := range t.Party.People {
		x := &t.Party.People[i]
		if x.Role == planner.Host {
			continue
		}
		for _, line := range reminders.PartOf(t.Party, t.Plan, x.Key, t.unaccepted(x.Key, talk.Day{})) {
			sec.Lines = append(sec.Lines, x.Name+", "+line)
		}
	}
	rep.Sections = []talk.Section{sec}
	rep.Text += "\nWhat nobody has said yes to two days before goes to you."
	return rep, nil
}

// unaccepted are the tasks that are somebody's in the plan and that they have not taken on, on one day or all.
func (t *Turn) unaccepted(who planner.PersonKey, day talk.Day) (out []*planner.Placed) {
	for i := range t.Plan.Tasks {
		pl := &t.Plan.Tasks[i]
		if w := t.Party.WorkOn(pl.Task); len(pl.People) > 0 && pl.People[0] == who && (w == nil || w.Person == "" &&
			w.Progress == planner.Waiting) && (day == (talk.Day{}) || talk.DayOf(pl.Start.In(t.zone())) == day) {
			out = append(out, pl)
		}
	}
	return out
}

func planAnswer(ctx context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	x := t.Me
	if t.has("who") {
		x = t.Party.Person(t.values["who"].person)
	}
	if x.Key != t.Me.Key && t.Me.Role != planner.Host {
		return talk.Reply{}, talk.Refuse("/plan answer says:fine", "Only a host answers for somebody else.")
	}
	day := t.values["day"].Day
	mine := t.unaccepted(x.Key, day)
	if len(mine) == 0 {
		return talk.Reply{}, talk.Refuse("/task list who:"+x.Name, "Nothing in the plan waits for a word from %s.", x.Name)
	}
	lines := reminders.PartOf(t.Party, t.Plan, x.Key, mine)
	switch t.choice("says", "") {
	case answers[1]:
		return t.anotherDay(ctx, x, mine)
	case answers[2]:
		host := t.Party.FirstHost()
		if t.Me.Role == planner.Host {
			host = t.Me
		}
		if host.Key == x.Key {
			return talk.Reply{}, talk.Refuse("/task list show:mine", "It is yours as host; pass it on with /task pass.")
		}
		for _, pl := range mine {
			w := t.workOn(pl.Task)
			w.Person, w.By = host.Key, ""
		}
		t.noteAnswer(x, fmt.Sprintf("%s cannot: it is yours now.\n%s", x.Name, strings.Join(lines, "\n")))
		t.replan = true
		t.did("%s cannot do %s", x.Name, words.Count(len(mine), "task"))
		return talk.Reply{Text: fmt.Sprintf("Then it is %s's.", host.Name), Sections: []talk.Section{{Title: "Given back",
			Lines: lines}}, Next: "Next: /plan show"}, nil
	}
	for _, pl := range mine {
		t.workOn(pl.Task).Person = x.Key
	}
	t.replan = true
	t.did("said yes to %s", words.Count(len(mine), "task"))
	rep := talk.Reply{Text: "Good: it stays as it is, and you are reminded of it.", Next: "Next: /task list show:mine"}
	if x.Key != t.Me.Key {
		rep.Text = fmt.Sprintf("Good: %s has it, and is reminded of it.", x.Name)
	}
	rep.Sections = []talk.Section{{Title: "Agreed", Lines: lines}}
	return rep, nil
}

// noteAnswer notes for the hosts what somebody would not have; a host who says it for them knows it.
func (t *Turn) noteAnswer(x *planner.Person, says string) {
	if x.Key == t.Me.Key && t.Plan.Told != nil {
		t.Plan.Answers = append(t.Plan.Answers, planner.Answer{Person: x.Key, At: t.Now, Says: says})
	}
}

// anotherDay notes that somebody has no hours on the day of what they were asked for, and plans that anew, with
// all that is others' where it stands.
func (t *Turn) anotherDay(ctx context.Context, x *planner.Person, mine []*planner.Placed) (talk.Reply, error) {
	var days []talk.Day
	for _, pl := range mine {
		if on := talk.DayOf(pl.Start.In(t.zone())); !slices.Contains(days, on) {
			days = append(days, on)
		}
	}
	if len(days) > 1 {
		rep := talk.Reply{Text: "Which day is it that you cannot?", Next: "Next: /people hours says at which hours you can"}
		for _, on := range days {
			rep.Buttons = append(rep.Buttons, t.button(words.PlainStamps(t.day(on.In(t.zone()).Add(12*time.Hour))),
				"plan answer", "says", answers[1], "day", on.String(), "who", string(x.Key)))
		}
		return rep, nil
	}
	on := days[0]
	if on == talk.DayOf(t.Party.Day()) {
		return talk.Reply{}, talk.Refuse("/people hours who:"+x.Name+" on:"+on.String()+" cooks:18:00-22:00",
			"That is the party's day: say at which hours %s can.", x.Name)
	}
	lines := reminders.PartOf(t.Party, t.Plan, x.Key, mine)
	x.Days = slices.DeleteFunc(x.Days, func(d planner.OtherDay) bool { return d.Date == on.String() })
	x.Days = append(x.Days, planner.OtherDay{Date: on.String(), Home: []planner.DayHours{x.Home}})
	slices.SortFunc(x.Days, func(a, b planner.OtherDay) int { return strings.Compare(a.Date, b.Date) })
	keep := t.heldWork()
	for _, pl := range mine {
		delete(keep, pl.Task)
	}
	before := t.Plan
	plan, _, err := makePlan(ctx, t.Party, solve.Ask{Now: wholeMinute(t.Now), InForce: before, Keep: keep})
	t.did("%s cannot on %s", x.Name, t.day(on.In(t.zone()).Add(12*time.Hour)))
	if err != nil || plan == nil {
		t.noteAnswer(x, fmt.Sprintf("%s cannot then, and nothing else fits.\n%s", x.Name, strings.Join(lines, "\n")))
		return talk.Reply{Text: "Noted; no other day fits with what the others were told. A host looks at it.",
			Next: "Next: /plan make"}, nil
	}
	t.putPlan(plan, t.what)
	if now := t.Now; plan.Told != nil { // whoever has it now is asked
		plan.Told = &now
	}
	t.noteAnswer(x, fmt.Sprintf("%s cannot then; the plan is made anew.\n%s", x.Name, strings.Join(lines, "\n")))
	rep := talk.Reply{Text: "Then it is so; each is asked whether that is fine.", Next: "Next: /plan answer says:fine"}
	rep.Sections = []talk.Section{{Title: "Yours now", Lines: reminders.PartOf(t.Party, plan, x.Key,
		t.unaccepted(x.Key, talk.Day{}))}}
	if len(rep.Sections[0].Lines) == 0 {
		rep.Text, rep.Sections = "Then it is somebody else's.", nil
	}
	return rep, nil
}
