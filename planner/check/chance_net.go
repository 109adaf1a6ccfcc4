package check

import (
	"cmp"
	"slices"
	"time"

	"tureen/planner"
)

// newPlay reads the network off a plan: the waits of the food, whose hands come free when, which things, and the order
// of the courses. What is short of nothing waits for nobody.
func newPlay(p *planner.Party, plan *planner.Plan) *play {
	b := &playBuilder{c: newChecker(p, plan), of: map[*workJob]int{}}
	b.minutes = func(t time.Time) float64 { return t.Sub(plan.Made).Minutes() }
	for _, j := range b.c.jobs {
		if !j.gone {
			b.jobs = append(b.jobs, j)
		}
	}
	slices.SortStableFunc(b.jobs, func(x, y *workJob) int {
		return cmp.Or(x.start.Compare(y.start), x.end.Compare(y.end), cmp.Compare(x.key, y.key))
	})
	for i, j := range b.jobs {
		b.of[j] = i
		b.tasks = append(b.tasks, b.task(p, j))
	}
	b.foodWaits()
	b.chores()
	b.people()
	b.things()
	b.services()
	return &b.play
}

type playBuilder struct {
	play
	c       *checker
	jobs    []*workJob
	of      map[*workJob]int
	minutes func(time.Time) float64
}

// task is a job with its range of lengths, in proportion to the length that is planned.
func (b *playBuilder) task(p *planner.Party, j *workJob) playedTask {
	t := playedTask{key: j.key, start: b.minutes(j.start), end: b.minutes(j.end)}
	planned := t.end - t.start
	t.low, t.mode, t.high = planned, planned, planned
	t.fixed = j.work != nil && j.work.Progress == planner.Done
	span := planner.Span{}
	if j.chore != nil {
		span = j.chore.Time
	} else if j.of != nil {
		span = j.of.step.Time
	}
	if span.Likely > 0 && !t.fixed {
		t.low = planned * float64(min(span.Low, span.Likely)) / float64(span.Likely)
		t.high = planned * float64(max(span.High, span.Likely)) / float64(span.Likely)
	}
	if j.work != nil && j.work.Progress == planner.Started { // it has lasted until now, whatever it was to take
		t.low = max(t.low, -t.start)
		t.mode, t.high = max(t.mode, t.low), max(t.high, t.low)
	}
	return t
}

// after has a task wait for another one, which is planned no later.
func (b *playBuilder) after(first, then *workJob, fromStart bool, lag float64) {
	x, y := b.of[first], b.of[then]
	if x < y && !then.settled { // what has begun has begun
		b.tasks[y].before = append(b.tasks[y].before, playedArc{task: x, fromStart: fromStart, lag: lag})
	}
}

func (b *playBuilder) foodWaits() {
	for _, a := range b.c.arcs {
		for _, first := range a.from.jobs {
			for _, then := range a.to.jobs {
				lag := float64(a.wait.Least)
				if a.wait.State == planner.Straight && len(a.from.jobs)+len(a.to.jobs) > 2 && first != lastEnd(a.from.jobs) {
					continue // with rounds, straight on is about the last of them
				}
				b.after(first, then, false, lag)
			}
		}
	}
	for _, a := range b.c.lags {
		for _, first := range a.from.jobs {
			for _, then := range a.to.jobs {
				b.after(first, then, true, float64(a.wait.Least))
			}
		}
	}
	for _, w := range b.c.steps {
		for i := 1; i < len(w.jobs); i++ {
			b.after(w.jobs[i-1], w.jobs[i], true, float64(w.step.RoundGap))
		}
	}
}

// chores have steps wait for what has to be done by their start, and chores for what they come after.
func (b *playBuilder) chores() {
	named := func(k planner.TaskKey) []*workJob {
		var out []*workJob
		for _, j := range b.jobs {
			if j.key == k || j.of != nil && planner.StepTask(j.of.dish.Key, j.of.step.Key, 1) == k {
				out = append(out, j)
			}
		}
		return out
	}
	for _, j := range b.jobs {
		if j.chore == nil || j.settled { // of what has begun nothing is asked any more
			continue
		}
		for _, by := range j.chore.By {
			for _, then := range named(by.Task) {
				b.after(j, then, false, -float64(by.Offset))
			}
		}
		if j.chore.From != nil {
			for _, first := range named(j.chore.From.Task) {
				b.after(first, j, false, float64(j.chore.From.Offset))
			}
		}
	}
}

