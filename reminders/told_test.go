package reminders

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// of counts the reminders of a person about a task.
func of(list []store.Reminder, who planner.PersonKey, k planner.TaskKey) (n int) {
	for _, r := range list {
		if r.Person == who && r.Task == k {
			n++
		}
	}
	return n
}

// TestNobodyIsRemindedOfADraft: what a co-host has not taken on is the host's to hear of, before everybody is
// told and after; what they have taken on is theirs.
func TestNobodyIsRemindedOfADraft(t *testing.T) {
	p, plan := tart()
	if n := of(each(p, plan), "ben", "cream"); n == 0 {
		t.Fatal("where nobody is asked, Ben hears of what is planned for him")
	}
	told := at(9, 0).Add(-72 * time.Hour)
	for _, draft := range []bool{true, false} {
		p, plan := tart()
		plan.Draft = draft
		if !draft {
			plan.Told = &told
		}
		all := each(p, plan)
		if of(all, "ben", "cream") > 0 || of(all, "ben", "pear-tart/bake") > 0 {
			t.Errorf("draft %v: Ben is reminded of what he has not taken on", draft)
		}
		i := slices.IndexFunc(all, func(r store.Reminder) bool { return r.Person == "ada" && r.Task == "cream" })
		if i < 0 || !strings.Contains(all[i].Text, "Meant for Ben, who has not said yes.") {
			t.Errorf("draft %v: the host does not hear of it", draft)
		}
		if of(all, "ada", "pear-tart/rub") == 0 {
			t.Errorf("draft %v: a host is not reminded of her own", draft)
		}
		p.Work = []planner.Work{{Task: "cream", Person: "ben"}}
		if all = each(p, plan); of(all, "ben", "cream") == 0 || of(all, "ada", "cream") > 0 ||
			of(all, "ben", "pear-tart/bake") > 0 {
			t.Errorf("draft %v: Ben has taken on the cream, and that alone", draft)
		}
	}
}

// TestTold: each is asked once for each telling, with what is theirs; the host hears two days before who has
// not said so.
func TestTold(t *testing.T) {
	p, plan := tart()
	told := at(9, 0).Add(-96 * time.Hour)
	kinds := func(k store.ReminderKind) (out []store.Reminder) {
		for _, r := range each(p, plan) {
			if r.Kind == k {
				out = append(out, r)
			}
		}
		return out
	}
	plan.Draft = true
	if n := len(kinds(Told)) + len(kinds(Unsaid)); n > 0 {
		t.Errorf("a draft asks %d times", n)
	}
	plan.Draft, plan.Told = false, &told
	asked, unsaid := kinds(Told), kinds(Unsaid)
	if len(asked) != 1 || asked[0].Person != "ben" || !asked[0].Due.Equal(told) || len(asked[0].Buttons) != 3 ||
		!strings.Contains(asked[0].Text, "buy cream") || !strings.Contains(asked[0].Text, "Pear tart") {
		t.Errorf("asked %+v", asked)
	}
	if len(unsaid) != 1 || unsaid[0].Person != "ada" || !unsaid[0].Due.After(told) ||
		unsaid[0].Due.After(p.Day().Add(-24*time.Hour)) {
		t.Errorf("the host hears %+v", unsaid)
	}
	first := asked[0].Key
	later := told.Add(time.Hour)
	if plan.Told = &later; kinds(Told)[0].Key == first {
		t.Error("who is asked again hears nothing of it")
	}
	for _, pl := range plan.Tasks {
		if pl.People[0] == "ben" {
			p.Work = append(p.Work, planner.Work{Task: pl.Task, Person: "ben"})
		}
	}
	if n := len(kinds(Told)) + len(kinds(Unsaid)); n > 0 {
		t.Errorf("everything is agreed, and %d messages ask", n)
	}
}

