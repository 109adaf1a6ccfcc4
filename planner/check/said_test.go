package check_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/safety"
)

// TestNamedOnce: food that is too old already is not named again for each wait that follows.
func TestNamedOnce(t *testing.T) {
	p, plan := partygen.Rich()
	s := &spoiler{t, p, plan}
	s.step("tart", "dough").Leaves = planner.Food{Perishable: true, Kind: safety.WhippedCream} // keeps a day
	s.step("tart", "bake").Cooks = false
	s.step("tart", "bake").Leaves = s.step("tart", "dough").Leaves
	s.step("tart", "chill").Leaves.Kind = safety.WhippedCream
	s.move("tart/dough", -180) // its dough waits for 24 hours and ten minutes
	if got := check.Plan(p, plan); len(got) != 1 || got[0].Rule != check.RuleClocks || got[0].Task != "tart/dough" {
		t.Errorf("got %+v, want the wait of the dough alone", got)
	}
}

// TestMovedPlansAreInOrder: a plan whose tasks were moved to marks lists them by their start.
func TestMovedPlansAreInOrder(t *testing.T) {
	p, plan := partygen.Rich()
	s := &spoiler{t, p, plan}
	s.move("tart/custard", 1)
	slices.Reverse(plan.Tasks)
	if !check.MoveToMarks(t.Context(), p, plan, nil) {
		t.Fatal("nothing was moved")
	}
	if !slices.IsSortedFunc(plan.Tasks, func(a, b planner.Placed) int { return a.Start.Compare(b.Start) }) {
		t.Errorf("out of order: %s", partygen.Show(plan))
	}
	if at := plan.Placed("tart/custard").Start.Minute(); at%5 != 0 {
		t.Errorf("the custard begins at minute %d", at)
	}
}

// TestChancesSayWhyNot: where the task that threatens a course cannot begin earlier, the first rule that this breaks is
// said; where it can, nothing is.
func TestChancesSayWhyNot(t *testing.T) {
	p, plan := line(2, 1)
	if got := check.ChancesOf(p, plan, 2000, 1).Courses[0]; got.Because != "" || got.Earlier == "" || got.Buffer != 15 {
		t.Errorf("it can begin a quarter of an hour earlier: %+v", got)
	}
	p.People[0].Days = []planner.OtherDay{{Date: "2026-09-26",
		Cooks: []planner.DayHours{{From: 18*60 + 40, Until: 23 * 60}}}} // from when it begins
	got := check.ChancesOf(p, plan, 2000, 1).Courses[0]
	if got.Earlier != "" || got.Buffer != 0 || got.With != 0 || !strings.Contains(got.Because, "outside the hours") {
		t.Errorf("nobody is there earlier: %+v", got)
	}
	p.People[0].Days[0].Cooks[0].From -= 10
	if got := check.ChancesOf(p, plan, 2000, 1).Courses[0]; got.Buffer != 10 || got.Because != "" {
		t.Errorf("ten minutes earlier somebody is there: %+v", got)
	}
	if got.Late <= 0 || got.Late > 8 { // at most ten minutes over, two of them within its window
		t.Errorf("in the worst of twenty runs %d minutes late", got.Late)
	}
}

// TestTheOnlyOven: of what has begun a plan need not say which oven it is in where there is one, or the party says so.
func TestTheOnlyOven(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(s *spoiler)
		want int
	}{
		{"one of two", func(*spoiler) {}, 1},
		{"named", func(s *spoiler) { s.step("braise", "braise").Uses[0].Name = "oven" }, 0},
		{"the only one", func(s *spoiler) {
			s.p.Kitchen.Ovens = s.p.Kitchen.Ovens[:1]
			s.step("bread", "bake").Uses = nil
			s.task("bread/bake").Uses = nil
		}, 0},
	} {
		p, plan := partygen.Rich()
		s := &spoiler{t, p, plan}
		for i := range plan.Tasks { // all that was to be done by then is done
			if k := plan.Tasks[i].Task; plan.Tasks[i].End.Before(saturday(17, 21)) && k != "tart/chill" {
				s.settle(k, planner.Done)
			}
		}
		s.settle("tart/chill", planner.Done)
		for _, k := range []planner.TaskKey{"braise/braise", "bread/proof", "wine"} {
			if !s.task(k).Start.After(saturday(18, 0)) {
				s.settle(k, planner.Started)
			}
		}
		c.do(s)
		plan.Made = saturday(18, 0)
		s.task("braise/braise").Uses = nil
		n := 0
		for _, b := range check.Plan(p, plan) {
			if b.Rule == check.RuleEquipment && b.Task == "braise/braise" {
				n++
			}
		}
		if n != c.want {
			t.Errorf("%s: %+v, want %d about the oven", c.name, check.Plan(p, plan), c.want)
		}
	}
}

// TestWhyStopsInTime: nothing is looked for further than three days away.
func TestWhyStopsInTime(t *testing.T) {
	p, plan := partygen.Rich()
	for i := range plan.Tasks {
		why, err := check.Why(p, plan, plan.Tasks[i].Task)
		if err != nil {
			t.Fatal(err)
		}
		start := plan.Tasks[i].Start
		if why.Earliest.After(start) || why.Latest.Before(start) || start.Sub(why.Earliest) > 72*time.Hour ||
			why.Latest.Sub(start) > 72*time.Hour {
			t.Errorf("%s at %v: from %v to %v", plan.Tasks[i].Task, start, why.Earliest, why.Latest)
		}
	}
}

// TestMovesEndWithTheirTime: who has no time left gets the plan as it was.
func TestMovesEndWithTheirTime(t *testing.T) {
	p, plan := partygen.Rich()
	s := &spoiler{t, p, plan}
	s.move("tart/custard", 1)
	was := slices.Clone(plan.Tasks)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if check.MoveToMarks(ctx, p, plan, nil) {
		t.Error("it says that it has moved something")
	}
	for i := range was {
		if !was[i].Start.Equal(plan.Tasks[i].Start) {
			t.Errorf("%s is moved", was[i].Task)
		}
	}
}
