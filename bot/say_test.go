package bot

import (
	"context"
	"strings"
	"testing"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
)

// told has somebody say something in words of their own.
func (tb *table) told(who, text string, answers ...string) talk.Reply {
	return tb.Say(context.Background(), talk.Request{Community: "test", Channel: "kitchen",
		User: talk.User{ID: planner.Key(who), Name: who}, Options: map[string]string{}}, text, answers...)
}

// pressed presses a button as a face does.
func (tb *table) pressed(who string, rep talk.Reply, label string) talk.Reply {
	tb.t.Helper()
	for _, b := range rep.Buttons {
		if b.Label == label {
			line, err := tb.Parse("/" + b.Do)
			if err != nil {
				tb.t.Fatalf("%s: %v", b.Do, err)
			}
			return tb.Do(context.Background(), talk.Request{Community: "test", Channel: "kitchen", AsOf: line.AsOf,
				User: talk.User{ID: planner.Key(who), Name: who}, Command: line.Command, Options: line.Options, Pressed: true})
		}
	}
	tb.t.Fatalf("no button %q under %s", label, plain(rep))
	return talk.Reply{}
}

// TestSayAsks: what changes the party is said in words and asked; a Yes that has been overtaken asks anew; No changes
// nothing; and who has pressed can take it back by one more press.
func TestSayAsks(t *testing.T) {
	tb := planned(t)
	rep := tb.told("Ana", "We are ten now, please")
	wants(t, rep, "You are 10, not 8?", "[Yes]", "[No]")
	if got := tb.party().Party.Covers; got != 8 {
		t.Fatalf("%d covers before anybody said yes", got)
	}
	wants(t, tb.pressed("Ana", rep, "No"), "Nothing is changed.")
	done := tb.pressed("Ana", rep, "Yes")
	if got := tb.party().Party.Covers; got != 10 {
		t.Fatalf("%d covers after yes: %s", got, plain(done))
	}
	// A second press, or one by somebody else after it, sees that things have changed.
	again := tb.pressed("Ana", rep, "Yes")
	wants(t, again, "Not done yet, since the party has changed meanwhile", "Do it all the same: /party change", "[Yes]")
	wants(t, tb.pressed("Ana", done, "Undo"), "Taken back")
	if got := tb.party().Party.Covers; got != 8 {
		t.Errorf("%d covers after undo", got)
	}
	wants(t, tb.pressed("Ana", done, "Undo"), "Not done yet, since the party has changed meanwhile")
	// The same in words.
	tb.told("Ana", "table of 12")
	tb.told("Ana", "no")
	tb.told("Ana", "yes")
	if got := tb.party().Party.Covers; got != 8 {
		t.Errorf("%d covers after a no", got)
	}
	tb.told("Ana", "table of 12")
	tb.told("Ana", "yes")
	if got := tb.party().Party.Covers; got != 12 {
		t.Errorf("%d covers after yes", got)
	}
}

// TestBareWordsDestroyNothing: what was a command without its slash is plain words now.
func TestBareWordsDestroyNothing(t *testing.T) {
	tb := planned(t)
	before := tb.party().Revision
	for _, text := range []string{"undo", "party remove sure:yes", "redo", "people remove who:Ben",
		"dish remove dish:pumpkin-soup",
		"delete the party", "skip the soup",
		"Now I begin to cut the onions for the salad", "", "?", "@", "\"undo\""} {
		tb.told("Ana", text)
	}
	if after := tb.party().Revision; after != before {
		t.Errorf("something was done: revision %d, was %d", after, before)
	}
	wants(t, tb.told("Ana", "party remove sure:yes"), "a slash before it", "Type: /party remove sure:yes")
	if rep := tb.told("Zoe", "we are ten"); !rep.Refused {
		t.Errorf("a stranger is asked: %s", plain(rep))
	}
	if rep := tb.told("Ana", "/dish list"); rep.Refused || !strings.Contains(plain(rep), "umpkin soup") {
		t.Errorf("a slash makes a command: %s", plain(rep))
	}
	if rep := tb.told("Ana", "thanks!"); rep.Text != "" {
		t.Errorf("small talk is answered: %s", plain(rep))
	}
}

