package solve

import (
	"slices"

	"tureen/planner"
	"tureen/planner/cp"
)

// cooks and home are a person's hours in minutes, over the whole plan.
func (g *graph) cooks(p int) []cp.Range { return g.hours[g.people[p].Key].cooks }

// cooksFor are a person's hours for a job: hot food is put into the cold for an hour more, while they are at home.
func (g *graph) cooksFor(j *duty, p int, hours []cp.Range) []cp.Range {
	if !j.chore.IntoTheCold() {
		return hours
	}
	var out []cp.Range
	for _, h := range hours {
		for _, home := range g.home(p) {
			if home.From <= h.To && h.To < home.To {
				h.To = min(h.To+int(planner.EveningTouch), home.To)
				break
			}
		}
		out = append(out, h)
	}
	return mergeRanges(out)
}

func (g *graph) home(p int) []cp.Range { return g.hours[g.people[p].Key].home }

func (g *graph) ranges(ws []planner.Window) []cp.Range {
	if g.ask.Soft {
		ws = g.p.StaysOn(ws)
	}
	return g.openRanges(ws)
}

// openRanges are windows in whole minutes that lie inside them.
func (g *graph) openRanges(ws []planner.Window) []cp.Range {
	var out []cp.Range
	for _, w := range ws {
		r := cp.Range{From: g.minuteUp(w.From), To: g.minute(w.To)}
		if r.From < r.To {
			out = append(out, r)
		}
	}
	return mergeRanges(out)
}

// offHours are the stretches between now and the end in which a person has no hands to give, the busy ones included.
func (m *model) offHours(p int, busy []cp.Range) []cp.Range {
	hours := m.cooks(p)
	for _, j := range m.jobs {
		if j.chore.IntoTheCold() && !j.settled {
			hours = m.cooksFor(j, p, hours)
			break
		}
	}
	return mergeRanges(append(m.complement(hours), busy...))
}

// complement is what lies between the ranges, over the model's span.
func (m *model) complement(rs []cp.Range) []cp.Range {
	var out []cp.Range
	t := m.spanStart()
	for _, r := range rs {
		if r.From > t {
			out = append(out, cp.Range{From: t, To: r.From})
		}
		t = max(t, r.To)
	}
	if end := m.spanEnd(); t < end {
		out = append(out, cp.Range{From: t, To: end})
	}
	return out
}

// spanStart is where hours begin to bind. To explain, nobody has hours before the prep days: that work may not lie
// there is a requirement of its own.
func (m *model) spanStart() int {
	if m.explain {
		return 0
	}
	return m.now - 24*60
}

func (m *model) spanEnd() int { return m.end + 24*60 }

// mergeRanges sorts ranges and joins those that touch or overlap.
func mergeRanges(rs []cp.Range) []cp.Range {
	slices.SortFunc(rs, func(a, b cp.Range) int { return a.From - b.From })
	var out []cp.Range
	for _, r := range rs {
		if n := len(out); n > 0 && r.From <= out[n-1].To {
			out[n-1].To = max(out[n-1].To, r.To)
			continue
		}
		out = append(out, r)
	}
	return out
}

// noStart are the starts at which a stretch of a length would not lie inside one of the hours.
func (m *model) noStart(hours []cp.Range, length int) []cp.Range {
	length = max(length, 1)
	var starts []cp.Range
	for _, h := range hours {
		if h.To-h.From >= length {
			starts = append(starts, cp.Range{From: h.From, To: h.To - length + 1})
		}
	}
	return m.complement(mergeRanges(starts))
}

// addHours keeps everybody inside their cooking hours: a calendar for each job and person, and without asking who, the
// starts that are too few people's.
func (m *model) addHours() {
	for _, j := range m.jobs {
		w := &m.work[j.i]
		if j.settled || w.person == nil {
			continue
		}
		lengths := []mode{{people: max(j.Hands, 1), length: j.length(j.Hands), chosen: cp.None}}
		if len(w.modes) > 0 {
			lengths = w.modes
		}
		if j.Attention != planner.Hands {
			lengths[0].length = 1
		}
		for _, md := range lengths {
			var inMode, every []cp.Lit
			if md.chosen != cp.None {
				inMode = []cp.Lit{md.chosen.True()}
			}
			var bars [][]cp.Range
			for p := range m.people {
				cond, ok := m.by(j, p)
				if !ok {
					continue
				}
				hours := m.cooksFor(j, p, m.cooks(p))
				bar := m.noStart(hours, md.length)
				bars = append(bars, bar)
				every = append(every, m.needHours(p)...)
				m.forbid(w.start, bar, join(cond, inMode, m.needHours(p)))
				for _, h := range m.hoursConceded(p) {
					m.forbid(w.start, m.noStart(m.cooksFor(j, p, h.hours), md.length), join(cond, inMode, h.conds))
				}
				if spare, ok := m.spareIn(j); ok && j.Attention == planner.Hands {
					m.forbid(w.start, m.noStart(hours, md.length+int(planner.Tight)), join(cond, inMode, spare))
				}
			}
			if len(bars) > 1 {
				m.forbid(w.start, m.tooFew(bars, md.people), join(inMode, every))
			}
		}
	}
}

