package solve_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// live plays a plan up to an instant: what should have ended is done, late by slip, what should have begun is started.
func live(p *planner.Party, plan *planner.Plan, now time.Time, slip time.Duration) {
	p.Work = nil
	for _, t := range plan.Tasks {
		w := planner.Work{Task: t.Task}
		if len(t.People) > 0 {
			w.Person = t.People[0]
		}
		start, end := t.Start.Add(slip), t.End.Add(slip)
		switch {
		case !end.After(now):
			w.Progress, w.Start, w.End = planner.Done, &start, &end
		case !start.After(now):
			w.Progress, w.Start = planner.Started, &start
		default:
			continue
		}
		p.Work = append(p.Work, w)
	}
}

func TestAnEveningAlwaysHasAPlan(t *testing.T) {
	p := partygen.Dinner(8)
	plan := mustMake(t, p, solve.Ask{Now: partygen.ClockOn(23)(18, 0), Work: 3_000_000})
	for _, late := range []time.Duration{0, 15 * time.Minute, 40 * time.Minute} {
		for now := partygen.ClockOn(26)(14, 0); now.Before(partygen.ClockOn(26)(22, 0)); now = now.Add(20 * time.Minute) {
			live(p, plan, now, late)
			again, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now, InForce: plan, Soft: true, Work: 3_000_000})
			if err != nil {
				t.Errorf("late by %v, at %v: %v", late, now, err)
				continue
			}
			if clash != nil {
				t.Errorf("late by %v, at %v: %+v", late, now, clash)
				continue
			}
			if broken := check.Plan(p, again); len(broken) > 0 {
				t.Errorf("late by %v, at %v: %+v", late, now, broken)
			}
		}
	}
}
