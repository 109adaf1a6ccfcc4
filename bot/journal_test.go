package bot

import (
	"context"
	"strconv"
	"strings"
	"testing"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
	"tureen/reminders"
	"tureen/store"
)

// wants checks that a reply says something.
func wants(t *testing.T, rep talk.Reply, parts ...string) {
	t.Helper()
	got := plain(rep)
	for _, p := range parts {
		if !strings.Contains(got, p) {
			t.Errorf("got\n%s\nwant it to say %q", got, p)
		}
	}
}

// refusedWith checks that a message was refused, and why.
func refusedWith(t *testing.T, rep talk.Reply, parts ...string) {
	t.Helper()
	if !rep.Refused {
		t.Errorf("accepted: %s", plain(rep))
	}
	wants(t, rep, parts...)
}

func TestUndoByMessage(t *testing.T) {
	tb := supper(t)
	before := tb.serves()
	refusedWith(t, tb.say("Ben", "/undo"), "no change of yours left")
	refusedWith(t, tb.say("Dana", "/undo"), "not change it")
	tb.must("Ben", "/dish change dish:pumpkin-soup serves:12")
	wants(t, tb.must("Ben", "/undo"), "Taken back: ", "Pumpkin soup", "/redo")
	if got := tb.serves(); got != before {
		t.Errorf("serves %d after the undo", got)
	}
	wants(t, tb.must("Ben", "/redo"), "Done again: ")
	if got := tb.serves(); got != 12 {
		t.Errorf("serves %d after the redo, want 12", got)
	}
	refusedWith(t, tb.say("Ben", "/redo"), "nothing that you have just taken back")

	tb.must("Ana", "/dish change dish:pumpkin-soup serves:10")
	refusedWith(t, tb.say("Ben", "/undo"), "This stays", "Ana has ", "/journal change:")
	if got := tb.serves(); got != 10 {
		t.Errorf("serves %d after a refused undo, want 10", got)
	}
}

// serves is how many covers the soup's amounts are for.
func (tb *table) serves() int {
	snap := tb.party()
	return snap.Party.Dish("pumpkin-soup").Serves
}

func TestJournalByMessage(t *testing.T) {
	tb := supper(t)
	tb.must("Ben", "/party change covers:10")
	tb.must("Ben", "/undo")
	tb.must("Cleo", "/task claim task:chop")
	rep := tb.must("Dana", "/journal count:3")
	wants(t, rep, "The latest 3 of ", "Cleo claimed Chop the pumpkin (Pumpkin soup)", "(taken back, ")
	wants(t, tb.must("Ana", "/journal who:Cleo"), "1 change, ")
	last := tb.party().Revision
	entry := tb.must("Ana", "/journal change:"+strconv.FormatInt(last-2, 10))
	wants(t, entry, "Ben ", "covers: 10, was 8", "taken back by change")
	refusedWith(t, tb.say("Ana", "/journal change:9999"), "There is no change 9999")
}

// post takes what is sent by itself.
type post struct{ got []talk.Reply }

func (p *post) Deliver(_ context.Context, n reminders.Note) (string, error) {
	p.got = append(p.got, NoteReply(n))
	return "here/" + n.Key, nil
}

// later moves the clock on and collects what is sent on the way.
func (tb *table) later(to time.Time) []talk.Reply {
	tb.t.Helper()
	p := &post{}
	d := &reminders.Dispatcher{Store: tb.store, Deliverer: p}
	if err := d.Advance(context.Background(), tb.now, to, func(at time.Time) { tb.now = at }); err != nil {
		tb.t.Fatal(err)
	}
	tb.now = to
	return p.got
}

// press says what the button of a label stands for.
func (tb *table) press(who string, rep talk.Reply, label string) talk.Reply {
	tb.t.Helper()
	for _, b := range rep.Buttons {
		if b.Label == label {
			return tb.say(who, "/"+b.Do)
		}
	}
	tb.t.Fatalf("no button %q under %s", label, plain(rep))
	return talk.Reply{}
}

// planned is the supper with a plan put in by hand: Ben chops at 17:00, simmers from 17:30 to 18:10, and
// Ana lays the table at 16:30, all Lisbon time on the Saturday.
func planned(t *testing.T) *table {
	tb := supper(t)
	tb.must("Ana", "/step change step:pumpkin-soup/simmer until:soft all through time:30-50 min")
	snap := tb.party()
	at := func(h, m int) time.Time { return time.Date(2026, 9, 26, h-1, m, 0, 0, time.UTC) }
	place := func(k planner.TaskKey, who planner.PersonKey, from, to time.Time) planner.Placed {
		return planner.Placed{Task: k, Start: from, End: to, People: []planner.PersonKey{who}}
	}
	plan := &planner.Plan{Made: tb.now, Revision: snap.Revision + 1, Tasks: []planner.Placed{
		place("lay-the-table", "ana", at(16, 30), at(16, 55)),
		place("pumpkin-soup/chop", "ben", at(18, 0), at(18, 25)),
		place("pumpkin-soup/simmer", "ben", at(18, 30), at(19, 10)),
	}, Served: []planner.Served{{Course: "starter", At: at(19, 30)}, {Course: "main", At: at(20, 15)}}}
	_, err := tb.store.Save(context.Background(), "test",
		store.Change{Base: snap.Revision, Actor: store.Actor{ID: "ana", Name: "Ana"}, At: tb.now, What: "planned",
			Party: snap.Party, Plan: plan, Reminders: reminders.For(&snap.Party, plan)})
	if err != nil {
		t.Fatal(err)
	}
	return tb
}

// first is the first line of a reply, without stamps.
func first(rep talk.Reply) string {
	line, _, _ := strings.Cut(words.PlainStamps(rep.Text), "\n")
	return line
}

// find picks the reply that begins so.
func find(t *testing.T, got []talk.Reply, begins string) talk.Reply {
	t.Helper()
	var all []string
	for _, r := range got {
		if strings.HasPrefix(first(r), begins) {
			return r
		}
		all = append(all, first(r))
	}
	t.Fatalf("nothing begins with %q among %q", begins, all)
	return talk.Reply{}
}
