package reminders

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/words"
)

// minSpare is the least time to spare for which the last moment is worth a reminder of its own.
const minSpare = 15 * time.Minute

// lastStart is the latest instant at which a task can start with everything else where the plan has it, but
// for what goes straight on after it, and what happens when it starts later ("dessert would be late"; empty:
// nothing). It is never before the planned start.
//
// It asks less than SpareOf of package check, which tries the whole plan anew for every minute, since it is wanted
// for every task at every change; a test holds it to never promising more.
func (v *view) lastStart(t *planner.Task, pl *planner.Placed) (time.Time, string) {
	m := v.latest(t, pl, longestChain)
	return m.at, m.then
}

// moment is the last at which a task can start, and what happens after it; shifts says that it only has to be planned
// for another hour or other hands then.
type moment struct {
	at     time.Time
	then   string
	shifts bool
}

// longestChain is how many steps that go straight on after one another are followed.
const longestChain = 20

func (v *view) latest(t *planner.Task, pl *planner.Placed, chain int) (last moment) {
	length := pl.End.Sub(pl.Start)
	either := func(end time.Time, then string, shifts bool) {
		if at := end.Add(-length); last.at.IsZero() || at.Before(last.at) {
			last = moment{at, then, shifts}
		}
	}
	bound := func(end time.Time, then string) { either(end, then, false) }
	shift := func(end time.Time, then string) { either(end, then, true) }
	if d, s := v.p.StepOf(t); s != nil {
		v.boundByFollowers(d, s, chain, either)
		v.boundByServing(d, s, bound)
		v.boundByFood(d, s, pl, bound)
		v.boundByCooling(d, s, chain, bound)
	}
	if c := v.p.Chore(t.Chore); c != nil {
		for _, a := range c.By {
			if at, name, ok := v.anchor(a); ok {
				bound(at, name)
			}
		}
		if end, ok := v.soonAfter(c); ok {
			bound(end, "the food stands warm for too long")
		}
		for _, open := range v.p.OpenHours(c) {
			if !pl.Start.Before(open.From) && !pl.End.After(open.To) {
				then := "it is shut by then"
				if c.Proposed { // nobody has said when it shuts
					then = fmt.Sprintf("shops may be shut (%s is taken)", words.Stamp(open.To, words.Clock, v.zone))
				}
				bound(open.To, then)
			}
		}
	}
	v.boundByNight(t, pl, shift)
	v.boundByPeople(t, pl, shift)
	v.boundByEquipment(pl, bound)
	last.at = planner.Later(last.at, pl.Start)
	return last
}

// spare says how long a task can wait, and what happens then; empty when nothing follows from it.
func (v *view) spare(pl *planner.Placed, last time.Time, then string) string {
	switch {
	case then == "":
		return ""
	case !last.After(pl.Start):
		return fmt.Sprintf("It cannot wait: if it starts later, %s.", then)
	}
	style := words.Clock
	if last.In(v.zone).Format(time.DateOnly) != pl.Start.In(v.zone).Format(time.DateOnly) {
		style = words.DayClock
	}
	return fmt.Sprintf("It can wait until %s; after that %s.", words.Stamp(last, style, v.zone), then)
}

func (v *view) boundByFollowers(d *planner.Dish, s *planner.Step, chain int, bound func(time.Time, string, bool)) {
	for i := range v.p.Dishes {
		other := &v.p.Dishes[i]
		for j := range other.Steps {
			next := &other.Steps[j]
			for _, a := range next.After {
				if a.Step != s.Key || a.Dish != d.Key && (a.Dish != "" || other.Key != d.Key) {
					continue
				}
				key := planner.StepTask(other.Key, next.Key, 1)
				pl, t := v.at[key], v.tasks[key]
				if pl == nil || t == nil {
					continue
				}
				if a.FromStart {
					if self := v.at[planner.StepTask(d.Key, s.Key, 1)]; self != nil {
						bound(pl.Start.Add(self.End.Sub(self.Start)-a.Wait.Least.Duration()),
							fmt.Sprintf("%q comes late (%s)", trimStop(next.Do), v.dishAndCourse(other)), false)
					}
					continue
				}
				m := moment{at: pl.Start, then: fmt.Sprintf("%q comes late (%s)", trimStop(next.Do), v.dishAndCourse(other))}
				if a.Wait.State == planner.Straight && chain > 0 && !straightAfterOthers(next, &a) {
					if then := v.latest(t, pl, chain-1); then.then != "" && !then.at.Before(m.at) {
						m = then
					}
				}
				bound(m.at.Add(-a.Wait.Least.Duration()), m.then, m.shifts)
			}
		}
	}
}

