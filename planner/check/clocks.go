package check

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"tureen/planner"
	"tureen/planner/propose"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

func itoa(n int) string { return strconv.Itoa(n) }

// clock is how long the food of a task has stood, along the longest path to its end.
type clock struct {
	counter int
	cold    map[trace.Cold]int // in the refrigerator, of each sort of food that there is
	stood   bool               // the counter's limit was passed on the way and has been named
	overdue bool               // so was a refrigerator's
}

// clocks checks rule 2.
func (c *checker) clocks() {
	c.followFood()
	c.journeys()
	k := &clockwork{checker: c, limit: c.p.CounterLimit(), done: map[*workStep][]clock{}, said: map[any]bool{}}
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
			k.onTable(a, j, k.waited(a, a.from, j, at, a.wait.State, gap(j.end, a.last), lastService))
			a.straight = a.straight || c.partCooked(a.from, j, a.wait.State, gap(j.end, a.last), false)
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
				a.straight = a.straight || c.partCooked(a.from, p, a.wait.State, gap(p.end, s.start),
					a.from.food.ToFinish)
			}
		}
	}
}

// followFood says of every step what food it leaves.
func (c *checker) followFood() {
	c.follow(c.p)
	for _, w := range c.steps {
		w.food = c.foods.Leaves(w.dish.Key, w.step.Key)
		w.hot = c.hot[planner.StepTask(w.dish.Key, w.step.Key, 1)]
	}
}

// journeys names what is brought and has been out of the cold for too long before anything is done with it here. On the
// evening itself it is there, or on its way.
func (c *checker) journeys() {
	for i := range c.p.Dishes {
		d := &c.p.Dishes[i]
		way, limit := int(c.foods.OnTheWay(d)), c.p.CounterLimit()
		if way == 0 || c.plan.Soft {
			continue
		}
		if long := c.table[d.Key]; long > 0 && len(d.Steps) == 0 && way+long > limit.Minutes {
			c.broken(RuleClocks, "", "On its way and on the table %s is out of the cold for %s; the limit is %s.", d.Name,
				words.Length(way+long), limit)
		} else if way > limit.Minutes {
			c.broken(RuleClocks, "", "On its way %s is out of the cold for %s; the limit is %s.", d.Name, words.Length(way),
				limit)
		}
	}
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
		way := 0
		if !slices.ContainsFunc(w.step.After, func(a planner.After) bool { return a.Dish == "" && !a.FromStart }) {
			way = int(k.foods.OnTheWay(w.dish))
		}
		in := clock{counter: way, cold: map[trace.Cold]int{}}
		reached, keepsHot := false, k.keepsHot(w)
		for _, a := range k.arcs {
			if a.to != w {
				continue
			}
			for n, at := range k.ends(a.from) {
				if j.settled && !a.from.jobs[n].settled {
					continue // it comes too late for this
				}
				at = k.waited(a, a.from, a.from.jobs[n], at, a.wait.State, gap(a.from.jobs[n].end, j.start),
					j.label)
				if keepsHot && !reached && way == 0 {
					in.counter = at.counter
				}
				in.counter, reached = max(in.counter, at.counter), true
				for sort, minutes := range at.cold {
					in.cold[sort] = max(in.cold[sort], minutes)
				}
				in.stood, in.overdue = in.stood || at.stood, in.overdue || at.overdue
			}
		}
		out[i] = k.worked(w, j, in)
		k.soonCold(w, j, out[i])
	}
	k.done[w] = out
	return out
}

// soonCold names cooked food that comes into the cold too late.
func (k *clockwork) soonCold(w *workStep, j *workJob, at clock) {
	soon := k.soon[planner.StepTask(w.dish.Key, w.step.Key, 1)]
	if most, bound := k.soonMost(w, j); bound && at.counter > most && !k.said[j] && !at.stood {
		k.said[j] = true
		what := "cooked food"
		if soon.Limit == safety.IntoTheCold(safety.Rice, float64(k.p.AirC())) {
			what = "cooked rice, or what it was mixed with,"
		}
		k.broken(RuleClocks, j.key, "At the end of %s %s has been on the counter for %s and is to be in the cold "+
			"%s after it left the heat%s (%s), the time to steam off included.", j.label(), what, words.Length(at.counter),
			soon.Limit.Figure(), soon.Limit.Air(), soon.Limit.Source)
	}
}

// soonMost is how long the food of a step may have been on the counter by its end where it goes into the cold next.
func (k *clockwork) soonMost(w *workStep, j *workJob) (minutes int, bound bool) {
	soon, bound := k.soon[planner.StepTask(w.dish.Key, w.step.Key, 1)]
	if j.settled {
		return soon.Limit.Minutes, bound // steaming off is no duty: it goes into the cold at once
	}
	return soon.Most, bound
}

// onTable adds the time that food stands out once it is served.
func (k *clockwork) onTable(a *serveArc, j *workJob, at clock) {
	if long := k.table[a.from.dish.Key]; long > 0 && a.from.food.Perishable {
		at.counter = max(at.counter, 0) + long
		k.stood(a, a.from, j, at, func() string {
			return fmt.Sprintf("With %s that it stands out, the food after %s comes to %s on the counter in all",
				words.Length(long), j.label(), words.Length(at.counter))
		})
	}
}

