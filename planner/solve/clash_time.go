package solve

import (
	"fmt"

	"tureen/planner"
	"tureen/planner/mend"
	"tureen/planner/words"
)

// tooLong names the dishes whose own steps and waits, one after the other with every hand that helps, take longer than
// there is until their course; and proposes the least delay, in quarters of an hour, that would give them time.
func (g *graph) tooLong() (short []Requirement, later []mend.Change) {
	ready := g.soonest()
	worst := map[int]int{} // by course, the minutes that are missing
	for i := range g.p.Dishes {
		d := &g.p.Dishes[i]
		need, have, course := 0, 0, -1
		for _, a := range g.arcs {
			if a.to >= 0 || g.nodes[a.from].dish != d || g.nodes[a.from].skipped {
				continue
			}
			n, h := ready[a.from]+int(a.wait.Least)-g.now, g.latestFirst(a.course)-g.now
			if course < 0 || n-h > need-have {
				need, have, course = n, h, a.course
			}
		}
		if course < 0 || need <= have {
			continue
		}
		worst[course] = max(worst[course], need-have)
		short = append(short, Requirement{Task: planner.StepTask(d.Key, d.Steps[0].Key, 1), Text: fmt.Sprintf(
			"%s takes at least %s from its first step to the table, and there are %s until %s.",
			d.Name, words.Length(need), words.Length(max(0, have)), mend.CourseNamed(g.p, d.Course))})
	}
	spare := []planner.Minutes{0, 30, 60, 120} // for what comes before the steps: shopping, making space
	most := 0
	for c := range g.p.Courses {
		if missing, ok := worst[c]; ok {
			by := planner.Minutes(planner.CeilDiv(missing, 15) * 15)
			for _, more := range spare {
				later = append(later, mend.ServeLater(g.p, g.p.Courses[c].Key, by+more))
			}
			most = max(most, int(by))
		}
	}
	for _, more := range spare {
		if most > 0 {
			later = append(later, mend.ServeAllLater(planner.Minutes(most)+more))
		}
	}
	return short, later
}

// soonest is, by node, the earliest end of its last round when everything before it goes as fast as it can.
func (g *graph) soonest() []int {
	starts, ends := make([]int, len(g.nodes)), make([]int, len(g.nodes))
	for _, n := range g.order {
		start := g.now
		for _, k := range n.in {
			a := &g.arcs[k]
			from := ends[a.from]
			if a.fromStart {
				from = starts[a.from]
			}
			start = max(start, from+int(a.wait.Least))
		}
		starts[n.i], ends[n.i] = start, start
		for r, j := range n.rounds {
			if j.settled {
				ends[n.i] = max(ends[n.i], j.end)
				continue
			}
			ends[n.i] = max(ends[n.i], start+r*int(n.step.RoundGap)+j.length(j.MaxHands))
		}
	}
	return ends
}

// latestFirst is the latest minute at which a course's first serving is inside its window.
func (g *graph) latestFirst(course int) int {
	first := g.end
	for _, s := range g.p.Courses[course].Servings {
		first = min(first, g.minute(s.At.Add(s.Late.Duration())))
	}
	return first
}
