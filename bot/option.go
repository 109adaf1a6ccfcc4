package bot

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/store"
)

// The limits of what an option's text may be, in characters.
const (
	maxText     = 300
	maxLongText = 4000
	maxAddress  = 2000
)

// Emptying is what a person types to empty a setting that may be empty.
const emptying = "none"

// partyOption stands, last, among the options of every command that needs a party.
var partyOption = Option{Name: "party", Help: "which party, if not the one in use", Kind: PartyOption, Example: "Midsummer"}

// value is an option's text, checked and read by its kind. Which fields are set hangs on the kind.
type value struct {
	text   string
	n      int // Whole; Temperature in °C
	yes    bool
	span   planner.Span
	day    civil
	moment moment
	hours  []planner.DayHours
	party  planner.PartyID
	person planner.PersonKey
	guest  string
	course planner.CourseKey
	dish   planner.DishKey
	step   planner.StepKey
	task   planner.TaskKey
	file   File
}

// readOptions checks and reads all options of the request. Nothing else in the house does.
func (t *Turn) readOptions() error {
	t.values = map[string]value{}
	for i := range t.command.Options {
		o := &t.command.Options[i]
		if o.Kind == FileOption {
			if f, ok := t.Request.Files[o.Name]; ok {
				t.values[o.Name] = value{file: f}
				continue
			}
		}
		raw, ok := t.Request.Options[o.Name]
		text := clean(raw, o.Kind == LongText)
		if !ok || text == "" {
			if o.Required {
				return refuse(t.command.Example, "/%s needs %s: %s.%s", t.command.Name, o.Name, o.Help, exampleOf(o))
			}
			continue
		}
		v, err := t.read(o, text)
		if err != nil {
			return t.explain(o, err)
		}
		v.text = text
		t.values[o.Name] = v
	}
	return nil
}

func exampleOf(o *Option) string {
	if o.Example == "" {
		return ""
	}
	return " For example " + o.Name + ":" + o.Example
}

// explain names the option in an error about its text.
func (t *Turn) explain(o *Option, err error) error {
	rep, known := refused(err)
	if !known {
		return err
	}
	try := t.command.Example
	if o.Example != "" {
		try = o.Name + ":" + o.Example + ", as in " + t.command.Example
	}
	return refuse(try, "%s: %s", o.Name, rep.Text)
}

// read reads one option's text by its kind.
func (t *Turn) read(o *Option, text string) (v value, err error) {
	most := maxText
	switch o.Kind {
	case LongText:
		most = maxLongText
	case AddressOption:
		most = maxAddress
	}
	if n := utf8.RuneCountInString(text); n > most {
		return v, refuse("", "shorten it to %d characters; it has %d.", most, n)
	}
	switch o.Kind {
	case Text, LongText, ReadyDishOption, AddressOption:
	case Whole:
		v.n, err = readWhole(o, text)
	case Length:
		v.span, err = readSpan(o, text)
	case DateOption:
		d := t.days()
		if o.Ahead {
			d.party = civil{}
		}
		v.day, err = d.parseDay(text)
	case TimeOption:
		v.moment, err = t.days().parseMoment(text)
	case HoursOption:
		v.hours, err = parseHours(text)
	case YesNo:
		switch strings.ToLower(text) {
		case "yes", "y", "true", "on":
			v.yes = true
		case "no", "n", "false", "off":
		default:
			err = refuse("", "answer yes or no, not %q.", shown(text))
		}
	case Choice:
		i := slices.IndexFunc(o.Choices, func(c string) bool { return planner.Key(c) == planner.Key(text) })
		if i < 0 {
			return v, refuse("", "choose one of %s, not %q.%s", list(o.Choices, "or"), shown(text), didYouMean(text, o.Choices))
		}
		v.n = i
	case Temperature:
		var s measure.Setting
		if s, err = measure.ParseTemperature(text); err == nil {
			v.n = int(math.Round(s.Conventional().C()))
			if v.n > planner.MaxOvenC {
				err = refuse("", "no oven at home reaches %d °C; give at most %d °C.", v.n, planner.MaxOvenC)
			}
		}
	case AmountOption:
		_, err = measure.ParseWhole(text)
	case FileOption:
		err = refuse("", "attach a file: in a terminal, %s:@FILE.", o.Name)
	case PartyOption:
		var all []store.Summary
		if all, err = t.bot.store.List(t.ctx, t.community()); err == nil {
			v.party, err = t.findParty(t.ctx, all, text)
		}
	case PersonOption:
		v.person, err = t.findPerson(text)
	case GuestOption:
		v.guest, err = t.findGuest(text)
	case CourseOption:
		v.course, err = t.findCourse(text)
	case DishOption:
		v.dish, err = t.findDish(text)
	case StepOption:
		v.dish, v.step, err = t.findStep(text)
	case TaskOption:
		v.task, err = t.findTask(text)
	}
	return v, err
}

