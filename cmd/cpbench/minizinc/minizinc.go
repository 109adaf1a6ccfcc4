// Package minizinc writes a problem of the engine for other solvers, so that they can be asked the same question. It
// serves cmd/cpbench and the tests of planner/cp; tureen itself asks nobody.
package minizinc

import (
	"bufio"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"tureen/planner/cp"
)

// Write writes a valid problem as a model in MiniZinc, the open modelling language, with nothing but its standard
// globals. The first len(kept) levels are bounded by
// the values kept, the level after them is minimised; when there is none, any solution is asked for. The model puts
// out the variables as "x = [...]", then the objective as "objective = ...".
func Write(w io.Writer, p *cp.Problem, kept []int) error {
	m := &mzn{w: bufio.NewWriter(w), p: p}
	m.line(`include "cumulative.mzn";`)
	for i, d := range p.Vars {
		m.line("var %d..%d: x%d; %% %s", d.Lo, d.Hi, i, strings.Map(printable, d.Name))
	}
	for _, c := range p.Clauses {
		m.constraint(m.lits(c, ` \/ `, "false"))
	}
	for _, l := range p.Lags {
		m.when(l.If, fmt.Sprintf("%s >= %s + %d", m.point(l.To), m.point(l.From), l.Min))
	}
	for _, l := range p.Linears {
		m.when(l.If, fmt.Sprintf("%s <= %d", m.sum(l.Terms), l.Max))
	}
	for _, c := range p.Cumulatives {
		m.cumulative(c)
	}
	for _, d := range p.Disjunctives {
		m.disjunctive(d)
	}
	for _, c := range p.Calendars {
		m.when(c.If, "not "+m.inside(m.point(c.At), c.Forbidden))
	}
	for _, g := range p.Guards {
		m.guard(g)
	}
	for _, x := range p.Maxima {
		m.maximum(x)
	}
	for _, a := range p.Assumptions {
		m.constraint(m.lits(a.Lits, ` /\ `, "true"))
	}
	for i, v := range kept {
		m.constraint(fmt.Sprintf("%s <= %d", m.level(i), v))
	}
	m.objective(len(kept))
	return m.w.Flush()
}

type mzn struct {
	w *bufio.Writer
	p *cp.Problem
}

// line writes a line; a failed write comes back from Flush.
func (m *mzn) line(format string, args ...any) {
	fmt.Fprintf(m.w, format, args...)
	m.w.WriteByte('\n')
}

func printable(r rune) rune {
	if r < ' ' {
		return ' '
	}
	return r
}

func (m *mzn) constraint(c string) { m.line("constraint %s;", c) }

// when writes: c, if all of conds hold.
func (m *mzn) when(conds []cp.Lit, c string) {
	if len(conds) > 0 {
		c = fmt.Sprintf("(%s) -> (%s)", m.lits(conds, ` /\ `, "true"), c)
	}
	m.constraint(c)
}

func (m *mzn) lits(ls []cp.Lit, join, none string) string {
	if len(ls) == 0 {
		return none
	}
	out := make([]string, len(ls))
	for i, l := range ls {
		op := ">="
		if l.Upper {
			op = "<="
		}
		out[i] = fmt.Sprintf("%s %s %d", m.point(l.X.At()), op, l.Bound)
	}
	return strings.Join(out, join)
}

func (m *mzn) point(p cp.Point) string {
	if p.X == cp.None {
		return fmt.Sprintf("(%d)", p.Off)
	}
	if p.Off == 0 {
		return fmt.Sprintf("x%d", p.X)
	}
	return fmt.Sprintf("(x%d + %d)", p.X, p.Off)
}

func (m *mzn) sum(ts []cp.Term) string {
	if len(ts) == 0 {
		return "0"
	}
	out := make([]string, len(ts))
	for i, t := range ts {
		out[i] = fmt.Sprintf("%d * x%d", t.Coef, t.X)
	}
	return strings.Join(out, " + ")
}

func (m *mzn) level(i int) string {
	l := m.p.Levels[i]
	return fmt.Sprintf("%s + %d", m.sum(l.Terms), l.Const)
}

// cumulative: an absent use demands nothing, a reversed interval lasts no time. A use that never lasts any time is left
// out, and one of more than the capacity, which must be absent or last none, is said apart: Gecode counts them all the
// same.
func (m *mzn) cumulative(c cp.Cumulative) {
	var s, d, r []string
	for _, u := range c.Uses {
		if u.Start.X == u.End.X && u.End.Off <= u.Start.Off {
			continue
		}
		if u.Demand > c.Capacity {
			m.when(u.If, fmt.Sprintf("%s <= %s", m.point(u.End), m.point(u.Start)))
			continue
		}
		s = append(s, m.point(u.Start))
		d = append(d, m.length(u))
		if len(u.If) == 0 {
			r = append(r, fmt.Sprint(u.Demand))
		} else {
			r = append(r, fmt.Sprintf("%d * bool2int(%s)", u.Demand, m.lits(u.If, ` /\ `, "true")))
		}
	}
	if len(s) > 0 {
		m.constraint(fmt.Sprintf("cumulative([%s], [%s], [%s], %d)",
			strings.Join(s, ", "), strings.Join(d, ", "), strings.Join(r, ", "), c.Capacity))
	}
}

