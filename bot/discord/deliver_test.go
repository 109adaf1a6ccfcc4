package discord

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"tureen/bot/discord/standin"
	"tureen/planner"
	"tureen/planner/words"
	"tureen/reminders"
	"tureen/store"
)

// note is a reminder to Ben.
func (h *house) note(direct bool) reminders.Note {
	at := wednesday.Add(time.Hour)
	return reminders.Note{Key: "r1.0", Community: store.Community(h.guild), Channel: h.channel, Party: 1,
		PartyName: "Supper",
		Person:    &planner.Person{Name: "Ben", Chat: h.person("Ben").ID, Direct: direct},
		Text: "Cut the *roots* at " + words.Stamp(at, words.Clock, time.UTC) + ".\nThey go in at " +
			words.Stamp(at, words.Clock, time.UTC) + ".",
		Buttons: []store.Press{{Label: "Started", Do: "task start task:roast-roots/cut party:1"}}}
}

// TestDeliver: reminders go the way that a person prefers, and another one when that is shut.
func TestDeliver(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	ben := h.person("Ben")
	direct := ben.InDirect()
	ctx := context.Background()
	deliver := func(n reminders.Note) {
		t.Helper()
		if _, err := h.face.Deliver(ctx, n); err != nil {
			t.Fatal(err)
		}
	}
	deliver(h.note(true))
	list := direct.Messages()
	if len(list) != 1 || list[0].Content != `Cut the \*roots\* at 11:00.`+"\nThey go in at <t:1788346800:t>." {
		t.Fatalf("by direct message: got %+v", list)
	}
	if b := list[0].Buttons(); len(b) != 2 || b[1].URL != placeURL(h.guild, h.channel) {
		t.Errorf("buttons: got %+v, want a way to the party's channel too", b)
	}
	deliver(h.note(true)) // the same key again: the nonce keeps it single
	if n := len(direct.Messages()); n != 1 {
		t.Errorf("%d messages, want 1", n)
	}

	n := h.note(false)
	n.Key = "r2.0"
	deliver(n)
	list = ben.Messages()
	if len(list) != 1 || !strings.HasPrefix(list[0].Content, "<@"+ben.ID+`> Cut the \*roots\* at 11:00.`) ||
		len(list[0].Mentions) != 1 {
		t.Fatalf("in the channel: got %+v", list)
	}

	ben.CloseMessages(true) // 50007
	n = h.note(true)
	n.Key = "r3.0"
	deliver(n)
	if list := ben.Messages(); len(list) != 2 || len(list[1].Mentions) != 1 {
		t.Errorf("with messages closed: got %+v", list)
	}
	ben.CloseMessages(false)

	h.server.DeleteChannel(h.channel)
	n = h.note(false)
	n.Key = "r4.0"
	deliver(n)
	if len(direct.Messages()) != 2 {
		t.Error("with the channel gone, nothing came by direct message")
	}
	n = h.note(false)
	n.Key, n.Person = "r5.0", nil
	if _, err := h.face.Deliver(ctx, n); !errors.Is(err, reminders.ErrNotSent) {
		t.Errorf("for everybody, with the channel gone: got %v, want to be tried again", err)
	}
	n.Channel = "console"
	if _, err := h.face.Deliver(ctx, n); !errors.Is(err, reminders.ErrUndeliverable) {
		t.Errorf("without any way: got %v", err)
	}
	n = h.note(false)
	n.Person.Chat = "ben" // known by name only
	n.Key, n.Channel = "r6.0", h.server.Channel(h.guild)
	deliver(n)
}

