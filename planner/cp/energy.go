package cp

import (
	"cmp"
	"slices"
)

// energy looks at a resource over windows of time: the work (duration × demand) that must fall into a window may not
// exceed what the window holds. It finds overloads, and tasks that must start later because the window has no room
// for them at their earliest start. This is time-table edge finding (Vilím 2011) with explanations after Schutt,
// Feydy and Stuckey (2013). Only tasks that are surely there and have a fixed duration count. A second propagator over
// the mirrored tasks, in time running backward, narrows the latest starts.
//
// A window [a, b) begins at an earliest start and ends at a latest end. A task that starts at or after a has at least
// min(d, b − latest start) of its duration in it.
type energy struct {
	capacity int32
	tasks    []brick

	byStart, byEnd []int32 // tasks by earliest start descending, by latest end descending
	now            []shape // by task, as bounds stand
	cores          []core
	idle           int32 // calls left out since it last found something
	skip           int32
}

// brick is a task of fixed duration d and demand r that starts at s.
type brick struct {
	s    instant
	d, r int32
}

// shape is what a pass needs of a task: earliest and latest start, and the energy of all compulsory parts before its
// earliest start and before its latest end.
type shape struct {
	est, lst     int32
	byEst, byLct int64
}

// core is a compulsory part.
type core struct{ from, d, r int32 }

func (g *energy) propagate(e *engine) bool {
	if g.idle < g.skip {
		g.idle++
		return true
	}
	g.idle = 0
	for i := range g.tasks {
		t := &g.tasks[i]
		g.now[i] = shape{est: e.least(t.s), lst: e.most(t.s)}
	}
	g.measure()
	slices.SortFunc(g.byStart, func(i, j int32) int {
		return cmp.Or(cmp.Compare(g.now[j].est, g.now[i].est), cmp.Compare(i, j))
	})
	end := func(i int32) int32 { return g.now[i].lst + g.tasks[i].d }
	slices.SortFunc(g.byEnd, func(i, j int32) int { return cmp.Or(cmp.Compare(end(j), end(i)), cmp.Compare(i, j)) })
	found, ok := false, true
	last := int32(0)
	for k, j := range g.byEnd {
		b := end(j)
		if k > 0 && b == last {
			continue
		}
		last = b
		if ok = g.sweep(e, b, g.now[j].byLct, &found); !ok {
			break
		}
	}
	e.work += int64(len(g.tasks) * len(g.tasks) / 4)
	// A pass costs the square of the tasks: the larger that is, the rarer it comes, the more so where it finds nothing.
	square := int32(len(g.tasks) * len(g.tasks))
	if found || !ok {
		g.skip = max(g.skip/2, square/500)
	} else {
		g.skip = min(2*g.skip+1, 64+square/15)
	}
	return ok
}

// sweep goes through the windows that end at b, from the shortest to the longest; before is the energy of compulsory
// parts before b.
func (g *energy) sweep(e *engine, b int32, before int64, found *bool) bool {
	inside := int64(0)                // energy in the window of tasks that start in it, beyond compulsory parts
	cand, most := int32(-1), int64(0) // the task that would need most beyond what is counted of it
	for _, i := range g.byStart {
		t, n := &g.tasks[i], g.now[i]
		if n.est >= b {
			continue
		}
		a := n.est
		m := max(0, min(t.d, b-n.lst))
		inside += int64(m-max(0, min(n.est+t.d, b)-n.lst)) * int64(t.r)
		if more := int64(min(t.d, b-n.est)-m) * int64(t.r); more > most {
			cand, most = i, more
		}
		free := int64(g.capacity)*int64(b-a) - (before - n.byEst) - inside
		if free < 0 {
			n := e.because()
			g.fill(e, a, b, -1, int64(g.capacity)*int64(b-a)+1)
			*found = true
			return e.clash(n)
		}
		if cand >= 0 && free < most {
			c, cn := &g.tasks[cand], g.now[cand]
			room := int32((free + int64(max(0, min(c.d, b-cn.lst)))*int64(c.r)) / int64(c.r))
			v := b - room // a start before v would put more than room into the window
			if v > cn.est && e.least(c.s) < v {
				q := room + 1
				n := e.because(c.s.atLeast(a + q - c.d))
				g.fill(e, a, b, cand, int64(g.capacity)*int64(b-a)+1-int64(q)*int64(c.r))
				*found = true
				if !e.set(c.s.atLeast(v), e.given(n)) {
					return false
				}
			}
		}
	}
	return true
}

// measure fills cores and the energy of compulsory parts before each earliest start and each latest end.
func (g *energy) measure() {
	g.cores = g.cores[:0]
	for i, t := range g.tasks {
		if n := g.now[i]; n.lst < n.est+t.d {
			g.cores = append(g.cores, core{n.lst, n.est + t.d - n.lst, t.r})
		}
	}
	for i, t := range g.tasks {
		n := &g.now[i]
		n.byEst, n.byLct = g.coresBefore(n.est), g.coresBefore(n.lst+t.d)
	}
}

func (g *energy) coresBefore(t int32) int64 {
	sum := int64(0)
	for _, c := range g.cores {
		sum += int64(max(0, min(c.d, t-c.from))) * int64(c.r)
	}
	return sum
}

// fill appends to the arena atoms under which the tasks other than skip put at least need energy into [a, b).
func (g *energy) fill(e *engine, a, b, skip int32, need int64) {
	total := int64(0)
	for i := range g.tasks {
		if int32(i) != skip {
			total += int64(g.overlap(e, int32(i), a, b)) * int64(g.tasks[i].r)
		}
	}
	slack := total - need
	if slack < 0 {
		panic("cp: a window promised more energy than its tasks have")
	}
	for i := range g.tasks {
		if int32(i) == skip {
			continue
		}
		t := &g.tasks[i]
		m := g.overlap(e, int32(i), a, b)
		if m == 0 {
			continue
		}
		if drop := min(m, int32(min(slack/int64(t.r), 1<<29))); drop > 0 {
			slack -= int64(drop) * int64(t.r)
			if m -= drop; m == 0 {
				continue
			}
		}
		e.arena = append(e.arena, t.s.atLeast(a+m-t.d), t.s.atMost(b-m))
	}
}

// overlap is how much of task i must lie in [a, b), wherever it starts.
func (g *energy) overlap(e *engine, i, a, b int32) int32 {
	t := &g.tasks[i]
	return max(0, min(t.d, b-a, e.least(t.s)+t.d-a, b-e.most(t.s)))
}
