package planner

import (
	"context"
	"errors"
	"time"
)

// Ask says what plan is wanted.
type Ask struct {
	Now       time.Time // nothing that has not begun is planned before it
	InForce   *Plan     // the plan that people have been told; nil when there is none
	Work      int64     // how much work to spend, in the engine's steps; 0: about a second's worth
	Seed      uint64    // varies the search; equal seeds give equal plans
	Soft      bool      // the evening itself: service may be late, as little as can be
	FirstOnly bool      // the first plan found will do
}

// errNotYet is returned while the model is being written.
var errNotYet = errors.New("planning is not there yet")

// Make places every task of a party on the clock. Without an error it returns either a plan, which keeps
// every rule of the package's documentation, or a clash that says why there is none (or that none was found in the time
// given). The plan's Revision is the caller's to set. An error means that the party is not one that can be
// planned, in a sentence for the host.
//
// The answer depends on p and ask alone unless ctx ends first.
func Make(ctx context.Context, p *Party, ask Ask) (*Plan, *Clash, error) {
	return nil, nil, errNotYet
}
