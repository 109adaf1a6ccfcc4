package cp

import (
	"fmt"
	"strings"
)

// compiler builds an engine from a problem. Variables keep their numbers; after them come one constant 0 and helper
// variables: a Boolean for each conjunction of conditions, one variable for each objective of several terms. Helpers
// follow from the problem's variables by propagation and are not decided on.
type compiler struct {
	p       *Problem
	e       *engine
	zero    view
	conj    map[string]atom
	refuted bool // something at the root cannot hold
}

// objective is a level as the search sees it: value = bound of view w + off.
type objective struct {
	w   view
	off int32
}

// atMost is the atom "the objective is at most v".
func (o objective) atMost(v int) atom { return atom{o.w ^ 1, o.off - int32(v)} }

// always is true at the root.
func (c *compiler) always() atom { return atom{c.zero, 0} }

// compile builds the engine and the objectives. ok is false if the problem is refuted already without search.
func compile(p *Problem, pr *proof) (e *engine, objectives []objective, ok bool) {
	c := &compiler{p: p, e: &engine{proof: pr}, conj: map[string]atom{}}
	for _, d := range p.Vars {
		c.variable(d.Lo, d.Hi)
	}
	c.zero = c.variable(0, 0)
	pr.line("h x%d zero", c.zero.variable())
	for i, l := range p.Levels {
		o := c.objective(i, l)
		objectives = append(objectives, o)
		sign := "-"[:o.w&1]
		pr.line("o %d %sx%d %d", i, sign, o.w.variable(), o.off)
	}
	for _, cl := range p.Clauses {
		c.clause(c.atoms(cl))
	}
	for _, l := range p.Lags {
		c.lag(c.point(l.From), c.point(l.To), int32(l.Min), c.all(l.If))
	}
	for _, l := range p.Linears {
		c.linear(l.Terms, view(0), 0, int64(l.Max), c.all(l.If))
	}
	for _, r := range p.Cumulatives {
		c.cumulative(r)
	}
	for _, d := range p.Disjunctives {
		c.disjunctive(d)
	}
	for _, k := range p.Calendars {
		if cal := (&calendar{c.point(k.At), joined(k.Forbidden), c.all(k.If)}); len(cal.ranges) > 0 {
			c.post(cal, cal.at.w, cal.at.w^1, cal.cond.w)
		}
	}
	for _, g := range p.Guards {
		c.guard(g)
	}
	for _, m := range p.Maxima {
		c.maximum(m)
	}
	e = c.e
	e.ana.init(len(e.lo))
	e.order.init(len(p.Vars), len(e.lo)/2)
	e.clauses.step = 1
	e.clauses.keep = 4000
	return e, objectives, !c.refuted && c.start()
}

// start brings the root to its fixpoint.
func (c *compiler) start() bool {
	e := c.e
	for w := range e.lo {
		if !e.propagateLags(view(w)) || !e.propagateCondLags(view(w)) {
			return false
		}
	}
	for i := range e.props {
		e.wake(int32(i))
	}
	if !e.propagate() || !e.findOrders(c.zero) {
		return false
	}
	e.commitRoot()
	e.proof.start(e)
	return true
}

// variable adds a variable to the engine and returns its positive view; the negative one follows it.
func (c *compiler) variable(lo, hi int) view {
	e := c.e
	w := view(len(e.lo))
	for _, b := range [2]int{lo, -hi} {
		e.lo = append(e.lo, int32(b))
		e.root = append(e.root, int32(b))
		e.last = append(e.last, -1)
		e.lags = append(e.lags, nil)
		e.condFrom = append(e.condFrom, nil)
		e.condWhen = append(e.condWhen, nil)
		e.subs = append(e.subs, nil)
	}
	for _, b := range [2][2]int32{{int32(lo), int32(hi)}, {int32(-hi), int32(-lo)}} {
		var l watchList
		l.span(b[0], b[1])
		e.clauses.watches = append(e.clauses.watches, l)
	}
	return w
}

// post adds a propagator that wakes when one of the views rises.
func (c *compiler) post(p propagator, views ...view) {
	c.e.props = append(c.e.props, p)
	a, _ := p.(attentive)
	c.e.attend = append(c.e.attend, a)
	c.e.queue = append(c.e.queue, queueOf(p))
	c.e.queued = append(c.e.queued, false)
	c.subscribe(0, views...)
}

// subscribe wakes the propagator posted last when one of the views rises, naming the part that changed.
func (c *compiler) subscribe(part int32, views ...view) {
	s := subscription{int32(len(c.e.props) - 1), part}
	for _, w := range views {
		if l := c.e.subs[w]; len(l) == 0 || l[len(l)-1] != s {
			c.e.subs[w] = append(l, s)
		}
	}
}

func (c *compiler) point(p Point) instant {
	if p.X == None {
		return instant{c.zero, int32(p.Off)}
	}
	return instant{viewOf(p.X), int32(p.Off)}
}

// atom is the literal, or a constant where the domain decides it.
func (c *compiler) atom(l Lit) atom {
	lo, hi := 0, 0
	w := c.zero
	if l.X != None {
		lo, hi = c.p.Vars[l.X].Lo, c.p.Vars[l.X].Hi
		w = viewOf(l.X)
	}
	v := l.Bound
	if l.Upper {
		w, v = w^1, -v
		lo, hi = -hi, -lo
	}
	switch {
	case lo >= v:
		return c.always()
	case hi < v:
		return c.always().not()
	}
	return atom{w, int32(v)}
}

func (c *compiler) atoms(ls []Lit) []atom {
	out := make([]atom, len(ls))
	for i, l := range ls {
		out[i] = c.atom(l)
	}
	return out
}

// all is one atom that holds exactly when all of ls do.
func (c *compiler) all(ls []Lit) atom {
	atoms := c.atoms(ls)
	k := 0
	for _, a := range atoms {
		if c.e.isFalse(a) {
			return c.always().not()
		}
		if !c.e.isTrue(a) {
			atoms[k] = a
			k++
		}
	}
	atoms = atoms[:k]
	switch k {
	case 0:
		return c.always()
	case 1:
		return atoms[0]
	}
	var key strings.Builder
	for _, a := range atoms {
		fmt.Fprint(&key, a.w, " ", a.v, " ")
	}
	if b, ok := c.conj[key.String()]; ok {
		return b
	}
	b := atom{c.variable(0, 1), 1}
	c.conj[key.String()] = b
	c.e.proof.clause(fmt.Sprintf("h x%d and", b.w.variable()), atoms...)
	whole := []atom{b}
	for _, a := range atoms {
		c.clause([]atom{b.not(), a})
		whole = append(whole, a.not())
	}
	c.clause(whole)
	return b
}

func (c *compiler) clause(atoms []atom) {
	if !c.e.addClause(atoms) {
		c.refuted = true
	}
}

// implied adds: cond implies a.
func (c *compiler) implied(cond, a atom) { c.clause([]atom{cond.not(), a}) }
