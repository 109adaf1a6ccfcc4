package discord

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"sync"
	"sync/atomic"
	"time"

	"github.com/bwmarrin/discordgo"
)

// gateway keeps a connection through which the platform tells what people do. The library's reconnecting is
// not used: this loop can be stopped, pauses with a cap and a jitter, and gives up where trying is useless.
type gateway struct {
	token         string
	guard         *guard
	time          timing
	log           *slog.Logger
	event         func(kind string, data json.RawMessage) // must not block
	intents       discordgo.Intent
	shard, shards int        // which of how many; with up to one, the only one
	turns         *turnstile // of IDENTIFYs; nil: no other session starts beside this one
	counts        *counts    // may be nil

	abandoned atomic.Int32 // sessions that deadlocked
	ready     atomic.Bool
	since     atomic.Int64 // when ready last changed, in Unix milliseconds; 0: it has not been ready
}

// maxAbandoned is how many deadlocked sessions are left behind before the process should be restarted: each
// leaks a few goroutines.
const maxAbandoned = 5

// errWedged means that the process should end and be started again by its supervisor.
var errWedged = errors.New("the connection to Discord has deadlocked too often; tureen has to be started again")

// errDeadlocked means that the library no longer gives its lock free.
var errDeadlocked = errors.New("the library's session has deadlocked")

// stopped is an error that trying again will not mend.
type stopped struct {
	why    string
	shards bool // other shards may
}

func (e *stopped) Error() string { return e.why }

// life is one session of the library's and what we know of it.
type life struct {
	session *discordgo.Session
	line    line
	begun   func()        // others may begin now
	ready   chan struct{} // gets a value at READY and RESUMED
	down    chan struct{} // gets a value at the end of a connection
}

// run connects and stays connected until the context ends, which gives nil, or until there is no point.
func (g *gateway) run(ctx context.Context) error {
	var l *life
	pause := g.time.backOffMin
	for {
		resuming := l != nil
		if l == nil {
			done, err := g.turns.wait(ctx, g.shard)
			if err != nil {
				return nil
			}
			if l, err = g.newLife(); err != nil {
				return err
			}
			l.begun = done
		}
		began := time.Now()
		wasReady, err := g.connection(ctx, l)
		l.begun()
		if g.ready.Swap(false) {
			g.since.Store(time.Now().UnixMilli())
		}
		if ctx.Err() != nil {
			return nil
		}
		g.counts.reconnect()
		if why, yes := fatal(err); yes {
			return &stopped{why: why, shards: isShards(err)}
		}
		var e *stopped
		if errors.As(err, &e) {
			return err
		}
		if errors.Is(err, errDeadlocked) {
			g.counts.abandon()
			if g.abandoned.Add(1) >= maxAbandoned {
				return errWedged
			}
		}
		// A session is resumed once; where that does not work, or the library is in doubt, a new one is begun.
		if !wasReady || err != nil {
			l = nil
		}
		if wasReady && time.Since(began) > g.time.backOffMax {
			pause = g.time.backOffMin
		}
		g.log.Info("connection to Discord ended", "error", err, "was ready", wasReady, "resumed", resuming, "pause", pause)
		if sleep(ctx, jitter(pause)) != nil {
			return nil
		}
		if pause = min(2*pause, g.time.backOffMax); wasReady {
			pause = g.time.backOffMin
		}
	}
}

func (g *gateway) newLife() (*life, error) {
	s, err := newSession(g.token, g.guard)
	if err != nil {
		return nil, err
	}
	l := &life{session: s, ready: make(chan struct{}, 1), down: make(chan struct{}, 1)}
	s.Dialer = l.line.dialer(g.guard.api != nil, g.time.silence, g.time.tryWithin)
	s.Identify.Intents = g.intents
	s.ShardID, s.ShardCount = g.shard, g.shards
	s.SyncEvents = true // else a goroutine an event, without a bound
	s.AddHandler(func(_ *discordgo.Session, _ *discordgo.Disconnect) { signal(l.down) })
	s.AddHandler(func(_ *discordgo.Session, e *discordgo.Event) {
		if e.Type == "READY" || e.Type == "RESUMED" {
			l.begun()
			signal(l.ready)
			g.ready.Store(true)
			g.since.Store(time.Now().UnixMilli())
		}
		if e.Type != "" {
			// Raw, since the library cannot decode some that the platform sends.
			g.event(e.Type, e.RawData)
		}
	})
	return l, nil
}

