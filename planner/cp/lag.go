package cp

// Time lags (difference constraints): to ≥ from + lag. The reason of a bound v on `to` is from ≥ v − lag, which
// weakens by itself when less than v is asked for.

type lag struct {
	to  view
	lag int32
}

// condLag is a lag that holds when cond does; when it cannot hold, cond is refuted. Each is kept in both directions
// (from → to, and −to → −from), as each serves one side's bound.
type condLag struct {
	from, to view
	lag      int32
	cond     atom
}

func (e *engine) propagateLags(w view) bool {
	b := e.lo[w]
	for _, l := range e.lags[w] {
		if e.lo[l.to] < b+l.lag && !e.set(atom{l.to, b + l.lag}, reason{byLag, int32(w), l.lag}) {
			return false
		}
	}
	e.work += int64(len(e.lags[w]))
	return true
}

func (e *engine) propagateCondLags(w view) bool {
	for _, id := range e.condFrom[w] {
		if !e.propagateCondLag(id) {
			return false
		}
	}
	for _, id := range e.condWhen[w] {
		if !e.propagateCondLag(id) {
			return false
		}
	}
	e.work += int64(len(e.condFrom[w]) + len(e.condWhen[w]))
	return true
}

func (e *engine) propagateCondLag(id int32) bool {
	l := &e.cond[id]
	v := e.lo[l.from] + l.lag
	if e.lo[l.to] >= v {
		return true
	}
	if e.isTrue(l.cond) {
		return e.set(atom{l.to, v}, reason{byCondLag, id, 0})
	}
	if -e.lo[l.to^1] < v {
		return e.set(l.cond.not(), reason{byRefutedLag, id, e.lo[l.from]})
	}
	return true
}

// addLag adds to ≥ from + d, for good.
func (e *engine) addLag(from, to view, d int32) {
	e.lags[from] = append(e.lags[from], lag{to, d})
	e.lags[to^1] = append(e.lags[to^1], lag{from ^ 1, d})
}

// addCondLag adds to ≥ from + d while cond holds.
func (e *engine) addCondLag(from, to view, d int32, cond atom) {
	for _, l := range [2]condLag{{from, to, d, cond}, {to ^ 1, from ^ 1, d, cond}} {
		id := int32(len(e.cond))
		e.cond = append(e.cond, l)
		e.condFrom[l.from] = append(e.condFrom[l.from], id)
		e.condWhen[cond.w] = append(e.condWhen[cond.w], id)
	}
}
