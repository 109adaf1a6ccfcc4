package bot

import (
	"fmt"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/recipe"
	"tureen/planner/words"
)

// A dish in one line says on which day its steps are done. A step has no date: it waits so long for what comes after
// it that it falls on its day, which the plan then keeps.

// The hours of a part of a day, and those in which something can be collected: common practice, no source.
var dayHours = map[string]planner.DayHours{
	"morning": {From: 6 * 60, Until: 12 * 60}, "afternoon": {From: 12 * 60, Until: 18 * 60},
	"evening": {From: 17 * 60, Until: 24 * 60}, "collect": {From: 9 * 60, Until: 19 * 60}, "": {From: 0, Until: 24 * 60}}

// clockGives is by how much a step may begin after the hour that is said of it.
const clockGives = 60

// window is when a step starts at the soonest and ends at the latest.
type window struct{ from, until time.Time }

// onTheirDays makes the waits of a dish such that the steps fall on the days that its line says, and gives the party
// the days of prep that they want. The lines say what was made of it.
func (t *Turn) onTheirDays(d *planner.Dish, r *recipe.Reading) (said []string, err error) {
	next := t.serviceOf(d)
	for i := len(r.Steps) - 1; i >= 0; i-- {
		s, length := &d.Steps[i], d.Steps[i].Time.Likely.Duration()
		var at window // of the step's own start and end
		if on := r.Steps[i].On; on.Said {
			if at, err = t.windowOf(&r.Steps[i], length); err != nil {
				return nil, err
			}
			least := max(next.until.Sub(at.until), 0)
			most := next.from.Sub(at.from) - length
			if most < 0 {
				return nil, talk.Refuse("", "%s is to be done %s, which is after what follows it; name an earlier day.",
					s.Do, t.dayClock(at.from))
			}
			w := &planner.Wait{State: planner.Refrigerator}
			if s.Serve != nil {
				w = s.Serve
			} else {
				for k := range d.Steps[i+1].After {
					if d.Steps[i+1].After[k].Step == s.Key {
						w = &d.Steps[i+1].After[k].Wait
					}
				}
			}
			if least > 0 && w.State != planner.Freezer {
				if s.Leaves.Perishable {
					w.State = planner.Refrigerator
				}
				w.BestFrom, w.BestUntil = 0, 0
			}
			w.Least = min(planner.Minutes(least/time.Minute), planner.MaxWait)
			w.WorthUntil = min(max(planner.Minutes(most/time.Minute), w.Least), planner.MaxWait)
			said = append(said, fmt.Sprintf("%s: %s", words.Upper(s.Do), t.day(at.from)))
		} else {
			slack := time.Duration(0)
			if s.Serve != nil {
				slack = s.Serve.WorthUntil.Duration()
			}
			at = window{next.from.Add(-length - slack), next.until}
		}
		next = window{at.from, at.until.Add(-length)}
	}
	return said, nil
}

// serviceOf is when a dish's course is served, from the first serving's soonest to the last one's latest.
func (t *Turn) serviceOf(d *planner.Dish) (w window) {
	for _, s := range t.Party.Course(d.Course).Servings {
		if early := s.At.Add(-s.Early.Duration()); w.from.IsZero() || early.Before(w.from) {
			w.from = early
		}
		if late := s.At.Add(s.Late.Duration()); late.After(w.until) {
			w.until = late
		}
	}
	return w
}

// windowOf is the day that is said of a step, within its hours. The party gets as many days of prep as that wants.
func (t *Turn) windowOf(s *recipe.Step, length time.Duration) (window, error) {
	on, day := s.On, talk.DayOf(t.Party.Day()).Plus(-s.On.Before)
	if on.Name != "" {
		var err error
		if day, err = t.days().ParseDay(on.Name); err != nil {
			return window{}, err
		}
	}
	hours := dayHours[on.Part]
	if on.Part == "" && s.Away {
		hours = dayHours["collect"]
	}
	hour := func(m planner.Minutes) time.Time {
		return time.Date(day.Year, day.Month, day.Day, 0, int(m), 0, 0, t.zone())
	}
	w := window{hour(hours.From), hour(hours.Until)}
	if clock, ok := talk.ParseClock(on.Clock); ok {
		w.from = hour(clock)
		w.until = w.from.Add(length + clockGives*time.Minute)
	}
	if !w.until.After(t.Now) {
		return window{}, talk.Refuse("", "%s has passed; name a day that is still to come.", t.day(w.from))
	}
	before := 0
	for at := talk.DayOf(t.Party.Day()); day.Before(at); at = at.Plus(-1) {
		if before++; before > planner.MaxPrepDays {
			return window{}, talk.Refuse("", "%s is too long before the party: %s is the most.", t.day(w.from),
				words.Count(planner.MaxPrepDays, "day"))
		}
	}
	t.Party.PrepDays = max(t.Party.PrepDays, before)
	return w, nil
}