// TestAnswersNeedNoName: "done" and "not yet" are about the message just before, a reminder or a reply; where nothing
// was said, or two things at once, nothing is ticked.
func TestAnswersNeedNoName(t *testing.T) {
	tb := planned(t)
	tb.now = lisbon(16, 0)
	if rep := tb.told("Ana", "done"); tb.work("lay-the-table") != nil {
		t.Errorf("nothing was said before: %s", plain(rep))
	}
	find(t, tb.later(lisbon(16, 26)), "Lay the table")
	wants(t, tb.told("Ana", "not yet"), "I remind you again at 16:36")
	wants(t, tb.told("Ana", "I'm starting now"), "Started: Lay the table", "[Undo]")
	tb.now = lisbon(16, 45)
	rep := tb.told("Ana", "done")
	wants(t, rep, "Done: Lay the table", "[Undo]")
	tb.pressed("Ana", rep, "Undo")
	if w := tb.work("lay-the-table"); w.Progress != planner.Started {
		t.Errorf("after undo: %+v", w)
	}
	// Somebody else's tick is asked about; an answer to a message is about that message.
	wants(t, tb.told("Ben", "the table is laid"), "Lay the table (Ana has it) is ticked off?", "[Yes]")
	wants(t, tb.told("Ana", "done", "task start task:lay-the-table party:1", "task done task:lay-the-table party:1",
		"task snooze task:lay-the-table party:1"), "Done: Lay the table")
}

// TestShorterIsTaughtOnce: a long sentence is answered with a shorter one, until that was used.
func TestShorterIsTaughtOnce(t *testing.T) {
	tb := planned(t)
	wants(t, tb.told("Ana", "Could you tell me please what I should be doing now?"), "Shorter next time: now.")
	tb.told("Ana", "now")
	if rep := tb.told("Ana", "What should I be doing now, please?"); strings.Contains(rep.Text, "Shorter") {
		t.Errorf("taught again: %s", plain(rep))
	}
}

// TestSaidOfAGuestStaysPrivate: what a guest does not eat stands neither in the question nor in what is offered.
func TestSaidOfAGuestStaysPrivate(t *testing.T) {
	tb := planned(t)
	tb.must("Ana", "/guest add name:Iris allergies:milk")
	rep := tb.told("Ana", "Iris is vegan, I forgot to say")
	if got := rep.Text; strings.Contains(got, "vegan") || strings.Contains(got, "milk") || len(rep.Buttons) != 2 {
		t.Errorf("got %s", plain(rep))
	}
	if done := tb.pressed("Ana", rep, "Yes"); !done.Private {
		t.Errorf("the channel sees it: %s", plain(done))
	}
	tb.pressed("Ana", tb.told("Ana", "Iris is allergic to nuts"), "Yes")
	all := tb.party().Party.Guests
	if g := all[len(all)-1]; strings.Join(g.Allergies, ",") != "milk,nuts" || len(g.Diets) != 1 {
		t.Errorf("got %+v", g)
	}
}

// TestWeighedTick: what cooks is not done before its shortest time without a question; hands are; and what was only
// taken as done is noted when it is ticked.
func TestWeighedTick(t *testing.T) {
	tb := planned(t)
	tb.now = lisbon(18, 30)
	tb.must("Ben", "/task start task:simmer")
	tb.now = lisbon(18, 50)
	early := tb.say("Ben", "/task done task:simmer")
	wants(t, early, "20 of 30 minutes: really done, or only started?", "[Really done]", "[Not yet]")
	if w := tb.work("pumpkin-soup/simmer"); w.Progress != planner.Started {
		t.Fatalf("ticked all the same: %+v", w)
	}
	tb.pressed("Ben", early, "Really done")
	if w := tb.work("pumpkin-soup/simmer"); w.Progress != planner.Done {
		t.Fatalf("not ticked: %+v", w)
	}
	tb.must("Ben", "/undo")
	tb.now = lisbon(19, 1)
	wants(t, tb.say("Ben", "/task done task:simmer"), "Done: Simmer")
	// Before it was begun at all.
	tb = planned(t)
	tb.now = lisbon(17, 0)
	early = tb.say("Ben", "/task done task:simmer")
	wants(t, early, "is planned for Sat 18:30 only", "[Only started]", "[Really done]")
	tb.pressed("Ben", early, "Only started")
	if w := tb.work("pumpkin-soup/simmer"); w.Progress != planner.Started {
		t.Errorf("got %+v", w)
	}
	tb = planned(t)
	tb.now = lisbon(16, 31)
	wants(t, tb.say("Ana", "/task done task:lay-the-table"), "Done: Lay the table") // hands may be quick
}

// TestNotedNotRefused: a tick of what was taken as done is noted.
func TestNotedNotRefused(t *testing.T) {
	tb := planned(t)
	tb.now = lisbon(18, 40)
	tb.must("Ben", "/task start task:simmer") // which says that the pumpkin is chopped
	if w := tb.work("pumpkin-soup/chop"); !w.Assumed {
		t.Fatalf("got %+v", w)
	}
	wants(t, tb.say("Ben", "/task done task:chop"), "Noted: Chop")
	if w := tb.work("pumpkin-soup/chop"); w.Assumed || w.Progress != planner.Done {
		t.Errorf("got %+v", w)
	}
	if rep := tb.say("Ben", "/task done task:chop"); !rep.Refused {
		t.Errorf("twice: %s", plain(rep))
	}
}

