package discord

import (
	"context"
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"

	"tureen/bot"
	"tureen/bot/discord/standin"
	"tureen/reminders"
	"tureen/store"
)

// process is tureen with some of the shards, on a database that others may share.
type process struct {
	face *Face
	send *reminders.Dispatcher
}

func startProcess(t *testing.T, s *standin.Server, db string, share Share, q timing) *process {
	t.Helper()
	st, err := store.Open(context.Background(), db)
	if err != nil {
		t.Fatal(err)
	}
	now := func() time.Time { return wednesday }
	log := testLog(t)
	f, err := newFace(bot.New(st, now, log, bot.Options{}), Options{Token: standin.Token, API: s.URL, Log: log,
		Share: share}, q)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- f.Run(ctx) }()
	t.Cleanup(func() {
		cancel()
		if err := <-ended; err != nil {
			t.Error(err)
		}
		st.Close()
	})
	return &process{face: f, send: &reminders.Dispatcher{Store: st, Deliverer: f, Scope: share.scope(), Now: now,
		Log: log}}
}

// supperAt starts a party in a community, with somebody who is reminded of it.
func supperAt(t *testing.T, s *standin.Server, guild string) *standin.Person {
	t.Helper()
	p := s.Person("Ada", guild, s.Channel(guild))
	p.Admin = true
	for _, c := range []struct {
		command string
		options map[string]string
	}{
		{"party new", map[string]string{"name": "Supper", "date": "2026-09-05", "arrive": "19:00", "covers": "4",
			"courses": "main 19:30"}},
		{"dish add", map[string]string{"name": "Roots", "course": "main"}},
		{"step add", map[string]string{"dish": "roots", "name": "cut", "do": "Cut the roots", "time": "20 min"}},
		{"plan make", map[string]string{"propose": "false"}},
	} {
		if a := p.Slash(c.command, c.options, nil); a.Silent || a.Refused != "" || a.Message == nil || a.Message.Ephemeral() {
			t.Fatalf("%s: %q", c.command, a.Text())
		}
	}
	return p
}

// TestShards: one process takes as many sessions as the platform recommends, in turn; each community's events come
// through its own, direct messages through the first, the commands are registered once, and each reminder comes once.
func TestShards(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	const pause = 200 * time.Millisecond
	s.Gateway(func(g *standin.Gateway) { g.Shards, g.Concurrency, g.IdentifyEvery = 5, 2, pause })
	q := patient()
	q.identifyEvery = pause + pause/10
	x := startProcess(t, s, filepath.Join(t.TempDir(), "tureen.db"), Share{}, q)
	eventually(t, "five sessions", func() bool { return len(s.Sessions()) == 5 })
	eventually(t, "commands are registered", func() bool { return s.Registered() == 1 })
	var people []*standin.Person
	for i := range 5 {
		people = append(people, supperAt(t, s, s.GuildOf(i, 5)))
	}
	if a := people[0].InDirect().Slash("help", nil, nil); a.Silent {
		t.Error("no answer in direct messages")
	}
	if words, ok := x.face.health(); !ok || !strings.Contains(words, "Shard 4 of 5: connected") {
		t.Errorf("health: %v %s", ok, words)
	}
	s.DropConnections() // all resume, and none identifies anew
	eventually(t, "five sessions again", func() bool {
		_, _, resumed := s.Connects()
		return len(s.Sessions()) == 5 && resumed == 5
	})
	for _, p := range people {
		if a := p.Slash("party show", nil, nil); !strings.Contains(a.Text(), "Supper") {
			t.Errorf("after the break: %q", a.Text())
		}
	}
	if err := x.send.Advance(context.Background(), wednesday, wednesday.AddDate(0, 0, 4), nil); err != nil {
		t.Fatal(err)
	}
	for _, p := range people {
		if n := countOf(p, "Cut the roots at"); n != 1 {
			t.Errorf("reminded %d times, want once", n)
		}
	}
	if n, ids, _ := s.Connects(); ids != 5 || n != 10 || s.Registered() != 1 {
		t.Errorf("%d connections, %d IDENTIFYs, registered %d times", n, ids, s.Registered())
	}
}

// countOf counts the messages that a person sees in which a text stands in the first line.
func countOf(p *standin.Person, text string) (n int) {
	for _, m := range p.Messages() {
		if first, _, _ := strings.Cut(m.Content, "\n"); strings.Contains(first, text) {
			n++
		}
	}
	return n
}

