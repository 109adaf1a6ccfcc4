package cp

import (
	"slices"
	"sort"
)

// cumulative is a resource shared up to its capacity, by the time-table: a use that is there has a compulsory part,
// from its latest start to its earliest end; where these parts pile up too high for another use, that one gives way.
// Explanations are point-wise (Schutt, Feydy, Stuckey, Wallace, "Explaining the cumulative propagator", 2011): one
// instant is chosen, and only bounds that matter there are named.
type cumulative struct {
	capacity int32
	uses     []use

	events   []int64 // instant in the upper half, change of height in the lower
	segments []segment
}

type use struct {
	interval
	demand int32
}

// segment is a stretch [from, to) of the profile with one height.
type segment struct{ from, to, height int32 }

func (c *cumulative) explain(*engine, atom, int32, int32, []atom) []atom {
	panic("cumulative reasons are eager")
}

func (c *cumulative) propagate(e *engine) bool {
	e.work += int64(len(c.uses))
	if !c.build(e) {
		return false
	}
	if len(c.segments) == 0 {
		return true
	}
	for i := range c.uses {
		if !c.push(e, &c.uses[i]) {
			return false
		}
	}
	return true
}

// build makes the profile; it fails where the compulsory parts alone exceed the capacity.
func (c *cumulative) build(e *engine) bool {
	c.events, c.segments = c.events[:0], c.segments[:0]
	for i := range c.uses {
		u := &c.uses[i]
		from, to := e.most(u.s), e.least(u.e)
		if from < to && e.isTrue(u.cond) {
			c.events = append(c.events, event(from, u.demand), event(to, -u.demand))
		}
	}
	slices.Sort(c.events)
	height := int32(0)
	for i := 0; i < len(c.events); {
		t := c.events[i] >> 32
		for i < len(c.events) && c.events[i]>>32 == t {
			height += int32(c.events[i])
			i++
		}
		if height == 0 {
			continue
		}
		s := segment{int32(t), int32(c.events[i] >> 32), height}
		if height > c.capacity {
			n := e.because()
			c.cover(e, s.from+(s.to-s.from)/2, c.capacity, nil)
			e.confl = append(e.confl[:0], e.arena[n:]...)
			return false
		}
		c.segments = append(c.segments, s)
	}
	return true
}

func event(t, change int32) int64 { return int64(t)<<32 | int64(uint32(change)) }

// push moves u out of the segments that leave it no room.
func (c *cumulative) push(e *engine, u *use) bool {
	if e.isFalse(u.cond) {
		return true
	}
	least, most := e.least(u.s), e.most(u.e)
	from, to := e.most(u.s), e.least(u.e)
	if least == from && most == to && e.isTrue(u.cond) {
		return true // fixed and in the profile
	}
	limit := c.capacity - u.demand
	if !e.isTrue(u.cond) {
		return c.refute(e, u, limit)
	}
	own := func(s *segment) bool { return from <= s.from && s.to <= to }
	first := sort.Search(len(c.segments), func(i int) bool { return c.segments[i].to > least })
	for i := first; i < len(c.segments) && c.segments[i].from < e.least(u.e); i++ {
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
	last := sort.Search(len(c.segments), func(i int) bool { return c.segments[i].from >= most }) - 1
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
	i := sort.Search(len(c.segments), func(i int) bool { return c.segments[i].to > from })
	for ; i < len(c.segments) && c.segments[i].from < to; i++ {
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