// straightAfterOthers says whether a step goes straight on after another one too, which does not move along.
func straightAfterOthers(s *planner.Step, but *planner.After) bool {
	return slices.ContainsFunc(s.After, func(a planner.After) bool {
		return a.Wait.State == planner.Straight && !a.FromStart && (a.Dish != but.Dish || a.Step != but.Step)
	})
}

// soonAfter is when a chore is over that has to be so soon after a step; ok is false for any other.
func (v *view) soonAfter(c *planner.Chore) (end time.Time, ok bool) {
	if c == nil || c.From == nil || c.From.Within == 0 {
		return end, false
	}
	d, s, _, _, ok := c.From.Task.Split()
	if !ok {
		return end, false
	}
	end, ok = v.endOf(d, s)
	return end.Add((c.From.Offset + c.From.Within).Duration()), ok
}

// boundByCooling looks at the chore that puts a step's food into the cold: it goes on after it, as long as it can wait.
func (v *view) boundByCooling(d *planner.Dish, s *planner.Step, chain int, bound func(time.Time, string)) {
	for i := range v.p.Chores {
		c := &v.p.Chores[i]
		pl, t := v.at[planner.ChoreTask(c.Key)], v.tasks[planner.ChoreTask(c.Key)]
		if c.Kind != planner.Cool || c.From == nil || c.From.Task != planner.StepTask(d.Key, s.Key, 1) || chain <= 0 ||
			pl == nil || t == nil {
			continue
		}
		bound(v.latest(t, pl, chain-1).at.Add(-c.From.Offset.Duration()), fmt.Sprintf("%q comes late", trimStop(c.Do)))
	}
}

// boundByFood looks at what waits for the task: it may wait only so long.
func (v *view) boundByFood(d *planner.Dish, s *planner.Step, pl *planner.Placed, bound func(time.Time, string)) {
	length := pl.End.Sub(pl.Start)
	v.waitsBefore(d, s, pl, func(from *planner.Dish, pred *planner.Step, w planner.Wait, gap time.Duration) {
		most := w.Longest
		if w.WorthUntil > 0 && (most == 0 || w.WorthUntil < most) {
			most = w.WorthUntil
		}
		if most > 0 {
			end := pl.Start.Add(-gap + most.Duration())
			bound(end.Add(length), thing(from, pred)+" would have waited longer than it may")
		}
	})
	if minutes, ok := v.foodAges().Spare(d.Key, s.Key); ok {
		bound(pl.End.Add(time.Duration(minutes)*time.Minute), "its food would pass a published limit")
	}
}

// foodAges follows the plan's food, once.
func (v *view) foodAges() *check.Ages {
	if v.ages == nil {
		v.ages = check.AgesOf(v.p, v.plan)
	}
	return v.ages
}

// boundByServing looks at the course: a step that no other comes after is served.
func (v *view) boundByServing(d *planner.Dish, s *planner.Step, bound func(time.Time, string)) {
	var wait planner.Wait
	switch {
	case s.Serve != nil:
		wait = *s.Serve
	case v.followed(d, s):
		return
	}
	for _, served := range v.plan.Served {
		if served.Course == d.Course {
			bound(served.At.Add(-wait.Least.Duration()), v.course(d.Course)+" would be late")
		}
	}
}

// followed reports whether any step comes after a step.
func (v *view) followed(d *planner.Dish, s *planner.Step) bool {
	for i := range v.p.Dishes {
		for _, next := range v.p.Dishes[i].Steps {
			for _, a := range next.After {
				if !a.FromStart && a.Step == s.Key && (a.Dish == d.Key || a.Dish == "" && v.p.Dishes[i].Key == d.Key) {
					return true
				}
			}
		}
	}
	return false
}

// boundByNight has work on a day before the party's end in time for the night (rule 13).
func (v *view) boundByNight(t *planner.Task, pl *planner.Placed, bound func(time.Time, string)) {
	if !pl.Start.Before(v.p.Day()) {
		return
	}
	y, m, d := pl.Start.In(v.zone).Date()
	last := time.Date(y, m, d, 0, int(v.p.DayWork().Until), 0, 0, v.zone)
	switch t.Attention {
	case planner.Hands:
	case planner.Unattended:
		last = last.Add(planner.EveningTouch.Duration() + pl.End.Sub(pl.Start)) // it may begin as late as that
	default:
		last = last.Add(planner.EveningTouch.Duration())
	}
	bound(last, "it gets too late that evening")
}

