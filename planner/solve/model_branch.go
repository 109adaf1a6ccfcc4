package solve

import (
	"tureen/planner/cp"

	"tureen/planner"
)

// The order in which the first descent decides.
const (
	decideMisses = iota // service at its target, nothing missed
	decideWishes        // nobody busy at dinner, food at its best, work ahead
	decideBack          // what leads up to something: backward from service, as late as can be
	decideOn            // what follows: as early as can be
	decideHands
)

// addBranching has the first descent plan backward from service.
func (m *model) addBranching() {
	decide := func(x cp.Var, how cp.Prefer, group int) {
		m.cp.Branch = append(m.cp.Branch, cp.Decision{X: x, Prefer: how, Group: group})
	}
	for _, t := range m.tights {
		decide(t.X, cp.Low, decideMisses)
	}
	for _, t := range m.late {
		decide(t.X, cp.Low, decideMisses)
	}
	for _, t := range m.misses {
		decide(t.X, cp.Low, decideMisses)
	}
	for _, x := range m.wishes {
		decide(x, cp.Low, decideWishes)
	}
	for _, j := range m.jobs {
		w := m.work[j.i]
		if j.settled {
			continue
		}
		if j.node != nil || len(j.chore.By) > 0 {
			decide(w.start.X, cp.Latest, decideBack)
		} else {
			decide(w.start.X, cp.Earliest, decideOn)
		}
	}
	for _, j := range m.jobs {
		w := m.work[j.i]
		for _, md := range w.modes {
			decide(md.chosen, cp.High, decideHands)
		}
		// Co-hosts before hosts, and each job beginning with another person, so that work is spread.
		for _, hosts := range []bool{false, true} {
			for i := range w.person {
				p := (i + j.i) % len(w.person)
				if w.person[p] != cp.None && (m.people[p].Role == planner.Host) == hosts {
					decide(w.person[p], cp.High, decideHands)
				}
			}
		}
	}
}
