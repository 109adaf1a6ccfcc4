package check

import (
	"slices"
	"time"

	"tureen/planner"
)

func (c *checker) figures(inForce *planner.Plan) []planner.Level {
	levels := c.p.Levels()
	out := make([]planner.Level, 0, len(levels))
	for _, l := range levels {
		v := c.figure(l, inForce)
		out = append(out, planner.Level{Name: l, Value: v, Bound: v})
	}
	return out
}

// figure is the plan's figure on one level.
func (c *checker) figure(l planner.LevelName, inForce *planner.Plan) int {
	switch l {
	case planner.OnTime:
		return c.onTime()
	case planner.HostFree:
		return c.hostFree()
	case planner.AtBest:
		return c.atBest()
	case planner.Steady:
		return c.steady(inForce)
	case planner.Ahead:
		return c.ahead()
	case planner.Calm:
		return c.calm()
	case planner.Shared:
		return c.shared()
	}
	return c.with(c.plan).finder().tight(len(c.plan.Tasks))
}

func (c *checker) onTime() int {
	sum := 0
	for _, co := range c.p.Courses {
		for _, s := range co.Servings {
			if at, ok := c.served[servedKey{co.Key, s.Group}]; ok {
				sum += planner.CeilDiv(max(gap(s.At, at), gap(at, s.At)), 5)
			}
		}
	}
	return sum
}

func (c *checker) hostFree() int {
	return c.dinnerWork(func(x *planner.Person) bool { return x.Role == planner.Host })
}

// dinnerWork counts the quarters of an hour from shortly before the arrival to the last course in which
// somebody of a kind has hands work.
func (c *checker) dinnerWork(of func(*planner.Person) bool) int {
	var last time.Time
	for _, co := range c.p.Courses {
		for _, s := range co.Servings {
			last = planner.Later(last, s.At)
		}
	}
	if day := c.p.Arrival.Add(48 * time.Hour); last.After(day) {
		last = day // no party lasts so long: this one makes no sense, and shall not take long to say so
	}
	count := 0
	for i := range c.p.People {
		x := &c.p.People[i]
		if !of(x) {
			continue
		}
		for from := c.p.Arrival.Add(-30 * time.Minute); from.Before(last); from = from.Add(15 * time.Minute) {
			to := from.Add(15 * time.Minute)
			if to.After(last) {
				to = last
			}
			if slices.ContainsFunc(c.jobs, func(j *workJob) bool {
				apart := !j.chore.AtDinner() || j.of != nil && j.of.step.Serves()
				return j.handsOf(x.Key) && !apart && overlaps(from, to, j.start, j.end)
			}) {
				count++
			}
		}
	}
	return count
}

// handsOf says whether a task keeps a person's hands busy.
func (j *workJob) handsOf(k planner.PersonKey) bool {
	return !j.gone && j.attention == planner.Hands && slices.Contains(j.people, k)
}

func (c *checker) atBest() int {
	c.followFood()
	sum := 0
	for _, a := range c.arcs {
		if a.passed {
			continue
		}
		for _, p := range a.from.jobs {
			for _, s := range a.to.jobs {
				if p.settled || !s.settled { // else it came too late to wait
					sum += missesBest(a.from.best(a.wait), gap(p.end, s.start))
				}
			}
		}
	}
	for _, a := range c.serves {
		co := c.p.Course(a.course)
		if a.passed || co == nil {
			continue
		}
		for _, s := range co.Servings {
			at, ok := c.served[servedKey{co.Key, s.Group}]
			for _, j := range a.from.jobs {
				if ok {
					sum += missesBest(a.from.best(a.wait), gap(j.end, at))
				}
			}
		}
	}
	return sum
}

// best is a wait after a step with the best time that food has on the counter where nobody has said anything.
func (from *workStep) best(w planner.Wait) *planner.Wait {
	stands := w.State == planner.Counter || w.State == planner.Warm
	if unsaid := (planner.Wait{State: w.State}); w == unsaid && stands && from.food.Perishable {
		w.BestUntil = 30
	}
	return &w
}

// missesBest is how far a gap lies outside a wait's best time, in bands.
func missesBest(w *planner.Wait, g int) int {
	if w.BestFrom == 0 && w.BestUntil == 0 {
		return 0
	}
	miss := max(int(w.BestFrom)-g, 0)
	if w.BestUntil != 0 {
		miss = max(miss, g-int(w.BestUntil))
	}
	switch {
	case miss == 0:
		return 0
	case miss <= 60:
		return 1
	case miss <= 6*60:
		return 2
	case miss <= 24*60:
		return 3
	}
	return 4
}

func (c *checker) steady(inForce *planner.Plan) int {
	if inForce == nil {
		return 0
	}
	sum := 0
	for _, j := range c.jobs {
		was := inForce.Placed(j.key)
		if was == nil || j.settled {
			continue
		}
		if len(was.People) > 0 && len(j.people) > 0 && was.People[0] != j.people[0] {
			sum += 2
		}
		moved := max(gap(was.Start, j.start), gap(j.start, was.Start))
		switch {
		case was.Start.In(c.loc).Format(time.DateOnly) != j.start.In(c.loc).Format(time.DateOnly):
			sum += 3
		case moved > 30:
			sum++
		}
	}
	return sum
}

func (c *checker) shared() int {
	most := 0
	for i := range c.p.People {
		sum := 0
		for _, j := range c.jobs {
			if j.handsOf(c.p.People[i].Key) {
				sum += j.minutes()
			}
		}
		most = max(most, sum)
	}
	return planner.CeilDiv(most, 30)
}
