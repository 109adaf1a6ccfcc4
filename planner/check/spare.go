package check

import (
	"slices"
	"time"

	"tureen/planner"
)

// mostRoom is the most that RoomOf answers.
const mostSpare planner.Minutes = 24 * 60

// SpareOf is a task's time to spare and, in a sentence, what ends it; without a limit within a day that is empty.
//
// Time to spare is how many minutes a task may run over before the plan breaks a rule. The task keeps its start and
// ends later; steps that go straight on after it move along with all they hold; every other task and
// every serving stays where it is. So it ends where the next step's shortest wait begins, or the
// next task of its people, the end of their hours, its service, the next use of its equipment, the limit of
// its food. That is asked of [Plan] itself, so that it and the rules cannot disagree.
//
// It is 0 for a task that is not in the plan, and in a plan that breaks a rule already.
func SpareOf(p *planner.Party, plan *planner.Plan, k planner.TaskKey) (spare planner.Minutes, decider string) {
	r := newSpareFinder(p, plan)
	if first := r.breaks(k, 0); first != "" || r.base.byKey[k] == nil {
		return 0, first
	}
	// The first minute that breaks something lies between good and bad: more overrun never mends a break.
	good, bad := planner.Minutes(0), planner.Minutes(1)
	for r.breaks(k, bad) == "" {
		if bad == mostSpare {
			return mostSpare, ""
		}
		good, bad = bad, min(2*bad, mostSpare)
	}
	for bad-good > 1 {
		if mid := (good + bad) / 2; r.breaks(k, mid) == "" {
			good = mid
		} else {
			bad = mid
		}
	}
	return good, r.breaks(k, bad)
}

// LaterBreaks says in a sentence what breaks when a task starts so much later, and takes as long as it is planned to,
// with what goes straight on after it moved along and all else where it stands; empty: nothing. What package reminders
// tells as the last moment is held against it.
func LaterBreaks(p *planner.Party, plan *planner.Plan, k planner.TaskKey, by planner.Minutes) string {
	r := newSpareFinder(p, plan)
	moved := r.overrun(k, by)
	if t := moved.Placed(k); t != nil {
		t.Start = t.Start.Add(by.Duration())
	}
	for _, b := range r.checker(moved).rules() {
		if !itself(b, k, by) {
			return b.Text
		}
	}
	return ""
}

// tight counts the hands and watch tasks still to be done that have less to spare than [planner.Tight], as far as most
// and one beyond.
func (r *spareFinder) tight(most int) int {
	n := 0
	for _, j := range r.base.jobs {
		if j.settled || j.attention != planner.Hands && j.attention != planner.Watch {
			continue
		}
		if !r.checker(r.overrun(j.key, planner.Tight)).keeps(func(b Broken) bool { return itself(b, j.key, planner.Tight) }) {
			if n++; n > most {
				break
			}
		}
	}
	return n
}

// Tightest is the first of the tasks of some hours that have least to spare, with how much; ok only where that is less
// than [planner.Tight].
func Tightest(p *planner.Party, plan *planner.Plan, from, to time.Time) (k planner.TaskKey, spare planner.Minutes,
	ok bool) {
	r := newSpareFinder(p, plan)
	spare = planner.Tight
	for _, j := range r.base.jobs {
		if j.settled || j.attention != planner.Hands && j.attention != planner.Watch || j.start.Before(from) ||
			!j.start.Before(to) {
			continue
		}
		for spare > 0 && r.breaks(j.key, spare) != "" {
			k, spare = j.key, spare-1
		}
	}
	return k, spare, k != ""
}

// spareFinder moves tasks of a plan and asks what breaks.
type spareFinder struct {
	p    *planner.Party
	plan *planner.Plan
	base *checker
	held map[heldFor]planner.Held
}

// heldFor names what a held thing is held for: a task's use, or the hold of a wait after it.
type heldFor struct {
	task planner.TaskKey
	of   int          // the step's use, as in need
	use  *planner.Use // nil where of says it
}

func heldBy(n *need) heldFor {
	if n.of > 0 {
		return heldFor{task: n.job.key, of: n.of}
	}
	return heldFor{task: n.job.key, use: n.use}
}

func newSpareFinder(p *planner.Party, plan *planner.Plan) *spareFinder {
	return newChecker(p, plan).finder()
}

// finder is that of the checker's plan.
func (c *checker) finder() *spareFinder {
	r := &spareFinder{p: c.p, plan: c.plan, base: c, held: map[heldFor]planner.Held{}}
	r.base.followFood()
	for _, j := range r.base.jobs {
		for _, h := range r.base.given(j, r.base.needs(j)) {
			r.held[heldBy(&h.need)] = planner.Held{What: h.use.What, Name: h.name, Amount: h.amount, C: h.c}
		}
	}
	return r
}

// breaks is the first rule that breaks, in words, when a task runs over by so many minutes; empty if none.
func (r *spareFinder) breaks(k planner.TaskKey, over planner.Minutes) string {
	for _, b := range r.checker(r.overrun(k, over)).rules() {
		if !itself(b, k, over) {
			return b.Text
		}
	}
	return ""
}

// itself says of a break that it is the overrun and nothing that follows from it.
func itself(b Broken, k planner.TaskKey, over planner.Minutes) bool {
	return b.Task == k && (b.Rule == RuleLengths || b.Rule == RuleMarks || b.Rule == RulePast) && over > 0
}

// overrun is the plan with a task that ends later, and what goes straight on after it moved along. What tasks hold is
// left to refit.
func (r *spareFinder) overrun(k planner.TaskKey, over planner.Minutes) *planner.Plan {
	moved := *r.plan
	moved.Tasks = slices.Clone(r.plan.Tasks)
	longer, later := map[planner.TaskKey]time.Duration{k: over.Duration()}, map[planner.TaskKey]time.Duration{}
	ends := func(w *workStep) (was, is time.Time) {
		for _, j := range w.jobs {
			if j.end.After(was) {
				was = j.end
			}
			if t := j.end.Add(longer[j.key] + later[j.key]); t.After(is) {
				is = t
			}
		}
		return was, is
	}
	for range r.base.steps { // far enough for the longest chain
		for _, a := range r.base.arcs {
			if a.passed || a.wait.State != planner.Straight || len(a.from.jobs) == 0 {
				continue
			}
			was, is := ends(a.from)
			for _, s := range a.to.jobs {
				if !s.settled {
					later[s.key] = max(later[s.key], is.Sub(was))
				}
			}
		}
	}
	for i := range moved.Tasks {
		t := &moved.Tasks[i]
		t.Start = t.Start.Add(later[t.Task])
		t.End = t.End.Add(later[t.Task] + longer[t.Task])
	}
	return &moved
}

// checker is that of a plan that differs from the finder's in the times of tasks.
func (r *spareFinder) checker(moved *planner.Plan) *checker {
	c := r.base.with(moved)
	r.refit(c, moved)
	return c
}

// refit has every task hold its things for as long as it now takes them; c is the checker of the moved plan.
func (r *spareFinder) refit(c *checker, moved *planner.Plan) {
	for i := range moved.Tasks {
		t := &moved.Tasks[i]
		j := c.byKey[t.Task]
		if j == nil {
			continue
		}
		t.Uses = nil
		for _, n := range c.needs(j) {
			h, ok := r.held[heldBy(&n)]
			if !ok { // a hold that took no time before
				h = planner.Held{What: n.use.What, Name: n.use.Name, Amount: n.use.Units(), C: n.use.C}
			}
			h.From, h.To = n.from, n.to
			t.Uses = append(t.Uses, h)
		}
		j.uses = t.Uses
	}
}
