package planner

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"tureen/planner/words"
)

// Problem is something in a party that makes no sense, and what to say instead.
type Problem struct {
	// "party", "kitchen", "course main", "dish pear-tart", "pear-tart/roll", "ice", "person anna"
	Where string `json:"where"`
	Text  string `json:"text"` // one sentence for the person
	// the kitchen has not what a task takes: such a party can be planned, without the dish
	Lacks bool `json:"lacks,omitempty"`
}

// The limits of what a party may say. They are ours: far beyond a dinner at home, and small enough to plan.
const (
	MaxCovers   = 500
	MaxPrepDays = 14
	MaxLength   = 7 * 24 * 60 * Minutes(1) // of a task
	MaxWait     = 30 * 24 * 60 * Minutes(1)
	MaxOvenC    = 300
	MaxRounds   = 20
	MaxHands    = 20
	MaxName     = 80  // characters
	MaxText     = 400 // characters
	maxWindow   = 12 * 60 * Minutes(1)
	maxLitres   = 500
)

// Validate lists everything that makes the party meaningless, in the party's order; nothing when a plan can
// be asked for. That a party makes sense does not mean that it has a plan.
func (p *Party) Validate() []Problem {
	var out problems
	out.party(p)
	out = append(out, ValidateKitchen(&p.Kitchen)...)
	out.people(p)
	for i := range p.Courses {
		out = append(out, ValidateCourse(p, &p.Courses[i])...)
	}
	out.courseOrder(p)
	out.twice("party", "courses", names(p.Courses, func(c Course) string { return string(c.Key) }))
	for i := range p.Dishes {
		out = append(out, ValidateDish(p, &p.Dishes[i])...)
	}
	out.twice("party", "dishes", names(p.Dishes, func(d Dish) string { return string(d.Key) }))
	for i := range p.Chores {
		out = append(out, ValidateChore(p, &p.Chores[i])...)
	}
	out.twice("party", "chores", names(p.Chores, func(c Chore) string { return string(c.Key) }))
	for _, d := range p.Drinks {
		if d.Bottles < 1 || d.Bottles > MaxCovers {
			out.add("drink "+d.Name, "Say how many bottles of %s, from 1 to %d.", d.Name, MaxCovers)
		}
	}
	out.goods(p)
	out.work(p)
	out.circles(p)
	return out
}

// problems collects; its methods are the checks that need more than one part of the party.
type problems []Problem

func (ps *problems) add(where, format string, args ...any) {
	*ps = append(*ps, Problem{Where: where, Text: fmt.Sprintf(format, args...)})
}

// lacks adds that the kitchen has not what a task takes.
func (ps *problems) lacks(where, format string, args ...any) {
	ps.add(where, format, args...)
	(*ps)[len(*ps)-1].Lacks = true
}

// within complains unless low <= n <= high; what says what the number is, with its unit.
func (ps *problems) within(where, what string, n, low, high int) {
	if n < low || n > high {
		ps.add(where, "Give %s from %d to %d, not %d.", what, low, high, n)
	}
}

func (ps *problems) text(where, what, text string, most int, needed bool) {
	switch n := utf8.RuneCountInString(text); {
	case n > most:
		ps.add(where, "Shorten %s to %d characters; it has %d.", what, most, n)
	case needed && strings.TrimSpace(text) == "":
		ps.add(where, "Give %s; it is empty.", what)
	case !utf8.ValidString(text):
		ps.add(where, "Type %s again; it holds characters that are no text.", what)
	}
}

func (ps *problems) key(where, key string) {
	if key == "" || len(key) > MaxKey || strings.ContainsAny(key, "/. \t\n") {
		ps.add(where, "Choose a short name with letters or digits; %.40q cannot be told apart from others.", key)
	}
}

func (ps *problems) twice(where, what string, keys []string) {
	for i, k := range keys {
		if slices.Index(keys, k) < i && !slices.Contains(keys[slices.Index(keys, k)+1:i], k) {
			ps.add(where, "Rename one of the two %s named %q: each name may stand only once.", what, k)
		}
	}
}

func (ps *problems) party(p *Party) {
	ps.text("party", "the party's name", p.Name, MaxName, false)
	ps.text("party", "the place", p.Place, MaxText, false)
	if p.Covers < 1 || p.Covers > MaxCovers {
		ps.add("party", "Lay from 1 to %d covers, not %d.", MaxCovers, p.Covers)
	}
	if p.Arrival.IsZero() {
		ps.add("party", "Say when the guests arrive, with date and time.")
	}
	if _, err := time.LoadLocation(p.Zone); err != nil || p.Zone == "" || p.Zone == "Local" {
		ps.add("party", "Name the time zone by continent and city, such as Europe/Lisbon; I don't know %.40q.", p.Zone)
	}
	ps.within("party", "the days of prep before the party", p.PrepDays, 0, MaxPrepDays)
	if !p.Kind.Known() {
		ps.add("party", "There is no kind of party %q.", p.Kind)
	}
	if h := p.WorkHours; h != (DayHours{}) && (h.From < 0 || h.Until > 30*60 || h.From >= h.Until) {
		ps.add("party", "Let work on the days before lie within one day and its night, such as 7:00-22:30.")
	}
	ps.within("party", "the room temperature in °C", p.RoomTemperatureC, -10, 50)
}

func (ps *problems) work(p *Party) {
	seen := map[TaskKey]bool{}
	known := taskNames(p)
	for _, w := range p.Work {
		where := string(w.Task)
		if seen[w.Task] {
			ps.add(where, "Keep one note of work for %s, not two.", w.Task)
		}
		seen[w.Task] = true
		if !slices.Contains(known, where) {
			ps.add(where, "Name a task of the plan; there is no %q.%s", where, didYouMean(where, known))
		}
		if w.Person != "" && p.Person(w.Person) == nil {
			ps.add(where, "Give %s to somebody of the party; %q is not one of them.%s", w.Task, w.Person,
				didYouMean(string(w.Person), peopleNames(p)))
		}
		switch w.Progress {
		case Waiting:
		case Started:
			if w.Start == nil {
				ps.add(where, "Say when %s was started.", w.Task)
			}
		case Done, Skipped:
			if w.End == nil {
				ps.add(where, "Say when %s was done or skipped.", w.Task)
			}
		default:
			ps.add(where, "Say of %s that it is waiting, started, done or skipped, not %q.", w.Task, w.Progress)
		}
		if w.Start != nil && w.End != nil && w.End.Before(*w.Start) {
			ps.add(where, "Let %s end after it starts.", w.Task)
		}
		if w.Extra < 0 || w.Extra > MaxLength {
			ps.add(where, "Let %s take between 0 minutes and 7 days more, not %s.", w.Task, words.Length(w.Extra))
		}
	}
}

// taskNames lists the keys of all tasks as far as they can be counted.
func taskNames(p *Party) []string {
	return names(Tasks(p), func(t Task) string { return string(t.Key) })
}

func peopleNames(p *Party) []string {
	return names(p.People, func(x Person) string { return string(x.Key) })
}

func names[T any](list []T, name func(T) string) []string {
	out := make([]string, 0, len(list))
	for _, x := range list {
		out = append(out, name(x))
	}
	return out
}
