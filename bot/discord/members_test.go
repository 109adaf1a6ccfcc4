package discord

import (
	"context"
	"strings"
	"testing"
	"time"

	"tureen/bot/discord/standin"
	"tureen/store"
)

// TestLeaving: who leaves the community hands back their tasks, however that is noticed, and the party's channel is
// told once. The store then holds what it holds when the bot alone is told; a host takes it back, and who comes back
// is known again.
func TestLeaving(t *testing.T) {
	for _, c := range []struct {
		name    string
		members bool // with the privileged intent
		notice  func(t *testing.T, s *story)
	}{
		{"told by the gateway", true, func(*testing.T, *story) {}},
		{"noticed at a command", false, func(t *testing.T, s *story) {
			s.house.face.mu.Lock()
			clear(s.house.face.looked) // an hour later
			clear(s.house.face.here)
			s.house.face.mu.Unlock()
			if a := s.house.say("Ada", "/party list"); a.Silent {
				t.Error("no answer")
			}
		}},
		{"noticed at a reminder", false, func(t *testing.T, s *story) {
			s.house.face.mu.Lock()
			clear(s.house.face.here)
			s.house.face.mu.Unlock()
			n := s.house.note(false)
			if _, err := s.house.face.Deliver(context.Background(), n); err != nil {
				t.Error(err)
			}
			list := s.house.person("Ada").Messages()
			if last := list[len(list)-1]; !strings.HasPrefix(last.Content, "Ben: Cut the") || len(last.Mentions) > 0 {
				t.Errorf("the reminder: got %q, notifying %v", last.Content, last.Mentions)
			}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := newStory(t)
			h := s.house
			h.t = t
			s.at(wednesday)
			if c.members {
				if err := h.stop(); err != nil {
					t.Fatal(err)
				}
				h.server.MembersIntent, h.members = true, true
				h.start(patient())
			}
			for _, l := range []string{
				"/party new name:Supper date:2026-09-05 arrive:19:00 covers:4 zone:Europe/Dublin prep-days:1 courses:Main 19:30",
				"/people add name:Ben role:co-host cooks:9:00-22:30",
				"/dish add name:Roast roots course:main serves:4",
				"/step add dish:roast-roots name:cut do:Cut the roots time:20 min counter:1 leaves:none who:Ben",
				"/step add dish:roast-roots name:roast do:Roast the roots time:40-50 min oven:200 after:cut wait:counter " +
					"longest:2h leaves:none",
				"Ben> /task claim task:roast-roots/roast",
				"/plan make",
			} {
				if !s.line("Ada", l) {
					return
				}
			}
			same := func(what string) {
				t.Helper()
				want := kept(t, s.store, store.Community(h.guild))
				eventually(t, what, func() bool { return kept(t, h.store, store.Community(h.guild)) == want })
			}
			ben := h.person("Ben")
			before := kept(t, s.store, store.Community(h.guild))
			ben.Leave()
			c.notice(t, s)
			if notes, err := s.plain.bot.Left(context.Background(), h.guild, ben.ID); err != nil || len(notes) != 1 {
				t.Fatalf("the bot alone: got %v, %v", notes, err)
			}
			same("the tasks are handed back")
			if kept(t, s.store, store.Community(h.guild)) == before {
				t.Error("nothing has changed")
			}
			told := func() (n int, last standin.Message) {
				for _, m := range h.person("Ada").Messages() {
					if strings.Contains(m.Content, "who has left this community") {
						n, last = n+1, m
					}
				}
				return n, last
			}
			eventually(t, "the channel is told", func() bool { n, _ := told(); return n > 0 })
			h.face.left(context.Background(), h.guild, ben.ID)
			n, m := told()
			if n != 1 || !strings.HasPrefix(m.Content, "Take over from Ben") || len(m.Buttons()) < 2 || m.Ephemeral() {
				t.Errorf("told %d times: %q, %d buttons", n, m.Content, len(m.Buttons()))
			}
			ben.Rejoin()
			if !s.line("Ben", "/task claim task:roast-roots/cut") || !s.line("Ada", "/undo") ||
				!s.line("Ben", "/task give-back task:roast-roots/roast") {
				t.Error("after coming back")
			}
		})
	}
}

// TestLeavingWithoutAChannel: where the party's channel is gone too, its hosts hear by direct message.
func TestLeavingWithoutAChannel(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	h.must("Ben", "/task claim task:roast-roots/cut")
	h.server.DeleteChannel(h.channel)
	ben := h.person("Ben")
	ben.Leave()
	h.face.left(context.Background(), h.guild, ben.ID)
	list := h.person("Ada").InDirect().WaitMessages(1, 10*time.Second)
	if len(list) != 1 || !strings.HasPrefix(list[0].Content, "Take over from Ben") {
		t.Errorf("got %v", list)
	}
	if n := len(ben.InDirect().Messages()); n > 0 {
		t.Errorf("Ben is sent %d messages", n)
	}
}
