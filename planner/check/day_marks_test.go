package check_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// Moving tasks to marks costs nothing on any level, breaks no rule, moves nothing of the party's day by five minutes or
// more and nothing of the days before by a quarter of an hour, and leaves few off the marks: of plans that are the
// first found, all on odd minutes. Sessions of the days before begin on quarters more often.
func TestTheDaysLongerTasksBeginOnMarks(t *testing.T) {
	before, after, odd, odder := 0, 0, 0, 0
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
		odd, odder = odd+offQuarter(s.Party, plan), odder+offQuarter(s.Party, &was)
		if broken := check.Plan(s.Party, plan); len(broken) > 0 {
			t.Errorf("seed %d: %+v", seed, broken)
		}
		levels := check.Of(s.Party).Figures(plan, nil)
		for i, l := range check.Of(s.Party).Figures(&was, nil) {
			if levels[i].Value > l.Value {
				t.Errorf("seed %d: %s was %d and is %d", seed, l.Name, l.Value, levels[i].Value)
			}
		}
		for _, old := range was.Tasks {
			moved := plan.Placed(old.Task).Start.Sub(old.Start).Abs()
			if moved >= 15*time.Minute || moved >= 5*time.Minute && !old.Start.Before(s.Party.Day()) {
				t.Errorf("seed %d: %s moves by %v from %v", seed, old.Task, moved, old.Start)
			}
		}
	}
	t.Logf("of %d sessions off the quarters %d are left", odder, odd)
	if odder < 5 || odd*2 > odder {
		t.Errorf("of %d sessions off the quarters %d are left", odder, odd)
	}
	t.Logf("of %d longer tasks off the marks %d are left", before, after)
	if before < 20 || after*3 > before {
		t.Errorf("%d of %d are left off the marks", after, before)
	}
}

// offQuarter counts the days before the party's on which somebody's first task in hand begins off a quarter.
func offQuarter(p *planner.Party, plan *planner.Plan) int {
	hands := map[planner.TaskKey]bool{}
	for _, t := range planner.Tasks(p) {
		hands[t.Key] = t.Attention == planner.Hands && !t.Away
	}
	type day struct {
		who  planner.PersonKey
		date string
	}
	first := map[day]time.Time{}
	for _, t := range plan.Tasks {
		at := t.Start.In(p.Location())
		if !hands[t.Task] || !at.Before(p.Day()) {
			continue
		}
		for _, k := range t.People {
			d := day{k, at.Format(time.DateOnly)}
			if first[d].IsZero() || at.Before(first[d]) {
				first[d] = at
			}
		}
	}
	n := 0
	for _, at := range first {
		if at.Minute()%15 > 0 {
			n++
		}
	}
	return n
}
