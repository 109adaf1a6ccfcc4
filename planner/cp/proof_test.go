package cp

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// follower checks a proof line by line (the form is told in proof.go). It shares nothing with the engine: what follows
// from the problem is checked against all its solutions, found by enumeration with Check, and what is learned by unit
// propagation over plain lists of bounds.
type follower struct {
	p         *Problem
	solutions [][]int // of the constraints, helpers included
	levels    []levelRef

	lo, hi  []int
	clauses [][]bound
	facts   []bound // from a lines

	best   []int // values of the levels at the last solution
	bounds []int
	frozen int
	clash  []int
	lines  map[string]int
}

// bound is x ≥ v, or x ≤ v if upper.
type bound struct {
	x, v  int
	upper bool
}

type levelRef struct {
	x, off int
	minus  bool
}

func (l levelRef) atMost(v int) bound {
	if l.minus {
		return bound{l.x, l.off - v, false}
	}
	return bound{l.x, v - l.off, true}
}

func (b bound) holds(values []int) bool {
	if b.upper {
		return values[b.x] <= b.v
	}
	return values[b.x] >= b.v
}

func (b bound) not() bound {
	if b.upper {
		return bound{b.x, b.v + 1, false}
	}
	return bound{b.x, b.v - 1, true}
}

func parseBound(s string) (b bound, err error) {
	op := ">="
	if strings.Contains(s, "<=") {
		op, b.upper = "<=", true
	}
	x, v, ok := strings.Cut(strings.TrimPrefix(s, "x"), op)
	if !ok {
		return b, fmt.Errorf("%q is no bound", s)
	}
	if b.x, err = strconv.Atoi(x); err == nil {
		b.v, err = strconv.Atoi(v)
	}
	return b, err
}

func follow(p *Problem, r io.Reader) (*follower, error) {
	f := &follower{p: p, lines: map[string]int{}}
	hard := *p
	hard.Assumptions = nil
	enumerate(p, func(values []int) bool {
		if Check(&hard, values) == nil {
			f.solutions = append(f.solutions, slices.Clone(values))
		}
		return true
	})
	for range p.Vars {
		f.variable()
	}
	f.bounds = make([]int, len(p.Levels))
	lines := bufio.NewScanner(r)
	for n := 1; lines.Scan(); n++ {
		if err := f.line(strings.Fields(lines.Text())); err != nil {
			return f, fmt.Errorf("line %d (%s): %w", n, lines.Text(), err)
		}
	}
	return f, lines.Err()
}

func (f *follower) variable() {
	const far = 1 << 30
	f.lo, f.hi = append(f.lo, -far), append(f.hi, far)
}

func (f *follower) line(words []string) error {
	f.lines[words[0]]++
	switch words[0] {
	case "h":
		return f.helper(words[1:])
	case "o":
		l := levelRef{minus: strings.HasPrefix(words[2], "-")}
		if _, err := fmt.Sscanf(strings.TrimPrefix(words[2], "-")+" "+words[3], "x%d %d", &l.x, &l.off); err != nil {
			return err
		}
		f.levels = append(f.levels, l)
		for _, s := range f.solutions {
			v := s[l.x]
			if l.minus {
				v = -v
			}
			if want := f.p.Levels[len(f.levels)-1].Value(s); v+l.off != want {
				return fmt.Errorf("level comes to %d, not %d", v+l.off, want)
			}
		}
		return nil
	case "r", "l":
		var c []bound
		for _, w := range words[1:] {
			b, err := parseBound(w)
			if err != nil {
				return err
			}
			c = append(c, b)
		}
		if words[0] == "r" {
			return f.reason(c)
		}
		return f.learned(c)
	case "a":
		b, err := parseBound(words[1])
		if err != nil {
			return err
		}
		return f.fact(b)
	}
	ns := make([]int, len(words)-1)
	for i, w := range words[1:] {
		var err error
		if ns[i], err = strconv.Atoi(w); err != nil {
			return err
		}
	}
	switch words[0] {
	case "s":
		return f.solution(ns)
	case "b":
		return f.bound(ns[0], ns[1])
	case "i":
		f.clash = ns
		var assumed []bound
		for _, i := range ns {
			for _, l := range f.p.Assumptions[i].Lits {
				if l.X == None {
					if !(checker{}).holds(l) {
						return nil // the assumption contradicts itself
					}
					continue
				}
				assumed = append(assumed, bound{int(l.X), l.Bound, l.Upper})
			}
		}
		return f.refutes(assumed)
	}
	return fmt.Errorf("unknown line")
}

