package discord

import (
	"context"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"tureen/bot"
	"tureen/bot/discord/standin"
	"tureen/bot/talk"
	"tureen/reminders"
	"tureen/store"
)

// hands is a clock that tests turn.
type hands struct {
	mu sync.Mutex
	at time.Time
}

func (h *hands) now() time.Time {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.at
}

func (h *hands) set(at time.Time) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.at = at
}

// house is everything of tureen behind the Discord face, with the platform's stand-in before it.
type house struct {
	t       *testing.T
	server  *standin.Server
	store   *store.Store
	bot     *bot.Bot
	face    *Face
	clock   *hands
	send    *reminders.Dispatcher
	guild   string
	channel string
	people  map[string]*standin.Person
	stop    func() error
	members bool // with the intent for members
}

var wednesday = time.Date(2026, 9, 2, 10, 0, 0, 0, time.UTC)

func openStore(t *testing.T) *store.Store {
	t.Helper()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "tureen.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

func newHouse(t *testing.T) *house {
	t.Helper()
	h := &house{t: t, server: standin.New(t), store: openStore(t), clock: &hands{at: wednesday},
		people: map[string]*standin.Person{}}
	h.server.AckWithin *= slowness
	h.guild = h.server.Guild()
	h.channel = h.server.Channel(h.guild)
	h.start(patient())
	return h
}

// patient is quick with time for a busy machine, and for the race detector's slowness.
func patient() timing {
	q := quick()
	q.deferAfter *= slowness
	q.callWithin, q.tryWithin, q.openWithin = 40*time.Second, 20*time.Second, 10*time.Second
	return q
}

// start brings tureen up on what the store holds.
func (h *house) start(q timing) {
	h.t.Helper()
	log := testLog(h.t)
	h.bot = bot.New(h.store, h.clock.now, log, bot.Options{})
	var err error
	if h.face, err = newFace(h.bot, Options{Token: standin.Token, API: h.server.URL, Log: log, Members: h.members},
		q); err != nil {
		h.t.Fatal(err)
	}
	h.send = &reminders.Dispatcher{Store: h.store, Deliverer: h.face, Now: h.clock.now, Log: log}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- h.face.Run(ctx) }()
	h.stop = sync.OnceValue(func() error { cancel(); return <-ended })
	h.t.Cleanup(func() {
		if err := h.stop(); err != nil {
			h.t.Error(err)
		}
	})
	if !h.server.Online(30 * time.Second) {
		h.t.Fatal("never online")
	}
	eventually(h.t, "commands are registered", func() bool {
		h.face.mu.Lock()
		defer h.face.mu.Unlock()
		return h.face.registered
	})
}

// person is somebody in the party's channel.
func (h *house) person(name string) *standin.Person {
	if h.people[name] == nil {
		p := h.server.Person(name, h.guild, h.channel)
		p.Admin = true
		h.people[name] = p
	}
	return h.people[name]
}

// say types a message as a person would, and answers what came of it.
func (h *house) say(who, text string) standin.Answer {
	h.t.Helper()
	line, err := h.bot.Parse(text)
	if err != nil {
		h.t.Fatalf("%s: %v", text, err)
	}
	a := h.slash(h.person(who), line.Command, line.Options, nil)
	if a.Silent {
		h.t.Errorf("%s: no answer", text)
	}
	return a
}

// asIs leaves the commands of a line as they are.
func asIs(line string) string { return line }

// slash types a command; what a client does not offer among its options goes into the command's form.
func (h *house) slash(p *standin.Person, command string, options map[string]string, files map[string]standin.File,
) standin.Answer {
	c := h.face.commandOf(command)
	first, rest := map[string]string{}, ""
	for name, text := range options {
		if i := slices.IndexFunc(c.Options, func(o talk.Option) bool { return o.Name == name }); i >= 0 && c.Options[i].Rare {
			rest += "\n" + name + ": " + text
			continue
		}
		first[name] = text
	}
	if rest == "" {
		return p.Slash(command, options, files)
	}
	first[restOption] = "yes"
	a := p.Slash(command, first, files)
	if a.Modal == nil {
		return a
	}
	return p.Submit(a.Modal, map[string]string{restOption: a.Modal.Components[0].Components[0].Value + rest})
}

// must is say for messages that are to succeed.
func (h *house) must(who, text string) standin.Answer {
	h.t.Helper()
	a := h.say(who, text)
	line, _ := h.bot.Parse(text) // a refusal is for one alone; so is every answer of some commands
	if a.Refused != "" || a.Message == nil || a.Message.Ephemeral() && !h.face.forOne(talk.Request{Command: line.Command,
		Options: line.Options}) {
		h.t.Fatalf("%s: refused: %s", text, a.Text())
	}
	return a
}

// supper starts a small party with a plan.
func (h *house) supper() {
	h.t.Helper()
	h.must("Ada", "/party new name:Supper date:2026-09-05 arrive:19:00 covers:4 zone:Europe/Dublin prep-days:1")
	h.must("Ada", "/course add name:Main at:19:30 late:30 min")
	h.must("Ada", "/people add name:Ben role:co-host cooks:9:00-22:30 user:<@"+h.person("Ben").ID+">")
	h.must("Ada", "/dish add name:Roast roots course:main serves:4")
	h.must("Ada", "/step add dish:roast-roots name:cut do:Cut the roots time:20 min counter:1 leaves:none")
	h.must("Ada", "/step add dish:roast-roots name:roast do:Roast the roots time:40-50 min oven:200 after:cut "+
		"wait:counter longest:2h leaves:none until:a knife slides in")
	h.must("Ada", "/plan make")
}

// final is an answer to one person alone as that person sees it in the end: on a slow machine it is announced to
// all first, and follows.
func final(t *testing.T, p *standin.Person, a standin.Answer) standin.Answer {
	t.Helper()
	if len(a.More) > 0 {
		a.Message = &a.More[len(a.More)-1]
		a.More = nil
	}
	if a.Message == nil || !strings.HasPrefix(a.Message.Content, "The answer is for ") {
		return a
	}
	announced := a.Message.ID
	eventually(t, "the answer follows", func() bool {
		list := p.Messages()
		last := list[len(list)-1]
		a.Message = &last
		return last.Ephemeral() && last.ID > announced
	})
	return a
}
