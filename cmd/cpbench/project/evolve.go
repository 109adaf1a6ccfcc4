package project

import (
	"math/rand/v2"
	"slices"
)

// evolution breeds schedules: one population of forward schedules, one of backward schedules, and each generation is
// bred from the other by generation in the opposite direction, so that every child is justified by being made (the
// bi-population genetic algorithm of Debels and Vanhoucke 2005, and their combination of parents by stretches of time,
// 2007). When one comes to a standstill, a larger one begins.
type evolution struct {
	*both
	rnd    *rand.Rand
	pop    [2][]schedule
	dir    int      // direction of the parents
	next   int      // the child to be made next
	filled int      // how much of a new population there is
	best   schedule // forward
	child  schedule
	still  int // generations since the best got better
}

// The populations' sizes, and the generations without progress that end one.
const (
	firstPopulation = 300
	lastPopulation  = 600
	standstill      = 200
)

func newEvolution(pr *project, seed uint64) *evolution {
	b := newBoth(pr)
	if b == nil {
		return nil
	}
	v := &evolution{both: b, rnd: rand.New(rand.NewPCG(seed, 0x6a09e667f3bcc908))}
	v.best, v.child = pr.schedule(), pr.schedule()
	return v
}

// seed makes the k-th schedule of the rules, serial and parallel, forward and backward, and justifies it; the best is
// kept. It is false when there are no more.
func (v *evolution) seed(k int) bool {
	dir, k := k%2, k/2
	g := v.gens[dir]
	keys, limit := g.rules()
	if k >= 2*len(keys) {
		return false
	}
	list := g.byKey(keys[k/2], limit)
	if k%2 == 0 {
		g.serial(list, &v.child)
	} else {
		g.parallel(list, &v.child)
	}
	v.justify(dir, &v.child)
	v.keep(dir, &v.child)
	return true
}

// keep takes s, a schedule in direction dir, as the best if it is.
func (v *evolution) keep(dir int, s *schedule) {
	if s.makespan >= v.best.makespan {
		return
	}
	v.still = 0
	if dir == 0 {
		copy(v.best.starts, s.starts)
		v.best.makespan = s.makespan
		return
	}
	// What the turn makes is no longer than s.
	v.turn(dir, s, &v.back)
	if v.back.makespan < v.best.makespan {
		v.best, v.back = v.back, v.best
	}
}

// begin makes room for a new population of n.
func (v *evolution) begin(n int) {
	for dir := range v.pop {
		v.pop[dir] = make([]schedule, n)
		for k := range v.pop[dir] {
			v.pop[dir][k] = v.gens[0].schedule()
		}
	}
	v.dir, v.next, v.still, v.filled = 0, 0, 0, 0
}

// sample makes the next forward schedule of a new population: by the rule of the latest start, more or less at random.
func (v *evolution) sample() {
	q := v.gens[0].tails()
	top := slices.Max(q)
	noise := int(top)*(v.filled%8)/10 + 1
	for i := range v.keys {
		v.keys[i] = top - q[i] + int32(v.rnd.IntN(noise))
	}
	s := &v.pop[0][v.filled]
	v.filled++
	v.generate(0, 2*top+1, s)
	v.keep(0, s)
}

// step makes one schedule: a child, or a member of a new population.
func (v *evolution) step() {
	n := len(v.pop[0])
	if v.filled < n {
		v.sample()
		return
	}
	if n == 0 || v.next == n && v.still >= standstill {
		v.begin(min(max(2*n, firstPopulation), lastPopulation))
		v.sample()
		return
	}
	if v.next == n {
		v.next = 0
		v.dir = 1 - v.dir
		v.still++
	}
	place := &v.pop[1-v.dir][v.next]
	v.next++
	limit := v.cross(v.better(), v.better())
	v.generate(1-v.dir, limit, &v.child)
	if v.child.makespan <= place.makespan {
		v.child, *place = *place, v.child
		v.keep(1-v.dir, place)
	}
}

// join takes a solution found elsewhere into the parents.
func (v *evolution) join(values []int) {
	s, g := &v.child, v.gens[0]
	for i, x := range g.variable {
		s.starts[i] = int32(values[x])
	}
	g.close(s)
	v.keep(0, s)
	if v.filled > 0 {
		place := &v.pop[v.dir][v.rnd.IntN(v.filled)]
		if v.dir == 0 {
			copy(place.starts, s.starts)
			place.makespan = s.makespan
		} else {
			v.turn(0, s, place)
		}
	}
}

// better is the shorter of two parents drawn at random.
func (v *evolution) better() *schedule {
	p := v.pop[v.dir]
	a, b := &p[v.rnd.IntN(len(p))], &p[v.rnd.IntN(len(p))]
	if b.makespan < a.makespan {
		return b
	}
	return a
}

// cross makes keys of two parents, and a limit above them: what ends within a stretch of time in the mother is ordered
// as in the father, all before and after it as in the mother. Then a few keys are moved a little.
func (v *evolution) cross(mother, father *schedule) (limit int32) {
	g := v.gens[v.dir]
	span := int32(mother.makespan)
	mid := v.rnd.Int32N(span + 1)
	half := span/16 + v.rnd.Int32N(span/4+1)
	width := max(span, father.makespan) + 1
	for i := range v.keys {
		key := g.toEnd(mother, i)
		switch {
		case key > mid+half:
			key += 2 * width
		case key >= mid-half:
			key = width + g.toEnd(father, i)
		}
		v.keys[i] = key
	}
	most := span/8 + 1
	for range 1 + v.rnd.IntN(mutations) {
		k := &v.keys[v.rnd.IntN(len(v.keys))]
		*k = min(max(*k+v.rnd.Int32N(2*most+1)-most, 0), 3*width-1)
	}
	return 3 * width
}

// mutations is how many keys at most are moved.
const mutations = 12
