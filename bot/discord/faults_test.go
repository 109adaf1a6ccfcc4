package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/bwmarrin/discordgo"

	"tureen/bot/discord/standin"
	"tureen/bot/talk"
)

// Faults of the library (discordgo v0.29.0) that a bot in production meets, each with its treatment, as far as
// transport_test.go does not have them; and what the platform does on a bad day.

// TestWedged: sessions that deadlock (op 7 as the answer to RESUME, #513) are left behind a few times; then the
// process ends, to be started again by whoever supervises it.
func TestWedged(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	q := quick()
	q.lockLimit = 2 * time.Second // above the second for which the library sleeps with its lock held
	s.Gateway(func(g *standin.Gateway) {
		for range maxAbandoned {
			g.OnResume = append(g.OnResume, standin.Reconnect)
		}
	})
	k := runGateway(t, s, standin.Token, q)
	for i := range maxAbandoned {
		eventually(t, "a session", func() bool { _, ids, _ := s.Connects(); return ids == i+1 && k.ready.Load() })
		s.DropConnections()
		eventually(t, "it is left behind", func() bool { return int(k.abandoned.Load()) == i+1 })
	}
	select {
	case err := <-k.ended:
		if n := k.counts.abandoned.Load(); !errors.Is(err, errWedged) || n != maxAbandoned {
			t.Errorf("got %v with %d counted, want %v with %d", err, n, errWedged, maxAbandoned)
		}
	case <-time.After(slowness * 20 * time.Second):
		t.Fatal("it goes on")
	}
}

// TestPauses: the pauses between attempts double up to a cap, and vary (the library's reach 600 s, without jitter).
func TestPauses(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	s.Break(standin.Fault{Route: "/gateway", Status: 404, Times: 1000})
	q := quick()
	q.backOffMin, q.backOffMax = time.Millisecond, 6*time.Millisecond
	pauses := make(chan time.Duration, 1000)
	k := &gateway{token: standin.Token, guard: newTestGuard(t, s, q), time: q, intents: intents(false),
		log: slog.New(pauseLog{slog.DiscardHandler, pauses})}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- k.run(ctx) }()
	for i, want := range []time.Duration{1, 2, 4, 6, 6, 6} {
		if got := <-pauses; got != want*time.Millisecond {
			t.Errorf("pause %d: %v, want %v ms", i, got, int(want))
		}
	}
	cancel()
	if err := <-ended; err != nil {
		t.Error(err)
	}
	seen := map[time.Duration]bool{}
	for range 100 {
		d := jitter(time.Minute)
		if seen[d] = true; d < 30*time.Second || d > time.Minute {
			t.Errorf("a pause of %v for a minute", d)
		}
	}
	if len(seen) < 50 {
		t.Errorf("100 pauses have %d lengths", len(seen))
	}
}

// pauseLog hands on the pauses that are logged.
type pauseLog struct {
	slog.Handler
	pauses chan time.Duration
}

// Enabled implements slog.Handler.
func (pauseLog) Enabled(context.Context, slog.Level) bool { return true }

// Handle implements slog.Handler.
func (p pauseLog) Handle(_ context.Context, r slog.Record) error {
	r.Attrs(func(a slog.Attr) bool {
		if a.Key == "pause" {
			p.pauses <- a.Value.Duration()
		}
		return true
	})
	return nil
}

// answering is a network that answers at once and notes when.
type answering struct {
	mu     sync.Mutex
	at     []time.Time
	header http.Header
}

// RoundTrip implements http.RoundTripper.
func (a *answering) RoundTrip(*http.Request) (*http.Response, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.at = append(a.at, time.Now())
	h := http.Header{}
	for k, v := range a.header {
		h[k] = v
	}
	return &http.Response{StatusCode: 200, Header: h, Body: io.NopCloser(bytes.NewReader([]byte("{}")))}, nil
}

func get(t *testing.T, g *guard, path string) {
	t.Helper()
	req, err := http.NewRequestWithContext(t.Context(), "GET", "https://"+platformHost+"/api/v9/"+path, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := g.RoundTrip(req); err != nil {
		t.Error(err)
	}
}

// TestFiftyASecond: in no second are more than 50 requests sent (the library has no such limit), and interactions do
// not count.
func TestFiftyASecond(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		net := &answering{}
		g := &guard{next: net, time: production}
		began := time.Now()
		get(t, g, "users/@me")
		time.Sleep(990 * time.Millisecond)
		var wait sync.WaitGroup
		for i := range 160 {
			wait.Go(func() { get(t, g, fmt.Sprint("channels/", i)) })
		}
		wait.Wait()
		for i := range net.at {
			if j := i + maxASecond; j < len(net.at) && net.at[j].Sub(net.at[i]) < time.Second {
				t.Fatalf("requests %d to %d were sent within %v", i, j, net.at[j].Sub(net.at[i]))
			}
		}
		if d := time.Since(began); d > 5*time.Second {
			t.Errorf("161 requests took %v", d)
		}
		before := time.Now()
		for i := range 200 {
			get(t, g, fmt.Sprintf("interactions/%d/token/callback", i))
		}
		if d := time.Since(before); d > 0 {
			t.Errorf("200 answers to interactions were held back for %v", d)
		}
	})
}

// TestLimitsAreForgotten: what is kept of routes' limits does not grow (the library keeps 461 bytes an interaction for
// ever: #1333).
func TestLimitsAreForgotten(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		g := &guard{next: &answering{header: http.Header{"X-Ratelimit-Remaining": {"0"}, "X-Ratelimit-Reset-After": {"0.5"}}},
			time: production}
		for i := range 3000 {
			get(t, g, fmt.Sprintf("webhooks/1/token%d/messages/@original", i))
			time.Sleep(100 * time.Millisecond)
		}
		if n := len(g.resets); n > 700 {
			t.Errorf("%d limits are kept, of 3000 in 5 minutes", n)
		}
	})
}

