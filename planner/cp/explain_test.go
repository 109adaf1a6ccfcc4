package cp

import (
	"context"
	"math/rand/v2"
	"testing"
)

// auditor looks at every reason and conflict of random descents, and says whether each is a true implication of the
// problem: no assignment that keeps the constraints has the reason's atoms and not the atom.
type auditor struct {
	t         *testing.T
	e         *engine
	solutions [][]int32 // by solution, the value of each of the engine's variables that the problem has
	n         int       // problem variables
	seed      uint64
	checked   int
}

// audit checks atoms ⇒ a against all solutions; a nil a means that the atoms cannot hold together. Atoms over helper
// variables (conjunctions) are evaluated through the helper's value in the solution.
func (u *auditor) audit(atoms []atom, a *atom) {
	u.t.Helper()
	u.checked++
	for _, s := range u.solutions {
		if holdAll(s, atoms) && (a == nil || !holds(s, *a)) {
			u.t.Fatalf("seed %d: solution %v has %v, but not %v", u.seed, s, atoms, a)
		}
	}
}

func holds(s []int32, a atom) bool {
	v := s[a.w>>1]
	if a.w&1 == 1 {
		v = -v
	}
	return v >= a.v
}

func holdAll(s []int32, atoms []atom) bool {
	for _, a := range atoms {
		if !holds(s, a) {
			return false
		}
	}
	return true
}

// completed finds the helpers' values that belong to a solution, by fixing the problem's variables and propagating.
func completed(t *testing.T, p *Problem, values []int) []int32 {
	e, _, ok := compile(p, nil)
	if !ok {
		t.Fatal("a problem with a solution is refuted at the root")
	}
	for x, v := range values {
		w := viewOf(Var(x))
		e.decide(atom{w, int32(v)})
		e.decide(atom{w ^ 1, int32(-v)})
		if !e.propagate() {
			t.Fatalf("solution %v is refuted by propagation at variable %d", values, x)
		}
	}
	out := make([]int32, len(e.lo)/2)
	for x := range out {
		out[x] = e.lo[2*x]
	}
	return out
}

// TestReasonsAreImplications runs random descents, auditing every reason on the trail, every conflict and every
// learned clause. It also is the planted witness: every solution survives propagation, at the root and when followed.
func TestReasonsAreImplications(t *testing.T) {
	checked, problems := 0, 0
	for seed := range uint64(2000) {
		p := newRandom(seed + 1_000_000).problem()
		if seed%8 == 0 {
			p = newRandom(seed + 1_000_000).planted()
		}
		p.Levels, p.Assumptions = nil, nil
		var solutions [][]int32
		enumerate(p, func(values []int) bool {
			if Check(p, values) == nil {
				solutions = append(solutions, completed(t, p, values))
			}
			return len(solutions) < 200
		})
		e, _, ok := compile(p, nil)
		if !ok {
			if len(solutions) > 0 {
				t.Fatalf("seed %d: refuted at the root with %d solutions", seed, len(solutions))
			}
			continue
		}
		problems++
		u := &auditor{t: t, e: e, solutions: solutions, n: len(p.Vars), seed: seed}
		for k := range uint64(8) {
			u.descend(rand.New(rand.NewPCG(seed, k)))
			e.cancel(0)
		}
		checked += u.checked
	}
	t.Logf("%d reasons, conflicts and learned clauses checked in %d problems", checked, problems)
	if checked < 15_000 {
		t.Errorf("only %d were checked", checked)
	}
}

// descend decides at random, learning from conflicts, until all is fixed or refuted.
func (u *auditor) descend(r *rand.Rand) {
	e := u.e
	s := &searcher{e: e, ctx: context.Background()}
	seen := 0
	for range 60 {
		ok := e.propagate()
		for seen = min(seen, len(e.trail)); seen < len(e.trail); seen++ {
			t := e.trail[seen]
			if t.why == byDecision {
				continue
			}
			// The bound itself, and a weaker one: lazy reasons may answer differently.
			for _, v := range []int32{t.v, t.prev + 1} {
				a := atom{t.w, v}
				why := e.explain(a, reason{t.why, t.r1, t.r2}, int32(seen), nil)
				u.before(why, int32(seen))
				u.audit(why, &a)
			}
		}
		if !ok {
			u.before(e.confl, int32(len(e.trail)))
			u.audit(e.confl, nil)
			if cur := e.conflictLevel(); cur == 0 || !s.resolve(cur) {
				if len(u.solutions) > 0 {
					u.t.Fatalf("seed %d: refuted with %d solutions", u.seed, len(u.solutions))
				}
				return
			}
			var negated []atom
			for _, a := range e.ana.clause {
				negated = append(negated, a.not())
			}
			u.audit(negated, nil)
			seen = 0 // the trail was cut somewhere below
			continue
		}
		x := r.IntN(u.n)
		for k := 0; k < u.n && e.fixed(x); k++ {
			x = (x + 1) % u.n
		}
		if e.fixed(x) {
			return
		}
		w := viewOf(Var(x)) ^ view(r.IntN(2))
		e.decide(atom{w, e.lo[w] + 1 + r.Int32N(-e.lo[w^1]-e.lo[w])})
	}
}

// before makes sure that atoms of a reason were all true before entry pos.
func (u *auditor) before(atoms []atom, pos int32) {
	for _, a := range atoms {
		if u.e.loAt(a.w, pos) < a.v {
			u.t.Fatalf("seed %d: a reason at %d names %v, not true by then", u.seed, pos, a)
		}
	}
}
