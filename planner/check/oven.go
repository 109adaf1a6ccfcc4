package check

import (
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// load is something in an oven.
type load struct {
	holding
	oven        *planner.Oven
	first, last int // settings at its start and end
	alone       bool
}

// ovens checks rule 4 for ovens.
func (c *checker) ovens(held []holding) {
	var loads []*load
	for _, h := range held {
		if h.use.What != planner.AnOven {
			continue
		}
		i := slices.IndexFunc(c.p.Kitchen.Ovens, func(o planner.Oven) bool { return o.Name == h.name })
		if i < 0 {
			c.broken(RuleEquipment, h.job.key, "%s is put into the oven %q, which the kitchen has not.", h.job.label(), h.name)
			continue
		}
		l := &load{holding: h, oven: &c.p.Kitchen.Ovens[i], first: h.c, last: h.c}
		if n := len(h.use.Then); n > 0 {
			l.last, l.alone = h.use.Then[n-1].C, true
		}
		if !l.job.settled {
			c.setting(l)
		}
		loads = append(loads, l)
	}
	for i := range c.p.Kitchen.Ovens {
		o := &c.p.Kitchen.Ovens[i]
		var in []*load
		for _, l := range loads {
			if l.oven == o {
				in = append(in, l)
			}
		}
		slices.SortStableFunc(in, func(a, b *load) int { return a.from.Compare(b.from) })
		c.oven(o, in)
	}
}

// setting checks that a load's setting is within its tolerance and the oven's range.
func (c *checker) setting(l *load) {
	off := l.first - l.use.C
	if l.use.C == 0 && l.first != 0 || l.use.C != 0 && (off < -l.use.Tolerance || off > l.use.Tolerance) {
		c.broken(RuleEquipment, l.job.key, "%s wants %d °C in the oven, and the plan sets it to %d °C.", l.job.label(),
			l.use.C,
			l.first)
		return
	}
	all := []int{l.first}
	for _, st := range l.use.Then {
		all = append(all, st.C)
	}
	for _, t := range all {
		if t != 0 && (t < l.oven.MinC || t > l.oven.MaxC) {
			c.broken(RuleEquipment, l.job.key, "%s wants %d °C, which %s does not reach (%d to %d °C).", l.job.label(), t,
				l.oven.Name, l.oven.MinC, l.oven.MaxC)
			return
		}
	}
}

// oven checks the loads of one oven, in order of their start.
func (c *checker) oven(o *planner.Oven, in []*load) {
	for i, a := range in {
		for _, b := range in[i+1:] {
			if a.job.settled && b.job.settled {
				continue
			}
			if overlaps(a.from, a.to, b.from, b.to) {
				c.together(o, a, b)
			} else if need, g := int(o.Change(a.last, b.first)), gap(a.to, b.from); a.last != b.first && g < need &&
				!c.staysFor(a, b) {
				c.broken(RuleEquipment, b.job.key, "%s goes into %s %s after %s comes out; from %d to %d °C takes %s.",
					b.job.label(), o.Name, words.Length(g), a.job.label(), a.last, b.first, words.Length(need))
			}
		}
	}
	hot := slices.ContainsFunc(in, func(l *load) bool {
		return l.job.settled && !l.from.After(c.plan.Made) && l.to.After(c.plan.Made)
	})
	for _, l := range in {
		if need := o.PreheatTo(l.first); !hot && !c.heating(o, l) && !l.job.settled &&
			l.from.Before(c.plan.Made.Add(need.Duration())) && !l.from.Before(c.plan.Made) {
			c.broken(RuleEquipment, l.job.key, "%s goes into %s at %s, before it can be hot: preheating takes %s from %s on.",
				l.job.label(), o.Name, c.at(l.from), words.Length(need), c.at(c.plan.Made))
		}
	}
	var shelves []holding
	for _, l := range in {
		shelves = append(shelves, l.holding)
	}
	c.excess(shelves, o.Shelves, func(h *holding, n, have int, at time.Time) {
		c.broken(RuleEquipment, h.job.key, "At %s %d shelves of %s are in use, and it has %d.", c.at(at), n, o.Name, have)
	})
}

// staysFor says that the food of a stays in the oven for b while the setting changes: b is the wait after it, or,
// in an evening plan, the step after its wait.
func (c *checker) staysFor(a, b *load) bool {
	goesOn := a.job == b.job || c.plan.Soft && a.then != nil && a.then == b.job.of
	return goesOn && a.to.Equal(b.from)
}

// heating says that the oven was on when the plan was made, so that the load need not wait for it to heat from cold.
func (c *checker) heating(o *planner.Oven, l *load) bool {
	return slices.ContainsFunc(c.plan.Heating, func(h planner.Held) bool {
		return h.Name == o.Name && !l.from.Before(h.To.Add(o.Change(h.C, l.first).Duration()))
	})
}

// together checks two loads that are in an oven at one time.
func (c *checker) together(o *planner.Oven, a, b *load) {
	switch {
	case a.alone || b.alone:
		c.broken(RuleEquipment, b.job.key, "%s and %s are in %s at %s, but one of them changes its temperature and needs "+
			"it alone.",
			a.job.label(), b.job.label(), o.Name, c.at(planner.Later(a.from, b.from)))
		return
	case a.first != b.first:
		c.broken(RuleEquipment, b.job.key, "%s at %d °C and %s at %d °C are in %s together at %s.",
			a.job.label(), a.first, b.job.label(), b.first, o.Name, c.at(planner.Later(a.from, b.from)))
		return
	}
	for _, pair := range [][2]*load{{a, b}, {b, a}} {
		shut, other := pair[0], pair[1]
		if !shut.use.Shut {
			continue
		}
		for _, t := range []time.Time{other.from, other.to} {
			if t.After(shut.from) && t.Before(shut.to) {
				c.broken(RuleEquipment, other.job.key, "%s opens %s at %s, while %s needs its door shut.", other.job.label(),
					o.Name,
					c.at(t), shut.job.label())
				return
			}
		}
	}
}
