package cp_test

import (
	"encoding/json"
	"math"

	"tureen/planner/cp"
)

// cpsat puts a problem in the terms of CP-SAT's model format (CpModelProto, field names as in its published .proto
// file), without the engine's code: only the meaning that problem.go states. It is for tests, as a second road to
// another solver besides MiniZinc.
type cpsat struct {
	Variables   []cpsatVar       `json:"variables"`
	Constraints []map[string]any `json:"constraints"`
	Objective   *cpsatLinear     `json:"objective,omitempty"`

	bounds map[cp.Lit]int // the literal that is the Lit
}

type cpsatVar struct {
	Domain []int `json:"domain"`
}

type cpsatLinear struct {
	Vars   []int `json:"vars"`
	Coeffs []int `json:"coeffs"`
	Offset int   `json:"offset,omitempty"`
	Domain []int `json:"domain,omitempty"`
}

// A literal is a variable's index, or the negation −1−index.
func not(lit int) int { return -1 - lit }

const cpsatMax = math.MaxInt32

// cpsatModel asks for the level after those kept, as minizinc.Write does.
func cpsatModel(p *cp.Problem, kept []int) ([]byte, error) {
	m := &cpsat{bounds: map[cp.Lit]int{}}
	for _, d := range p.Vars {
		m.variable(d.Lo, d.Hi)
	}
	for _, c := range p.Clauses {
		m.or(m.lits(c)...)
	}
	for _, l := range p.Lags {
		m.least(m.diff(l.To, l.From), l.Min, m.lits(l.If))
	}
	for _, l := range p.Linears {
		m.most(m.terms(l.Terms, 1, 0), l.Max, m.lits(l.If))
	}
	for _, c := range p.Cumulatives {
		m.cumulative(c)
	}
	for _, d := range p.Disjunctives {
		m.disjunctive(d)
	}
	for _, c := range p.Calendars {
		for _, r := range c.Forbidden {
			before := m.leq(c.At, cp.Const(r.From-1))
			m.clause([]int{before, m.leq(cp.Const(r.To), c.At)}, m.lits(c.If))
		}
	}
	for _, g := range p.Guards {
		m.guard(g)
	}
	for _, x := range p.Maxima {
		m.maximum(x)
	}
	for _, a := range p.Assumptions {
		for _, l := range m.lits(a.Lits) {
			m.or(l)
		}
	}
	for i, v := range kept {
		m.most(m.terms(p.Levels[i].Terms, 1, p.Levels[i].Const), v, nil)
	}
	if len(kept) < len(p.Levels) {
		l := m.terms(p.Levels[len(kept)].Terms, 1, p.Levels[len(kept)].Const)
		m.Objective = &l
	}
	return json.Marshal(m)
}

func (m *cpsat) variable(lo, hi int) int {
	m.Variables = append(m.Variables, cpsatVar{[]int{lo, hi}})
	return len(m.Variables) - 1
}

func (m *cpsat) post(kind string, body any, conds []int) {
	c := map[string]any{kind: body}
	if len(conds) > 0 {
		c["enforcementLiteral"] = conds
	}
	m.Constraints = append(m.Constraints, c)
}

func (m *cpsat) or(lits ...int) { m.post("boolOr", map[string]any{"literals": lits}, nil) }

func (m *cpsat) clause(lits, conds []int) {
	for _, c := range conds {
		lits = append(lits, not(c))
	}
	m.or(lits...)
}

// and is a literal that holds just when all of lits do.
func (m *cpsat) and(lits ...int) int {
	all := m.variable(0, 1)
	back := []int{all}
	for _, l := range lits {
		m.or(not(all), l)
		back = append(back, not(l))
	}
	m.or(back...)
	return all
}

// terms adds up equal variables.
func (m *cpsat) terms(ts []cp.Term, sign, offset int) cpsatLinear {
	l := cpsatLinear{Vars: []int{}, Coeffs: []int{}, Offset: offset}
	at := map[cp.Var]int{}
	for _, t := range ts {
		i, ok := at[t.X]
		if !ok {
			i = len(l.Vars)
			at[t.X] = i
			l.Vars, l.Coeffs = append(l.Vars, int(t.X)), append(l.Coeffs, 0)
		}
		l.Coeffs[i] += sign * t.Coef
	}
	return l
}

func (m *cpsat) point(p cp.Point, sign int) cpsatLinear {
	if p.X == cp.None {
		return m.terms(nil, 1, sign*p.Off)
	}
	return m.terms([]cp.Term{{1, p.X}}, sign, sign*p.Off)
}

func (m *cpsat) diff(a, b cp.Point) cpsatLinear {
	var ts []cp.Term
	if a.X != cp.None {
		ts = append(ts, cp.Term{1, a.X})
	}
	if b.X != cp.None {
		ts = append(ts, cp.Term{-1, b.X})
	}
	return m.terms(ts, 1, a.Off-b.Off)
}

