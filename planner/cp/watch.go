package cp

import "math/bits"

// watchList holds the watches of one view, in buckets by the bound from which on the watched atom is false. When the
// view rises from one bound to another, only the watches between the two are looked at: those below lost their atom
// before, and were dealt with then; those above keep it. A view with many learned clauses on it would otherwise go
// through all of them for each step.
type watchList struct {
	base  int32  // the first bucket begins here
	shift uint8  // a bucket is 1<<shift bounds wide
	used  uint64 // by bucket: holds watches
	by    [][]watch
}

type watch struct {
	from    int32 // the watched atom is false from this bound of the view on
	blocker atom  // another atom of the clause: if true there is nothing to do
	c       clauseAt
}

// mostBuckets is how many buckets fit into watchList.used.
const mostBuckets = 64

// span empties the list and lays its buckets over the bounds that the view may still take, lo to hi.
func (l *watchList) span(lo, hi int32) {
	for k := range l.by {
		l.by[k] = l.by[k][:0]
	}
	l.used, l.base, l.shift = 0, lo+1, 0
	for (int64(hi)-int64(lo))>>l.shift > mostBuckets {
		l.shift++
	}
}

// place is the bucket of a bound. What lies outside the span shares the first or the last.
func (l *watchList) place(from int32) int {
	return int(min(max(0, int64(from)-int64(l.base))>>l.shift, mostBuckets-1))
}

func (l *watchList) add(x watch) {
	k := l.place(x.from)
	if k >= len(l.by) {
		l.by = append(l.by, make([][]watch, k+1-len(l.by))...)
	}
	l.by[k] = append(l.by[k], x)
	l.used |= 1 << k
}

// between are the buckets in use that hold bounds above prev, up to v.
func (l *watchList) between(prev, v int32) uint64 {
	if l.used == 0 {
		return 0
	}
	return l.used >> l.place(prev+1) << l.place(prev+1) << (mostBuckets - 1 - l.place(v)) >> (mostBuckets - 1 - l.place(v))
}

// propagateClauses visits the clauses that lose a watched atom as w rises from prev to v.
func (e *engine) propagateClauses(w view, prev, v int32) bool {
	l := &e.clauses.watches[w]
	for m := l.between(prev, v); m != 0; m &= m - 1 {
		if !e.visit(w, l, bits.TrailingZeros64(m), prev, v) {
			return false
		}
	}
	return true
}

// visit looks at the watches of one bucket.
func (e *engine) visit(w view, l *watchList, bucket int, prev, v int32) bool {
	s := &e.clauses
	list := l.by[bucket]
	k := 0
	e.work += 1 + int64(len(list))/4
next:
	for i := range list {
		x := &list[i]
		if x.from > v || x.from <= prev || e.isTrue(x.blocker) {
			list[k] = *x
			k++
			continue
		}
		c, from := x.c, x.from
		atoms := s.atoms(c)
		e.work += 2
		if atoms[0].w == w^1 {
			atoms[0], atoms[1] = atoms[1], atoms[0]
		}
		first := atoms[0]
		if first != x.blocker && e.isTrue(first) {
			list[k] = watch{from, first, c}
			k++
			continue
		}
		for j := 2; j < len(atoms); j++ {
			if a := atoms[j]; !e.isFalse(a) {
				atoms[1], atoms[j] = a, atoms[1]
				s.watch(c, a, first)
				continue next
			}
		}
		list[k] = watch{from, first, c}
		k++
		if !e.set(first, reason{byClause, int32(c), 0}) {
			k += copy(list[k:], list[i+1:])
			l.by[bucket] = list[:k]
			return false
		}
	}
	l.by[bucket] = list[:k]
	if k == 0 {
		l.used &^= 1 << bucket
	}
	return true
}
