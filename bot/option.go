package bot

import (
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// partyOption stands, last, among the options of every command that needs a party.
var partyOption = talk.Option{Name: "party", Help: "which party, if not the one in use", Kind: talk.PartyOption,
	Example: "Midsummer"}

// value is what an option's text says, or names of the party. Which fields are set hangs on the option's kind.
type value struct {
	talk.Value
	party  planner.PartyID
	person planner.PersonKey
	guest  string
	course planner.CourseKey
	dish   planner.DishKey
	step   planner.StepKey
	task   planner.TaskKey
	tasks  []planner.TaskKey // of a session, a dish or a course, where task names one of those
	of     string            // that, as people call it
}

// readOptions checks and reads all options of the request. Nothing else in the house does.
func (t *Turn) readOptions() error {
	t.values = map[string]value{}
	for i := range t.command.Options {
		o := &t.command.Options[i]
		if o.Kind == talk.FileOption {
			if f, ok := t.Request.Files[o.Name]; ok {
				t.values[o.Name] = value{Value: talk.Value{File: f}}
				continue
			}
		}
		raw, ok := t.Request.Options[o.Name]
		text := talk.Clean(raw, o.Kind == talk.LongText)
		if !ok || text == "" {
			if o.Required {
				return talk.Refuse(t.command.Example, "/%s needs %s: %s.%s", t.command.Name, o.Name, o.Help, exampleOf(o))
			}
			continue
		}
		v, err := t.read(o, text)
		if err != nil {
			return t.explain(o, err)
		}
		t.values[o.Name] = v
	}
	return nil
}

func exampleOf(o *talk.Option) string {
	if o.Example == "" {
		return ""
	}
	return " For example " + o.Name + ":" + o.Example
}

// explain names the option in an error about its text.
func (t *Turn) explain(o *talk.Option, err error) error {
	rep, known := refused(err)
	if !known {
		return err
	}
	try := t.command.Example
	if o.Example != "" {
		try = o.Name + ":" + o.Example + ", as in " + t.command.Example
	}
	return talk.Refuse(try, "%s: %s", o.Name, rep.Text)
}

// read reads one option's text by its kind: what it says, or what of the party it names.
func (t *Turn) read(o *talk.Option, text string) (v value, err error) {
	if v.Value, err = o.Read(text, t.days()); err != nil {
		return v, err
	}
	switch o.Kind {
	case talk.PartyOption:
		var all []store.Summary
		if all, err = t.bot.store.List(t.ctx, t.community()); err == nil {
			v.party, err = t.findParty(t.ctx, all, text)
		}
	case talk.PersonOption:
		v.person, err = t.findPerson(text)
	case talk.GuestOption:
		v.guest, err = t.findGuest(text)
	case talk.CourseOption:
		if v.course, err = t.findCourse(text); err != nil && o.Comes {
			if key, usual := t.usualCourse(text); usual {
				v.course, err = key, nil
			}
		}
	case talk.DishOption:
		v.dish, err = t.findDish(text)
	case talk.StepOption:
		v.dish, v.step, err = t.findStep(text)
	case talk.TaskOption:
		if v.task, err = t.findTask(text); err != nil && o.Many {
			if v.tasks, v.of = t.findMany(text); len(v.tasks) > 0 {
				err = nil
			}
		}
	}
	return v, err
}

// spanText writes a step's time.
func spanText(s planner.Span) string {
	return words.ShortRange(s.Low, s.High)
}

// told is how many options were given, but for the one that names the party.
func (t *Turn) told() int {
	n := len(t.values)
	if t.has(partyOption.Name) {
		n--
	}
	return n
}

// has reports whether an option was given.
func (t *Turn) has(name string) bool { _, ok := t.values[name]; return ok }

// text is an option's text; empty when it was not given.
func (t *Turn) text(name string) string { return t.values[name].Text }

// whole is a Whole option's number, or other when it was not given.
func (t *Turn) whole(name string, other int) int {
	if v, ok := t.values[name]; ok {
		return v.N
	}
	return other
}

// span is a Length option's range; minutes is its likely length, 0 when it was not given.
func (t *Turn) span(name string) planner.Span       { return t.values[name].Span }
func (t *Turn) minutes(name string) planner.Minutes { return t.values[name].Span.Likely }

// yes is a YesNo option's answer; other when it was not given.
func (t *Turn) yes(name string, other bool) bool {
	if v, ok := t.values[name]; ok {
		return v.Yes
	}
	return other
}

// choice is a Choice option's choice as the command spells it, or other.
func (t *Turn) choice(name, other string) string {
	v, ok := t.values[name]
	if !ok {
		return other
	}
	for _, o := range t.command.Options {
		if o.Name == name {
			return o.Choices[v.N]
		}
	}
	return other
}

// time is a TimeOption's instant; without a day it is on the party's day, or in the night after it.
func (t *Turn) time(name string) (time.Time, error) {
	return t.timeOn(name, talk.DayOf(t.Party.Day()), t.zone())
}

// timeOn is a TimeOption's instant, where a time without a day is on the given one.
func (t *Turn) timeOn(name string, base talk.Day, zone *time.Location) (time.Time, error) {
	at, err := t.values[name].Moment.On(base, zone, t.Now)
	if err != nil {
		for i := range t.command.Options {
			if t.command.Options[i].Name == name {
				return at, t.explain(&t.command.Options[i], err)
			}
		}
	}
	return at, err
}
