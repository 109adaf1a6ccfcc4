package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"time"
)

// platformHost is the only host off loopback that the bot's token is sent to.
const platformHost = "discord.com"

// guard stands between the library and the network. It keeps the token from going anywhere but the
// platform (or a stand-in on loopback), keeps the platform's rate limits, which the library ignores in part
// (the global 429, 50 requests a second, 429 with HTML), waits no longer than the caller's context, and
// repeats what failed where that is safe. It hides the limits' headers from the library, whose own limiter
// sleeps without a context and keeps every route for ever.
type guard struct {
	api  *url.URL // a stand-in; nil for the platform
	next http.RoundTripper
	time timing

	mu       sync.Mutex
	pause    time.Time             // nothing is sent before, but for interactions
	sent     [maxASecond]time.Time // when the last ones were sent, interactions apart
	oldest   int                   // of them
	resets   map[string]time.Time  // by route: spent until then
	forgetAt time.Time
	skew     time.Duration // of our clock, by the platform's latest answer
}

// Limits of the platform: page topics/rate-limits, August 2026.
const (
	maxASecond  = 50 // requests, interactions apart
	maxAttempts = 5
	maxAnswer   = 8 << 20 // bytes read of an answer
)

// errForeign means that a request would have gone elsewhere.
var errForeign = errors.New("refusing to send the bot's token to another host than the platform's")

// limitedError means that the platform asks to wait longer than the caller can.
type limitedError struct{ wait time.Duration }

func (e *limitedError) Error() string {
	return fmt.Sprintf("the platform asks to wait %v", e.wait.Round(time.Millisecond))
}

// RetryAfter says when to try again at the earliest.
func (e *limitedError) RetryAfter() time.Duration { return e.wait }

// sending says, through a context, how a request may be treated, and tells what became of it.
type sending struct {
	repeatable bool // it does no harm twice
	doubtful   bool // set by the guard: an earlier attempt may have arrived
}

type sendingKey struct{}

func withSending(ctx context.Context, s *sending) context.Context {
	return context.WithValue(ctx, sendingKey{}, s)
}

// parseAPI reads the address of a stand-in, which must be on loopback: the token is sent there.
func parseAPI(text string) (*url.URL, error) {
	if text == "" {
		return nil, nil
	}
	u, err := url.Parse(text)
	if err != nil || u.Host == "" || u.Scheme != "http" && u.Scheme != "https" {
		return nil, fmt.Errorf("the address %q of the API is no URL; give one as http://127.0.0.1:8080", text)
	}
	if !isLoopback(u.Hostname()) {
		return nil, fmt.Errorf("the API's address %s is not on this machine; the token goes to no other address than the "+
			"platform's own, so give one as http://127.0.0.1:8080, or none", u.Host)
	}
	return u, nil
}

