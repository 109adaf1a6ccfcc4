package reminders

import (
	"context"
	"errors"
	"log/slog"
	"slices"
	"strings"
	"sync"
	"time"

	"tureen/planner"
	"tureen/store"
)

// Dispatcher sends what is due. Its fields are set before use and stay as they are.
type Dispatcher struct {
	Store     *store.Store
	Deliverer Deliverer
	Scope     store.Scope      // whose reminders are sent; other programs may send others' from the same database
	Now       func() time.Time // nil: the real time
	Log       *slog.Logger     // nil: the default one
	BackupDir string           // where Run puts a backup every day, a file a weekday; empty: none

	mu     sync.Mutex           // one Tick at a time
	looked bool                 // plans made with other tables have been looked for
	edited map[string]time.Time // by channel: when a message was last changed there
}

const (
	dueAtOnce   = 64               // rows asked for at a time
	sendTimeout = 20 * time.Second // for one delivery
	unsureFor   = time.Minute      // after which a row that was being sent comes up again
	editEvery   = 5 * time.Second  // at most one change of a message in so long, a channel
	mostEdited  = 8192             // channels remembered; then they are all forgotten
)

// pauses are the waits between attempts; the last one repeats.
var pauses = [...]time.Duration{10 * time.Second, 30 * time.Second, time.Minute, 2 * time.Minute, 5 * time.Minute,
	10 * time.Minute}

// Tick sends everything that is due by now, in order of due instants, and answers how many messages
// arrived. What does not arrive is tried again by a later Tick. An error means that the store failed.
func (d *Dispatcher) Tick(ctx context.Context, now time.Time) (sent int, err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if !d.looked {
		d.looked = true
		d.recheck(ctx, now)
	}
	for {
		rows, err := d.Store.Due(ctx, d.Scope, now, dueAtOnce)
		if err != nil || len(rows) == 0 {
			return sent, err
		}
		rows, err = d.edits(ctx, rows, now)
		if err != nil {
			return sent, err
		}
		for _, group := range d.group(rows, now) {
			ok, err := d.send(ctx, group, now)
			if err != nil {
				return sent, err
			}
			if ok {
				sent++
			}
		}
	}
}

// Advance is for a simulated clock: it goes from one due instant to the next until an instant, tells
// moved of each, and sends what is due there. Nothing that it sends is late unless it was so at from.
func (d *Dispatcher) Advance(ctx context.Context, from, until time.Time, moved func(time.Time)) error {
	for {
		next, ok, err := d.Store.NextDue(ctx, d.Scope)
		if err != nil || !ok || next.After(until) {
			return err
		}
		if next.After(from) {
			from = next
			if moved != nil {
				moved(from)
			}
		}
		if _, err := d.Tick(ctx, from); err != nil {
			return err
		}
	}
}

// group forms messages: rows that went out together before, stale rows of one person, others alone.
func (d *Dispatcher) group(rows []store.Row, now time.Time) [][]store.Row {
	type to struct {
		batch  int64
		party  planner.PartyID
		person planner.PersonKey
	}
	var out [][]store.Row
	at := map[to]int{}
	for _, r := range rows {
		k := to{batch: r.Batch}
		if r.Batch == 0 {
			if !stale(&r, now) || r.Unsure {
				out = append(out, []store.Row{r})
				continue
			}
			k = to{0, r.Party, r.Person}
		}
		if i, there := at[k]; there {
			out[i] = append(out[i], r)
			continue
		}
		at[k] = len(out)
		out = append(out, []store.Row{r})
	}
	return out
}

// edits changes the messages that are out and should say something else, at most one in a while a channel, and answers
// the other rows.
func (d *Dispatcher) edits(ctx context.Context, rows []store.Row, now time.Time) (rest []store.Row, err error) {
	for _, r := range rows {
		if r.Kind != store.Edit {
			rest = append(rest, r)
			continue
		}
		posted, out, err := d.Store.Posted(ctx, r)
		channel, _, _ := strings.Cut(posted, "/")
		switch next := d.edited[channel].Add(editEvery); {
		case err != nil:
		case !out:
			err = d.Store.PutOff(ctx, r, now.Add(editEvery)) // what it changes is on its way
		case posted == "" || now.After(r.Until):
			err = d.Store.Drop(ctx, []store.Row{r})
		case next.After(now):
			err = d.Store.PutOff(ctx, r, next)
		default:
			if d.edited == nil || len(d.edited) > mostEdited {
				d.edited = map[string]time.Time{}
			}
			d.edited[channel] = now
			_, err = d.sendAs(ctx, []store.Row{r}, now, posted)
		}
		if err = gone(err); err != nil {
			return nil, err
		}
	}
	return rest, nil
}

