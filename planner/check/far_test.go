package check_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
)

// TestWhyWhereNothingBinds: a task that nothing holds can go three days either way, and says nothing of why; where
// longer ones start on marks it is the last mark within them.
func TestWhyWhereNothingBinds(t *testing.T) {
	arrival := time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		long           int
		minute         int // past the hour
		earlier, later time.Duration
	}{
		{10, 0, 72 * time.Hour, 72 * time.Hour}, {10, 3, 72 * time.Hour, 72 * time.Hour},
		{15, 0, 72 * time.Hour, 72 * time.Hour},
	} {
		p := &planner.Party{Zone: "UTC", Arrival: arrival, PrepDays: 10, Covers: 4,
			WorkHours: planner.DayHours{Until: 24 * 60},
			Courses:   []planner.Course{{Key: "main", Servings: []planner.Serving{{At: arrival.Add(time.Hour)}}}},
			People:    []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{Until: 24 * 60}}},
			Chores: []planner.Chore{{Key: "wait", Kind: planner.Other, Do: "Let the wine settle", Attention: planner.Unattended,
				Time: planner.Span{Low: planner.Minutes(c.long), Likely: planner.Minutes(c.long), High: planner.Minutes(c.long)}}}}
		start := arrival.Add(-5*24*time.Hour + time.Duration(c.minute)*time.Minute)
		plan := &planner.Plan{Made: arrival.Add(-10 * 24 * time.Hour),
			Tasks: []planner.Placed{{Task: planner.ChoreTask("wait"), Start: start,
				People: []planner.PersonKey{"ana"}, End: start.Add(time.Duration(c.long) * time.Minute)}},
			Served: []planner.Served{{Course: "main", At: arrival.Add(time.Hour)}}}
		if broken := check.Plan(p, plan); len(broken) > 0 {
			t.Fatalf("%+v: %+v", c, broken)
		}
		why, err := check.Why(p, plan, planner.ChoreTask("wait"))
		if err != nil || start.Sub(why.Earliest) != c.earlier || why.Latest.Sub(start) != c.later || len(why.Before) > 0 ||
			len(why.After) > 0 {
			t.Errorf("%+v: from %v to %v of %v (%q, %q), %v", c, why.Earliest, why.Latest, start, why.Before, why.After, err)
		}
	}
}
