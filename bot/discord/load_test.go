package discord

import (
	"context"
	"fmt"
	"log/slog"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"

	"tureen/bot"
	"tureen/bot/discord/standin"
	"tureen/store"
)

// BenchmarkLoad has people of 1000 communities, five of each, ask one command after another at 20 a second, as a
// mix that does not plan. It reports the time from the event to the first answer, and the memory in use, which
// the stand-in shares.
func BenchmarkLoad(b *testing.B) {
	const communities, each, pace = 1000, 5, time.Second / 20
	ctx := context.Background()
	s, err := store.Open(ctx, filepath.Join(b.TempDir(), "tureen.db"))
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	server := standin.New(b)
	clock := func() time.Time { return wednesday }
	house := bot.New(s, clock, nil, bot.Options{})
	face, err := newFace(house, Options{Token: standin.Token, API: server.URL, Log: slog.New(slog.DiscardHandler)}, production)
	if err != nil {
		b.Fatal(err)
	}
	ctx, cancel := context.WithCancel(ctx)
	ended := make(chan error, 1)
	go func() { ended <- face.Run(ctx) }()
	defer func() { cancel(); <-ended }()
	if !server.Online(10 * time.Second) {
		b.Fatal("never online")
	}
	var people []*standin.Person
	for range communities {
		guild := server.Guild()
		channel := server.Channel(guild)
		for range each {
			people = append(people, server.Person("Ada", guild, channel))
		}
		host := people[len(people)-each]
		rep := house.Do(ctx, bot.Request{Community: guild, Channel: channel, User: bot.User{ID: host.ID, Name: "Ada"}, Command: "party new",
			Options: map[string]string{"name": "Supper", "date": "2026-09-05", "arrive": "19:00", "covers": "8", "courses": "main 19:30"}})
		if rep.Refused {
			b.Fatal(rep.Text)
		}
	}
	mix := []struct {
		command string
		options map[string]string
	}{{"party show", nil}, {"help", nil}, {"task list", nil}, {"guest add", map[string]string{"name": "Guest"}}, {"now", nil}, {"dish list", nil}}
	var waits []time.Duration
	results := make(chan time.Duration, 1024)
	started := 0
	next := time.NewTicker(pace)
	defer next.Stop()
	b.ResetTimer()
	for started < b.N || len(waits) < b.N {
		select {
		case d := <-results:
			waits = append(waits, d)
			continue
		case <-next.C:
		}
		if started == b.N {
			continue
		}
		p, m := people[started*7919%len(people)], mix[started%len(mix)]
		options := map[string]string{}
		for k, v := range m.options {
			options[k] = fmt.Sprint(v, started)
		}
		started++
		go func() {
			a := p.Slash(m.command, options, nil)
			if a.Silent || a.Refused != "" {
				b.Errorf("%s: %q", m.command, a.Refused)
			}
			results <- a.Acked
		}()
	}
	b.StopTimer()
	slices.Sort(waits)
	var mem runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&mem)
	b.ReportMetric(float64(waits[len(waits)/2].Microseconds())/1000, "ms-p50")
	b.ReportMetric(float64(waits[len(waits)*99/100].Microseconds())/1000, "ms-p99")
	b.ReportMetric(float64(mem.HeapAlloc)/(1<<20), "MB")
}
