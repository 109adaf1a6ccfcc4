package cp

// linear is Σ coef·w ≤ max while cond holds; all coefficients positive, as each term chose its view. Bounds
// consistency after Harvey and Schimpf (2002). Explanations are made when asked for, and given their slack away: what
// a sum exceeds its bound by is used to weaken or drop atoms.
type linear struct {
	id    int32
	terms []term
	max   int64
	cond  atom
}

type term struct {
	w    view
	coef int64
}

// refutesCond stands for a term's index where the reason is for the condition being false.
const refutesCond = -1

func (l *linear) propagate(e *engine) bool {
	sum := int64(0)
	for _, t := range l.terms {
		sum += t.coef * int64(e.lo[t.w])
	}
	e.work += int64(len(l.terms)) / 4
	room := l.max - sum
	if room < 0 {
		return e.set(l.cond.not(), reason{byLinear, l.id, refutesCond})
	}
	if !e.isTrue(l.cond) {
		return true
	}
	for i, t := range l.terms {
		lo := int64(e.lo[t.w])
		if hi := int64(-e.lo[t.w^1]); t.coef*(hi-lo) > room {
			most := lo + room/t.coef
			if !e.set(atom{t.w ^ 1, int32(-most)}, reason{byLinear, l.id, int32(i)}) {
				return false
			}
		}
	}
	return true
}

// explain appends atoms, all true before trail entry pos, under which the sum forces a.
func (l *linear) explain(e *engine, a atom, pos, which int32, dst []atom) []atom {
	if which == refutesCond {
		return l.exceed(e, pos, -1, 0, dst)
	}
	// a says that term which is at most −a.v; it is so because with one more the sum would exceed.
	return l.exceed(e, pos, int(which), l.terms[which].coef*int64(1-a.v), append(dst, l.cond))
}

// exceed appends atoms under which the terms other than skip, plus extra, sum to more than max.
func (l *linear) exceed(e *engine, pos int32, skip int, extra int64, dst []atom) []atom {
	slack := extra - l.max - 1
	for i, t := range l.terms {
		if i != skip {
			slack += t.coef * int64(e.loAt(t.w, pos))
		}
	}
	e.work += int64(len(l.terms)) / 2
	for i, t := range l.terms {
		if i == skip {
			continue
		}
		lo, root := e.loAt(t.w, pos), e.root[t.w]
		if lo == root {
			continue
		}
		if drop := t.coef * int64(lo-root); drop <= slack {
			slack -= drop
			continue
		}
		give := slack / t.coef
		slack -= give * t.coef
		dst = append(dst, atom{t.w, lo - int32(give)})
	}
	return dst
}
