package check

import (
	"cmp"
	"context"
	"slices"
	"time"

	"tureen/planner"
)

// On the party's day any minute will do for the engine; people would rather begin at 13:45 than at 13:44. So the
// longer tasks of that day are moved to five-minute marks afterwards, with what goes straight on after them, wherever
// the plan keeps every rule and is as good on every level. Rule 10 asks it of the days before; there, sessions are
// moved to begin on a quarter of an hour (session_marks.go).
const (
	dayMark  = 5                // minutes
	longTask = 15 * time.Minute // shorter ones follow others
)

// MoveToMarks moves the longer tasks of the party's day to five-minute marks, and sessions before it to quarters of an
// hour, and says whether it has moved any.
func MoveToMarks(ctx context.Context, p *planner.Party, plan, inForce *planner.Plan) bool {
	first := newChecker(p, plan).finder()
	before, spare := first.base.with(plan).levelsButSpare(inForce), first.tight(len(plan.Tasks))
	var states [][]planner.Placed // before each move
	for _, date := range first.base.sessionDays() {
		for i := range p.People {
			was := plan.Tasks
			if ctx.Err() == nil && first.base.with(plan).moveSession(plan, inForce, p.People[i].Key, date, before) {
				states = append(states, was)
			}
		}
	}
	for _, forward := range []bool{true, false} {
		for _, k := range first.base.with(plan).offMark(forward) {
			was := plan.Tasks
			if ctx.Err() != nil {
				break
			}
			if first.base.with(plan).moveToMark(plan, inForce, k, before, forward) {
				states = append(states, was)
			}
		}
	}
	// Time to spare is dear to count, so it is counted at the end: what costs some is taken back, the last move first.
	for i := len(states) - 1; i >= 0 && first.base.with(plan).finder().tight(spare) > spare; i-- {
		if ctx.Err() != nil {
			i = 0
		}
		plan.Tasks = states[i]
		states = states[:i]
	}
	if len(states) == 0 {
		return false
	}
	slices.SortStableFunc(plan.Tasks, func(a, b planner.Placed) int {
		return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Task, b.Task))
	})
	return true
}

// offMark lists the longer tasks of the party's day that begin off the marks and go straight on after nothing, by
// start.
func (c *checker) offMark(forward bool) []planner.TaskKey {
	led := map[*workStep]bool{}
	for _, a := range c.arcs {
		if a.wait.State == planner.Straight && !a.passed {
			led[a.to] = true
		}
	}
	var out []*workJob
	for _, j := range c.jobs {
		if !j.settled && !led[j.of] && j.end.Sub(j.start) >= longTask && !j.start.Before(c.p.Day()) &&
			pastMark(c.p, j.start) > 0 {
			out = append(out, j)
		}
	}
	slices.SortStableFunc(out, func(a, b *workJob) int {
		return cmp.Or(a.start.Compare(b.start), cmp.Compare(a.key, b.key))
	})
	if !forward {
		slices.Reverse(out)
	}
	keys := make([]planner.TaskKey, len(out))
	for i, j := range out {
		keys[i] = j.key
	}
	return keys
}

// pastMark is how far an instant is past the last mark of the party's clock.
func pastMark(p *planner.Party, t time.Time) planner.Minutes {
	return planner.Minutes(t.In(p.Location()).Minute() % dayMark)
}

// moveToMark moves one task to the mark before it or to the one after it, whichever is asked for first.
func (c *checker) moveToMark(plan, inForce *planner.Plan, k planner.TaskKey, atMost []int, earlier bool) bool {
	r := c.finder()
	off := pastMark(c.p, plan.Placed(k).Start)
	ways := []planner.Minutes{-off, dayMark - off}
	if !earlier {
		slices.Reverse(ways)
	}
	var last int
	for _, block := range r.blocksWith(k, off) {
		if len(block) == last {
			continue // the same again
		}
		last = len(block)
		for _, by := range ways {
			moved := r.move(block, by)
			if r.checker(moved).keeps(nothing) && noneWorse(c.with(moved).levelsButSpare(inForce), atMost) {
				plan.Tasks = moved.Tasks
				return true
			}
		}
	}
	return false
}

// nothing may break.
func nothing(Broken) bool { return false }

// blocksWith are what may move with a task, the most first: what is as far past a mark on that day, of it what belongs
// to the same dish, and the task by itself; each with what goes straight on before or after it.
func (r *spareFinder) blocksWith(k planner.TaskKey, off planner.Minutes) [][]planner.TaskKey {
	dish, _, _, _, _ := k.Split()
	alone := r.block(k)
	all, ofDish := slices.Clone(alone), slices.Clone(alone)
	grow := func(block []planner.TaskKey, with []planner.TaskKey) []planner.TaskKey {
		for _, x := range with {
			if !slices.Contains(block, x) {
				block = append(block, x)
			}
		}
		return block
	}
	for _, j := range r.base.jobs {
		if j.settled || j.start.Before(r.p.Day()) || pastMark(r.p, j.start) != off {
			continue
		}
		with := r.block(j.key)
		all = grow(all, with)
		if d, _, _, _, _ := j.key.Split(); d == dish && d != "" {
			ofDish = grow(ofDish, with)
		}
	}
	return [][]planner.TaskKey{all, ofDish, alone}
}

// levelsButSpare are the figures of a plan without the last, which is dear to count.
func (c *checker) levelsButSpare(inForce *planner.Plan) []int {
	var out []int
	levels := c.p.Levels()
	for _, l := range levels[:len(levels)-1] {
		out = append(out, c.figure(l, inForce))
	}
	return out
}

func noneWorse(a, b []int) bool {
	for i := range a {
		if a[i] > b[i] {
			return false
		}
	}
	return true
}