// keepsHot says whether what is left of the minutes in which a joint is hot by itself still counts in a step: it stands
// on the counter there as on the way to it, and nothing that spoils joins it.
func (k *clockwork) keepsHot(w *workStep) bool {
	if w.step.Where != planner.Counter || w.food.Hot || w.food.Joined {
		return false
	}
	return !slices.ContainsFunc(k.arcs, func(a *foodArc) bool { return a.to == w && !onCounter(a.wait.State) })
}

// most is how long the food of a step may be on the counter.
func (k *clockwork) most(w *workStep) int {
	if w.food.Dough {
		return 2 * k.limit.Minutes
	}
	return k.limit.Minutes
}

// worked adds a task's own time to the clocks, and leaves those of the food that it leaves.
func (k *clockwork) worked(w *workStep, j *workJob, in clock) clock {
	at := clock{counter: in.counter, cold: map[trace.Cold]int{}, stood: in.stood, overdue: in.overdue}
	for _, sort := range w.food.Colds() {
		at.cold[sort] = in.cold[sort]
	}
	if !w.food.Perishable {
		return at
	}
	switch {
	case w.step.Where == planner.Counter && !w.food.Hot:
		warm := j.minutes()
		if w.warm >= 0 {
			warm = min(warm, w.warm)
			at.cool(j.minutes() - warm)
		}
		at.counter += warm
	case w.step.Where == planner.Refrigerator:
		for sort := range at.cold {
			at.cold[sort] += max(0, j.minutes()-propose.FrozenIn(k.p, w.dish, w.step, sort.Kind))
		}
	}
	at.overdue = k.cooled(w, w, j, at, func() string {
		return fmt.Sprintf("At the end of %s its food has been", j.label())
	})
	if w.food.Anew {
		at.counter = -w.hot
	}
	at.stood = k.stood(w, w, j, at, func() string {
		return fmt.Sprintf("At the end of %s its food has been on the counter for %s in all", j.label(),
			words.Length(at.counter))
	})
	return at
}

// stood names the counter's limit where a step's food has passed it, once on its way, and says whether it has: with the
// step's own time, or because what rose for so long is a dough no more.
func (k *clockwork) stood(what any, w *workStep, j *workJob, at clock, how func() string) bool {
	if at.counter <= k.most(w) {
		return at.stood
	}
	if !at.stood && !k.said[what] {
		k.said[what] = true
		k.broken(RuleClocks, j.key, "%s; the limit is %s.", how(), k.allowed(w))
	}
	return true
}

// allowed is the limit on the counter for a step's food, with its source.
func (k *clockwork) allowed(w *workStep) string {
	if w.food.Dough {
		return fmt.Sprintf("%s for a raw dough, our own figure; published is %s", words.Length(k.most(w)), k.limit)
	}
	return k.limit.String()
}

// cooled names the first limit of the refrigerator that a step's food has passed, and says whether one was passed.
func (k *clockwork) cooled(what any, w *workStep, j *workJob, at clock, where func() string) bool {
	for _, sort := range w.food.Colds() {
		most := k.p.RefrigeratorLimit(sort.Kind)
		if !most.Applies() || at.cold[sort] <= most.Minutes {
			continue
		}
		if !at.overdue && !k.said[what] {
			k.said[what] = true
			k.broken(RuleClocks, j.key, "%s %s in the refrigerator in all; the limit for %s is %s.", where(),
				words.Length(at.cold[sort]), w.food.Label(sort), most)
		}
		return true
	}
	return at.overdue
}

// waited adds a wait after a task to the clocks; what names the wait, so that it is reported once.
func (k *clockwork) waited(what any, w *workStep, j *workJob, at clock, state planner.State, minutes int,
	until func() string) clock {
	if !w.food.Perishable || minutes <= 0 {
		return at
	}
	at.cold = maps.Clone(at.cold)
	switch state {
	case planner.Counter, planner.Warm, planner.Straight:
		at.counter += minutes
		at.stood = k.stood(what, w, j, at, func() string {
			return fmt.Sprintf("Between %s and %s the food comes to %s on the counter in all", j.label(), until(),
				words.Length(at.counter))
		})
	case planner.Refrigerator:
		at.cool(minutes)
		at.overdue = k.cooled(what, w, j, at, func() string {
			return fmt.Sprintf("Between %s and %s the food comes to", j.label(), until())
		})
	}
	return at
}

// lastService says until when food waits that is served.
func lastService() string { return "the last service" }

func (a clock) cool(minutes int) {
	for sort := range a.cold {
		a.cold[sort] += minutes
	}
}

func (c *checker) hotHold(w *workStep, wait *planner.Wait) {
	if wait == nil || wait.State != planner.HotHold || wait.Hold.KeepsHot() || len(w.jobs) == 0 {
		return
	}
	c.broken(RuleClocks, w.jobs[0].key, "After %s nothing keeps the food at %s: name a hot place, a burner or a hot "+
		"enough oven.", w.jobs[0].label(), safety.HotHold().Figure())
}

// partCooked names part-cooked food that a later step is to finish and that neither goes straight on nor is held hot,
// or that is chilled.
func (c *checker) partCooked(w *workStep, j *workJob, state planner.State, minutes int, finished bool) bool {
	chilled := state == planner.Refrigerator || state == planner.Freezer
	if !w.food.PartCooked || !finished && !chilled || state == planner.HotHold || minutes <= 0 || j.settled {
		return false // what is done may have waited already; its clock still counts
	}
	c.broken(RuleClocks, j.key, "%s leaves food part-cooked, and it waits %s; it must be cooked through at once (%s).",
		j.label(), words.Length(minutes), safety.PartialCooking().Source)
	return true
}
