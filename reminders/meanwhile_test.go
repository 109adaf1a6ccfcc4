package reminders

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/store"
)

// What changes, or fails, while a message is on its way.

var lateNoon = time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)

// later is an error that says when to come again.
type later time.Duration

func (l later) Error() string             { return "too many" }
func (l later) RetryAfter() time.Duration { return time.Duration(l) }

// TestChangedMeanwhile: a row that is taken away or changed while another goes out, or while it goes out itself, is no
// error, whatever the face says of it, and does not hold up others.
func TestChangedMeanwhile(t *testing.T) {
	for _, c := range []struct {
		name    string
		who     planner.PersonKey // of the second
		answers error             // to the first
		sent    int
		want    []string
	}{
		{"the next one is gone", "ben", nil, 2, []string{"Ada: Do a now.", "Ben: Do c now."}},
		{"the party is gone, and it fails", "ben", ErrNotSent, 0, []string{"Ada: Do a now."}},
		{"the party is gone, and it cannot arrive", "ben", ErrUndeliverable, 0, []string{"Ada: Do a now."}},
		{"the next one is for nobody", "nobody", nil, 2, []string{"Ada: Do a now.", "Ben: Do c now."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			keep := remind("c", "ben", lateNoon.Add(time.Minute), time.Hour)
			s, snap := kitchen(t, lateNoon, remind("a", "ada", lateNoon.Add(time.Minute), time.Hour),
				remind("b", c.who, lateNoon.Add(time.Minute), time.Hour), keep)
			p := &post{}
			p.lose = func(n Note) error {
				if n.Task != "dish/a" {
					return nil
				}
				if c.answers == nil {
					rearrange(t, s, snap, lateNoon, keep)
				} else if err := s.Remove(t.Context(), home, ada, lateNoon, snap.Party.ID); err != nil {
					t.Error(err)
				}
				return c.answers
			}
			d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
			sent, err := d.Tick(t.Context(), lateNoon.Add(time.Minute))
			if err != nil {
				t.Errorf("%v", err)
			}
			if sent != c.sent {
				t.Errorf("sent %d, want %d", sent, c.sent)
			}
			expect(t, p.lines(), c.want...)
		})
	}
}

// TestStoreFailsMeanwhile: what fails in the store ends the tick with an error, and nothing more is sent.
func TestStoreFailsMeanwhile(t *testing.T) {
	for _, answers := range []error{nil, ErrNotSent, ErrUndeliverable} {
		s, _ := kitchen(t, lateNoon, remind("a", "ada", lateNoon.Add(time.Minute), time.Hour),
			remind("b", "ben", lateNoon.Add(time.Minute), time.Hour))
		p := &post{}
		p.lose = func(Note) error { s.Close(); return answers }
		d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
		if _, err := d.Tick(t.Context(), lateNoon.Add(time.Minute)); err == nil || len(p.attempts) != 1 {
			t.Errorf("the face says %v: error %v after %d attempts", answers, err, len(p.attempts))
		}
		if _, err := d.Tick(t.Context(), lateNoon.Add(time.Minute)); err == nil {
			t.Error("a store that is closed is no error")
		}
		if err := d.Advance(t.Context(), lateNoon, lateNoon.Add(time.Hour), nil); err == nil {
			t.Error("nor for a clock that goes on")
		}
		rows := []store.Row{{Party: 1, Community: home, Reminder: remind("a", "ada", lateNoon, time.Hour)}}
		if ok, err := d.send(t.Context(), rows, lateNoon); ok || err == nil {
			t.Errorf("sent %t, %v", ok, err)
		}
		if _, ok, err := d.note(t.Context(), rows, lateNoon); ok || err == nil {
			t.Errorf("worded %t, %v", ok, err)
		}
	}
}