// TestAccepted: who is to help with a task helps once they have taken on anything, hosts in any case; a task that
// nobody has taken on is the first host's, who is named once. So it is for what was told before the party's day.
func TestAccepted(t *testing.T) {
	asked := at(9, 0).Add(-96 * time.Hour)
	for _, c := range []struct {
		people string
		work   []planner.Work
		want   string
	}{
		{"ada ben", nil, "ada"}, {"ada ben", []planner.Work{{Task: "cream", Person: "ben"}}, "ada ben"},
		{"ada cleo ben", []planner.Work{{Task: "cream", Person: "ben"}}, "ada ben"}, {"ben ada", nil, "ada"},
		{"ben cleo", nil, "ada"}, {"ben cleo", []planner.Work{{Task: "cream", Person: "cleo"}}, "ada cleo"},
		{"ben ada", []planner.Work{{Task: "pear-tart/roll", Person: "ben"}}, "ben ada"}, {"ada gone", nil, "ada"},
		{"ben", nil, "ada"}, {"ada", nil, "ada"}, {"", nil, ""},
	} {
		p, plan := tart()
		p.People = append(p.People, planner.Person{Key: "cleo", Name: "Cleo", Role: planner.CoHost})
		plan.Told, p.Work = &asked, c.work
		pl := plan.Placed("pear-tart/roll")
		pl.People = nil
		for k := range strings.FieldsSeq(c.people) {
			pl.People = append(pl.People, planner.PersonKey(k))
		}
		var got []string
		for _, k := range accepted(p, plan).Placed("pear-tart/roll").People {
			got = append(got, string(k))
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%q with %+v: %q, want %q", c.people, c.work, got, c.want)
		}
	}
}

// TestLateTold: the host hears at the end of the second day before the party's, or three hours after the others were
// told if that is later, in the morning, and not when the guests are there.
func TestLateTold(t *testing.T) {
	for _, c := range []struct{ told, at, due time.Time }{
		{at(-60, 0), at(-48, 0), at(-40, 0)}, {at(-51, 0), at(-48, 0), at(-40, 0)}, {at(-50, 0), at(-47, 0), at(-40, 0)},
		{at(-30, 0), at(-27, 0), at(-27, 0)}, {at(-1, 0), at(2, 0), at(8, 0)},
	} {
		p, plan := tart()
		plan.Told = &c.told
		list := byKind(each(p, plan), Unsaid)
		if len(list) != 1 || !list[0].At.Equal(c.at) || !list[0].Due.Equal(c.due) {
			t.Errorf("told at %v: %+v, want it for %v at %v", c.told, list, c.at, c.due)
		}
	}
}

// TestPartOf: what somebody has is told a line a session, in quarters of an hour from where its work begins to where
// hands are last in it; each dish once, a chore by what is done.
func TestPartOf(t *testing.T) {
	p, plan := tart()
	all := func() (out []*planner.Placed) {
		for i := range plan.Tasks {
			out = append(out, &plan.Tasks[i])
		}
		return out
	}
	for who, want := range map[planner.PersonKey]string{
		"ada": "Sat 10:00-16:20: Pear tart",
		"ben": "Sat 11:00-17:30: buy cream and Pear tart", "zoe": "",
	} {
		if got := words.PlainStamps(strings.Join(PartOf(p, plan, who, all()), "; ")); got != want {
			t.Errorf("%s: %q, want %q", who, got, want)
		}
	}
	rub := plan.Placed("pear-tart/rub")
	rub.Start, rub.End = at(10, 7), at(10, 27)
	if got := words.PlainStamps(PartOf(p, plan, "ada", []*planner.Placed{rub})[0]); got != "Sat 10:00-10:30: Pear tart" {
		t.Errorf("off the quarters of an hour: %q", got)
	}
	if got := PartOf(p, plan, "ada", all()[1:2]); len(got) != 0 {
		t.Errorf("another's task is Ada's: %q", got)
	}
}

// TestToldToday: what is told on the party's day is theirs unless they say no: nobody is asked whether it is fine, and
// no host hears that nobody has said so. Hosts, and who has taken on all of theirs, hear nothing.
func TestToldToday(t *testing.T) {
	p, plan := tart()
	told := p.Day().Add(time.Hour)
	plan.Told = &told
	list := byKind(each(p, plan), Told)
	if len(list) != 1 || list[0].Person != "ben" || len(list[0].Buttons) != 1 || !list[0].Due.Equal(told) ||
		!strings.HasPrefix(list[0].Text, "Your part in Autumn supper today:\n") {
		t.Errorf("%+v", list)
	}
	p.Work = []planner.Work{{Task: "cream", Person: "ben"}, {Task: "pear-tart/bake", Progress: planner.Started}}
	if list := append(byKind(each(p, plan), Told), byKind(each(p, plan), Unsaid)...); len(list) != 0 {
		t.Errorf("%+v", list)
	}
}
