package cp

import (
	"cmp"
	"slices"
)

// clauseStore keeps all clauses in one flat slice without pointers. Clause c has its size and its record in db[c], and
// its atoms after that. The first two atoms are watched: the clause stands in the watch list of the view whose rise
// makes a watched atom false (Moskewicz et al., Chaff, 2001), with the value from which on it does.
type clauseStore struct {
	db      []atom
	watches []watchList // by view
	learned []record
	step    float32 // what a use of a clause adds to its activity
	keep    int     // learned clauses to hold before the next reduction
}

// clauseAt is a clause: the place of its head in db.
type clauseAt int32

// record is what is kept about a learned clause. Its index stands in the clause's head; problem clauses have −1.
type record struct {
	c        clauseAt
	lbd      int32 // number of decision levels when learned (literal block distance, Audemard and Simon 2009)
	activity float32
}

func (s *clauseStore) atoms(c clauseAt) []atom {
	n := clauseAt(s.db[c].w)
	return s.db[c+1 : c+1+n]
}

// add stores a clause of two or more atoms and watches the first two.
func (s *clauseStore) add(atoms []atom, rec int32) clauseAt {
	c := clauseAt(len(s.db))
	s.db = append(s.db, atom{view(len(atoms)), rec})
	s.db = append(s.db, atoms...)
	s.watch(c, atoms[0], atoms[1])
	s.watch(c, atoms[1], atoms[0])
	return c
}

func (s *clauseStore) watch(c clauseAt, a, blocker atom) {
	n := a.not()
	s.watches[n.w].add(watch{n.v, blocker, c})
}

// learn stores a learned clause.
func (s *clauseStore) learn(atoms []atom, lbd int32) clauseAt {
	rec := int32(len(s.learned))
	c := s.add(atoms, rec)
	s.learned = append(s.learned, record{c, lbd, s.step})
	return c
}

// explain appends the negations of all atoms but the one on view w.
func (s *clauseStore) explain(c clauseAt, w view, dst []atom) []atom {
	if rec := s.db[c].v; rec >= 0 {
		s.learned[rec].activity += s.step
	}
	for _, a := range s.atoms(c) {
		if a.w != w {
			dst = append(dst, a.not())
		}
	}
	return dst
}

// decay makes later uses of clauses count more than earlier ones.
func (s *clauseStore) decay() {
	s.step *= 1 / 0.999
	if s.step > 1e20 {
		for i := range s.learned {
			s.learned[i].activity *= 1e-20
		}
		s.step *= 1e-20
	}
}

// addClause adds a problem clause at level 0: false atoms go, a true one makes it void, a unit is set. False means
// that nothing is left.
func (e *engine) addClause(atoms []atom) bool {
	atoms, void := e.simplify(slices.Clone(atoms))
	switch {
	case void:
		return true
	case len(atoms) == 0:
		e.confl = e.confl[:0]
		return false
	case len(atoms) == 1:
		return e.set(atoms[0], reason{})
	}
	e.clauses.add(atoms, -1)
	return true
}

// simplify drops atoms false at the root and joins atoms on one view (the weaker holds if either does). A clause with
// a true atom is void.
func (e *engine) simplify(atoms []atom) (out []atom, void bool) {
	slices.SortFunc(atoms, func(a, b atom) int { return cmp.Or(cmp.Compare(a.w, b.w), cmp.Compare(a.v, b.v)) })
	out = atoms[:0]
	for _, a := range atoms {
		if e.isTrue(a) {
			return nil, true
		}
		if e.isFalse(a) || len(out) > 0 && out[len(out)-1].w == a.w {
			continue
		}
		if n := len(out); n > 0 && out[n-1].w == a.w^1 && out[n-1].not().v >= a.v {
			return nil, true // x ≤ b or x ≥ a with a ≤ b+1 holds always
		}
		out = append(out, a)
	}
	return out, false
}

// reduce forgets the less useful half of the learned clauses and cleans the rest. Only at level 0, all propagated.
func (e *engine) reduce() {
	s := &e.clauses
	slices.SortStableFunc(s.learned, func(a, b record) int {
		return cmp.Or(cmp.Compare(max(2, a.lbd), max(2, b.lbd)), cmp.Compare(b.activity, a.activity))
	})
	half := len(s.learned) / 2
	s.rebuild(e, func(i int, r record) bool { return r.lbd <= 2 || i < half })
	s.keep += 300
}

// rebuild writes the store anew with the problem's clauses and those learned ones that wanted says.
func (s *clauseStore) rebuild(e *engine, wanted func(i int, r record) bool) {
	old, oldLearned := s.db, s.learned
	s.db = make([]atom, 0, len(old)*3/4)
	s.learned = make([]record, 0, len(oldLearned))
	for w := range s.watches {
		s.watches[w].span(e.lo[w], -e.lo[w^1])
	}
	var buf []atom
	put := func(c clauseAt, rec int32) (clauseAt, bool) {
		n := clauseAt(old[c].w)
		buf = append(buf[:0], old[c+1:c+1+n]...)
		atoms, void := e.simplify(buf)
		if void {
			return 0, false
		}
		return s.add(atoms, rec), true
	}
	for c := clauseAt(0); int(c) < len(old); c += 1 + clauseAt(old[c].w) {
		if old[c].v < 0 {
			put(c, -1)
		}
	}
	for i, r := range oldLearned {
		if !wanted(i, r) {
			continue
		}
		if c, ok := put(r.c, int32(len(s.learned))); ok {
			s.learned = append(s.learned, record{c, r.lbd, r.activity})
		}
	}
	e.work += int64(len(old))
}
