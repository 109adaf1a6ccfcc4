package project

// both is a project in both directions of time, forward first.
type both struct {
	gens [2]*generator
	keys []int32
	back schedule // written over by turns
}

func newBoth(pr *project) *both {
	m := pr.mirror()
	if m == nil {
		return nil
	}
	return &both{[2]*generator{newGenerator(pr), newGenerator(m)}, make([]int32, len(pr.variable)), pr.schedule()}
}

// steps is the work done since the last call.
func (b *both) steps() int64 {
	n := b.gens[0].steps + b.gens[1].steps
	b.gens[0].steps, b.gens[1].steps = 0, 0
	return n
}

// turn makes t from s, a schedule in direction dir, by generation in the other direction: what ends last in s is
// placed first, and so everything is pushed as far to the other side as it goes.
func (b *both) turn(dir int, s, t *schedule) {
	for i := range s.starts {
		b.keys[i] = b.gens[dir].toEnd(s, i)
	}
	b.generate(1-dir, s.makespan+1, t)
}

// generate makes t in direction dir by the keys.
func (b *both) generate(dir int, limit int32, t *schedule) {
	g := b.gens[dir]
	g.serial(g.byKey(b.keys, limit), t)
}

// toEnd is how long before the makespan activity i ends: its start as seen from the other side.
func (g *generator) toEnd(s *schedule, i int) int32 {
	return max(s.makespan-s.starts[i]-g.duration[i], 0)
}

// justify pushes s, a schedule in direction dir, to the other side and back as long as that shortens it (double
// justification, Valls, Ballestín, Quintanilla 2005). It never lengthens it.
func (b *both) justify(dir int, s *schedule) {
	there, again := b.gens[0].schedule(), b.gens[0].schedule()
	for {
		b.turn(dir, s, &there)
		b.turn(1-dir, &there, &again)
		if again.makespan >= s.makespan {
			return
		}
		*s, again = again, *s
	}
}
