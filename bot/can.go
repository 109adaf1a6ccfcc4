package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
)

// When somebody can cook is asked, and said, in plain words: "weekday evenings", "all day", "only at the
// party", "Saturday from 16:00". A co-host's hours for the party's day are not hours on Friday in somebody's
// kitchen, so that who has not said anything of the days before has none.

// The hours that such words mean: common practice, no source.
var (
	evenings = planner.DayHours{From: 18 * 60, Until: 21*60 + 30}
	mornings = planner.DayHours{From: 9 * 60, Until: 12 * 60}
)

// canWords are what may be said, and which hours it means on weekdays and weekends before the party's day.
var canWords = map[string]planner.DaysBefore{
	"weekday evenings": {Weekdays: evenings}, "weekdays in the evening": {Weekdays: evenings},
	"after work": {Weekdays: evenings}, "evenings": {Weekdays: evenings, Weekends: evenings},
	"in the evening": {Weekdays: evenings, Weekends: evenings}, "weekend": {Weekends: startCooks},
	"weekends": {Weekends: startCooks}, "at the weekend": {Weekends: startCooks}, "the weekend": {Weekends: startCooks},
	"all day": {Weekdays: startCooks, Weekends: startCooks}, "any day": {Weekdays: startCooks, Weekends: startCooks},
	"any time": {Weekdays: startCooks, Weekends: startCooks}, "always": {Weekdays: startCooks, Weekends: startCooks},
	"mornings":          {Weekdays: mornings, Weekends: mornings},
	"only at the party": {}, "only on the day": {}, "at the party": {}, "on the day": {},
}

// canOption is when somebody can, in plain words.
var canOption = talk.Option{Name: "can", Help: "when they can cook, in plain words", Kind: talk.Text,
	Example: "weekday evenings, sat from 16:00"}

// setCan reads the words of the option can into a person's hours.
func (t *Turn) setCan(x *planner.Person) error {
	before := planner.DaysBefore{}
	text := strings.NewReplacer(" and ", ",", ";", ",").Replace(strings.ToLower(t.text("can")))
	for _, part := range t.daysAlike(strings.Split(text, ",")) {
		part = strings.Join(strings.Fields(part), " ")
		if part == "" {
			continue
		}
		if h, known := canWords[part]; known {
			before.Weekdays, before.Weekends = wider(before.Weekdays, h.Weekdays), wider(before.Weekends, h.Weekends)
			if strings.HasSuffix(part, "at the party") && !t.has("cooks") {
				x.Cooks = t.withTheGuests(x.Cooks)
			}
			continue
		}
		if err := t.canOn(x, part); err != nil {
			return err
		}
	}
	x.Before = &before
	return nil
}

// comesEarly is how long before the guests somebody is there who only helps at the party. Common practice, no source.
const comesEarly = 2 * 60

// withTheGuests are the hours of the party's day of somebody who only helps at the party.
func (t *Turn) withTheGuests(usual planner.DayHours) planner.DayHours {
	at := t.Party.Arrival.In(t.zone())
	from := planner.Minutes(at.Hour()*60+at.Minute()) - comesEarly
	return planner.DayHours{From: max(from, 0), Until: min(max(usual.Until, from+comesEarly+4*60), 26*60)}
}

// daysAlike gives a day that is named alone the hours of the next one: "thursday and friday from 18:00".
func (t *Turn) daysAlike(parts []string) []string {
	isDay := func(w []string) bool {
		if len(w) == 0 {
			return false
		}
		_, err := t.days().ParseDay(w[0])
		return err == nil
	}
	for i := len(parts) - 2; i >= 0; i-- {
		this, next := strings.Fields(parts[i]), strings.Fields(parts[i+1])
		if len(this) == 1 && isDay(this) && len(next) > 1 && isDay(next) {
			parts[i] = this[0] + " " + strings.Join(next[1:], " ")
		}
	}
	return parts
}

// wider is the stretch that has both.
func wider(a, b planner.DayHours) planner.DayHours {
	switch {
	case a.Until <= a.From:
		return b
	case b.Until <= b.From:
		return a
	}
	return planner.DayHours{From: min(a.From, b.From), Until: max(a.Until, b.Until)}
}

