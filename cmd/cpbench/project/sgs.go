package project

// generator makes schedules of a project. Serial generation (Kelley 1963; Kolisch 1996) places one activity after the
// other, in the order of a list, each as early as lags and resources allow. What an activity waits for is put before
// it, whatever the list says.
type generator struct {
	*project
	free  []uint64 // by instant: what is left of the resources, with guard bits
	used  int32    // instants from here on are untouched
	steps int64    // work done, counted as the engine counts it

	bucket []int32 // for sorting by key
	list   []int32
}

// schedule is a start for each activity of a project, in that project's direction of time.
type schedule struct {
	starts   []int32
	makespan int32
}

// unplaced is the start of an activity that has none yet.
const unplaced = -1

func newGenerator(pr *project) *generator {
	g := &generator{project: pr, free: make([]uint64, 2*pr.horizon+1)}
	for t := range g.free {
		g.free[t] = pr.full
	}
	g.list = make([]int32, len(pr.variable))
	return g
}

func (pr *project) schedule() schedule {
	return schedule{make([]int32, len(pr.variable)), maxHorizon}
}

// clear empties the profile and s.
func (g *generator) clear(s *schedule) {
	for t := range g.free[:g.used] {
		g.free[t] = g.full
	}
	g.steps += int64(g.used)/8 + int64(len(s.starts))/2
	g.used = 0
	for i := range s.starts {
		s.starts[i] = unplaced
	}
}

// serial makes s by placing the activities in the order of the list.
func (g *generator) serial(list []int32, s *schedule) {
	g.clear(s)
	for _, i := range list {
		if s.starts[i] == unplaced {
			g.place(i, s.starts)
		}
	}
	g.close(s)
}

// close reckons the makespan.
func (g *generator) close(s *schedule) {
	s.makespan = 0
	for i, t := range s.starts {
		s.makespan = max(s.makespan, t+g.tail[i])
	}
}

// place starts activity i, after all it waits for, as early as it fits.
func (g *generator) place(i int32, starts []int32) {
	t := g.release[i]
	for _, a := range g.arcs[i] {
		if starts[a.from] == unplaced {
			g.place(a.from, starts)
		}
		t = max(t, starts[a.from]+a.lag)
	}
	g.put(i, g.fit(t, g.duration[i], g.demand[i]), starts)
}

// put starts activity i at t, where it has room.
func (g *generator) put(i, t int32, starts []int32) {
	starts[i] = t
	if u := g.demand[i]; u > 0 {
		end := t + g.duration[i]
		for k := t; k < end; k++ {
			g.free[k] -= u
		}
		g.used = max(g.used, end)
	}
}

// fit is the first start from t on where demand u finds room for d.
func (g *generator) fit(t, d int32, u uint64) int32 {
	if u == 0 {
		return t
	}
	from := t
	known := t // instants from t to before it have room
	for k := t + d - 1; k >= known; k-- {
		if !g.room(k, u) {
			known = t + d
			t = k + 1
			k = t + d
		}
	}
	g.steps += int64(t-from+d) / 8
	return t
}

func (g *generator) room(t int32, u uint64) bool { return (g.free[t]-u)&g.guards == g.guards }

// byKey sorts the activities by key (0 ≤ key < limit), equal ones topologically. The list is good until the next
// call.
func (g *generator) byKey(keys []int32, limit int32) []int32 {
	if int(limit) >= len(g.bucket) {
		g.bucket = make([]int32, limit+1)
	}
	place := g.bucket[:limit+1]
	clear(place)
	for _, k := range keys {
		place[k+1]++
	}
	for k := range place[1:] {
		place[k+1] += place[k]
	}
	for _, i := range g.order {
		g.list[place[keys[i]]] = i
		place[keys[i]]++
	}
	g.steps += int64(limit)/16 + int64(len(keys))/2
	return g.list
}
