package solve

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/propose"
	"tureen/planner/words"
)

// anchorAt is an anchor's instant. ok is false where the anchor does not count; begun says that it hangs on the clock,
// the arrival or on settled work, so that an evening plan may miss it.
func (m *model) anchorAt(a planner.Anchor, by bool) (p cp.Point, begun, ok bool) {
	switch {
	case a.At != nil:
		if by {
			return cp.Const(m.minute(*a.At)), true, true
		}
		return cp.Const(m.minuteUp(*a.At)), true, true
	case a.Arrival:
		return cp.Const(m.minute(m.p.Arrival)), true, true
	case a.Course != "":
		for c := range m.p.Courses {
			if m.p.Courses[c].Key == a.Course && len(m.serve[c]) > 0 {
				return m.first[c], false, true
			}
		}
		return cp.Point{}, false, false
	}
	rounds := m.anchored(a.Task)
	if len(rounds) == 0 {
		return cp.Point{}, false, false
	}
	var points []cp.Point
	begun = true
	for _, j := range rounds {
		begun = begun && j.settled
		if by {
			points = append(points, m.work[j.i].start)
		} else {
			points = append(points, m.work[j.i].free)
		}
	}
	if by {
		return m.earliest(points, "first of "+string(a.Task)), begun, true
	}
	return m.latest(points, "last of "+string(a.Task)), begun, true
}

// anchored are the jobs that an anchor's key means: all rounds of a step where the key names none, without skipped
// ones.
func (m *model) anchored(k planner.TaskKey) []*duty {
	var out []*duty
	for _, j := range m.jobs {
		all := j.node != nil && k == planner.StepTask(j.Dish, j.Step, 1)
		if (j.Key == k || all) && !j.skipped {
			out = append(out, j)
		}
	}
	return out
}

// addAnchors keeps the chores' From and By.
func (m *model) addAnchors() {
	for _, j := range m.jobs {
		if j.chore == nil || j.settled {
			continue
		}
		w := m.work[j.i]
		m.addOpen(j)
		if j.chore.From != nil {
			if p, begun, ok := m.anchorAt(*j.chore.From, false); ok {
				m.gapAtLeast(p, w.start, int(j.chore.From.Offset))
				m.soonAfter(j, p, begun)
			}
		}
		for i, by := range j.chore.By {
			p, begun, ok := m.anchorAt(by, true)
			if !ok {
				continue
			}
			latest := cp.Point{X: p.X, Off: p.Off + int(by.Offset)}
			earliest := cp.Point{X: p.X, Off: latest.Off - int(by.Within)}
			if m.ask.Soft && begun {
				m.missed(fmt.Sprintf("%s by %d", j.Key, i), latest, w.end, 0, nil)
				if by.Within > 0 {
					m.missed(fmt.Sprintf("%s within %d", j.Key, i), w.end, earliest, 0, nil)
				}
				continue
			}
			need := m.need(fmt.Sprintf("by %s %d", j.Key, i), func() Requirement {
				return Requirement{Text: m.sayBy(j, by), Task: j.Key}
			})
			m.gapAtMost(latest, w.free, 0, need...)
			if by.Within > 0 {
				m.gapAtLeast(earliest, w.end, 0, need...)
			}
		}
	}
}

// addKeeping keeps what the hosts' own ways to shops bring from lying too long before it is used (rule 12).
func (m *model) addKeeping() {
	for _, k := range propose.Keeping(m.p) {
		trips, uses := m.anchored(planner.ChoreTask(k.Trip)), m.anchored(k.Use)
		use, _, ok := m.anchorAt(planner.Anchor{Task: k.Use}, true)
		if len(trips) == 0 || !ok || slices.ContainsFunc(uses, func(j *duty) bool { return j.settled }) {
			continue
		}
		need := m.need(fmt.Sprintf("keeping %s %s %s", k.Trip, k.Use, k.Name), func() Requirement {
			return Requirement{Text: fmt.Sprintf("%s; %s brings it, for %s.", k.String(), trips[0].label(),
				m.name(k.Use)), Task: k.Use, Limit: k.Life != nil && k.Life.Limit}
		})
		m.gapAtLeast(cp.Point{X: use.X, Off: use.Off - int(k.Within)}, m.work[trips[0].i].end, 0, need...)
	}
}

// soonAfter keeps a chore within so long after what it comes after, or after now where that is over.
func (m *model) soonAfter(j *duty, p cp.Point, begun bool) {
	from, w := j.chore.From, m.work[j.i]
	if from.Within <= 0 {
		return
	}
	if rounds := m.anchored(from.Task); len(rounds) > 0 { // by their ends, whatever time they have to spare
		var ends []cp.Point
		for _, r := range rounds {
			ends = append(ends, m.work[r.i].end)
		}
		p = m.latest(ends, "last end of "+string(from.Task))
	}
	latest := cp.Point{X: p.X, Off: p.Off + int(from.Offset+from.Within)}
	if begun && m.isConst(p) {
		latest.Off = max(latest.Off, m.minute(m.ask.Now)+int(from.Within))
	}
	if m.ask.Soft && begun {
		m.missed(fmt.Sprintf("%s soon", j.Key), latest, w.end, 0, nil)
		return
	}
	m.gapAtMost(latest, w.end, 0, m.need(fmt.Sprintf("soon after %s", j.Key), func() Requirement {
		return Requirement{Text: fmt.Sprintf("%s must be done within %s of the end of %s.", j.label(),
			words.Length(from.Within), m.name(from.Task)), Task: j.Key}
	})...)
}

// addOpen keeps a chore within one day's opening hours: both its ends are, and it is shorter than the night between.
func (m *model) addOpen(j *duty) {
	hours := m.openRanges(m.p.OpenHours(j.chore))
	if len(hours) == 0 || m.ask.Soft {
		return
	}
	need := m.need("open "+string(j.Key), func() Requirement {
		return Requirement{Text: fmt.Sprintf("%s lies between %s and %s.", j.label(), j.chore.Open.From.Clock(),
			j.chore.Open.Until.Clock()), Task: j.Key}
	})
	w := m.work[j.i]
	m.forbid(w.start, m.noStart(hours, 1), need)
	var ends []cp.Range // the instants just before which it may end
	for _, h := range hours {
		ends = append(ends, cp.Range{From: h.From + 1, To: h.To + 1})
	}
	m.forbid(w.end, m.complement(ends), need)
}
