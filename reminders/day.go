package reminders

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// digestAt is when the digest of the next day comes, and morningAt when it is morning for who has no quiet hours, in
// minutes after midnight.
const (
	digestAt  = 20 * 60
	morningAt = 8 * 60
)

// digestLines is how many tasks a digest lists before it says how many more there are.
const digestLines = 12

// inList is how long a task's name may be in a digest, with its dish behind it.
const inList = 66

// courseLines is the same for the dishes of a course.
const courseLines = 8

// party tells everybody of the guests and, with a plan, of each service.
func (v *view) party() []store.Reminder {
	out := []store.Reminder{{
		Key: "guests", Kind: Guests, Due: v.p.Arrival.Add(-leadGuests), At: v.p.Arrival, Until: v.p.Arrival,
		Text: fmt.Sprintf("Guests in 30 minutes: they come at %s.\n%s, %d covers.",
			words.Stamp(v.p.Arrival, words.Clock, v.zone),
			named(v.p.Name), v.p.Covers),
	}}
	if v.plan == nil {
		return out
	}
	for _, s := range v.plan.Served {
		what := v.course(s.Course)
		if s.Group != "" {
			what += " for " + named(s.Group)
		}
		lines := []string{fmt.Sprintf("%s in 5 minutes, at %s.", words.Upper(what), words.Stamp(s.At, words.Clock, v.zone))}
		had := false
		for i := range v.p.Dishes {
			d := &v.p.Dishes[i]
			had = had || d.Course == s.Course
			if d.Course == s.Course && !v.plan.LeavesOut(d.Key) {
				lines = append(lines, v.toServe(d, s.At))
			}
		}
		if had && len(lines) == 1 {
			lines[0] = fmt.Sprintf("Nothing for %s at %s.", words.Lower(what), words.Stamp(s.At, words.Clock, v.zone))
		}
		for _, l := range v.plan.Without {
			if d := v.p.Dish(l.Dish); d != nil && d.Course == s.Course {
				lines = append(lines, named(d.Name)+": off the plan.")
			}
		}
		if n := len(lines) - 1; n > courseLines {
			lines = append(lines[:courseLines+1:courseLines+1], fmt.Sprintf("and %d more", n-courseLines))
		}
		out = append(out, store.Reminder{
			Key: fmt.Sprintf("service/%s/%s", s.Course, planner.Key(s.Group)), Kind: Service,
			Due: s.At.Add(-leadService), At: s.At, Until: s.At, Text: strings.Join(lines, "\n"),
		})
	}
	return out
}

// toServe says where a dish is that is about to be served, or what is still done to it.
func (v *view) toServe(d *planner.Dish, at time.Time) string {
	var where []string
	for i := range d.Steps {
		s := &d.Steps[i]
		end, known := v.endOf(d.Key, s.Key)
		if s.Serve == nil || !known {
			continue
		}
		switch place := waiting(*s.Serve); {
		case end.After(at.Add(-leadService)):
			where = addNew(where, fmt.Sprintf("%s until %s", words.Lower(trimStop(s.Do)), words.Stamp(end, words.Clock, v.zone)))
		case place != "" && s.Component == "":
			where = addNew(where, place)
		case place != "":
			where = addNew(where, thing(d, s)+" "+place)
		}
	}
	name := named(d.Name)
	if d.Plate != "" {
		where = append(where, "on the "+named(d.Plate))
	}
	if len(where) == 0 {
		return name + "."
	}
	return fmt.Sprintf("%s: %s.", name, strings.Join(where, "; "))
}

// digests gives every person with work on a day a list of it the evening before.
func (v *view) digests() []store.Reminder {
	var out []store.Reminder
	for i := range v.p.People {
		who := &v.p.People[i]
		seen := map[string]bool{}
		for _, pl := range v.plan.Tasks {
			day := pl.Start.In(v.zone).Format(time.DateOnly)
			if seen[day] || !slices.Contains(pl.People, who.Key) {
				continue
			}
			seen[day] = true
			text, first := v.digest(who, day)
			if text == "" {
				continue
			}
			y, m, d := pl.Start.In(v.zone).Date()
			at := time.Date(y, m, d-1, 0, digestAt, 0, 0, v.zone).UTC()
			text = "Your " + pl.Start.In(v.zone).Format("Monday") + strings.TrimPrefix(text, "Your day")
			out = append(out, store.Reminder{
				Key: fmt.Sprintf("digest/%s/%s", day, who.Key), Kind: Digest, Person: who.Key, Due: at, At: at,
				Until: planner.Later(first, at), Text: text,
			})
		}
	}
	return out
}

// DigestOf is a person's list for the local day of an instant; empty when there is nothing to do.
func DigestOf(p *planner.Party, plan *planner.Plan, who *planner.Person, at time.Time) string {
	if plan == nil {
		return ""
	}
	v := see(p, plan)
	text, _ := v.digest(who, at.In(v.zone).Format(time.DateOnly))
	return text
}

// digest lists what a person has still to do on a local day, and when the first of it begins.
func (v *view) digest(who *planner.Person, day string) (text string, from time.Time) {
	var lines []string
	var first *planner.Placed
	for i := range v.plan.Tasks {
		pl := &v.plan.Tasks[i]
		t := v.tasks[pl.Task]
		if t == nil || !slices.Contains(pl.People, who.Key) || pl.Start.In(v.zone).Format(time.DateOnly) != day {
			continue
		}
		if s := v.p.Progress(pl.Task); s == planner.Done || s == planner.Skipped {
			continue
		}
		if first == nil {
			first = pl
		}
		lines = append(lines, fmt.Sprintf("%s %s, %s", words.Stamp(pl.Start, words.Clock, v.zone),
			cut(v.inBrief(t), longestLine),
			words.Length(words.Minutes(pl.End.Sub(pl.Start)))))
	}
	if first == nil {
		return "", from
	}
	head := fmt.Sprintf("Your day: %s from %s.", words.Count(len(lines), "task"),
		words.Stamp(first.Start, words.Clock, v.zone))
	if n := len(lines); n > digestLines {
		lines = append(lines[:digestLines:digestLines], fmt.Sprintf("and %d more", n-digestLines))
	}
	return strings.Join(append([]string{head}, lines...), "\n"), first.Start
}

// inBrief is a task with what it belongs to, without how it is done.
func (v *view) inBrief(t *planner.Task) string {
	do := words.Brief(trimStop(t.Do), inList)
	if of := v.belongs(t); of != "" {
		return do + " (" + of + ")"
	}
	return do
}

// morning is when a person wants to hear of a day's work: the end of quiet hours on the day of an instant.
func (v *view) morning(who *planner.Person, on time.Time) time.Time {
	minutes := morningAt
	if q := who.Quiet; q.From != q.Until {
		minutes = int(q.Until) % (24 * 60)
	}
	y, m, d := on.In(v.zone).Date()
	return time.Date(y, m, d, 0, minutes, 0, 0, v.zone).UTC()
}
