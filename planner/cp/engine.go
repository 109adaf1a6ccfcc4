package cp

// engine is the state of one search: bounds, trail, clauses, propagators. It is built from a Problem by compile.
//
// Names used throughout: w is a view, a an atom, e the engine, i or j a position on the trail or a task.
type engine struct {
	lo   []int32 // lower bound by view; the upper bound of w is −lo[w^1]
	root []int32 // lower bound by view at level 0
	last []int32 // by view, the last trail entry that raised it, −1 if none

	trail  []entry
	levels []mark // where each decision level begins
	head   int    // trail entries before it are propagated
	arena  []atom // reasons given eagerly, by entries of kind byAtoms

	confl []atom // after a failed propagation: true atoms that cannot hold together

	lags     [][]lag   // by view: unconditional time lags out of it
	cond     []condLag // conditional time lags, each in two directions
	condFrom [][]int32 // by view: conditional lags out of it
	condWhen [][]int32 // by view: conditional lags whose condition is a bound of it

	props  []propagator
	attend []attentive      // by propagator: itself if it is attentive, else nil
	queue  []int8           // by propagator: where it waits
	subs   [][]subscription // by view: whom to wake when its lower bound rises
	queues [queueCount][]int32
	queued []bool

	clauses clauseStore
	ana     analysis
	proof   *proof // nil: nothing is written
	order   activity

	opened                               int64 // levels opened so far
	work, conflicts, decisions, restarts int64
}

// entry is one raised bound: view w from prev to v, because of its reason.
type entry struct {
	w       view
	v, prev int32
	prevIdx int32 // the entry before it on the same view
	level   int32
	why     reasonKind
	r1, r2  int32
}

// mark is where a level begins. No two levels ever opened share an id.
type mark struct {
	trail, arena int32
	id           int64
}

// reason says why a bound holds. Kinds other than byAtoms are expanded only when conflict analysis asks (explain).
type reason struct {
	kind   reasonKind
	r1, r2 int32
}

type reasonKind int32

const (
	byDecision   reasonKind = iota // nothing: a decision, an assumption or a root fact
	byAtoms                        // arena[r1 : r1+r2]
	byLag                          // view r1 with lag r2
	byCondLag                      // conditional lag r1, its condition holding
	byRefutedLag                   // the condition of lag r1 fails: its From was ≥ r2
	byClause                       // clause r1
	byLinear                       // propagator r1, a linear, for its term r2
)

// propagator narrows bounds. What it keeps between calls never has to be restored by backtracking.
type propagator interface {
	// propagate raises bounds by engine.set; false means conflict, with engine.confl filled.
	propagate(e *engine) bool
}

// subscription wakes a propagator. A part of 0 or more tells an attentive one which of its parts changed.
type subscription struct{ prop, part int32 }

// attentive propagators are told which of their parts changed, and look at these only.
type attentive interface {
	notice(part int32)
	// forget drops what was noticed: the search went back.
	forget()
}

// Queues run in this order: cheap propagators reach their fixpoint before dear ones look.
const (
	queueCheap = iota
	queuePair
	queueDear
	queueLast
	queueCount
)

func (e *engine) level() int32 { return int32(len(e.levels)) }

func (e *engine) isTrue(a atom) bool  { return e.lo[a.w] >= a.v }
func (e *engine) isFalse(a atom) bool { return -e.lo[a.w^1] < a.v }

// least and most are the bounds of an instant.
func (e *engine) least(i instant) int32 { return e.lo[i.w] + i.off }
func (e *engine) most(i instant) int32  { return i.off - e.lo[i.w^1] }

// set makes atom a true for reason r. It fails if a is false already, and leaves the conflict in confl.
func (e *engine) set(a atom, r reason) bool {
	prev := e.lo[a.w]
	if prev >= a.v {
		return true
	}
	if -e.lo[a.w^1] < a.v {
		e.confl = append(e.confl[:0], a.not())
		e.confl = e.explain(a, r, int32(len(e.trail)), e.confl)
		return false
	}
	e.trail = append(e.trail, entry{a.w, a.v, prev, e.last[a.w], e.level(), r.kind, r.r1, r.r2})
	e.last[a.w] = int32(len(e.trail) - 1)
	e.lo[a.w] = a.v
	e.work++
	return true
}

