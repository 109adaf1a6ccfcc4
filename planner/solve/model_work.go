package solve

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/cp"
)

// addCalm counts the parts of days in which people have hands work, nights as four, and the quarters of an hour around
// dinner in which those who are no host have, in bands.
func (m *model) addCalm() {
	const calmBand = 4
	jobs := m.handsJobs(func(*duty) bool { return true })
	terms, constant := m.dinnerWork(func(p *planner.Person) bool { return p.Role != planner.Host })
	for p, person := range m.people {
		for _, part := range m.parts() {
			if part.To <= m.day && part.weight == 1 {
				continue // sessions say it
			}
			x, always, ever := m.busyIn(p, part.Range, jobs, fmt.Sprintf("%s busy from %d", person.Key, part.From))
			switch {
			case always:
				constant += part.weight
			case ever && m.mayWork(p, part.Range):
				terms = append(terms, cp.Term{Coef: part.weight, X: x})
			}
		}
	}
	sessions, sat := m.sessions()
	terms, constant = append(terms, sessions...), constant+sat
	errands, late := m.lateErrands()
	terms, constant = append(terms, errands...), constant+late
	m.level(string(planner.Calm), m.banded("calm", terms, constant, calmBand), 0)
}

// lateErrands counts the hands tasks out of the house that end in the last hours before the arrival, or later.
func (m *model) lateErrands() (terms []cp.Term, constant int) {
	const weight, hours = 4, 4
	limit := m.minute(m.p.Arrival) - hours*60
	for _, j := range m.handsJobs(func(j *duty) bool { return j.Away }) {
		w := m.work[j.i]
		if m.isConst(w.end) {
			constant += weight * truth(w.end.Off > limit)
			continue
		}
		x := m.cp.NewBool(string(j.Key) + " at the last")
		m.cp.AddClause(w.end.AtMost(limit), x.True())
		m.derived(x, func(v []int) int { return truth(at(w.end, v) > limit) })
		terms = append(terms, cp.Term{Coef: weight, X: x})
	}
	return terms, constant
}

// banded is a sum in started bands.
func (m *model) banded(name string, terms []cp.Term, constant, band int) []cp.Term {
	most := constant
	for _, t := range terms {
		most += t.Coef
	}
	y := m.cp.NewVar(planner.CeilDiv(constant, band), planner.CeilDiv(most, band), name)
	m.cp.AddLinear(append(slices.Clone(terms), cp.Term{Coef: -band, X: y}), -constant)
	m.derived(y, func(v []int) int {
		sum := constant
		for _, t := range terms {
			sum += t.Coef * v[t.X]
		}
		return planner.CeilDiv(sum, band)
	})
	return []cp.Term{{Coef: 1, X: y}}
}

func (m *model) mayWork(p int, r cp.Range) bool {
	return slices.ContainsFunc(m.cooks(p), func(h cp.Range) bool { return h.From < r.To && h.To > r.From })
}

// part is a part of a day: a morning, an afternoon, an evening or a night.
type part struct {
	cp.Range
	weight int
}

func (g *graph) parts() []part {
	const night = 4
	var out []part
	first := min(0, g.now)
	for _, j := range g.jobs {
		if j.settled && !j.skipped {
			first = min(first, j.start)
		}
	}
	y, mo, d := g.instant(first).In(g.p.Location()).Date()
	for n := -1; ; n++ {
		hour := func(h int) int {
			return g.minute(time.Date(y, mo, d+n, h, 0, 0, 0, g.p.Location()))
		}
		if hour(0) > g.end {
			return out
		}
		out = append(out, part{cp.Range{From: hour(6), To: hour(12)}, 1},
			part{cp.Range{From: hour(12), To: hour(17)}, 1},
			part{cp.Range{From: hour(17), To: hour(22)}, 1}, part{cp.Range{From: hour(22), To: hour(30)}, night})
	}
}

// addShared bounds the greatest number of hands minutes that one person has, in started half hours.
func (m *model) addShared() {
	const band = 30
	// Somebody has at least an equal share of all minutes, and nobody more than all of them.
	least, total := 0, 0
	for _, j := range m.jobs {
		switch {
		case j.Attention != planner.Hands || j.skipped:
		case j.settled:
			total += j.end - j.start
			least += (j.end - j.start) * m.workers(j)
		default:
			total += j.length(j.Hands)
			least += j.length(j.Hands) * j.Hands
		}
	}
	people := max(1, len(m.people))
	least = min((least+band*people-1)/(band*people), (total+band-1)/band)
	most := m.cp.NewVar(least, (total+band-1)/band, "greatest load")
	var loads []func(v []int) int
	for p := range m.people {
		terms := []cp.Term{{Coef: -band, X: most}}
		fixed := 0
		for _, j := range m.jobs {
			if j.Attention != planner.Hands || j.skipped {
				continue
			}
			if j.settled {
				if slices.Contains(m.peopleOf(j), m.people[p].Key) {
					fixed += j.end - j.start
				}
				continue
			}
			cond, ok := m.by(j, p)
			w := m.work[j.i]
			switch {
			case !ok:
			case len(w.modes) > 0:
				terms = append(terms, cp.Term{Coef: 1, X: m.minutesOf(j, w, cond)})
			case len(cond) == 0:
				fixed += j.length(j.Hands)
			default:
				terms = append(terms, cp.Term{Coef: j.length(j.Hands), X: w.person[p]})
			}
		}
		m.cp.AddLinear(terms, -fixed)
		loads = append(loads, func(v []int) int {
			sum := fixed
			for _, t := range terms[1:] {
				sum += t.Coef * v[t.X]
			}
			return sum
		})
	}
	m.derived(most, func(v []int) int {
		top := 0
		for _, l := range loads {
			top = max(top, l(v))
		}
		return (top + band - 1) / band
	})
	m.level(string(planner.Shared), []cp.Term{{Coef: 1, X: most}}, 0)
}

// workers is how many of the party's people did a settled job.
func (m *model) workers(j *duty) int {
	n := 0
	for _, k := range m.peopleOf(j) {
		if m.personIndex(k) >= 0 {
			n++
		}
	}
	return n
}

// minutesOf is a variable at or above the minutes that a person gives a job whose length depends on the hands.
func (m *model) minutesOf(j *duty, w placed, cond []cp.Lit) cp.Var {
	x := m.cp.NewVar(0, j.length(j.Hands), string(j.Key)+" minutes")
	for _, md := range w.modes {
		m.cp.AddClause(unless(cond, md.chosen.False(), x.AtLeast(md.length))...)
	}
	m.derived(x, func(v []int) int {
		for _, c := range cond {
			if !holds(c, v) {
				return 0
			}
		}
		return at(w.end, v) - at(w.start, v)
	})
	return x
}
