package cp

import "slices"

// Relaxed turns "impossible" into the question what to give up: assumption i may be dropped at the cost weights[i] (0:
// never), and the least total cost becomes the first level, before those of p. In a solution givenUp[i] tells whether
// assumption i was dropped; it is None where that is not allowed. p is left as it is.
func Relaxed(p *Problem, weights []int) (q *Problem, givenUp []Var) {
	c := *p
	q = &c
	q.Vars = slices.Clone(p.Vars)
	q.Clauses = slices.Clone(p.Clauses)
	q.Assumptions = nil
	q.Start = nil
	cost := Level{Name: "given up"}
	for i, a := range p.Assumptions {
		if weights[i] == 0 {
			q.Assumptions = append(q.Assumptions, a)
			givenUp = append(givenUp, None)
			continue
		}
		drop := q.NewBool("give up " + a.Name)
		for _, l := range a.Lits {
			q.AddClause(l, drop.True())
		}
		cost.Terms = append(cost.Terms, Term{Coef: weights[i], X: drop})
		givenUp = append(givenUp, drop)
	}
	q.Levels = append([]Level{cost}, p.Levels...)
	return q, givenUp
}
