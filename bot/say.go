package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/saying"
	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/shopping"
	"tureen/planner/words"
	"tureen/reminders"
	"tureen/store"
)

// Who says something without a slash is understood as far as package saying goes: what only looks, or ticks off one's
// own task, is done at once; anything else says in words what it would change, and asks.

// Say answers what somebody says in words of their own; a text that begins with a slash is a command. answers are the
// messages of the buttons on the message that it answers, where the face knows that. A reply without any text wants no
// answer.
func (b *Bot) Say(ctx context.Context, req talk.Request, text string, answers ...string) talk.Reply {
	text = talk.Clean(text, false)
	if strings.HasPrefix(text, "/") {
		return b.doLine(ctx, req, text)
	}
	t := &Turn{ctx: ctx, Request: req, Now: b.clock().UTC(), bot: b, command: sayCommand}
	err := t.settlePlace(ctx)
	if err == nil {
		if err = t.loadParty(ctx); err == nil {
			err = t.mayUse()
		}
	}
	if err != nil {
		if a := saying.Read(text, &saying.View{}); a.Act == saying.Chat || a.Act == saying.Look && a.Do == "/help" {
			return b.carryOut(ctx, t, a, text)
		}
		rep, known := refused(err)
		if !known {
			b.log.ErrorContext(ctx, "what was said is not answered", "error", err)
		}
		return rep
	}
	v := t.view()
	var question string
	v.Last, question = t.last(ctx, answers)
	a := saying.Read(text, v)
	if rep, ok := b.ofReading(ctx, t, a, text); ok {
		return rep
	}
	switch a.Act {
	case saying.Yes:
		return b.doLine(ctx, req, "/"+question)
	case saying.No:
		b.heard.note(t, spoken{at: t.Now})
		return nothingChanged
	case saying.Ask, saying.Lose:
		return t.question(a.Meant, text)
	}
	if a.Do != "" || a.Act == saying.Chat {
		return b.carryOut(ctx, t, a, text)
	}
	return t.notUnderstood(a, text)
}

// sayCommand stands for what is said without a command: it needs a party, and one of its people.
var sayCommand = &talk.Command{Name: "say", Access: talk.Onlookers, Options: []talk.Option{partyOption}}

var nothingChanged = talk.Reply{Text: "Nothing is changed.", Next: "Next: /now"}

// doLine does what a message with a slash says, as a press does.
func (b *Bot) doLine(ctx context.Context, req talk.Request, text string) talk.Reply {
	line, err := b.Parse(text)
	if err != nil {
		return talk.RefusedReply(err)
	}
	req.Command, req.Options, req.AsOf, req.Pressed = line.Command, line.Options, line.AsOf, true
	return b.Do(ctx, req)
}

// carryOut does what needs no question.
func (b *Bot) carryOut(ctx context.Context, t *Turn, a saying.Answer, text string) talk.Reply {
	if a.Act == saying.Chat {
		if a.Said == "" {
			return talk.Reply{}
		}
		next := "Next: /now, or /help"
		if t.Party == nil {
			next = "Next: /help shows the way, /party new starts a party"
		}
		return talk.Reply{Text: a.Said, Next: next}
	}
	rep := b.doLine(ctx, t.Request, a.Do)
	if tip := b.heard.shorter(t, a.Meant, text); tip != "" && !rep.Refused {
		rep.Text += "\n" + tip
	}
	return rep
}

// question says in words what would change, with a Yes that holds for the party as it is now.
func (t *Turn) question(m saying.Meant, text string) talk.Reply {
	rep := talk.Reply{Text: words.Upper(m.Change) + "?", Next: "Next: yes, or no"}
	if k, again := strings.CutPrefix(m.Do, "/task again task:"); again {
		rep.Text += t.againCosts(planner.TaskKey(k))
	}
	if m.Do == "/undo" {
		what := t.lastDeed()
		if what == "" {
			return talk.Reply{Text: "There is no change of yours left to take back.", Next: "Next: /journal"}
		}
		rep.Text = "Take back your last change: " + what + "?"
	}
	rep.Private = t.isPrivate(m.Do)
	yes := t.yesTo("Yes", strings.TrimPrefix(m.Do, "/"))
	if m.Act == saying.Lose {
		yes.Style = talk.Danger
	} else {
		yes.Style = talk.Main
	}
	t.bot.heard.note(t, spoken{at: t.Now, last: saying.Last{Kind: saying.Question}, question: yes.Do})
	if len(yes.Do) <= talk.MaxDo {
		rep.Buttons = []talk.Button{yes, {Label: "No", Do: "no", InPlace: true}}
	}
	if tip := t.bot.heard.shorter(t, m, text); tip != "" {
		rep.Text += "\n" + tip
	}
	return rep
}

