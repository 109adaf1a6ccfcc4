package cp

import (
	"math/rand/v2"
	"testing"
)

// randomProject is a few tasks with minimum and maximum time lags on two resources.
func randomProject(r *rand.Rand) *Problem {
	p := &Problem{Cumulatives: []Cumulative{{Capacity: 3}, {Capacity: 4}}}
	const n, horizon = 4, 8
	for range n {
		x := p.NewVar(0, horizon, "s")
		d := 1 + r.IntN(4)
		for k := range p.Cumulatives {
			c := &p.Cumulatives[k]
			c.Uses = append(c.Uses, Use{Start: x.At(), End: x.Plus(d), Demand: r.IntN(c.Capacity)})
		}
	}
	for range 6 {
		a, b := Var(r.IntN(n)), Var(r.IntN(n))
		if a != b {
			p.AddLag(a.At(), b.At(), r.IntN(7)-4)
		}
	}
	return p
}

// TestOrders: every time lag of the engine, those found among them, holds in every solution, and what is refuted before
// any search has none.
func TestOrders(t *testing.T) {
	found, refuted := 0, 0
	for seed := range uint64(400) {
		p := randomProject(rand.New(rand.NewPCG(seed, 11)))
		e, _, ok := compile(p, nil)
		solutions := 0
		enumerate(p, func(values []int) bool {
			if Check(p, values) != nil {
				return true
			}
			solutions++
			for w := range e.lags {
				for _, l := range e.lags[w] {
					at := func(w view) int {
						if w&1 == 1 {
							return -values[w.variable()]
						}
						return values[w.variable()]
					}
					if at(l.to) < at(view(w))+int(l.lag) {
						t.Fatalf("seed %d: solution %v breaks the lag of %d from view %d to %d", seed, values, l.lag, w, l.to)
					}
				}
			}
			return true
		})
		if !ok {
			if solutions > 0 {
				t.Fatalf("seed %d: refuted with %d solutions", seed, solutions)
			}
			refuted++
			continue
		}
		lags := 0
		for w := range e.lags {
			lags += len(e.lags[w])
		}
		found += lags/2 - len(p.Lags)
	}
	t.Logf("%d lags found, %d problems refuted", found, refuted)
	if found < 100 || refuted < 40 {
		t.Errorf("only %d lags found and %d problems refuted", found, refuted)
	}
}

// TestParallelPiecesTogether: three uses that lags hold in pairs over a common instant exceed the resource together,
// though no two of them do.
func TestParallelPiecesTogether(t *testing.T) {
	p := &Problem{Cumulatives: []Cumulative{{Capacity: 2}}}
	var xs []Var
	for range 3 {
		x := p.NewVar(0, 1000, "s")
		p.Cumulatives[0].Uses = append(p.Cumulatives[0].Uses, Use{Start: x.At(), End: x.Plus(10), Demand: 1})
		for _, y := range xs {
			p.AddLag(x.At(), y.At(), -5)
			p.AddLag(y.At(), x.At(), -5)
		}
		xs = append(xs, x)
	}
	p.Cumulatives[0].Uses = append(p.Cumulatives[0].Uses,
		Use{Start: p.NewVar(0, 1000, "s").At(), End: Point{X: 3, Off: 1}, Demand: 2}) // a pair that must be apart
	if _, _, ok := compile(p, nil); ok {
		t.Error("not refuted before the search")
	}
}