// length is a number where the duration is fixed: solvers know better ways for that case.
func (m *mzn) length(u cp.Use) string {
	if u.Start.X == u.End.X {
		return fmt.Sprint(u.End.Off - u.Start.Off)
	}
	return fmt.Sprintf("max(0, %s - %s)", m.point(u.End), m.point(u.Start))
}

func (m *mzn) disjunctive(d cp.Disjunctive) {
	for j, b := range d.Tasks {
		for _, a := range d.Tasks[:j] {
			ab, ba := 0, 0
			if d.Setup != nil {
				ab, ba = d.Setup[a.Kind][b.Kind], d.Setup[b.Kind][a.Kind]
			}
			m.when(append(append([]cp.Lit(nil), a.If...), b.If...), fmt.Sprintf(`%s >= %s + %d \/ %s >= %s + %d`,
				m.point(b.Start), m.point(a.End), ab, m.point(a.Start), m.point(b.End), ba))
		}
	}
}

func (m *mzn) inside(t string, rs []cp.Range) string {
	out := []string{"false"}
	for _, r := range rs {
		out = append(out, fmt.Sprintf(`%s >= %d /\ %s < %d`, t, r.From, t, r.To))
	}
	return `((` + strings.Join(out, `) \/ (`) + `))`
}

// guard asks at the guard's start and wherever somebody may leave: nobody else can be missed first.
func (m *mzn) guard(g cp.Guard) {
	instants := []string{m.point(g.Start)}
	for _, w := range g.Watchers {
		for _, r := range w.Off {
			instants = append(instants, fmt.Sprintf("(%d)", r.From))
		}
		for _, b := range w.Busy {
			instants = append(instants, m.point(b.Start))
		}
	}
	for _, t := range instants {
		watching := []string{"false"}
		for _, w := range g.Watchers {
			away := []string{m.inside(t, w.Off)}
			for _, b := range w.Busy {
				away = append(away, fmt.Sprintf(`(%s) /\ %s <= %s /\ %s < %s`,
					m.lits(b.If, ` /\ `, "true"), m.point(b.Start), t, t, m.point(b.End)))
			}
			watching = append(watching, `not ((`+strings.Join(away, `) \/ (`)+`))`)
		}
		m.constraint(fmt.Sprintf(`(%s <= %s /\ %s < %s) -> (%s)`,
			m.point(g.Start), t, t, m.point(g.End), strings.Join(watching, ` \/ `)))
	}
}

func (m *mzn) maximum(x cp.Maximum) {
	f := "max"
	if x.Least {
		f = "min"
	}
	xs := make([]string, len(x.Xs))
	for i, y := range x.Xs {
		xs[i] = m.point(y)
	}
	m.when(x.If, fmt.Sprintf("%s = %s([%s])", m.point(x.Y), f, strings.Join(xs, ", ")))
}

func (m *mzn) objective(level int) {
	objective := "0"
	if level < len(m.p.Levels) {
		objective = m.level(level)
		m.line("solve %sminimize %s;", m.search(), objective)
	} else {
		m.line("solve %ssatisfy;", m.search())
	}
	names := make([]string, len(m.p.Vars))
	for i := range names {
		names[i] = fmt.Sprintf("x%d", i)
	}
	m.line(`output ["x = ", show([%s]), "\nobjective = ", show(%s), "\n"];`, strings.Join(names, ", "), objective)
}

// search writes the problem's hints as a search annotation; other solvers too may take or leave it.
func (m *mzn) search() string {
	groups := map[int][]cp.Decision{}
	for _, d := range m.p.Branch {
		groups[d.Group] = append(groups[d.Group], d)
	}
	var out []string
	for _, g := range slices.Sorted(maps.Keys(groups)) {
		ds := groups[g]
		for len(ds) > 0 {
			n := 1
			for n < len(ds) && ds[n].Prefer == ds[0].Prefer {
				n++
			}
			xs := make([]string, n)
			for i, d := range ds[:n] {
				xs[i] = fmt.Sprintf("x%d", d.X)
			}
			out = append(out, fmt.Sprintf("int_search([%s], %s)", strings.Join(xs, ", "), ways[ds[0].Prefer]))
			ds = ds[n:]
		}
	}
	if len(out) == 0 {
		return ""
	}
	return ":: seq_search([" + strings.Join(out, ", ") + "]) "
}

// ways are the search annotation's words for how a decision settles a variable.
var ways = map[cp.Prefer]string{
	cp.Low: "input_order, indomain_min", cp.High: "input_order, indomain_max",
	cp.Earliest: "smallest, indomain_min", cp.Latest: "largest, indomain_max",
}
