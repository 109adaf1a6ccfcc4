package solve

import (
	"context"
	"time"

	"tureen/planner"
	"tureen/planner/cp"
)

// Solved is what one solve came to, and when: for benchmarks.
type Solved struct {
	Built  time.Duration // the model
	First  time.Duration // the first plan's values, from the start; 0: none
	Proved []time.Duration
	Names  []string // of the engine's levels
	Values []int
	Bounds []int
	Work   int64
}

// SolveWatched puts a party to the engine as Make does, without looking for spare time, and notes when each of its
// levels was first proved for good: -1 for one that was not.
func SolveWatched(ctx context.Context, p *planner.Party, ask Ask) (Solved, error) {
	begun := time.Now()
	g, err := newGraph(p, ask)
	if err != nil {
		return Solved{}, err
	}
	m := newModel(g, false, nil)
	out := Solved{Built: time.Since(begun), Proved: make([]time.Duration, len(m.cp.Levels))}
	for i, l := range m.cp.Levels {
		out.Proved[i], out.Names = -1, append(out.Names, l.Name)
	}
	r := cp.Solve(ctx, &m.cp, cp.Limits{Work: ask.Work, Seed: ask.Seed, FirstOnly: ask.FirstOnly,
		OnSolution: func(_, _ []int) bool {
			if out.First == 0 {
				out.First = time.Since(begun)
			}
			return true
		},
		OnBound: func(best, bound []int) {
			below := true // a level is proved for good once those before it are
			for i := range bound {
				below = below && best[i] == bound[i]
				switch {
				case !below:
					out.Proved[i] = -1
				case out.Proved[i] < 0:
					out.Proved[i] = time.Since(begun)
				}
			}
		}})
	for _, l := range r.Levels {
		out.Values, out.Bounds = append(out.Values, l.Value), append(out.Bounds, l.Bound)
	}
	out.Work = r.Stats.Work
	return out, nil
}