func readWhole(o *Option, text string) (int, error) {
	low, high := o.Min, o.Max
	if low == 0 && high == 0 {
		high = 100000
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < low || n > high {
		return 0, refuse("", "give a whole number from %d to %d, not %q.", low, high, shown(text))
	}
	return n, nil
}

// readSpan reads a length of time. Of a range the middle is the likely one.
func readSpan(o *Option, text string) (planner.Span, error) {
	d, err := measure.ParseDuration(text)
	if err != nil {
		return planner.Span{}, err
	}
	low, high := o.Min, o.Max
	if low == 0 && high == 0 {
		low, high = 1, int(planner.MaxWait)
	}
	if d.Low < low || d.High > high {
		return planner.Span{}, refuse("", "give a time from %s to %s, not %q.", lengthText(planner.Minutes(low)), lengthText(planner.Minutes(high)), shown(text))
	}
	return planner.Span{Low: planner.Minutes(d.Low), Likely: planner.Minutes((d.Low + d.High + 1) / 2), High: planner.Minutes(d.High)}, nil
}

// lengthText writes a length as a person says it: "45 min", "1 h 20", "2 days".
func lengthText(m planner.Minutes) string {
	return measure.Duration{Low: int(m), High: int(m)}.String()
}

// spanText writes a step's time.
func spanText(s planner.Span) string {
	return measure.Duration{Low: int(s.Low), High: int(s.High)}.String()
}

// has reports whether an option was given.
func (t *Turn) has(name string) bool { _, ok := t.values[name]; return ok }

// text is an option's text; empty when it was not given.
func (t *Turn) text(name string) string { return t.values[name].text }

// whole is a Whole option's number, or other when it was not given.
func (t *Turn) whole(name string, other int) int {
	if v, ok := t.values[name]; ok {
		return v.n
	}
	return other
}

// span is a Length option's range; minutes is its likely length, 0 when it was not given.
func (t *Turn) span(name string) planner.Span       { return t.values[name].span }
func (t *Turn) minutes(name string) planner.Minutes { return t.values[name].span.Likely }

// yes is a YesNo option's answer; other when it was not given.
func (t *Turn) yes(name string, other bool) bool {
	if v, ok := t.values[name]; ok {
		return v.yes
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
			return o.Choices[v.n]
		}
	}
	return other
}

// time is a TimeOption's instant; without a day it is on the party's day, or in the night after it.
func (t *Turn) time(name string) (time.Time, error) {
	return t.timeOn(name, civilOf(t.Party.Day()), t.zone())
}

// timeOn is a TimeOption's instant, where a time without a day is on the given one.
func (t *Turn) timeOn(name string, base civil, zone *time.Location) (time.Time, error) {
	at, err := t.values[name].moment.on(base, zone, t.Now)
	if err != nil {
		for i := range t.command.Options {
			if t.command.Options[i].Name == name {
				return at, t.explain(&t.command.Options[i], err)
			}
		}
	}
	return at, err
}