// send brings one message on its way and reports whether it arrived.
func (d *Dispatcher) send(ctx context.Context, rows []store.Row, now time.Time) (bool, error) {
	return d.sendAs(ctx, rows, now, "")
}

// sendAs is send, or changes the message that the face calls so.
func (d *Dispatcher) sendAs(ctx context.Context, rows []store.Row, now time.Time, edits string) (bool, error) {
	n, ok, err := d.note(ctx, rows, now)
	if err != nil {
		return false, err
	}
	if !ok {
		return false, gone(d.Store.Drop(ctx, rows))
	}
	n.Edits = edits
	n.MaybeRepeat = n.Edits == "" && slices.ContainsFunc(rows, func(r store.Row) bool { return r.Unsure })
	rows, err = d.Store.MarkSending(ctx, rows, now.Add(unsureFor))
	if err != nil {
		return false, gone(err)
	}
	n.Attempt = rows[0].Attempt
	n.Key = keyOf(rows)
	limited, cancel := context.WithTimeout(ctx, sendTimeout)
	posted, err := d.deliver(limited, n)
	cancel()
	if err == nil {
		// So that being stopped does not leave a doubt about what is certain.
		return true, gone(d.Store.MarkSent(context.WithoutCancel(ctx), rows, now, posted))
	}
	d.log().Warn("reminder not delivered", "key", n.Key, "attempt", n.Attempt, "error", err)
	if errors.Is(err, ErrUndeliverable) {
		return false, gone(d.Store.Drop(ctx, rows))
	}
	pause := pauses[min(n.Attempt, len(pauses))-1]
	var after RetryAfter
	if errors.As(err, &after) {
		pause = max(pause, after.RetryAfter())
	}
	// Nor about what has surely failed.
	unsure := n.MaybeRepeat || !errors.Is(err, ErrNotSent)
	return false, gone(d.Store.MarkFailed(context.WithoutCancel(ctx), rows, now.Add(pause), unsure))
}

// deliver turns a deliverer's panic into an error, so that it costs one message and not the program.
func (d *Dispatcher) deliver(ctx context.Context, n Note) (posted string, err error) {
	defer func() {
		if r := recover(); r != nil {
			d.log().Error("deliverer panicked", "key", n.Key, "panic", r)
			posted, err = "", errors.New("the deliverer panicked")
		}
	}()
	return d.Deliverer.Deliver(ctx, n)
}

// note words a message; ok is false when nobody is there any more to read it, or nobody would want to.
func (d *Dispatcher) note(ctx context.Context, rows []store.Row, now time.Time) (n Note, ok bool, err error) {
	first := &rows[0]
	snap, err := d.Store.Load(ctx, first.Community, first.Party)
	if errors.Is(err, store.ErrNotFound) {
		return n, false, nil
	}
	if err != nil {
		return n, false, err
	}
	p := &snap.Party
	n = Note{Community: first.Community, Channel: p.Channel, Party: p.ID, PartyName: p.Name,
		Kind: first.Kind, Task: first.Task, Due: first.Due, Text: text(rows, p.Location(), now),
		Silent: len(rows) == 1 && first.Silent}
	if len(rows) == 1 && first.Batch == 0 && !stale(first, now) {
		n.Buttons = first.Buttons
	} else {
		n.Task = ""
	}
	if first.Kind == Service && len(rows) == 1 {
		n.Serves = serving(p, snap.Plan, first)
	}
	if first.Person != "" {
		who := p.Person(first.Person)
		if who == nil {
			return n, false, nil
		}
		n.Person = who
	}
	if slices.ContainsFunc(rows, func(r store.Row) bool { return now.Sub(r.Until) < giveUpAfter || r.Attempt == 0 }) {
		return n, true, nil
	}
	d.log().Error("reminder given up", "party", p.ID, "person", first.Person, "kind", first.Kind, "attempts",
		first.Attempt)
	return n, false, nil
}

// gone forgives that a row has changed under us: whoever changed it has seen to it.
func gone(err error) error {
	if errors.Is(err, store.ErrGone) {
		return nil
	}
	return err
}

func (d *Dispatcher) log() *slog.Logger {
	if d.Log != nil {
		return d.Log
	}
	return slog.Default()
}

func (d *Dispatcher) now() time.Time {
	if d.Now != nil {
		return d.Now()
	}
	return time.Now()
}
