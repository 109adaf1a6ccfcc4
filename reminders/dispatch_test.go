package reminders

import (
	"context"
	"fmt"
	"log/slog"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

const home store.Community = "home"

var ada = store.Actor{ID: "u1", Name: "Ada"}

// post is a deliverer that writes down what arrives. It remembers keys, as a chat's history does.
type post struct {
	mu       sync.Mutex
	arrived  []Note
	attempts []Note
	fail     func(Note) error // asked before a note arrives
	lose     func(Note) error // asked after a note has arrived
	forgets  bool             // cannot tell what has arrived before
}

func (p *post) Deliver(_ context.Context, n Note) (string, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.attempts = append(p.attempts, n)
	if n.MaybeRepeat {
		if p.forgets {
			n = n.AsRepeat()
		} else if slices.ContainsFunc(p.arrived, func(a Note) bool { return a.Key == n.Key }) {
			return "here/" + n.Key, nil
		}
	}
	if p.fail != nil {
		if err := p.fail(n); err != nil {
			return "", err
		}
	}
	p.arrived = append(p.arrived, n)
	if p.lose != nil {
		return "", p.lose(n)
	}
	return "here/" + n.Key, nil
}

// lines renders what has arrived: to whom, and the plain text with its lines joined.
func (p *post) lines() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	var out []string
	for _, n := range p.arrived {
		to := "everybody"
		if n.Person != nil {
			to = n.Person.Name
		}
		out = append(out, to+": "+strings.ReplaceAll(words.PlainStamps(n.Text), "\n", " / "))
	}
	return out
}

func quietLog() *slog.Logger { return slog.New(slog.DiscardHandler) }

// kitchen opens a store with a party whose reminders are given.
func kitchen(t *testing.T, now time.Time, list ...store.Reminder) (*store.Store, store.Snapshot) {
	t.Helper()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "party.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	snap, err := s.Create(context.Background(), home, ada, now, planner.Party{
		Name: "Supper", Zone: "UTC", Arrival: now.Add(24 * time.Hour), Covers: 4,
		People: []planner.Person{{Key: "ada", Name: "Ada", Role: planner.Host},
			{Key: "ben", Name: "Ben", Role: planner.CoHost}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return s, rearrange(t, s, snap, now, list...)
}

func rearrange(t *testing.T, s *store.Store, snap store.Snapshot, now time.Time,
	list ...store.Reminder) store.Snapshot {
	t.Helper()
	snap, err := s.Save(context.Background(), home,
		store.Change{Base: snap.Revision, Actor: ada, At: now, What: "planned", Party: snap.Party, Reminders: list})
	if err != nil {
		t.Fatal(err)
	}
	return snap
}

func remind(key string, who planner.PersonKey, due time.Time, until time.Duration) store.Reminder {
	return store.Reminder{Key: key, Person: who, Kind: Due, Task: planner.TaskKey("dish/" + key), Due: due, At: due,
		Until: due.Add(until), Text: "Do " + key + " now."}
}

func expect(t *testing.T, got []string, want ...string) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("got\n  %s\nwant\n  %s", strings.Join(got, "\n  "), strings.Join(want, "\n  "))
	}
}

// Under cron, in a bubble of false time: everything comes on its minute, also what is added later and
// falls due earlier than what cron is waiting for.
func TestRunIsOnTime(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		start := time.Now()
		s, snap := kitchen(t, start, remind("a", "ada", start.Add(10*time.Minute), time.Hour),
			remind("c", "ben", start.Add(3*time.Hour), time.Hour))
		var times []time.Duration
		p := &post{fail: func(Note) error { times = append(times, time.Since(start).Truncate(time.Second)); return nil }}
		d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
		ctx, stop := context.WithCancel(context.Background())
		ended := make(chan error)
		go func() { ended <- d.Run(ctx) }()

		time.Sleep(11 * time.Minute)
		now := time.Now()
		snap = rearrange(t, s, snap, now, remind("b", "ada", now.Add(3*time.Second), time.Hour),
			remind("c", "ben", start.Add(3*time.Hour), time.Hour))
		time.Sleep(time.Minute)
		now = time.Now()
		rearrange(t, s, snap, now, remind("c", "ben", start.Add(2*time.Hour), time.Hour))
		time.Sleep(4 * time.Hour)
		stop()
		if err := <-ended; err != nil {
			t.Error(err)
		}
		expect(t, p.lines(), "Ada: Do a now.", "Ada: Do b now.", "Ben: Do c now.")
		want := []time.Duration{10 * time.Minute, 11*time.Minute + 3*time.Second, 2 * time.Hour}
		if !slices.Equal(times, want) {
			t.Errorf("they came at %v, want %v", times, want)
		}
	})
}