func (m *cpsat) within(l cpsatLinear, lo, hi int, conds []int) {
	l.Domain = []int{max(-cpsatMax, lo-l.Offset), min(cpsatMax, hi-l.Offset)}
	l.Offset = 0
	m.post("linear", l, conds)
}

func (m *cpsat) least(l cpsatLinear, lo int, conds []int) { m.within(l, lo, cpsatMax, conds) }
func (m *cpsat) most(l cpsatLinear, hi int, conds []int)  { m.within(l, -cpsatMax, hi, conds) }

// leq is a literal that holds just when a ≤ b.
func (m *cpsat) leq(a, b cp.Point) int {
	b1 := m.variable(0, 1)
	m.most(m.diff(a, b), 0, []int{b1})
	m.least(m.diff(a, b), 1, []int{not(b1)})
	return b1
}

func (m *cpsat) lit(l cp.Lit) int {
	if known, ok := m.bounds[l]; ok {
		return known
	}
	out := 0
	if l.Upper {
		out = m.leq(cp.Point{X: l.X}, cp.Const(l.Bound))
	} else {
		out = m.leq(cp.Const(l.Bound), cp.Point{X: l.X})
	}
	m.bounds[l] = out
	return out
}

func (m *cpsat) lits(ls []cp.Lit) []int {
	out := make([]int, len(ls))
	for i, l := range ls {
		out[i] = m.lit(l)
	}
	return out
}

// cumulative: a use lasts max(0, end − start).
func (m *cpsat) cumulative(c cp.Cumulative) {
	var intervals []int
	var demands []cpsatLinear
	for _, u := range c.Uses {
		size, end := m.variable(0, 1000), m.variable(-1000, 1000)
		sizeOf, endOf := m.terms([]cp.Term{{1, cp.Var(size)}}, 1, 0), m.terms([]cp.Term{{1, cp.Var(end)}}, 1, 0)
		m.post("linMax", map[string]any{
			"target": sizeOf, "exprs": []cpsatLinear{m.diff(u.End, u.Start), m.terms(nil, 1, 0)}}, nil)
		conds := m.lits(u.If) // first: it may post constraints
		intervals = append(intervals, len(m.Constraints))
		m.post("interval", map[string]any{"start": m.point(u.Start, 1), "size": sizeOf, "end": endOf}, conds)
		demands = append(demands, m.terms(nil, 1, u.Demand))
	}
	if len(intervals) > 0 {
		m.post("cumulative", map[string]any{
			"capacity": m.terms(nil, 1, c.Capacity), "intervals": intervals, "demands": demands}, nil)
	}
}

func (m *cpsat) disjunctive(d cp.Disjunctive) {
	for j, b := range d.Tasks {
		for _, a := range d.Tasks[:j] {
			ab, ba := 0, 0
			if d.Setup != nil {
				ab, ba = d.Setup[a.Kind][b.Kind], d.Setup[b.Kind][a.Kind]
			}
			conds := append(m.lits(a.If), m.lits(b.If)...)
			m.clause([]int{
				m.leq(cp.Point{a.End.X, a.End.Off + ab}, b.Start), m.leq(cp.Point{b.End.X, b.End.Off + ba}, a.Start)}, conds)
		}
	}
}

func (m *cpsat) inside(t, from, to cp.Point) int {
	return m.and(m.leq(from, t), m.leq(cp.Point{t.X, t.Off + 1}, to))
}

// guard asks wherever the guard begins or somebody may leave.
func (m *cpsat) guard(g cp.Guard) {
	instants := []cp.Point{g.Start}
	for _, w := range g.Watchers {
		for _, r := range w.Off {
			instants = append(instants, cp.Const(r.From))
		}
		for _, b := range w.Busy {
			instants = append(instants, b.Start)
		}
	}
	for _, t := range instants {
		some := []int{not(m.inside(t, g.Start, g.End))}
		for _, w := range g.Watchers {
			var here []int
			for _, r := range w.Off {
				here = append(here, not(m.inside(t, cp.Const(r.From), cp.Const(r.To))))
			}
			for _, b := range w.Busy {
				here = append(here, not(m.and(append(m.lits(b.If), m.inside(t, b.Start, b.End))...)))
			}
			some = append(some, m.and(here...))
		}
		m.or(some...)
	}
}

func (m *cpsat) maximum(x cp.Maximum) {
	sign := 1
	if x.Least {
		sign = -1
	}
	extreme := m.variable(-1000, 1000)
	var exprs []cpsatLinear
	for _, y := range x.Xs {
		exprs = append(exprs, m.point(y, sign))
	}
	m.post("linMax", map[string]any{"target": m.terms([]cp.Term{{1, cp.Var(extreme)}}, 1, 0), "exprs": exprs}, nil)
	equal := m.point(x.Y, sign)
	equal.Vars, equal.Coeffs = append(equal.Vars, extreme), append(equal.Coeffs, -1)
	m.within(equal, 0, 0, m.lits(x.If))
}
