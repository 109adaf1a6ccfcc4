package discord

import (
	"context"
	"strings"
	"testing"
	"time"

	"tureen/bot/discord/standin"
	"tureen/store"
)

const threadRoute = "/channels/:/threads"

// TestThread: a thread is opened on request, the party's card stands in it, its reminders come there, and the
// party is found from it and from the channel where it began.
func TestThread(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	a := h.must("Ada", "/party thread")
	id := h.server.Thread(h.channel, "Supper")
	if id == "" || !strings.HasSuffix(a.Message.Content, placeURL(h.guild, id)) &&
		!strings.Contains(a.Message.Content, placeURL(h.guild, id)+"\n") {
		t.Fatalf("thread %q, said %q", id, a.Message.Content)
	}
	zoe := h.person("Zoe").In(h.guild, id)
	if list := zoe.WaitMessages(1, 10*time.Second); len(list) != 1 ||
		!strings.Contains(list[0].Content, "Supper: Sat 5 Sep 2026") {
		t.Errorf("in the thread stands %+v", list)
	}
	inside := h.person("Ben").In(h.guild, id)
	if a := inside.Slash("task claim", map[string]string{"task": "roast-roots/cut"}, nil); !strings.Contains(a.Text(),
		"It is yours") {
		t.Errorf("in the thread: %q", a.Text())
	}
	if a := h.must("Ben", "/party show"); !strings.Contains(a.Text(), "Supper: ") {
		t.Errorf("in the channel: %q", a.Text())
	}
	if err := h.send.Advance(context.Background(), h.clock.now(), time.Date(2026, 9, 5, 17, 0, 0, 0, time.UTC),
		h.clock.set); err != nil {
		t.Fatal(err)
	}
	mentioned := func(list []standin.Message) (n int) {
		for _, m := range list {
			n += len(m.Mentions)
		}
		return n
	}
	if n := mentioned(inside.Messages()); n == 0 {
		t.Error("no reminder has come to the thread")
	}
	if n := mentioned(h.person("Ben").Messages()); n != 0 {
		t.Errorf("%d reminders have come to the channel", n)
	}
	if a := inside.Slash("party thread", map[string]string{"name": "Supper, again"}, nil); a.Message.Ephemeral() ||
		h.server.Thread(h.channel, "Supper, again") == "" {
		t.Errorf("a thread from a thread: %q", a.Text())
	}
	h.must("Ada", "/party here") // back into the channel
	if a := h.must("Ada", "/journal count:1"); !strings.Contains(a.Text(), "moved the party") {
		t.Errorf("the journal: %q", a.Text())
	}
}

// TestThreadOfSomebody: in a thread that somebody has opened by themselves, the party of its channel is found, and
// moves in when it is asked to.
func TestThreadOfSomebody(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	// Ada speaks of this one
	h.must("Ada", "/party new name:Breakfast date:2026-09-06 arrive:10:00 covers:4 zone:Europe/Dublin")
	h.must("Ada", "/party use party:Supper")
	inside := h.person("Ada").In(h.guild, h.person("Ada").OpenThread("cooking"))
	if a := inside.Slash("party show", nil, nil); !strings.Contains(a.Text(), "Supper: ") {
		t.Errorf("from the thread: %q", a.Text())
	}
	if a := inside.Slash("party here", nil, nil); !strings.Contains(a.Text(), "Supper lives here now") {
		t.Errorf("moved: %q", a.Text())
	}
	snap, err := h.store.Load(context.Background(), store.Community(h.guild), 1)
	if err != nil || snap.Party.Channel != inside.Where {
		t.Errorf("it lives in %q, %v, want %q", snap.Party.Channel, err, inside.Where)
	}
}

// TestThreadRefused: where no thread can be opened, nothing is changed and it is said why and what to do.
func TestThreadRefused(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	for _, c := range []struct {
		fault standin.Fault
		want  string
	}{
		{standin.Fault{Status: 403, Body: `{"message": "Missing Permissions", "code": 50013}`},
			"I may not open threads in this channel"},
		{standin.Fault{Status: 403, Body: `{"message": "Missing Access", "code": 50001}`},
			"I may not open threads in this channel"},
		{standin.Fault{Status: 400, Body: `{"message": "Cannot execute action on this channel type", "code": 50024}`},
			"No thread can be opened here"},
		{standin.Fault{Status: 400, Body: `{"message": "Maximum number of active threads reached", "code": 160006}`},
			"as many threads as it may have"},
		{standin.Fault{Status: 500}, "Look whether it is there"},
	} {
		c.fault.Method, c.fault.Route, c.fault.Times = "POST", threadRoute, 1
		h.server.Break(c.fault)
		before := h.server.Calls("POST " + threadRoute)
		a := final(t, h.person("Ada"), h.say("Ada", "/party thread"))
		if a.Message == nil || !a.Message.Ephemeral() || !strings.Contains(a.Text(), c.want) ||
			!strings.Contains(a.Text(), "/party here") {
			t.Errorf("%+v: said %q, want %q", c.fault, a.Text(), c.want)
		}
		if n := h.server.Calls("POST " + threadRoute); n != before+1 {
			t.Errorf("%+v: asked %d times", c.fault, n-before)
		}
	}
	if a := h.must("Ada", "/journal count:1"); strings.Contains(a.Text(), "moved") {
		t.Errorf("something changed: %q", a.Text())
	}
	direct := h.person("Ada").InDirect()
	for _, command := range []string{"party thread", "party here"} {
		if a := final(t, direct, direct.Slash(command, nil, nil)); a.Message == nil || !a.Message.Ephemeral() {
			t.Errorf("/%s in direct messages: %q", command, a.Text())
		}
	}
}
