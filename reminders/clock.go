package reminders

import (
	"context"
	"fmt"
	"log/slog"
	"path/filepath"
	"sync/atomic"
	"time"

	"github.com/robfig/cron/v3"
)

// longestNap is the longest that the dispatcher sleeps before it looks again: what a suspended machine or a
// stepped clock costs at most.
const longestNap = 30 * time.Second

// soon is how far off a run is that should be now: cron never fires what is not in the future.
const soon = 10 * time.Millisecond

// alarm is the schedule of the dispatcher's one entry. Next reads nothing but what is in it: asking the
// store, or cron, from within would block cron's loop.
type alarm struct{ next atomic.Int64 } // Unix milliseconds; 0: nothing waits

// Next implements cron.Schedule. Each instant is given out once: if the store cannot be asked when it has
// come, the next look is a nap away and not at once, again and again.
func (a *alarm) Next(after time.Time) time.Time {
	nap := after.Add(longestNap)
	ms := a.next.Load()
	at := time.UnixMilli(ms)
	if ms == 0 || at.After(nap) {
		return nap
	}
	a.next.CompareAndSwap(ms, 0)
	if !at.After(after) {
		return after.Add(soon)
	}
	return at.In(after.Location())
}

// Daily jobs, at an hour when parties are over nearly everywhere that one is likely to be run. UTC.
const dailyJobs = "40 4 * * *"

// Run sends reminders as they fall due, and does the daily jobs, until the context ends. It then waits for
// what is under way.
func (d *Dispatcher) Run(ctx context.Context) error {
	logger := cronLog{d.log()}
	// Recover stands innermost: outside SkipIfStillRunning one panic would end the job for good.
	c := cron.New(cron.WithLocation(time.UTC), cron.WithLogger(logger),
		cron.WithChain(cron.SkipIfStillRunning(logger), cron.Recover(logger)))
	if _, err := c.AddFunc(dailyJobs, func() { d.daily(ctx) }); err != nil {
		return fmt.Errorf("daily jobs: %w", err)
	}
	wake := make(chan struct{}, 1)
	signal := func() {
		select {
		case wake <- struct{}{}:
		default: // one is on its way already
		}
	}
	d.Store.OnRearm(signal)
	defer d.Store.OnRearm(func() {})
	var a alarm
	job := cron.FuncJob(func() {
		if _, err := d.Tick(ctx, d.now()); err != nil && ctx.Err() == nil {
			d.log().Error("reminders: look for what is due", "error", err)
			return
		}
		signal() // cron chose its next run before this one ended
	})
	var entry cron.EntryID
	arm := func() {
		a.next.Store(0)
		if at, ok, err := d.Store.NextDue(ctx, d.Scope); err == nil && ok {
			a.next.Store(max(1, at.UnixMilli()))
		}
		c.Remove(entry)
		entry = c.Schedule(&a, job)
	}
	arm()
	c.Start()
	for {
		select {
		case <-ctx.Done():
			<-c.Stop().Done()
			return nil
		case <-wake:
			arm()
		}
	}
}

// daily backs up and prunes. Each weekday has its backup, so that a week's worth is kept.
func (d *Dispatcher) daily(ctx context.Context) {
	now := d.now().UTC()
	if d.BackupDir != "" {
		path := filepath.Join(d.BackupDir, "tureen-"+now.Format("Mon")+".db")
		if err := d.Store.Backup(ctx, path); err != nil {
			d.log().Error("backup failed", "error", err)
		}
	}
	if err := d.Store.Prune(ctx, now); err != nil {
		d.log().Error("pruning failed", "error", err)
	}
}

// cronLog lets cron write to our log; what it says on every run is for debugging only.
type cronLog struct{ log *slog.Logger }

func (l cronLog) Info(msg string, kv ...any) { l.log.Debug("cron: "+msg, kv...) }
func (l cronLog) Error(err error, msg string, kv ...any) {
	l.log.Error("cron: "+msg, append([]any{"error", err}, kv...)...)
}
