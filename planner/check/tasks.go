package check

import (
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// chores checks rule 7.
func (c *checker) chores() {
	for _, j := range c.jobs {
		if j.chore == nil || j.settled {
			continue
		}
		if a := j.chore.From; a != nil {
			at, fixed, ok := c.anchor(a, false)
			if ok && j.start.Before(at) {
				c.broken(RuleAnchors, j.key, "%s starts at %s, before %s.", j.label(), c.at(j.start), c.at(at))
			}
			if fixed {
				at = planner.Later(at, c.plan.Made)
			}
			if ok && a.Within > 0 && !(fixed && c.plan.Soft) && j.end.After(at.Add(a.Within.Duration())) {
				c.broken(RuleAnchors, j.key, "%s ends at %s, more than %s after %s.", j.label(), c.at(j.end),
					words.Length(a.Within), c.at(at))
			}
		}
		if open := c.p.OpenHours(j.chore); open != nil && !c.plan.Soft && !within(open, j.start, j.end) {
			c.broken(RuleAnchors, j.key, "%s is at %s to %s, outside the hours that it is open.", j.label(), c.at(j.start),
				words.Stamp(j.end, words.Clock, c.loc))
		}
		for i := range j.chore.By {
			a := &j.chore.By[i]
			at, fixed, ok := c.anchor(a, true)
			if !ok || fixed && c.plan.Soft {
				continue
			}
			if j.end.After(at) {
				c.broken(RuleAnchors, j.key, "%s ends at %s, after %s.", j.label(), c.at(j.end), c.at(at))
			} else if a.Within > 0 && j.end.Before(at.Add(-a.Within.Duration())) {
				c.broken(RuleAnchors, j.key, "%s ends at %s, more than %s before %s.", j.label(), c.at(j.end),
					words.Length(a.Within),
					c.at(at))
			}
		}
	}
}

// keeping checks rule 12.
func (c *checker) keeping() {
	for _, k := range c.keptOf(c.p) {
		trip, uses := c.byKey[planner.ChoreTask(k.Trip)], c.anchored(k.Use)
		if trip == nil || len(uses) == 0 ||
			slices.ContainsFunc(uses, func(j *workJob) bool { return j.settled }) {
			continue
		}
		use := firstStart(uses)
		if trip.end.Before(use.start.Add(-k.Within.Duration())) {
			c.broken(RuleKeeping, use.key, "%s ends at %s, too long before %s at %s. %s.", trip.label(), c.at(trip.end),
				use.label(),
				c.at(use.start), k.String())
		}
	}
}

// within says whether a stretch lies inside one of the windows.
func within(windows []planner.Window, from, to time.Time) bool {
	return slices.ContainsFunc(windows, func(w planner.Window) bool { return !from.Before(w.From) && !to.After(w.To) })
}

// anchor finds the instant of an anchor. fixed: the clock, the arrival or settled work says it. ok is false
// where it does not count.
func (c *checker) anchor(a *planner.Anchor, by bool) (at time.Time, fixed, ok bool) {
	switch {
	case a.At != nil:
		at, fixed, ok = *a.At, true, true
	case a.Arrival:
		at, fixed, ok = c.p.Arrival, true, true
	case a.Course != "":
		for k, t := range c.served {
			if k.course == a.Course && (!ok || t.Before(at)) {
				at, ok = t, true
			}
		}
	case a.Task != "":
		var on *workJob
		if by {
			on = firstStart(c.anchored(a.Task))
		} else {
			on = lastEnd(c.anchored(a.Task))
		}
		if on == nil {
			return at, false, false
		}
		at, fixed, ok = on.end, on.settled, true
		if by {
			at = on.start
		}
	}
	return at.Add(a.Offset.Duration()), fixed, ok
}

// anchored lists the tasks that an anchor's key stands for: without a round, all rounds.
func (c *checker) anchored(k planner.TaskKey) []*workJob {
	j := c.byKey[k]
	switch {
	case j == nil:
		return nil
	case j.of != nil && !strings.Contains(string(k), "."):
		return j.of.jobs
	case j.gone:
		return nil
	}
	return []*workJob{j}
}

// claims checks rule 8.
func (c *checker) claims() {
	for _, j := range c.jobs {
		if j.work == nil || j.work.Person == "" || j.gone || len(j.people) > 0 && j.people[0] == j.work.Person {
			continue
		}
		if len(j.people) == 0 {
			if j.settled { // else named by rule 3
				c.broken(RuleClaims, j.key, "%s was taken on by %s, and the plan gives it to nobody.", j.label(),
					c.name(j.work.Person))
			}
			continue
		}
		c.broken(RuleClaims, j.key, "%s was taken on by %s, and the plan gives it to %s.", j.label(), c.name(j.work.Person),
			c.name(j.people[0]))
	}
}

// past checks rule 9, and that settled work stays where it is.
func (c *checker) past() {
	for _, j := range c.jobs {
		switch {
		case j.settled:
			c.stays9(j)
		case j.start.Before(c.plan.Made):
			c.broken(RulePast, j.key, "%s is planned for %s, which had passed when the plan was made at %s.", j.label(),
				c.at(j.start), c.at(c.plan.Made))
		case j.work != nil && j.work.NotBefore != nil && j.start.Before(wholeUp(*j.work.NotBefore)):
			c.broken(RulePast, j.key, "%s is planned for %s; it is to begin at %s at the earliest.", j.label(), c.at(j.start),
				c.at(*j.work.NotBefore))
		case !c.plan.Soft && j.work.StartsBefore(planner.Later(c.plan.Made, c.opens)) != nil &&
			!j.start.Before(*j.work.NotAfter):
			c.broken(RulePast, j.key, "%s is planned for %s; it is to begin before %s.", j.label(), c.at(j.start),
				c.at(*j.work.NotAfter))
		case j.start.Before(c.opens):
			c.broken(RulePast, j.key, "%s is planned for %s, before the prep days.", j.label(), c.at(j.start))
		}
	}
}

// stays9 checks that settled work is where people said.
func (c *checker) stays9(j *workJob) {
	w := j.work
	var start, end *time.Time
	if w.Start != nil {
		t := w.Start.Truncate(time.Minute)
		start = &t
	}
	if w.End != nil {
		t := wholeUp(*w.End)
		end = &t
	}
	switch w.Progress {
	case planner.Started:
		if start == nil {
			return
		}
		t := start.Add(time.Duration(c.duration(j)+int(w.Extra)) * time.Minute)
		t = planner.Later(t, wholeUp(c.plan.Made))
		end = &t
	case planner.Skipped:
		if start = end; end == nil {
			return
		}
	}
	if start != nil && !j.start.Equal(*start) {
		c.broken(RulePast, j.key, "%s started at %s, and the plan moves it to %s.", j.label(), c.at(*start), c.at(j.start))
	} else if end != nil && !j.end.Equal(*end) {
		c.broken(RulePast, j.key, "%s ends at %s, and the plan says %s.", j.label(), c.at(*end), c.at(j.end))
	}
}

func wholeUp(t time.Time) time.Time {
	cut := t.Truncate(time.Minute)
	if cut.Before(t) {
		return cut.Add(time.Minute)
	}
	return cut
}

// marks checks rule 10.
func (c *checker) marks() {
	day := c.p.Day()
	for _, j := range c.jobs {
		if j.settled || !j.start.Before(day) || j.minutes() < 15 || j.start.In(c.loc).Minute()%5 == 0 {
			continue
		}
		straight := false
		for _, a := range c.arcs {
			straight = straight || a.to == j.of && !a.passed && a.wait.State == planner.Straight
		}
		if !straight {
			c.broken(RuleMarks, j.key, "%s starts at %s; before the party's day it starts on a five-minute mark.", j.label(),
				c.at(j.start))
		}
	}
}

// lengths checks rule 11.
func (c *checker) lengths() {
	for _, j := range c.jobs {
		if want := c.duration(j); !j.settled && !j.twisted && j.minutes() != want {
			c.broken(RuleLengths, j.key, "%s takes %s, and the plan gives it %s.", j.label(), words.Length(want),
				words.Length(j.minutes()))
		}
	}
}

// duration is the planned length of a task with the people that the plan gives it.
func (c *checker) duration(j *workJob) int {
	if n := min(len(j.people), j.most); n > j.hands {
		return planner.CeilDiv(j.planned*j.hands, n)
	}
	return j.planned
}

// nights checks rule 13.
func (c *checker) nights() {
	from, until := c.p.WorkHours.From, c.p.WorkHours.Until
	if from >= until {
		from, until = 7*60, 21*60+30
	}
	for _, j := range c.jobs {
		if j.settled || !j.start.Before(c.p.Day()) {
			continue
		}
		y, m, d := j.start.In(c.loc).Date()
		first := time.Date(y, m, d, 0, int(from), 0, 0, c.loc)
		last, end := time.Date(y, m, d, 0, int(until), 0, 0, c.loc), j.end
		switch {
		case j.attention == planner.Watch, j.attention == planner.Touch, j.chore != nil && j.chore.Kind == planner.Cool:
			last = last.Add(time.Hour)
		case j.attention == planner.Unattended:
			last, end = last.Add(time.Hour), j.start
		}
		if j.start.Before(first) || end.After(last) {
			c.broken(RuleNights, j.key, "%s is from %s to %s; before the party's day it lies between %s and %s.", j.label(),
				c.at(j.start), c.at(j.end), c.at(first), c.at(last))
		}
	}
}
