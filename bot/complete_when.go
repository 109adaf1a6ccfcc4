package bot

import (
	"fmt"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
)

// Days and times as they are typed: what the text so far means is offered first, in full, then the days and times
// that a party hangs on.

// aheadDays is how many days are offered where no party says which.
const aheadDays = 14

// dayLong is how an offered day is written.
const dayLong = "Mon 2 Jan 2006"

func (t *Turn) daySuggestions(o *talk.Option, typed string) []talk.Suggestion {
	var out []talk.Suggestion
	add := func(day talk.Day, note string) {
		label := day.In(time.UTC).Format(dayLong)
		if note != "" {
			label += ", " + note
		}
		for _, s := range out {
			if s.Value == day.String() {
				return
			}
		}
		out = append(out, talk.Suggestion{Label: label, Value: day.String()})
	}
	d := t.days()
	if o.Ahead {
		d.Party = talk.Day{}
	}
	if typed = talk.Clean(typed, false); typed != "" {
		if day, err := d.ParseDay(typed); err == nil {
			add(day, t.dayNote(day))
		}
	}
	first, last := d.Today, d.Today.Plus(aheadDays-1)
	if t.Party != nil && !o.Ahead {
		first, last = talk.DayOf(t.Party.Opens()), talk.DayOf(t.Party.Day())
	}
	for day := first; !last.Before(day) && len(out) < maxSuggestions; day = day.Plus(1) {
		note := t.dayNote(day)
		if contains(typed, day.In(time.UTC).Format(dayLong), day.In(time.UTC).Format("Monday 2 January 2006"), day.String(),
			note) {
			add(day, note)
		}
	}
	return out
}

// dayNote says what a day is to the party, or how far away.
func (t *Turn) dayNote(day talk.Day) string {
	if t.Party != nil && day == talk.DayOf(t.Party.Day()) {
		return "the party's day"
	}
	return inDays(t.days().Today, day)
}

func (t *Turn) timeSuggestions(typed string) []talk.Suggestion {
	var out []talk.Suggestion
	typed = talk.Clean(typed, false)
	if m, err := t.days().ParseMoment(typed); err == nil && typed != "" {
		base := t.days().Today
		if t.Party != nil {
			base = talk.DayOf(t.Party.Day())
		}
		if at, err := m.On(base, t.zone(), t.Now); err == nil {
			label := at.In(t.zone()).Format("15:04")
			if t.Party != nil || m.Day != (talk.Day{}) {
				label = at.In(t.zone()).Format(dayLong + ", 15:04")
			}
			out = append(out, talk.Suggestion{Label: label, Value: typed})
		}
	}
	if t.Party == nil {
		for _, clock := range []string{"17:00", "18:00", "18:30", "19:00", "19:30", "20:00"} {
			if contains(typed, clock) && clock != typed {
				out = append(out, talk.Suggestion{Label: clock, Value: clock})
			}
		}
		return out
	}
	add := func(at time.Time, note string) {
		at = at.In(t.zone())
		value := at.Format("2006-01-02 15:04")
		label := fmt.Sprintf("%s, %s", at.Format("Mon 2 Jan, 15:04"), note)
		if contains(typed, label, at.Format("15:04"), value, note) {
			out = append(out, talk.Suggestion{Label: label, Value: value})
		}
	}
	if t.Now.After(t.Party.Opens()) && t.Now.Before(t.Party.NightEnd()) {
		add(t.Now.Truncate(time.Minute), "now")
	}
	add(t.Party.Arrival, "the guests arrive")
	for i := range t.Party.Courses {
		c := &t.Party.Courses[i]
		for _, s := range c.Servings {
			note := c.Name
			if s.Group != "" {
				note += " for " + s.Group
			}
			add(s.At, note)
		}
	}
	return out
}

// contains reports whether one of some texts holds what was typed; everything holds nothing.
func contains(typed string, texts ...string) bool {
	want := words.Fold(typed)
	for _, s := range texts {
		if strings.Contains(words.Fold(s), want) {
			return true
		}
	}
	return false
}

// commonZones are offered where no city is typed: one for each stretch of the world.
var commonZones = []string{"Europe/Lisbon", "Europe/London", "Europe/Paris", "Europe/Berlin", "Europe/Athens",
	"Africa/Cairo", "Africa/Lagos",
	"Africa/Johannesburg", "Asia/Dubai", "Asia/Kolkata", "Asia/Singapore", "Asia/Shanghai", "Asia/Tokyo",
	"Australia/Sydney",
	"Pacific/Auckland", "America/Sao_Paulo", "America/New_York", "America/Chicago", "America/Denver",
	"America/Los_Angeles", "UTC"}

// zoneSuggestions are the zones that hold what was typed, with the one of a city that is typed in full first.
func zoneSuggestions(typed string) []string {
	var out []string
	if zone := zoneOf(typed); typed != "" && strings.EqualFold(planner.Key(typed),
		planner.Key(zone[strings.LastIndex(zone, "/")+1:])) {
		out = append(out, zone)
	} else if zone, err := time.LoadLocation(typed); err == nil && strings.Contains(typed, "/") {
		out = append(out, zone.String())
	}
	for _, z := range commonZones {
		if contains(strings.ReplaceAll(typed, " ", "_"), z) && (len(out) == 0 || out[0] != z) {
			out = append(out, z)
		}
	}
	return out
}
