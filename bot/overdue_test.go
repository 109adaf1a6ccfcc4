package bot

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
)

// TestForgottenTask: a task with hands that somebody started and never ticked off is asked about once, and counts as
// done at its likely end when another begins, or long after.
func TestForgottenTask(t *testing.T) {
	tb := planned(t)
	tb.now = lisbon(16, 30)
	tb.must("Ana", "/task start task:lay-the-table")
	w := tb.work("lay-the-table")
	snap := tb.party()
	length := taskOf(&snap.Party, "lay-the-table").Length(1)
	likely := w.Start.Add(length.Duration())
	ask := find(t, tb.later(lisbon(17, 15)), "Still at it? ")
	var labels []string
	for _, b := range ask.Buttons[:2] {
		labels = append(labels, b.Label)
	}
	if got := strings.Join(labels, ", "); got != "Done, 10 more minutes" {
		t.Errorf("buttons %s", got)
	}
	if got := tb.later(lisbon(17, 30)); len(got) > 0 && strings.HasPrefix(first(got[0]), "Still at it?") {
		t.Error("it is asked twice")
	}
	tb.now = likely.Add(2*length.Duration() + 30*time.Minute)
	const said = "Taken as done at its likely end, since nobody ticked it off"
	wants(t, tb.must("Ben", "/plan check"), said, "Lay the table")
	if w := tb.work("lay-the-table"); w.Progress != planner.Started {
		t.Error("looking has changed what people said")
	}
	wants(t, tb.must("Ben", "/task claim task:chop"), said)
	if w := tb.work("lay-the-table"); w.Progress != planner.Done || !w.End.Equal(likely) {
		t.Errorf("got %+v, want it done at %v", w, likely)
	}
	if got := plain(tb.must("Ben", "/plan check")); strings.Contains(got, said) {
		t.Errorf("said again:\n%s", got)
	}
}

// Whoever ticks a forgotten task off much later did not work on it all the while, nor does beginning another say so.
func TestForgottenTaskTickedLate(t *testing.T) {
	tb := planned(t)
	tb.now = lisbon(14, 0)
	tb.must("Ana", "/task start task:lay-the-table")
	began := tb.now
	tb.now = lisbon(18, 0)
	wants(t, tb.must("Ana", "/task done task:lay-the-table"), "its likely end; say at: if it was another time")
	if w := tb.work("lay-the-table"); w.End.Sub(began) > time.Hour {
		t.Errorf("it took %v", w.End.Sub(began))
	}
	tb.must("Ana", "/undo")
	tb.must("Ana", "/task start task:chop")
	if w := tb.work("lay-the-table"); w.Progress != planner.Done || w.End.Sub(began) > time.Hour {
		t.Errorf("got %+v, want it done at its likely end", w)
	}
}

// TestOneTickOnTheDay: one task that is ticked off late brings nothing back that should have been over; what comes
// after it is not taken as done before it.
func TestOneTickOnTheDay(t *testing.T) {
	tb := harvest(t)
	tb.now = lisbonSaturday(19, 15)
	before := tb.holds()
	rep := tb.must("Ben", "/task done task:rosemary-roast-potatoes/peel")
	wants(t, rep, "Taken as done or going on")
	after := tb.holds()
	d := tb.party()
	next := map[planner.TaskKey]bool{}
	for _, s := range d.Party.Dish("rosemary-roast-potatoes").Steps {
		next[planner.StepTask("rosemary-roast-potatoes", s.Key, 1)] = true
	}
	past := 0
	for _, was := range before.Tasks {
		if was.End.After(tb.now) || next[was.Task] {
			continue
		}
		past++
		if is := after.Placed(was.Task); is == nil || is.End.After(tb.now) {
			t.Errorf("%s comes again: it was over at %v", was.Task, was.End)
		}
	}
	if past < 3 {
		t.Fatalf("only %d tasks were past", past)
	}
}
