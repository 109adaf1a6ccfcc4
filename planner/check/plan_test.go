package check_test

import (
	"testing"

	"tureen/planner/check"
	"tureen/planner/partygen"
)

func TestCheckAcceptsThePlanMadeByHand(t *testing.T) {
	p, plan := partygen.Rich()
	for _, b := range check.Plan(p, plan) {
		t.Errorf("rule %d, %s: %s", b.Rule, b.Task, b.Text)
	}
}
