package check

import (
	"time"

	"tureen/planner"
)

// For tests that list every plan of a tiny party.

// HoldFor gives every task of a plan, or of a part of one, what it needs from the kitchen. oven chooses the
// oven and its setting for a use.
func HoldFor(p *planner.Party, plan *planner.Plan, oven func(k planner.TaskKey, u *planner.Use) (name string, c int)) {
	c := newChecker(p, plan)
	for i := range plan.Tasks {
		t := &plan.Tasks[i]
		t.Uses = nil
		for _, n := range c.needs(c.byKey[t.Task]) {
			h := planner.Held{What: n.use.What, Name: n.use.Name, Amount: n.use.Units(), From: n.from, To: n.to}
			if h.What == planner.AnOven {
				h.Name, h.C = oven(t.Task, n.written())
			}
			t.Uses = append(t.Uses, h)
		}
	}
}

// written is a need's use as it stands in the party, not multiplied for the covers.
func (n *need) written() *planner.Use {
	if n.of > 0 {
		return &n.job.of.step.Uses[n.of-1]
	}
	return n.use
}

// OvenUses lists the uses of ovens by a task and by the waits after it.
func OvenUses(p *planner.Party, k planner.TaskKey) []*planner.Use {
	start := p.Arrival
	plan := &planner.Plan{}
	for _, t := range planner.Tasks(p) {
		end := start
		if t.Key == k {
			end = start.Add(time.Minute)
		}
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: t.Key, Start: start, End: end})
		if t.Key != k { // so that every wait after k takes time
			plan.Tasks[len(plan.Tasks)-1].Start = start.Add(2 * time.Minute)
			plan.Tasks[len(plan.Tasks)-1].End = start.Add(2 * time.Minute)
		}
	}
	for _, c := range p.Courses {
		for _, s := range c.Servings {
			plan.Served = append(plan.Served, planner.Served{Course: c.Key, Group: s.Group, At: start.Add(3 * time.Minute)})
		}
	}
	c := newChecker(p, plan)
	var out []*planner.Use
	for _, n := range c.needs(c.byKey[k]) {
		if n.use.What == planner.AnOven {
			out = append(out, n.written())
		}
	}
	return out
}

// LevelsButRoom are the figures of a plan, or of a part of one, without the last. Of a part none is greater
// than of any plan that it is a part of.
func LevelsButSpare(p *planner.Party, plan, inForce *planner.Plan) []int {
	return newChecker(p, plan).levelsButSpare(inForce)
}

// OffMark are the longer tasks of the party's day that begin off the marks and go straight on after nothing.
func OffMark(p *planner.Party, plan *planner.Plan) []planner.TaskKey {
	return newChecker(p, plan).offMark(true)
}
