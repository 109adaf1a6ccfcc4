package reminders

import (
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/words"
)

// TestAbout: what a reminder says of a task's length, of who shares it and of how often it wants a hand.
func TestAbout(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(s *planner.Step, pl *planner.Placed)
		want string
	}{
		{"a range", func(*planner.Step, *planner.Placed) {}, "About 45 minutes (35 to 55)."},
		{"no range", func(s *planner.Step, _ *planner.Placed) { s.Time = span(45) }, "About 45 minutes."},
		{"two people", func(_ *planner.Step, pl *planner.Placed) {
			pl.People = []planner.PersonKey{"ada", "ben"}
		}, "Ada and Ben together."},
		{"a hand now and then", func(s *planner.Step, _ *planner.Placed) {
			s.Attention, s.Every = planner.Touch, 2
		}, "About 45 minutes (35 to 55), a hand every 2 minutes."},
		{"a hand seldom, which is said when it is wanted", func(s *planner.Step, _ *planner.Placed) {
			s.Attention, s.Every = planner.Touch, 20
		}, "About 45 minutes (35 to 55)."},
	} {
		p, plan := tart()
		c.do(&p.Dishes[0].Steps[2], plan.Placed("pear-tart/bake"))
		v := see(p, plan)
		got := v.about(v.tasks["pear-tart/bake"], plan.Placed("pear-tart/bake"))
		if !strings.HasSuffix(got, c.want) || !strings.Contains(got, "Pear tart") {
			t.Errorf("%s: %q, want … %q", c.name, got, c.want)
		}
	}
}

// TestAskedFrom: what is asked from its shortest time on says how long it may still take, and where that is over, that
// it should be there.
func TestAskedFrom(t *testing.T) {
	for low, want := range map[planner.Minutes]string{
		35: "It can be from 18:05 on and is likely at 18:15.", 45: "It should be there now.", 50: "It should be there now.",
	} {
		p, plan := tart()
		p.Dishes[0].Steps[2].Time.Low = low
		p.Work = []planner.Work{{Task: "pear-tart/bake", Progress: planner.Started, Start: instantOf(at(17, 30))}}
		found := false
		for _, r := range each(p, plan) {
			found = found || r.Task == "pear-tart/bake" && strings.Contains(words.PlainStamps(r.Text), want)
		}
		if !found {
			t.Errorf("from %d minutes on: nothing says %q", low, want)
		}
	}
}
