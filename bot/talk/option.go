package talk

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/words"
)

// The limits of what an option's text may be, in characters.
const (
	maxText     = 300
	maxLongText = 4000
	maxAddress  = 2000
)

// Emptying is what a person types to empty a setting that may be empty.
const Emptying = "none"

// Value is an option's text, checked and read by its kind. Which fields are set hangs on the kind; of what names
// something of a party there is only the text.
type Value struct {
	Text   string
	N      int // Whole; Temperature in °C; Choice: its place among them
	Yes    bool
	Span   planner.Span
	Day    Day
	Moment Moment
	Hours  []planner.DayHours
	File   File
}

// Read checks an option's text and reads it by its kind.
func (o *Option) Read(text string, in Days) (v Value, err error) {
	v.Text = text
	most := maxText
	switch o.Kind {
	case LongText:
		most = maxLongText
	case AddressOption:
		most = maxAddress
	}
	if n := utf8.RuneCountInString(text); n > most {
		return v, Refuse("", "shorten it to %d characters; it has %d.", most, n)
	}
	switch o.Kind {
	case Whole:
		v.N, err = readWhole(o, text)
	case Length:
		v.Span, err = readSpan(o, text)
	case DateOption:
		if o.Ahead {
			in.Party = Day{}
		}
		v.Day, err = in.ParseDay(text)
	case TimeOption:
		v.Moment, err = in.ParseMoment(text)
	case HoursOption:
		v.Hours, err = parseHours(text)
	case YesNo:
		switch strings.ToLower(text) {
		case "yes", "y", "true", "on":
			v.Yes = true
		case "no", "n", "false", "off":
		default:
			err = Refuse("", "answer yes or no, not %q.", Shown(text))
		}
	case Choice:
		i := slices.IndexFunc(o.Choices, func(c string) bool { return planner.Key(c) == planner.Key(text) })
		if i < 0 {
			return v, Refuse("", "choose one of %s, not %q.%s", words.Or(o.Choices), Shown(text), DidYouMean(text, o.Choices))
		}
		v.N = i
	case Temperature:
		var s measure.Setting
		if s, err = measure.ParseTemperature(text); err == nil {
			v.N = int(math.Round(s.Conventional().C()))
			if v.N > planner.MaxOvenC {
				err = Refuse("", "no oven at home reaches %d °C; give at most %d °C.", v.N, planner.MaxOvenC)
			}
		}
	case AmountOption:
		_, err = measure.ParseWhole(text)
	case FileOption:
		err = Refuse("", "attach a file: in a terminal, %s:@FILE.", o.Name)
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
		return 0, Refuse("", "give a whole number from %d to %d, not %q.", low, high, Shown(text))
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
		return planner.Span{}, Refuse("", "give a time from %s to %s, not %q.", measure.Duration{Low: low, High: low},
			measure.Duration{Low: high, High: high}, Shown(text))
	}
	return planner.Span{Low: planner.Minutes(d.Low), Likely: planner.Minutes((d.Low + d.High + 1) / 2),
		High: planner.Minutes(d.High)}, nil
}
