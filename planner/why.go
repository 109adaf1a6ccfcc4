package planner

import (
	"errors"
	"time"
)

// Reasons says what fixes a task's time in a plan.
type Reasons struct {
	Task     TaskKey
	Earliest time.Time // the earliest start with the rest of the plan unchanged
	Latest   time.Time // the latest one
	Before   []string  // what keeps it from being earlier, in sentences
	After    []string  // what keeps it from being later
}

var errNotYet = errors.New("the reasons for a task's time are not there yet")

// Why says what fixes a task's time and how much room it has, with the rest of the plan unchanged.
func Why(p *Party, plan *Plan, k TaskKey) (Reasons, error) {
	return Reasons{}, errNotYet
}
