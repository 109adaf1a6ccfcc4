package reminders

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"tureen/planner"
)

// opening is a task's first line: what to do, and when.
func opening(do string, start time.Time, lead time.Duration, zone *time.Location) string {
	do = trimStop(do)
	when := "now"
	if lead > 0 {
		when = "at " + Stamp(start, Clock, zone)
	}
	if strings.ContainsAny(do, ",;:.()") {
		return fmt.Sprintf("%s: %s.", capital(when), do)
	}
	return fmt.Sprintf("%s %s.", do, when)
}

// oftenTouched: what wants a hand more often than so many times is told once; whoever has it stays near.
func oftenTouched(t *planner.Task, s *planner.Step) bool {
	const often = 6
	return t.Attention == planner.Touch && s.Every > 0 && t.Time.Likely > often*s.Every
}

// about says what a task belongs to, how long it takes and who shares it: "Pear tart, dessert. About 20
// minutes (15 to 30): Ada and Ben together."
func (v *view) about(t *planner.Task, pl *planner.Placed) string {
	length := "About " + Length(planner.Minutes(pl.End.Sub(pl.Start)/time.Minute)) + spread(t, len(pl.People))
	if len(pl.People) > 1 {
		var names []string
		for _, k := range pl.People {
			names = append(names, v.name(k))
		}
		length += ": " + and(names) + " together"
	}
	if _, s := v.p.StepOf(t); s != nil && oftenTouched(t, s) {
		length += ", a hand every " + Length(s.Every)
	}
	if of := v.belongs(t); of != "" {
		return of + ". " + length + "."
	}
	return length + "."
}

// spread is a task's range in brackets, as so many people have it; empty when there is none.
func spread(t *planner.Task, people int) string {
	if t.Time.Low == t.Time.High {
		return ""
	}
	end := func(m planner.Minutes) planner.Minutes {
		shared := *t
		shared.Time.Likely = m
		return shared.Length(people)
	}
	low, high := end(t.Time.Low), end(t.Time.High)
	if high < 60 {
		return fmt.Sprintf(" (%d to %d)", low, high)
	}
	return fmt.Sprintf(" (%s to %s)", Length(low), Length(high))
}

// called is a task with what it belongs to: "Bake the shell (pear tart, dessert)".
func (v *view) called(t *planner.Task) string {
	if of := v.belongs(t); of != "" {
		return fmt.Sprintf("%s (%s)", trimStop(t.Do), of)
	}
	return trimStop(t.Do)
}

// belongs names a task's dish, course and round; empty for a chore.
func (v *view) belongs(t *planner.Task) string {
	d := v.p.Dish(t.Dish)
	if d == nil {
		return ""
	}
	of := v.dishAndCourse(d)
	if t.Rounds > 1 {
		of += fmt.Sprintf(", round %d of %d", t.Round, t.Rounds)
	}
	return of
}

func (v *view) dishAndCourse(d *planner.Dish) string {
	if c := v.p.Course(d.Course); c != nil {
		return named(d.Name) + ", " + named(c.Name)
	}
	return named(d.Name)
}

func (v *view) course(k planner.CourseKey) string {
	if c := v.p.Course(k); c != nil {
		return named(c.Name)
	}
	return "the course"
}

func (v *view) name(k planner.PersonKey) string {
	if p := v.p.Person(k); p != nil {
		return named(p.Name)
	}
	return "somebody who has left"
}

// thing names what a step leaves: its component, else the dish.
func thing(d *planner.Dish, s *planner.Step) string {
	if s.Component != "" {
		return "the " + named(s.Component)
	}
	return "the " + lower(named(d.Name))
}

// waiting says where food is during a wait: "in the refrigerator"; empty when nothing needs saying.
func waiting(w planner.Wait) string {
	in := ""
	if w.Hold != nil && w.Hold.Name != "" {
		in = " in the " + named(w.Hold.Name)
	}
	switch w.State {
	case planner.Counter:
		return "on the counter"
	case planner.Refrigerator, planner.Freezer:
		return "in the " + string(w.State)
	case planner.Warm:
		return "kept warm" + in
	case planner.HotHold:
		return "kept hot" + in
	}
	return ""
}

// question turns a sign of doneness into one: "54 °C in the middle?".
func question(sign string) string {
	return capital(cut(strings.TrimRight(clean(sign), " .?!"), longestDo)) + "?"
}

// Length is a length of time as people say it: "20 minutes", "1 h 20 min", "2 days".
func Length(m planner.Minutes) string {
	switch {
	case m == 1:
		return "1 minute"
	case m < 60:
		return fmt.Sprintf("%d minutes", m)
	case m%(24*60) == 0 && m >= 48*60:
		return fmt.Sprintf("%d days", m/(24*60))
	case m == 60:
		return "1 hour"
	case m%60 == 0:
		return fmt.Sprintf("%d hours", m/60)
	}
	return fmt.Sprintf("%d h %d min", m/60, m%60)
}

// and joins a list as people do: "a, b and c".
func and(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

func addNew(list []string, s string) []string {
	if slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

// clean makes text that a person typed fit for the middle of a line.
func clean(s string) string { return strings.Join(strings.Fields(StripStamps(s)), " ") }

// trimStop is what is to be done, for the middle of a line: no full stop, and no longer than a line.
func trimStop(s string) string { return cut(strings.TrimRight(clean(s), " .!"), longestDo) }

// How many characters of what people typed go into one line of a reminder.
const (
	longestDo   = 120
	longestName = 60
	longestLine = 110 // of a list
)

// cut shortens text to so many characters.
func cut(s string, most int) string {
	if r := []rune(s); len(r) > most {
		return strings.TrimRight(string(r[:most-1]), " ") + "…"
	}
	return s
}

// named is a name as people typed it, for the middle of a line.
func named(s string) string { return cut(clean(s), longestName) }

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// lower takes the capital off a name's first word, unless the word is written in capitals all through.
func lower(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if next, _ := utf8.DecodeRuneInString(s[n:]); unicode.IsUpper(next) {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}
