package planner_test

import (
	"testing"

	"tureen/planner"
	"tureen/planner/partygen"
)

func TestCheckAcceptsThePlanMadeByHand(t *testing.T) {
	p, plan := partygen.Rich()
	for _, b := range planner.Check(p, plan) {
		t.Errorf("rule %d, %s: %s", b.Rule, b.Task, b.Text)
	}
}
