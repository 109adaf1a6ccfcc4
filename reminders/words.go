package reminders

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// opening is a task's first line: what to do, and when.
func opening(do string, start time.Time, lead time.Duration, zone *time.Location) string {
	if do = trimStop(do); len([]rune(do)) > longestFirst-len("At 00:00: .") {
		do = words.Brief(do, longestFirst-len("At 00:00: ."))
		if before, more, ok := cutLast(do, " and "); ok && strings.HasSuffix(more, " it") {
			do = before // "and lay it", of "and lay it on the beans"
		}
	}
	when := "now"
	if lead > 0 {
		when = "at " + words.Stamp(start, words.Clock, zone)
	}
	if strings.ContainsAny(do, ",;:.()") {
		return fmt.Sprintf("%s: %s.", words.Upper(when), do)
	}
	return fmt.Sprintf("%s %s.", do, when)
}

// cutLast is strings.Cut at the last place.
func cutLast(s, sep string) (before, after string, found bool) {
	if i := strings.LastIndex(s, sep); i >= 0 {
		return s[:i], s[i+len(sep):], true
	}
	return s, "", false
}

// oftenTouched: what wants a hand more often than so many times is told once; whoever has it stays near.
func oftenTouched(t *planner.Task, s *planner.Step) bool {
	const often = 6
	return t.Attention == planner.Touch && s.Every > 0 && t.Time.Likely > often*s.Every
}

// about says what a task belongs to, how long it takes and who shares it: "Pear tart, dessert. About 20
// minutes (15 to 30): Ada and Ben together."
func (v *view) about(t *planner.Task, pl *planner.Placed) string {
	length := "About " + words.Length(words.Minutes(pl.End.Sub(pl.Start))) + spread(t, len(pl.People))
	if len(pl.People) > 1 {
		var names []string
		for _, k := range pl.People {
			names = append(names, v.name(k))
		}
		length += ": " + words.And(names) + " together"
	}
	if _, s := v.p.StepOf(t); s != nil && oftenTouched(t, s) {
		length += ", a hand every " + words.Length(s.Every)
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
	return fmt.Sprintf(" (%s to %s)", words.Length(low), words.Length(high))
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

// mostNamed is how many ingredients are named by themselves.
const mostNamed = 3

// thing names what a step leaves: its component, what was only made ready by its own name, else the dish.
func thing(d *planner.Dish, s *planner.Step) string {
	if s.Component != "" {
		return "the " + named(s.Component)
	}
	if len(s.After) == 0 && !s.Cooks && len(d.Steps) > 1 && s.Key != d.Steps[len(d.Steps)-1].Key {
		var names []string
		for i := range d.Ingredients {
			if in := &d.Ingredients[i]; in.Step == s.Key {
				names = addNew(names, "the "+words.Lower(named(in.Name)))
			}
		}
		if n := len(names); n > 0 && n <= mostNamed {
			return words.And(names)
		}
		if len(names) > 0 {
			return "what is ready for the " + words.Lower(named(d.Name))
		}
	}
	return "the " + words.Lower(named(d.Name))
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

// question turns a sign of doneness into one about the task's dish: "Roast lamb: 54 °C in the middle?".
func (v *view) question(t *planner.Task, sign string) string {
	sign = cut(strings.TrimRight(clean(sign), " .?!"), longestDo) + "?"
	if d := v.p.Dish(t.Dish); d != nil {
		return cut(clean(d.Name), longestName) + ": " + words.Lower(sign)
	}
	return words.Upper(sign)
}

func addNew(list []string, s string) []string {
	if slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

// clean makes text that a person typed fit for the middle of a line.
func clean(s string) string { return strings.Join(strings.Fields(words.StripStamps(s)), " ") }

// trimStop is what is to be done, for the middle of a line: no full stop, and no longer than a line.
func trimStop(s string) string { return cut(strings.TrimRight(clean(s), " .!"), longestDo) }

// How many characters of what people typed go into one line of a reminder.
const (
	longestFirst = 60 // of a first line that says what to do
	longestDo    = 120
	longestName  = 60
	longestLine  = 110 // of a list
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