// canOn reads "saturday from 16:00", "fri 18:00-21:00", "from 16:00": hours of one day, the party's where none
// is named.
func (t *Turn) canOn(x *planner.Person, text string) error {
	fields := strings.Fields(text)
	on, hours := talk.DayOf(t.Party.Day()), startCooks
	if x.Cooks.From < x.Cooks.Until {
		hours = x.Cooks
	}
	if day, err := t.days().ParseDay(fields[0]); err == nil {
		on, fields, hours = day, fields[1:], startCooks
	}
	for i := 0; i < len(fields); i++ {
		from, until, range_ := strings.Cut(fields[i], "-")
		a, ok := talk.ParseClock(from)
		b, also := talk.ParseClock(until)
		next := planner.Minutes(0)
		if i+1 < len(fields) {
			next, _ = talk.ParseClock(fields[i+1])
		}
		switch {
		case range_ && ok && also:
			hours = planner.DayHours{From: a, Until: b}
		case fields[i] == "from" && next > 0:
			hours.From, i = next, i+1
			hours.Until = max(hours.Until, min(next+4*60, 24*60))
		case slices.Contains([]string{"to", "until", "till"}, fields[i]) && next > 0:
			hours.Until, i = next, i+1
		default:
			return talk.Refuse("can:weekday evenings", "can: I do not understand %q; say weekday evenings, all day, "+
				"only at the party, or saturday from 16:00.", talk.Shown(text))
		}
	}
	if hours.Until <= hours.From {
		return talk.Refuse("can:saturday 16:00-22:00", "can: %q ends before it begins.", talk.Shown(text))
	}
	if on == talk.DayOf(t.Party.Day()) {
		x.Cooks = hours
		return nil
	}
	x.Days = slices.DeleteFunc(x.Days, func(d planner.OtherDay) bool { return d.Date == on.String() })
	x.Days = append(x.Days, planner.OtherDay{Date: on.String(), Cooks: []planner.DayHours{hours},
		Home: []planner.DayHours{x.Home}})
	slices.SortFunc(x.Days, func(a, b planner.OtherDay) int { return strings.Compare(a.Date, b.Date) })
	return nil
}

// beforeText says which hours somebody has on the days before, as the end of a sentence.
func beforeText(x *planner.Person) string {
	if x.Before == nil {
		return ""
	}
	week, end := x.Before.Weekdays, x.Before.Weekends
	has := func(h planner.DayHours) bool { return h.From < h.Until }
	switch {
	case !has(week) && !has(end) && len(x.Days) == 0:
		return " on the party's day only"
	case !has(week) && !has(end):
		return " on the party's day"
	case week == end:
		return "; on the days before, cooks " + talk.HoursText([]planner.DayHours{week})
	case !has(end):
		return "; on weekdays before, cooks " + talk.HoursText([]planner.DayHours{week})
	case !has(week):
		return "; on the weekend before, cooks " + talk.HoursText([]planner.DayHours{end})
	}
	return fmt.Sprintf("; on weekdays before, cooks %s, on the weekend cooks %s", talk.HoursText([]planner.DayHours{week}),
		talk.HoursText([]planner.DayHours{end}))
}

// askCan are the buttons that ask when somebody can.
func (t *Turn) askCan(x *planner.Person) []talk.Button {
	if t.Party.PrepDays == 0 {
		return nil
	}
	button := func(label, can string) talk.Button {
		return t.button(label, "people hours", "who", string(x.Key), "can", can)
	}
	out := []talk.Button{button("Weekday evenings", "weekday evenings"), button("All day", "all day")}
	if x.Role == planner.Host {
		return append(out, button("Evenings and the weekend", "evenings, weekend"),
			button("Only on the day", "only on the day"))
	}
	day := t.Party.Day().Add(16 * time.Hour)
	from := strings.ToLower(day.Format("Monday")) + " from 16:00"
	return append(out, button("Only at the party", "only at the party"), button(words.Upper(from), from))
}
