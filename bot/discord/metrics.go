package discord

import (
	"context"
	"encoding/json"
	"expvar"
	"fmt"
	"net"
	"net/http"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"tureen/bot/talk"
	"tureen/reminders"
)

// What is counted while serving, for whoever runs it: /metrics has the figures as JSON, /health says in words, and by
// its status code, whether people are being heard. Both are served on loopback only, when asked for.

// counts are a process's figures. Nil counts nothing.
type counts struct {
	acks       spread       // from the event to the first answer
	unanswered atomic.Int64 // interactions whose first answer was not taken
	reconnects atomic.Int64
	abandoned  atomic.Int64 // sessions of the library that deadlocked

	sent, late, failed atomic.Int64 // reminders
	plans              spread       // commands that plan
}

func (c *counts) reconnect() {
	if c != nil {
		c.reconnects.Add(1)
	}
}

func (c *counts) abandon() {
	if c != nil {
		c.abandoned.Add(1)
	}
}

func (c *counts) acknowledge(after time.Duration, err error) {
	if err != nil {
		c.unanswered.Add(1)
		return
	}
	c.acks.add(after)
}

// lateAfter is from when on a reminder counts as late.
const lateAfter = 2 * time.Minute

func (c *counts) reminded(n reminders.Note, err error) {
	if err != nil {
		c.failed.Add(1)
		return
	}
	c.sent.Add(1)
	if time.Since(n.Due) > lateAfter {
		c.late.Add(1)
	}
}

// bounds are those of a spread's classes; a last class has what is above them.
var bounds = [...]time.Duration{
	5 * time.Millisecond, 10 * time.Millisecond, 20 * time.Millisecond, 50 * time.Millisecond,
	100 * time.Millisecond, 200 * time.Millisecond, 500 * time.Millisecond,
	time.Second, 2 * time.Second, 3 * time.Second, 10 * time.Second, 30 * time.Second,
}

// spread counts lengths of time by class. The zero value works.
type spread struct {
	mu  sync.Mutex
	n   [len(bounds) + 1]int64
	sum time.Duration
}

func (s *spread) add(d time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	i := 0
	for i < len(bounds) && d > bounds[i] {
		i++
	}
	s.n[i]++
	s.sum += d
}

// MarshalJSON tells how many there were, their sum, the classes that hold the middle and the slowest in a hundred, and
// all classes, each by its upper bound in seconds.
func (s *spread) MarshalJSON() ([]byte, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	var all int64
	classes := map[string]int64{}
	for i, n := range s.n {
		all += n
		classes[bound(i)] = n
	}
	at := func(percent int64) string {
		var below int64
		for i, n := range s.n {
			if below += n; n > 0 && below*100 >= all*percent {
				return bound(i)
			}
		}
		return "none"
	}
	return json.Marshal(map[string]any{"count": all, "seconds": s.sum.Seconds(),
		"p50_within": at(50), "p99_within": at(99), "within_seconds": classes})
}

func bound(i int) string {
	if i == len(bounds) {
		return "more"
	}
	return fmt.Sprint(bounds[i].Seconds())
}

// ask has the bot answer a request, and counts how long it takes where it plans.
func (f *Face) ask(ctx context.Context, req talk.Request) talk.Reply {
	began := time.Now()
	rep := f.bot.Do(ctx, req)
	for _, c := range f.bot.Commands() {
		if c.Name == req.Command && c.Slow {
			f.counts.plans.add(time.Since(began))
		}
	}
	return rep
}

// health says whether people are heard, and how.
func (f *Face) health() (words string, ok bool) {
	f.mu.Lock()
	gates, listening := f.gates, f.listening
	f.mu.Unlock()
	if listening {
		return "Listening for interactions over HTTP.", true
	}
	if len(gates) == 0 {
		return "Starting: Discord has not yet said how to connect.", false
	}
	ok = true
	var lines []string
	for _, g := range gates {
		state := "connected to Discord"
		if !g.ready.Load() {
			ok, state = false, "connecting to Discord"
		}
		if since := g.since.Load(); since > 0 {
			state += " since " + time.UnixMilli(since).UTC().Format(time.RFC3339)
		}
		if len(gates) > 1 || g.shards > 1 {
			state = fmt.Sprintf("shard %d of %d: %s", g.shard, g.shards, state)
		}
		lines = append(lines, strings.ToUpper(state[:1])+state[1:]+".")
	}
	return strings.Join(lines, "\n"), ok
}

// figures are the metrics, as variables of expvar.
func (f *Face) figures(db string) *expvar.Map {
	m := new(expvar.Map).Init()
	for name, value := range map[string]func() any{
		"interactions_acknowledged": func() any { return &f.counts.acks },
		"interactions_unanswered":   func() any { return f.counts.unanswered.Load() },
		"gateway_reconnects":        func() any { return f.counts.reconnects.Load() },
		"gateway_abandoned":         func() any { return f.counts.abandoned.Load() },
		"reminders_sent":            func() any { return f.counts.sent.Load() },
		"reminders_late":            func() any { return f.counts.late.Load() },
		"reminders_failed":          func() any { return f.counts.failed.Load() },
		"commands_that_plan":        func() any { return &f.counts.plans },
		"database_bytes":            func() any { return databaseBytes(db) },
		"memory":                    memory,
	} {
		m.Set(name, expvar.Func(value))
	}
	return m
}

// databaseBytes is the size of a database with what has not been written back into it yet.
func databaseBytes(path string) (sum int64) {
	for _, p := range []string{path, path + "-wal"} {
		if info, err := os.Stat(p); err == nil {
			sum += info.Size()
		}
	}
	return sum
}

// watchHandler serves /metrics and /health.
func (f *Face) watchHandler(db string) http.Handler {
	mux := http.NewServeMux()
	figures := f.figures(db)
	mux.HandleFunc("GET /metrics", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "application/json")
		fmt.Fprintln(w, figures)
	})
	mux.HandleFunc("GET /health", func(w http.ResponseWriter, _ *http.Request) {
		words, ok := f.health()
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		if !ok {
			w.WriteHeader(http.StatusServiceUnavailable)
		}
		fmt.Fprintln(w, words)
	})
	return mux
}

// watchAddress sees that figures are served to this machine only.
func watchAddress(address string) error {
	host, _, err := net.SplitHostPort(address)
	if err != nil || !isLoopback(host) {
		return fmt.Errorf("the metrics' address %q is not on this machine alone; give one as 127.0.0.1:9095", address)
	}
	return nil
}

// serveWatch serves metrics and health until the context ends.
func (f *Face) serveWatch(ctx context.Context, listener net.Listener, db string) error {
	s := &http.Server{Handler: f.watchHandler(db),
		ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second, WriteTimeout: 10 * time.Second}
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
		err := s.Close()
		<-ended
		return err
	}
}
