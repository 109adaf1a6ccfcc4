package planner_test

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"testing"

	"tureen/planner"
	"tureen/planner/partygen"
)

// times is how many parties a test makes: the usual number, or TUREEN_PARTIES.
func times(t *testing.T, usual int) int {
	t.Helper()
	text := os.Getenv("TUREEN_PARTIES")
	if text == "" {
		return usual
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatalf("TUREEN_PARTIES is a number of parties, not %q", text)
	}
	return n
}

// Every plan of a tiny party is listed through the checker, and compared with what Make says: that there is
// a plan or none, and the value of each level that it proves.
func TestTinyPartiesAgreeWithBruteForce(t *testing.T) {
	const tries = 6000 // beyond these a party is too big to list
	var feasible, infeasible, unproved, big, compared, bounds int
	for seed := uint64(0); feasible+infeasible < times(t, 220); seed++ {
		p, now := partygen.Tiny(partygen.Seeded(seed))
		best, listed, ok := list(p, now, nil, tries)
		if !ok {
			big++
			continue
		}
		plan, clash, err := planner.Make(t.Context(), p, planner.Ask{Now: now})
		switch {
		case err != nil:
			t.Errorf("seed %d: %v", seed, err)
			infeasible++
		case plan == nil && best != nil:
			t.Errorf("seed %d: no plan (%+v), but there is one:\n%s", seed, clash, show(listed))
			feasible++
		case plan == nil:
			infeasible++
			if clash.Unproved {
				unproved++
			}
		case best == nil:
			t.Errorf("seed %d: a plan, but none was listed:\n%s%v", seed, show(plan), planner.Check(p, plan))
			infeasible++
		default:
			feasible++
			for k, level := range plan.Levels[:len(best)] {
				if level.Bound > best[k] {
					t.Errorf("seed %d, %s: bound %d, but a plan has %d:\n%s", seed, level.Name, level.Bound, best[k], show(listed))
				}
				bounds++
				if level.Value < best[k] {
					t.Errorf("seed %d, %s: got %d, but the best that was listed is %d:\n%s", seed, level.Name, level.Value, best[k], show(plan))
				}
				if level.Proved {
					if compared++; level.Value != best[k] {
						t.Errorf("seed %d, %s: got %d as proved, want %d:\n%s", seed, level.Name, level.Value, best[k], show(listed))
					}
				}
				if level.Value != best[k] {
					break // what follows is the best of another beginning
				}
			}
		}
	}
	t.Logf("%d tiny parties: %d feasible, %d infeasible (%d unproved); %d levels proved and compared, %d bounds; %d too big to list",
		feasible+infeasible, feasible, infeasible, unproved, compared, bounds, big)
}

// show writes a plan for a failing test.
func show(plan *planner.Plan) string {
	if plan == nil {
		return "no plan"
	}
	text := fmt.Sprintf("made %s", plan.Made.UTC().Format("Mon 15:04"))
	for _, s := range plan.Served {
		text += fmt.Sprintf("; %s %s %s", s.Course, s.Group, s.At.UTC().Format("15:04"))
	}
	text += "\n"
	tasks := slices.Clone(plan.Tasks)
	slices.SortStableFunc(tasks, func(a, b planner.Placed) int { return a.Start.Compare(b.Start) })
	for _, t := range tasks {
		text += fmt.Sprintf("  %s %s-%s %v", t.Task, t.Start.UTC().Format("Mon 15:04"), t.End.UTC().Format("15:04"), t.People)
		for _, h := range t.Uses {
			text += fmt.Sprintf(" %s %s×%d %d°C %s-%s", h.What, h.Name, h.Amount, h.C, h.From.UTC().Format("15:04"), h.To.UTC().Format("15:04"))
		}
		text += "\n"
	}
	return text
}