// TestRowsThatAreGone: what another has changed is neither sent nor an error.
func TestRowsThatAreGone(t *testing.T) {
	s, snap := kitchen(t, lateNoon, remind("a", "ada", lateNoon.Add(time.Minute), time.Hour),
		remind("n", "nobody", lateNoon.Add(time.Minute), time.Hour))
	rows, err := s.Due(t.Context(), store.Scope{}, lateNoon.Add(time.Minute), 10)
	if err != nil || len(rows) != 2 {
		t.Fatal(rows, err)
	}
	rearrange(t, s, snap, lateNoon)
	p := &post{}
	d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
	for _, r := range rows {
		if ok, err := d.send(t.Context(), []store.Row{r}, lateNoon.Add(time.Minute)); ok || err != nil {
			t.Errorf("%s: sent %t, %v", r.Key, ok, err)
		}
	}
	if len(p.attempts) != 0 {
		t.Errorf("%q", p.lines())
	}
}

// live is a reminder whose message is kept true.
func live(key, text string, until time.Duration) store.Reminder {
	r := remind(key, "ada", lateNoon.Add(time.Minute), until)
	r.Text, r.Live = text, true
	return r
}

// TestEditsThatCome: to nothing where the face does not know its message any more, or its time is over; another time
// where the channel has just been changed; and are no error where somebody changes them meanwhile.
func TestEditsThatCome(t *testing.T) {
	for _, c := range []struct {
		name  string
		until time.Duration // of the message
		at    time.Duration // when the edit could go out
		lost  bool          // the face answers no name
		want  int           // edits that go out
	}{
		{"in time", time.Hour, 4 * time.Minute, false, 1}, {"in its last minute", 4 * time.Minute, 5 * time.Minute, false, 1},
		{"a second later", 4 * time.Minute, 5*time.Minute + time.Second, false, 0},
		{"nameless", time.Hour, 4 * time.Minute, true, 0},
	} {
		s, snap := kitchen(t, lateNoon, live("a", "one", c.until))
		p := &named1{lost: c.lost}
		d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
		if n, err := d.Tick(t.Context(), lateNoon.Add(time.Minute)); n != 1 || err != nil {
			t.Fatal(n, err)
		}
		rearrange(t, s, snap, lateNoon.Add(3*time.Minute), live("a", "two", c.until))
		if n, err := d.Tick(t.Context(), lateNoon.Add(c.at)); n != 0 || err != nil {
			t.Errorf("%s: %d (%v), want no new message", c.name, n, err)
		}
		if got := len(p.arrived) - 1; got != c.want {
			t.Errorf("%s: %d edits, want %d", c.name, got, c.want)
		}
		if _, ok, err := s.NextDue(t.Context(), store.Scope{}); ok || err != nil {
			t.Errorf("%s: something waits still (%v)", c.name, err)
		}
	}

	// Another changes the second while the first goes out: it is no error, and the latest is what comes.
	s, snap := kitchen(t, lateNoon, live("a", "a: one", time.Hour), live("b", "b: one", time.Hour))
	p := &named1{}
	d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
	if n, err := d.Tick(t.Context(), lateNoon.Add(time.Minute)); n != 2 || err != nil {
		t.Fatal(n, err)
	}
	snap = rearrange(t, s, snap, lateNoon.Add(3*time.Minute), live("a", "a: two", time.Hour),
		live("b", "b: two", time.Hour))
	p.on = func(n Note) {
		if n.Text == "a: two" {
			rearrange(t, s, snap, lateNoon.Add(3*time.Minute), live("a", "a: two", time.Hour), live("b", "b: three", time.Hour))
		}
	}
	if err := d.Advance(t.Context(), lateNoon.Add(3*time.Minute), lateNoon.Add(10*time.Minute), nil); err != nil {
		t.Error(err)
	}
	if got := strings.Join(p.arrived, ", "); got != "a: one, b: one, a: two, b: three" {
		t.Errorf("arrived: %s", got)
	}

	// The store fails while it is looked for.
	snap, err := s.Load(t.Context(), home, 1)
	if err != nil {
		t.Fatal(err)
	}
	rearrange(t, s, snap, lateNoon.Add(11*time.Minute), live("a", "a: four", time.Hour), live("b", "b: four", time.Hour))
	rows, err := s.Due(t.Context(), store.Scope{}, lateNoon.Add(11*time.Minute), 10)
	if err != nil || len(rows) != 2 {
		t.Fatal(rows, err)
	}
	s.Close()
	if _, err := d.edits(t.Context(), rows, lateNoon.Add(11*time.Minute)); err == nil {
		t.Error("a store that is closed is no error")
	}
}

