package solve_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

func TestModelAdmitsThePlanMadeByHand(t *testing.T) {
	p, plan := partygen.Rich()
	if err := solve.Admits(p, solve.Ask{Now: plan.Made}, plan); err != nil {
		t.Errorf("the model refuses a plan that keeps every rule: %v", err)
	}
}

// mustMake makes a plan of a party that has one.
func mustMake(t *testing.T, p *planner.Party, ask solve.Ask) *planner.Plan {
	t.Helper()
	plan, clash, err := solve.Make(t.Context(), p, ask)
	if err != nil {
		t.Fatalf("make: %v", err)
	}
	if clash != nil {
		t.Fatalf("clash: %+v", clash)
	}
	if broken := check.Plan(p, plan); len(broken) > 0 {
		t.Fatalf("the plan breaks rules: %+v", broken)
	}
	return plan
}

func TestMakePlansTheRichParty(t *testing.T) {
	p, hand := partygen.Rich()
	plan := mustMake(t, p, solve.Ask{Now: hand.Made})
	if got, want := len(plan.Tasks), len(planner.Tasks(p)); got != want {
		t.Errorf("%d tasks in the plan, want %d", got, want)
	}
	if plan.Status != planner.Optimal {
		t.Errorf("status %s, want optimal: %+v", plan.Status, plan.Levels)
	}
	if space := plan.Levels[len(plan.Levels)-1]; space.Name != planner.Spare || space.Value > 5 {
		t.Errorf("%+v, want room in all but 5 tasks at most", space)
	}
}

func TestDinnerMakesSense(t *testing.T) {
	for _, p := range partygen.Dinner(12).Validate() {
		t.Errorf("%s: %s", p.Where, p.Text)
	}
}

func TestWhoBeganMindsThePot(t *testing.T) {
	p := partygen.Dinner(4)
	plan := mustMake(t, p, solve.Ask{Now: partygen.ClockOn(23)(18, 0), Work: 3_000_000})
	kept := 0
	for _, row := range [][2]planner.TaskKey{{"soup/sweat", "soup/simmer"}, {"lamb/season", "lamb/temper"},
		{"tart/fill", "tart/bake"}} {
		before, after := plan.Placed(row[0]).People[0], plan.Placed(row[1]).People[0]
		switch atDinner := plan.Placed(row[1]).End.After(p.Arrival.Add(-30 * time.Minute)); {
		case before == after:
			kept++
		case !atDinner || p.Person(before).Role != planner.Host || p.Person(after).Role != planner.CoHost:
			t.Errorf("%s is %s's and %s is %s's, want one person's, or a co-host's while the guests are there", row[0], before,
				row[1], after)
		}
	}
	if kept < 2 {
		t.Errorf("only %d of the pots stay with who began", kept)
	}
}
