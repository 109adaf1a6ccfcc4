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

// keepQuiet moves reminders out of their people's quiet hours: to the end of them, where they are still of
// use then, else to just before them, as a word in advance. They stay where they are
//
//   - for a task that the person has accepted at night, one under way, and one that is hands work planned
//     in those hours, or comes within half an hour of such work: the person is up for it;
//   - on the party's evening, from half an hour before the guests come until half an hour after the last
//     course: the hosts are up;
//   - when they are for everybody.
func (v *view) keepQuiet(list []store.Reminder) []store.Reminder {
	for i := range list {
		r := &list[i]
		who := v.p.Person(r.Person)
		if who == nil || v.upFor(r, who) {
			continue
		}
		q, quiet := quietAt(who, r.Due, v.zone)
		switch {
		case !quiet:
		case q.To.Before(v.usefulUntil(r)):
			r.Due = q.To
			if r.Due.After(r.At) && r.Kind != Outdated && r.Kind != Told && r.Kind != Unsaid && r.Kind != Digest {
				r.Text += fmt.Sprintf("\nIt was planned for %s, in your quiet hours.", words.Stamp(r.At, words.Clock, v.zone))
			}
		default:
			r.Due = q.From.Add(-time.Minute)
			r.Text = notNow(r.Text, words.Stamp(r.At, words.DayClock, v.zone)) +
				"\nThis comes early because of your quiet hours."
		}
	}
	return list
}

// usefulUntil is until when a reminder is still of use. One that says what to start is not when it is too late to.
func (v *view) usefulUntil(r *store.Reminder) time.Time {
	switch r.Kind {
	case Session, Due, TakeOut, Thawing, ShopBy, Preheat:
	default:
		return r.Until
	}
	latest := r.At
	if t, pl := v.tasks[r.Task], v.at[r.Task]; t != nil && pl != nil && r.Kind != Preheat {
		if last, _ := v.lastStart(t, pl); last.After(latest) {
			latest = last
		}
	}
	if latest.Before(r.Until) {
		return latest.Add(time.Minute)
	}
	return r.Until
}

// notNow says in a reminder's first line when it is for, where it says that it is for now.
func notNow(text, when string) string {
	first, rest, more := strings.Cut(text, "\n")
	if after, ok := strings.CutPrefix(first, "Now: "); ok {
		first = "At " + when + ": " + after
	} else if before, ok := strings.CutSuffix(first, " now."); ok {
		first = before + " at " + when + "."
	}
	if more {
		first += "\n" + rest
	}
	return first
}

func (v *view) upFor(r *store.Reminder, who *planner.Person) bool {
	if !r.Due.Before(v.p.Arrival.Add(-leadGuests)) && r.Due.Before(v.p.LastService().Add(30*time.Minute)) {
		return true
	}
	if w := v.p.WorkOn(r.Task); w != nil && (w.AtNight || w.Progress == planner.Started) {
		return true
	}
	if r.Kind == AtLimit && v.workedBefore(who, r.Due) {
		return true
	}
	t, pl := v.tasks[r.Task], v.at[r.Task]
	if t == nil || pl == nil {
		return false
	}
	if t.Attention != planner.Hands {
		return v.handsAround(who, r.Due)
	}
	_, startQuiet := quietAt(who, pl.Start, v.zone)
	return startQuiet
}

// stillUp is how long before and after hands work a person is taken to be up. Common practice, no source.
const stillUp = 30 * time.Minute

// justCooked is for how long after their work people hear of food at its limit, however late it is. Ours.
const justCooked = 2 * time.Hour

// workedBefore says whether a person had anything to see to shortly before an instant.
func (v *view) workedBefore(who *planner.Person, at time.Time) bool {
	return slices.ContainsFunc(v.plan.Tasks, func(pl planner.Placed) bool {
		return slices.Contains(pl.People, who.Key) && !pl.End.After(at) && at.Sub(pl.End) <= justCooked
	})
}

// handsAround says whether a person has hands work shortly before or after an instant.
func (v *view) handsAround(who *planner.Person, at time.Time) bool {
	for i := range v.plan.Tasks {
		pl := &v.plan.Tasks[i]
		if t := v.tasks[pl.Task]; t != nil && t.Attention == planner.Hands && slices.Contains(pl.People, who.Key) &&
			v.p.Progress(pl.Task) == planner.Waiting && !at.Before(pl.Start.Add(-stillUp)) && !at.After(pl.End.Add(stillUp)) {
			return true
		}
	}
	return false
}

// Silent reports whether a task starts in a person's quiet hours and they are told of it at another time for
// that reason.
func Silent(p *planner.Party, plan *planner.Plan, who *planner.Person, k planner.TaskKey) bool {
	v := see(p, plan)
	pl := v.at[k]
	if pl == nil || who == nil {
		return false
	}
	_, quiet := quietAt(who, pl.Start, v.zone)
	return quiet && !v.upFor(&store.Reminder{Task: k, Due: pl.Start}, who)
}

// quietAt finds the stretch of quiet hours that an instant lies in.
func quietAt(who *planner.Person, at time.Time, zone *time.Location) (planner.Window, bool) {
	q := who.Quiet
	if q.From == q.Until {
		return planner.Window{}, false
	}
	from, until := int(q.From), int(q.Until)
	if until <= from {
		until += 24 * 60
	}
	y, m, d := at.In(zone).Date()
	for day := -1; day <= 0; day++ { // yesterday's may reach into today
		w := planner.Window{
			From: time.Date(y, m, d+day, 0, from, 0, 0, zone).UTC(),
			To:   time.Date(y, m, d+day, 0, until, 0, 0, zone).UTC(),
		}
		if !at.Before(w.From) && at.Before(w.To) {
			return w, true
		}
	}
	return planner.Window{}, false
}
