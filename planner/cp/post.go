package cp

import (
	"cmp"
	"slices"
)

// How each constraint of a problem becomes clauses, lags and propagators of an engine.

// lag adds: to ≥ from + d when cond.
func (c *compiler) lag(from, to instant, d int32, cond atom) {
	d += from.off - to.off
	switch {
	case c.e.isFalse(cond):
	case from.w == to.w:
		if d > 0 {
			c.clause([]atom{cond.not()})
		}
	case from.w == c.zero:
		c.implied(cond, atom{to.w, d})
	case to.w == c.zero:
		c.implied(cond, atom{from.w ^ 1, d})
	case c.e.isTrue(cond):
		c.e.addLag(from.w, to.w, d)
	default:
		c.e.addCondLag(from.w, to.w, d, cond)
	}
}

// objective makes a view of the level's value: the variable itself if it is one with coefficient 1 or −1, else a
// helper that the sum bounds from below.
func (c *compiler) objective(i int, l Level) objective {
	off := int32(l.Const)
	terms := c.gather(l.Terms)
	switch {
	case len(terms) == 0:
		return objective{c.zero, off}
	case len(terms) == 1 && terms[0].coef == 1:
		return objective{terms[0].w, off}
	}
	lo, hi := c.p.sumBounds(l.Terms)
	z := c.variable(lo, hi)
	c.e.proof.line("h x%d level %d", z.variable(), i)
	c.linear(l.Terms, z^1, 1, 0, c.always())
	return objective{z, off}
}

// gather sums the terms by variable and gives each its view with a positive coefficient.
func (c *compiler) gather(terms []Term) (out []term) {
	index := map[Var]int{}
	var sums []Term
	for _, t := range terms {
		i, ok := index[t.X]
		if !ok {
			i = len(sums)
			index[t.X] = i
			sums = append(sums, Term{X: t.X})
		}
		sums[i].Coef += t.Coef
	}
	for _, t := range sums {
		switch w := viewOf(t.X); {
		case t.Coef > 0:
			out = append(out, term{w, int64(t.Coef)})
		case t.Coef < 0:
			out = append(out, term{w ^ 1, int64(-t.Coef)})
		}
	}
	return out
}

// linear adds Σ terms + coef·extra ≤ max when cond; coef 0 is no extra term.
func (c *compiler) linear(terms []Term, extra view, coef, max int64, cond atom) {
	l := &linear{id: int32(len(c.e.props)), max: max, cond: cond}
	l.terms = c.gather(terms)
	if coef > 0 {
		l.terms = append(l.terms, term{extra, coef})
	}
	most := int64(0)
	views := []view{cond.w}
	for _, t := range l.terms {
		most += t.coef * int64(-c.e.lo[t.w^1])
		views = append(views, t.w)
	}
	if most > max && !c.e.isFalse(cond) {
		c.post(l, views...)
	}
}

func (c *compiler) interval(s, e Point, conds []Lit) interval {
	return interval{c.point(s), c.point(e), c.all(conds)}
}

// views are all that can change what is known of the interval.
func (i interval) views() []view { return []view{i.s.w, i.s.w ^ 1, i.e.w, i.e.w ^ 1, i.cond.w} }

func (c *compiler) cumulative(r Cumulative) {
	k := &cumulative{capacity: int32(r.Capacity)}
	sum := 0
	for _, u := range r.Uses {
		x := use{c.interval(u.Start, u.End, u.If), int32(u.Demand)}
		if u.Demand == 0 || c.e.isFalse(x.cond) {
			continue
		}
		if u.Demand > r.Capacity {
			c.lag(x.e, x.s, 0, x.cond) // can only be empty
			continue
		}
		sum += u.Demand
		k.uses = append(k.uses, x)
	}
	if sum <= r.Capacity {
		return
	}
	c.energy(k)
	c.post(k)
	k.waiting = make([]bool, len(k.uses))
	k.profiles = []profile{newProfile(len(k.uses))}
	for i, u := range k.uses {
		k.byDemand = append(k.byDemand, int32(i))
		c.subscribe(int32(i), u.views()...)
		k.notice(int32(i))
	}
	slices.SortStableFunc(k.byDemand, func(i, j int32) int { return cmp.Compare(k.uses[j].demand, k.uses[i].demand) })
}

// energy posts the energetic view of a resource, in both directions of time.
func (c *compiler) energy(k *cumulative) {
	for _, mirrored := range []bool{false, true} {
		g := &energy{capacity: k.capacity}
		var views []view
		for _, u := range k.uses {
			if u.cond != c.always() || u.s.w != u.e.w {
				continue
			}
			t := brick{u.s, u.e.off - u.s.off, u.demand}
			if t.d <= 0 {
				continue
			}
			if mirrored {
				t.s = instant{u.e.w ^ 1, -u.e.off}
			}
			g.byStart = append(g.byStart, int32(len(g.tasks)))
			g.tasks = append(g.tasks, t)
			views = append(views, t.s.w, t.s.w^1)
		}
		if len(g.tasks) > 2 {
			g.byEnd = append(g.byEnd, g.byStart...)
			g.now = make([]shape, len(g.tasks))
			c.post(g, views...)
		}
	}
}

func (c *compiler) disjunctive(r Disjunctive) {
	d := &disjunctive{others: make([][]other, len(r.Tasks)), waiting: make([]bool, len(r.Tasks))}
	for _, t := range r.Tasks {
		d.tasks = append(d.tasks, c.interval(t.Start, t.End, t.If))
	}
	gap := func(i, j int) int32 {
		if r.Setup == nil {
			return 0
		}
		return int32(r.Setup[r.Tasks[i].Kind][r.Tasks[j].Kind])
	}
	for i := range d.tasks {
		for j := range d.tasks {
			if i != j && !c.e.isFalse(d.tasks[i].cond) && !c.e.isFalse(d.tasks[j].cond) {
				d.others[i] = append(d.others[i], other{int32(j), gap(i, j), gap(j, i)})
			}
		}
	}
	c.post(d)
	for i, t := range d.tasks {
		if len(d.others[i]) > 0 {
			c.subscribe(int32(i), t.views()...)
			d.notice(int32(i))
		}
	}
}

func (c *compiler) guard(r Guard) {
	g := &guard{watch: interval{c.point(r.Start), c.point(r.End), c.always()}}
	views := g.watch.views()
	for _, w := range r.Watchers {
		x := watcher{off: joined(w.Off)}
		for _, b := range w.Busy {
			iv := c.interval(b.Start, b.End, b.If)
			x.busy = append(x.busy, iv)
			views = append(views, iv.views()...)
		}
		g.watchers = append(g.watchers, x)
	}
	c.post(g, views...)
}

func (c *compiler) maximum(r Maximum) {
	m := &maximum{cond: c.all(r.If)}
	flip := func(p Point) instant {
		i := c.point(p)
		if r.Least {
			return instant{i.w ^ 1, -i.off}
		}
		return i
	}
	m.y = flip(r.Y)
	views := []view{m.y.w, m.cond.w}
	for _, x := range r.Xs {
		i := flip(x)
		m.xs = append(m.xs, i)
		c.lag(i, m.y, 0, m.cond)
		views = append(views, i.w^1)
	}
	c.post(m, views...)
}
