package reminders

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// A course goes when the table is ready, and not by the minute: as the last of its final steps is to begin, whoever
// does that is asked, with how long it may still wait.

// finishWithin is how long before a course is served its last step may end and still be a final one. Ours.
const finishWithin = 30 * time.Minute

// goes asks, for each course, whether the table is ready for it.
func (v *view) goes() []store.Reminder {
	var out []store.Reminder
	for _, s := range v.plan.Served {
		d, step, pl := v.lastOf(s)
		if pl == nil {
			continue
		}
		course := v.course(s.Course)
		if s.Group != "" {
			course += " for " + named(s.Group)
		}
		text := fmt.Sprintf("Table ready for the %s? It goes on at %s.\n%s (%s), %s: on the table at %s.",
			cut(words.Lower(course), longestFirst/3), words.Stamp(pl.Start, words.Clock, v.zone), trimStop(step.Do),
			named(d.Name), words.Short(planner.Minutes(words.Minutes(pl.End.Sub(pl.Start)))),
			words.Stamp(s.At, words.Clock, v.zone))
		if w := v.whereNow(d, step, pl); w != "" {
			text += "\n" + w
		}
		if last, then := v.mayWait(s, d, step, pl); last.After(pl.Start) {
			text += fmt.Sprintf("\nIt may wait until %s; after that %s.", words.Stamp(last, words.Clock, v.zone), then)
		} else {
			text += fmt.Sprintf("\nIt cannot wait: if it goes on later, %s.", then)
		}
		out = append(out, store.Reminder{
			Key: fmt.Sprintf("go/%s/%s/%s", s.Course, planner.Key(s.Group), pl.People[0]), Kind: Go, Person: pl.People[0],
			Task: pl.Task, Due: pl.Start.Add(-leadHands), At: pl.Start, Until: pl.End, Text: text,
			Buttons: []store.Press{v.press(words.Upper(cut(course, longestFirst/3))+" now", "task start", pl.Task),
				{Label: "Ten more minutes", Do: fmt.Sprintf("late task:%s by:10 party:%d", pl.Task, v.p.ID)},
				v.press("Why?", "task why", pl.Task)},
		})
	}
	return out
}

// lastOf is the final step of a course that begins last, with somebody's hands, where it is still to begin.
func (v *view) lastOf(s planner.Served) (of *planner.Dish, step *planner.Step, last *planner.Placed) {
	for i := range v.p.Dishes {
		d := &v.p.Dishes[i]
		if d.Course != s.Course || v.plan.LeavesOut(d.Key) {
			continue
		}
		for j := range d.Steps {
			x := &d.Steps[j]
			pl := v.at[planner.StepTask(d.Key, x.Key, 1)]
			if pl == nil || len(pl.People) == 0 || x.Attention != planner.Hands || x.Serve == nil && v.followed(d, x) ||
				s.At.Sub(pl.End) > finishWithin || pl.End.After(s.At) || v.p.Progress(pl.Task) != planner.Waiting {
				continue
			}
			if last == nil || pl.Start.After(last.Start) {
				of, step, last = d, x, pl
			}
		}
	}
	return of, step, last
}

// mayWait is until when a final step can begin at the latest, by the course's window and by what its food bears, and
// what happens after that.
func (v *view) mayWait(s planner.Served, d *planner.Dish, x *planner.Step, pl *planner.Placed) (time.Time, string) {
	last, then := pl.Start, "the "+words.Lower(v.course(s.Course))+" is past its window"
	if c := v.p.Course(s.Course); c != nil {
		for _, g := range c.Servings {
			if g.Group == s.Group {
				last = g.At.Add(g.Late.Duration()).Add(-s.At.Sub(pl.Start))
			}
		}
	}
	v.boundByFood(d, x, pl, func(end time.Time, why string) {
		if at := end.Add(-pl.End.Sub(pl.Start)); at.Before(last) {
			last, then = at, why
		}
	})
	return last, then
}

// serving are those who serve a course: who finishes it or carries it in; where the plan names nobody, the hosts.
func serving(p *planner.Party, plan *planner.Plan, r *store.Row) (out []planner.Person) {
	course, _, _ := strings.Cut(strings.TrimPrefix(r.Key, "service/"), "/")
	in := map[planner.PersonKey]bool{}
	if plan != nil {
		for _, pl := range plan.Tasks {
			dish, _, _, chore, _ := pl.Task.Split()
			d := p.Dish(dish)
			final := d != nil && string(d.Course) == course && !pl.End.Before(r.At.Add(-finishWithin)) && !pl.Start.After(r.At)
			for _, k := range pl.People {
				in[k] = in[k] || final || string(chore) == "serve-"+course
			}
		}
	}
	for _, x := range p.People {
		if in[x.Key] {
			out = append(out, x)
		}
	}
	if len(out) == 0 {
		return slices.DeleteFunc(slices.Clone(p.People), func(x planner.Person) bool { return x.Role != planner.Host })
	}
	return out
}
