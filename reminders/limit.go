package reminders

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/words"
	"tureen/store"
)

// Food that somebody has made, and that nobody has gone on with by what was ticked off, is asked about shortly before
// its limit on the counter: there is time then to go on, or to put it into the cold.

// leadLimit is how long before its limit food is asked about; our own figure.
const leadLimit = 5 * time.Minute

func (v *view) atLimits() []store.Reminder {
	var out []store.Reminder
	for i := range v.p.Dishes {
		d := &v.p.Dishes[i]
		begun := slices.ContainsFunc(d.Steps, func(s planner.Step) bool {
			return v.p.Progress(planner.StepTask(d.Key, s.Key, 1)) == planner.Done
		})
		if !begun || v.plan.LeavesOut(d.Key) {
			continue
		}
		at, stands := check.Passes(v.p, d.Key)
		if !stands || v.plan.Eaten(d, at.At) {
			continue
		}
		out = append(out, v.atLimit(d, at)...)
	}
	return out
}

// atLimit asks about one dish: whether the next step has begun, or, where it only waits for the table, whether it is
// there.
func (v *view) atLimit(d *planner.Dish, at check.Passing) []store.Reminder {
	next := at.Next
	if next == nil {
		next = at.Step
	}
	k := planner.StepTask(d.Key, next.Key, 1)
	pl := v.at[k]
	if pl == nil {
		return nil
	}
	by := "By what was ticked off"
	if !at.Told {
		by = "Nobody said since when it has stood; by the plan"
	}
	ask := fmt.Sprintf("Has “%s” begun? %s waits for it on the counter, and nobody has ticked it off.",
		trimStop(next.Do), named(d.Name))
	do := "Go on with it or put it into the refrigerator by then"
	if at.Next == nil {
		ask = fmt.Sprintf("Is %s on the table? It waits on the counter for that.", named(d.Name))
		do = "Serve it or put it into the refrigerator by then"
	}
	text := fmt.Sprintf("%s\n%s the food is at its limit there at %s (%s). %s; what has stood longer throw away, unless "+
		"you know that it was in the cold. %s", ask, by, words.Stamp(at.At, words.Clock, v.zone), v.p.CounterLimit(), do,
		check.Instead(v.p, v.plan, d))
	due := at.At.Add(-leadLimit)
	if at.Next != nil && pl.Start.After(due.Add(-leadLimit)) {
		due = at.At // its own reminder has just come, and says that it cannot wait
	}
	var out []store.Reminder
	for _, who := range v.cookAndHost(pl) {
		r := store.Reminder{
			Key: fmt.Sprintf("limit/%s/%s", k, who), Kind: AtLimit, Person: who, Task: k,
			Due: due, At: at.At, Until: at.At.Add(time.Hour), Text: text,
		}
		if at.Next != nil {
			r.Buttons = []store.Press{v.press("Started", "task start", k), v.press("Done", "task done", k)}
		}
		out = append(out, r)
	}
	return out
}

// notCold asks about cooked food that nobody has put into the cold by what was ticked off, shortly before its time is
// over.
func (v *view) notCold() []store.Reminder {
	var out []store.Reminder
	for _, w := range check.StillWarm(v.p) {
		k := w.Chore()
		pl := v.at[k]
		if pl == nil || v.p.Progress(k) != planner.Waiting || v.plan.LeavesOut(w.Dish.Key) {
			continue
		}
		text := fmt.Sprintf("Is %s in the cold? Nobody has ticked it off.\nIts %s out of it (%s) end at %s: put it into the "+
			"refrigerator by then; what has stood longer throw away, unless you know that it was in the cold.",
			named(w.Dish.Name),
			words.Short(w.Limit.Minutes), w.Limit.Source, words.Stamp(w.By, words.Clock, v.zone))
		for _, who := range v.cookAndHost(pl) {
			out = append(out, store.Reminder{
				Key: fmt.Sprintf("limit/%s/%s", k, who), Kind: AtLimit, Person: who, Task: k,
				Due: w.By.Add(-leadLimit), At: w.By, Until: w.By.Add(time.Hour), Text: text,
				Buttons: []store.Press{v.press("Started", "task start", k), v.press("Done", "task done", k)},
			})
		}
	}
	return out
}

// cookAndHost is who hears of food at its limit: who is to go on with it, and the first of the hosts.
func (v *view) cookAndHost(pl *planner.Placed) []planner.PersonKey {
	var who []planner.PersonKey
	if len(pl.People) > 0 {
		who = append(who, pl.People[0])
	}
	i := slices.IndexFunc(v.p.People, func(x planner.Person) bool { return x.Role == planner.Host })
	if i >= 0 && !slices.Contains(who, v.p.People[i].Key) {
		who = append(who, v.p.People[i].Key)
	}
	return who
}
