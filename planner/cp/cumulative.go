package cp

import "math"

// cumulative is a resource shared up to its capacity, by the time-table: a use that is there has a compulsory part,
// from its latest start to its earliest end; where these parts pile up too high for another use, that one gives way.
// Explanations are point-wise (Schutt, Feydy, Stuckey, Wallace, "Explaining the cumulative propagator", 2011): one
// instant is chosen, and only bounds that matter there are named.
//
// The profile is kept from call to call. Where it did not grow, only the uses that changed are looked at; where it did,
// those too that lie over the growth and are too large for it.
type cumulative struct {
	capacity int32
	uses     []use
	byDemand []int32 // the uses, greatest demand first

	changed []int32
	waiting []bool // by use: is in changed

	// profiles are the present one, the last, and under it what it was at the ends of earlier levels.
	profiles []profile
	spare    []profile // memory to use again
}

type use struct {
	interval
	demand int32
}

func (c *cumulative) notice(i int32) {
	if !c.waiting[i] {
		c.waiting[i] = true
		c.changed = append(c.changed, i)
	}
}

func (c *cumulative) forget() {
	for _, i := range c.changed {
		c.waiting[i] = false
	}
	c.changed = c.changed[:0]
}

func (c *cumulative) propagate(e *engine) bool {
	c.recall(e)
	grown := growth{from: math.MaxInt32, to: math.MinInt32}
	ok := true
	for _, i := range c.changed {
		if ok = c.grow(e, i, &grown); !ok {
			break
		}
	}
	e.work += 2 * int64(len(c.changed))
	p := &c.profiles[len(c.profiles)-1]
	for _, i := range c.changed {
		if ok {
			ok = c.push(e, p, &c.uses[i])
		}
	}
	if ok && grown.peak > 0 {
		e.work += int64(len(c.uses)) / 8
		for _, i := range c.byDemand {
			u := &c.uses[i]
			if u.demand+grown.peak <= c.capacity {
				break
			}
			if c.waiting[i] {
				continue
			}
			if ok = c.giveWay(e, p, u, &grown); !ok {
				break
			}
		}
	}
	c.forget()
	return ok
}

// growth is where the profile grew, and how high it is there at most.
type growth struct{ from, to, peak int32 }

// recall drops the profiles of levels that are gone.
func (c *cumulative) recall(e *engine) {
	n := len(c.profiles) - 1
	for ; n > 0; n-- {
		if p := &c.profiles[n]; p.level <= e.level() && e.levels[p.level-1].id == p.id {
			break
		}
		c.spare = append(c.spare, c.profiles[n])
	}
	c.profiles = c.profiles[:n+1]
}

// writable is the present profile, copied if it belongs to an earlier level.
func (c *cumulative) writable(e *engine) *profile {
	p := &c.profiles[len(c.profiles)-1]
	if p.level == e.level() {
		return p
	}
	var q profile
	if n := len(c.spare); n > 0 {
		q, c.spare = c.spare[n-1], c.spare[:n-1]
	}
	q.copyFrom(p)
	q.level = e.level()
	q.id = e.levels[q.level-1].id
	c.profiles = append(c.profiles, q)
	return &c.profiles[len(c.profiles)-1]
}

// grow takes the compulsory part of use i into the profile; it fails where the capacity is exceeded.
func (c *cumulative) grow(e *engine, i int32, grown *growth) bool {
	u := &c.uses[i]
	from, to := e.most(u.s), e.least(u.e)
	if from >= to || !e.isTrue(u.cond) {
		return true
	}
	old := c.profiles[len(c.profiles)-1].part[i]
	if old.from == from && old.to == to {
		return true
	}
	p := c.writable(e)
	p.part[i] = part{from, to}
	if old.from >= old.to {
		return c.raise(e, p, from, to, u.demand, grown)
	}
	return (from == old.from || c.raise(e, p, from, old.from, u.demand, grown)) &&
		(to == old.to || c.raise(e, p, old.to, to, u.demand, grown))
}

func (c *cumulative) raise(e *engine, p *profile, from, to, demand int32, grown *growth) bool {
	height, at := p.raise(from, to, demand)
	e.work += 2
	if height > c.capacity {
		n := e.because()
		c.cover(e, p, at, c.capacity, nil)
		return e.clash(n)
	}
	grown.from, grown.to, grown.peak = min(grown.from, from), max(grown.to, to), max(grown.peak, height)
	return true
}

