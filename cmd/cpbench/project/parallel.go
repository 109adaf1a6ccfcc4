package project

// parallel makes s by parallel generation (Kelley 1963; Kolisch 1996): instant by instant, in the order of the list,
// whatever may begin does. Such schedules let no resource lie idle that could be used, and may miss the best for it.
func (g *generator) parallel(list []int32, s *schedule) {
	g.clear(s)
	for t, left := int32(0), len(list); left > 0; {
		next := int32(maxHorizon)
		for again := true; again; { // what waits for another with lag 0 may begin at once
			again = false
			for _, i := range list {
				if s.starts[i] != unplaced {
					continue
				}
				ready, ok := g.ready(i, s.starts)
				switch {
				case !ok:
				case ready > t:
					next = min(next, ready)
				case g.demand[i] == 0 || g.room(t, g.demand[i]): // nothing begun takes more later on
					g.put(i, t, s.starts)
					left--
					again = true
				}
			}
			g.steps += int64(len(list))
		}
		for k := t; k < g.used; k++ {
			if k+1 < next && g.free[k+1] != g.free[k] {
				next = k + 1
				break
			}
		}
		t = next
	}
	g.close(s)
}

// ready is the earliest instant for i that its lags allow; false if something it waits for has no start yet.
func (g *generator) ready(i int32, starts []int32) (int32, bool) {
	t := g.release[i]
	for _, a := range g.arcs[i] {
		if starts[a.from] == unplaced {
			return 0, false
		}
		t = max(t, starts[a.from]+a.lag)
	}
	return t, true
}
