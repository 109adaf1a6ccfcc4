package discord

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tureen/bot"
	"tureen/bot/discord/standin"
	"tureen/reminders"
)

// TestMetrics: what is done is counted, and /health says whether people are heard.
func TestMetrics(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	const answered = 9 // messages of supper, two of which open a form, counted a moment after they have arrived
	eventually(t, "all answers are counted", func() bool { return h.face.counts.acks.count() == answered })
	h.server.Break(standin.Fault{Route: "/interactions/:/:/callback", Status: 404,
		Body: `{"message": "Unknown interaction", "code": 10062}`})
	h.person("Ada").Begin("guest list", nil, false)
	eventually(t, "an answer is not taken", func() bool { return h.face.counts.unanswered.Load() == 1 })
	late := h.note(false)
	late.Due = time.Now().Add(-time.Hour)
	soon := h.note(false)
	soon.Key, soon.Due = "r2.0", time.Now()
	never := h.note(false)
	never.Key, never.Channel, never.Person = "r3.0", "nowhere", nil
	for _, n := range []reminders.Note{late, soon} {
		if _, err := h.face.Deliver(context.Background(), n); err != nil {
			t.Error(err)
		}
	}
	if _, err := h.face.Deliver(context.Background(), never); !errors.Is(err, reminders.ErrUndeliverable) {
		t.Errorf("got %v", err)
	}
	h.server.DropConnections()
	eventually(t, "it reconnects", func() bool {
		_, _, n := h.server.Connects()
		_, ok := h.face.health()
		return n == 1 && ok
	})

	w := httptest.NewRecorder()
	h.face.watchHandler("no-such-file").ServeHTTP(w, httptest.NewRequest("GET", "/metrics", nil))
	var got struct {
		Acknowledged struct {
			Count   int64
			Seconds float64
			P50     string           `json:"p50_within"`
			P99     string           `json:"p99_within"`
			Within  map[string]int64 `json:"within_seconds"`
		} `json:"interactions_acknowledged"`
		Unanswered int64 `json:"interactions_unanswered"`
		Reconnects int64 `json:"gateway_reconnects"`
		Abandoned  int64 `json:"gateway_abandoned"`
		Sent       int64 `json:"reminders_sent"`
		Late       int64 `json:"reminders_late"`
		Failed     int64 `json:"reminders_failed"`
		Plans      struct {
			Count   int64
			Seconds float64
		} `json:"commands_that_plan"`
		Database int64 `json:"database_bytes"`
		Memory   map[string]uint64
	}
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatalf("%v in %s", err, w.Body)
	}
	if a := got.Acknowledged; a.Count != answered || a.Seconds <= 0 || a.P50 == "none" || a.P99 == "none" ||
		len(a.Within) != len(bounds)+1 {
		t.Errorf("acknowledged: got %+v, want %d", a, answered)
	}
	if got.Unanswered != 1 || got.Reconnects != 1 || got.Abandoned != 0 || got.Sent != 2 || got.Late != 1 ||
		got.Failed != 1 {
		t.Errorf("got %+v", got)
	}
	if got.Plans.Count != 1 || got.Plans.Seconds <= 0 || got.Database != 0 || got.Memory["goroutines"] == 0 ||
		got.Memory["heap"] == 0 {
		t.Errorf("got %+v", got)
	}
}

func (s *spread) count() (all int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, n := range s.n {
		all += n
	}
	return all
}

// TestSpread: the classes that hold the middle and the slowest in a hundred.
func TestSpread(t *testing.T) {
	var s spread
	for range 98 {
		s.add(4 * time.Millisecond)
	}
	s.add(50 * time.Millisecond)
	s.add(time.Minute)
	b, err := json.Marshal(&s)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"p50_within":"0.005"`, `"p99_within":"0.05"`, `"count":100`, `"more":1`} {
		if !strings.Contains(string(b), want) {
			t.Errorf("%s is not in %s", want, b)
		}
	}
}

// TestHealth: the states of the gateway in words, with the status codes that a supervisor looks at.
func TestHealth(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	s.Gateway(func(g *standin.Gateway) { g.NoHello = true })
	f, err := newFace(bot.New(openStore(t), time.Now, nil, bot.Options{}), Options{Token: standin.Token, API: s.URL},
		quick())
	if err != nil {
		t.Fatal(err)
	}
	look := func() (int, string) {
		w := httptest.NewRecorder()
		f.watchHandler("").ServeHTTP(w, httptest.NewRequest("GET", "/health", nil))
		return w.Code, w.Body.String()
	}
	if code, words := look(); code != 503 || !strings.HasPrefix(words, "Starting") {
		t.Errorf("before: %d %s", code, words)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- f.Run(ctx) }()
	eventually(t, "it tries", func() bool { n, _, _ := s.Connects(); return n > 0 })
	if code, words := look(); code != 503 || !strings.HasPrefix(words, "Connecting to Discord") {
		t.Errorf("trying: %d %s", code, words)
	}
	s.Gateway(func(g *standin.Gateway) { g.NoHello = false })
	eventually(t, "it is connected", func() bool {
		code, words := look()
		return code == 200 && strings.HasPrefix(words, "Connected to Discord since ")
	})
	cancel()
	if err := <-ended; err != nil {
		t.Error(err)
	}
	if code, words := look(); code != 503 || !strings.HasPrefix(words, "Connecting to Discord since ") {
		t.Errorf("after: %d %s", code, words)
	}
}

// TestServeWithMetrics runs "tureen serve" with figures, as a person starts it.
func TestServeWithMetrics(t *testing.T) {
	s := standin.New(t)
	t.Setenv(TokenVariable, standin.Token)
	free, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address := free.Addr().String()
	free.Close()
	ctx, interrupt := context.WithCancel(context.Background())
	defer interrupt()
	var out, errs strings.Builder
	ended := make(chan int, 1)
	go func() {
		ended <- Main(ctx, []string{"-api", s.URL, "-db", filepath.Join(t.TempDir(), "tureen.db"), "-metrics", address,
			"-shard", "0/1"}, nil, &out, alsoLogged(&errs))
	}()
	ask := func(path string) (int, string) {
		resp, err := http.Get("http://" + address + path)
		if err != nil {
			return 0, err.Error()
		}
		defer resp.Body.Close()
		body, err := io.ReadAll(resp.Body)
		if err != nil {
			t.Error(err)
		}
		return resp.StatusCode, string(body)
	}
	eventually(t, "it is healthy", func() bool { code, _ := ask("/health"); return code == 200 })
	if code, body := ask("/metrics"); code != 200 || !strings.Contains(body, `"database_bytes": `) ||
		strings.Contains(body, `"database_bytes": 0`) {
		t.Errorf("metrics: %d %s", code, body)
	}
	interrupt()
	if status := <-ended; status != 0 {
		t.Errorf("exit status %d: %s", status, errs.String())
	}
	if code, _ := ask("/health"); code != 0 {
		t.Error("figures are still served")
	}
}
