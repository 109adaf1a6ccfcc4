package solve

import (
	"fmt"
	"time"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/mend"
)

// addNights keeps work on the days before the party's within a day's hours (rule 13).
func (m *model) addNights() {
	hours := m.p.DayWork()
	need := m.need("nights", func() Requirement {
		return Requirement{Text: fmt.Sprintf("Work on the days before lies between %s and %s.", hours.From.Clock(),
			hours.Until.Clock())}
	})
	m.withinDays(hours, join(need, m.untouched(mildHours, mend.LongerDays(hours))))
	if m.yields != nil {
		m.withinDays(mend.LongerDay(hours), nil)
	}
}

// withinDays keeps hands within some hours of the days before, and what is no hands task within an hour more.
func (m *model) withinDays(hours planner.DayHours, conds []cp.Lit) {
	var hands, touch []cp.Range
	y, mo, d := m.p.Day().Date()
	clock := func(n int, at planner.Minutes) int {
		return m.minute(time.Date(y, mo, d-n, 0, int(at), 0, 0, m.p.Location()))
	}
	for n := 1; n <= m.p.PrepDays; n++ {
		from, until := clock(n, hours.From), clock(n, hours.Until)
		hands = append(hands, cp.Range{From: from, To: until})
		touch = append(touch, cp.Range{From: from, To: clock(n, hours.Until+planner.EveningTouch)})
	}
	rest := cp.Range{From: m.day, To: m.spanEnd()}
	for _, j := range m.jobs {
		if j.settled {
			continue
		}
		w := &m.work[j.i]
		hands := hands
		if j.chore.IntoTheCold() {
			hands = touch
		}
		switch {
		case len(w.modes) > 0:
			for _, md := range w.modes {
				m.forbid(w.start, m.noStartBut(hands, rest, md.length), join(conds, []cp.Lit{md.chosen.True()}))
			}
		case j.Attention == planner.Hands:
			m.forbid(w.start, m.noStartBut(hands, rest, j.length(j.Hands)), conds)
			if spare, ok := m.spareIn(j); ok {
				m.forbid(w.start, m.noStartBut(hands, rest, j.length(j.Hands)+int(planner.Tight)), join(conds, spare))
			}
		case j.Attention == planner.Unattended:
			m.forbid(w.start, m.noStartBut(touch, rest, 0), conds)
		default:
			m.forbid(w.start, m.noStartBut(touch, rest, j.length(0)), conds)
		}
	}
}

// noStartBut are the starts from which a length does not lie inside one of the hours, and that are not in the rest.
func (m *model) noStartBut(hours []cp.Range, rest cp.Range, length int) []cp.Range {
	starts := []cp.Range{rest}
	for _, h := range hours {
		if last := h.To - length + 1; last > h.From {
			starts = append(starts, cp.Range{From: h.From, To: min(last, m.day)})
		}
	}
	return m.complement(mergeRanges(starts))
}
