package cp

// cumulative is a resource shared up to its capacity, by the time-table: a use that is there has a compulsory part,
// from its latest start to its earliest end; where these parts pile up too high for another use, that one gives way.
// Explanations are point-wise (Schutt, Feydy, Stuckey, Wallace, "Explaining the cumulative propagator", 2011): one
// instant is chosen, and only bounds that matter there are named.
//
// A use that changed without having a compulsory part leaves the profile as it was: then only that use is looked at.
type cumulative struct {
	capacity int32
	uses     []use

	changed []int32
	waiting []bool // by use: is in changed

	starts, ends []keyed // all uses by latest start and by earliest end, nearly in order from the last time
	inside       []bool  // by use: has a compulsory part

	segments []segment
	highest  int32 // greatest height of a segment
	built    int64 // engine.undone when the segments were made: they hold until the search goes back
}

type use struct {
	interval
	demand int32
}

// segment is a stretch [from, to) of the profile with one height.
type segment struct{ from, to, height int32 }

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
	same := true
	for _, i := range c.changed {
		c.waiting[i] = false
		u := &c.uses[i]
		same = same && (e.most(u.s) >= e.least(u.e) || !e.isTrue(u.cond))
	}
	e.work += int64(len(c.changed))
	if !same || c.built != e.undone {
		e.work += int64(len(c.uses)) / 2
		if !c.build(e) {
			c.changed = c.changed[:0]
			return false
		}
	}
	ok := true
	if same {
		for _, i := range c.changed {
			if ok = c.push(e, &c.uses[i]); !ok {
				break
			}
		}
	} else if len(c.segments) > 0 {
		e.work += int64(len(c.uses)) / 2
		for i := range c.uses {
			if ok = c.push(e, &c.uses[i]); !ok {
				break
			}
		}
	}
	c.changed = c.changed[:0]
	return ok
}

// keyed is a use with the instant it is sorted by.
type keyed struct{ t, use int32 }

// sortKeyed is insertion sort: the order of the last time is nearly right.
func sortKeyed(ks []keyed) {
	for i := 1; i < len(ks); i++ {
		k := ks[i]
		j := i
		for ; j > 0 && ks[j-1].t > k.t; j-- {
			ks[j] = ks[j-1]
		}
		ks[j] = k
	}
}

// build makes the profile; it fails where the compulsory parts alone exceed the capacity.
func (c *cumulative) build(e *engine) bool {
	c.segments, c.highest, c.built = c.segments[:0], 0, -1
	for i := range c.starts {
		k := &c.starts[i]
		u := &c.uses[k.use]
		k.t = e.most(u.s)
		c.inside[k.use] = k.t < e.least(u.e) && e.isTrue(u.cond)
	}
	for i := range c.ends {
		k := &c.ends[i]
		k.t = e.least(c.uses[k.use].e)
	}
	sortKeyed(c.starts)
	sortKeyed(c.ends)
	height, from := int32(0), int32(0)
	for i, j := 0, 0; j < len(c.ends); {
		for i < len(c.starts) && !c.inside[c.starts[i].use] {
			i++
		}
		if !c.inside[c.ends[j].use] {
			j++
			continue
		}
		t := c.ends[j].t
		if i < len(c.starts) {
			t = min(t, c.starts[i].t)
		}
		if height > 0 && from < t {
			if !c.segment(e, from, t, height) {
				return false
			}
		}
		from = t
		for ; i < len(c.starts) && c.starts[i].t == t; i++ {
			if u := c.starts[i].use; c.inside[u] {
				height += c.uses[u].demand
			}
		}
		for ; j < len(c.ends) && c.ends[j].t == t; j++ {
			if u := c.ends[j].use; c.inside[u] {
				height -= c.uses[u].demand
			}
		}
	}
	c.built = e.undone
	return true
}

// segment appends a segment, or fails if it is too high.
func (c *cumulative) segment(e *engine, from, to, height int32) bool {
	if height > c.capacity {
		n := e.because()
		c.cover(e, from+(to-from)/2, c.capacity, nil)
		return e.clash(n)
	}
	c.segments = append(c.segments, segment{from, to, height})
	c.highest = max(c.highest, height)
	return true
}

// firstEndingAfter is the first segment whose end lies after t.
func (c *cumulative) firstEndingAfter(t int32) int {
	lo, hi := 0, len(c.segments)
	for lo < hi {
		if m := int(uint(lo+hi) >> 1); c.segments[m].to > t {
			hi = m
		} else {
			lo = m + 1
		}
	}
	return lo
}

// push moves u out of the segments that leave it no room.
func (c *cumulative) push(e *engine, u *use) bool {
	limit := c.capacity - u.demand
	if c.highest <= limit || e.isFalse(u.cond) {
		return true
	}
	least, most := e.least(u.s), e.most(u.e)
	from, to := e.most(u.s), e.least(u.e)
	if least == from && most == to && e.isTrue(u.cond) {
		return true // fixed and in the profile
	}
	if !e.isTrue(u.cond) {
		return c.refute(e, u, limit)
	}
	own := func(s *segment) bool { return from <= s.from && s.to <= to }
	for i := c.firstEndingAfter(least); i < len(c.segments) && c.segments[i].from < e.least(u.e); i++ {
		s := &c.segments[i]
		if s.height <= limit || own(s) {
			continue
		}
		for e.least(u.s) < s.to {
			t := min(s.to, e.least(u.e)) - 1
			if t < s.from || t < e.least(u.s) {
				break
			}
			n := e.because(u.cond, u.e.atLeast(t+1))
			c.cover(e, t, limit, u)
			if !e.set(u.s.atLeast(t+1), e.given(n)) {
				return false
			}
		}
	}
	last := c.firstEndingAfter(most - 1)
	if last == len(c.segments) || c.segments[last].from >= most {
		last--
	}
	for i := last; i >= 0 && c.segments[i].to > e.most(u.s); i-- {
		s := &c.segments[i]
		if s.height <= limit || own(s) {
			continue
		}
		for e.most(u.e) > s.from {
			t := max(s.from, e.most(u.s))
			if t >= s.to || t >= e.most(u.e) {
				break
			}
			n := e.because(u.cond, u.s.atMost(t))
			c.cover(e, t, limit, u)
			if !e.set(u.e.atMost(t), e.given(n)) {
				return false
			}
		}
	}
	return true
}

// refute drops a use that may be absent and would have to run where there is no room.
func (c *cumulative) refute(e *engine, u *use, limit int32) bool {
	from, to := e.most(u.s), e.least(u.e)
	if from >= to {
		return true
	}
	for i := c.firstEndingAfter(from); i < len(c.segments) && c.segments[i].from < to; i++ {
		if s := &c.segments[i]; s.height > limit {
			t := max(s.from, from)
			n := e.because(u.s.atMost(t), u.e.atLeast(t+1))
			c.cover(e, t, limit, u)
			return e.set(u.cond.not(), e.given(n))
		}
	}
	return true
}

// cover appends to the arena why more than limit is in use at t, by uses other than skip.
func (c *cumulative) cover(e *engine, t, limit int32, skip *use) {
	sum := int32(0)
	for i := range c.uses {
		u := &c.uses[i]
		if u == skip || e.most(u.s) > t || e.least(u.e) <= t || !e.isTrue(u.cond) {
			continue
		}
		e.arena = append(e.arena, u.s.atMost(t), u.e.atLeast(t+1), u.cond)
		sum += u.demand
		if sum > limit {
			e.work += int64(i)
			return
		}
	}
	panic("cp: the profile promised a higher use than its tasks make up")
}
