package repertoire

import (
	"context"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/propose"
	"tureen/planner/solve"
)

// TestMadeAhead: planned alone with three free days before, whatever a card says is made ahead is done before the day.
func TestMadeAhead(t *testing.T) {
	ahead := 0
	for _, c := range List() {
		if c.Ahead == "" {
			continue
		}
		ahead++
		p := homeParty(8, c)
		propose.Renew(p, p.Opens())
		ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
		plan, clash, err := solve.Make(ctx, p, solve.Ask{Now: p.Opens()})
		cancel()
		if plan == nil {
			t.Errorf("%s: %v, %+v", c.Name, err, clash)
			continue
		}
		for i := range plan.Tasks {
			if pl := &plan.Tasks[i]; pl.Task == planner.StepTask(c.Key, c.Ahead, 1) && pl.End.After(p.Day()) {
				t.Errorf("%s: %s ends %s, on the day itself", c.Name, c.Ahead, pl.End.Format("Mon 15:04"))
			}
		}
	}
	if n := len(List()); ahead < n/2 {
		t.Errorf("only %d of %d dishes are made ahead", ahead, n)
	}
}