// boundByPeople looks at the next task that needs the same hands, and at the end of people's hours.
func (v *view) boundByPeople(t *planner.Task, pl *planner.Placed, bound func(time.Time, string)) {
	length := pl.End.Sub(pl.Start)
	for i, k := range pl.People {
		if who := v.p.Person(k); who != nil {
			then := v.name(k) + " has no more time for it that day"
			for _, w := range v.p.CookingHours(who) {
				switch inside := !pl.Start.Before(w.From) && pl.Start.Before(w.To); {
				case inside && t.Attention == planner.Hands:
					bound(w.To, then)
				case inside && i == 0:
					bound(w.To.Add(length-time.Minute), then)
				}
			}
		}
		if t.Attention != planner.Hands && !t.Away {
			continue
		}
		for j := range v.plan.Tasks {
			next := &v.plan.Tasks[j]
			other := v.tasks[next.Task]
			if other == nil || next.Start.Before(pl.End) || next.Task == pl.Task || !slices.Contains(next.People, k) {
				continue
			}
			if other.Attention == planner.Hands || t.Away && next.People[0] == k {
				bound(next.Start, fmt.Sprintf("%s is wanted for %q", v.name(k), trimStop(other.Do)))
			}
		}
	}
}

// boundByEquipment looks at what the task holds to its end: somebody may want it next.
func (v *view) boundByEquipment(pl *planner.Placed, bound func(time.Time, string)) {
	for _, h := range pl.Uses {
		if h.To.After(pl.End) {
			continue // a later step gives it back
		}
		for i := range v.plan.Tasks {
			next := &v.plan.Tasks[i]
			t := v.tasks[next.Task]
			for _, n := range next.Uses {
				if t == nil || n.What != h.What || n.Name != h.Name || n.From.Before(h.To) {
					continue
				}
				then := fmt.Sprintf("the %s is wanted for %q", equipment(&h), trimStop(t.Do))
				free := n.From
				if h.What == planner.AnOven && h.C != n.C {
					if oven := v.oven(h.Name); oven != nil {
						free = n.From.Add(-oven.Change(h.C, n.C).Duration())
					}
				} else if h.Amount+v.heldAt(pl.Task, &n) <= v.has(&h) {
					continue
				}
				bound(free.Add(pl.End.Sub(h.To)), then)
			}
		}
	}
}

// heldAt is how much of a thing is held, but for one task, when somebody takes it.
func (v *view) heldAt(but planner.TaskKey, taken *planner.Held) int {
	n := 0
	for i := range v.plan.Tasks {
		if v.plan.Tasks[i].Task == but {
			continue
		}
		for _, h := range v.plan.Tasks[i].Uses {
			if h.What == taken.What && h.Name == taken.Name && !taken.From.Before(h.From) && taken.From.Before(h.To) {
				n += h.Amount
			}
		}
	}
	return n
}

// has is how much of a thing the kitchen has.
func (v *view) has(h *planner.Held) int {
	k := &v.p.Kitchen
	switch h.What {
	case planner.AnOven:
		if oven := v.oven(h.Name); oven != nil {
			return oven.Shelves
		}
	case planner.ABurner:
		return k.Burners
	case planner.AGrill:
		return k.Grills
	case planner.ACounter:
		return k.Counter
	}
	wares := map[planner.Equipment][]planner.Ware{planner.AnAppliance: k.Appliances, planner.AVessel: k.Vessels,
		planner.AHotPlace: k.HotPlaces}[h.What]
	for _, w := range wares {
		if w.Name == h.Name {
			return w.Count
		}
	}
	return 0
}

func (v *view) oven(name string) *planner.Oven {
	for i := range v.p.Kitchen.Ovens {
		if o := &v.p.Kitchen.Ovens[i]; o.Name == name {
			return o
		}
	}
	return nil
}

func equipment(h *planner.Held) string {
	if h.Name != "" {
		return named(h.Name)
	}
	return string(h.What)
}

// anchor finds the instant that a chore has to be done by, and what would be late.
func (v *view) anchor(a planner.Anchor) (time.Time, string, bool) {
	by := func(at time.Time, then string) (time.Time, string, bool) {
		if at = at.Add(a.Offset.Duration()); a.Offset != 0 || then == "" {
			then = "it is not done by " + words.Stamp(at, words.DayClock, v.zone)
		}
		return at, then, true
	}
	switch {
	case a.At != nil:
		return by(*a.At, "")
	case a.Arrival:
		return by(v.p.Arrival, "it is not done when the guests arrive")
	case a.Course != "":
		for _, s := range v.plan.Served {
			if s.Course == a.Course {
				return by(s.At, v.course(a.Course)+" has to wait for it")
			}
		}
	case a.Task != "":
		if pl, t := v.at[a.Task], v.tasks[a.Task]; pl != nil && t != nil {
			return by(pl.Start, fmt.Sprintf("%q has to wait for it", trimStop(t.Do)))
		}
	}
	return time.Time{}, "", false
}
