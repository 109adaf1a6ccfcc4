package cp

import (
	"context"
	"testing"
)

// TestRelaxedAgainstBruteForce compares the least cost of giving up assumptions with that over all subsets, and solves
// again without those given up.
func TestRelaxedAgainstBruteForce(t *testing.T) {
	mended := 0
	for seed := range uint64(800) {
		r := newRandom(seed + 3_000_000)
		p := r.problem()
		p.Levels = nil
		if len(p.Assumptions) == 0 {
			continue
		}
		weights := make([]int, len(p.Assumptions))
		for i := range weights {
			weights[i] = r.IntN(4)
		}
		least := -1
		for set := range 1 << len(weights) {
			without, cost := *p, 0
			without.Assumptions = nil
			allowed := true
			for i, a := range p.Assumptions {
				if set>>i&1 == 0 {
					without.Assumptions = append(without.Assumptions, a)
					continue
				}
				cost += weights[i]
				allowed = allowed && weights[i] > 0
			}
			if _, ok := bruteForce(&without); ok && allowed && (least < 0 || cost < least) {
				least = cost
			}
		}
		q, givenUp := Relaxed(p, weights)
		got := Solve(context.Background(), q, Limits{})
		if least < 0 {
			if got.Status != Infeasible {
				t.Fatalf("seed %d: %v, but nothing that may be given up helps", seed, got.Status)
			}
			continue
		}
		if got.Status != Optimal || got.Levels[0].Value != least {
			t.Fatalf("seed %d: %v %+v, want a cost of %d", seed, got.Status, got.Levels, least)
		}
		rest := *p
		rest.Assumptions = nil
		for i, a := range p.Assumptions {
			if givenUp[i] == None || got.Values[givenUp[i]] == 0 {
				rest.Assumptions = append(rest.Assumptions, a)
			}
		}
		if again := Solve(context.Background(), &rest, Limits{}); again.Status != Optimal {
			t.Fatalf("seed %d: without what was given up: %v", seed, again.Status)
		}
		if least > 0 {
			mended++
		}
	}
	if mended < 40 {
		t.Errorf("only %d problems needed a mend", mended)
	}
}
