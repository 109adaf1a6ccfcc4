package partygen_test

import (
	"testing"

	"pgregory.net/rapid"

	"tureen/planner/partygen"
)

// Whatever is drawn makes sense; else the tests that draw would test refusals.
func TestRandomPartiesMakeSense(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, now := partygen.Draw(partygen.Rapid(t), partygen.AnySize)
		for _, problem := range p.Validate() {
			t.Fatalf("%s: %s", problem.Where, problem.Text)
		}
		if now.Before(p.Opens()) || now.After(p.Arrival) {
			t.Fatalf("planned at %v, which is outside the prep days", now)
		}
	})
}

func TestTinyPartiesMakeSense(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, _ := partygen.Tiny(partygen.Rapid(t))
		for _, problem := range p.Validate() {
			t.Fatalf("%s: %s", problem.Where, problem.Text)
		}
	})
}
