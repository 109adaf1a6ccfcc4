package check

import (
	"strconv"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/words"
)

func itoa(n int) string { return strconv.Itoa(n) }

// none says that no path of that sort reaches a task.
const none = -1

// clock is how long the food of a task has stood, along the longest path to its end.
type clock struct {
	counter     int
	raw, cooked int  // in the refrigerator: along paths without, with a step that cooks; none when there is none
	overdue     bool // a refrigerator limit was passed on the way and has been named
}

// clocks checks rule 2.
func (c *checker) clocks() {
	k := &clockwork{checker: c, limit: safety.CounterLimit(float64(c.airC())), done: map[*workStep][]clock{},
		said: map[any]bool{}}
	for _, w := range c.steps {
		if !w.gone {
			k.ends(w)
		}
	}
	for _, a := range c.serves {
		if !a.complete {
			continue
		}
		for i, j := range a.from.jobs {
			at := k.ends(a.from)[i]
			k.waited(a, a.from, j, at, a.wait.State, gap(j.end, a.last), "the last service")
			a.straight = a.straight || c.partCooked(a.from, j, a.wait.State, gap(j.end, a.last))
		}
	}
	for _, w := range c.steps {
		if w.gone {
			continue
		}
		c.hotHold(w, w.step.Serve)
	}
	for _, a := range c.arcs {
		if !a.passed {
			c.hotHold(a.from, &a.wait)
		}
		for _, p := range a.from.jobs {
			for _, s := range a.to.jobs {
				if s.settled {
					continue // no wait from an unsettled task to a settled one counts
				}
				a.straight = a.straight || c.partCooked(a.from, p, a.wait.State, gap(p.end, s.start))
			}
		}
	}
}

func (c *checker) airC() int {
	if c.p.RoomTemperatureC == 0 {
		return 20
	}
	return c.p.RoomTemperatureC
}

// clockwork follows the clocks through the steps.
type clockwork struct {
	*checker
	limit safety.Limit
	done  map[*workStep][]clock // by round; nil while a step is being worked out
	said  map[any]bool          // waits and steps that have been named
}

// ends are the clocks at the end of each round of a step.
func (k *clockwork) ends(w *workStep) []clock {
	if at, ok := k.done[w]; ok {
		return at // a step in a circle has none yet
	}
	k.done[w] = nil
	out := make([]clock, len(w.jobs))
	for i, j := range w.jobs {
		in := clock{raw: none, cooked: none}
		reached := false
		for _, a := range k.arcs {
			if a.to != w {
				continue
			}
			for n, at := range k.ends(a.from) {
				if j.settled && !a.from.jobs[n].settled {
					continue // it comes too late for this
				}
				reached = true
				at = k.waited(a, a.from, a.from.jobs[n], at, a.wait.State, gap(a.from.jobs[n].end, j.start), j.label)
				in.counter = max(in.counter, at.counter)
				in.raw, in.cooked = max(in.raw, at.raw), max(in.cooked, at.cooked)
				in.overdue = in.overdue || at.overdue
			}
		}
		if !reached {
			in.raw = 0
		}
		if w.step.Cooks {
			if in.raw != none {
				in.cooked = max(in.cooked, 0)
			}
			in.raw = none
		}
		out[i] = k.worked(w, j, in)
	}
	k.done[w] = out
	return out
}

// worked adds a task's own time to the clocks.
func (k *clockwork) worked(w *workStep, j *workJob, at clock) clock {
	food := w.step.Leaves
	if !food.Perishable {
		return at
	}
	switch w.step.Where {
	case planner.Counter:
		before, warm := at.counter, j.minutes()
		if w.warm >= 0 {
			warm = min(warm, w.warm)
			at = at.cooled(j.minutes() - warm)
		}
		at.counter += warm
		if before <= k.limit.Minutes && at.counter > k.limit.Minutes && !k.said[w] {
			k.said[w] = true
			k.broken(RuleClocks, j.key, "At the end of %s its food has been on the counter for %s in all; the limit is %s.",
				j.label, words.Length(at.counter), k.limit)
		}
	case planner.Refrigerator:
		at = at.cooled(j.minutes())
	}
	if most := safety.RefrigeratorLimit(food.Kind); most.Applies() && at.longest() > most.Minutes {
		if !at.overdue && !k.said[w] {
			k.said[w] = true
			k.broken(RuleClocks, j.key, "At the end of %s its food has been in the refrigerator for %s in all; the limit is %s.",
				j.label, words.Length(at.longest()), most)
		}
		at.overdue = true
	}
	return at
}

// waited adds a wait after a task to the clocks; what names the wait, so that it is reported once.
func (k *clockwork) waited(what any, w *workStep, j *workJob, at clock, state planner.State, minutes int,
	until string) clock {
	food := w.step.Leaves
	if !food.Perishable || minutes <= 0 {
		return at
	}
	switch state {
	case planner.Counter, planner.Warm, planner.Straight:
		before := at.counter
		at.counter += minutes
		if before <= k.limit.Minutes && at.counter > k.limit.Minutes && !k.said[what] {
			k.said[what] = true
			k.broken(RuleClocks, j.key, "Between %s and %s the food comes to %s on the counter in all; the limit is %s.",
				j.label, until, words.Length(at.counter), k.limit)
		}
	case planner.Refrigerator:
		at = at.cooled(minutes)
		if most := safety.RefrigeratorLimit(food.Kind); most.Applies() && at.longest() > most.Minutes {
			if !at.overdue && !k.said[what] {
				k.said[what] = true
				k.broken(RuleClocks, j.key, "Between %s and %s the food comes to %s in the refrigerator in all; the limit is %s.",
					j.label, until, words.Length(at.longest()), most)
			}
			at.overdue = true
		}
	}
	return at
}

func (a clock) cooled(minutes int) clock {
	if a.raw != none {
		a.raw += minutes
	}
	if a.cooked != none {
		a.cooked += minutes
	}
	return a
}

func (a clock) longest() int { return max(a.raw, a.cooked, 0) }

func (c *checker) hotHold(w *workStep, wait *planner.Wait) {
	if wait == nil || wait.State != planner.HotHold || wait.Hold.KeepsHot() || len(w.jobs) == 0 {
		return
	}
	c.broken(RuleClocks, w.jobs[0].key, "After %s nothing keeps the food at %s: name a hot place, a burner or a hot "+
		"enough oven.", w.jobs[0].label, safety.HotHold().Figure())
}

// partCooked names part-cooked food that neither goes straight on nor is held hot.
func (c *checker) partCooked(w *workStep, j *workJob, state planner.State, minutes int) bool {
	if !w.step.Leaves.PartCooked || state == planner.HotHold || minutes <= 0 || j.settled {
		return false // what is done may have waited already; its clock still counts
	}
	c.broken(RuleClocks, j.key, "%s leaves food part-cooked, and it waits %s; it must go straight on or be held hot (%s).",
		j.label, words.Length(minutes), safety.PartialCooking().Source)
	return true
}