// TestEditsAtOnce: answers are edited beside each other (the library sends all edits of all interactions one by one).
func TestEditsAtOnce(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	r := newTestRest(t, s, patient())
	const route, edits = "/webhooks/:/:/messages/:", 20
	s.Break(standin.Fault{Method: "PATCH", Route: route, Status: 404, Delay: time.Hour, Times: edits})
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var wait sync.WaitGroup
	for i := range edits {
		wait.Go(func() {
			r.do(ctx, "PATCH", fmt.Sprintf("webhooks/%s/token%d/messages/@original", standin.Application, i), hello(""), nil)
		})
	}
	eventually(t, "all edits are on their way", func() bool { return s.Calls("PATCH "+route) == edits })
	cancel()
	wait.Wait()
}

// TestPanic: a panic costs one answer and says so (in the library it ends the process: PR #1588).
func TestPanic(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.face.spawn("test", func() { panic("of a test") })
	ada := h.person("Ada")
	i, event := ada.Event(askCommand, map[string]any{"name": "help"})
	b, err := json.Marshal(event)
	if err != nil {
		t.Fatal(err)
	}
	var got interaction
	if err := json.Unmarshal(b, &got); err != nil {
		t.Fatal(err)
	}
	h.face.answer(context.Background(), &got, false, func() talk.Reply { panic("of a test") })
	if a := ada.Await(i); a.Message == nil || !a.Message.Ephemeral() ||
		!strings.HasPrefix(a.Text(), "Something went wrong") {
		t.Errorf("got %q", a.Text())
	}
	if a := h.say("Ada", "/help"); a.Message == nil {
		t.Error("no answer after it")
	}
}

// TestTooMuchAtOnce: there is a bound to what runs at a time (the library starts a goroutine an event); past it
// interactions are dropped, and afterwards all is well.
func TestTooMuchAtOnce(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	eventually(t, "all is quiet", func() bool { return len(h.face.workers) == 0 })
	for range maxWorkers {
		h.face.workers <- struct{}{}
	}
	h.face.spawn("test", func() { t.Error("it runs") })
	for range maxWorkers {
		<-h.face.workers
	}
	if a := h.say("Ada", "/help"); a.Message == nil {
		t.Error("no answer afterwards")
	}
}

// TestQuietLibrary: what the library logs loses its tokens on the way, and of itself it neither keeps state, nor
// reconnects, nor repeats.
func TestQuietLibrary(t *testing.T) {
	s, err := newSession(standin.Token, newTestGuard(t, standin.New(t), quick()))
	if err != nil {
		t.Fatal(err)
	}
	if s.StateEnabled || s.ShouldReconnectOnError || s.ShouldRetryOnRateLimit || s.MaxRestRetries != 0 ||
		s.LogLevel > discordgo.LogError {
		t.Errorf("the library does more than it should: %+v", s)
	}
	discordgo.Logger(discordgo.LogError, 0, "a test's error of %s", s.Token)
	log := logged.text()
	if i := strings.Index(log, "a test's error of "); i < 0 || strings.Contains(log[i:], standin.Token) {
		t.Error("the library's errors are not logged, or with the token")
	}
}

// TestReordered: events come in another order than things were done, and again after a resumption; each is answered
// once, and none is lost.
func TestReordered(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.must("Ada", "/party new name:Supper date:2026-09-05 arrive:19:00 covers:4")
	ada := h.person("Ada")
	var all []*standin.Interaction
	var events []map[string]any
	for _, name := range []string{"Oona", "Piet", "Quin"} {
		i, event := ada.Event(askCommand, map[string]any{"name": "guest",
			"options": []any{map[string]any{"name": "add", "type": 1,
				"options": []any{map[string]any{"name": "name", "type": 3, "value": name}}}}})
		all, events = append(all, i), append(events, event)
	}
	h.server.Dispatch("GUILD_CREATE", map[string]any{"id": h.guild})
	for n := len(events) - 1; n >= 0; n-- {
		h.server.Dispatch("INTERACTION_CREATE", events[n])
		h.server.Dispatch("INTERACTION_CREATE", events[(n+1)%len(events)])
	}
	h.server.DropConnections()
	for n := range events { // what was missed is told again, with what had come already
		h.server.Dispatch("INTERACTION_CREATE", events[n])
	}
	for _, i := range all {
		if a := ada.Await(i); !strings.Contains(a.Text(), " is coming.") {
			t.Errorf("got %q", a.Text())
		}
	}
	list := h.must("Ada", "/guest list").Text()
	for _, name := range []string{"Oona", "Piet", "Quin"} {
		if strings.Count(list, name) != 1 {
			t.Errorf("%s is not there once: %s", name, list)
		}
	}
}

// TestChannelDeleted: a channel that goes while a party lives in it costs nothing: the party is spoken of elsewhere,
// and what was to be said there goes to people.
func TestChannelDeleted(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	h.must("Ada", "/task assign task:roast-roots/cut to:Ben")
	h.server.DeleteChannel(h.channel)
	h.channel = h.server.Channel(h.guild)
	if a := h.server.Person("Cleo", h.guild, h.channel).Slash("party list", nil, nil); a.Silent {
		t.Error("no answer elsewhere")
	}
	if err := h.send.Advance(context.Background(), h.clock.now(), wednesday.AddDate(0, 0, 4), h.clock.set); err != nil {
		t.Fatal(err)
	}
	if n := countOf(h.person("Ben").InDirect(), "Cut the roots at"); n != 1 {
		t.Errorf("Ben is reminded %d times, want once", n)
	}
}