// A deliverer that panics costs its own message a retry and nobody else's anything.
func TestRunSurvivesPanic(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		start := time.Now()
		s, _ := kitchen(t, start, remind("a", "ada", start.Add(time.Minute), time.Hour),
			remind("b", "ben", start.Add(time.Minute), time.Hour))
		panicked := false
		p := &post{fail: func(n Note) error {
			if n.Task == "dish/a" && !panicked {
				panicked = true
				panic("no")
			}
			return nil
		}}
		d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
		ctx, stop := context.WithCancel(context.Background())
		ended := make(chan error)
		go func() { ended <- d.Run(ctx) }()
		time.Sleep(2 * time.Minute)
		stop()
		<-ended
		expect(t, p.lines(), "Ben: Do b now.", "Ada: Do a now.")
	})
}

func TestRunBacksUpDaily(t *testing.T) {
	if testing.Short() {
		t.Skip("eight days, tick by tick")
	}
	synctest.Test(t, func(t *testing.T) {
		s, _ := kitchen(t, time.Now())
		dir := t.TempDir()
		d := &Dispatcher{Store: s, Deliverer: &post{}, Log: quietLog(), BackupDir: dir}
		ctx, stop := context.WithCancel(context.Background())
		ended := make(chan error)
		go func() { ended <- d.Run(ctx) }()
		time.Sleep(8 * 24 * time.Hour)
		stop()
		<-ended
		files, err := filepath.Glob(filepath.Join(dir, "*"))
		if err != nil || len(files) != 7 {
			t.Fatalf("%d backups (%v), want one a weekday: %q", len(files), err, files)
		}
		copied, err := store.Open(context.Background(), files[0])
		if err != nil {
			t.Fatal(err)
		}
		defer copied.Close()
		if list, err := copied.List(context.Background(), home); err != nil || len(list) != 1 {
			t.Errorf("the backup has %v (%v), want the one party", list, err)
		}
	})
}

// An outage: what is still useful goes out late and says so; what is not is folded into one message a
// person, in order of who was to hear first.
func TestOutage(t *testing.T) {
	now := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	s, _ := kitchen(t, now,
		remind("a", "ada", now.Add(10*time.Minute), 20*time.Minute),
		remind("b", "ben", now.Add(15*time.Minute), 5*time.Minute),
		remind("c", "ada", now.Add(20*time.Minute), 10*time.Minute),
		remind("d", "ada", now.Add(50*time.Minute), time.Hour),
		remind("e", "ada", now.Add(59*time.Minute), time.Hour))
	p := &post{}
	d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
	if n, err := d.Tick(t.Context(), now.Add(time.Hour)); n != 4 || err != nil {
		t.Errorf("sent %d (%v), want 4", n, err)
	}
	expect(t, p.lines(),
		"Ada: 2 reminders come too late to act on. Look at what has to be done now. / Sat 12:10: Do a now. / Sat 12:20: Do "+
			"c now.",
		"Ben: A reminder comes too late to act on. Look at what has to be done now. / Sat 12:15: Do b now.",
		"Ada: Do d now. / This comes 10 minutes late; it was due at Sat 12:50.",
		"Ada: Do e now.")
	if n, err := d.Tick(t.Context(), now.Add(2*time.Hour)); n != 0 || err != nil {
		t.Errorf("a second tick sent %d (%v), want 0", n, err)
	}
}

// What surely failed is tried again, with growing pauses, and does not hold up others.
func TestRetry(t *testing.T) {
	now := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	s, _ := kitchen(t, now, remind("a", "ada", now.Add(time.Minute), 3*time.Hour),
		remind("b", "ben", now.Add(time.Minute), time.Hour))
	down := true
	p := &post{fail: func(n Note) error {
		if down && n.Person.Key == "ada" {
			return fmt.Errorf("no route: %w", ErrNotSent)
		}
		return nil
	}}
	d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
	var seen []string
	err := d.Advance(t.Context(), now, now.Add(20*time.Minute),
		func(at time.Time) { seen = append(seen, at.Format("15:04:05")) })
	if err != nil {
		t.Fatal(err)
	}
	expect(t, seen, "12:01:00", "12:01:10", "12:01:40", "12:02:40", "12:04:40", "12:09:40", "12:19:40")
	down = false
	if err := d.Advance(t.Context(), now.Add(20*time.Minute), now.Add(time.Hour), nil); err != nil {
		t.Fatal(err)
	}
	expect(t, p.lines(), "Ben: Do b now.", "Ada: Do a now. / This comes 28 minutes late; it was due at Sat 12:01.")
	if last := p.attempts[len(p.attempts)-1]; last.MaybeRepeat || last.Attempt != 8 {
		t.Errorf("attempt %d, may be a repeat: %v; want 8, false", last.Attempt, last.MaybeRepeat)
	}
}

