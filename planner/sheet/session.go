package sheet

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/mise"
	"tureen/planner/words"
)

// A session is told as a host would tell it: who, on which day, from when to when; under it the dishes, each with what
// is done for it, in order and by short names.

// inLine is how long the name of a step may be in a line that has a dish's.
const inLine = 34

// longRun is from how long on a line says until when something goes on that wants no hands.
const longRun = 30 * time.Minute

// session is what a person does in a stretch of days before the last hours; none where nothing is there.
func (v *view) session(all []*planner.Placed, who planner.PersonKey) []Section {
	if len(all) == 0 {
		return nil
	}
	s := Section{Title: v.sessionTitle(all, who)}
	for _, group := range v.byDish(all) {
		s.Lines = append(s.Lines, v.groupLine(group, who))
	}
	return []Section{s}
}

// sessionTitle is "Thu 3 Dec, Noor: 19:30-20:45 (1 h 5 min of hands work)".
func (v *view) sessionTitle(all []*planner.Placed, who planner.PersonKey) string {
	title := v.f.Stamp(all[0].Start, Date)
	if who != "" {
		title += ", " + v.name(who)
	}
	s := planner.SessionOf(v.p, all)
	var when []string
	for _, w := range s.Stretches {
		when = append(when, Stretch(w, v.f))
	}
	if len(when) > 0 {
		title += ": " + words.And(when)
	}
	if s.Hands > 0 {
		title += fmt.Sprintf(" (%s of hands work)", length(s.Hands))
	}
	return title
}

// Stretch is from when to when, or from when alone where it is but a moment's work.
func Stretch(w planner.Window, f Format) string {
	if w.From.Equal(w.To) {
		return f.Stamp(w.From, Clock)
	}
	return f.Stamp(w.From, Clock) + "-" + f.Stamp(w.To, Clock)
}

// byDish puts a session's tasks together by dish, in the order in which each is begun; what is no dish stands alone,
// and so does what is cut in the same way for several.
func (v *view) byDish(all []*planner.Placed) (groups [][]*planner.Placed) {
	at := map[planner.DishKey]int{}
	shared := mise.Of(v.p, all)
	for _, pl := range all {
		dish := v.tasks[pl.Task].Dish
		if shared != nil && slices.Contains(shared.Tasks, pl.Task) {
			dish = "," // no dish has such a key
		}
		i, known := at[dish]
		if dish == "" || !known {
			at[dish], i = len(groups), len(groups)
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], pl)
	}
	return groups
}

// groupLine is a dish with what is done for it: "Leek soup: slice the leeks, simmer until 20:40; into the
// refrigerator".
func (v *view) groupLine(group []*planner.Placed, who planner.PersonKey) string {
	first := v.tasks[group[0].Task]
	if first.Dish == "" {
		pl := group[0]
		line := words.Brief(first.Do, 2*inLine)
		// a dish's name may have a "with" in it
		if c := v.p.Chore(first.Chore); c != nil && c.Kind == planner.Cool && strings.HasPrefix(c.Do, "Put ") {
			line, _, _ = strings.Cut(clean(c.Do), ", ")
		}
		if first.Away || v.byClock(first) {
			line = v.f.Stamp(pl.Start, Clock) + " " + line
		}
		return line + v.running(pl, first) + ", " + length(pl.End.Sub(pl.Start)) + v.with(pl, who) + v.mark(pl.Task)
	}
	if shared := mise.Of(v.p, group); shared != nil {
		return "Cut for several dishes: " + clean(shared.String(v.p))
	}
	var done []string
	for _, pl := range group {
		t := v.tasks[pl.Task]
		name := words.Lower(words.Brief(t.Do, inLine))
		if t.Rounds > 1 {
			name += fmt.Sprintf(" (round %d of %d)", t.Round, t.Rounds)
		}
		done = append(done, name+v.running(pl, t)+v.with(pl, who)+v.mark(pl.Task))
	}
	line := clean(v.p.Dish(first.Dish).Name) + ": " + strings.Join(done, ", ")
	if to := v.goesInto(v.tasks[group[len(group)-1].Task]); to != "" {
		line += "; into the " + to
	}
	return line
}

// byClock says whether a time decides when a chore is done, and not the order of a session.
func (v *view) byClock(t *planner.Task) bool {
	c := v.p.Chore(t.Chore)
	return c != nil && c.Kind == planner.Thaw
}

// running is until when something goes on by itself or under somebody's eye, where that is long.
func (v *view) running(pl *planner.Placed, t *planner.Task) string {
	if t.Attention == planner.Hands || pl.End.Sub(pl.Start) < longRun || v.p.Progress(pl.Task) == planner.Done {
		return ""
	}
	const mark = 5 * time.Minute
	return " until " + v.f.near(pl.End.Add(mark-time.Nanosecond).Truncate(mark), pl.Start)
}

// with names the others who have their hands in it.
func (v *view) with(pl *planner.Placed, who planner.PersonKey) string {
	var names []string
	for _, k := range pl.People {
		if k != who {
			names = append(names, v.name(k))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return " with " + words.And(names)
}

// box is a box to tick, ticked where all of it is done.
func (v *view) box(group []*planner.Placed) string {
	count := func(stages ...planner.Progress) (n int) {
		for _, pl := range group {
			if slices.Contains(stages, v.p.Progress(pl.Task)) {
				n++
			}
		}
		return n
	}
	switch over := count(planner.Done, planner.Skipped); {
	case count(planner.Skipped) == len(group):
		return "[-]"
	case over == len(group):
		return "[x]"
	case over+count(planner.Started) > 0:
		return "[>]"
	}
	return "[ ]"
}
