package cp

import "sort"

// calendar keeps an instant out of forbidden ranges while cond holds. A bound inside a range jumps to its far end in
// one step, however long the range.
type calendar struct {
	at     instant
	ranges []Range
	cond   atom
}

func (c *calendar) propagate(e *engine) bool {
	e.work += 2
	if e.isFalse(c.cond) {
		return true
	}
	lo, hi := e.least(c.at), e.most(c.at)
	r, inside := rangeAt(c.ranges, lo)
	if !e.isTrue(c.cond) {
		if inside && int(hi) < r.To {
			n := e.because(c.at.atLeast(int32(r.From)), c.at.atMost(int32(r.To-1)))
			return e.set(c.cond.not(), e.given(n))
		}
		return true
	}
	if inside {
		n := e.because(c.at.atLeast(int32(r.From)), c.cond)
		if !e.set(c.at.atLeast(int32(r.To)), e.given(n)) {
			return false
		}
	}
	if r, inside := rangeAt(c.ranges, hi); inside {
		n := e.because(c.at.atMost(int32(r.To-1)), c.cond)
		return e.set(c.at.atMost(int32(r.From-1)), e.given(n))
	}
	return true
}

// rangeAt finds the range that holds t among sorted disjoint ranges.
func rangeAt(rs []Range, t int32) (Range, bool) {
	i := sort.Search(len(rs), func(i int) bool { return rs[i].To > int(t) })
	if i < len(rs) && rs[i].From <= int(t) {
		return rs[i], true
	}
	return Range{}, false
}

// joined merges ranges that touch, so that one jump passes them all.
func joined(rs []Range) []Range {
	var out []Range
	for _, r := range rs {
		if n := len(out); n > 0 && out[n-1].To == r.From {
			out[n-1].To = r.To
			continue
		}
		out = append(out, r)
	}
	return out
}