func isLoopback(host string) bool {
	if host == "localhost" {
		return true
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}

// RoundTrip sends a request. The response's body is in memory.
func (g *guard) RoundTrip(req *http.Request) (*http.Response, error) {
	if req.URL.Scheme != "https" || req.URL.Host != platformHost {
		return nil, errForeign
	}
	ctx := req.Context()
	how, _ := ctx.Value(sendingKey{}).(*sending)
	if how == nil {
		how = &sending{}
	}
	repeatable := how.repeatable || req.Method != http.MethodPost
	key, exempt := routeOf(req)
	pause := g.time.retryPause
	for attempt := 1; ; attempt++ {
		if err := g.wait(ctx, key, exempt); err != nil {
			return nil, err
		}
		resp, err := g.try(ctx, req)
		last := attempt == maxAttempts
		switch {
		case err != nil:
			if !repeatable || last || ctx.Err() != nil {
				return nil, err
			}
			how.doubtful = true
		case resp.StatusCode == http.StatusTooManyRequests:
			wait, global := retryAfter(resp)
			g.block(key, wait, global && !exempt)
			if err := sleep(ctx, wait); err != nil || last {
				return nil, &limitedError{wait}
			}
			continue
		case resp.StatusCode >= 500:
			if !repeatable || last {
				return resp, nil
			}
			how.doubtful = true
		default:
			g.learn(key, resp.Header)
			return resp, nil
		}
		if sleep(ctx, jitter(pause)) != nil {
			if resp != nil {
				return resp, nil
			}
			return nil, ctx.Err()
		}
		pause *= 2
	}
}

// try makes one attempt and reads the whole answer, so that its time can be limited.
func (g *guard) try(ctx context.Context, req *http.Request) (*http.Response, error) {
	ctx, cancel := context.WithTimeout(ctx, g.time.tryWithin)
	defer cancel()
	r := req.Clone(ctx)
	if req.GetBody != nil {
		body, err := req.GetBody()
		if err != nil {
			return nil, err
		}
		r.Body = body
	}
	if g.api != nil {
		r.URL.Scheme, r.URL.Host, r.Host = g.api.Scheme, g.api.Host, g.api.Host
	}
	resp, err := g.next.RoundTrip(r)
	if err != nil {
		return nil, err
	}
	defer resp.Body.Close()
	if theirs, err := http.ParseTime(resp.Header.Get("Date")); err == nil {
		g.mu.Lock()
		g.skew = time.Since(theirs)
		g.mu.Unlock()
	}
	data, err := io.ReadAll(io.LimitReader(resp.Body, maxAnswer))
	if err != nil {
		return nil, err
	}
	resp.Body = io.NopCloser(bytes.NewReader(data))
	return resp, nil
}

// clockSkew is how far our clock is ahead of the platform's, to a second or two.
func (g *guard) clockSkew() time.Duration {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.skew
}

// routeOf names a request's rate limit: its method and path, where only the ids that the platform counts
// separately stay (a channel, a webhook with its token). Interactions are exempt from the global limit.
func routeOf(req *http.Request) (key string, exempt bool) {
	parts := strings.Split(strings.Trim(req.URL.Path, "/"), "/")
	for i, p := range parts {
		if _, err := strconv.ParseUint(p, 10, 64); err == nil && i > 0 && parts[i-1] != "channels" &&
			parts[i-1] != "webhooks" && parts[i-1] != "interactions" {
			parts[i] = ":"
		}
	}
	path := strings.Join(parts, "/")
	return req.Method + " " + path, strings.Contains(path, "/interactions/") || strings.Contains(path, "/webhooks/")
}

// wait holds a request back until the limits that are known let it go.
func (g *guard) wait(ctx context.Context, key string, exempt bool) error {
	for {
		g.mu.Lock()
		now := time.Now()
		var until time.Time
		if r := g.resets[key]; r.After(now) {
			until = r
		}
		if !exempt {
			if g.pause.After(until) && g.pause.After(now) {
				until = g.pause
			}
			if free := g.sent[g.oldest].Add(time.Second); until.IsZero() && free.After(now) {
				until = free
			}
		}
		if until.IsZero() {
			if !exempt {
				g.sent[g.oldest] = now
				g.oldest = (g.oldest + 1) % maxASecond
			}
			g.mu.Unlock()
			return ctx.Err()
		}
		g.mu.Unlock()
		wait := time.Until(until)
		if err := sleep(ctx, wait); err != nil {
			return &limitedError{wait}
		}
	}
}

// block notes a 429.
func (g *guard) block(key string, wait time.Duration, global bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	until := time.Now().Add(wait)
	if global {
		if until.After(g.pause) {
			g.pause = until
		}
		return
	}
	g.keep(key, until)
}

// learn reads a good answer's headers: a route whose requests are spent waits for its reset.
func (g *guard) learn(key string, h http.Header) {
	spent := h.Get("X-RateLimit-Remaining") == "0"
	after, err := strconv.ParseFloat(h.Get("X-RateLimit-Reset-After"), 64)
	for name := range h {
		if strings.HasPrefix(strings.ToLower(name), "x-ratelimit") {
			delete(h, name)
		}
	}
	if spent && err == nil {
		g.mu.Lock()
		defer g.mu.Unlock()
		g.keep(key, time.Now().Add(toDuration(after)))
	}
}

// keep remembers a reset, and forgets those that have passed now and then. The caller holds mu.
func (g *guard) keep(key string, until time.Time) {
	now := time.Now()
	if g.resets == nil {
		g.resets = map[string]time.Time{}
	}
	if now.After(g.forgetAt) {
		for k, r := range g.resets {
			if r.Before(now) {
				delete(g.resets, k)
			}
		}
		g.forgetAt = now.Add(time.Minute)
	}
	g.resets[key] = until
}

// retryAfter reads how long a 429 asks to wait, and whether for everything. Its body may be HTML.
func retryAfter(resp *http.Response) (wait time.Duration, global bool) {
	data, _ := io.ReadAll(resp.Body)
	var body struct {
		RetryAfter float64 `json:"retry_after"`
		Global     bool    `json:"global"`
	}
	_ = json.Unmarshal(data, &body)
	sec := body.RetryAfter
	if h, err := strconv.ParseFloat(resp.Header.Get("Retry-After"), 64); err == nil && h > sec {
		sec = h
	}
	if wait = toDuration(sec); wait <= 0 {
		wait = time.Second
	}
	return wait, body.Global || resp.Header.Get("X-RateLimit-Global") != ""
}

func toDuration(sec float64) time.Duration { return time.Duration(sec * float64(time.Second)) }

// sleep waits, or answers an error at once when the context will not last so long.
func sleep(ctx context.Context, d time.Duration) error {
	if end, ok := ctx.Deadline(); ok && time.Until(end) < d {
		return context.DeadlineExceeded
	}
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}
