package cp

// What must be apart, and in which order, before any search (disjunctive pairs and parallel pairs: Brucker, Knust,
// Schoo, Thiele 1998; for maximum time lags: De Reyck and Herroelen 1998). Two uses that exceed a resource together
// follow each other. The longest paths through all time lags say how far apart two starts are at least, and often leave
// one order only, which becomes a time lag itself and lengthens the paths. Two uses whose lags leave neither order run
// in parallel at some instant; uses that pairwise do so share an instant (intervals on a line), so that two uses that
// would exceed a resource together with such a set must be apart as well. Bounds of single variables show none of this.
type orders struct {
	e     *engine
	node  []int32   // by variable: its node, −1 if it has none; the last node is instant 0
	least [][]int64 // by node and node: the second starts at least so much after the first
	names []view    // by node

	pieces   []piece
	capacity []int32
	added    bool
}

// piece is what runs over [s, e) for sure, with its demand of each resource.
type piece struct {
	s, e   instant
	node   int32
	demand []int32
}

const (
	unbound = int64(-1) << 40 // no path between two nodes

	// mostNodes is up to where the paths, which cost the cube of the nodes, are worth their time.
	mostNodes = 300
)

// findOrders adds the time lags that follow; false means that the problem is refuted. The root is propagated.
func (e *engine) findOrders(zero view) bool {
	o := orders{e: e, node: make([]int32, len(e.lo)/2)}
	for x := range o.node {
		o.node[x] = -1
	}
	if !o.gather() || !o.nodes(zero) {
		return true
	}
	if !o.paths() {
		return false
	}
	for again := true; again; {
		again = false
		for i := range o.pieces {
			for j := range i {
				now, ok := o.settle(&o.pieces[i], &o.pieces[j])
				if !ok {
					return false
				}
				again = again || now
			}
		}
	}
	if !o.added {
		return true
	}
	for w := range e.lo {
		if !e.propagateLags(view(w)) {
			return false
		}
	}
	return e.propagate()
}

// gather lists the pieces of all resources; it says whether some two of them cannot run together.
func (o *orders) gather() bool {
	index := map[[2]instant]int{}
	apart := false
	for _, p := range o.e.props {
		c, ok := p.(*cumulative)
		if !ok {
			continue
		}
		r := len(o.capacity)
		o.capacity = append(o.capacity, c.capacity)
		for i := range o.pieces {
			o.pieces[i].demand = append(o.pieces[i].demand, 0)
		}
		first, second := int32(0), int32(0) // the two greatest demands
		for _, u := range c.uses {
			if u.s.w != u.e.w || u.s.w&1 == 1 || u.s.off >= u.e.off || u.cond.v > o.e.root[u.cond.w] {
				continue
			}
			key := [2]instant{u.s, u.e}
			i, ok := index[key]
			if !ok {
				i = len(o.pieces)
				index[key] = i
				o.pieces = append(o.pieces, piece{s: u.s, e: u.e, demand: make([]int32, r+1)})
			}
			o.pieces[i].demand[r] += u.demand
			if d := o.pieces[i].demand[r]; d > first {
				first, second = d, first
			} else {
				second = max(second, d)
			}
		}
		apart = apart || first+second > c.capacity
	}
	return apart
}

