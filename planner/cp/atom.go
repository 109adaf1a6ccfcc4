package cp

// A view is a variable seen from one side: view 2x is x itself, view 2x+1 is −x. An upper bound of x is a lower bound
// of −x, so that every propagator is written once, for lower bounds, and serves both sides.
type view int32

func (w view) variable() int { return int(w >> 1) }
func viewOf(x Var) view      { return view(2 * x) }

// An atom is the bound literal "view w ≥ v". Atoms are not created or numbered: every integer v has one for free.
type atom struct {
	w view
	v int32
}

// not is the opposite atom: w ≤ v−1, that is −w ≥ 1−v.
func (a atom) not() atom { return atom{a.w ^ 1, 1 - a.v} }

// An instant is view w + off. Both sides of a Point share one.
type instant struct {
	w   view
	off int32
}

func (i instant) atLeast(v int32) atom { return atom{i.w, v - i.off} }
func (i instant) atMost(v int32) atom  { return atom{i.w ^ 1, i.off - v} }

// An interval is [s, e) when cond holds.
type interval struct {
	s, e instant
	cond atom
}
