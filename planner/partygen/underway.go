package partygen

import (
	"slices"
	"time"

	"tureen/planner"
)

// UnderWay puts a party in the middle of its plan: what has begun by then is done or started, now and then a minute or
// two longer than planned, and a later task may be skipped. It notes the work in the party and gives the instant.
func UnderWay(d Dice, p *planner.Party, plan *planner.Plan) time.Time {
	tasks := slices.Clone(plan.Tasks)
	slices.SortStableFunc(tasks, func(a, b planner.Placed) int { return a.Start.Compare(b.Start) })
	middle := tasks[d.Roll(0, len(tasks)-1)]
	now := middle.Start.Add(time.Duration(d.Roll(0, 3)) * time.Minute)
	note := func(w planner.Work) {
		if old := p.WorkOn(w.Task); old != nil {
			w.Person = old.Person
			*old = w
			return
		}
		p.Work = append(p.Work, w)
	}
	skipped := false
	for _, t := range tasks {
		start, end := t.Start, t.End
		if chance(d, 20) {
			end = end.Add(time.Duration(d.Roll(1, 2)) * time.Minute)
		}
		switch {
		case start.After(now) || start.Equal(now) && chance(d, 50):
			if !skipped && chance(d, 15) {
				at := now
				note(planner.Work{Task: t.Task, Progress: planner.Skipped, End: &at})
				skipped = true
			}
		case end.After(now):
			w := planner.Work{Task: t.Task, Progress: planner.Started, Start: &start}
			if chance(d, 30) {
				w.Extra = minutes(d, 1, 2)
			}
			note(w)
		default:
			note(planner.Work{Task: t.Task, Progress: planner.Done, Start: &start, End: &end})
		}
	}
	return now
}
