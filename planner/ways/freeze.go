package ways

import (
	"time"

	"tureen/planner"
	"tureen/planner/cooling"
	"tureen/planner/food"
	"tureen/planner/safety"
)

// What is frozen lies in the freezer for a day at least, until it is hard all through, and is laid flat or in portions
// of no more than a kilogram, so that it thaws within a day: common practice, no source.
const (
	hard    = 24 * 60
	portion = 1000 // grams
)

// thawKey is the key of the step that thaws.
const thawKey = "thaw"

// freezes says whether and how food may wait in the freezer, by the recipe's own words, else by the table's.
func (s *spot) freezes(from *planner.Step) {
	w := planner.Wait{State: planner.Freezer, Least: hard}
	if s.class != nil {
		if row, ok := food.WaitOf(s.class, string(planner.Freezer)); ok {
			w.BestUntil, w.WorthUntil = planner.Minutes(row.BestUntil), min(planner.Minutes(row.WorthUntil), planner.MaxWait)
			w.BestUntil, s.ices = min(w.BestUntil, w.WorthUntil), row.Loss
		}
	}
	if from.Freezes > 0 {
		w.BestUntil, w.WorthUntil, s.ices = 0, min(max(from.Freezes, hard), planner.MaxWait), 0
	}
	if w.WorthUntil > 0 {
		s.frozen = &w
	}
}

// thawTime is how long a portion takes to thaw in the refrigerator.
func thawTime(ml int) planner.Minutes {
	minutes, _, err := safety.ThawTime(min(max(ml, 1), portion), safety.InRefrigerator)
	if err != nil {
		return hard
	}
	return planner.Minutes(minutes)
}

// thawing is the step that thaws what a step leaves, in the refrigerator, on the day before it is wanted.
func thawing(p *planner.Party, d *planner.Dish, from *planner.Step, s *spot) planner.Step {
	long := thawTime(cooling.Volume(p, d, from))
	return planner.Step{Key: thawKey, Do: "Move it from the freezer to the refrigerator to thaw",
		Component: from.Component,
		Attention: planner.Unattended, Where: planner.Refrigerator, Finish: true,
		Time: planner.Span{Low: long, Likely: long, High: long}, After: []planner.After{{Step: from.Key, Wait: *s.frozen}}}
}

// froze says whether a dish may be made so long before that it is frozen: the kitchen has room for it, and somebody has
// hands for it by then, and is there to take it out in time.
func (s *spot) froze(p *planner.Party, d *planner.Dish, steps []planner.Step, now time.Time) bool {
	if s.frozen == nil || s.limit > 0 && s.limit < thawTime(portion)+lastHour {
		return false // its days in the refrigerator are over when it has thawed
	}
	if ml, _ := p.Kitchen.GivenSpace(planner.Freezer); ml >= 0 && ml < cooling.Volume(p, d, &steps[s.at]) {
		return false
	}
	thaw := thawTime(portion)
	return s.hours(p, d, steps, now, hard+thaw, s.frozen.WorthUntil+thaw) >= s.long(steps) &&
		cooking(p, service(p, d).Add(-(thaw+hard).Duration()), service(p, d).Add(-thaw.Duration())) > 0
}

// cooking is how long people cook between two instants, in all.
func cooking(p *planner.Party, first, last time.Time) (long time.Duration) {
	for i := range p.People {
		for _, h := range p.CookingHours(&p.People[i]) {
			from, to := planner.Later(h.From, first), h.To
			if to.After(last) {
				to = last
			}
			long += max(0, to.Sub(from))
		}
	}
	return long
}

// full says whether those who cook have less time on the days before, as long as the dish keeps in the refrigerator,
// than the work of all dishes wants.
func (s *spot) full(p *planner.Party, d *planner.Dish, now time.Time) bool {
	work := planner.Minutes(0)
	for i := range p.Dishes {
		for k := range p.Dishes[i].Steps {
			st := &p.Dishes[i].Steps[k]
			if p.Dishes[i].BroughtBy == "" && st.Attention == planner.Hands && !st.Finish {
				work += st.Time.Likely
			}
		}
	}
	first := planner.Later(now, service(p, d).Add(-s.keeps().Duration()))
	return s.keeps() > 0 && cooking(p, first, p.Day()) < work.Duration()
}