// push moves u out of the steps that leave it no room.
func (c *cumulative) push(e *engine, p *profile, u *use) bool {
	limit := c.capacity - u.demand
	if p.highest <= limit || e.isFalse(u.cond) {
		return true
	}
	if !e.isTrue(u.cond) {
		return c.refute(e, p, u, limit)
	}
	return c.pushRight(e, p, u, limit, e.least(u.s)) && c.pushLeft(e, p, u, limit, e.most(u.e))
}

// giveWay is push for a use that has not changed: only where the profile grew is there anything new to it.
func (c *cumulative) giveWay(e *engine, p *profile, u *use, grown *growth) bool {
	if e.least(u.s) >= grown.to || e.most(u.e) <= grown.from || e.isFalse(u.cond) {
		return true
	}
	limit := c.capacity - u.demand
	e.work += 2
	if !e.isTrue(u.cond) {
		return c.refute(e, p, u, limit)
	}
	from, to := e.most(u.s), e.least(u.e)
	if grown.from < min(from, to) && !c.pushRight(e, p, u, limit, grown.from) {
		return false
	}
	return max(from, to) >= grown.to || c.pushLeft(e, p, u, limit, grown.to)
}

// pushRight makes u start after the steps, from the instant at on, that it would meet before its latest start. Between
// its latest start and its earliest end it is in the profile itself.
func (c *cumulative) pushRight(e *engine, p *profile, u *use, limit, at int32) bool {
	least, stop := e.least(u.s), min(e.most(u.s), e.least(u.e))
	if at = max(at, least); at >= stop {
		return true
	}
	for i := p.holding(at); i < len(p.steps) && p.steps[i].at < stop; i++ {
		if p.steps[i].height <= limit {
			continue
		}
		for end := p.end(i); least < min(end, stop); {
			t := min(end, stop) - 1
			n := e.because(u.cond, u.e.atLeast(t+1))
			c.cover(e, p, t, limit, u)
			if !e.set(u.s.atLeast(t+1), e.given(n)) {
				return false
			}
			least, stop = e.least(u.s), min(e.most(u.s), e.least(u.e))
		}
	}
	return true
}

// pushLeft makes u end before the steps, from those before the instant at on backward, that it would meet after its
// earliest end.
func (c *cumulative) pushLeft(e *engine, p *profile, u *use, limit, at int32) bool {
	most, start := e.most(u.e), max(e.most(u.s), e.least(u.e))
	if at = min(at, most); at <= start {
		return true
	}
	for i := p.holding(at - 1); i >= 0 && p.end(i) > start; i-- {
		if p.steps[i].height <= limit {
			continue
		}
		for begin := p.steps[i].at; most > max(begin, start); {
			t := max(begin, start)
			n := e.because(u.cond, u.s.atMost(t))
			c.cover(e, p, t, limit, u)
			if !e.set(u.e.atMost(t), e.given(n)) {
				return false
			}
			most, start = e.most(u.e), max(e.most(u.s), e.least(u.e))
		}
	}
	return true
}

// refute drops a use that may be absent and would have to run where there is no room.
func (c *cumulative) refute(e *engine, p *profile, u *use, limit int32) bool {
	from, to := e.most(u.s), e.least(u.e)
	if from >= to {
		return true
	}
	for i := p.holding(from); i < len(p.steps) && p.steps[i].at < to; i++ {
		if p.steps[i].height > limit {
			t := max(p.steps[i].at, from)
			n := e.because(u.s.atMost(t), u.e.atLeast(t+1))
			c.cover(e, p, t, limit, u)
			return e.set(u.cond.not(), e.given(n))
		}
	}
	return true
}

// cover appends to the arena why more than limit is in use at t, by uses other than skip.
func (c *cumulative) cover(e *engine, p *profile, t, limit int32, skip *use) {
	sum := int32(0)
	for i := range p.part {
		if q := p.part[i]; t < q.from || q.to <= t {
			continue
		}
		u := &c.uses[i]
		if u == skip {
			continue
		}
		e.arena = append(e.arena, u.s.atMost(t), u.e.atLeast(t+1), u.cond)
		sum += u.demand
		if sum > limit {
			e.work += int64(i) / 4
			return
		}
	}
	panic("cp: the profile promised a higher use than its tasks make up")
}
