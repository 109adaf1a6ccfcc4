package cp

// Conflict analysis: first unique implication point (Marques-Silva and Sakallah 1999; Moskewicz et al. 2001) over
// bound atoms, as lazy clause generation does it (Ohrimenko, Stuckey, Codish 2009). For each view at most one atom is
// needed at a time, the strongest: it implies the weaker ones.
type analysis struct {
	need    []int32 // by view: the bound needed, if idx ≥ 0
	idx     []int32 // by view: the trail entry that made it true, −1 if none is needed
	listed  []bool  // by view: is in touched
	touched []view
	clause  []atom // the learned clause; [0] is asserted after the backjump, [1] has the highest level of the rest
	buf     []atom
	stamp   []int32 // by level
	stamps  int32
	memo    []memo // by trail entry
	memos   int32
}

// memo remembers what minimisation found about an entry: that bounds up to v are redundant, or from v on are not.
type memo struct {
	round     int32
	v         int32
	redundant bool
}

func (a *analysis) init(views int) {
	a.need = make([]int32, views)
	a.idx = make([]int32, views)
	a.listed = make([]bool, views)
	for i := range a.idx {
		a.idx[i] = -1
	}
}

// conflictLevel is the highest decision level that confl rests on; 0 means that it needs no decision at all.
func (e *engine) conflictLevel() int32 {
	cur := int32(0)
	for _, a := range e.confl {
		if i := e.find(a); i >= 0 {
			cur = max(cur, e.trail[i].level)
		}
	}
	return cur
}

// analyze turns confl, of conflict level cur > 0, into a learned clause (in ana.clause) and the level to go back to.
// There must be one decision in level cur.
func (e *engine) analyze(cur int32) (back int32) {
	an := &e.ana
	open := 0 // needed atoms of the current level
	for _, a := range e.confl {
		open += e.require(a, cur)
	}
	var uip atom
	for i := int32(len(e.trail) - 1); ; i-- {
		t := &e.trail[i]
		if an.idx[t.w] != i {
			continue
		}
		a := atom{t.w, an.need[t.w]}
		if open == 1 {
			uip = a
			break
		}
		open--
		an.idx[t.w] = -1
		an.buf = e.explain(a, reason{t.why, t.r1, t.r2}, i, an.buf[:0])
		for _, b := range an.buf {
			open += e.require(b, cur)
		}
		e.work += int64(len(an.buf))
	}
	back = e.collect(uip)
	an.clear()
	return back
}

// clear forgets what was needed.
func (a *analysis) clear() {
	for _, w := range a.touched {
		a.idx[w], a.listed[w] = -1, false
	}
	a.touched = a.touched[:0]
}

// require notes that a is needed; it returns the change in the number of needed atoms at level cur.
func (e *engine) require(a atom, cur int32) int {
	an := &e.ana
	i := e.find(a)
	if i < 0 || e.trail[i].level == 0 {
		return 0
	}
	n := 0
	if j := an.idx[a.w]; j >= 0 {
		if an.need[a.w] >= a.v {
			return 0
		}
		if e.trail[j].level == cur {
			n--
		}
	} else if !an.listed[a.w] {
		an.listed[a.w] = true
		an.touched = append(an.touched, a.w)
		e.order.bump(a.w.variable())
	}
	an.need[a.w], an.idx[a.w] = a.v, i
	if e.trail[i].level == cur {
		n++
	}
	return n
}

// collect writes the learned clause from the needed atoms, without the redundant ones.
func (e *engine) collect(uip atom) (back int32) {
	an := &e.ana
	an.stamps++
	for len(an.stamp) <= len(e.levels) {
		an.stamp = append(an.stamp, 0)
	}
	for _, w := range an.touched {
		if i := an.idx[w]; i >= 0 {
			an.stamp[e.trail[i].level] = an.stamps
		}
	}
	an.memos++
	for len(an.memo) < len(e.trail) {
		an.memo = append(an.memo, memo{})
	}
	an.clause = append(an.clause[:0], uip.not())
	an.buf = an.buf[:0]
	for _, w := range an.touched {
		i := an.idx[w]
		if i < 0 || w == uip.w {
			continue
		}
		a := atom{w, an.need[w]}
		if e.redundant(a, i, 0) {
			continue
		}
		an.clause = append(an.clause, a.not())
		if l := e.trail[i].level; l > back {
			back = l
			n := len(an.clause) - 1
			an.clause[1], an.clause[n] = an.clause[n], an.clause[1]
		}
	}
	return back
}

const minimiseDepth = 12

// redundant says whether a, true since entry i, follows from the other needed atoms. Two atoms must not justify each
// other: a needed atom counts only if it lies before i on the trail, so that every justification goes strictly back.
func (e *engine) redundant(a atom, i int32, depth int) bool {
	an := &e.ana
	t := &e.trail[i]
	if t.why == byDecision || depth > minimiseDepth {
		return false
	}
	if m := an.memo[i]; m.round == an.memos {
		if m.redundant && a.v <= m.v {
			return true
		}
		if !m.redundant && a.v >= m.v {
			return false
		}
	}
	base := len(an.buf)
	an.buf = e.explain(a, reason{t.why, t.r1, t.r2}, i, an.buf)
	end := len(an.buf)
	e.work += int64(end - base)
	ok := true
	for k := base; k < end; k++ {
		b := an.buf[k]
		j := e.find(b)
		if j < 0 || e.trail[j].level == 0 {
			continue
		}
		if n := an.idx[b.w]; n >= 0 && n < i && an.need[b.w] >= b.v {
			continue
		}
		if an.stamp[e.trail[j].level] != an.stamps || !e.redundant(b, j, depth+1) {
			ok = false
			break
		}
	}
	an.buf = an.buf[:base]
	an.memo[i] = memo{an.memos, a.v, ok}
	return ok
}

// blockDistance counts the decision levels of the learned clause. All its atoms are false.
func (e *engine) blockDistance() int32 {
	an := &e.ana
	an.stamps++
	n := int32(0)
	for _, a := range an.clause {
		l := e.trail[e.find(a.not())].level
		if an.stamp[l] != an.stamps {
			an.stamp[l] = an.stamps
			n++
		}
	}
	return n
}

// finalCore collects the decision levels on which the true atoms in confl rest. Called while only assumptions are
// decided, so that a level is the number of an assumption.
func (e *engine) finalCore() []int32 {
	an := &e.ana
	for _, a := range e.confl {
		e.require(a, -1)
	}
	var core []int32
	for i := int32(len(e.trail) - 1); i >= 0; i-- {
		t := &e.trail[i]
		if an.idx[t.w] != i {
			continue
		}
		an.idx[t.w] = -1
		if t.level == 0 {
			continue
		}
		if t.why == byDecision {
			core = append(core, t.level-1)
			continue
		}
		an.buf = e.explain(atom{t.w, an.need[t.w]}, reason{t.why, t.r1, t.r2}, i, an.buf[:0])
		for _, b := range an.buf {
			e.require(b, -1)
		}
	}
	an.clear()
	return core
}