// named1 answers one channel's name for all that arrives, or none.
type named1 struct {
	lost    bool
	on      func(Note)
	arrived []string
}

func (p *named1) Deliver(_ context.Context, n Note) (string, error) {
	if p.on != nil {
		p.on(n)
	}
	p.arrived = append(p.arrived, n.Text)
	if p.lost {
		return "", nil
	}
	return "channel/" + n.Key, nil
}

// TestChannelsAreForgotten: what is remembered of channels does not grow for ever.
func TestChannelsAreForgotten(t *testing.T) {
	for n, want := range map[int]int{mostEdited: mostEdited + 1, mostEdited + 1: 1} {
		s, snap := kitchen(t, lateNoon, live("a", "one", time.Hour))
		d := &Dispatcher{Store: s, Deliverer: &named1{}, Log: quietLog(), edited: map[string]time.Time{}}
		for i := range n {
			d.edited[fmt.Sprint(i)] = lateNoon
		}
		if _, err := d.Tick(t.Context(), lateNoon.Add(time.Minute)); err != nil {
			t.Fatal(err)
		}
		rearrange(t, s, snap, lateNoon.Add(3*time.Minute), live("a", "two", time.Hour))
		if _, err := d.Tick(t.Context(), lateNoon.Add(3*time.Minute)); err != nil {
			t.Fatal(err)
		}
		if len(d.edited) != want || !d.edited["channel"].Equal(lateNoon.Add(3*time.Minute)) {
			t.Errorf("of %d channels %d are remembered, want %d", n, len(d.edited), want)
		}
	}
}

// TestRetryAfter: where the face says when to come again, nobody comes sooner, nor sooner than after the usual pause.
func TestRetryAfter(t *testing.T) {
	for says, want := range map[time.Duration]time.Duration{time.Second: 10 * time.Second,
		3 * time.Minute: 3 * time.Minute} {
		s, _ := kitchen(t, lateNoon, remind("a", "ada", lateNoon.Add(time.Minute), time.Hour))
		d := &Dispatcher{Store: s, Deliverer: &post{fail: func(Note) error { return later(says) }}, Log: quietLog()}
		if _, err := d.Tick(t.Context(), lateNoon.Add(time.Minute)); err != nil {
			t.Fatal(err)
		}
		next, ok, err := s.NextDue(t.Context(), store.Scope{})
		if got := next.Sub(lateNoon.Add(time.Minute)); !ok || err != nil || got != want {
			t.Errorf("it says %v: again after %v (%v), want %v", says, got, err, want)
		}
	}
}

// TestDailyJobsSayWhatFails: a backup and the pruning, each for itself; whoever runs it reads of both.
func TestDailyJobsSayWhatFails(t *testing.T) {
	s, _ := kitchen(t, lateNoon)
	var log bytes.Buffer
	d := &Dispatcher{Store: s, Deliverer: &post{}, Log: slog.New(slog.NewTextHandler(&log, nil)),
		Now: func() time.Time { return lateNoon }}
	d.daily(t.Context())
	if log.Len() > 0 {
		t.Errorf("nothing fails, but: %s", log.String())
	}
	d.BackupDir = filepath.Join(t.TempDir(), "none")
	d.daily(t.Context())
	if !strings.Contains(log.String(), "backup failed") || strings.Contains(log.String(), "pruning") {
		t.Errorf("the log says %s", log.String())
	}
	log.Reset()
	s.Close()
	d.daily(t.Context())
	if !strings.Contains(log.String(), "pruning failed") {
		t.Errorf("the log says %s", log.String())
	}
	log.Reset()
	cronLog{d.log()}.Error(errors.New("broken"), "panic", "stack", "here")
	if got := log.String(); !strings.Contains(got, `"cron: panic"`) || !strings.Contains(got, "error=broken stack=here") {
		t.Errorf("the log says %s", got)
	}
	if (&Dispatcher{}).log() == nil || !(&Dispatcher{}).now().After(lateNoon) || !d.now().Equal(lateNoon) {
		t.Error("the clock or the log is another one")
	}
}
