package discord

import (
	"context"
	"strings"
	"sync"
	"testing"

	"tureen/bot/discord/standin"
	"tureen/planner"
	"tureen/store"
)

// oneSentence wants an answer for one alone, in a line or two, and the message as it was.
func oneSentence(t *testing.T, what string, p *standin.Person, a standin.Answer, on *standin.Message, want string) {
	t.Helper()
	a = final(t, p, a)
	if a.Silent || a.Message == nil || a.Message.ID == on.ID || !a.Message.Ephemeral() ||
		!strings.Contains(a.Text(), want) || strings.Count(a.Message.Content, "\n") > 1 {
		t.Errorf("%s: %q, want %q alone", what, a.Text(), want)
	}
	for _, m := range p.Messages() {
		if m.ID == on.ID && m.Text() != on.Text() {
			t.Errorf("%s: the message has become %q", what, m.Text())
		}
	}
}

// TestBadPresses: a button from before an update, one of somebody else's task, one pressed by a stranger or by somebody
// who has left, and one pressed a second time say one sentence and the true state, and nothing is lost.
func TestBadPresses(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	ada, ben, zoe := h.person("Ada"), h.person("Ben"), h.person("Zoe")
	h.must("Ada", "/task claim task:roast-roots/cut")
	card := h.must("Ada", "/task show task:roast-roots/cut").Message
	before := kept(t, h.store, store.Community(h.guild))
	button := func(m *standin.Message, label string) string {
		t.Helper()
		for _, b := range m.Buttons() {
			if b.Label == label {
				return b.CustomID
			}
		}
		t.Fatalf("no button %q on %q", label, m.Text())
		return ""
	}
	start := button(card, "Started")
	for id, want := range map[string]string{"": "older tureen", "zz:": "older tureen",
		"ba:task fly task:x":                  "After /task comes",
		"ba:task start task:roast-roots/peel": "peel", "q2:claim/roast": "older tureen"} {
		if id == "" {
			id = "x"
		}
		oneSentence(t, "of before: "+id, ada, ada.PressID(card, id), card, want)
	}
	oneSentence(t, "a stranger", zoe, zoe.PressID(card, start), card, "Only the people of Supper can do this")
	oneSentence(t, "somebody else", ben, ben.PressID(card, start), card, "Ada has it")
	if kept(t, h.store, store.Community(h.guild)) != before {
		t.Error("a refused press has changed something")
	}
	// The press itself changes its message, and the button is gone; pressed again, as on a slow telephone, it says how
	// things stand.
	a := ada.PressID(card, start)
	if a.Message == nil || a.Message.ID != card.ID || !strings.HasPrefix(a.Message.Content, "Started: ") ||
		!strings.Contains(a.Message.Content, "\n-# Ada, <t:") {
		t.Fatalf("started: %q", a.Text())
	}
	for _, b := range a.Message.Buttons() {
		if b.Label == "Started" {
			t.Error("the button is there still")
		}
	}
	button(a.Message, "Undo")
	oneSentence(t, "pressed twice", ada, ada.PressID(card, start), a.Message, "was started at")
	done := button(a.Message, "Done")
	ben.Leave() // whoever has left may have a message open still
	h.face.left(context.Background(), h.guild, ben.ID)
	oneSentence(t, "somebody who has left", ben, ben.PressID(a.Message, done), a.Message, "You may look at Supper")
	if a := ada.PressID(a.Message, done); a.Message.ID != card.ID || !strings.HasPrefix(a.Message.Content, "Done: ") {
		t.Errorf("done: %q", a.Text())
	}
}

// TestOppositePresses: of two people who press opposite buttons at the same time, each hears what became of it, and the
// message says the true state.
func TestOppositePresses(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	for round, pair := range [][2]string{{"Done", "Give back"}, {"Started", "Done"}, {"Give back", "Started"}} {
		k := planner.TaskKey("lay-table")
		h.say("Ada", "/task give-back task:lay-table")
		h.must("Ada", "/task claim task:lay-table")
		card := h.must("Ada", "/task show task:lay-table").Message
		var wait sync.WaitGroup
		answers := make([]standin.Answer, 2)
		for i, label := range pair {
			wait.Go(func() { answers[i] = h.person("Ada").Press(card, label) })
		}
		wait.Wait()
		for i, a := range answers {
			if a.Silent || a.Message == nil || a.Refused != "" {
				t.Fatalf("%v: %s is not answered: %+v", pair, pair[i], a)
			}
		}
		snap, err := h.store.Load(context.Background(), store.Community(h.guild), 1)
		if err != nil {
			t.Fatal(err)
		}
		var now standin.Message
		for _, m := range h.person("Ada").Messages() {
			if m.ID == card.ID {
				now = m
			}
		}
		journal, err := h.store.Journal(context.Background(), store.Community(h.guild), 1, 1)
		if err != nil {
			t.Fatal(err)
		}
		state := "free"
		if w := snap.Party.WorkOn(k); w != nil && w.Person != "" {
			state = string(w.Progress)
		}
		t.Logf("%v: %s, by %q; the message: %q", pair, state, journal[0].What, strings.ReplaceAll(now.Content, "\n", " / "))
		if !strings.Contains(now.Content, ": ") || now.Content == card.Content {
			t.Errorf("round %d: the message says %q", round, now.Content)
		}
		h.say("Ada", "/undo")
		h.say("Ada", "/undo")
	}
}

// TestWhoIsAsked: whom a host would silence is asked by a message with a button, and only their press does it; whoever
// hears that another is them, or that they are off, hears it in a direct message.
func TestWhoIsAsked(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	add := h.must("Ada", "/people add name:Oona").Message
	told := func(who, want string) standin.Message {
		t.Helper()
		var last standin.Message
		eventually(t, who+" hears "+want, func() bool {
			for _, m := range h.person(who).InDirect().Messages() {
				if strings.Contains(m.Content, want) {
					last = m
				}
			}
			return last.ID != ""
		})
		return last
	}
	h.person("Oona").Press(add, "I am Oona")
	told("Ada", "I am Oona")
	h.must("Ada", "/people hours who:Ben quiet:8:00-20:00")
	ask := told("Ben", "keep your reminders silent")
	snap := func() planner.Person {
		s, err := h.store.Load(context.Background(), store.Community(h.guild), 1)
		if err != nil {
			t.Fatal(err)
		}
		return *s.Party.Person("ben")
	}
	if snap().Quiet.From == 8*60 {
		t.Fatal("Ben is silenced without a word of his")
	}
	if a := h.person("Ben").InDirect().Press(&ask, "Yes, that is fine"); a.Refused != "" || snap().Quiet.From != 8*60 {
		t.Errorf("Ben's press: %s", a.Text())
	}
	h.must("Ada", "/people change who:Ben user:"+h.person("Finn").ID)
	told("Ben", "You are no longer Ben")
	h.must("Ada", "/people remove who:Oona")
	told("Oona", "has taken you off")
}