// isPrivate reports whether a message's answer is for the asker alone: what a guest does not eat is not for the
// channel.
func (t *Turn) isPrivate(do string) bool {
	line, err := t.bot.Parse(do)
	i := slices.IndexFunc(t.bot.commands, func(c talk.Command) bool { return c.Name == line.Command })
	return err == nil && i >= 0 && t.bot.commands[i].Private
}

// lastDeed is the asker's last change that stands; empty where there is none among the latest.
func (t *Turn) lastDeed() string {
	const latest = 30
	all, err := t.bot.store.Journal(t.ctx, t.community(), t.Party.ID, latest)
	if err != nil {
		return ""
	}
	for i := range all {
		if e := &all[i]; e.BackBy == 0 && (e.Kind == store.Changed || e.Kind == store.Redone) &&
			(e.Actor.ID == t.Request.User.ID || e.Actor.ID == store.House.ID) {
			return e.Deed()
		}
	}
	return ""
}

// yesTo is a button that does something as long as the party is as it is now; else it asks anew.
func (t *Turn) yesTo(label, do string) talk.Button {
	b := t.button(label, fmt.Sprintf("%s%d %s", talk.AsOfMark, t.snapshot.Revision, do))
	b.InPlace = true
	return b
}

// notUnderstood offers what is nearest, and changes nothing.
func (t *Turn) notUnderstood(a saying.Answer, text string) talk.Reply {
	rep := talk.Reply{Text: "I did not understand that, and changed nothing.", Next: "Next: /help says what can be said"}
	if line, err := t.bot.Parse("/" + text); err == nil && len(line.Options) > 0 {
		rep.Text, rep.Next = "That would be a command with a slash before it; as it is, nothing is changed.", "Type: /"+text
		return rep
	}
	if a.Foreign {
		rep.Text = "I follow English only, and changed nothing."
	}
	for _, m := range a.Near {
		rep.Private = rep.Private || t.isPrivate(m.Do)
		label := words.Upper(m.Change)
		if label == "" {
			label = t.helpOf(m.Do)
		}
		b := t.button(label, strings.TrimPrefix(m.Do, "/"))
		if m.Act == saying.Ask || m.Act == saying.Lose {
			b = t.yesTo(label, strings.TrimPrefix(m.Do, "/"))
		}
		if len(b.Do) <= talk.MaxDo {
			rep.Buttons = append(rep.Buttons, b)
		}
	}
	if len(rep.Buttons) > 0 {
		rep.Text = "I am not sure what you mean, and changed nothing. Perhaps this?"
		return rep
	}
	rep.Buttons = []talk.Button{{Label: "Ready dishes", Do: "repertoire list"}, t.button("The menu", "dish list")}
	if t.Plan != nil {
		rep.Buttons = []talk.Button{t.button("What to do now", "now"), t.button("Who does what", "task list", "show", "all")}
	}
	return rep
}

// helpOf is what a message's command does, in a line.
func (t *Turn) helpOf(do string) string {
	if line, err := t.bot.Parse(do); err == nil {
		for i := range t.bot.commands {
			if c := &t.bot.commands[i]; c.Name == line.Command {
				return c.Help
			}
		}
	}
	return do
}

