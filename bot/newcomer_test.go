package bot

import (
	"context"
	"strings"
	"testing"
	"time"

	"tureen/bot/talk"
)

// What somebody meets who is new to tureen and tries what does not work.

func TestTaskBoundToThePast(t *testing.T) {
	tb := supper(t) // Monday 14 September, 19:00 in Lisbon
	rep := tb.say("Ana", "/task add name:Night watch time:30 min from:2026-09-14 2:00 by:2026-09-14 4:00")
	refusedWith(t, rep, "Mon 04:00 has passed; it is Mon 19:00 now.")
	if want := "by:2026-09-15 04:00"; !strings.Contains(rep.Next, want) {
		t.Errorf("next %q, want %q", rep.Next, want)
	}
	tb.must("Ana", "/task add name:Night watch time:30 min from:2026-09-14 2:00 by:2026-09-15 4:00")
}

func TestFarAwayDay(t *testing.T) {
	tb := newTable(t)
	refusedWith(t, tb.say("Ana", "/party new name:Far date:9999-12-31 arrive:19:00 covers:8"), "that is 7973 years away")
	rep := tb.must("Ana", "/party new name:Near date:2028-09-26 arrive:19:00 covers:8", "/course add name:Main at:20:15")
	wants(t, rep, "2028")
}

// After somebody is removed, the plan's complaints about what was theirs are one line.
func TestTasksOfTheRemoved(t *testing.T) {
	tb := planned(t)
	tb.must("Ana", "/people remove who:Ben")
	got := plain(tb.must("Ana", "/plan check"))
	if !strings.Contains(got, "2 tasks were Ben's") || strings.Contains(got, "is given to somebody") {
		t.Errorf("got\n%s", got)
	}
}

// A task that has been removed is named by words in what the plan breaks.
func TestRemovedTaskHasWords(t *testing.T) {
	tb := planned(t)
	tb.must("Ana", "/task remove task:lay-the-table")
	got := plain(tb.must("Ana", "/plan check"))
	if !strings.Contains(got, `"Lay the table" is in the plan, but it is no task of the party any more.`) ||
		strings.Contains(got, "chore/") {
		t.Errorf("got\n%s", got)
	}
}

func TestListNamesBoth(t *testing.T) {
	tb := harvest(t)
	tb.must("Ana", "/task add name:Move the table time:10 min hands:2 by:1h before arrival", "/plan make")
	plan := tb.holds()
	for _, pl := range plan.Tasks {
		if len(pl.People) < 2 {
			continue
		}
		want := tb.person(pl.People[0]).Name + " and " + tb.person(pl.People[1]).Name + " in the plan"
		found := false
		for _, line := range strings.Split(plain(tb.must("Ana", "/task list show:all")), "\n") {
			if !strings.Contains(line, "["+string(pl.Task)+"]") {
				continue
			}
			if found = true; !strings.Contains(line, want) {
				t.Errorf("got %q, want %q in it", line, want)
			}
		}
		if !found {
			t.Errorf("%s is not in the list", pl.Task)
		}
		return
	}
	t.Fatal("no task has two people")
}

// Who is none of a party's people neither chooses it nor sees it in the list; who administers the place sees it.
func TestOutsiders(t *testing.T) {
	tb := supper(t)
	refusedWith(t, tb.say("Eve", "/party use party:Harvest supper"), "Only the people of Harvest supper", "ask Ana")
	if rep := tb.say("Eve", "/party use party:Harvest super"); !rep.Refused ||
		strings.Contains(rep.Text, "Harvest supper") {
		t.Errorf("a slip of the keys tells Eve of a party that is not hers: %q", rep.Text)
	}
	if got := plain(tb.must("Eve", "/party list")); strings.Contains(got, "Harvest") ||
		!strings.Contains(got, "You belong to no party here") {
		t.Errorf("Eve sees\n%s", got)
	}
	wants(t, tb.must("Dana", "/party list"), "1 party here", "Harvest supper")
	tb.must("Ana", "/party new name:Winter supper date:2026-12-05 arrive:19:00 covers:4")
	for _, x := range tb.Complete(context.Background(), talk.Request{Community: "test", Channel: "hall",
		User: talk.User{ID: "dana", Name: "Dana"}, Command: "party use"}, "party", "") {
		if strings.Contains(x.Value, "Winter") {
			t.Error("Dana is offered a party that she does not belong to")
		}
	}
	elsewhere := talk.Request{Community: "test", Channel: "hall", User: talk.User{ID: "dana", Name: "Dana"},
		Command: "party show"}
	wants(t, tb.Do(context.Background(), elsewhere), "Harvest supper:")
	admin := tb.Do(context.Background(), talk.Request{Community: "test", Channel: "kitchen",
		User: talk.User{ID: "eve", Name: "Eve", Admin: true}, Command: "party list"})
	wants(t, admin, "Harvest supper")
	tb.must("Eve", "/party new name:Own date:2026-10-03 arrive:19:00 covers:4")
	tb.now = tb.now.Add(time.Minute)
	wants(t, tb.must("Eve", "/party list"), "1 party here", "Own")
}

// Somebody who cooks before and after noon may be added so: the hours hold on each of the party's days.
func TestSplitHours(t *testing.T) {
	tb := supper(t)
	got := plain(tb.must("Ana", "/people add name:Cy role:co-host cooks:10:00-13:00, 18:00-23:00", "/people list"))
	if !strings.Contains(got, "10:00-13:00, 18:00-23:00") && !strings.Contains(got, "10:00-13:00 and 18:00-23:00") {
		t.Error(got)
	}
}