// nodes numbers the variables that unconditional lags tie or pieces stand on, and fills in lags and bounds. It is false
// if there are too many, or no lag that limits from above.
func (o *orders) nodes(zero view) bool {
	e := o.e
	add := func(w view) int32 {
		x := w.variable()
		if o.node[x] < 0 {
			o.node[x] = int32(len(o.names))
			o.names = append(o.names, w&^1)
		}
		return o.node[x]
	}
	limits := false
	for w := range e.lags {
		if w&1 == 1 {
			continue // the mirrored lags
		}
		for _, l := range e.lags[w] {
			if l.to&1 == 0 {
				add(view(w))
				add(l.to)
				limits = limits || l.lag < 0
			}
		}
	}
	for i := range o.pieces {
		o.pieces[i].node = add(o.pieces[i].s.w)
	}
	origin := add(zero)
	n := len(o.names)
	if !limits || n > mostNodes {
		return false
	}
	o.least = make([][]int64, n)
	for i := range o.least {
		o.least[i] = make([]int64, n)
		for j := range o.least[i] {
			o.least[i][j] = unbound
		}
		o.least[i][i] = 0
	}
	for i, w := range o.names {
		for _, l := range e.lags[w] {
			if l.to&1 == 0 {
				j := o.node[l.to.variable()]
				o.least[i][j] = max(o.least[i][j], int64(l.lag))
			}
		}
		o.least[origin][i] = max(o.least[origin][i], int64(e.lo[w]))
		o.least[i][origin] = max(o.least[i][origin], int64(e.lo[w^1]))
	}
	return true
}

// paths finds the longest paths (Floyd and Warshall 1962); false if one leads back to where it began.
func (o *orders) paths() bool {
	n := len(o.least)
	o.e.work += int64(n) * int64(n) * int64(n) / 16
	for k, through := range o.least {
		if through[k] > 0 {
			return false
		}
		for i, row := range o.least {
			d := row[k]
			if d == unbound || i == k {
				continue
			}
			for j, v := range through {
				if v != unbound && d+v > row[j] {
					row[j] = d + v
				}
			}
		}
	}
	for i := range o.least {
		if o.least[i][i] > 0 {
			return false
		}
	}
	return true
}

// precede is the lag between the variables of two pieces that says: u ends before v starts.
func precede(u, v *piece) int64 { return int64(u.e.off) - int64(v.s.off) }

// can says whether lags allow u to end before v starts.
func (o *orders) can(u, v *piece) bool { return o.least[v.node][u.node]+precede(u, v) <= 0 }

// settle puts two pieces in the only order that is left to them, if they must be apart. It says whether a lag was
// added; ok is false if no order is left.
func (o *orders) settle(u, v *piece) (added, ok bool) {
	uv, vu := o.can(u, v), o.can(v, u)
	if uv && vu || !o.apart(u, v) {
		return false, true
	}
	switch {
	case uv:
		return o.add(u, v)
	case vu:
		return o.add(v, u)
	}
	return false, false
}

// apart says whether two pieces cannot run together.
func (o *orders) apart(u, v *piece) bool {
	for r, c := range o.capacity {
		sum := u.demand[r] + v.demand[r]
		if sum > c {
			return true
		}
		if u.demand[r] == 0 || v.demand[r] == 0 {
			continue
		}
		var with []*piece
		for i := range o.pieces {
			x := &o.pieces[i]
			if x == u || x == v || x.demand[r] == 0 || !o.parallel(x, u) || !o.parallel(x, v) {
				continue
			}
			if !o.parallelToAll(x, with) {
				continue
			}
			with = append(with, x)
			if sum += x.demand[r]; sum > c {
				return true
			}
		}
	}
	return false
}

// parallel says whether two pieces surely run together at some instant.
func (o *orders) parallel(u, v *piece) bool { return !o.can(u, v) && !o.can(v, u) }

func (o *orders) parallelToAll(x *piece, others []*piece) bool {
	for _, y := range others {
		if !o.parallel(x, y) {
			return false
		}
	}
	return true
}

// add makes u end before v starts.
func (o *orders) add(u, v *piece) (added, ok bool) {
	d := precede(u, v)
	if o.least[u.node][v.node] >= d {
		return false, true
	}
	o.e.addLag(u.s.w, v.s.w, int32(d))
	o.added = true
	after := o.least[v.node]
	o.e.work += int64(len(after)*len(after)) / 16
	for i, row := range o.least {
		to := row[u.node]
		if to == unbound {
			continue
		}
		for j, from := range after {
			if from != unbound && to+d+from > row[j] {
				row[j] = to + d + from
			}
		}
		if row[i] > 0 {
			return true, false
		}
	}
	return true, true
}