// helper defines a variable after those of the problem; every solution gets its value.
func (f *follower) helper(words []string) error {
	if want := fmt.Sprintf("x%d", len(f.lo)); words[0] != want {
		return fmt.Errorf("helper %s instead of %s", words[0], want)
	}
	var value func(s []int) int
	switch words[1] {
	case "zero":
		value = func([]int) int { return 0 }
	case "level":
		n, err := strconv.Atoi(words[2])
		if err != nil {
			return err
		}
		value = func(s []int) int { return f.p.Levels[n].Value(s) - f.p.Levels[n].Const }
	case "and":
		var bs []bound
		for _, w := range words[2:] {
			b, err := parseBound(w)
			if err != nil {
				return err
			}
			bs = append(bs, b)
		}
		value = func(s []int) int {
			for _, b := range bs {
				if !b.holds(s) {
					return 0
				}
			}
			return 1
		}
	default:
		return fmt.Errorf("unknown helper")
	}
	f.variable()
	for i, s := range f.solutions {
		f.solutions[i] = append(s, value(s))
	}
	return nil
}

// reason: the clause holds in every solution that has all facts.
func (f *follower) reason(c []bound) error {
	for _, s := range f.solutions {
		holds := func(b bound) bool { return b.holds(s) }
		if !slices.ContainsFunc(c, holds) && !slices.ContainsFunc(f.facts, func(b bound) bool { return !b.holds(s) }) {
			return fmt.Errorf("solution %v breaks it", s)
		}
	}
	f.add(c)
	return nil
}

func (f *follower) learned(c []bound) error {
	var against []bound
	for _, b := range c {
		against = append(against, b.not())
	}
	if err := f.refutes(against); err != nil {
		return err
	}
	f.add(c)
	return nil
}

func (f *follower) add(c []bound) {
	f.clauses = append(f.clauses, c)
	f.propagate(f.lo, f.hi)
}

// refutes: unit propagation from the bounds ends in a contradiction.
func (f *follower) refutes(assumed []bound) error {
	lo, hi := slices.Clone(f.lo), slices.Clone(f.hi)
	for _, b := range assumed {
		set(lo, hi, b)
	}
	if f.propagate(lo, hi) {
		return fmt.Errorf("unit propagation finds no contradiction")
	}
	return nil
}

func set(lo, hi []int, b bound) {
	if b.upper {
		hi[b.x] = min(hi[b.x], b.v)
	} else {
		lo[b.x] = max(lo[b.x], b.v)
	}
}

// propagate narrows bounds by unit clauses to the end; false means a contradiction.
func (f *follower) propagate(lo, hi []int) bool {
	for again := true; again; {
		again = false
		for x := range lo {
			if lo[x] > hi[x] {
				return false
			}
		}
		for _, c := range f.clauses {
			open, at, holds := 0, 0, false
			for i, b := range c {
				no, yes := lo[b.x] > b.v, hi[b.x] <= b.v // for x ≤ v
				if !b.upper {
					no, yes = hi[b.x] < b.v, lo[b.x] >= b.v
				}
				holds = holds || yes
				if !no {
					open, at = open+1, i
				}
			}
			switch {
			case holds:
			case open == 0:
				return false
			case open == 1:
				set(lo, hi, c[at])
				again = true
			}
		}
	}
	return true
}

// fact narrows the solutions of interest: to the assumptions, or to what is no worse than the best.
func (f *follower) fact(b bound) error {
	if f.best == nil {
		return fmt.Errorf("a fact before any solution")
	}
	allowed := b.not().upper && f.lo[b.x] >= b.v || !b.not().upper && f.hi[b.x] <= b.v
	for _, a := range f.p.Assumptions {
		for _, l := range a.Lits {
			allowed = allowed || l.X != None && b == bound{int(l.X), l.Bound, l.Upper}
		}
	}
	if n := f.frozen; n < len(f.levels) {
		last := n == len(f.levels)-1
		switch {
		case b == f.levels[n].atMost(f.best[n]) && f.bounds[n] == f.best[n]:
			allowed = true
			f.frozen++
		case last && b == f.levels[n].atMost(f.best[n]-1):
			allowed = true
		}
	}
	if !allowed {
		return fmt.Errorf("not allowed here")
	}
	f.facts = append(f.facts, b)
	f.add([]bound{b})
	return nil
}

