package cp

import (
	"context"
	"slices"
	"testing"
)

// bruteForce is the lexicographically least vector of level values over all solutions.
func bruteForce(p *Problem) (best []int, feasible bool) {
	enumerate(p, func(values []int) bool {
		if Check(p, values) != nil {
			return true
		}
		got := make([]int, len(p.Levels))
		for i, l := range p.Levels {
			got[i] = l.Value(values)
		}
		if !feasible || slices.Compare(got, best) < 0 {
			best, feasible = got, true
		}
		return true
	})
	return best, feasible
}

// TestSolveAgainstBruteForce compares status, level values and cores with enumeration.
func TestSolveAgainstBruteForce(t *testing.T) {
	feasible, cores, conflicts := 0, 0, int64(0)
	const runs = 2000
	for seed := range uint64(runs) {
		p := newRandom(seed).problem()
		want, ok := bruteForce(p)
		got := Solve(context.Background(), p, Limits{})
		conflicts += got.Stats.Conflicts
		if !ok {
			if got.Status != Infeasible {
				t.Fatalf("seed %d: %v, but no assignment is a solution", seed, got.Status)
			}
			if len(got.Core) > 0 {
				cores++
			}
			checkCore(t, seed, p, got)
			continue
		}
		feasible++
		if got.Status != Optimal {
			t.Fatalf("seed %d: %v, want optimal %v", seed, got.Status, want)
		}
		if err := Check(p, got.Values); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		for i, l := range got.Levels {
			if l.Value != want[i] || l.Bound != want[i] || !l.Proved {
				t.Fatalf("seed %d: level %d is %+v, want %d", seed, i, l, want[i])
			}
		}
	}
	t.Logf("%d problems: %d feasible, %d with a core of assumptions; %d conflicts", runs, feasible, cores, conflicts)
	if feasible < runs/5 || runs-feasible < runs/5 || cores < runs/50 {
		t.Errorf("the draw is lopsided")
	}
}

// TestPlantedAgainstBruteForce compares tight problems, each with a solution that is known, with enumeration.
func TestPlantedAgainstBruteForce(t *testing.T) {
	conflicts, kinds := int64(0), make([]int, 8)
	const runs = 600
	for seed := range uint64(runs) {
		p := newRandom(seed + 11_000_000).planted()
		for i, n := range []int{len(p.Clauses), len(p.Lags), len(p.Linears), len(p.Cumulatives), len(p.Disjunctives),
			len(p.Calendars), len(p.Guards), len(p.Maxima)} {
			kinds[i] += n
		}
		want, ok := bruteForce(p)
		if !ok {
			t.Fatalf("seed %d: the planted solution is none", seed)
		}
		got := Solve(context.Background(), p, Limits{})
		conflicts += got.Stats.Conflicts
		if got.Status != Optimal {
			t.Fatalf("seed %d: %v, want optimal %v", seed, got.Status, want)
		}
		for i, l := range got.Levels {
			if l.Value != want[i] || !l.Proved {
				t.Fatalf("seed %d: level %d is %+v, want %d", seed, i, l, want[i])
			}
		}
	}
	t.Logf("%d problems, %d conflicts; constraints of each kind %v", runs, conflicts, kinds)
	for _, n := range kinds {
		if n < runs/10 {
			t.Errorf("the draw is lopsided: %v", kinds)
			break
		}
	}
}

// checkCore solves the core alone (no solution) and without each of its members (a solution).
func checkCore(t *testing.T, seed uint64, p *Problem, r Result) {
	t.Helper()
	if !r.CoreMinimal && len(r.Core) > 0 {
		t.Fatalf("seed %d: core %v is not minimal", seed, r.Core)
	}
	with := func(which []int) bool {
		q := *p
		q.Assumptions = nil
		for _, i := range which {
			q.Assumptions = append(q.Assumptions, p.Assumptions[i])
		}
		_, ok := bruteForce(&q)
		return ok
	}
	if with(r.Core) {
		t.Fatalf("seed %d: core %v has a solution", seed, r.Core)
	}
	for i := range r.Core {
		if rest := slices.Delete(slices.Clone(r.Core), i, i+1); !with(rest) {
			t.Fatalf("seed %d: core %v clashes without its member %d as well", seed, r.Core, i)
		}
	}
}
