// Package instance reads the public benchmark files of resource-constrained project scheduling and puts them as
// problems of package cp: PSPLIB .sm files (Kolisch and Sprecher 1996) and ProGen/max .sch files (Kolisch, Schwindt
// and Sprecher 1999). It serves cmd/cpbench and the tests.
package instance

import (
	"fmt"

	"tureen/planner/cp"
)

// Instance is a project: activities with durations and demands, lags from start to start, and renewable resources.
// Activity 0 is the source, which starts at 0; the last one is the sink, whose start is to be least.
type Instance struct {
	Name     string
	Duration []int
	Demand   [][]int // by activity, one a resource
	Capacity []int   // by resource
	Lags     []Lag
}

// Lag is start(To) ≥ start(From) + Min. A negative Min is a maximum lag.
type Lag struct{ From, To, Min int }

// Sink is the last activity.
func (in *Instance) Sink() int { return len(in.Duration) - 1 }

// horizon is a makespan within which an optimal schedule lies, if there is any: every activity delays the next by no
// more than its duration or its longest lag.
func (in *Instance) horizon() int {
	longest := append([]int(nil), in.Duration...)
	for _, l := range in.Lags {
		longest[l.From] = max(longest[l.From], l.Min)
	}
	sum := 0
	for _, d := range longest {
		sum += d
	}
	return sum
}

// Problem puts the instance: variable i is the start of activity i, the one level is the makespan.
func (in *Instance) Problem() *cp.Problem {
	p := &cp.Problem{}
	h := in.horizon()
	for i := range in.Duration {
		hi := h
		if i == 0 {
			hi = 0
		}
		x := p.NewVar(0, hi, fmt.Sprintf("start %d", i))
		p.Branch = append(p.Branch, cp.Decision{X: x, Prefer: cp.Earliest})
	}
	sink := cp.Var(in.Sink())
	for i, d := range in.Duration {
		p.AddLag(cp.Var(i).At(), sink.At(), d)
	}
	for _, l := range in.Lags {
		p.AddLag(cp.Var(l.From).At(), cp.Var(l.To).At(), l.Min)
	}
	for r, capacity := range in.Capacity {
		c := cp.Cumulative{Name: fmt.Sprintf("resource %d", r), Capacity: capacity}
		for i, d := range in.Duration {
			if d > 0 && in.Demand[i][r] > 0 {
				x := cp.Var(i)
				c.Uses = append(c.Uses, cp.Use{Start: x.At(), End: x.Plus(d), Demand: in.Demand[i][r]})
			}
		}
		p.Cumulatives = append(p.Cumulatives, c)
	}
	p.Levels = []cp.Level{{Name: "makespan", Terms: []cp.Term{{Coef: 1, X: sink}}}}
	return p
}

// Verify says whether the starts keep the instance, straight from its own figures; nil if they do.
func (in *Instance) Verify(starts []int) error {
	if len(starts) != len(in.Duration) {
		return fmt.Errorf("%d starts for %d activities", len(starts), len(in.Duration))
	}
	if starts[0] != 0 {
		return fmt.Errorf("the source starts at %d", starts[0])
	}
	for i, d := range in.Duration {
		if starts[i] < 0 || starts[i]+d > starts[in.Sink()] {
			return fmt.Errorf("activity %d at %d is not within the project", i, starts[i])
		}
	}
	for _, l := range in.Lags {
		if starts[l.To] < starts[l.From]+l.Min {
			return fmt.Errorf("activity %d starts at %d, before %d + %d", l.To, starts[l.To], starts[l.From], l.Min)
		}
	}
	for r, capacity := range in.Capacity {
		for _, t := range starts {
			used := 0
			for i, s := range starts {
				if s <= t && t < s+in.Duration[i] {
					used += in.Demand[i][r]
				}
			}
			if used > capacity {
				return fmt.Errorf("resource %d: %d in use at %d, capacity %d", r, used, t, capacity)
			}
		}
	}
	return nil
}