// TestBurntIsMadeAgain: what burnt is to be done again with all that it was made of.
func TestBurntIsMadeAgain(t *testing.T) {
	tb := planned(t)
	tb.now = lisbon(18, 30)
	tb.must("Ben", "/task start task:simmer")
	tb.now = lisbon(18, 45)
	rep := tb.told("Ben", "damn, the soup is burnt")
	wants(t, rep, "is to be done again?", "[Yes]")
	wants(t, tb.pressed("Ben", rep, "Yes"), "To be done again: Simmer", "[Undo]")
	for _, k := range []planner.TaskKey{"pumpkin-soup/chop", "pumpkin-soup/simmer"} {
		if w := tb.work(k); w != nil && w.Progress != planner.Waiting {
			t.Errorf("%s: %+v", k, w)
		}
	}
}

// TestForgottenDays: on the days before the party nothing that should be over moves or changes hands for want of a
// tick; one press says that all of it is done.
func TestForgottenDays(t *testing.T) {
	tb := harvest(t)
	before := tb.holds()
	var last time.Time
	past := map[planner.TaskKey]planner.Placed{}
	snap := tb.party()
	for _, pl := range before.Tasks {
		if c := snap.Party.Chore(taskOf(&snap.Party, pl.Task).Chore); c != nil && c.Kind == planner.Shop {
			continue // what nobody bought is no dinner
		}
		if pl.End.Before(snap.Party.Day()) {
			past[pl.Task] = pl
			if pl.End.After(last) {
				last = pl.End
			}
		}
	}
	if len(past) < 3 {
		t.Fatalf("only %d tasks before the day", len(past))
	}
	tb.now = last.Add(time.Hour)
	if !tb.now.Before(snap.Party.Day()) {
		t.Skip("the last of them ends at midnight")
	}
	tb.must("Ana", "/late task:roast-chicken-with-lemon-and/roast by:10")
	after := tb.holds()
	for k, was := range past {
		is := after.Placed(k)
		if is == nil || !is.Start.Equal(was.Start) || len(is.People) > 0 && is.People[0] != was.People[0] {
			t.Errorf("%s has moved: %+v, was %+v", k, is, was)
		}
	}
	tb = harvest(t)
	tb.now = last.Add(time.Hour)
	wants(t, tb.must("Ana", "/task caught-up who:everybody"), "Done as planned: ")
	for k := range past {
		if w := tb.work(k); w == nil || w.Progress != planner.Done || w.Assumed {
			if task := taskOf(&snap.Party, k); snap.Party.Chore(task.Chore) == nil ||
				snap.Party.Chore(task.Chore).Kind != planner.Cool {
				t.Errorf("%s: %+v", k, w)
			}
		}
	}
}

// TestSayIsItFine: who was asked whether their part in a plan is fine answers in words of their own.
func TestSayIsItFine(t *testing.T) {
	for _, text := range []string{"fine with me", "ok", "yes", "that's fine", "I can do that"} {
		tb := newTable(t)
		tb.must("Ana", `/party new name:Harvest supper date:2026-09-26 arrive:19:00 covers:8 zone:Europe/Lisbon `+
			`courses:starter 19:30, main 20:30`, "/people add name:Ben cooks:9:00-22:00 can:all day",
			"/repertoire add dish:prawns", "/repertoire add dish:Courgette and ricotta lasagne", "/plan make", "/plan tell")
		wants(t, tb.told("Ben", text, "plan answer says:fine", "plan answer says:not me"), "Good: it stays as it is")
	}
}

// TestSayWhenICan: when somebody can cook is said in plain words, and asked as the command takes it.
func TestSayWhenICan(t *testing.T) {
	tb := planned(t)
	for text, kept := range map[string]string{"I can cook on weekday evenings": "weekday evenings",
		"I can cook on Friday from 16:00 to 20:00": "friday from 16:00 to 20:00",
		"Ben can help on Friday evening":           "friday from 18:00 to 21:30"} {
		rep := tb.told("Ana", text)
		wants(t, rep, "can cook before the guests come is then: "+kept+"?", "[Yes]")
		if done := tb.pressed("Ana", rep, "Yes"); done.Refused {
			t.Errorf("%s: %s", text, plain(done))
		}
	}
}
