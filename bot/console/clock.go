package console

import (
	"sync"
	"time"
)

// clock is the time of a chat: the real time, moved on by what was waited; or, when it was set, a time that
// stands still but for waiting.
type clock struct {
	mu    sync.Mutex
	set   time.Time // zero: the real time
	moved time.Duration
}

func (c *clock) now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.set.IsZero() {
		return time.Now().Add(c.moved)
	}
	return c.set.Add(c.moved)
}

// advance moves the clock on to an instant; it never goes back.
func (c *clock) advance(to time.Time) {
	now := c.now()
	c.mu.Lock()
	defer c.mu.Unlock()
	if to.After(now) {
		c.moved += to.Sub(now)
	}
}
