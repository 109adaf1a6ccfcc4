package reminders

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// ovenStaysOn is the longest pause over which an oven is left on. Common practice, no source.
const ovenStaysOn = 45 * time.Minute

// load is an oven held by a task at a temperature.
type load struct {
	planner.Held
	placed *planner.Placed
}

// ovens tells when to set each oven so that it is hot in time, and when to change it within a step.
func (v *view) ovens() []store.Reminder {
	var out []store.Reminder
	for i := range v.p.Kitchen.Ovens {
		oven := &v.p.Kitchen.Ovens[i]
		var loads []load
		for j := range v.plan.Tasks {
			pl := &v.plan.Tasks[j]
			for _, h := range pl.Uses {
				if h.What == planner.AnOven && h.Name == oven.Name && h.C > 0 && v.tasks[pl.Task] != nil && len(pl.People) > 0 {
					loads = append(loads, load{h, pl})
				}
			}
		}
		slices.SortFunc(loads, func(a, b load) int {
			return cmp.Or(a.From.Compare(b.From), cmp.Compare(a.placed.Task, b.placed.Task))
		})
		out = append(out, v.settings(oven, loads)...)
	}
	for i := range v.plan.Tasks {
		out = append(out, v.stages(&v.plan.Tasks[i])...)
	}
	return out
}

func (v *view) settings(oven *planner.Oven, loads []load) []store.Reminder {
	var out []store.Reminder
	var hotUntil time.Time
	setting := 0
	var last *planner.Placed
	for _, l := range loads {
		was, free := setting, hotUntil
		setting = v.p.LeftAt(v.tasks[l.placed.Task], l.placed, &l.Held)
		if l.To.After(hotUntil) {
			hotUntil = l.To
		}
		if l.placed == last {
			continue // stages tells that
		}
		last = l.placed
		if was != 0 && l.From.Sub(free) > ovenStaysOn {
			was = 0
		}
		if was == l.C || v.p.Progress(l.placed.Task) != planner.Waiting {
			continue
		}
		takes := oven.Change(was, l.C)
		at := l.From.Add(-takes.Duration())
		if was != 0 && at.Before(free) {
			at = free // the last load is still in
		}
		if at.After(l.From) {
			continue // the plan no longer fits, which is told elsewhere
		}
		t := v.tasks[l.placed.Task]
		who := l.placed.People[0]
		text := fmt.Sprintf("%s to %d °C now.\nIt takes %s. At %s it is wanted: %s.", turn(oven, len(v.p.Kitchen.Ovens), was,
			l.C), l.C,
			words.Length(words.Minutes(l.From.Sub(at))), words.Stamp(l.From, words.Clock, v.zone), v.called(t))
		if d := v.p.Dish(t.Dish); d != nil {
			text += fmt.Sprintf("\nA cold oven would make the %s late.", v.course(d.Course))
		}
		out = append(out, store.Reminder{
			Key: fmt.Sprintf("preheat/%s/%s", l.placed.Task, who), Kind: Preheat, Person: who, Task: l.placed.Task,
			Due: at, At: l.From, Until: l.To, Text: text,
			Buttons: []store.Press{v.press("In 10 minutes", "task snooze", t.Key), v.press("Why?", "task why", t.Key)},
		})
	}
	return out
}

// stages tells of the changes of temperature within a step.
func (v *view) stages(pl *planner.Placed) []store.Reminder {
	t := v.tasks[pl.Task]
	if t == nil || len(pl.People) == 0 {
		return nil
	}
	start := pl.Start
	if w := v.p.WorkOn(pl.Task); w != nil {
		if w.Progress != planner.Waiting && w.Progress != planner.Started {
			return nil
		}
		if w.Start != nil {
			start = *w.Start
		}
	}
	_, s := v.p.StepOf(t)
	if s == nil {
		return nil
	}
	in := &planner.Oven{}
	for _, h := range pl.Uses {
		if h.What == planner.AnOven {
			in.Name = h.Name
			break
		}
	}
	var out []store.Reminder
	for _, u := range s.Uses {
		was := u.C
		for i, stage := range u.Then {
			at := start.Add(stage.After.Duration())
			do := turn(in, len(v.p.Kitchen.Ovens), was, stage.C)
			if stage.C > 0 {
				do += fmt.Sprintf(" to %d °C", stage.C)
			}
			out = append(out, store.Reminder{
				Key: fmt.Sprintf("stage/%s/%d/%s", pl.Task, i+1, pl.People[0]), Kind: Preheat, Person: pl.People[0], Task: pl.Task,
				Due: at, At: at, Until: pl.End,
				Text:    fmt.Sprintf("%s now.\n%s has had its %s at the first heat.", do, v.called(t), words.Length(stage.After)),
				Buttons: []store.Press{v.press("Why?", "task why", t.Key)},
			})
			was = stage.C
		}
	}
	return out
}

// turn says how to change an oven's setting, without the temperature. Only one oven needs no name.
func turn(oven *planner.Oven, ovens, from, to int) string {
	name := "oven"
	if ovens > 1 && oven.Name != "" {
		name = named(oven.Name)
	}
	switch {
	case to == 0:
		return fmt.Sprintf("Turn the %s off", name)
	case from == 0:
		return fmt.Sprintf("Turn the %s on", name)
	case to > from:
		return fmt.Sprintf("Turn the %s up", name)
	}
	return fmt.Sprintf("Turn the %s down", name)
}