// explain appends atoms that imply a, which holds for reason r at trail position pos. The weaker a is than what the
// reason gave, the weaker the atoms may be.
func (e *engine) explain(a atom, r reason, pos int32, dst []atom) []atom {
	n := len(dst)
	dst = e.expand(a, r, pos, dst)
	if e.proof != nil && r.kind != byDecision && r.kind != byClause {
		e.proof.implied(a, dst[n:])
	}
	return dst
}

func (e *engine) expand(a atom, r reason, pos int32, dst []atom) []atom {
	switch r.kind {
	case byAtoms:
		return append(dst, e.arena[r.r1:r.r1+r.r2]...)
	case byLag:
		return append(dst, atom{view(r.r1), a.v - r.r2})
	case byCondLag:
		l := &e.cond[r.r1]
		return append(dst, atom{l.from, a.v - l.lag}, l.cond)
	case byRefutedLag:
		l := &e.cond[r.r1]
		return append(dst, atom{l.from, r.r2}, atom{l.to, r.r2 + l.lag}.not())
	case byClause:
		return e.clauses.explain(clauseAt(r.r1), a.w, dst)
	case byLinear:
		return e.props[r.r1].(*linear).explain(e, a, pos, r.r2, dst)
	}
	return dst
}

// because begins a reason of given atoms; follow it by appends to arena and by given.
func (e *engine) because(atoms ...atom) int {
	n := len(e.arena)
	e.arena = append(e.arena, atoms...)
	return n
}

// given closes a reason begun at n.
func (e *engine) given(n int) reason {
	return reason{byAtoms, int32(n), int32(len(e.arena) - n)}
}

// clash makes the arena from n on the conflict.
func (e *engine) clash(n int) bool {
	e.confl = append(e.confl[:0], e.arena[n:]...)
	e.proof.clash("r", e.confl)
	return false
}

// loAt is the lower bound of w when the trail had only the entries before pos.
func (e *engine) loAt(w view, pos int32) int32 {
	v, i := e.lo[w], e.last[w]
	for i >= pos {
		v, i = e.trail[i].prev, e.trail[i].prevIdx
	}
	return v
}

// find is the trail entry that first made a true atom true; −1 if it holds at the root.
func (e *engine) find(a atom) int32 {
	i := e.last[a.w]
	for i >= 0 && e.trail[i].prev >= a.v {
		i = e.trail[i].prevIdx
	}
	return i
}

// decide opens a level and makes a true in it.
func (e *engine) decide(a atom) {
	e.open()
	e.set(a, reason{})
}

func (e *engine) open() {
	e.opened++
	e.levels = append(e.levels, mark{int32(len(e.trail)), int32(len(e.arena)), e.opened})
}

// cancel goes back to the end of level l. Whatever waited in the queues belonged to the levels that go.
func (e *engine) cancel(l int32) {
	if e.level() <= l {
		return
	}
	e.clearQueues()
	m := e.levels[l]
	for i := len(e.trail) - 1; i >= int(m.trail); i-- {
		t := &e.trail[i]
		e.lo[t.w] = t.prev
		e.last[t.w] = t.prevIdx
		e.order.free(t.w.variable())
	}
	e.trail = e.trail[:m.trail]
	e.arena = e.arena[:m.arena]
	e.levels = e.levels[:l]
	e.head = len(e.trail)
}

// commitRoot makes the bounds at level 0 permanent and forgets their reasons.
func (e *engine) commitRoot() {
	e.proof.root(e)
	for i := range e.trail {
		t := &e.trail[i]
		e.last[t.w] = -1
		e.root[t.w] = e.lo[t.w]
	}
	e.trail, e.arena, e.head = e.trail[:0], e.arena[:0], 0
}