// TestShardsInProcesses: two processes on one database, a shard each, each answer and remind their own communities,
// and a button pressed in direct messages, which go to the first, works on the other's party.
func TestShardsInProcesses(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	const pause = 200 * time.Millisecond
	s.Gateway(func(g *standin.Gateway) { g.Shards, g.IdentifyEvery = 2, pause })
	q := patient()
	q.identifyEvery = 8 * pause
	db := filepath.Join(t.TempDir(), "tureen.db")
	var processes []*process
	var people []*standin.Person
	for i := range 2 {
		processes = append(processes, startProcess(t, s, db, Share{Shards: 2, One: true, Shard: i}, q))
	}
	eventually(t, "two sessions", func() bool { return len(s.Sessions()) == 2 })
	eventually(t, "commands are registered", func() bool { return s.Registered() == 1 })
	for i := range 2 {
		people = append(people, supperAt(t, s, s.GuildOf(i, 2)))
	}
	if a := people[1].Slash("remind direct", map[string]string{"on": "true"}, nil); a.Message == nil ||
		!strings.Contains(a.Text(), "come as direct messages now") {
		t.Fatalf("remind direct: %q", a.Text())
	}
	until := wednesday.AddDate(0, 0, 4)
	for i, x := range processes {
		if err := x.send.Advance(context.Background(), wednesday, until, nil); err != nil {
			t.Fatal(err)
		}
		got := []int{countOf(people[0], "Cut the roots at"), countOf(people[1].InDirect(), "Cut the roots at")}
		if want := []int{1, i}; !slices.Equal(got, want) {
			t.Errorf("when shard %d has sent: reminders are %v, want %v", i, got, want)
		}
	}
	direct := people[1].InDirect()
	list := direct.Messages()
	for i := range list {
		if strings.Contains(list[i].Content, "Cut the roots at") {
			if a := direct.Press(&list[i], "Started"); a.Message == nil || a.Message.Ephemeral() {
				t.Errorf("pressed: %q", a.Text())
			}
		}
	}
	snap, err := processes[1].send.Store.Load(context.Background(), store.Community(people[1].Guild), 2)
	if err != nil || len(snap.Party.Work) != 1 {
		t.Errorf("started: %+v, %v", snap.Party.Work, err)
	}
}

// TestMoreShards: where the number of shards follows the recommendation, and the platform comes to ask for more, they
// begin anew; a number that somebody has set ends the process with what to do.
func TestMoreShards(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		share Share
		grows bool
	}{{Share{}, true}, {Share{Shards: 1}, false}} {
		s := standin.New(t)
		s.Gateway(func(g *standin.Gateway) { g.Needed = 3 })
		f, err := newFace(bot.New(openStore(t), time.Now, nil, bot.Options{}), Options{Token: standin.Token, API: s.URL,
			Share: c.share, Log: testLog(t)}, quick())
		if err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithCancel(context.Background())
		ended := make(chan error, 1)
		go func() { ended <- f.Run(ctx) }()
		if c.grows {
			eventually(t, "three sessions", func() bool { return len(s.Sessions()) == 3 })
			cancel()
		}
		err = <-ended
		var e *stopped
		if c.grows && err != nil || !c.grows && (!errors.As(err, &e) || !strings.Contains(err.Error(), "without -shards")) {
			t.Errorf("%+v: got %v", c.share, err)
		}
		cancel()
	}
}

// TestStartLimit: when today's sessions are used up, none is tried before the platform allows it again.
func TestStartLimit(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	s.Gateway(func(g *standin.Gateway) { g.Spent, g.ResetAfter = true, time.Millisecond })
	x := startProcess(t, s, filepath.Join(t.TempDir(), "tureen.db"), Share{}, patient())
	eventually(t, "it asks again", func() bool { return s.Calls("GET /gateway/bot") > 2 })
	if n, _, _ := s.Connects(); n != 0 {
		t.Errorf("%d connections, want none", n)
	}
	if words, ok := x.face.health(); ok || !strings.HasPrefix(words, "Starting") {
		t.Errorf("health: %v %s", ok, words)
	}
	s.Gateway(func(g *standin.Gateway) { g.Spent = false })
	if !s.Online(20 * time.Second) {
		t.Error("never online")
	}
}

// TestTurnstile: sessions of one key begin a pause after another has begun, first ones by number, and those of other
// keys do not wait for them.
func TestTurnstile(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		const every, takes = 5 * time.Second, time.Second
		ts := newTurnstile(4, 2, every)
		began := time.Now()
		var mu sync.Mutex
		got := map[int][]time.Duration{}
		session := func(shard int) {
			done, err := ts.wait(t.Context(), shard)
			if err != nil {
				t.Error(err)
				return
			}
			mu.Lock()
			got[shard] = append(got[shard], time.Since(began))
			mu.Unlock()
			time.Sleep(takes)
			done()
			done()
		}
		var wait sync.WaitGroup
		for shard := range 4 {
			wait.Go(func() {
				session(shard)
				if shard == 0 {
					session(shard) // it broke at once
				}
			})
		}
		wait.Wait()
		// Shard 0's second comes while 2 still waits for its first, by number, and so before it.
		want := map[int][]time.Duration{0: {0, takes + every}, 1: {0}, 2: {2 * (takes + every)}, 3: {takes + every}}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("(-want +got):\n%s", d)
		}
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		if _, err := ts.wait(ctx, 1); err == nil {
			t.Error("a turn after the end")
		}
		if _, err := ts.wait(t.Context(), 1); err != nil {
			t.Errorf("nobody has the key, and yet: %v", err)
		}
	})
}
