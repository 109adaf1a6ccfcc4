package solve_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
)

// While the guests are there, what has to be minded is a co-host's; before that it stays with who had the food in hand.
func TestAHostMindsNothingAtDinner(t *testing.T) {
	p := partygen.Dinner(8)
	plan := planned(t, p)
	from, to := p.Arrival.Add(-30*time.Minute), p.Courses[2].Servings[0].At
	minded := 0
	for _, task := range planner.Tasks(p) {
		pl := plan.Placed(task.Key)
		if task.Attention != planner.Watch && task.Attention != planner.Touch || !pl.Start.Before(to) || !pl.End.After(from) {
			continue
		}
		minded++
		if who := p.Person(pl.People[0]); who.Role != planner.CoHost {
			t.Errorf("%s, %v to %v, is the host's to mind", task.Key, pl.Start, pl.End)
		}
	}
	if minded < 2 {
		t.Errorf("only %d tasks to mind: too few to say anything", minded)
	}
	p.Work = append(p.Work, planner.Work{Task: "gratin/bake", Person: "ines"})
	if again := planned(t, p); again.Placed("gratin/bake").People[0] != "ines" {
		t.Error("what the host has claimed is taken from her")
	}
	p = partygen.Dinner(4)
	p.People, p.PrepDays = p.People[:1], 3
	for _, task := range planned(t, p).Tasks {
		if len(task.People) == 0 || task.People[0] != "ines" {
			t.Errorf("%s has nobody in charge, and Inês is alone", task.Task)
		}
	}
}
