package solve

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/cp"
)

// courseGap is how far apart two courses of one group lie at least, in minutes.
const courseGap = 15

// addServings makes a variable for every serving, inside its window, and keeps the courses of a group in order.
func (m *model) addServings() {
	m.serve = make([][]cp.Var, len(m.p.Courses))
	m.first = make([]cp.Point, len(m.p.Courses))
	m.last = make([]cp.Point, len(m.p.Courses))
	for c := range m.p.Courses {
		course := &m.p.Courses[c]
		var points []cp.Point
		for s := range course.Servings {
			x := m.addServing(course, &course.Servings[s])
			m.serve[c] = append(m.serve[c], x)
			points = append(points, x.At())
			m.spaceCourses(c, s)
		}
		if len(points) > 0 {
			m.first[c] = m.earliest(points, course.Name+" first")
			m.last[c] = m.latest(points, course.Name+" last")
		}
	}
}

func (m *model) addServing(course *planner.Course, s *planner.Serving) cp.Var {
	lo, hi := m.minuteUp(s.At.Add(-s.Early.Duration())), m.minute(s.At.Add(s.Late.Duration()))
	hi = max(lo, hi)
	name := fmt.Sprintf("%s %s served", course.Key, s.Group)
	var x cp.Var
	switch {
	case m.explain:
		x = m.cp.NewVar(min(lo, m.now)-24*60, max(hi, m.end)+24*60, name)
		need := m.need("serve "+name, func() Requirement { return Requirement{Text: m.sayServing(course, s)} })
		m.cp.AddClause(unless(need, x.AtLeast(lo))...)
		if !m.ask.Soft {
			m.cp.AddClause(unless(need, x.AtMost(hi))...)
		}
	case m.ask.Soft:
		x = m.cp.NewVar(lo, max(hi, m.end), name)
	case m.yields != nil:
		x = m.cp.NewVar(lo, hi, name)
		m.serveNoLater(course, x, hi-int(slices.Max(laterGrades)))
		return x
	default:
		x = m.cp.NewVar(lo, hi, name)
	}
	target := m.minute(s.At)
	longest := max(target-m.cp.Vars[x].Lo, m.cp.Vars[x].Hi-target, 0)
	const band = 5
	off := m.cp.NewVar(0, (longest+band-1)/band, name+" off target")
	m.cp.AddLinear([]cp.Term{{Coef: 1, X: x}, {Coef: -band, X: off}}, target)
	m.cp.AddLinear([]cp.Term{{Coef: -1, X: x}, {Coef: -band, X: off}}, -target)
	m.derived(off, func(v []int) int { return (max(v[x]-target, target-v[x]) + band - 1) / band })
	m.misses = append(m.misses, cp.Term{Coef: 1, X: off})
	return x
}

// spaceCourses keeps a serving after the same group's in the course before.
func (m *model) spaceCourses(c, s int) {
	group := m.p.Courses[c].Servings[s]
	for b := c - 1; b >= 0; b-- {
		for k, before := range m.p.Courses[b].Servings {
			if before.Group != group.Group {
				continue
			}
			apart := min(courseGap, max(0, m.minute(group.At)-m.minute(before.At)))
			m.cp.AddLag(m.serve[b][k].At(), m.serve[c][s].At(), apart)
			return
		}
	}
}
