package cp

// maximum is y = max(xs) while cond holds; a minimum is a maximum of negated views. The half y ≥ x is left to
// conditional lags; here is the other: y is at most the greatest x, and when only one x can reach y's lower bound, it
// must.
type maximum struct {
	y    instant
	xs   []instant
	cond atom
}

func (m *maximum) propagate(e *engine) bool {
	e.work += int64(len(m.xs))
	if e.isFalse(m.cond) {
		return true
	}
	greatest := e.most(m.xs[0])
	for _, x := range m.xs {
		greatest = max(greatest, e.most(x))
	}
	least := e.least(m.y)
	if greatest < least {
		// No x reaches least, y is at least that.
		n := e.because(m.y.atLeast(least))
		for _, x := range m.xs {
			e.arena = append(e.arena, x.atMost(least-1))
		}
		return e.set(m.cond.not(), e.given(n))
	}
	if !e.isTrue(m.cond) {
		return true
	}
	if greatest < e.most(m.y) {
		n := e.because(m.cond)
		for _, x := range m.xs {
			e.arena = append(e.arena, x.atMost(greatest))
		}
		if !e.set(m.y.atMost(greatest), e.given(n)) {
			return false
		}
	}
	only := -1
	for i, x := range m.xs {
		if e.most(x) >= least {
			if only >= 0 {
				return true
			}
			only = i
		}
	}
	if only < 0 || e.least(m.xs[only]) >= least {
		return true // none at all: a bound moved above, and this propagator is awake again
	}
	n := e.because(m.cond, m.y.atLeast(least))
	for i, x := range m.xs {
		if i != only {
			e.arena = append(e.arena, x.atMost(least-1))
		}
	}
	return e.set(m.xs[only].atLeast(least), e.given(n))
}
