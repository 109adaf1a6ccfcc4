package sheet

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// steadyMove is the move of a start that people need not be told of.
const steadyMove = 5 * time.Minute

// Changes says what a new plan changed against the one before it, task by task: what is new, what is gone,
// what somebody else does, what moved by more than five minutes, which course is served at another time.
// What has been started or done is not told. Without a plan before it, nothing changed.
func Changes(p *planner.Party, before, after *planner.Plan, f Format) []string {
	if before == nil || after == nil {
		return nil
	}
	v := newView(p, after, f)
	var out []string
	for _, s := range after.Served {
		at := slices.IndexFunc(before.Served, func(b planner.Served) bool {
			return b.Course == s.Course && b.Group == s.Group
		})
		if at < 0 || before.Served[at].At.Equal(s.At) {
			continue
		}
		was := before.Served[at].At
		to := ""
		if s.Group != "" {
			to = " for the " + clean(s.Group)
		}
		out = append(out, fmt.Sprintf("%s%s: served at %s, not %s", words.Upper(v.course(s.Course)), to,
			f.near(s.At, p.Arrival), f.near(was, p.Arrival)))
	}
	for _, pl := range v.placed() {
		t := v.tasks[pl.Task]
		if v.p.Progress(pl.Task) != planner.Waiting {
			continue
		}
		was := before.Placed(pl.Task)
		if was == nil {
			out = append(out, fmt.Sprintf("New: %s %s", f.Stamp(pl.Start, DayClock), v.who(pl)+v.called(t)))
			continue
		}
		moved := pl.Start.Sub(was.Start)
		other := inCharge(was) != inCharge(pl)
		if moved.Abs() <= steadyMove && !other {
			continue
		}
		line := v.called(t) + ": "
		if moved.Abs() > steadyMove {
			line += fmt.Sprintf("%s, not %s", f.Stamp(pl.Start, DayClock), f.near(was.Start, pl.Start))
		} else {
			line += f.Stamp(pl.Start, DayClock)
		}
		if other {
			line += fmt.Sprintf(", %s instead of %s", v.nameOrNobody(inCharge(pl)), v.nameOrNobody(inCharge(was)))
		}
		out = append(out, line)
	}
	for i := range before.Tasks {
		k := before.Tasks[i].Task
		if d, _, _, _, _ := k.Split(); after.Placed(k) == nil && !after.LeavesOut(d) { // Without tells of those
			out = append(out, "No more: "+v.goneName(k))
		}
	}
	return out
}

func inCharge(pl *planner.Placed) planner.PersonKey {
	if len(pl.People) == 0 {
		return ""
	}
	return pl.People[0]
}

func (v *view) nameOrNobody(k planner.PersonKey) string {
	if k == "" {
		return "nobody"
	}
	return v.name(k)
}

// goneName names a task that the party does not have any more.
func (v *view) goneName(k planner.TaskKey) string {
	if t := v.tasks[k]; t != nil {
		return v.called(t)
	}
	dish, step, round, _, _ := k.Split()
	if d := v.p.Dish(dish); d != nil && d.Step(step) != nil {
		name := v.called(&planner.Task{Key: k, Dish: dish, Do: d.Step(step).Do})
		if round > 1 {
			name += fmt.Sprintf(", round %d", round)
		}
		return name
	}
	return string(k)
}
