package cp

import (
	"cmp"
	"slices"
)

// guard: at every instant of watch [s, e) some watcher is neither off nor busy. Where all watchers are surely away the
// watch gives way, like a use of a full resource; where all but one are, that one may not go. "Surely away" is off, or
// in the compulsory part of an absence that is there. Reasons are point-wise, as for cumulative.
type guard struct {
	watch    interval
	watchers []watcher

	away []stretch
}

type watcher struct {
	off  []Range
	busy []interval
}

// stretch is a part of the watch's window in which one watcher is surely away.
type stretch struct {
	from, to int32
	who      int32
}

func (g *guard) propagate(e *engine) bool {
	from, to := e.least(g.watch.s), e.most(g.watch.e)
	if from >= to {
		return true
	}
	g.gather(e, from, to)
	// Sweep over the stretches; count who is away between two neighbouring instants.
	instants := g.instants(from, to)
	for k := 0; k+1 < len(instants); k++ {
		a, b := instants[k], instants[k+1]
		gone, free := 0, int32(-1)
		for w := range g.watchers {
			if g.isAway(int32(w), a) {
				gone++
			} else {
				free = int32(w)
			}
		}
		switch gone {
		case len(g.watchers):
			if !g.giveWay(e, a, b) {
				return false
			}
		case len(g.watchers) - 1:
			if !g.hold(e, free, a, b) {
				return false
			}
		}
	}
	return true
}

// gather lists, sorted, the stretches of [from, to) in which a watcher is surely away.
func (g *guard) gather(e *engine, from, to int32) {
	g.away = g.away[:0]
	add := func(a, b int32, who int) {
		if a, b = max(a, from), min(b, to); a < b {
			g.away = append(g.away, stretch{a, b, int32(who)})
		}
	}
	for w := range g.watchers {
		x := &g.watchers[w]
		for _, r := range x.off {
			add(int32(r.From), int32(r.To), w)
		}
		for i := range x.busy {
			if b := &x.busy[i]; e.isTrue(b.cond) {
				add(e.most(b.s), e.least(b.e), w)
			}
		}
		e.work += int64(len(x.off)+len(x.busy)) / 2
	}
	slices.SortFunc(g.away, func(a, b stretch) int { return cmp.Compare(a.from, b.from) })
}

// instants are the ends of all stretches and of the window, ascending.
func (g *guard) instants(from, to int32) []int32 {
	ts := []int32{from, to}
	for _, s := range g.away {
		ts = append(ts, s.from, s.to)
	}
	slices.Sort(ts)
	return slices.Compact(ts)
}

func (g *guard) isAway(who, t int32) bool {
	for i := range g.away {
		s := &g.away[i]
		if s.from > t {
			return false
		}
		if s.who == who && t < s.to {
			return true
		}
	}
	return false
}

// giveWay keeps the watch out of [a, b), where everybody is away.
func (g *guard) giveWay(e *engine, a, b int32) bool {
	w := &g.watch
	for e.least(w.s) < b {
		t := min(b, e.least(w.e)) - 1
		if t < a || t < e.least(w.s) {
			break
		}
		n := e.because(w.e.atLeast(t + 1))
		g.excuse(e, t, -1)
		if !e.set(w.s.atLeast(t+1), e.given(n)) {
			return false
		}
	}
	for e.most(w.e) > a {
		t := max(a, e.most(w.s))
		if t >= b || t >= e.most(w.e) {
			break
		}
		n := e.because(w.s.atMost(t))
		g.excuse(e, t, -1)
		if !e.set(w.e.atMost(t), e.given(n)) {
			return false
		}
	}
	return true
}

// hold keeps watcher who from being busy in the part of [a, b) that surely is watched, everybody else being away.
func (g *guard) hold(e *engine, who, a, b int32) bool {
	a, b = max(a, e.most(g.watch.s)), min(b, e.least(g.watch.e))
	if a >= b {
		return true
	}
	for i := range g.watchers[who].busy {
		if !g.holdFrom(e, who, &g.watchers[who].busy[i], a, b) {
			return false
		}
	}
	e.work += int64(len(g.watchers[who].busy)) / 2
	return true
}

func (g *guard) holdFrom(e *engine, who int32, x *interval, a, b int32) bool {
	if e.isFalse(x.cond) {
		return true
	}
	watched := func(t int32, why ...atom) int {
		n := e.because(why...)
		e.arena = append(e.arena, g.watch.s.atMost(t), g.watch.e.atLeast(t+1))
		g.excuse(e, t, who)
		return n
	}
	if !e.isTrue(x.cond) {
		t := max(a, e.most(x.s))
		if t >= min(b, e.least(x.e)) {
			return true
		}
		n := watched(t, x.s.atMost(t), x.e.atLeast(t+1))
		return e.set(x.cond.not(), e.given(n))
	}
	for e.least(x.s) < b {
		t := min(b, e.least(x.e)) - 1
		if t < a || t < e.least(x.s) {
			break
		}
		n := watched(t, x.cond, x.e.atLeast(t+1))
		if !e.set(x.s.atLeast(t+1), e.given(n)) {
			return false
		}
	}
	for e.most(x.e) > a {
		t := max(a, e.most(x.s))
		if t >= b || t >= e.most(x.e) {
			break
		}
		n := watched(t, x.cond, x.s.atMost(t))
		if !e.set(x.e.atMost(t), e.given(n)) {
			return false
		}
	}
	return true
}

// excuse appends to the arena why every watcher but skip is away at t.
func (g *guard) excuse(e *engine, t, skip int32) {
	for w := range g.watchers {
		if int32(w) != skip {
			g.watchers[w].excuse(e, t)
		}
	}
}

func (x *watcher) excuse(e *engine, t int32) {
	if _, off := rangeAt(x.off, t); off {
		return
	}
	for i := range x.busy {
		b := &x.busy[i]
		if e.isTrue(b.cond) && e.most(b.s) <= t && t < e.least(b.e) {
			e.arena = append(e.arena, b.s.atMost(t), b.e.atLeast(t+1), b.cond)
			return
		}
	}
	panic("cp: the sweep promised that a watcher is away")
}
