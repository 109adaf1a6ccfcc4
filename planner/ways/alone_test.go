package ways_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/propose"
	"tureen/planner/solve"
	"tureen/planner/ways"
)

// TestHostAlone is the story of a host alone with four courses of recipes that say how they are made ahead: at most
// three sessions before the day, at most 45 minutes of cooking by hand on the day after noon, and from half an hour
// before the guests nothing by hand but what serves, which is five minutes a course at most.
func TestHostAlone(t *testing.T) {
	_, p, now := dinner(t, "testdata/alone.txt")
	ways.Renew(p, now)
	propose.Renew(p, now)
	plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now})
	if err != nil || clash != nil {
		t.Fatalf("no plan: %v %+v", err, clash)
	}
	if broken := check.Plan(p, plan); len(broken) > 0 {
		t.Fatal(broken)
	}
	noon, guests := p.Day().Add(12*time.Hour), p.Arrival.Add(-30*time.Minute)
	sessions, cooking, serving := map[string]bool{}, time.Duration(0), map[planner.CourseKey]time.Duration{}
	for _, task := range planner.Tasks(p) {
		pl := plan.Placed(task.Key)
		if pl == nil || task.Attention != planner.Hands {
			continue
		}
		if pl.Start.Before(p.Day()) && !task.Away {
			sessions[pl.Start.Format("Mon")] = true
		}
		d, s := p.StepOf(&task)
		if s == nil {
			continue
		}
		if pl.End.After(noon) {
			cooking += pl.End.Sub(planner.Later(pl.Start, noon))
		}
		if pl.End.After(guests) {
			serving[d.Course] += pl.End.Sub(planner.Later(pl.Start, guests))
		}
	}
	t.Logf("%d sessions before the day, %v of hands after noon, with the guests %v", len(sessions), cooking, serving)
	if len(sessions) > 3 {
		t.Errorf("%d sessions before the day", len(sessions))
	}
	if cooking > 45*time.Minute {
		t.Errorf("%v of cooking by hand after noon", cooking)
	}
	for c, long := range serving {
		if long > 5*time.Minute {
			t.Errorf("%s: %v by hand while the guests are there", c, long)
		}
	}
}
