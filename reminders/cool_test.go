package reminders

import (
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// TestIntoTheCold: whoever puts hot food away hears by when, and that it cannot wait; of little food the question
// whether it is done says it.
func TestIntoTheCold(t *testing.T) {
	p, plan := tart()
	bake := &p.Dishes[0].Steps[2] // ends at 18:15
	bake.Leaves = planner.Food{Perishable: true, Kind: safety.Cooked, Millilitres: 1200}
	p.Dishes[0].Name, bake.Do, bake.Serve.State = "Leek stew", "Bake the leeks", planner.Refrigerator
	said := func(kind string, task planner.TaskKey) string {
		for _, r := range each(p, plan) {
			if string(r.Kind) == kind && r.Task == task {
				return words.PlainStamps(r.Text)
			}
		}
		return ""
	}
	p.Work = []planner.Work{{Task: "pear-tart/bake", Progress: planner.Started}}
	if got := said(string(Check), "pear-tart/bake"); !strings.Contains(got,
		"into the refrigerator, uncovered until it is cold, by 18:45.") {
		t.Errorf("little: %q", got)
	}
	p.Work = nil
	bake.Leaves.Millilitres = 4000
	p.Chores = append(p.Chores, planner.Chore{Key: "cool", Kind: planner.Cool, Do: "Put it into shallow trays",
		Attention: planner.Hands, Time: span(10), From: &planner.Anchor{Task: "pear-tart/bake", Within: 30}})
	plan.Tasks = append(plan.Tasks, planner.Placed{Task: "cool", Start: at(18, 20), End: at(18, 30),
		People: []planner.PersonKey{"ben"}})
	got := said(string(Due), "cool")
	for _, want := range []string{"In the refrigerator by 18:45.",
		"It can wait until 18:35; after that the food stands warm"} {
		if !strings.Contains(got, want) {
			t.Errorf("a chore: %q lacks %q", got, want)
		}
	}
	if got := said(string(Check), "pear-tart/bake"); strings.Contains(got, "refrigerator") {
		t.Errorf("the chore says it: %q", got)
	}
}
