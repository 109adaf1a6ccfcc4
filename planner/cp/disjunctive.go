package cp

// disjunctive keeps pairs of tasks apart, with a setup time that depends on the order. For each pair: if j cannot come
// before i any more, i comes before j (precedence detection), and if neither order is possible, not both are there.
// Only pairs with a task that changed are looked at.
type disjunctive struct {
	tasks  []interval
	others [][]other // by task, those it may meet

	changed []int32
	waiting []bool // by task: is in changed
}

// other is task j seen from task i: the gaps to keep from the end of i to the start of j, and back.
type other struct{ j, after, before int32 }

func (d *disjunctive) notice(i int32) {
	if !d.waiting[i] {
		d.waiting[i] = true
		d.changed = append(d.changed, i)
	}
}

func (d *disjunctive) forget() {
	for _, i := range d.changed {
		d.waiting[i] = false
	}
	d.changed = d.changed[:0]
}

func (d *disjunctive) propagate(e *engine) bool {
	for len(d.changed) > 0 {
		i := d.changed[len(d.changed)-1]
		d.changed = d.changed[:len(d.changed)-1]
		d.waiting[i] = false
		if !d.look(e, i) {
			d.forget()
			return false
		}
	}
	return true
}

// look brings task i and those it may meet into order.
func (d *disjunctive) look(e *engine, i int32) bool {
	a := &d.tasks[i]
	if e.isFalse(a.cond) {
		return true
	}
	there := e.isTrue(a.cond)
	start, end := e.most(a.s), e.least(a.e) // latest start, earliest end
	e.work += int64(len(d.others[i])) / 4
	for k := range d.others[i] {
		o := &d.others[i][k]
		b := &d.tasks[o.j]
		first := end+o.after <= e.most(b.s) // i before j is possible
		second := e.least(b.e)+o.before <= start
		if first && second || e.isFalse(b.cond) {
			continue
		}
		both := there && e.isTrue(b.cond)
		ok := true
		switch {
		case !first && !second:
			ok = d.exclude(e, a, b, o.after, o.before)
		case !both:
		case first:
			ok = d.order(e, a, b, o.after, o.before)
		default:
			ok = d.order(e, b, a, o.before, o.after)
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

// exclude: neither order is possible, so one of the two is not there. If both are open it says nothing yet.
func (d *disjunctive) exclude(e *engine, a, b *interval, after, before int32) bool {
	if !e.isTrue(a.cond) {
		if !e.isTrue(b.cond) {
			return true
		}
		a, b, after, before = b, a, before, after
	}
	n := e.because(a.cond)
	noRoom(e, a, b, after)
	noRoom(e, b, a, before)
	return e.set(b.cond.not(), e.given(n))
}

// order: both are there and b cannot come before a, so a comes before b.
func (d *disjunctive) order(e *engine, a, b *interval, after, before int32) bool {
	if v := e.least(a.e) + after; e.least(b.s) < v {
		n := e.because(a.cond, b.cond, a.e.atLeast(v-after))
		noRoom(e, b, a, before)
		if !e.set(b.s.atLeast(v), e.given(n)) {
			return false
		}
	}
	if v := e.most(b.s) - after; e.most(a.e) > v {
		n := e.because(a.cond, b.cond, b.s.atMost(v+after))
		noRoom(e, b, a, before)
		return e.set(a.e.atMost(v), e.given(n))
	}
	return true
}
