package repertoire

import (
	"context"
	"testing"

	"tureen/planner"
)

// TestEveryCardPlansAlone: each dish, alone on the menu of a home kitchen with everything tureen proposes
// for it, has a plan, and the independent checker finds no broken rule in it.
func TestEveryCardPlansAlone(t *testing.T) {
	for _, c := range List() {
		for _, covers := range []int{4, 10} {
			p := homeParty(covers, c)
			planner.Renew(p)
			plan, clash, err := planner.Make(context.Background(), p, planner.Ask{Now: p.Opens(), FirstOnly: true})
			switch {
			case err != nil:
				t.Errorf("%s for %d: %v", c.Name, covers, err)
			case clash != nil:
				t.Errorf("%s for %d has no plan (unproved: %v):", c.Name, covers, clash.Unproved)
				for _, r := range clash.Requirements {
					t.Errorf("    %s", r.Text)
				}
			default:
				for _, b := range planner.Check(p, plan) {
					t.Errorf("%s for %d breaks rule %d: %s %s", c.Name, covers, b.Rule, b.Task, b.Text)
				}
			}
		}
	}
}
