package sheet

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
)

// Now answers "what now?" for one person: what I am doing, what is next, what is in the oven until when,
// and when what comes next on the table is served. The first line says what to do. A person nobody knows
// gets what everybody does.
func Now(p *planner.Party, plan *planner.Plan, me planner.PersonKey, at time.Time, f Format) []string {
	v := newView(p, plan, f)
	var hands, other, next, open []string
	for _, pl := range v.placed() {
		t := v.tasks[pl.Task]
		progress := v.p.Progress(pl.Task)
		if me != "" && !slices.Contains(pl.People, me) || progress == planner.Done || progress == planner.Skipped {
			continue
		}
		what := v.called(t)
		if me == "" {
			what = v.who(pl) + what
		}
		line := ""
		switch {
		case progress == planner.Started && pl.End.After(at):
			line = fmt.Sprintf("Now: %s, until %s", what, f.near(pl.End, at))
		case progress == planner.Started:
			line = fmt.Sprintf("Done? %s, planned until %s", what, f.near(pl.End, at))
		case pl.End.After(at) && !pl.Start.After(at):
			line = fmt.Sprintf("Now: %s, planned from %s to %s", what, f.near(pl.Start, at), f.near(pl.End, at))
		case pl.Start.After(at):
			when := f.near(pl.Start, at)
			if in := pl.Start.Sub(at); in < time.Hour {
				when += fmt.Sprintf(" (in %s)", length(in))
			}
			next = append(next, fmt.Sprintf("Next, %s: %s, %s", when, what, length(pl.End.Sub(pl.Start))))
			continue
		default:
			open = append(open, fmt.Sprintf("%s (%s)", what, f.near(pl.Start, at)))
			continue
		}
		if t.Attention == planner.Hands {
			hands = append(hands, line)
		} else {
			other = append(other, line)
		}
	}
	lines := append(hands, other...)
	switch {
	case len(lines) > 0:
	case len(next) == 0 && len(open) == 0:
		lines = append(lines, "Nothing is left to do.")
	default:
		lines = append(lines, "Nothing to do right now.")
	}
	lines = append(lines, openLine(open)...)
	lines = append(lines, next[:min(len(next), nextShown)]...)
	lines = append(lines, Oven(p, plan, at, f)...)
	if s := v.nextServing(at); s != "" {
		lines = append(lines, s)
	}
	if len(next) > nextShown {
		lines = append(lines, next[nextShown:]...)
	}
	return lines
}

// openLine folds what was planned before and is not ticked off into one line, the oldest named.
func openLine(open []string) []string {
	switch len(open) {
	case 0:
		return nil
	case 1:
		return []string{"Not ticked off: " + open[0]}
	}
	return []string{fmt.Sprintf("Not ticked off: %s and %d more", open[0], len(open)-1)}
}

// nextShown is how many coming tasks stand before the oven and the next serving.
const nextShown = 2

// nextServing says what is served next, on the party's day.
func (v *view) nextServing(at time.Time) string {
	if v.f.day(at) != v.f.day(v.p.Arrival) && at.Before(v.p.Arrival) {
		return ""
	}
	if at.Before(v.p.Arrival) {
		return fmt.Sprintf("The guests arrive at %s, in %s", v.f.Stamp(v.p.Arrival, Clock), length(v.p.Arrival.Sub(at)))
	}
	for _, s := range v.plan.Served {
		if s.At.After(at) {
			return fmt.Sprintf("%s at %s, in %s", v.serveText(s), v.f.Stamp(s.At, Clock), length(s.At.Sub(at)))
		}
	}
	return ""
}
