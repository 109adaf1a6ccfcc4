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

// Muddle notes work without regard to any order, as people do who tick things off late, out of turn or by mistake, and
// gives the instant at which they have done so.
func Muddle(d Dice, p *planner.Party, plan *planner.Plan) time.Time {
	tasks := plan.Tasks
	now := tasks[d.Roll(0, len(tasks)-1)].Start.Add(time.Duration(d.Roll(0, 90)) * time.Minute)
	for _, t := range tasks {
		if p.WorkOn(t.Task) != nil || !chance(d, 40) {
			continue
		}
		start := now.Add(-time.Duration(d.Roll(0, 300)) * time.Minute)
		end := start.Add(time.Duration(d.Roll(0, int(now.Sub(start)/time.Minute))) * time.Minute)
		w := planner.Work{Task: t.Task, Start: &start}
		switch d.Roll(1, 4) {
		case 1:
			w.Progress, w.Extra = planner.Started, minutes(d, 0, 30)
		case 2:
			w.Progress, w.Start, w.End = planner.Skipped, nil, &end
		default:
			w.Progress, w.End = planner.Done, &end
			if chance(d, 30) {
				w.Start = nil
			}
		}
		if chance(d, 30) {
			w.Person = p.People[d.Roll(0, len(p.People)-1)].Key
		}
		p.Work = append(p.Work, w)
	}
	return now
}
