package cp

// propagate works until nothing more follows: clauses and time lags of each raised bound first, then one waiting
// propagator, cheapest queue first, and again. False means conflict, with confl filled.
func (e *engine) propagate() bool {
	for {
		for e.head < len(e.trail) {
			t := &e.trail[e.head]
			w, current := t.w, e.last[t.w] == int32(e.head)
			e.head++
			if !e.propagateClauses(w, t.prev, t.v) {
				return false
			}
			if !current {
				continue // a later entry on the same view does the rest for both
			}
			if !e.propagateLags(w) || !e.propagateCondLags(w) {
				return false
			}
			for _, s := range e.subs[w] {
				if a := e.attend[s.prop]; a != nil {
					a.notice(s.part)
				}
				e.wake(s.prop)
			}
		}
		p := e.nextWaiting()
		if p < 0 {
			return true
		}
		if !e.props[p].propagate(e) {
			return false
		}
	}
}

// queueOf says which queue a propagator waits in.
func queueOf(p propagator) int8 {
	switch p.(type) {
	case *disjunctive:
		return queuePair
	case *cumulative, *guard:
		return queueDear
	case *energy:
		return queueLast
	}
	return queueCheap
}

func (e *engine) wake(p int32) {
	if !e.queued[p] {
		e.queued[p] = true
		q := e.queue[p]
		e.queues[q] = append(e.queues[q], p)
	}
}

func (e *engine) nextWaiting() int32 {
	for q := range e.queues {
		if n := len(e.queues[q]); n > 0 {
			p := e.queues[q][n-1]
			e.queues[q] = e.queues[q][:n-1]
			e.queued[p] = false
			return p
		}
	}
	return -1
}

func (e *engine) clearQueues() {
	for q := range e.queues {
		for _, p := range e.queues[q] {
			e.queued[p] = false
			if a := e.attend[p]; a != nil {
				a.forget()
			}
		}
		e.queues[q] = e.queues[q][:0]
	}
}