// A message that may or may not have arrived comes once where the deliverer can tell, and says that it
// may be a repeat where it cannot.
func TestUnsure(t *testing.T) {
	now := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		forgets bool
		want    []string
	}{
		{false, []string{"Ada: Do a now."}},
		{true, []string{"Ada: Do a now.", "Ada: Do a now. / You may have had this before: tureen was interrupted while " +
			"sending it."}},
	} {
		s, _ := kitchen(t, now, remind("a", "ada", now.Add(time.Minute), time.Hour))
		lost := false
		p := &post{forgets: c.forgets, lose: func(Note) error {
			if lost {
				return nil
			}
			lost = true
			return context.DeadlineExceeded // the answer did not come back
		}}
		d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
		if err := d.Advance(t.Context(), now, now.Add(time.Hour), nil); err != nil {
			t.Fatal(err)
		}
		expect(t, p.lines(), c.want...)
	}
}

// A crash between sending and marking: the database is opened again, and the message is not lost, has its
// old key, and comes once more only if nobody can tell.
func TestCrashWhileSending(t *testing.T) {
	now := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	due := now.Add(time.Minute)
	for _, sent := range []bool{false, true} {
		s, _ := kitchen(t, now, remind("a", "ada", due, time.Hour), remind("b", "ada", due, time.Minute),
			remind("c", "ada", due, time.Minute))
		p := &post{}
		d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
		late := due.Add(30 * time.Minute)
		rows, err := s.Due(t.Context(), store.Scope{}, late, 10)
		if err != nil {
			t.Fatal(err)
		}
		for _, group := range d.group(rows, late) { // as send does, up to the crash
			n, ok, err := d.note(t.Context(), group, late)
			if err != nil || !ok {
				t.Fatal(ok, err)
			}
			if group, err = s.MarkSending(t.Context(), group, late.Add(unsureFor)); err != nil {
				t.Fatal(err)
			}
			n.Key = keyOf(group)
			if sent {
				p.arrived = append(p.arrived, n)
			}
		}
		if n, err := d.Tick(t.Context(), late.Add(unsureFor-time.Second)); n != 0 || err != nil {
			t.Errorf("sent %d (%v) while the first attempt may be under way, want 0", n, err)
		}
		if n, err := d.Tick(t.Context(), late.Add(unsureFor)); n != 2 || err != nil {
			t.Errorf("sent %d (%v), want 2", n, err)
		}
		if len(p.arrived) != 2 {
			t.Errorf("with sent %v: arrived %q, want both once", sent, p.lines())
		}
		for _, n := range p.attempts {
			if !n.MaybeRepeat || n.Attempt != 2 {
				t.Errorf("%s: may be a repeat %v, attempt %d; want true, 2", n.Key, n.MaybeRepeat, n.Attempt)
			}
		}
	}
}

func TestUndeliverableIsGivenUp(t *testing.T) {
	now := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	s, _ := kitchen(t, now, remind("a", "ada", now.Add(time.Minute), time.Hour),
		remind("n", "nobody", now.Add(time.Minute), time.Hour))
	p := &post{fail: func(Note) error { return fmt.Errorf("no such person: %w", ErrUndeliverable) }}
	d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
	if err := d.Advance(t.Context(), now, now.Add(time.Hour), nil); err != nil {
		t.Fatal(err)
	}
	if len(p.attempts) != 1 {
		t.Errorf("%d attempts, want 1", len(p.attempts))
	}
}

// Somebody who can never be reached is tried for a day and then given up.
func TestGivenUpAfterADay(t *testing.T) {
	now := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	s, _ := kitchen(t, now, remind("a", "ada", now, time.Hour))
	p := &post{fail: func(Note) error { return ErrNotSent }}
	d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
	if err := d.Advance(t.Context(), now, now.Add(72*time.Hour), nil); err != nil {
		t.Fatal(err)
	}
	if _, ok, err := s.NextDue(t.Context(), store.Scope{}); ok || err != nil {
		t.Errorf("something still waits (%v)", err)
	}
	if n := len(p.attempts); n < 100 || n > 200 {
		t.Errorf("%d attempts, want one every ten minutes for a day", n)
	}
}
