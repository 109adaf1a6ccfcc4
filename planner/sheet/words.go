package sheet

import (
	"fmt"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// called is a task with what it belongs to: "Bake the shell (pear tart)".
func (v *view) called(t *planner.Task) string {
	return v.calledBy(t, words.Brief(clean(t.Do), longName))
}

// longName is how long a task's name may be where the rest of its own text can be looked up.
const longName = 64

// inFull is a task as called has it, with all of its own text: where somebody is about to do it.
func (v *view) inFull(t *planner.Task) string { return v.calledBy(t, trimStop(t.Do)) }

func (v *view) calledBy(t *planner.Task, do string) string {
	if do == "" {
		do = string(t.Key)
	}
	var of []string
	if d := v.p.Dish(t.Dish); d != nil {
		of = append(of, clean(d.Name))
	}
	if t.Rounds > 1 {
		of = append(of, fmt.Sprintf("round %d of %d", t.Round, t.Rounds))
	}
	if len(of) == 0 {
		return do
	}
	return do + " (" + strings.Join(of, ", ") + ")"
}

func (v *view) name(k planner.PersonKey) string {
	if x := v.p.Person(k); x != nil {
		return clean(x.Name)
	}
	return "somebody who has left"
}

// people names who does a task: "Ana", "Ana and Ben", "" for nobody.
func (v *view) people(pl *planner.Placed) string {
	var names []string
	for _, k := range pl.People {
		names = append(names, v.name(k))
	}
	return words.And(names)
}

// length is a length of time where there is little space: "20 min", "1 h 20 min", "2 days".
func length(d time.Duration) string { return words.Short(words.Minutes(d)) }

// outOf says where food comes from after a wait in the cold: "out of the refrigerator".
func outOf(w *planner.Wait) string {
	switch w.State {
	case planner.Refrigerator, planner.Freezer:
		return "out of the " + string(w.State)
	}
	return ""
}

// course is a course's name.
func (v *view) course(k planner.CourseKey) string {
	if c := v.p.Course(k); c != nil && c.Name != "" {
		return clean(c.Name)
	}
	return string(k)
}

// mark says how far a task has come, as a tail to its line.
func (v *view) mark(k planner.TaskKey) string {
	switch v.p.Progress(k) {
	case planner.Started:
		return " (going on)"
	case planner.Done:
		return " (done)"
	case planner.Skipped:
		return " (skipped)"
	}
	return ""
}