// TestDeliverOnce: what may have arrived is looked for by its key, which outlives the platform's memory of
// the nonce.
func TestDeliverOnce(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.server.NonceLife = time.Nanosecond
	direct := h.person("Ben").InDirect()
	n := h.note(true)
	ctx := context.Background()
	h.server.Break(standin.Fault{Method: "POST", Route: messageRoute, Status: 0, After: true, Times: 1})
	// The message is made and the connection breaks; the guard's repetition meets a nonce that was forgotten,
	// so that here, and only here, it comes twice.
	h.server.NonceLife = time.Minute
	if _, err := h.face.Deliver(ctx, n); err != nil {
		t.Fatal(err)
	}
	if got := len(direct.Messages()); got != 1 {
		t.Fatalf("%d messages, want 1", got)
	}
	h.server.NonceLife = time.Nanosecond // much later, after a crash
	n.MaybeRepeat = true
	if _, err := h.face.Deliver(ctx, n); err != nil {
		t.Fatal(err)
	}
	if got := len(direct.Messages()); got != 1 {
		t.Errorf("%d messages, want 1", got)
	}
	n.Key = "r9.0" // this one has not arrived
	if _, err := h.face.Deliver(ctx, n); err != nil {
		t.Fatal(err)
	}
	if got := len(direct.Messages()); got != 2 {
		t.Errorf("%d messages, want 2", got)
	}
	h.server.Break(standin.Fault{Method: "GET", Route: messageRoute, Status: 403,
		Body: `{"message": "Missing Access", "code": 50001}`})
	n.Key = "r10.0"
	if _, err := h.face.Deliver(ctx, n); err != nil {
		t.Fatal(err)
	}
	if list := direct.Messages(); !strings.Contains(list[len(list)-1].Text(), "You may have had this before") {
		t.Errorf("history shut: got %q", list[len(list)-1].Text())
	}
}

// TestReminderButtonInDirect: a reminder by direct message is answered there, for the party of the community
// that it is about.
func TestReminderButtonInDirect(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	h.must("Ben", "/remind direct on:yes")
	h.must("Ada", "/task assign task:roast-roots/cut to:Ben")
	ctx := context.Background()
	if err := h.send.Advance(ctx, h.clock.now(), wednesday.AddDate(0, 0, 4), h.clock.set); err != nil {
		t.Fatal(err)
	}
	direct := h.person("Ben").InDirect()
	var found *standin.Message
	list := direct.Messages()
	for i := range list {
		if len(list[i].Buttons()) > 1 && strings.Contains(list[i].Content, "Cut the roots") &&
			strings.Contains(list[i].Buttons()[0].CustomID, "task start") {
			found = &list[i]
		}
	}
	if found == nil {
		t.Fatalf("no reminder to start among %d messages", len(list))
	}
	a := direct.PressID(found, found.Buttons()[0].CustomID)
	if a.Message == nil || a.Message.Ephemeral() {
		t.Fatalf("pressed: %q", a.Text())
	}
	snap, err := h.store.Load(ctx, store.Community(h.guild), 1)
	if err != nil || len(snap.Party.Work) == 0 {
		t.Fatalf("nothing started: %+v, %v", snap.Party.Work, err)
	}
}

// TestSessionIsEdited: a list keeps its message while it is ticked off, with the buttons for what comes next; who is
// named in it is not called again. What makes no sound is marked so.
func TestSessionIsEdited(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	ben, ctx := h.person("Ben"), context.Background()
	n := h.note(false)
	n.Silent = true
	posted, err := h.face.Deliver(ctx, n)
	if err != nil {
		t.Fatal(err)
	}
	list := ben.Messages()
	if len(list) != 1 || posted != h.channel+"/"+list[0].ID || list[0].Flags != flagSilent {
		t.Fatalf("posted %q, got %+v", posted, list)
	}
	n.Key, n.Edits, n.Text = "r2.0", posted, "Boil the roots.\n[x] Cut them"
	n.Buttons = []store.Press{{Label: "Started", Do: "task start task:roast-roots/boil party:1"}}
	if again, err := h.face.Deliver(ctx, n); err != nil || again != posted {
		t.Fatalf("%q, %v", again, err)
	}
	list = ben.Messages()
	if len(list) != 1 || !strings.Contains(list[0].Text(), "Boil the roots.") ||
		!strings.HasSuffix(list[0].Buttons()[0].CustomID, ":task start task:roast-roots/boil party:1") {
		t.Errorf("after the change: %+v", list)
	}
	for _, gone := range []string{h.channel + "/1", "nowhere", "1/2"} {
		n.Edits = gone
		if _, err := h.face.Deliver(ctx, n); !errors.Is(err, reminders.ErrUndeliverable) {
			t.Errorf("%s: got %v, want to give it up", gone, err)
		}
	}
}
