package cp

import "context"

// outcome is what one search under assumptions came to.
type outcome uint8

const (
	limited outcome = iota // a limit came first
	solved                 // e's bounds are a solution
	refuted                // no solution under the assumptions; core says which of them
)

// searcher runs an engine under assumptions, with restarts, within limits.
type searcher struct {
	e       *engine
	branch  *brancher
	ctx     context.Context
	lim     Limits
	stopped bool // the context or a limit has ended the whole solve
	checked int64
	luby    int
	dead    bool    // refuted at the root: nothing can be searched any more
	core    []int32 // after refuted: positions of the assumptions that clash, ascending
}

// workBetweenChecks is how much work passes between two looks at the context: about a millisecond.
const workBetweenChecks = 20_000

// restartUnit is the number of conflicts of the shortest run between restarts.
const restartUnit = 250

// stop looks at the limits.
func (s *searcher) stop() bool {
	if s.stopped {
		return true
	}
	if s.lim.Work > 0 && s.e.work >= s.lim.Work || s.lim.Conflicts > 0 && s.e.conflicts >= s.lim.Conflicts {
		s.stopped = true
		return true
	}
	if s.e.work-s.checked >= workBetweenChecks {
		s.checked = s.e.work
		s.stopped = s.ctx.Err() != nil
	}
	return s.stopped
}

// run searches for a solution under the assumptions, for at most budget work (0: without end). The engine is left at
// the solution if solved, else at level 0.
//
// The atoms held are assumptions too, but stand in one level together: they are cheap to set again and again, and are
// not told apart in the core. A conflict in that level has no single decision to learn about; it refutes.
func (s *searcher) run(assume, held []atom, budget int64) outcome {
	e := s.e
	end := e.work + budget
	e.work += int64(1 + len(assume) + len(held)) // so that even a search that ends at once counts
	e.cancel(0)
	s.core = nil
	if s.dead {
		return refuted
	}
	s.luby++
	left := restartUnit * luby(s.luby)
	below := int32(len(assume)) // levels under the search's own decisions
	if len(held) > 0 {
		below++
	}
	for {
		if s.stop() || budget > 0 && e.work > end {
			e.cancel(0)
			return limited
		}
		if !e.propagate() {
			left--
			if !s.back(len(held) > 0, below) {
				return refuted
			}
			continue
		}
		if e.level() == 0 {
			e.commitRoot()
			if len(e.clauses.learned) > e.clauses.keep {
				e.reduce()
			}
		}
		if left <= 0 {
			e.restarts++
			s.luby++
			left = restartUnit * luby(s.luby)
			s.branch.hinted = !s.branch.hinted
			if len(e.clauses.learned) > e.clauses.keep {
				e.cancel(0)
				continue
			}
			e.cancel(below)
		}
		if n := int(e.level()); n < len(assume) {
			a := assume[n]
			switch {
			case e.isTrue(a):
				e.open()
			case e.isFalse(a):
				s.core = s.coreOf(a, int32(n))
				s.e.proof.clash("l", pick(assume, s.core))
				e.cancel(0)
				return refuted
			default:
				e.decide(a)
			}
			continue
		}
		if e.level() < below {
			e.open()
			if !s.setAll(held) {
				e.cancel(0)
				return refuted
			}
			continue
		}
		a, ok := s.branch.next(e)
		if !ok {
			return solved
		}
		e.decisions++
		e.decide(a)
	}
}

// back learns from a conflict and goes back; false if the conflict refutes what is asked, as one at the root does, and
// one at the level of what is held.
func (s *searcher) back(held bool, below int32) bool {
	e := s.e
	e.conflicts++
	cur := e.conflictLevel()
	if held && cur == below {
		e.cancel(0)
		return false
	}
	if cur == 0 {
		e.proof.root(e)
	}
	if cur == 0 || !s.resolve(cur) {
		e.cancel(0)
		s.dead = true
		return false
	}
	return true
}

func (s *searcher) setAll(atoms []atom) bool {
	for _, a := range atoms {
		if !s.e.set(a, reason{}) {
			return false
		}
	}
	return true
}

// resolve learns from a conflict of level cur and goes back; false if what it learned is refuted at the root.
func (s *searcher) resolve(cur int32) bool {
	e := s.e
	back := e.analyze(cur)
	e.order.decay()
	e.clauses.decay()
	clause := e.ana.clause
	e.proof.clause("l", clause...)
	if len(clause) == 1 {
		e.cancel(0)
		return e.set(clause[0], reason{})
	}
	lbd := e.blockDistance()
	e.cancel(back)
	c := e.clauses.learn(clause, lbd)
	return e.set(clause[0], reason{byClause, int32(c), 0})
}

// coreOf is which assumptions clash when assumption n, atom a, is found false.
func (s *searcher) coreOf(a atom, n int32) []int32 {
	e := s.e
	e.confl = append(e.confl[:0], a.not())
	core := append(e.finalCore(), n)
	// finalCore meets levels from the last to the first.
	for i, j := 0, len(core)-2; i < j; i, j = i+1, j-1 {
		core[i], core[j] = core[j], core[i]
	}
	return core
}

func pick(atoms []atom, which []int32) []atom {
	out := make([]atom, len(which))
	for i, n := range which {
		out[i] = atoms[n]
	}
	return out
}

// values reads the solution off the bounds.
func (e *engine) values(n int) []int {
	out := make([]int, n)
	for x := range out {
		out[x] = int(e.lo[2*x])
	}
	return out
}

// luby is the i-th term of 1 1 2 1 1 2 4 … (Luby, Sinclair, Zuckerman 1993), i from 1.
func luby(i int) int {
	for k := 1; ; k++ {
		if i == 1<<k-1 {
			return 1 << (k - 1)
		}
		if i < 1<<k-1 {
			return luby(i - (1<<(k-1) - 1))
		}
	}
}
