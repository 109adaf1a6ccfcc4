// Package sheet turns a plan into text that people read: the days, the evening minute by minute, the prep
// list, what is in the oven, what somebody does now, what a new plan changed.
//
// Everything here is a pure function to titled lines. Instants go through [Format], so that a face may draw
// them in its own way; [Plain] writes them as people say them. A line tells one thing, its time first.
// What people have typed is stripped of control characters before it stands in a line.
package sheet

import (
	"cmp"
	"slices"
	"strings"
	"time"
	"unicode"

	"tureen/planner"
)

// Section is a titled list of lines.
type Section struct {
	Title string
	Lines []string
}

// Style says how much of an instant is to be shown.
type Style int

// The styles.
const (
	Clock    Style = iota // 17:35
	DayClock              // Sat 17:35
	Date                  // Sat 26 Sep
)

// Format writes instants. Zone decides which day an instant belongs to.
type Format struct {
	Zone  *time.Location
	Stamp func(t time.Time, style Style) string
}

// Plain is the format for readers of plain text: the words of a zone.
func Plain(zone *time.Location) Format {
	return Format{Zone: zone, Stamp: func(t time.Time, style Style) string {
		layout := map[Style]string{Clock: "15:04", DayClock: "Mon 15:04", Date: "Mon 2 Jan"}[style]
		return t.In(zone).Format(layout)
	}}
}

func (f Format) day(t time.Time) string { return t.In(f.Zone).Format(time.DateOnly) }

// near writes an instant as its clock time when it is on the same day as from, else with its day, and with its date
// when a weekday could be taken for another one.
func (f Format) near(t, from time.Time) string {
	if f.day(t) == f.day(from) {
		return f.Stamp(t, Clock)
	}
	if t.Sub(from).Abs() >= 6*24*time.Hour {
		return f.Stamp(t, Date) + " " + f.Stamp(t, Clock)
	}
	return f.Stamp(t, DayClock)
}

// view is a party and a plan, ready to be looked things up in.
type view struct {
	p     *planner.Party
	plan  *planner.Plan
	f     Format
	tasks map[planner.TaskKey]*planner.Task
}

func newView(p *planner.Party, plan *planner.Plan, f Format) *view {
	p = goesOnWith(p, plan)
	v := &view{p: p, plan: plan, f: f, tasks: map[planner.TaskKey]*planner.Task{}}
	all := planner.Tasks(p)
	for i := range all {
		v.tasks[all[i].Key] = &all[i]
	}
	return v
}

// placed lists what stands in the plan and in the party, by start and then key.
func (v *view) placed() []*planner.Placed {
	var out []*planner.Placed
	for i := range v.plan.Tasks {
		if pl := &v.plan.Tasks[i]; v.tasks[pl.Task] != nil {
			out = append(out, pl)
		}
	}
	slices.SortStableFunc(out, func(a, b *planner.Placed) int {
		return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Task, b.Task))
	})
	return out
}

// clean makes text that a person typed fit for the middle of a line.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}

func trimStop(s string) string { return strings.TrimRight(clean(s), " .!") }
