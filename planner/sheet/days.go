package sheet

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/shopping"
	"tureen/planner/words"
)

// Only narrows a sheet: to one person's tasks, to one day ("2006-01-02" in the party's zone). Zero: all.
type Only struct {
	Person planner.PersonKey
	Day    string
}

// Days is the plan by day, and within a day by person: what is done in a session, dish by dish and in which order; and
// from four hours before the guests come, minute by minute. Tasks that nobody minds while they run (rising, chilling)
// stand with the person who starts them.
func Days(p *planner.Party, plan *planner.Plan, only Only, f Format) []Section {
	v := newView(p, plan, f)
	late := p.Arrival.Add(-planner.LateOn)
	var out []Section
	for _, day := range v.days(only) {
		for _, who := range v.everybody() {
			if only.Person != "" && who != only.Person {
				continue
			}
			var early []*planner.Placed
			var lines []string
			var work time.Duration
			var first time.Time
			for _, pl := range v.placed() {
				if f.day(pl.Start) != day || !slices.Contains(pl.People, who) && !(len(pl.People) == 0 && who == "") {
					continue
				}
				if pl.Start.Before(late) {
					early = append(early, pl)
					continue
				}
				t := v.tasks[pl.Task]
				if t.Attention == planner.Hands && v.p.Progress(pl.Task) != planner.Skipped {
					work += pl.End.Sub(pl.Start)
				}
				if first.IsZero() {
					first = pl.Start
				}
				lines = append(lines, v.dayLine(pl, t, who))
			}
			out = append(out, v.session(early, who)...)
			if len(lines) == 0 {
				continue
			}
			title := f.Stamp(first, Date)
			if who != "" {
				title += ", " + v.name(who)
			}
			if len(early) > 0 {
				title += ", from " + f.Stamp(first, Clock)
			}
			if work > 0 {
				title += fmt.Sprintf(" (%s of hands work)", length(work))
			}
			out = append(out, Section{Title: title, Lines: lines})
		}
	}
	return out
}

func (v *view) dayLine(pl *planner.Placed, t *planner.Task, who planner.PersonKey) string {
	line := fmt.Sprintf("%s %s, %s", v.f.Stamp(pl.Start, Clock), v.called(t), length(pl.End.Sub(pl.Start)))
	if t.Attention != planner.Hands {
		line += fmt.Sprintf(", until %s", v.f.near(pl.End, pl.Start))
	}
	switch t.Attention {
	case planner.Watch:
		line += ", keep an eye on it"
	case planner.Unattended:
		line += ", by itself"
	case planner.Touch:
		if _, s := v.p.StepOf(t); s != nil && s.Every > 0 {
			line += ", a hand every " + words.Short(s.Every)
		}
	}
	var with []string
	for _, k := range pl.People {
		if k != who {
			with = append(with, v.name(k))
		}
	}
	if len(with) > 0 {
		line += ", with " + words.And(with)
	}
	return line + v.mark(pl.Task)
}

// days lists the days on which something starts, in order.
func (v *view) days(only Only) []string {
	var out []string
	for _, pl := range v.placed() {
		if d := v.f.day(pl.Start); !slices.Contains(out, d) && (only.Day == "" || only.Day == d) {
			out = append(out, d)
		}
	}
	return out
}

// everybody lists the people in the party's order, then whoever only the plan knows, then nobody.
func (v *view) everybody() []planner.PersonKey {
	var out []planner.PersonKey
	for i := range v.p.People {
		out = append(out, v.p.People[i].Key)
	}
	for _, pl := range v.placed() {
		for _, k := range pl.People {
			if !slices.Contains(out, k) {
				out = append(out, k)
			}
		}
	}
	return append(out, "")
}

// Prep is the prep list: session by session, up to when the guests come, what is to be done, dish by dish, with a
// box to tick.
func Prep(p *planner.Party, plan *planner.Plan, f Format) []Section {
	v := newView(p, plan, f)
	list := shopping.Of(p, plan)
	var out []Section
	for _, day := range v.days(Only{}) {
		for _, who := range v.everybody() {
			var all []*planner.Placed
			for _, pl := range v.placed() {
				if f.day(pl.Start) == day && pl.Start.Before(p.Arrival) && (len(pl.People) > 0 && pl.People[0] == who ||
					len(pl.People) == 0 && who == "") {
					all = append(all, pl)
				}
			}
			if len(all) == 0 {
				continue
			}
			sec := Section{Title: v.sessionTitle(all, who)}
			for _, group := range v.byDish(all) {
				sec.Lines = append(sec.Lines, v.box(group)+" "+v.groupLine(group, who))
				t := v.tasks[group[0].Task]
				if trip := list.Trip(t.Chore); t.Chore != "" && trip != nil {
					if things := trip.Wanted(); len(things) > 0 && v.p.Chore(t.Chore).Kind == planner.Shop {
						sec.Lines = append(sec.Lines, clean(strings.Join(things, ", ")))
					}
				}
			}
			out = append(out, sec)
		}
	}
	return out
}
