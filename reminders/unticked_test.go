package reminders

import (
	"slices"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// TestUntickedOnce: what nobody ticked off is asked about with the next task of who had it, by one button, and by no
// later one; what others have not ticked off the host is asked about before the guests come; with a tick both are gone.
func TestUntickedOnce(t *testing.T) {
	p, plan := dayOf(4)
	asks := func(kind store.ReminderKind) (out []string) {
		for _, r := range byKind(each(p, plan), kind) {
			for line := range strings.Lines(r.Text) {
				if line = strings.TrimSpace(words.PlainStamps(line)); strings.HasPrefix(line, "Not ticked off") ||
					strings.HasPrefix(line, "Done, though") {
					out = append(out, string(r.Task)+" "+line)
					if !slices.ContainsFunc(r.Buttons, func(b store.Press) bool { return b.Label == "All done to here" }) {
						t.Errorf("%s has no button for it", r.Key)
					}
				}
			}
		}
		return out
	}
	expect(t, asks(Due), "chore-01 Not ticked off: number 1.", "chore-02 Not ticked off: number 2.",
		"chore-03 Not ticked off: number 3.")
	end := plan.Tasks[1].End
	p.Work = []planner.Work{{Task: "chore-01", Person: "ada", Progress: planner.Done, End: &end}}
	expect(t, asks(Due), "chore-03 Not ticked off: number 3.")
	if got := asks(Unticked); len(got) != 0 {
		t.Errorf("the host is asked about her own: %q", got)
	}
	for i := range plan.Tasks {
		plan.Tasks[i].People = []planner.PersonKey{"ben"}
	}
	expect(t, asks(Unticked), " Done, though not ticked off? 3 tasks.")
}

// TestFallenDish: that a dish is off the plan is told to hosts and to who has worked on it, once however often the rest
// is planned anew, and where its course is announced.
func TestFallenDish(t *testing.T) {
	p, plan := tart()
	begun := at(10, 0)
	p.Work = []planner.Work{{Task: "pear-tart/rub", Person: "ben", Progress: planner.Started, Start: &begun}}
	plan.Soft, plan.Without = true, []planner.LeftOut{{Dish: "pear-tart", Why: "It stood too long."}}
	plan.Tasks, plan.Made = nil, at(18, 0)
	got := byKind(each(p, plan), Fallen)
	expect(t, told(got), "Sat 18:00|ada|fallen||Off the plan: pear tart.",
		"Sat 18:00|ben|fallen||Off the plan: pear tart.")
	before := got[0]
	plan.Made = at(18, 40)
	if after := byKind(each(p, plan), Fallen)[0]; after.Key != before.Key || !after.At.Equal(before.At) {
		t.Errorf("it would be told again: %+v, was %+v", after, before)
	}
}
