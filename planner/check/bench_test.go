package check_test

import (
	"testing"

	"tureen/planner/check"
	"tureen/planner/partygen"
)

func BenchmarkCheck(b *testing.B) {
	p, plan := partygen.Rich()
	for b.Loop() {
		check.Plan(p, plan)
	}
}
