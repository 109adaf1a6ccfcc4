package solve_test

import (
	"fmt"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// BenchmarkPlan measures the first plan and the final answer for dinners of growing size. Three people cook; the
// dinner of 8 dishes has about 40 tasks.
func BenchmarkPlan(b *testing.B) {
	for _, n := range []int{4, 8, 12} {
		for _, first := range []bool{true, false} {
			name := fmt.Sprintf("dishes=%d/final", n)
			if first {
				name = fmt.Sprintf("dishes=%d/first", n)
			}
			b.Run(name, func(b *testing.B) {
				p := partygen.Dinner(n)
				ask := solve.Ask{Now: partygen.ClockOn(23)(18, 0), FirstOnly: first}
				var plan *planner.Plan
				for b.Loop() {
					var clash *solve.Clash
					var err error
					if plan, clash, err = solve.Make(b.Context(), p, ask); err != nil || clash != nil {
						b.Fatalf("%v %+v", err, clash)
					}
				}
				b.ReportMetric(float64(len(plan.Tasks)), "tasks")
				proved := 0
				for i, l := range plan.Levels {
					if l.Proved {
						proved++
					}
					b.ReportMetric(float64(l.Value), fmt.Sprintf("%d_%s", i, short(l.Name)))
				}
				b.ReportMetric(float64(proved), "proved")
				b.ReportMetric(float64(b.Elapsed())/float64(b.N)/float64(time.Second), "s/plan")
			})
		}
	}
}

func short(n planner.LevelName) string { return string([]rune(n)[:2]) }
