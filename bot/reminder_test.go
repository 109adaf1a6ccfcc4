package bot

import (
	"testing"
	"time"

	"tureen/planner"
)

func lisbon(h, m int) time.Time { return time.Date(2026, 9, 26, h-1, m, 0, 0, time.UTC) }

func (tb *table) work(k planner.TaskKey) *planner.Work {
	snap := tb.party()
	return snap.Party.WorkOn(k)
}

func (tb *table) person(k planner.PersonKey) *planner.Person {
	snap := tb.party()
	return snap.Party.Person(k)
}

func TestSnoozeFromTheReminder(t *testing.T) {
	tb := planned(t)
	chop := find(t, tb.later(lisbon(17, 56)), "Chop the pumpkin at 18:00")
	rep := tb.press("Ben", chop, "In 10 minutes")
	wants(t, rep, "I remind you again at 18:06: Chop the pumpkin (Pumpkin soup).")
	if got := tb.later(lisbon(18, 5)); len(got) != 0 {
		t.Errorf("%d came while it was put off: %s", len(got), plain(got[0]))
	}
	find(t, tb.later(lisbon(18, 6)), "Chop the pumpkin at 18:00")
	refusedWith(t, tb.say("Cleo", "/task snooze task:chop"),
		"Ben has it: Chop the pumpkin (Pumpkin soup). There is nothing for you to put off.")
	tb.must("Ben", "/task done task:chop")
	refusedWith(t, tb.say("Ben", "/task snooze task:chop"), "is done already")
}

// The question about a step under way: more time within the plan costs nothing, beyond it the plan follows.
func TestMoreTime(t *testing.T) {
	tb := planned(t)
	tb.later(lisbon(18, 25))
	refusedWith(t, tb.say("Ben", "/task longer task:simmer"), "has not begun yet")
	tb.must("Ben", "/task done task:chop")
	tb.later(lisbon(18, 30))
	tb.must("Ben", "/task start task:simmer")
	ask := find(t, tb.later(lisbon(19, 0)), "Pumpkin soup: soft all through?")
	wants(t, tb.press("Ben", ask, "10 more minutes"), "I ask again at 19:10", "costs nothing")
	if w := tb.work("pumpkin-soup/simmer"); w == nil || w.Extra != 0 {
		t.Errorf("got %+v, want no more time than planned", w)
	}
	ask = find(t, tb.later(lisbon(19, 10)), "Pumpkin soup: soft all through?")
	wants(t, tb.press("Ben", ask, "10 more minutes"), "Until 19:20 then")
	if w := tb.work("pumpkin-soup/simmer"); w == nil || w.Extra != 10 || w.Progress != planner.Started {
		t.Errorf("got %+v, want ten minutes more", w)
	}
	ask = find(t, tb.later(lisbon(19, 20)), "Pumpkin soup: soft all through?")
	wants(t, ask, "It has had 10 minutes more.")
	tb.press("Ben", ask, "Done")
	if w := tb.work("pumpkin-soup/simmer"); w == nil || w.Progress != planner.Done {
		t.Errorf("got %+v, want it done", w)
	}
}

func TestRemindSettings(t *testing.T) {
	tb := planned(t)
	wants(t, tb.must("Ben", "/remind list"), "8 reminders for you to come.\nFri 25 Sep\n20:00 Your Saturday: 2 tasks "+
		"from 18:00.\nSat 26 Sep\n17:55 Chop the pumpkin at 18:00.", "Guests in 30 minutes")
	wants(t, tb.must("Ben", "/remind digest day:2026-09-26"), "Your day: 2 tasks from 18:00",
		"18:30 Simmer until soft")
	wants(t, tb.must("Ben", "/remind digest"), "nothing to do on Mon 14 Sep")
	tb.must("Ben", "/remind quiet hours:17:00-18:10")
	if got := tb.person("ben").Quiet; got != (planner.DayHours{From: 1020, Until: 1090}) {
		t.Errorf("quiet %+v", got)
	}
	refusedWith(t, tb.say("Ben", "/remind quiet hours:17:00-18:10"), "already")
	refusedWith(t, tb.say("Ben", "/remind quiet hours:9:00-10:00, 12:00-13:00"), "one stretch")
	wants(t, tb.must("Ben", "/remind quiet hours:none"), "at any hour")
	wants(t, tb.must("Ben", "/remind direct on:yes"), "direct messages")
	if !tb.person("ben").Direct {
		t.Error("not direct")
	}
	refusedWith(t, tb.say("Ben", "/remind direct on:yes"), "already")
	refusedWith(t, tb.say("Dana", "/remind direct on:yes"), "not change it")
}

func TestRemindAtNight(t *testing.T) {
	tb := planned(t)
	wants(t, tb.must("Ben", "/remind night task:simmer"), "It is yours, and you hear of it at any hour")
	if w := tb.work("pumpkin-soup/simmer"); w == nil || !w.AtNight || w.Person != "ben" {
		t.Errorf("got %+v, want it accepted", w)
	}
	refusedWith(t, tb.say("Cleo", "/remind night task:simmer"), "Ben has it")
	tb.must("Ben", "/remind night task:simmer on:no")
	if w := tb.work("pumpkin-soup/simmer"); w == nil || w.AtNight || w.Person != "ben" {
		t.Errorf("got %+v, want it kept but not at night", w)
	}
}

// Who takes a task that falls into their quiet hours is told so, and can accept it there.
func TestClaimInQuietHours(t *testing.T) {
	tb := planned(t)
	tb.must("Ben", "/remind quiet hours:18:00-9:00")
	wants(t, tb.must("Ben", "/task claim task:simmer"), "It is yours") // at 18:30, when the guests are nearly there
	early := tb.must("Ana", "/remind quiet hours:16:00-17:00", "/task claim task:lay-the-table")
	if len(early.Buttons) != 3 {
		t.Errorf("hands work needs no question: %s", plain(early))
	}
	tb.must("Ana", "/task change task:lay-the-table attention:watch", "/task give-back task:lay-the-table")
	rep := tb.must("Ana", "/task claim task:lay-the-table")
	wants(t, rep, "That is in your quiet hours: you hear of it before or after them.")
	tb.press("Ana", rep, "Tell me at night too")
	if w := tb.work("lay-the-table"); w == nil || !w.AtNight {
		t.Errorf("got %+v, want it accepted", w)
	}
	find(t, tb.later(lisbon(16, 30)), "Lay the table now")
}