// askAnew is the answer to a Yes that has been overtaken: what has happened since, and the same question again.
func (t *Turn) askAnew(ctx context.Context) (talk.Reply, error) {
	n := int(t.snapshot.Revision - t.Request.AsOf)
	if n < 0 || t.Request.AsOf < 0 {
		return talk.Reply{}, talk.Refuse("", "This button is of another party's time and no longer works.")
	}
	all, err := t.bot.store.Journal(ctx, t.community(), t.Party.ID, min(n, 3))
	if err != nil {
		return talk.Reply{}, err
	}
	var since []string
	for _, e := range slices.Backward(all) {
		since = append(since, e.Actor.Name+" "+e.What)
	}
	do := t.command.Message(t.Request.Options)
	b := t.button("Yes", fmt.Sprintf("%s%d %s", talk.AsOfMark, t.snapshot.Revision, do))
	if t.has(partyOption.Name) {
		b.Do = fmt.Sprintf("%s%d %s", talk.AsOfMark, t.snapshot.Revision, do)
	}
	b.InPlace = true
	shown, _, _ := strings.Cut(do, fmt.Sprintf(" %s:%d", partyOption.Name, t.Party.ID))
	rep := talk.Reply{Text: fmt.Sprintf("Not done yet, since the party has changed meanwhile: %s.\n"+
		"Do it all the same: /%s?", words.And(since), shown), Next: "Next: yes, or no"}
	if len(b.Do) <= talk.MaxDo {
		rep.Buttons = []talk.Button{b, {Label: "No", Do: "no", InPlace: true}}
	}
	t.bot.heard.note(t, spoken{at: t.Now, last: saying.Last{Kind: saying.Question}, question: b.Do})
	return rep, nil
}

// view is the party as package saying reads it.
func (t *Turn) view() *saying.View {
	p := t.Party
	clock := func(at time.Time) int {
		at = at.In(t.zone())
		return at.Hour()*60 + at.Minute()
	}
	v := &saying.View{Now: t.Now.In(t.zone()), Me: t.Me.Name, Arrive: clock(p.Arrival), Covers: p.Covers}
	for i := range p.People {
		v.People = append(v.People, p.People[i].Name)
	}
	for _, g := range p.Guests {
		v.Guests = append(v.Guests, saying.Guest{Name: g.Name, Diets: g.Diets, Allergies: g.Allergies})
	}
	for _, c := range p.Courses {
		course := saying.Course{Key: string(c.Key), Name: c.Name}
		if len(c.Servings) > 0 {
			course.At = clock(c.Servings[0].At)
		}
		v.Course = append(v.Course, course)
	}
	for _, d := range p.Dishes {
		v.Dishes = append(v.Dishes, saying.Dish{Key: string(d.Key), Name: d.Name, Course: string(d.Course)})
	}
	for _, o := range p.Kitchen.Ovens {
		v.Ovens = append(v.Ovens, o.Name)
	}
	for _, task := range planner.Tasks(p) {
		v.Tasks = append(v.Tasks, t.viewTask(&task))
	}
	l := shopping.Of(p, nil)
	for _, o := range allLines(&l) {
		v.Items = append(v.Items, o.line.Name)
	}
	return v
}

func (t *Turn) viewTask(task *planner.Task) saying.Task {
	out := saying.Task{Key: string(task.Key), Do: task.Do, Dish: string(task.Dish)}
	if _, s := t.Party.StepOf(task); s != nil {
		out.Heat = s.Where == planner.Heat
		out.Oven = slices.ContainsFunc(s.Uses, func(u planner.Use) bool { return u.What == planner.AnOven })
	}
	if c := t.Party.Chore(task.Chore); c != nil && strings.HasPrefix(string(c.Key), "leftovers") {
		out.Cools = out.Key
	}
	if c := t.Party.Chore(task.Chore); c != nil && c.Kind == planner.Cool && c.From != nil {
		dish, _, _, _, _ := c.From.Task.Split()
		out.Cools = string(dish)
	}
	if t.Plan != nil {
		if pl := t.Plan.Placed(task.Key); pl != nil {
			out.At = pl.Start.In(t.zone())
			if len(pl.People) > 0 {
				out.Who = t.personName(pl.People[0])
			}
		}
	}
	if w := t.Party.WorkOn(task.Key); w != nil {
		if w.Person != "" {
			out.Who = t.personName(w.Person)
		}
		switch {
		case isOver(*w):
			out.State = saying.Over
		case w.Progress == planner.Started:
			out.State = saying.Started
		}
		if w.Start != nil {
			out.At = w.Start.In(t.zone())
		}
	}
	return out
}