func (f *follower) solution(values []int) error {
	if err := Check(f.p, values); err != nil {
		return err
	}
	got := make([]int, len(f.p.Levels))
	for i, l := range f.p.Levels {
		got[i] = l.Value(values)
	}
	if f.best != nil && slices.Compare(got, f.best) >= 0 {
		return fmt.Errorf("no better than %v", f.best)
	}
	f.best = got
	return nil
}

func (f *follower) bound(level, v int) error {
	var assumed []bound
	for k := range level {
		assumed = append(assumed, f.levels[k].atMost(f.best[k]))
	}
	f.bounds[level] = v
	return f.refutes(append(assumed, f.levels[level].atMost(v-1)))
}

// proved solves the problem with a proof and follows it.
func proved(p *Problem) (Result, *follower, string, error) {
	var text bytes.Buffer
	r := Solve(context.Background(), p, Limits{Proof: &text})
	f, err := follow(p, bytes.NewReader(text.Bytes()))
	return r, f, text.String(), err
}

// TestProofs follows the proof of every answer: optima, bounds and clashes are not taken on trust.
func TestProofs(t *testing.T) {
	lines := map[string]int{}
	for seed := range uint64(600) {
		p := newRandom(seed + 9_000_000).problem()
		r, f, text, err := proved(p)
		if err != nil {
			t.Fatalf("seed %d: %v\n%s", seed, err, text)
		}
		switch r.Status {
		case Optimal:
			for i, l := range r.Levels {
				if l.Value != f.best[i] {
					t.Fatalf("seed %d: level %d is %d, the proof's last solution has %d", seed, i, l.Value, f.best[i])
				}
				if f.bounds[i] != l.Value {
					t.Fatalf("seed %d: level %d = %d is not proved", seed, i, l.Value)
				}
			}
		case Infeasible:
			if !slices.Equal(f.clash, r.Core) {
				t.Fatalf("seed %d: core %v, proof %v", seed, r.Core, f.clash)
			}
		}
		for k, n := range f.lines {
			lines[k] += n
		}
	}
	t.Logf("lines followed: %v", lines)
	for _, k := range []string{"h", "o", "r", "l", "s", "a", "b", "i"} {
		if lines[k] == 0 {
			t.Errorf("no line of kind %s was followed", k)
		}
	}
}

// TestFalseProofs: a proof spoiled in one place is refused, so that TestProofs can fail.
func TestFalseProofs(t *testing.T) {
	spoil := map[string]func(lines []string) []string{
		"a bound one too high": func(ls []string) []string {
			for i := len(ls) - 1; i >= 0; i-- {
				var l, v int
				if n, _ := fmt.Sscanf(ls[i], "b %d %d", &l, &v); n == 2 {
					ls[i] = fmt.Sprintf("b %d %d", l, v+1)
					return ls
				}
			}
			return nil
		},
		"a learned clause without one of its bounds": func(ls []string) []string {
			for i, l := range ls {
				if w := strings.Fields(l); len(w) > 2 && w[0] == "l" {
					ls[i] = strings.Join(w[:len(w)-1], " ")
					return ls
				}
			}
			return nil
		},
		"no reasons": func(ls []string) []string {
			return slices.DeleteFunc(ls, func(l string) bool { return strings.HasPrefix(l, "r") })
		},
		"another solution": func(ls []string) []string {
			for i, l := range ls {
				if w := strings.Fields(l); len(w) > 1 && w[0] == "s" {
					ls[i] = "s 99 " + strings.Join(w[2:], " ")
					return ls
				}
			}
			return nil
		},
	}
	for name, f := range spoil {
		tried, refused := 0, 0
		for seed := range uint64(150) {
			p := newRandom(seed + 9_000_000).problem()
			_, _, text, _ := proved(p)
			ls := f(strings.Split(strings.TrimSpace(text), "\n"))
			if ls == nil {
				continue
			}
			tried++
			if _, err := follow(p, strings.NewReader(strings.Join(ls, "\n"))); err != nil {
				refused++
			}
		}
		// Some spoiled proofs are still proofs: a clause may hold without one of its bounds.
		if tried == 0 || refused < tried/3 {
			t.Errorf("%s: %d of %d refused", name, refused, tried)
		}
	}
}
