package solve_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// TestTooLittleTime asks for a dish whose own steps take longer than there is: the clash says by how much before it
// says anything else, and the delay that it proposes is tried and enough.
func TestTooLittleTime(t *testing.T) {
	p := partygen.Dinner(1)
	now := p.Courses[0].Servings[0].At.Add(-20 * time.Minute)
	_, clash, err := solve.Make(context.Background(), p, solve.Ask{Now: now})
	if clash == nil {
		t.Fatalf("a plan in twenty minutes, or %v", err)
	}
	if first := clash.Requirements[0].Text; !strings.Contains(first, "from its first step to the table, and there are") {
		t.Errorf("the clash begins with %q", first)
	}
	if len(clash.Mends) == 0 || !strings.Contains(clash.Mends[0].Text, "later") {
		t.Errorf("no later meal is proposed: %+v", clash.Mends)
	}
}