// justBefore is how long a message counts as the one just before. Ours.
const justBefore = 6 * time.Hour

// tillAnswered is how long a plan that was told may wait for an answer in plain words: till the next evening. Ours.
const tillAnswered = 24 * time.Hour

// last is what was last said to the asker: a reminder, a reply, or the message that they answer; and the question that
// it asked.
func (t *Turn) last(ctx context.Context, answers []string) (saying.Last, string) {
	if last, question := t.onMessage(answers); last.Kind != saying.Nothing {
		return last, question
	}
	s := t.bot.heard.last(t)
	if t.Now.Sub(s.at) > justBefore {
		s = spoken{}
	}
	rows, err := t.bot.store.Reminders(ctx, t.community(), t.Party.ID)
	if err != nil {
		return s.last, s.question
	}
	var sent spoken
	for _, r := range rows {
		asks := r.Kind == reminders.Told && t.Plan != nil && len(t.unaccepted(t.Me.Key, talk.Day{})) > 0
		if r.State != store.Sent || r.Person != t.Me.Key || r.Task == "" && !asks || r.Kind == store.Edit ||
			r.SentAt.Before(sent.at) {
			continue
		}
		last := saying.Last{Kind: lastKind(r.Kind), Task: string(r.Task)}
		if r.SentAt.Equal(sent.at) && sent.last.Task != last.Task {
			last = saying.Last{} // two at once: which of them is meant?
		}
		sent = spoken{at: r.SentAt, last: last}
	}
	if wait := t.Now.Sub(sent.at); sent.at.After(s.at) && (wait <= justBefore ||
		sent.last.Kind == saying.Told && wait <= tillAnswered) {
		s = sent
	}
	if w := t.Party.WorkOn(planner.TaskKey(s.last.Task)); w != nil && isOver(*w) {
		if next := t.nextOnList(rows); next != "" {
			s.last = saying.Last{Kind: saying.Due, Task: next}
		}
	}
	return s.last, s.question
}

// nextOnList is what the asker's latest list has to be done next: who has just ticked something off means that.
func (t *Turn) nextOnList(rows []store.Row) (next string) {
	var at time.Time
	for _, r := range rows {
		if r.State != store.Sent || r.Kind != reminders.Session || r.Person != t.Me.Key || r.SentAt.Before(at) {
			continue
		}
		if w := t.Party.WorkOn(r.Task); w == nil || !isOver(*w) {
			at, next = r.SentAt, string(r.Task)
		}
	}
	return next
}

func lastKind(k store.ReminderKind) saying.Kind {
	switch k {
	case reminders.Told:
		return saying.Told
	case reminders.Go:
		return saying.Goes
	case reminders.Session, reminders.Due, reminders.TakeOut, reminders.Thawing, reminders.ShopBy,
		reminders.Last:
		return saying.Due
	case reminders.Check, reminders.AtLimit:
		return saying.Check
	}
	return saying.About
}

// onMessage is what a message was about, by its buttons.
func (t *Turn) onMessage(buttons []string) (last saying.Last, question string) {
	for _, do := range buttons {
		line, err := t.bot.Parse("/" + do)
		if err != nil {
			continue
		}
		kind := saying.About
		switch {
		case line.Command == "plan answer":
			return saying.Last{Kind: saying.Told}, ""
		case line.AsOf != 0:
			return saying.Last{Kind: saying.Question}, do
		case line.Command == "task longer":
			kind = saying.Check
		case line.Command == "task snooze":
			kind = saying.Due
		}
		if task := line.Options["task"]; task != "" && kind >= last.Kind || last.Kind == saying.Nothing && task != "" {
			last = saying.Last{Kind: kind, Task: task}
		} else if task != "" && last.Kind == saying.About {
			last.Kind = kind
		}
	}
	return last, ""
}
