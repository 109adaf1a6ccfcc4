package project

import (
	"math/bits"

	"tureen/planner/cp"
)

// project is the shape of problem that schedules can be generated for directly, without search: activities of fixed
// duration with time lags between them and steady demands on resources of steady capacity, a makespan to shrink
// (resource-constrained project scheduling). It is made from a Problem where all of that problem fits; else there is
// none, and the search goes without.
//
// A project has one direction of time. Its mirror image, where the last comes first, makes backward generation the
// same code as forward: release times become tails, tails release times.
//
// All demands of an activity are packed into one word, a lane for each resource, topped by a guard bit that a
// subtraction borrows from when too little is left. So all resources are compared at once.
type project struct {
	variable []cp.Var // by activity
	duration []int32
	demand   []uint64
	release  []int32 // earliest start
	tail     []int32 // the makespan is at least start + tail
	arcs     [][]arc // by activity: what it must wait for
	order    []int32 // topological
	full     uint64  // capacities, with all guard bits set
	guards   uint64
	horizon  int32 // no generated schedule is longer
}

// arc is a time lag: start ≥ start of from + lag.
type arc struct{ from, lag int32 }

// maxHorizon bounds the memory of a profile.
const maxHorizon = 1 << 15

// unrelated is the tail of an activity that the makespan does not wait for.
const unrelated = -cp.MaxValue

// newProject finds the project in p, or nil. least holds the variables' lower bounds at the root.
func newProject(p *cp.Problem, least []int) *project {
	if len(p.Clauses)+len(p.Linears)+len(p.Calendars)+len(p.Guards)+len(p.Maxima)+len(p.Assumptions) > 0 {
		return nil
	}
	if len(p.Levels) == 0 || len(p.Levels[0].Terms) != 1 || p.Levels[0].Terms[0].Coef != 1 {
		return nil
	}
	sink := p.Levels[0].Terms[0].X
	pr := &project{}
	index := make([]int32, len(p.Vars))
	for x := range p.Vars {
		index[x] = -1
		if cp.Var(x) == sink {
			continue
		}
		index[x] = int32(len(pr.variable))
		pr.variable = append(pr.variable, cp.Var(x))
		pr.release = append(pr.release, int32(least[x]))
		pr.tail = append(pr.tail, unrelated)
	}
	n := len(pr.variable)
	pr.duration = make([]int32, n)
	pr.demand = make([]uint64, n)
	pr.arcs = make([][]arc, n)
	if !pr.lags(p, sink, index) || !pr.resources(p, index) || !pr.sort() || !pr.measure() {
		return nil
	}
	return pr
}

// lags takes in the time lags; false where one has a condition or leads out of the makespan.
func (pr *project) lags(p *cp.Problem, sink cp.Var, index []int32) bool {
	for _, l := range p.Lags {
		w := int32(l.Min + l.From.Off - l.To.Off)
		switch from, to := l.From.X, l.To.X; {
		case len(l.If) > 0 || from == sink && to != sink && to != cp.None:
			return false
		case from == to || from == cp.None || to == cp.None: // a bound, known at the root
		case to == sink:
			i := index[from]
			pr.tail[i] = max(pr.tail[i], w)
		default:
			i := index[to]
			pr.arcs[i] = append(pr.arcs[i], arc{index[from], w})
		}
	}
	return true
}

// claim is what one activity wants of one resource.
type claim struct {
	x        cp.Var
	off, d   int
	quantity int
}

// resources packs the cumulatives and the disjunctives without setups.
func (pr *project) resources(p *cp.Problem, index []int32) bool {
	shift := 0
	add := func(capacity int, claims []claim) bool {
		sum := 0
		for _, c := range claims {
			sum += c.quantity
		}
		if sum <= capacity {
			return true
		}
		width := bits.Len(uint(capacity)) + 1
		if shift+width > 64 {
			return false
		}
		for _, c := range claims {
			i := index[c.x]
			if i < 0 || c.off != 0 || c.quantity > capacity || pr.demand[i] > 0 && pr.duration[i] != int32(c.d) {
				return false
			}
			pr.duration[i] = int32(c.d)
			pr.demand[i] += uint64(c.quantity) << shift
			if pr.demand[i]>>shift > uint64(capacity) {
				return false // two uses of one resource
			}
		}
		guard := uint64(1) << (shift + width - 1)
		pr.full |= uint64(capacity)<<shift | guard
		pr.guards |= guard
		shift += width
		return true
	}
	for _, r := range p.Cumulatives {
		var claims []claim
		for _, u := range r.Uses {
			if len(u.If) > 0 || u.Start.X != u.End.X || u.Start.X == cp.None {
				return false
			}
			if d := u.End.Off - u.Start.Off; d > 0 && u.Demand > 0 {
				claims = append(claims, claim{u.Start.X, u.Start.Off, d, u.Demand})
			}
		}
		if !add(r.Capacity, claims) {
			return false
		}
	}
	for _, r := range p.Disjunctives {
		var claims []claim
		for _, t := range r.Tasks {
			d := t.End.Off - t.Start.Off
			if r.Setup != nil || len(t.If) > 0 || t.Start.X != t.End.X || t.Start.X == cp.None || d <= 0 {
				return false
			}
			claims = append(claims, claim{t.Start.X, t.Start.Off, d, 1})
		}
		if !add(1, claims) {
			return false
		}
	}
	return shift > 0
}

// sort orders the activities topologically; false where lags go round in a circle (maximum lags).
func (pr *project) sort() bool {
	n := len(pr.variable)
	after := make([][]int32, n)
	missing := make([]int, n)
	for i, arcs := range pr.arcs {
		missing[i] = len(arcs)
		for _, a := range arcs {
			after[a.from] = append(after[a.from], int32(i))
		}
	}
	for i := range n {
		if missing[i] == 0 {
			pr.order = append(pr.order, int32(i))
		}
	}
	for k := 0; k < len(pr.order); k++ {
		for _, j := range after[pr.order[k]] {
			if missing[j]--; missing[j] == 0 {
				pr.order = append(pr.order, j)
			}
		}
	}
	return len(pr.order) == n
}

// measure finds a horizon within which every generated schedule stays.
func (pr *project) measure() bool {
	sum, last := 0, 0
	longest := make([]int32, len(pr.variable))
	copy(longest, pr.duration)
	for i, arcs := range pr.arcs {
		if pr.release[i] < 0 {
			return false
		}
		last = max(last, int(pr.release[i]))
		longest[i] = max(longest[i], pr.tail[i])
		for _, a := range arcs {
			longest[a.from] = max(longest[a.from], a.lag)
		}
	}
	for _, d := range longest {
		sum += int(d)
	}
	pr.horizon = int32(min(sum+last+1, maxHorizon))
	return sum+last+1 < maxHorizon
}

// mirror is the project with time reversed: an activity starts where it ended before, counted back from the makespan.
func (pr *project) mirror() *project {
	m := *pr
	n := len(pr.variable)
	m.release = make([]int32, n)
	m.tail = make([]int32, n)
	m.arcs = make([][]arc, n)
	m.order = make([]int32, n)
	for i := range n {
		m.release[i] = max(0, pr.tail[i]-pr.duration[i])
		m.tail[i] = pr.duration[i] + pr.release[i]
		m.order[n-1-i] = pr.order[i]
		for _, a := range pr.arcs[i] {
			m.arcs[a.from] = append(m.arcs[a.from], arc{int32(i), a.lag + pr.duration[i] - pr.duration[a.from]})
		}
	}
	if !m.measure() {
		return nil
	}
	return &m
}
