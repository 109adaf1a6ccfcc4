package talk

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// The grammar of days, times and hours. Each function reads the whole text or refuses; none guesses, and
// the reply that follows says back what was understood.
//
//	day   = "2026-12-05" | ["sat"] "5 dec" ["2026"] | ["sat"] "dec 5" ["2026"] | "sat" | "today" | "tomorrow"
//	time  = "19:30" | "7:30 pm" | "7pm" | "noon"
//	when  = time | day time | time day | "now"
//	hours = "none" | time "-" time { "," time "-" time }

// Day is a day of the calendar.
type Day struct {
	Year  int
	Month time.Month
	Day   int
}

// DayOf is the day of an instant, in the instant's own zone.
func DayOf(t time.Time) Day {
	y, m, d := t.Date()
	return Day{y, m, d}
}

// In is the day's first instant in a zone.
func (c Day) In(zone *time.Location) time.Time {
	return time.Date(c.Year, c.Month, c.Day, 0, 0, 0, 0, zone)
}

// Plus is the day so many days later.
func (c Day) Plus(days int) Day {
	return DayOf(time.Date(c.Year, c.Month, c.Day+days, 12, 0, 0, 0, time.UTC))
}

// String writes the day as "2026-12-05".
func (c Day) String() string {
	return time.Date(c.Year, c.Month, c.Day, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
}

func (c Day) weekday() time.Weekday {
	return time.Date(c.Year, c.Month, c.Day, 12, 0, 0, 0, time.UTC).Weekday()
}

// Before reports whether a day comes before another one.
func (c Day) Before(o Day) bool { return c.String() < o.String() }

var (
	monthNames = []string{"january", "february", "march", "april", "may", "june", "july", "august", "september",
		"october", "november", "december"}
	weekdayNames = []string{"sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"}
)

// oneOf finds a word of three letters or more that begins one of the names.
func oneOf(word string, names []string) (int, bool) {
	word = strings.TrimSuffix(word, ".")
	if len(word) < 3 {
		return 0, false
	}
	for i, n := range names {
		if strings.HasPrefix(n, word) || word == "sept" && n == "september" || word == "thurs" && n == "thursday" {
			return i, true
		}
	}
	return 0, false
}

// Days is what "today" and a bare weekday mean.
type Days struct {
	Today Day
	Party Day // the party's day; zero without one
}

// farYears is how many years ahead a day may be; what is further is a slip. The figure is ours.
const farYears = 3

const dayTry = "2026-12-05, 5 dec, sat or tomorrow"

// ParseDay reads a day. Without a year it is the next such day from today; a bare weekday is the last one
// up to the party's day, or, without a party, the next one from today.
func (d Days) ParseDay(text string) (Day, error) {
	c, err := d.readDay(text)
	if err != nil || d.Today == (Day{}) || c.Year-d.Today.Year < farYears {
		return c, err
	}
	if last := (Day{d.Today.Year + farYears, d.Today.Month, d.Today.Day}); !last.Before(c) {
		return c, nil
	}
	return Day{}, Refuse("", "%q: that is %d years away; tureen plans at most %d years ahead.", Shown(text),
		c.Year-d.Today.Year, farYears)
}

func (d Days) readDay(text string) (Day, error) {
	words := strings.Fields(strings.ToLower(strings.NewReplacer(",", " ").Replace(text)))
	bad := func() (Day, error) {
		return Day{}, Refuse("", "%q is no day I can read; write it like %s.%s", Shown(text), dayTry,
			DidYouMean(text, append([]string{"today", "tomorrow"}, weekdayNames...)))
	}
	if len(words) == 0 || len(words) > 4 {
		return bad()
	}
	if len(words) == 1 {
		switch words[0] {
		case "today":
			return d.Today, nil
		case "tomorrow":
			return d.Today.Plus(1), nil
		}
		if parts := strings.Split(words[0], "-"); len(parts) == 3 && len(parts[0]) == 4 {
			return readCivil(parts[2], parts[1], parts[0], text)
		}
	}
	wantDay, named := time.Weekday(0), false
	if w, ok := oneOf(words[0], weekdayNames); ok {
		wantDay, named = time.Weekday(w), true
		words = words[1:]
		if len(words) == 0 {
			return d.weekday(wantDay), nil
		}
	}
	if len(words) != 2 && len(words) != 3 {
		return bad()
	}
	dayWord, monthWord := words[0], words[1]
	month, ok := oneOf(monthWord, monthNames)
	if !ok {
		dayWord, monthWord = words[1], words[0]
		if month, ok = oneOf(monthWord, monthNames); !ok {
			return bad()
		}
	}
	for _, end := range []string{"st", "nd", "rd", "th", "."} {
		dayWord = strings.TrimSuffix(dayWord, end)
	}
	year := strconv.Itoa(d.Today.Year)
	if len(words) == 3 {
		year = words[2]
	}
	c, err := readCivil(dayWord, strconv.Itoa(month+1), year, text)
	if len(words) == 2 && (err != nil || c.Before(d.Today)) {
		if next, e := readCivil(dayWord, strconv.Itoa(month+1), strconv.Itoa(d.Today.Year+1), text); e == nil {
			c, err = next, nil
		}
	}
	if err == nil && named && c.weekday() != wantDay {
		return Day{}, Refuse("", "%s is a %s, not a %s; leave one of the two out.", c, c.weekday(), wantDay)
	}
	return c, err
}

func (d Days) weekday(w time.Weekday) Day {
	if d.Party != (Day{}) {
		return d.Party.Plus(-int((d.Party.weekday() - w + 7) % 7))
	}
	return d.Today.Plus(int((w - d.Today.weekday() + 7) % 7))
}

func readCivil(day, month, year, text string) (Day, error) {
	d, err1 := strconv.Atoi(day)
	m, err2 := strconv.Atoi(month)
	y, err3 := strconv.Atoi(year)
	if err1 != nil || err2 != nil || err3 != nil || m < 1 || m > 12 || len(year) != 4 || y < 1970 {
		return Day{}, Refuse("", "%q is no day I can read; write it like %s.", Shown(text), dayTry)
	}
	c := Day{y, time.Month(m), d}
	if d < 1 || c.Plus(0) != c {
		return Day{}, Refuse("", "There is no %d %s %d in the calendar; check the day.", d, time.Month(m), y)
	}
	return c, nil
}

const timeTry = "19:30 or 7:30 pm"

// ParseClock reads a time of day in minutes after midnight.
func ParseClock(text string) (planner.Minutes, bool) {
	s := strings.ToLower(strings.ReplaceAll(strings.TrimSpace(text), " ", ""))
	if s == "noon" {
		return 12 * 60, true
	}
	half := ""
	for _, h := range []string{"am", "pm"} {
		if strings.HasSuffix(s, h) {
			half, s = h, strings.TrimSuffix(s, h)
		}
	}
	hour, minute, colon := strings.Cut(s, ":")
	if !colon {
		if half == "" {
			return 0, false
		}
		minute = "00"
	}
	if len(hour) < 1 || len(hour) > 2 || len(minute) != 2 || strings.Trim(hour+minute, "0123456789") != "" {
		return 0, false
	}
	h, _ := strconv.Atoi(hour)
	m, _ := strconv.Atoi(minute)
	if m > 59 || h > 23 || half != "" && (h < 1 || h > 12) {
		return 0, false
	}
	if half != "" {
		h %= 12
		if half == "pm" {
			h += 12
		}
	}
	return planner.Minutes(h*60 + m), true
}

// nightUntil is where a bare time stops meaning the night after the party and means its morning.
const nightUntil = 6 * 60

// Moment is a time of day, with or without its day.
type Moment struct {
	Day    Day // zero: not said
	Minute planner.Minutes
	now    bool
}

// ParseMoment reads a time, with a day before or after it or none.
func (d Days) ParseMoment(text string) (Moment, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	if s == "now" {
		return Moment{now: true}, nil
	}
	if m, ok := ParseClock(s); ok {
		return Moment{Minute: m}, nil
	}
	if len(s) == 16 && s[10] == 't' { // 2026-12-05T19:30
		s = s[:10] + " " + s[11:]
	}
	words := strings.Fields(strings.ReplaceAll(s, ",", " "))
	for take := 2; take >= 1; take-- {
		if len(words) <= take {
			continue
		}
		last, first := len(words)-take, take
		if m, ok := ParseClock(strings.Join(words[last:], "")); ok {
			day, err := d.ParseDay(strings.TrimSuffix(strings.Join(words[:last], " "), " at"))
			return Moment{Day: day, Minute: m}, err
		}
		if m, ok := ParseClock(strings.Join(words[:first], "")); ok {
			day, err := d.ParseDay(strings.TrimPrefix(strings.Join(words[first:], " "), "on "))
			return Moment{Day: day, Minute: m}, err
		}
	}
	return Moment{},
		Refuse("", "%q is no time I can read; write it like %s, or with the day: sat 14:00, 2026-12-05 14:00.", Shown(text),
			timeTry)
}

// On puts a moment on the clock of a zone. A time without a day is on the base day, or in the night after
// it when it is before 6 o'clock.
func (m Moment) On(base Day, zone *time.Location, now time.Time) (time.Time, error) {
	if m.now {
		return now.Truncate(time.Minute).UTC(), nil
	}
	day := m.Day
	if day == (Day{}) {
		day = base
		if m.Minute < nightUntil {
			day = base.Plus(1)
		}
	}
	t := time.Date(day.Year, day.Month, day.Day, 0, int(m.Minute), 0, 0, zone)
	if h, mm, _ := t.Clock(); h*60+mm != int(m.Minute) {
		return time.Time{},
			Refuse("", "There is no %02d:%02d on %s: the clocks go forward then. Take a time before or after.", m.Minute/60,
				m.Minute%60, day)
	}
	// An hour that the clocks repeat is meant the first time; shifts of half an hour exist.
	for _, back := range []time.Duration{time.Hour, 30 * time.Minute} {
		if e := t.Add(-back); e.Format("2006-01-02 15:04") == t.Format("2006-01-02 15:04") {
			t = e
			break
		}
	}
	return t.UTC(), nil
}

// ParseWhen reads an instant as people type it: "18:00", "sat 18:00", "2026-09-26 18:00". A time without a
// day is the next such time after now. The error is a *[Refusal].
func ParseWhen(text string, now time.Time, zone *time.Location) (time.Time, error) {
	today := DayOf(now.In(zone))
	m, err := Days{Today: today}.ParseMoment(Clean(text, false))
	if err != nil || m.now {
		return now, err
	}
	if m.Day != (Day{}) {
		return m.On(today, zone, now)
	}
	m.Day = today
	at, err := m.On(today, zone, now)
	if err == nil && !at.After(now) {
		m.Day = today.Plus(1)
		at, err = m.On(today, zone, now)
	}
	return at, err
}

// parseHours reads hours of a day; "none" is an empty list. A stretch that ends before it begins ends
// on the next day.
func parseHours(text string) ([]planner.DayHours, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	if s == "none" {
		return []planner.DayHours{}, nil
	}
	var out []planner.DayHours
	for _, part := range strings.Split(s, ",") {
		from, until, ok := strings.Cut(strings.NewReplacer("–", "-", " to ", "-").Replace(part), "-")
		a, ok1 := parseHour(from)
		b, ok2 := parseHour(until)
		if !ok || !ok1 || !ok2 {
			return nil, Refuse("", "%q are no hours I can read; write them like 9:00-21:30, several with commas, or none.",
				Shown(text))
		}
		if a == b {
			return nil, Refuse("", "%q begins and ends at once; write hours like 9:00-21:30, or none.", Shown(text))
		}
		if b < a {
			b += 24 * 60
		}
		out = append(out, planner.DayHours{From: a, Until: b})
	}
	for i := range out {
		for j := range out[:i] {
			if out[i].From < out[j].Until && out[j].From < out[i].Until {
				return nil, Refuse("", "Two of the hours in %q overlap; write each stretch once.", Shown(text))
			}
		}
	}
	return out, nil
}

// parseHour is parseClock that also takes a bare hour and 24:00.
func parseHour(text string) (planner.Minutes, bool) {
	s := strings.TrimSpace(text)
	if s == "24:00" || s == "24" {
		return 24 * 60, true
	}
	if m, ok := ParseClock(s); ok {
		return m, true
	}
	return ParseClock(s + ":00")
}

// HoursText writes hours as they are typed.
func HoursText(hours []planner.DayHours) string {
	return hoursText(hours, func(_ planner.Minutes, said string) string { return said })
}

// HoursOn writes the hours of a single day, as "Sat 26 Sep 9:00-14:00", with its instants marked.
func HoursOn(date string, hours []planner.DayHours, zone *time.Location) string {
	day, err := time.ParseInLocation(time.DateOnly, date, zone)
	if err != nil {
		return date + " " + HoursText(hours)
	}
	return words.Stamp(day, words.Date, zone) + " " + hoursText(hours, func(m planner.Minutes, said string) string {
		at := time.Date(day.Year(), day.Month(), day.Day(), 0, int(m), 0, 0, zone)
		return words.StampAs(at, words.Clock, said)
	})
}

func hoursText(hours []planner.DayHours, mark func(m planner.Minutes, said string) string) string {
	var parts []string
	for _, h := range hours {
		if h.Until > h.From {
			until := ClockText(h.Until)
			if h.Until == 24*60 {
				until = "24:00"
			}
			parts = append(parts, mark(h.From, ClockText(h.From))+"-"+mark(h.Until, until))
		}
	}
	if len(parts) == 0 {
		return Emptying
	}
	return strings.Join(parts, ", ")
}

// ClockText writes minutes after midnight; those past it stay on the clock.
func ClockText(m planner.Minutes) string { return fmt.Sprintf("%d:%02d", m/60%24, m%60) }
