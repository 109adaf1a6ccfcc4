package check

import (
	"slices"
	"time"

	"tureen/planner"
)

// quarter is what people begin a session on, in minutes past the hour.
const quarter = 15

// moveSession moves what a person does on one day before the party's so that it begins on a quarter of an hour: all of
// it together, else what comes first by itself; where the plan keeps every rule and is as good on every level.
func (c *checker) moveSession(plan, inForce *planner.Plan, k planner.PersonKey, date string, atMost []int) bool {
	var first *workJob
	var all []planner.TaskKey
	r := c.finder()
	for _, j := range c.jobs {
		if j.settled || !slices.Contains(j.people, k) || j.start.In(c.loc).Format(time.DateOnly) != date {
			continue
		}
		for _, x := range r.block(j.key) {
			if !slices.Contains(all, x) {
				all = append(all, x)
			}
		}
		if _, sits := j.satFor(k); sits && (first == nil || j.start.Before(first.start)) {
			first = j
		}
	}
	if first == nil || first.start.In(c.loc).Minute()%quarter == 0 {
		return false
	}
	off := planner.Minutes(first.start.In(c.loc).Minute() % quarter)
	for _, block := range [][]planner.TaskKey{all, r.block(first.key)} {
		for _, by := range []planner.Minutes{-off, quarter - off} {
			moved := r.move(block, by)
			if r.checker(moved).keeps(nothing) && noneWorse(c.with(moved).levelsButSpare(inForce), atMost) {
				plan.Tasks = moved.Tasks
				return true
			}
		}
	}
	return false
}

// sessionDays are the local days before the party's, from its eve back to the first that may be planned on.
func (c *checker) sessionDays() (dates []string) {
	for d := c.p.Day().AddDate(0, 0, -1); !d.Before(c.p.Opens()); d = d.AddDate(0, 0, -1) {
		dates = append(dates, d.Format(time.DateOnly))
	}
	return dates
}