// people finish what they have in hand before they take up the next.
func (b *playBuilder) people() {
	busy := func(j *workJob) bool { return j.attention == planner.Hands || j.away }
	for i, first := range b.jobs {
		for _, then := range b.jobs[i+1:] {
			shares := slices.ContainsFunc(first.people, func(k planner.PersonKey) bool {
				return slices.Contains(then.people, k)
			})
			if busy(first) && busy(then) && shares && !then.start.Before(first.end) {
				b.after(first, then, false, 0)
			}
		}
	}
}

// things are waited for where there would be too few if they were given back late; an oven also for its other setting.
func (b *playBuilder) things() {
	var all []holding
	for _, j := range b.jobs {
		all = append(all, b.c.given(j, b.c.needs(j))...)
	}
	for _, then := range all {
		if then.from != then.job.start {
			continue // held by the wait after a task: it begins when the task ends, whatever else does
		}
		for _, first := range all {
			lag, waits := b.takesOver(all, &first, &then)
			if !waits {
				continue
			}
			for _, last := range b.givesBack(&first) {
				b.after(last.job, then.job, last.fromStart, lag)
			}
		}
	}
}

// takesOver says whether a task has to wait until something is given back, and how long after that.
func (b *playBuilder) takesOver(all []holding, first, then *holding) (lag float64, waits bool) {
	if first.job == then.job || first.use.What != then.use.What || first.name != then.name ||
		first.to.After(then.from) || !b.c.p.Kitchen.Binds(then.use.What, then.name) {
		return 0, false
	}
	have, _ := b.c.p.Kitchen.Stock(then.use.What, then.name)
	if then.use.What == planner.AnOven {
		o := b.c.p.Kitchen.Oven(then.name)
		if o == nil {
			return 0, false
		}
		if first.c != then.c {
			return float64(o.Change(first.c, then.c)), true
		}
		have = o.Shelves
	}
	used := first.amount
	for i := range all {
		if h := &all[i]; h.use.What == then.use.What && h.name == then.name && !h.from.After(then.from) &&
			h.to.After(then.from) {
			used += h.amount
		}
	}
	return 0, used > have
}

// givenBack is the instant at which a thing comes free: a task's end or start.
type givenBack struct {
	job       *workJob
	fromStart bool
}

func (b *playBuilder) givesBack(h *holding) []givenBack {
	switch {
	case h.then != nil:
		if last := lastStart(h.then.jobs); last != nil {
			return []givenBack{{last, true}}
		}
	case h.from.After(h.job.start):
		return nil // until it is served: what comes after that is not played
	case h.use.Through != "" && h.job.of != nil:
		if w := b.c.find(h.job.of.dish.Key, h.use.Through); w != nil {
			if last := lastEnd(w.jobs); last != nil && last.end.After(h.job.end) {
				return []givenBack{{last, false}}
			}
		}
	}
	return []givenBack{{h.job, false}}
}

// services come when their dishes are ready and the course before them has had its time.
func (b *playBuilder) services() {
	for _, co := range b.c.p.Courses {
		for _, s := range co.Servings {
			at, ok := b.c.served[servedKey{co.Key, s.Group}]
			if !ok {
				continue
			}
			x := playedServe{course: co.Key, group: s.Group, at: b.minutes(at), beforeServe: -1,
				latest: max(b.minutes(at), b.minutes(s.At.Add(s.Late.Duration())))}
			for _, a := range b.c.serves {
				if a.course != co.Key {
					continue
				}
				for _, j := range a.from.jobs {
					x.before = append(x.before, playedArc{task: b.of[j], lag: float64(a.wait.Least)})
				}
			}
			for i := range b.serves {
				if before := &b.serves[i]; before.group == s.Group && before.course != co.Key && before.at <= x.at {
					x.beforeServe, x.apart = i, min(float64(courseApart), x.at-before.at)
				}
			}
			b.serves = append(b.serves, x)
		}
	}
}
