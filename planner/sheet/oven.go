package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"tureen/planner"
)

// ovenStaysOn is the longest pause over which an oven is left on; common practice, no source.
const ovenStaysOn = 45 * time.Minute

// load is what is in an oven.
type load struct {
	held   planner.Held
	placed *planner.Placed
}

// loads lists what goes into an oven, by when it goes in; loads that are skipped are not among them.
func (v *view) loads(oven string) []load {
	var out []load
	for _, pl := range v.placed() {
		if v.p.Progress(pl.Task) == planner.Skipped {
			continue
		}
		for _, h := range pl.Uses {
			if h.What == planner.AnOven && h.Name == oven && h.To.After(h.From) {
				out = append(out, load{h, pl})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b load) int {
		return cmp.Or(a.held.From.Compare(b.held.From), cmp.Compare(a.placed.Task, b.placed.Task))
	})
	return out
}

// setting is an oven being set.
type setting struct {
	at, hot time.Time // when it is set, and when it must be there
	from, c int       // °C; from 0: it was off
	load    *planner.Placed
}

// settings derives when an oven is to be switched on or changed so that each load finds its temperature.
func (v *view) settings(oven *planner.Oven) []setting {
	var out []setting
	var busy time.Time
	now := 0
	for _, l := range v.loads(oven.Name) {
		was, free := now, busy
		now = v.p.LeftAt(v.tasks[l.placed.Task], l.placed, &l.held)
		if l.held.To.After(busy) {
			busy = l.held.To
		}
		if was != 0 && l.held.From.Sub(free) > ovenStaysOn {
			was = 0
		}
		if l.held.C == 0 || was == l.held.C {
			continue
		}
		at := l.held.From.Add(-oven.Change(was, l.held.C).Duration())
		if was != 0 && at.Before(free) {
			at = free
		}
		out = append(out, setting{at, l.held.From, was, l.held.C, l.placed})
	}
	return out
}

// ovenName says which oven; one alone needs no name.
func (v *view) ovenName(name string) string {
	if len(v.p.Kitchen.Ovens) < 2 && (name == "" || name == "oven") {
		return "the oven"
	}
	return "the " + clean(name)
}

func (v *view) setText(oven string, s setting) string {
	name := v.ovenName(oven)
	switch {
	case s.from == 0:
		return fmt.Sprintf("Heat %s to %d °C", name, s.c)
	case s.c > s.from:
		return fmt.Sprintf("Turn %s up to %d °C", name, s.c)
	}
	return fmt.Sprintf("Turn %s down to %d °C", name, s.c)
}

// Oven says what is in each oven at an instant, at what temperature and until when, and what goes in next.
// A line an oven that is in use or will be on that day.
func Oven(p *planner.Party, plan *planner.Plan, at time.Time, f Format) []string {
	v := newView(p, plan, f)
	var lines []string
	for i := range p.Kitchen.Ovens {
		oven := &p.Kitchen.Ovens[i]
		lines = append(lines, v.ovenLines(oven, at)...)
	}
	return lines
}

func (v *view) ovenLines(oven *planner.Oven, at time.Time) []string {
	var lines []string
	for _, l := range v.loads(oven.Name) {
		if l.held.From.After(at) || !l.held.To.After(at) || v.p.Progress(l.placed.Task) == planner.Done {
			continue
		}
		heat := fmt.Sprintf("%d °C", l.held.C)
		if l.held.C == 0 {
			heat = "off"
		}
		lines = append(lines, fmt.Sprintf("In %s (%s) until %s: %s", v.ovenName(oven.Name), heat, v.f.near(l.held.To, at),
			v.called(v.tasks[l.placed.Task])))
	}
	if len(lines) > 0 {
		return lines
	}
	for _, s := range v.settings(oven) {
		if s.hot.After(at) && v.f.day(s.hot) == v.f.day(at) {
			when := "at " + v.f.Stamp(s.at, Clock)
			if !s.at.After(at) {
				when = "now, for " + v.f.Stamp(s.hot, Clock)
			}
			return []string{fmt.Sprintf("%s %s: %s", v.setText(oven.Name, s), when, v.called(v.tasks[s.load.Task]))}
		}
	}
	return nil
}
