package planner_test

import (
	"testing"

	"tureen/planner"
	"tureen/planner/partygen"
)

func BenchmarkCheck(b *testing.B) {
	p, plan := partygen.Rich()
	for b.Loop() {
		planner.Check(p, plan)
	}
}
