package solve_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// TestKeep: what is to be kept stays to the minute and with whom, though another has taken a task on and the rest is
// planned anew.
func TestKeep(t *testing.T) {
	p, before := partygen.Rich()
	keep := map[planner.TaskKey]bool{}
	for _, pl := range before.Tasks {
		if len(pl.People) > 0 && pl.People[0] == "ben" {
			keep[pl.Task] = true
		}
	}
	if len(keep) < 3 {
		t.Fatalf("ben has %d tasks", len(keep))
	}
	p.Work = []planner.Work{{Task: "shop", Person: "cleo"}}
	ask := solve.Ask{Now: p.Opens().Add(time.Hour), InForce: before, Keep: keep, Work: 2_000_000}
	plan, clash, err := solve.Make(t.Context(), p, ask)
	if err != nil || plan == nil {
		t.Fatalf("no plan: %+v, %v", clash, err)
	}
	if broken := check.Plan(p, plan); len(broken) > 0 {
		t.Errorf("it breaks %v", broken)
	}
	for k := range keep {
		was, is := before.Placed(k), plan.Placed(k)
		if !is.Start.Equal(was.Start) || is.People[0] != "ben" {
			t.Errorf("%s was %v %v, is %v %v", k, was.Start, was.People, is.Start, is.People)
		}
	}
}
