package discord

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"

	"tureen/bot/talk"
	"tureen/store"
)

// A bot in many communities divides them into shards, a gateway session each: the platform sends a community's
// events to the shard (id >> 22) mod shards, and direct messages to shard 0. One process may have all shards, or one
// of them, where several share a database on one machine. Page events/gateway.

// Share is which shards a process has. The zero value has all of as many as the platform recommends.
type Share struct {
	Shards int  // how many there are; 0: as many as recommended
	One    bool // only one of them is this process's: Shard
	Shard  int
}

// parseShare reads the flags -shards N and -shard I/N.
func parseShare(shards int, one string) (Share, error) {
	if shards < 0 || shards > 0 && one != "" {
		return Share{}, errors.New("give -shards a number, as 4, or -shard one of them, as 0/4, and not both")
	}
	if one == "" {
		return Share{Shards: shards}, nil
	}
	i, n, ok := strings.Cut(one, "/")
	shard, err := strconv.Atoi(i)
	of, err2 := strconv.Atoi(n)
	if !ok || err != nil || err2 != nil || shard < 0 || of < 1 || shard >= of {
		return Share{}, fmt.Errorf("%q is no shard; give -shard as 0/4 to 3/4, where there are four", one)
	}
	return Share{Shards: of, One: true, Shard: shard}, nil
}

// first reports whether a process has shard 0, which does what is done once: commands, backups.
func (s Share) first() bool { return !s.One || s.Shard == 0 }

// scope is whose reminders a process sends: those of its shards.
func (s Share) scope() store.Scope {
	in := store.Scope{Except: talk.Terminal}
	if s.One {
		in.Shard, in.Shards = s.Shard, s.Shards
	}
	return in
}

// start is what the platform says about starting sessions.
type start struct {
	Shards int `json:"shards"`
	Limit  struct {
		Remaining   int   `json:"remaining"`
		ResetAfter  int64 `json:"reset_after"` // milliseconds
		Concurrency int   `json:"max_concurrency"`
	} `json:"session_start_limit"`
}

// askStart asks the platform until it answers, and until it allows so many sessions to be started; nil when the
// context has ended.
func (f *Face) askStart(ctx context.Context) (*start, error) {
	pause := f.time.backOffMin
	for ctx.Err() == nil {
		var s start
		err := f.rest.do(ctx, "GET", "gateway/bot", nil, &s)
		var e *apiError
		switch {
		case errors.As(err, &e) && e.status == http.StatusUnauthorized:
			return nil, &stopped{why: tokenRefused}
		case err == nil && s.Limit.Remaining < f.share.count(s.Shards):
			// Beyond the day's limit the platform resets the token.
			f.log.Error("too many connections today; waiting", "remaining", s.Limit.Remaining, "milliseconds",
				s.Limit.ResetAfter)
			pause = time.Duration(max(1, s.Limit.ResetAfter)) * time.Millisecond
		case err == nil:
			return &s, nil
		default:
			f.log.Warn("Discord does not say how to connect", "error", err, "pause", pause)
		}
		if sleep(ctx, pause) != nil {
			break
		}
		pause = min(2*pause, f.time.backOffMax)
	}
	return nil, nil
}

// count is how many shards are this process's, of so many recommended.
func (s Share) count(recommended int) int {
	switch {
	case s.One:
		return 1
	case s.Shards > 0:
		return s.Shards
	}
	return max(1, recommended)
}

// connect makes this process's gateways.
func (f *Face) connect(s *start) {
	shards := f.share.Shards
	if shards == 0 {
		shards = max(1, s.Shards)
	}
	if s.Shards > shards {
		f.log.Warn("Discord recommends more shards", "recommended", s.Shards, "shards", shards)
	}
	turns := newTurnstile(shards, s.Limit.Concurrency, f.time.identifyEvery)
	var gates []*gateway
	for i := range shards {
		if f.share.One && i != f.share.Shard {
			continue
		}
		log := f.log
		if shards > 1 {
			log = log.With("shard", i)
		}
		gates = append(gates, &gateway{token: f.token, guard: f.guard, time: f.time, log: log, event: f.event,
			intents: intents(f.hearsMembers), shard: i, shards: shards, turns: turns, counts: &f.counts})
	}
	f.mu.Lock()
	f.gates = gates
	f.mu.Unlock()
}

// runGates keeps all gateways until the context ends or there is no point in going on. Where their number follows the
// platform's recommendation and is no longer enough, they begin anew with another.
func (f *Face) runGates(ctx context.Context) error {
	for try := 1; ; try++ {
		err := f.runShards(ctx)
		var e *stopped
		if !errors.As(err, &e) || !e.shards || f.share.Shards > 0 || try == maxReshards {
			return err
		}
		f.log.Warn("Discord asks for other shards; beginning anew")
		if sleep(ctx, f.time.backOffMax) != nil {
			return nil
		}
	}
}

// maxReshards is how often the number of shards may prove too small while a process runs.
const maxReshards = 10

func (f *Face) runShards(ctx context.Context) error {
	s, err := f.askStart(ctx)
	if s == nil {
		return err
	}
	f.connect(s)
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	var wait sync.WaitGroup
	for _, g := range f.gates {
		wait.Go(func() {
			if err := g.run(ctx); err != nil {
				cancel(err)
			}
		})
	}
	wait.Wait()
	if err := context.Cause(ctx); !errors.Is(err, context.Canceled) {
		return err
	}
	return nil
}

// turnstile lets sessions IDENTIFY one after another: of shards of one key, their number modulo what may start at
// once, one starts a pause after another has. (The library answers INVALID_SESSION with an IDENTIFY of its own, at
// once.)
type turnstile struct {
	every time.Duration
	keys  []chan struct{} // full while a session of the key is starting

	mu    sync.Mutex
	first map[int]time.Time // by shard, until it has had it
	next  map[int]time.Time // by key
}

// newTurnstile gives each shard its first turn by its number, so that processes which start together keep out of
// each other's way.
func newTurnstile(shards, concurrency int, every time.Duration) *turnstile {
	t := &turnstile{every: every, first: map[int]time.Time{}, next: map[int]time.Time{}}
	for range max(1, concurrency) {
		t.keys = append(t.keys, make(chan struct{}, 1))
	}
	now := time.Now()
	for i := range shards {
		t.first[i] = now.Add(time.Duration(i/len(t.keys)) * every)
	}
	return t
}

// wait waits for a shard's turn, which ends when done is called: at once it has started, or has failed to.
func (t *turnstile) wait(ctx context.Context, shard int) (done func(), err error) {
	if t == nil {
		return func() {}, ctx.Err()
	}
	key := shard % len(t.keys)
	t.mu.Lock()
	at := t.first[shard]
	delete(t.first, shard)
	t.mu.Unlock()
	if err := sleep(ctx, time.Until(at)); err != nil {
		return nil, err
	}
	select {
	case t.keys[key] <- struct{}{}:
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	done = sync.OnceFunc(func() {
		t.mu.Lock()
		t.next[key] = time.Now().Add(t.every)
		t.mu.Unlock()
		<-t.keys[key]
	})
	t.mu.Lock()
	at = t.next[key]
	t.mu.Unlock()
	if sleep(ctx, time.Until(at)) != nil || ctx.Err() != nil {
		done()
		return nil, context.Cause(ctx)
	}
	return done, nil
}
