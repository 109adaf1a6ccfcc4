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

// Nobody ticks everything. What should be over, and was not ticked off, is asked about once: with the next task of who
// had it, by one button; what is open still shortly before the guests come is asked of the host.

// untickedBefore is how long before the guests the host is asked, and untickedFor how long a task must have been over
// then. Ours.
const (
	untickedBefore = 45 * time.Minute
	untickedFor    = 30 * time.Minute
)

// untickedShown is how many tasks a question names.
const untickedShown = 3

// mayForget reports whether a task is one that people do and say nothing of: hot food is asked about by itself.
func (v *view) mayForget(t *planner.Task) bool {
	c := v.p.Chore(t.Chore)
	return c == nil || c.Kind != planner.Cool && c.Key != "leftovers"
}

// unticked are a person's tasks that should be over when a reminder about another comes, that nobody has ticked off, and
// that no earlier reminder of theirs has asked about.
func (v *view) unticked(who planner.PersonKey, next *planner.Placed, due time.Time) (names []string) {
	for i := range v.plan.Tasks {
		pl := &v.plan.Tasks[i]
		t := v.tasks[pl.Task]
		if t == nil || pl.Task == next.Task || pl.End.After(due) || len(pl.People) == 0 || pl.People[0] != who ||
			v.p.Progress(pl.Task) != planner.Waiting || !v.mayForget(t) {
			continue
		}
		asked := slices.ContainsFunc(v.plan.Tasks, func(o planner.Placed) bool {
			return o.Task != pl.Task && len(o.People) > 0 && o.People[0] == who && !o.Start.Before(pl.End) &&
				(o.Start.Before(next.Start) || o.Start.Equal(next.Start) && o.Task < next.Task)
		})
		if !asked {
			names = append(names, words.Lower(trimStop(t.Do)))
		}
	}
	return names
}

// notTicked is the question about some tasks; empty where there are none.
func notTicked(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("Not ticked off: %s.", words.Few(names, untickedShown))
}

// allDone is the button that ticks off all that should be over.
func (v *view) allDone(whose string) store.Press {
	return store.Press{Label: "All done to here", Do: fmt.Sprintf("task caught-up%s party:%d", whose, v.p.ID)}
}

// untickedOfAll asks the first of the hosts, once, about what others have not ticked off shortly before the guests come.
func (v *view) untickedOfAll() []store.Reminder {
	i := slices.IndexFunc(v.p.People, func(x planner.Person) bool { return x.Role == planner.Host })
	due := v.p.Arrival.Add(-untickedBefore)
	if i < 0 {
		return nil
	}
	host := v.p.People[i].Key
	var names []string
	for j := range v.plan.Tasks {
		pl := &v.plan.Tasks[j]
		t := v.tasks[pl.Task]
		if t == nil || len(pl.People) == 0 || pl.People[0] == host || pl.End.After(due.Add(-untickedFor)) ||
			v.p.Progress(pl.Task) != planner.Waiting || !v.mayForget(t) {
			continue
		}
		names = append(names, fmt.Sprintf("%s (%s)", words.Lower(trimStop(t.Do)), v.name(pl.People[0])))
	}
	if len(names) == 0 {
		return nil
	}
	return []store.Reminder{{Key: "unticked/" + string(host), Kind: Unticked, Person: host, Due: due, At: due,
		Until: v.p.Arrival,
		Text: fmt.Sprintf("Done, though not ticked off? %s.\n%s.\nI go on as if it was done as planned.",
			words.Count(len(names), "task"), words.Upper(words.Few(names, untickedShown))),
		Buttons: []store.Press{v.allDone(" who:everybody")}}}
}

// fallen tells all whom it concerns that a dish is off the plan: hosts, who has worked on it, and who cooks for its
// course.
func (v *view) fallen() []store.Reminder {
	var out []store.Reminder
	for _, l := range v.plan.Without {
		d := v.p.Dish(l.Dish)
		if d == nil {
			continue
		}
		at := v.served(d.Course)
		for i := range v.p.People {
			if x := &v.p.People[i]; v.concerned(x, d) {
				out = append(out, store.Reminder{
					Key: fmt.Sprintf("fallen/%s/%s", d.Key, x.Key), Kind: Fallen, Person: x.Key, Due: v.plan.Made, At: at,
					Until: at,
					Text: strings.TrimSpace(fmt.Sprintf("Off the plan: %s.\n%s", words.Lower(named(d.Name)),
						cut(l.Why, 3*longestLine))),
					Buttons: []store.Press{{Label: "The plan", Do: fmt.Sprintf("plan show party:%d", v.p.ID)}},
				})
			}
		}
	}
	return out
}

// served is when a course is first served, as planned, or else as wanted.
func (v *view) served(k planner.CourseKey) time.Time {
	for _, s := range v.plan.Served {
		if s.Course == k {
			return s.At
		}
	}
	if c := v.p.Course(k); c != nil && len(c.Servings) > 0 {
		return c.Servings[0].At
	}
	return v.p.Arrival
}

func (v *view) concerned(x *planner.Person, d *planner.Dish) bool {
	if x.Role == planner.Host {
		return true
	}
	for _, w := range v.p.Work {
		if t := v.tasks[w.Task]; t != nil && t.Dish == d.Key && w.Person == x.Key {
			return true
		}
	}
	return slices.ContainsFunc(v.plan.Tasks, func(pl planner.Placed) bool {
		t := v.tasks[pl.Task]
		if t == nil || !slices.Contains(pl.People, x.Key) {
			return false
		}
		of := v.p.Dish(t.Dish)
		return of != nil && of.Course == d.Course
	})
}
