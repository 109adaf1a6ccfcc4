package solve_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
	"tureen/planner/trace"
)

// Saved seeds: the same parties each time. Every plan that comes back must keep every rule.
func TestCheckPlansOfRandomParties(t *testing.T) {
	t.Parallel()
	var feasible, clash, unknown, tasks int
	seen := map[string]int{}
	begun := time.Now()
	n := partygen.Parties(t, 300)
	for seed := range uint64(n) {
		p, now := partygen.Draw(partygen.Seeded(seed), partygen.AnySize)
		plan, why, err := solve.Make(t.Context(), p, solve.Ask{Now: now, Work: 200_000, Seed: seed})
		switch {
		case err != nil:
			t.Errorf("seed %d: %v", seed, err)
		case plan != nil:
			feasible++
			tasks += len(plan.Tasks)
			lookAtFoods(p, seen)
			for _, b := range check.Plan(p, plan) {
				t.Errorf("seed %d: rule %d, %s: %s", seed, b.Rule, b.Task, b.Text)
			}
		case why.Unproved:
			unknown++
		default:
			clash++
			if len(why.Requirements) == 0 {
				t.Errorf("seed %d: a clash of nothing", seed)
			}
		}
	}
	t.Logf("%d random parties in %v: %d planned (%d tasks, no broken rule), %d clash, %d unknown", n,
		time.Since(begun).Round(time.Second), feasible, tasks, clash, unknown)
	t.Logf("steps of them: %v", seen)
	for _, what := range []string{"anew", "dough", "several sorts in the cold", "part-cooked", "to be finished",
		"unknown"} {
		if seen[what] == 0 {
			t.Errorf("no planned party has a step that is: %s", what)
		}
	}
	if feasible < n/4 || clash == 0 {
		t.Errorf("the parties are all of one sort: %d of %d planned, %d clash", feasible, n, clash)
	}
}

// lookAtFoods counts the steps that the food clocks have to tell apart.
func lookAtFoods(p *planner.Party, seen map[string]int) {
	foods := trace.Of(p)
	for _, d := range p.Dishes {
		for _, s := range d.Steps {
			l := foods.Leaves(d.Key, s.Key)
			cold := slices.ContainsFunc(d.Steps, func(next planner.Step) bool {
				return slices.ContainsFunc(next.After, func(a planner.After) bool {
					return a.Step == s.Key && a.Wait.State == planner.Refrigerator
				})
			})
			for what, is := range map[string]bool{"anew": l.Anew, "dough": l.Dough, "part-cooked": l.PartCooked,
				"several sorts in the cold": cold && len(l.Colds()) > 1, "to be finished": l.ToFinish,
				"unknown": len(l.Unknown) > 0} {
				if is {
					seen[what]++
				}
			}
		}
	}
}

// The same by property, so that a broken plan shrinks to a small party.
func TestCheckPlansOfDrawnParties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p, now := partygen.Draw(partygen.Rapid(t), partygen.Size{Dishes: [2]int{2, 3}, People: [2]int{1, 3}, Tight: 10})
		plan, _, err := solve.Make(t.Context(), p, solve.Ask{Now: now, Work: 100_000, FirstOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		if plan == nil {
			return
		}
		for _, b := range check.Plan(p, plan) {
			t.Errorf("rule %d, %s: %s", b.Rule, b.Task, b.Text)
		}
	})
}
