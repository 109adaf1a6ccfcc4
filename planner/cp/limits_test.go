package cp

import (
	"context"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"
)

// workshop draws a job-shop-like problem with optional machines, too large to enumerate and hard enough for thousands
// of conflicts.
func workshop(seed uint64, jobs, steps, machines int) *Problem {
	r := rand.New(rand.NewPCG(seed, 3))
	p := &Problem{}
	horizon := jobs * steps * 6
	end := p.NewVar(0, horizon, "end")
	shops := make([]Disjunctive, machines)
	store := Cumulative{Name: "store", Capacity: 3}
	for range jobs {
		last := Const(0)
		for range steps {
			s := p.NewVar(0, horizon, "start")
			d := 1 + r.IntN(9)
			p.AddLag(last, s.At(), 0)
			last = s.Plus(d)
			pick := p.NewBool("first machine")
			m := r.IntN(machines)
			shops[m].Tasks = append(shops[m].Tasks, DisjTask{s.At(), last, 0, []Lit{pick.True()}})
			m = (m + 1) % machines
			shops[m].Tasks = append(shops[m].Tasks, DisjTask{s.At(), last, 0, []Lit{pick.False()}})
			store.Uses = append(store.Uses, Use{s.At(), last, 1 + r.IntN(2), nil})
			p.Branch = append(p.Branch, Decision{s, Earliest, 0})
		}
		p.AddLag(last, end.At(), 0)
	}
	p.Disjunctives, p.Cumulatives = shops, []Cumulative{store}
	p.Levels = []Level{{Name: "end", Terms: []Term{{1, end}}}}
	return p
}

func TestSameSeedSameAnswer(t *testing.T) {
	p := workshop(1, 8, 5, 4)
	lim := Limits{Work: 6_000_000, Seed: 7}
	a, b := Solve(context.Background(), p, lim), Solve(context.Background(), p, lim)
	if !reflect.DeepEqual(a, b) {
		t.Errorf("got %+v\nand %+v", a, b)
	}
	if a.Status != Feasible || a.Stats.Conflicts == 0 {
		t.Errorf("%v after %d conflicts: too easy to tell anything", a.Status, a.Stats.Conflicts)
	}
}

// TestWorkLimit: a solve stays near the work it is given.
func TestWorkLimit(t *testing.T) {
	for _, work := range []int64{100_000, 1_000_000} {
		r := Solve(context.Background(), workshop(2, 10, 6, 4), Limits{Work: work})
		if r.Stats.Work > work*2 {
			t.Errorf("limit %d, did %d", work, r.Stats.Work)
		}
	}
}

// TestConflictLimit: no more conflicts than allowed.
func TestConflictLimit(t *testing.T) {
	r := Solve(context.Background(), workshop(2, 10, 6, 4), Limits{Conflicts: 50})
	if r.Stats.Conflicts > 50 || r.Status != Feasible {
		t.Errorf("%v after %d conflicts", r.Status, r.Stats.Conflicts)
	}
}

// TestCancelled: the best so far comes back, and a context that is over before the start does no search.
func TestCancelled(t *testing.T) {
	p := workshop(3, 12, 6, 4)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if r := Solve(ctx, p, Limits{}); r.Status != Unknown || r.Values != nil {
		t.Errorf("cancelled at once: %v", r.Status)
	}
	ctx, cancel = context.WithCancel(context.Background())
	defer cancel()
	var at time.Time
	first := Limits{OnSolution: func(values, _ []int) bool {
		if err := Check(p, values); err != nil {
			t.Error(err)
		}
		cancel()
		at = time.Now()
		return true
	}}
	r := Solve(ctx, p, first)
	if r.Status != Feasible || r.Levels[0].Bound > r.Levels[0].Value {
		t.Errorf("cancelled at the first solution: %v %+v", r.Status, r.Levels)
	}
	// The figure is 20 ms at the 99th percentile; a loaded machine gets more room here.
	if late := time.Since(at); late > 500*time.Millisecond {
		t.Errorf("it took %v to notice", late)
	}
}

func TestFirstOnlyAndStopBySolution(t *testing.T) {
	p := workshop(3, 6, 4, 3)
	if r := Solve(context.Background(), p, Limits{FirstOnly: true}); r.Stats.Solutions != 1 || r.Status == Infeasible {
		t.Errorf("first only: %v after %d solutions", r.Status, r.Stats.Solutions)
	}
	var seen []int
	r := Solve(context.Background(), p, Limits{OnSolution: func(_, levels []int) bool {
		seen = append(seen, levels[0])
		return len(seen) < 2
	}})
	if len(seen) > 2 || r.Levels[0].Value != seen[len(seen)-1] {
		t.Errorf("saw %v, got %+v", seen, r.Levels)
	}
	for i := 1; i < len(seen); i++ {
		if seen[i] >= seen[i-1] {
			t.Errorf("solutions got no better: %v", seen)
		}
	}
}

// TestWarmStart: with a solution as Start, the first solution found is that one.
func TestWarmStart(t *testing.T) {
	p := workshop(4, 6, 4, 3)
	best := Solve(context.Background(), p, Limits{Work: 3_000_000})
	p.Start = best.Values
	r := Solve(context.Background(), p, Limits{FirstOnly: true})
	if r.Levels[0].Value > best.Levels[0].Value {
		t.Errorf("started from %d, first found %d", best.Levels[0].Value, r.Levels[0].Value)
	}
}

// TestEndsByItself: without any limit the search ends with a proof.
func TestEndsByItself(t *testing.T) {
	for seed := range uint64(40) {
		r := Solve(context.Background(), workshop(seed, 3, 4, 3), Limits{})
		if r.Status != Optimal {
			t.Errorf("seed %d: %v", seed, r.Status)
		}
	}
}

// TestBoundsAreTold: whoever watches the bounds sees them rise within a level and end where the result has them.
func TestBoundsAreTold(t *testing.T) {
	p := workshop(4, 6, 4, 3)
	told := 0
	var last int
	r := Solve(context.Background(), p, Limits{Work: 3_000_000, OnBound: func(best, bound []int) {
		told++
		if bound[0] < last || bound[0] > best[0] {
			t.Errorf("told the bound %d of %d after %d", bound[0], best[0], last)
		}
		last = bound[0]
	}})
	if told == 0 || last != r.Levels[0].Bound {
		t.Errorf("told %d times, at last %d; the result has %+v", told, last, r.Levels[0])
	}
}
