package cp

import "math"

// profile is how high a cumulative's compulsory parts pile up, as steps over time. It grows with the trail and comes
// back with it: the first time it grows in a level it is copied, and the copies of levels that are gone are dropped.
type profile struct {
	steps   []step // by time; the first is at the beginning of time, the last has height 0
	part    []part // by use: its compulsory part that the steps count; from ≥ to where there is none
	highest int32
	level   int32 // the level in which it grew last
	id      int64 // and which of the levels of that number, see mark
}

// step is the height from an instant on, up to the next step.
type step struct{ at, height int32 }

// part is a compulsory part [from, to).
type part struct{ from, to int32 }

func newProfile(uses int) profile {
	return profile{steps: []step{{at: math.MinInt32}}, part: make([]part, uses)}
}

// copyFrom makes p the same as q, in p's own memory.
func (p *profile) copyFrom(q *profile) {
	p.steps = append(p.steps[:0], q.steps...)
	p.part = append(p.part[:0], q.part...)
	p.highest = q.highest
}

// holding is the step that t lies in.
func (p *profile) holding(t int32) int {
	lo, hi := 0, len(p.steps)-1
	for lo < hi {
		if m := int(uint(lo+hi+1) >> 1); p.steps[m].at <= t {
			lo = m
		} else {
			hi = m - 1
		}
	}
	return lo
}

// end is where step i ends.
func (p *profile) end(i int) int32 {
	if i+1 < len(p.steps) {
		return p.steps[i+1].at
	}
	return math.MaxInt32
}

// raise adds demand over [from, to) and returns the greatest height there, and an instant that has it.
func (p *profile) raise(from, to, demand int32) (height, at int32) {
	i := p.split(p.holding(from), from)
	for j := i; ; j++ {
		if j == len(p.steps) || p.steps[j].at >= to {
			panic("cp: a compulsory part without length")
		}
		end := p.end(j)
		if end > to {
			p.split(j, to)
			end = to
		}
		p.steps[j].height += demand
		if h := p.steps[j].height; h > height {
			height, at = h, p.steps[j].at+(end-p.steps[j].at)/2
		}
		if end == to {
			p.join(j + 1)
			break
		}
	}
	p.join(i)
	p.highest = max(p.highest, height)
	return height, at
}

// split makes a step begin at t, which step i holds, and returns it.
func (p *profile) split(i int, t int32) int {
	if p.steps[i].at == t {
		return i
	}
	p.steps = append(p.steps, step{})
	copy(p.steps[i+2:], p.steps[i+1:])
	p.steps[i+1] = step{t, p.steps[i].height}
	return i + 1
}

// join drops step i if it is as high as the one before.
func (p *profile) join(i int) {
	if p.steps[i].height == p.steps[i-1].height {
		p.steps = append(p.steps[:i], p.steps[i+1:]...)
	}
}