func signal(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// connection opens a connection and watches it to its end. wasReady says whether it got so far. A nil error
// means that it ended in order and may be resumed.
func (g *gateway) connection(ctx context.Context, l *life) (wasReady bool, err error) {
	drain(l.ready)
	drain(l.down)
	opened := make(chan error, 1)
	var opening sync.WaitGroup
	opening.Go(func() {
		defer func() {
			if v := recover(); v != nil {
				opened <- fmt.Errorf("the library panicked: %v", v)
			}
		}()
		opened <- l.session.Open()
	})
	limit := time.NewTimer(g.time.openWithin)
	defer limit.Stop()
	select {
	case err = <-opened:
	case <-ctx.Done():
		err = g.rescue(l, opened)
	case <-limit.C:
		if err = g.rescue(l, opened); err == nil {
			err = errors.New("the gateway did not greet in time")
		}
	}
	if err != nil {
		var e *apiError
		if errors.As(plainError(err), &e) && e.status == 401 {
			return false, &stopped{why: tokenRefused}
		}
		l.line.cut()
		return false, err
	}
	if ctx.Err() != nil {
		return false, g.hangUp(l)
	}
	select {
	case <-l.ready:
	case <-l.down:
		return false, nil
	case <-limit.C:
		return false, errors.Join(errors.New("the gateway did not get ready in time"), g.hangUp(l))
	case <-ctx.Done():
		return false, g.hangUp(l)
	}
	return true, g.watch(ctx, l)
}

func drain(c chan struct{}) {
	select {
	case <-c:
	default:
	}
}

// rescue frees a call of Open that hangs, by closing the connection under it. One that hangs even so is
// deadlocked: op 7 as the answer to IDENTIFY or RESUME makes the library wait for its own lock for good
// (discordgo issue 513).
func (g *gateway) rescue(l *life, opened chan error) error {
	l.line.cut()
	limit := time.NewTimer(g.time.lockLimit)
	defer limit.Stop()
	select {
	case err := <-opened:
		if err == nil {
			err = g.hangUp(l)
		}
		return err
	case <-limit.C:
		return errDeadlocked
	}
}

// watch sees that the session lives: that heartbeats are acknowledged, and that its lock is free now and
// then. The library itself notices a dead connection only after five intervals.
func (g *gateway) watch(ctx context.Context, l *life) error {
	tick := time.NewTicker(g.time.watch)
	defer tick.Stop()
	free := time.Now()
	for {
		select {
		case <-l.down:
			return nil
		case <-ctx.Done():
			return g.hangUp(l)
		case <-tick.C:
		}
		if l.session.TryRLock() {
			ack := l.session.LastHeartbeatAck
			l.session.RUnlock()
			free = time.Now()
			if time.Since(ack) > g.time.ackLimit {
				g.log.Warn("no heartbeat acknowledged", "for", time.Since(ack).Round(time.Second))
				return errors.Join(errors.New("heartbeats are not acknowledged"), g.hangUp(l))
			}
			continue
		}
		if time.Since(free) > g.time.lockLimit {
			l.line.cut()
			return errDeadlocked
		}
	}
}

// hangUp ends a connection and waits until the library has noticed. The connection is cut, not closed
// through the library, so that it is the reading goroutine that tidies up and nobody writes meanwhile.
func (g *gateway) hangUp(l *life) error {
	l.line.cut()
	limit := time.NewTimer(g.time.lockLimit)
	defer limit.Stop()
	select {
	case <-l.down:
		return nil
	case <-limit.C:
		return errDeadlocked
	}
}
