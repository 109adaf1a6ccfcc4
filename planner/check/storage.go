package check

import (
	"time"

	"tureen/planner"
)

// stay is food in the cold.
type stay struct {
	job      *workJob
	from, to time.Time
	ml, flat int
}

// storage checks rule 5.
func (c *checker) storage() {
	volumes := c.p.Volumes()
	for _, state := range []planner.State{planner.Refrigerator, planner.Freezer} {
		ml, flat := c.p.Kitchen.GivenSpace(state)
		if ml < 0 && flat < 0 {
			continue
		}
		stays := c.stays(state, volumes)
		if ml >= 0 {
			c.overfull(stays, ml, func(s *stay) int { return s.ml }, func(s *stay, n int, at time.Time) {
				c.broken(RuleStorage, s.job.key, "At %s the %s would hold %d ml, and has space for %d ml.", c.at(at), state, n, ml)
			})
		}
		if flat >= 0 {
			c.overfull(stays, flat, func(s *stay) int { return s.flat }, func(s *stay, n int, at time.Time) {
				c.broken(RuleStorage, s.job.key, "At %s food would lie flat in %d places of the %s, and it has %d.", c.at(at), n,
					state, flat)
			})
		}
	}
}

// stays lists what is in a cold place when.
func (c *checker) stays(state planner.State, volumes *planner.Volumes) []stay {
	var out []stay
	for _, j := range c.jobs {
		if j.gone {
			continue
		}
		var where planner.State
		var ml, flat int
		if j.chore != nil {
			where, ml, flat = j.chore.Where, j.chore.Leaves.Millilitres, j.chore.Leaves.Flat
		} else {
			where, ml, flat = j.of.step.Where, j.of.ml, j.of.flat
			if w := j.of; ml == 0 {
				covers := max(w.dish.Makes(c.p), 1)
				serves := w.dish.Serves
				if serves <= 0 {
					serves = covers
				}
				ml = planner.CeilDiv(volumes.Of(w.dish, w.step)*covers, serves*w.rounds)
			}
		}
		if where == state && j.start.Before(j.end) {
			out = append(out, stay{j, j.start, j.end, ml, flat})
		}
		if j.of == nil {
			continue
		}
		until := j.end
		for _, a := range c.arcs {
			if last := lastStart(a.to.jobs); a.from == j.of && a.wait.State == state && last != nil {
				until = planner.Later(until, last.start)
			}
		}
		for _, a := range c.serves {
			if a.from == j.of && a.wait.State == state && a.complete {
				until = planner.Later(until, a.last)
			}
		}
		if j.end.Before(until) {
			out = append(out, stay{j, j.end, until, ml, flat})
		}
	}
	return out
}

// overfull names each stretch of time, from the plan's making on, in which more is stored than there is space.
func (c *checker) overfull(stays []stay, spare int, size func(*stay) int, name func(s *stay, n int, at time.Time)) {
	spans := make([]stretch, len(stays))
	for i := range stays {
		s := &stays[i]
		spans[i] = stretch{from: planner.Later(s.from, c.plan.Made), to: s.to, size: size(s)}
	}
	tooMuch(spans, spare, func(i, n int, at time.Time) { name(&stays[i], n, at) })
}
