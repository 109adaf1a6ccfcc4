package cp

import (
	"bufio"
	"fmt"
	"io"
)

// proof writes what a solve rests on, line by line, so that another program can follow it (see proof_test.go, which
// shares no code with the engine). Variables are named x0, x1, …: those of the problem first, then helpers. A clause
// is
// a list of bounds, of which one holds.
//
//	h x9 and x1>=1 x2<=3    helper 9 is 1 exactly when all the bounds hold
//	h x9 level 0            helper 9 is the value of level 0, less its constant
//	h x9 zero               helper 9 is 0
//	o 0 x9 5                level 0 is x9 + 5 (or, written -x9, 5 − x9)
//	r CLAUSE                follows from the problem's constraints
//	l CLAUSE                learned: follows from the lines before by unit propagation
//	s VALUES                a solution, better than the last one
//	a BOUND                 from here on only solutions with this bound are of interest
//	b 0 7                   level 0 is at least 7, while the levels before are at most as in the last solution
//	i 0 2                   assumptions 0 and 2 clash
type proof struct{ w *bufio.Writer }

func newProof(w io.Writer) *proof {
	if w == nil {
		return nil
	}
	return &proof{bufio.NewWriter(w)}
}

func (a atom) String() string {
	if a.w&1 == 1 {
		return fmt.Sprintf("x%d<=%d", a.w>>1, -a.v)
	}
	return fmt.Sprintf("x%d>=%d", a.w>>1, a.v)
}

// clause writes a line of the kind with the given atoms.
func (p *proof) clause(kind string, atoms ...atom) {
	if p == nil {
		return
	}
	p.w.WriteString(kind)
	for _, a := range atoms {
		p.w.WriteByte(' ')
		p.w.WriteString(a.String())
	}
	p.w.WriteByte('\n')
}

// implied writes that a follows from why.
func (p *proof) implied(a atom, why []atom) {
	if p == nil {
		return
	}
	clause := []atom{a}
	for _, b := range why {
		clause = append(clause, b.not())
	}
	p.clause("r", clause...)
}

// clash writes that atoms cannot hold together.
func (p *proof) clash(kind string, atoms []atom) {
	if p == nil {
		return
	}
	clause := make([]atom, len(atoms))
	for i, a := range atoms {
		clause[i] = a.not()
	}
	p.clause(kind, clause...)
}

func (p *proof) line(format string, args ...any) {
	if p != nil {
		fmt.Fprintf(p.w, format+"\n", args...)
	}
}

func (p *proof) numbers(kind string, ns []int) {
	if p == nil {
		return
	}
	p.w.WriteString(kind)
	for _, n := range ns {
		fmt.Fprintf(p.w, " %d", n)
	}
	p.w.WriteByte('\n')
}

// start writes what compile made: the bounds at the root and the clauses.
func (p *proof) start(e *engine) {
	if p == nil {
		return
	}
	for w := range e.root {
		p.clause("r", atom{view(w), e.root[w]})
	}
	s := &e.clauses
	for c := clauseAt(0); int(c) < len(s.db); c += 1 + clauseAt(s.db[c].w) {
		p.clause("r", s.atoms(c)...)
	}
}

// root writes the reasons of bounds found at level 0 since the last commit.
func (p *proof) root(e *engine) {
	if p == nil {
		return
	}
	end := len(e.trail)
	if e.level() > 0 {
		end = int(e.levels[0].trail)
	}
	for i := range end {
		t := &e.trail[i]
		e.explain(atom{t.w, t.v}, reason{t.why, t.r1, t.r2}, int32(i), nil)
	}
}

// close hands everything to the writer.
func (p *proof) close() error {
	if p == nil {
		return nil
	}
	return p.w.Flush()
}
