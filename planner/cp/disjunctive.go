package cp

// disjunctive keeps pairs of tasks apart, with a setup time that depends on the order. For each pair: if j cannot come
// before i any more, i comes before j (precedence detection), and if neither order is possible, not both are there.
type disjunctive struct {
	tasks []interval
	pairs []pair
}

// pair is two tasks that can still meet: gaps from the end of one to the start of the other.
type pair struct {
	i, j         int32
	gapIJ, gapJI int32
}

func (d *disjunctive) explain(*engine, atom, int32, int32, []atom) []atom {
	panic("disjunctive reasons are eager")
}

func (d *disjunctive) propagate(e *engine) bool {
	e.work += int64(len(d.pairs)) / 2
	for k := range d.pairs {
		p := &d.pairs[k]
		i, j := &d.tasks[p.i], &d.tasks[p.j]
		ij := e.least(i.e)+p.gapIJ <= e.most(j.s) // i before j is possible
		ji := e.least(j.e)+p.gapJI <= e.most(i.s)
		if ij && ji || e.isFalse(i.cond) || e.isFalse(j.cond) {
			continue
		}
		ok := true
		switch {
		case !ij && !ji:
			ok = d.exclude(e, p)
		case !e.isTrue(i.cond) || !e.isTrue(j.cond):
		case ij:
			ok = d.order(e, i, j, p.gapIJ, p.gapJI)
		default:
			ok = d.order(e, j, i, p.gapJI, p.gapIJ)
		}
		if !ok {
			return false
		}
	}
	return true
}

// noRoom appends why "a before b" is impossible: a ends after the last start of b, less the gap.
func noRoom(e *engine, a, b *interval, gap int32) {
	last := e.most(b.s)
	e.arena = append(e.arena, b.s.atMost(last), a.e.atLeast(last-gap+1))
}

// exclude: neither order is possible, so one of the two is not there.
func (d *disjunctive) exclude(e *engine, p *pair) bool {
	i, j := &d.tasks[p.i], &d.tasks[p.j]
	if !e.isTrue(i.cond) && !e.isTrue(j.cond) {
		return true
	}
	if e.isTrue(i.cond) {
		i, j = j, i
	}
	// j is there, i is refuted (a conflict if it is there as well).
	n := e.because(j.cond)
	gapIJ, gapJI := p.gapIJ, p.gapJI
	if i != &d.tasks[p.i] {
		gapIJ, gapJI = gapJI, gapIJ
	}
	noRoom(e, i, j, gapIJ)
	noRoom(e, j, i, gapJI)
	return e.set(i.cond.not(), e.given(n))
}

// order: both are there and b cannot come before a, so a comes before b.
func (d *disjunctive) order(e *engine, a, b *interval, gap, back int32) bool {
	if v := e.least(a.e) + gap; e.least(b.s) < v {
		n := e.because(a.cond, b.cond, a.e.atLeast(v-gap))
		noRoom(e, b, a, back)
		if !e.set(b.s.atLeast(v), e.given(n)) {
			return false
		}
	}
	if v := e.most(b.s) - gap; e.most(a.e) > v {
		n := e.because(a.cond, b.cond, b.s.atMost(v+gap))
		noRoom(e, b, a, back)
		return e.set(a.e.atMost(v), e.given(n))
	}
	return true
}
