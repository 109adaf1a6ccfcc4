package solve

import (
	"slices"

	"tureen/planner"
	"tureen/planner/cp"
)

// addPreheat leaves time to heat from cold, unless begun work has the oven hot.
func (m *model) addPreheat(k int) {
	o := &m.p.Kitchen.Ovens[k]
	for i := range m.loads {
		if l := &m.loads[i]; l.settled && l.ovens[0] == k && l.from.Off <= m.now && m.now < l.to.Off {
			return
		}
	}
	for i := range m.loads {
		l := &m.loads[i]
		if l.begun || !slices.Contains(l.ovens, k) {
			continue
		}
		conds := join(l.inside(k), l.real(), m.needOven(k), m.needNow())
		cold := conds
		if on, heating := m.heatingOf(o.Name); heating {
			warm := m.cp.NewBool(string(l.job.Key) + " goes into a warm oven")
			m.derived(warm, func(v []int) int {
				return truth(at(l.from, v) >= on.ready+int(o.Change(on.c, at(l.set, v))))
			})
			m.gapAtLeast(cp.Const(on.ready), l.from, 0, join(conds, []cp.Lit{warm.True()})...)
			was := &ovenful{to: cp.Const(on.ready), out: cp.Const(on.c)}
			m.changeOver(o, was, l, join(conds, []cp.Lit{warm.True()}))
			cold = join(conds, []cp.Lit{warm.False()})
		}
		m.changeOver(o, &ovenful{to: cp.Const(m.now), out: cp.Const(0)}, l, cold)
	}
}

// heat is an oven that is on when the plan is made: at a setting, from ready on.
type heat struct {
	name  string
	c     int
	ready int
}

// findHeat finds the ovens that the plan in force has on by now for a load that is still to come: since the load
// before it came out, or since it began to heat from cold.
func (m *model) findHeat() {
	if m.ask.InForce == nil {
		return
	}
	for k := range m.p.Kitchen.Ovens {
		o := &m.p.Kitchen.Ovens[k]
		next, cooled := planner.Held{}, cp.Range{From: -1 << 20}
		for _, j := range m.jobs {
			if j.told == nil || j.skipped {
				continue
			}
			for _, u := range j.told.Uses {
				switch {
				case u.What != planner.AnOven || u.Name != o.Name:
				case j.settled:
					if j.end > cooled.From && j.end <= m.now {
						cooled = cp.Range{From: j.end, To: u.C}
					}
				case u.C > 0 && (next.C == 0 || u.From.Before(next.From)):
					next = u
				}
			}
		}
		if next.C == 0 {
			continue
		}
		begin := m.minute(next.From) - int(o.PreheatTo(next.C))
		ready := m.minute(next.From)
		if cooled.From > begin {
			begin = cooled.From
			ready = begin + min(int(o.Change(cooled.To, next.C)), int(o.PreheatTo(next.C)))
		}
		if begin <= m.now {
			m.heating = append(m.heating, heat{o.Name, next.C, ready})
		}
	}
}

func (m *model) heatingOf(name string) (heat, bool) {
	for _, h := range m.heating {
		if h.name == name {
			return h, true
		}
	}
	return heat{}, false
}

// ramp keeps to at least the time after from that a change of setting takes: per minutes for every step °C of a - b.
func (m *model) ramp(from, a, to, b cp.Point, per, step int, conds []cp.Lit) {
	// step*(to - from) >= per*(b - a)
	var terms []cp.Term
	bound := 0
	add := func(coef int, p cp.Point) {
		if coef == 0 {
			return
		}
		bound -= coef * p.Off
		if p.X != cp.None {
			terms = append(terms, cp.Term{Coef: coef, X: p.X})
		}
	}
	add(step, from)
	add(-step, to)
	add(per, b)
	add(-per, a)
	m.cp.AddLinear(terms, bound, conds...)
}

// changeOver leaves the oven time to go from one load's setting to the next one's.
func (m *model) changeOver(o *planner.Oven, a, b *ovenful, conds []cp.Lit) {
	if m.isConst(a.out) && m.isConst(b.set) {
		if d := int(o.Change(a.out.Off, b.set.Off)); d > 0 {
			m.gapAtLeast(a.to, b.from, d, conds...)
		}
		return
	}
	if m.isConst(b.set) && b.set.Off == 0 {
		return // turning off costs nothing
	}
	if m.isConst(a.out) && a.out.Off == 0 {
		m.ramp(a.to, cp.Const(planner.UsualRoomC), b.from, b.set, int(o.Preheat), 180-planner.UsualRoomC, conds)
		return
	}
	m.ramp(a.to, a.out, b.from, b.set, int(o.Rise), 50, conds)
	m.ramp(a.to, b.set, b.from, a.out, int(o.Fall), 50, conds)
	// The least change that the ranges allow, as a lag, since lags propagate better.
	alo, ahi := m.bounds(a.out)
	blo, bhi := m.bounds(b.set)
	switch {
	case ahi < blo:
		m.gapAtLeast(a.to, b.from, int(o.Change(ahi, blo)), conds...)
	case bhi < alo:
		m.gapAtLeast(a.to, b.from, int(o.Change(alo, bhi)), conds...)
	}
}
