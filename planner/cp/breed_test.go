package cp

import (
	"slices"
	"testing"
)

// TestBreed: what a breeder makes is the first solution; one without any, or that gives up, leaves it to the search;
// and better ones come in turns with it.
func TestBreed(t *testing.T) {
	p := workshop(2, 10, 6, 4)
	plain := Solve(t.Context(), p, Limits{FirstOnly: true})
	good := Solve(t.Context(), p, Limits{Work: 1_000_000})
	if good.Levels[0].Value >= plain.Levels[0].Value {
		t.Fatal("no better solution than the first")
	}
	given := func(solutions ...[]int) func(*Problem, []int, uint64) Breeder {
		return func(q *Problem, least []int, _ uint64) Breeder {
			if q != p || len(least) != len(p.Vars) {
				t.Errorf("asked for another problem, with %d bounds", len(least))
			}
			return func(best []int, spend func(int64) bool) ([]int, bool) {
				if len(solutions) == 0 {
					for spend(1000) {
					}
					return nil, best == nil
				}
				s := solutions[0]
				solutions = solutions[1:]
				return s, true
			}
		}
	}
	for _, c := range []struct {
		breed func(*Problem, []int, uint64) Breeder
		want  []int
	}{
		{given(good.Values), good.Values},
		{func(*Problem, []int, uint64) Breeder { return nil }, plain.Values},
		{func(*Problem, []int, uint64) Breeder {
			return func([]int, func(int64) bool) ([]int, bool) { return nil, false }
		}, plain.Values},
	} {
		if r := Solve(t.Context(), p, Limits{FirstOnly: true, Breed: c.breed}); !slices.Equal(r.Values, c.want) {
			t.Errorf("first %v, want %v", r.Values, c.want)
		}
	}
	var seen []int
	Solve(t.Context(), p, Limits{Work: 5_000_000, Breed: given(plain.Values, good.Values),
		OnSolution: func(_, levels []int) bool {
			seen = append(seen, levels[0])
			return true
		}})
	if seen[0] != plain.Levels[0].Value || !slices.Contains(seen, good.Levels[0].Value) {
		t.Errorf("levels %v", seen)
	}
}
