package planner

import "fmt"

// sound is the last look at a plan before it leaves: the independent checker names what it breaks, in an error, since a broken plan is a
// fault of ours and never one to show as a plan.
func sound(p *Party, plan *Plan) error {
	broken := Check(p, plan)
	if len(broken) == 0 {
		return nil
	}
	return fmt.Errorf("plan: the plan found breaks rule %d: %s (%d faults in all)", broken[0].Rule, broken[0].Text, len(broken))
}
