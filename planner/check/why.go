package check

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
)

// Reasons says what fixes a task's time in a plan.
type Reasons struct {
	Task     planner.TaskKey
	Earliest time.Time // the earliest start with the rest of the plan unchanged; never after the task's start
	Latest   time.Time // the latest one
	Before   []string  // what keeps it from being earlier, in sentences
	After    []string  // what keeps it from being later
}

// How far Why looks in either direction, in minutes: every minute at first, then in steps.
const (
	whyFar  = 3 * 24 * 60
	whyNear = 60
	whyStep = 5
)

// Why says what fixes a task's time and how long it can wait: how far it could go, with what goes straight on before
// and after it, while the rest of the plan and the servings stay where they are. Each sentence says what a step
// further would break. The error is a sentence for a person.
func Why(p *planner.Party, plan *planner.Plan, k planner.TaskKey) (Reasons, error) {
	t := plan.Placed(k)
	if t == nil {
		return Reasons{}, fmt.Errorf("there is no task %s in the plan", k)
	}
	out := Reasons{Task: k, Earliest: t.Start, Latest: t.Start}
	r := newSpareFinder(p, plan)
	if j := r.base.byKey[k]; j == nil || j.settled {
		begun := []string{"It has begun already, or is over: it stays where it is."}
		out.Before, out.After = begun, begun
		return out, nil
	}
	if broken := Plan(p, plan); len(broken) > 0 {
		return Reasons{}, fmt.Errorf("the plan no longer keeps every rule: %s", broken[0].Text)
	}
	block := r.block(k)
	earlier, before := r.reach(block, -1)
	later, after := r.reach(block, 1)
	out.Earliest = t.Start.Add(-earlier.Duration())
	out.Latest = t.Start.Add(later.Duration())
	out.Before, out.After = before, after
	return out, nil
}

// block is a task with everything that goes straight on before or after it: they only move together.
func (r *spareFinder) block(k planner.TaskKey) []planner.TaskKey {
	in := []planner.TaskKey{k}
	has := func(w *workStep) bool {
		return slices.ContainsFunc(w.jobs, func(j *workJob) bool { return slices.Contains(in, j.key) })
	}
	for grown := true; grown; {
		grown = false
		for _, a := range r.base.arcs {
			if a.passed || a.wait.State != planner.Straight || has(a.from) == has(a.to) {
				continue
			}
			for _, w := range []*workStep{a.from, a.to} {
				for _, j := range w.jobs {
					if !slices.Contains(in, j.key) {
						in = append(in, j.key)
						grown = true
					}
				}
			}
		}
	}
	return in
}

// reach is how far a block can go in a direction before something breaks, and what that is.
func (r *spareFinder) reach(block []planner.TaskKey, way planner.Minutes) (far planner.Minutes, why []string) {
	for next := planner.Minutes(1); next <= whyFar; {
		if broken := r.shifted(block, way*next); len(broken) > 0 {
			// Within the last step the first break may have come sooner.
			for far+1 < next {
				sooner := r.shifted(block, way*(far+1))
				if len(sooner) > 0 {
					return r.onMark(block[0], way, far), sooner
				}
				far++
			}
			return r.onMark(block[0], way, far), broken
		}
		far = next
		if next++; next > whyNear {
			next = far + whyStep
		}
	}
	return r.onMark(block[0], way, far), nil
}

// onMark is the furthest of the places up to far at which a task may start, where it has to start on a mark.
func (r *spareFinder) onMark(k planner.TaskKey, way, far planner.Minutes) planner.Minutes {
	for ; far > 0; far-- {
		moved := r.move([]planner.TaskKey{k}, way*far)
		c := newChecker(r.p, moved)
		c.marks()
		if !slices.ContainsFunc(c.out, func(b Broken) bool { return b.Rule == RuleMarks && b.Task == k }) {
			return far
		}
	}
	return 0
}

// shifted says what breaks when a block moves; the marks are another matter.
func (r *spareFinder) shifted(block []planner.TaskKey, by planner.Minutes) []string {
	var out []string
	for _, b := range r.checker(r.move(block, by)).rules() {
		if b.Rule != RuleMarks && !slices.Contains(out, b.Text) {
			out = append(out, b.Text)
		}
	}
	return out
}

// move is the plan with a block somewhere else; what tasks hold is left to refit.
func (r *spareFinder) move(block []planner.TaskKey, by planner.Minutes) *planner.Plan {
	moved := *r.plan
	moved.Tasks = slices.Clone(r.plan.Tasks)
	for i := range moved.Tasks {
		if t := &moved.Tasks[i]; slices.Contains(block, t.Task) {
			t.Start, t.End = t.Start.Add(by.Duration()), t.End.Add(by.Duration())
		}
	}
	return &moved
}
