package planner

import "context"

// MarkDay moves longer tasks of the party's day to marks, for tests.
func MarkDay(ctx context.Context, p *Party, plan *Plan) bool { return MoveToMarks(ctx, p, plan, nil) }

// OffMark are the longer tasks of the party's day that begin off the marks and go straight on after nothing.
func OffMark(p *Party, plan *Plan) []TaskKey { return offMark(p, plan, true) }