// forbid keeps an instant out of ranges, which are in order.
func (m *model) forbid(t cp.Point, bar []cp.Range, conds []cp.Lit) {
	lo, hi := m.bounds(t)
	for len(bar) > 0 && bar[0].To <= lo {
		bar = bar[1:]
	}
	for len(bar) > 0 && bar[len(bar)-1].From > hi {
		bar = bar[:len(bar)-1]
	}
	if len(bar) > 0 {
		m.cp.Calendars = append(m.cp.Calendars, cp.Calendar{At: t, Forbidden: bar, If: conds})
	}
}

// tooFew are the values at which fewer than n of the bars are open.
func (m *model) tooFew(bars [][]cp.Range, n int) []cp.Range {
	var cuts []int
	for _, bar := range bars {
		for _, r := range bar {
			cuts = append(cuts, r.From, r.To)
		}
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	var out []cp.Range
	for i := 0; i+1 < len(cuts); i++ {
		open := 0
		for _, bar := range bars {
			if !inside(bar, cuts[i]) {
				open++
			}
		}
		if open < n {
			out = append(out, cp.Range{From: cuts[i], To: cuts[i+1]})
		}
	}
	return mergeRanges(out)
}

func inside(rs []cp.Range, t int) bool {
	return slices.ContainsFunc(rs, func(r cp.Range) bool { return r.From <= t && t < r.To })
}

// addMarks starts longer tasks before the party's day on five-minute marks.
func (m *model) addMarks() {
	const mark, long = 5, 15
	var bar []cp.Range // between the marks
	first := m.earliestStart()
	for t := first - first%mark - mark; t < m.day; t += mark {
		if r := (cp.Range{From: t + 1, To: min(t+mark, m.day)}); r.From < r.To {
			bar = append(bar, r)
		}
	}
	for _, j := range m.jobs {
		if j.settled || j.length(j.Hands) < long || j.node != nil && m.goesStraightOn(j.node) {
			continue
		}
		w := &m.work[j.i]
		if len(w.modes) == 0 {
			m.forbid(w.start, bar, nil)
		}
		for _, md := range w.modes { // more hands may make it short enough
			if md.length >= long {
				m.forbid(w.start, bar, []cp.Lit{md.chosen.True()})
			}
		}
	}
}

func (g *graph) goesStraightOn(n *node) bool {
	return slices.ContainsFunc(n.in, func(k int) bool {
		return g.arcs[k].wait.State == planner.Straight && !g.arcs[k].fromStart
	})
}

// addWatches has somebody at home and awake over every watch and touch task. Where nobody can leave, that is a matter
// of the start alone.
func (m *model) addWatches() {
	leaves := slices.ContainsFunc(m.jobs, func(j *duty) bool {
		return j.Away && !j.skipped && (!j.settled || j.end > m.now)
	})
	var nobody []cp.Range
	var bars [][]cp.Range
	var every []cp.Lit
	for p := range m.people {
		bars = append(bars, m.complement(m.home(p)))
		every = append(every, m.needHours(p)...)
	}
	if len(bars) > 0 {
		nobody = m.tooFew(bars, 1)
	}
	unwatched := m.unwatched()
	for _, j := range m.jobs {
		if j.settled || j.Attention != planner.Watch && j.Attention != planner.Touch || j.length(0) == 0 {
			continue
		}
		w := m.work[j.i]
		bar := mergeRanges(reaching(nobody, j.length(0)))
		m.forbid(w.start, bar, every)
		for _, g := range unwatched {
			m.forbid(w.start, mergeRanges(reaching(g.hours, j.length(0))), g.conds)
		}
		if spare, ok := m.spareIn(j); ok {
			m.forbid(m.after(w.start, int(planner.Tight)), bar, spare)
		}
		if leaves {
			m.cp.Guards = append(m.cp.Guards, m.guard(j))
		}
	}
}

// reaching are the starts from which a length reaches into one of the ranges.
func reaching(rs []cp.Range, length int) []cp.Range {
	out := make([]cp.Range, len(rs))
	for i, r := range rs {
		out[i] = cp.Range{From: r.From - length + 1, To: r.To}
	}
	return out
}

// after is a point some minutes later.
func (m *model) after(p cp.Point, minutes int) cp.Point {
	return cp.Point{X: p.X, Off: p.Off + minutes}
}

func (m *model) guard(j *duty) cp.Guard {
	g := cp.Guard{Start: m.work[j.i].start, End: m.work[j.i].end}
	for p := range m.people {
		watcher := cp.Watcher{}
		off := m.complement(m.home(p))
		if !m.explain {
			watcher.Off = off
		} else {
			for _, r := range off {
				watcher.Busy = append(watcher.Busy, cp.Absence{Start: cp.Const(r.From), End: cp.Const(r.To),
					If: m.needHours(p)})
			}
		}
		for _, a := range m.jobs {
			if !a.Away || a.skipped {
				continue
			}
			if a.settled {
				if a.end > m.now && slices.Contains(m.peopleOf(a), m.people[p].Key) {
					watcher.Busy = append(watcher.Busy, cp.Absence{Start: cp.Const(a.start), End: cp.Const(a.end)})
				}
				continue
			}
			if cond, ok := m.by(a, p); ok {
				watcher.Busy = append(watcher.Busy, cp.Absence{Start: m.work[a.i].start, End: m.work[a.i].end,
					If: cond})
			}
		}
		g.Watchers = append(g.Watchers, watcher)
	}
	return g
}
