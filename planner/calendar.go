package planner

import (
	"slices"
	"time"
)

// The party's calendar stands here once and is used by packages check and solve alike: who is there when, what a local
// day is on the two nights a year that are longer or shorter, where windows join. The rules say "cooking hours" and
// mean what is worked out here. A second version would have to agree with the first on every zone, and find no mistake
// of a plan.

// DayHours is a stretch of a day in minutes after local midnight; Until may pass 24 h. Equal ends: none.
type DayHours struct {
	From  Minutes `json:"from"`
	Until Minutes `json:"until"`
}

// OtherDay replaces a person's daily hours on one local date ("2006-01-02"). Empty lists: not there.
type OtherDay struct {
	Date  string     `json:"date"`
	Cooks []DayHours `json:"cooks,omitempty"`
	Home  []DayHours `json:"home,omitempty"`
}

// Window is a stretch of time between two instants, the second not included.
type Window struct {
	From, To time.Time
}

// CookingHours are the windows in which the person has hands to give, in order, over the whole plan:
// from [Party.Opens] to the end of the party's night. On the party's day daily hours reach at least half
// an hour past the last service.
func (p *Party) CookingHours(who *Person) []Window {
	return p.windows(who, who.Cooks, who.Before, func(d OtherDay) []DayHours { return d.Cooks })
}

// HomeHours are the windows in which the person is where the food is, and awake: who comes to cook has none but the
// cooking hours, which count as such too.
func (p *Party) HomeHours(who *Person) []Window {
	home := p.windows(who, who.Home, nil, func(d OtherDay) []DayHours { return d.Home })
	return mergeWindows(append(home, p.CookingHours(who)...))
}

// DayWork are the hours of a day before the party's in which work by hand lies: as the hosts have said, else from 7:00
// to 21:30. What is no work by hand has [EveningTouch] more.
func (p *Party) DayWork() DayHours {
	if p.WorkHours.From < p.WorkHours.Until {
		return p.WorkHours
	}
	return DayHours{From: 7 * 60, Until: 21*60 + 30}
}

// EveningTouch is how long after the end of work by hand an oven may still be turned off, or food put into the cold.
const EveningTouch Minutes = 60

// NightEnd is 6 o'clock in the morning after the party's day: nothing is planned after it.
func (p *Party) NightEnd() time.Time {
	y, m, d := p.Day().Date()
	return time.Date(y, m, d+1, 6, 0, 0, 0, p.Location())
}

// StaysOn extends hours for an evening plan: a window that reaches the last target of a course (the arrival, without
// courses) goes on to the end of the night, since nobody leaves a table that is late.
func (p *Party) StaysOn(hours []Window) []Window {
	last := p.Arrival
	for _, c := range p.Courses {
		for _, s := range c.Servings {
			if s.At.After(last) {
				last = s.At
			}
		}
	}
	out := slices.Clone(hours)
	for i, w := range out {
		if !w.From.After(last) && !w.To.Before(last) && w.To.Before(p.NightEnd()) {
			out[i].To = p.NightEnd().UTC()
		}
	}
	return mergeWindows(out)
}

// OpenHours are the windows that a chore with Open lies within, over the whole plan; nil for one without.
func (p *Party) OpenHours(c *Chore) []Window {
	if c.Open.Until <= c.Open.From {
		return nil
	}
	var out []Window
	for d, day := p.Opens(), p.Day(); !d.After(day); d = d.AddDate(0, 0, 1) {
		out = append(out, c.Open.on(d, p.Location()))
	}
	return mergeWindows(out)
}

// on is the stretch on a local day.
func (h DayHours) on(day time.Time, loc *time.Location) Window {
	y, m, d := day.Date()
	return Window{
		From: time.Date(y, m, d, 0, int(h.From), 0, 0, loc).UTC(),
		To:   time.Date(y, m, d, 0, int(h.Until), 0, 0, loc).UTC(),
	}
}

func (p *Party) windows(who *Person, daily DayHours, before *DaysBefore, pick func(OtherDay) []DayHours) []Window {
	if who.Role == Onlooker {
		return nil
	}
	loc, day := p.Location(), p.Day()
	partyDate := day.Format(time.DateOnly)
	serviceEnd := p.LastService().Add(30 * time.Minute)
	var out []Window
	for d := p.Opens(); !d.After(day); d = d.AddDate(0, 0, 1) {
		date := d.Format(time.DateOnly)
		hours, usual := []DayHours{daily}, true
		if before != nil && date != partyDate {
			hours = []DayHours{before.Of(d)}
		}
		for _, o := range who.Days {
			if o.Date == date {
				hours, usual = pick(o), false
			}
		}
		for _, h := range hours {
			if h.Until <= h.From {
				continue
			}
			w := h.on(d, loc)
			if usual && date == partyDate && w.To.Before(serviceEnd) {
				w.To = serviceEnd.UTC()
			}
			out = append(out, w)
		}
	}
	return mergeWindows(out)
}

// mergeWindows sorts windows and joins those that touch or overlap.
func mergeWindows(ws []Window) []Window {
	slices.SortFunc(ws, func(a, b Window) int { return a.From.Compare(b.From) })
	var out []Window
	for _, w := range ws {
		if n := len(out); n > 0 && !w.From.After(out[n-1].To) {
			if w.To.After(out[n-1].To) {
				out[n-1].To = w.To
			}
			continue
		}
		out = append(out, w)
	}
	return out
}

// Later is the later of two instants.
func Later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}
