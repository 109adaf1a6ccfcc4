package check

import (
	"time"

	"tureen/planner"
)

// waitsOf holds how steps follow each other, with the skipped ones passed over.
type waitsOf struct {
	arcs   []*foodArc
	lags   []*foodArc // from start to start: no food waits
	serves []*serveArc
}

// foodArc is a wait of food between two steps that were not skipped.
type foodArc struct {
	from, to *workStep
	wait     planner.Wait
	passed   bool // goes over a skipped step: only its order and the clocks count
	straight bool // was named already, as not straight on or as part-cooked food that waits
}

// serveArc is the wait of a step's food for its service.
type serveArc struct {
	from     *workStep
	course   planner.CourseKey
	wait     planner.Wait
	passed   bool
	straight bool
	complete bool // every serving of the course is in the plan
	first    time.Time
	last     time.Time
}

func (c *checker) find(d planner.DishKey, s planner.StepKey) *workStep {
	for _, w := range c.steps {
		if w.dish.Key == d && w.step.Key == s {
			return w
		}
	}
	return nil
}

// linkWaits reads every After and Serve. What comes after a skipped step comes after the steps before it.
func (c *checker) linkWaits() {
	type link struct {
		from *workStep
		wait planner.Wait
	}
	before := map[*workStep][]link{}
	followed := map[*workStep]bool{}
	for _, w := range c.steps {
		for _, a := range w.step.After {
			d := a.Dish
			if d == "" {
				d = w.dish.Key
			}
			p := c.find(d, a.Step)
			if p == nil || p == w {
				continue
			}
			if a.FromStart {
				if !p.gone && !w.gone {
					c.lags = append(c.lags, &foodArc{from: p, to: w, wait: a.Wait})
				}
				continue
			}
			followed[p] = true
			before[w] = append(before[w], link{p, a.Wait})
		}
	}
	// sources are the steps whose food reaches a step, over skipped ones; busy guards against circles.
	busy := map[*workStep]bool{}
	var hotPlaces func(w *workStep) []*foodArc
	hotPlaces = func(w *workStep) []*foodArc {
		if busy[w] {
			return nil
		}
		busy[w] = true
		defer delete(busy, w)
		var out []*foodArc
		for _, l := range before[w] {
			if !l.from.gone {
				out = append(out, &foodArc{from: l.from, to: w, wait: l.wait})
				continue
			}
			for _, a := range hotPlaces(l.from) {
				out = append(out, &foodArc{from: a.from, to: w, wait: passing(a.wait), passed: true})
			}
		}
		return out
	}
	for _, w := range c.steps {
		serve := w.step.Serve
		if serve == nil && !followed[w] {
			serve = &planner.Wait{State: w.step.Stays()}
		}
		if !w.gone {
			c.arcs = append(c.arcs, hotPlaces(w)...)
			if serve != nil {
				c.serve(w, w.dish.Course, *serve, false)
			}
			continue
		}
		if serve != nil {
			for _, a := range hotPlaces(w) {
				c.serve(a.from, w.dish.Course, passing(a.wait), true)
			}
		}
	}
}

func passing(w planner.Wait) planner.Wait {
	if w.State == planner.Straight {
		return planner.Wait{State: planner.Counter}
	}
	return planner.Wait{State: w.State}
}

func (c *checker) serve(w *workStep, course planner.CourseKey, wait planner.Wait, passed bool) {
	a := &serveArc{from: w, course: course, wait: wait, passed: passed}
	if co := c.p.Course(course); co != nil {
		a.complete = len(co.Servings) > 0
		for _, s := range co.Servings {
			at, ok := c.served[servedKey{course, s.Group}]
			if !ok {
				a.complete = false
				break
			}
			if a.first.IsZero() || at.Before(a.first) {
				a.first = at
			}
			if at.After(a.last) {
				a.last = at
			}
		}
	}
	c.serves = append(c.serves, a)
}

func firstStart(jobs []*workJob) *workJob {
	var first *workJob
	for _, j := range jobs {
		if first == nil || j.start.Before(first.start) {
			first = j
		}
	}
	return first
}

func lastStart(jobs []*workJob) *workJob {
	var last *workJob
	for _, j := range jobs {
		if last == nil || j.start.After(last.start) {
			last = j
		}
	}
	return last
}

func lastEnd(jobs []*workJob) *workJob {
	var last *workJob
	for _, j := range jobs {
		if last == nil || j.end.After(last.end) {
			last = j
		}
	}
	return last
}
