package cp

import (
	"context"
	"math/rand/v2"
	"reflect"
	"testing"
)

// TestOrderDoesNotMatter: shuffling the constraints, another seed, other hints or a useless start change the search,
// but neither the status nor what the levels come to.
func TestOrderDoesNotMatter(t *testing.T) {
	for seed := range uint64(300) {
		p := newRandom(seed + 6_000_000).problem()
		want := Solve(context.Background(), p, Limits{})
		r := rand.New(rand.NewPCG(seed, 5))
		q := *p
		shuffle(r, &q.Clauses)
		shuffle(r, &q.Lags)
		shuffle(r, &q.Linears)
		shuffle(r, &q.Cumulatives)
		shuffle(r, &q.Disjunctives)
		shuffle(r, &q.Calendars)
		shuffle(r, &q.Guards)
		shuffle(r, &q.Maxima)
		shuffle(r, &q.Branch)
		for _, d := range q.Vars {
			q.Start = append(q.Start, d.Lo+r.IntN(d.Hi-d.Lo+1))
		}
		got := Solve(context.Background(), &q, Limits{Seed: seed})
		if got.Status != want.Status || !reflect.DeepEqual(got.Levels, want.Levels) {
			t.Fatalf("seed %d: %v %+v, in another order %v %+v", seed, want.Status, want.Levels, got.Status, got.Levels)
		}
	}
}

func shuffle[T any](r *rand.Rand, s *[]T) {
	c := append([]T(nil), *s...)
	r.Shuffle(len(c), func(i, j int) { c[i], c[j] = c[j], c[i] })
	*s = c
}

// TestMoreRoomNeverHurts: raising capacities keeps what was feasible and makes the first level no worse.
func TestMoreRoomNeverHurts(t *testing.T) {
	for seed := range uint64(300) {
		p := newRandom(seed + 7_000_000).problem()
		if len(p.Levels) == 0 {
			continue
		}
		before := Solve(context.Background(), p, Limits{})
		q := *p
		q.Cumulatives = nil
		for _, c := range p.Cumulatives {
			c.Capacity++
			q.Cumulatives = append(q.Cumulatives, c)
		}
		after := Solve(context.Background(), &q, Limits{})
		if before.Status == Optimal && (after.Status != Optimal || after.Levels[0].Value > before.Levels[0].Value) {
			t.Fatalf("seed %d: %+v, with more room %v %+v", seed, before.Levels, after.Status, after.Levels)
		}
	}
}
