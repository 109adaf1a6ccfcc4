package solve

import (
	"context"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cp"
	"tureen/planner/dial"
)

// Ask says what plan is wanted.
type Ask struct {
	Now     time.Time     // nothing that has not begun is planned before it
	InForce *planner.Plan // the plan that people have been told; nil when there is none
	// tasks that stay where the plan in force has them, with whom: what somebody has been told or has taken on
	Keep      map[planner.TaskKey]bool
	Work      int64             // how much work to spend, in the engine's steps; 0: about a second's worth
	Seed      uint64            // varies the search; equal seeds give equal plans
	Soft      bool              // the evening itself: service may be late, as little as can be
	FirstOnly bool              // the first plan found will do
	Bare      bool              // where there is no plan, the clash need not say why
	without   []planner.LeftOut // dishes that an evening plan does not go on with
}

// The work that a call spends at most, in the engine's steps of some tens of nanoseconds.
const (
	usualWork   = 20_000_000 // and half as much again to look for time to spare in a plan that is good otherwise
	explainWork = 10_000_000 // to find what clashes
	mendWork    = 2_000_000  // to try one mend
	mostMends   = 4          // that a clash proposes
	mostSets    = 2          // of them that are several changes together
	mostTries   = 16         // later meals and dishes less that are tried for it
)

// Make places every task of a party on the clock. Without an error it returns either a plan, which keeps
// every rule of package planner's documentation, or a clash that says why there is none (or that none was found in the
// time given). The plan's Revision is the caller's to set. An error means that the party is not one that can be
// planned, in a sentence for the host.
//
// The answer depends on p and ask alone unless ctx ends first.
func Make(ctx context.Context, p *planner.Party, ask Ask) (*planner.Plan, *Clash, error) {
	plan, m, err := attempt(ctx, p, ask)
	if plan != nil {
		return plan, nil, nil
	}
	past := AsClash(err) // what it breaks lies behind: in an evening plan a dish is left out for it
	if err != nil && (past == nil || !ask.Soft) {
		return nil, nil, err
	}
	if ask.Soft && m.verdict == cp.Infeasible {
		var fewer error
		if plan, fewer = m.withoutSome(ctx); plan != nil || fewer != nil && AsClash(fewer) == nil {
			return plan, nil, fewer
		}
	}
	if err != nil {
		return nil, nil, err
	}
	if ask.Bare {
		return nil, &Clash{}, nil
	}
	return nil, m.clash(ctx), nil
}

// work is how much work a search may spend.
func (ask *Ask) work() int64 {
	if ask.Work <= 0 {
		return usualWork
	}
	return ask.Work
}

// attempt makes a plan, or returns the model that has none: its verdict says whether that is proved.
func attempt(ctx context.Context, p *planner.Party, ask Ask) (*planner.Plan, *model, error) {
	g, err := newGraph(p, ask)
	if err == nil {
		err = g.checkEquipment()
	}
	if err != nil {
		return nil, nil, err
	}
	m := newModel(g, false, nil)
	if len(m.never) > 0 {
		m.verdict = cp.Infeasible
		return nil, m, nil
	}
	if ask.InForce != nil {
		m.cp.Start = m.values(ask.InForce)
	}
	work := ask.work()
	r := cp.Solve(ctx, &m.cp, cp.Limits{Work: work, Seed: ask.Seed, FirstOnly: ask.FirstOnly})
	m.verdict = r.Status
	if r.Status != cp.Optimal && r.Status != cp.Feasible {
		return nil, m, nil
	}
	plan := m.plan(r.Values)
	m.setLevels(plan, r)
	if !ask.FirstOnly && ctx.Err() == nil {
		plan = m.moreSpare(ctx, plan, r, work)
	}
	if ctx.Err() == nil {
		m.passOn(plan)
		if !ask.FirstOnly && !ask.Soft && len(ask.Keep) == 0 && check.MoveToMarks(ctx, p, plan, ask.InForce) {
			m.setLevels(plan, r)
		}
		dial.Turn(m.judge, p, plan)
	}
	if err := m.sound(plan); err != nil {
		m.verdict, m.past = cp.Infeasible, AsClash(err).Requirements
		return nil, m, err
	}
	return plan, m, nil
}

// setLevels gives the plan its figures, with the bounds and proofs that the engine has found for them. Nothing is
// proved of time to spare, but that none can be better than having it everywhere.
func (m *model) setLevels(plan *planner.Plan, r cp.Result) {
	plan.Levels = m.judge.Figures(plan, m.ask.InForce)
	plan.Status = planner.Optimal
	better := false // than what the engine reached on a level before: its later bounds are then about other plans
	for i := range plan.Levels {
		l := &plan.Levels[i]
		l.Bound = 0
		for k, engine := range m.cp.Levels {
			if planner.LevelName(engine.Name) == l.Name && !better {
				l.Bound = min(r.Levels[k].Bound, l.Value)
				better = l.Value < r.Levels[k].Value
			}
		}
		l.Proved = l.Value == l.Bound
		if !l.Proved && l.Name != planner.Spare {
			plan.Status = planner.Feasible
		}
	}
}

// moreSpare looks, among the plans that are as good on every other level, for one with more time to spare.
func (m *model) moreSpare(ctx context.Context, plan *planner.Plan, r cp.Result, work int64) *planner.Plan {
	reached := caps{}
	for i, l := range m.cp.Levels {
		reached[l.Name] = r.Levels[i].Value
	}
	spare := newModel(m.graph, false, reached)
	spare.cp.Start = spare.values(plan)
	found := cp.Solve(ctx, &spare.cp, cp.Limits{Work: work / 2, Seed: m.ask.Seed})
	// Who cancels wants the answer now.
	if found.Status != cp.Optimal && found.Status != cp.Feasible || ctx.Err() != nil {
		return plan
	}
	better := spare.plan(found.Values)
	m.setLevels(better, r)
	if last := len(plan.Levels) - 1; better.Levels[last].Value > plan.Levels[last].Value || m.sound(better) != nil {
		return plan
	}
	return better
}
