package check_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// Moving tasks of the party's day to marks costs nothing on any level, breaks no rule, moves nothing by five minutes
// or more and nothing of the days before, and leaves few off the marks: of plans that are the first found, all on odd
// minutes.
func TestTheDaysLongerTasksBeginOnMarks(t *testing.T) {
	before, after := 0, 0
	for seed := uint64(1); seed <= uint64(partygen.Parties(t, 12)); seed++ {
		s := partygen.ShapedFrom(seed, partygen.Shape{Dishes: 4 + int(seed%5), People: 1 + int(seed%3), Ovens: 1,
			Days: 3})
		for i := range s.Party.Courses { // 2 minutes past, so that what leads up to it is
			s.Party.Courses[i].Servings[0].At = s.Party.Courses[i].Servings[0].At.Add(2 * time.Minute)
		}
		plan, _, err := solve.Make(t.Context(), s.Party, solve.Ask{Now: s.Now, FirstOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		if plan == nil {
			continue
		}
		was := *plan
		was.Tasks = append([]planner.Placed(nil), plan.Tasks...)
		before += len(check.OffMark(s.Party, plan))
		check.MoveToMarks(t.Context(), s.Party, plan, nil)
		after += len(check.OffMark(s.Party, plan))
		if broken := check.Plan(s.Party, plan); len(broken) > 0 {
			t.Errorf("seed %d: %+v", seed, broken)
		}
		levels := check.Figures(s.Party, plan, nil)
		for i, l := range check.Figures(s.Party, &was, nil) {
			if levels[i].Value > l.Value {
				t.Errorf("seed %d: %s was %d and is %d", seed, l.Name, l.Value, levels[i].Value)
			}
		}
		for _, old := range was.Tasks {
			moved := plan.Placed(old.Task).Start.Sub(old.Start).Abs()
			if moved >= 5*time.Minute || moved > 0 && old.Start.Before(s.Party.Day()) {
				t.Errorf("seed %d: %s moves by %v from %v", seed, old.Task, moved, old.Start)
			}
		}
	}
	t.Logf("of %d longer tasks off the marks %d are left", before, after)
	if before < 20 || after*3 > before {
		t.Errorf("%d of %d are left off the marks", after, before)
	}
}
