package check_test

import (
	"fmt"
	"testing"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// tally counts what has been compared.
type tally struct {
	feasible, infeasible, unproved, big, compared, bounds int
	foods                                                 foods // of the feasible ones
}

func (c *tally) String() string {
	return fmt.Sprintf("%d feasible, %d infeasible (%d unproved); %d levels proved and compared, %d bounds; %d too big "+
		"to list",
		c.feasible, c.infeasible, c.unproved, c.compared, c.bounds, c.big)
}

// compare lists every plan of a tiny party through the checker, and compares with what Make says: that there is a plan
// or none, each level's bound, and the value of each level that it proves.
func (c *tally) compare(t *testing.T, name string, p *planner.Party, ask solve.Ask) {
	t.Helper()
	const tries = 6000 // beyond these a party is too big to list
	plan, clash, err := solve.Make(t.Context(), p, ask)
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	var heating []planner.Held
	if plan != nil {
		heating = plan.Heating
	}
	best, listed, ok := list(p, ask.Now, ask.InForce, heating, tries)
	switch {
	case !ok:
		c.big++
	case plan == nil && best != nil:
		t.Errorf("%s: no plan (%+v), but there is one:\n%s", name, clash, partygen.Show(listed))
		c.feasible++
	case plan == nil:
		c.infeasible++
		if clash.Unproved {
			c.unproved++
		}
	case best == nil:
		t.Errorf("%s: a plan, but none was listed:\n%s%v", name, partygen.Show(plan), check.Plan(p, plan))
		c.infeasible++
	default:
		c.feasible++
		c.foods.look(p)
		for k, level := range plan.Levels[:len(best)] {
			c.bounds++
			if level.Bound > best[k] {
				t.Errorf("%s, %s: bound %d, but a plan has %d:\n%s", name, level.Name, level.Bound, best[k], partygen.Show(listed))
			}
			if level.Value < best[k] {
				t.Errorf("%s, %s: got %d, but the best that was listed is %d:\n%s", name, level.Name, level.Value, best[k],
					partygen.Show(plan))
			}
			if level.Proved {
				if c.compared++; level.Value != best[k] {
					t.Errorf("%s, %s: got %d as proved, want %d:\n%s", name, level.Name, level.Value, best[k], partygen.Show(listed))
				}
			}
			if level.Value != best[k] {
				break // what follows is the best of another beginning
			}
		}
	}
}

func TestTinyPartiesAgreeWithBruteForce(t *testing.T) {
	t.Parallel()
	var c tally
	for seed := uint64(0); c.feasible+c.infeasible < partygen.Parties(t, 220); seed++ {
		p, now := partygen.Tiny(partygen.Seeded(seed))
		c.compare(t, fmt.Sprintf("seed %d", seed), p, solve.Ask{Now: now})
	}
	t.Logf("tiny parties: %s", &c)
	c.foods.want(t)
}

// The same when a plan is in force, some of its work is done, begun or skipped, and the rest is planned again.
func TestTinyPartiesUnderWayAgreeWithBruteForce(t *testing.T) {
	t.Parallel()
	var c tally
	for seed := uint64(500_000); c.feasible+c.infeasible < partygen.Parties(t, 100); seed++ {
		d := partygen.Seeded(seed)
		p, now := partygen.Tiny(d)
		inForce, _, err := solve.Make(t.Context(), p, solve.Ask{Now: now, Seed: seed, FirstOnly: true})
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if inForce == nil {
			continue
		}
		ask := solve.Ask{InForce: inForce}
		if d.Roll(1, 4) == 1 {
			ask.Now = partygen.Muddle(d, p, inForce)
		} else {
			ask.Now = partygen.UnderWay(d, p, inForce)
		}
		c.compare(t, fmt.Sprintf("seed %d under way", seed), p, ask)
	}
	t.Logf("tiny parties under way: %s", &c)
	c.foods.want(t)
}
