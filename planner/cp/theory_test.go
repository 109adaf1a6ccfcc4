package cp

import (
	"cmp"
	"context"
	"math/rand/v2"
	"slices"
	"testing"
)

// Optima that theory gives by a simple rule, for random problems.

// TestJohnson: S. M. Johnson, "Optimal two- and three-stage production schedules with setup times included", Naval
// Research Logistics Quarterly 1 (1954): jobs through two machines in turn are done soonest when those shorter on the
// first machine come first, by that time ascending, and the others after them, by time on the second descending.
func TestJohnson(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 6))
		jobs := make([][2]int, 3+r.IntN(5))
		p := &Problem{}
		end := p.NewVar(0, 200, "end")
		var first, second Disjunctive
		for i := range jobs {
			jobs[i] = [2]int{1 + r.IntN(9), 1 + r.IntN(9)}
			a, b := p.NewVar(0, 200, "first"), p.NewVar(0, 200, "second")
			first.Tasks = append(first.Tasks, DisjTask{Start: a.At(), End: a.Plus(jobs[i][0])})
			second.Tasks = append(second.Tasks, DisjTask{Start: b.At(), End: b.Plus(jobs[i][1])})
			p.AddLag(a.Plus(jobs[i][0]), b.At(), 0)
			p.AddLag(b.Plus(jobs[i][1]), end.At(), 0)
		}
		p.Disjunctives = []Disjunctive{first, second}
		p.Levels = []Level{{Name: "end", Terms: []Term{{1, end}}}}

		slices.SortFunc(jobs, func(x, y [2]int) int {
			early, late := x[0] < x[1], y[0] < y[1]
			switch {
			case early && late:
				return cmp.Compare(x[0], y[0])
			case !early && !late:
				return cmp.Compare(y[1], x[1])
			case early:
				return -1
			}
			return 1
		})
		one, want := 0, 0
		for _, j := range jobs {
			one += j[0]
			want = max(want, one) + j[1]
		}
		if got := Solve(context.Background(), p, Limits{}); got.Status != Optimal || got.Levels[0].Value != want {
			t.Fatalf("seed %d: %v %+v, Johnson's rule gives %d", seed, got.Status, got.Levels, want)
		}
	}
}

// machine puts jobs of the given durations on one machine.
func machine(p *Problem, durations []int) (ends []Point) {
	var d Disjunctive
	for _, n := range durations {
		s := p.NewVar(0, 100, "start")
		d.Tasks = append(d.Tasks, DisjTask{Start: s.At(), End: s.Plus(n)})
		ends = append(ends, s.Plus(n))
	}
	p.Disjunctives = append(p.Disjunctives, d)
	return ends
}

// TestJackson: J. R. Jackson, "Scheduling a production line to minimize maximum tardiness", UCLA (1955): on one machine
// the greatest lateness is least in the order of due dates.
func TestJackson(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 7))
		n := 3 + r.IntN(5)
		durations, due, order := make([]int, n), make([]int, n), make([]int, n)
		for i := range n {
			durations[i], due[i], order[i] = 1+r.IntN(9), r.IntN(30), i
		}
		p := &Problem{}
		late := p.NewVar(-100, 200, "greatest lateness")
		var lateness []Point
		for i, e := range machine(p, durations) {
			lateness = append(lateness, Point{e.X, e.Off - due[i]})
		}
		p.Maxima = []Maximum{{Y: late.At(), Xs: lateness}}
		p.Levels = []Level{{Name: "late", Terms: []Term{{1, late}}}}

		slices.SortFunc(order, func(i, j int) int { return cmp.Compare(due[i], due[j]) })
		at, want := 0, -100
		for _, i := range order {
			at += durations[i]
			want = max(want, at-due[i])
		}
		if got := Solve(context.Background(), p, Limits{}); got.Status != Optimal || got.Levels[0].Value != want {
			t.Fatalf("seed %d: %v %+v, the order of due dates gives %d", seed, got.Status, got.Levels, want)
		}
	}
}

// TestSmith: W. E. Smith, "Various optimizers for single-stage production", Naval Research Logistics Quarterly 3
// (1956): on one machine the weighted sum of ends is least by duration over weight ascending.
func TestSmith(t *testing.T) {
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 8))
		n := 3 + r.IntN(3)
		durations, weight, order := make([]int, n), make([]int, n), make([]int, n)
		for i := range n {
			durations[i], weight[i], order[i] = 1+r.IntN(9), 1+r.IntN(5), i
		}
		p := &Problem{}
		level := Level{Name: "weighted ends"}
		for i, e := range machine(p, durations) {
			level.Terms = append(level.Terms, Term{weight[i], e.X})
			level.Const += weight[i] * e.Off
		}
		p.Levels = []Level{level}

		slices.SortFunc(order, func(i, j int) int { return cmp.Compare(durations[i]*weight[j], durations[j]*weight[i]) })
		at, want := 0, 0
		for _, i := range order {
			at += durations[i]
			want += weight[i] * at
		}
		if got := Solve(context.Background(), p, Limits{}); got.Status != Optimal || got.Levels[0].Value != want {
			t.Fatalf("seed %d: %v %+v, Smith's rule gives %d", seed, got.Status, got.Levels, want)
		}
	}
}
