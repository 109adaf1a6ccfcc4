package store

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"tureen/planner"
)

// says is a reminder whose message is kept true: its text, when it speaks of and until when it holds.
func says(text string, at, until int) Reminder {
	r := remindAt("live", at)
	r.Live, r.Text, r.Until = true, text, after(until)
	return r
}

// TestMessagesAreKeptTrue: what is out and should say something else, in words or buttons, is queued to be changed,
// once for several changes, while it holds; the row says what it should say from then on.
func TestMessagesAreKeptTrue(t *testing.T) {
	other := func(change func(r *Reminder)) Reminder {
		r := says("one", 10, 60)
		change(&r)
		return r
	}
	for _, c := range []struct {
		name    string
		changes []Reminder // at minutes 12, 13 …, after it was sent at 10
		want    string
	}{
		{"nothing", []Reminder{says("one", 10, 60)}, "live@10 sent 0"},
		{"its text", []Reminder{says("two", 10, 60)}, "live@10 sent 0, edit/live@12 waiting 0"},
		{"its buttons", []Reminder{other(func(r *Reminder) { r.Buttons = append(r.Buttons, Press{"Why?", "task why"}) })},
			"live@10 sent 0, edit/live@12 waiting 0"},
		{"a button's word", []Reminder{other(func(r *Reminder) { r.Buttons = []Press{{"Ready", r.Buttons[0].Do}} })},
			"live@10 sent 0, edit/live@12 waiting 0"},
		{"twice", []Reminder{says("two", 10, 60), says("three", 10, 60)}, "live@10 sent 0, edit/live@13 waiting 1"},
		{"twice the same", []Reminder{says("two", 10, 60), says("two", 10, 60)}, "live@10 sent 0, edit/live@12 waiting 0"},
		{"there and back", []Reminder{says("two", 10, 60), says("one", 10, 60)}, "live@10 sent 0, edit/live@13 waiting 1"},
		{"it is not one that is kept true", []Reminder{other(func(r *Reminder) { r.Live, r.Text = false, "two" })},
			"live@10 sent 0"},
		{"a minute before it is over", []Reminder{says("two", 10, 13)}, "live@10 sent 0, edit/live@12 waiting 0"},
		{"as it is over", []Reminder{says("two", 10, 12)}, "live@10 sent 0"},
		{"it is over, and says so", []Reminder{other(func(r *Reminder) { r.Over, r.Text = true, "done" })},
			"live@10 sent 0, edit/live@12 waiting 0"},
	} {
		s := open0(t)
		id := create(t, s, home, supper()).Party.ID
		saveReminders(t, s, id, 0, says("one", 10, 60))
		sendDue(t, s, 10)
		for i, r := range c.changes {
			saveReminders(t, s, id, 12+i, r)
		}
		if got := rowsOf(t, s, id); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
		if !strings.Contains(c.want, "edit") {
			continue
		}
		rows, err := s.Reminders(t.Context(), home, id)
		if err != nil {
			t.Fatal(err)
		}
		last := c.changes[len(c.changes)-1]
		for _, r := range rows {
			if r.Text != last.Text || fmt.Sprint(r.Buttons) != fmt.Sprint(last.Buttons) || r.Task != last.Task ||
				!r.Until.Equal(last.Until) || r.Person != "ada" || (r.Kind == Edit) != (r.Key == EditMark+"live") ||
				r.Kind == Edit && (!r.Silent || !r.At.Equal(r.Due)) {
				t.Errorf("%s: %+v", c.name, r)
			}
		}
	}
}

// TestMessageOnItsWay: what changes while its message is being sent is queued too; and what was put off, or has failed,
// is queued anew by the next change.
func TestMessageOnItsWay(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	saveReminders(t, s, id, 0, says("one", 10, 60))
	rows, err := s.Due(ctx, Scope{}, after(10), 10)
	if err != nil {
		t.Fatal(err)
	}
	if rows, err = s.MarkSending(ctx, rows, after(11)); err != nil {
		t.Fatal(err)
	}
	saveReminders(t, s, id, 10, says("two", 10, 60))
	if got, want := rowsOf(t, s, id), "live@10 sending 0, edit/live@10 waiting 0"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	due, err := s.Due(ctx, Scope{}, after(10), 10)
	if err != nil || len(due) != 1 || due[0].Kind != Edit {
		t.Fatal(due, err)
	}
	if posted, out, err := s.Posted(ctx, due[0]); posted != "" || out || err != nil {
		t.Errorf("on its way: %q, out %t, %v", posted, out, err)
	}
	if err := s.PutOff(ctx, due[0], after(14)); err != nil {
		t.Fatal(err)
	}
	if err := s.MarkSent(ctx, rows, after(10), "channel/7"); err != nil {
		t.Fatal(err)
	}
	if next, ok, err := s.NextDue(ctx, Scope{}); !ok || !next.Equal(after(14)) || err != nil {
		t.Errorf("put off until 14: %v, %t, %v", next, ok, err)
	}
	if list, err := s.Due(ctx, Scope{}, after(14).Add(-time.Millisecond), 10); len(list) != 0 || err != nil {
		t.Errorf("before that: %v, %v", list, err)
	}
	if posted, out, err := s.Posted(ctx, due[0]); posted != "channel/7" || !out || err != nil {
		t.Errorf("posted: %q, out %t, %v", posted, out, err)
	}
	nothing := due[0]
	nothing.Key = EditMark + "none"
	if posted, out, err := s.Posted(ctx, nothing); posted != "" || !out || err != nil {
		t.Errorf("of no message: %q, out %t, %v", posted, out, err)
	}
	saveReminders(t, s, id, 11, says("three", 10, 60))
	if next, ok, err := s.NextDue(ctx, Scope{}); !ok || !next.Equal(after(11)) || err != nil {
		t.Errorf("changed anew: %v, %t, %v", next, ok, err)
	}
	if err := s.PutOff(ctx, due[0], after(20)); !errors.Is(err, ErrGone) {
		t.Errorf("the former one is put off: %v", err)
	}
}

// TestWhatIsBegunIsTold: of what is kept true, what has begun and nobody was told of is told while it holds, what lies
// ahead when it comes; what is over already is told to nobody, and waits no more.
func TestWhatIsBegunIsTold(t *testing.T) {
	over := func(r Reminder) Reminder { r.Over = true; return r }
	for _, c := range []struct {
		name        string
		before, now Reminder
		want        string
	}{
		{"ahead", Reminder{}, says("one", 30, 60), "live@30 waiting 0"},
		{"begun", Reminder{}, says("one", 10, 60), "live@20 waiting 0"},
		{"in its last minute", Reminder{}, says("one", 10, 21), "live@20 waiting 0"},
		{"over by the clock", Reminder{}, says("one", 10, 20), ""},
		{"all done, and never told", Reminder{}, over(says("one", 30, 60)), ""},
		{"all done while it waited", says("one", 30, 60), over(says("one", 30, 60)), ""},
		{"it waits, and has begun sooner", says("one", 30, 60), says("one", 10, 60), "live@20 waiting 0"},
	} {
		s := open0(t)
		id := create(t, s, home, supper()).Party.ID
		if c.before.Key != "" {
			saveReminders(t, s, id, 0, c.before)
		}
		saveReminders(t, s, id, 20, c.now)
		if got := rowsOf(t, s, id); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// TestHowLongThingsAreKept: a removed party for thirty days, a recipe that nobody has put on a menu for seven, and what
// was sent for ninety from the instant that it spoke of, to the millisecond.
func TestHowLongThingsAreKept(t *testing.T) {
	const day = 24 * time.Hour
	for _, c := range []struct {
		table string
		keeps time.Duration
	}{{"party", 30 * day}, {"reading", 7 * day}, {"reminder", 90*day + 10*time.Minute}} {
		for _, later := range []time.Duration{0, time.Millisecond} {
			s := open0(t)
			ctx := t.Context()
			id := create(t, s, home, supper()).Party.ID
			saveReminders(t, s, id, 0, remindAt("a", 10))
			sendDue(t, s, 10)
			if err := s.SetReading(ctx, home, "kitchen", "u1", Reading{At: t0, Source: []byte("soup")}); err != nil {
				t.Fatal(err)
			}
			if c.table == "party" {
				if err := s.Remove(ctx, home, ada, t0, id); err != nil {
					t.Fatal(err)
				}
			}
			if err := s.Prune(ctx, t0.Add(c.keeps+later)); err != nil {
				t.Fatal(err)
			}
			var n int
			err := s.read.QueryRowContext(ctx, "SELECT count(*) FROM "+c.table).Scan(&n)
			if err != nil || (n == 0) != (later > 0) {
				t.Errorf("%s: %d rows %v after its time (%v)", c.table, n, later, err)
			}
		}
	}
}

// TestPlaces: what comes first gets a place as far before the next as others lie apart, and what comes between lies in
// the middle.
func TestPlaces(t *testing.T) {
	for _, c := range []struct {
		keys   string
		before map[string]int64
		want   map[string]int64
	}{
		{"x a", map[string]int64{"a": 5 * ordGap}, map[string]int64{"x": 4 * ordGap, "a": 5 * ordGap}},
		{"x y a", map[string]int64{"a": 5 * ordGap}, map[string]int64{"x": 3 * ordGap, "y": 4 * ordGap, "a": 5 * ordGap}},
		{"a x b", map[string]int64{"a": 100, "b": 200}, map[string]int64{"a": 100, "x": 150, "b": 200}},
		{"a x y b", map[string]int64{"a": 100, "b": 160}, map[string]int64{"a": 100, "x": 120, "y": 140, "b": 160}},
		{"a x b", map[string]int64{"a": 1, "b": 3}, map[string]int64{"a": 1, "x": 2, "b": 3}},
		{"a x b", map[string]int64{"a": 1, "b": 2}, map[string]int64{"a": ordGap, "x": 2 * ordGap, "b": 3 * ordGap}},
		{"a x", map[string]int64{"a": 7}, map[string]int64{"a": 7, "x": 7 + ordGap}},
	} {
		if got := arrange(strings.Fields(c.keys), c.before); fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%s after %v: %v, want %v", c.keys, c.before, got, c.want)
		}
	}
}

// TestNoFile: a store without a file would be forgotten, and is refused; who stops waiting for a file that another
// program has does so at once.
func TestNoFile(t *testing.T) {
	for _, path := range []string{"", ":memory:"} {
		if s, err := Open(t.Context(), path); s != nil || err == nil || !strings.Contains(err.Error(), "name the one") {
			t.Errorf("%q: %v", path, err)
		}
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	s := open0(t)
	if again, err := Open(ctx, s.path); again != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// TestItemNow: a text about an item is read by its name; without one by what it was, and what is no text is an error.
func TestItemNow(t *testing.T) {
	for doc, want := range map[string]planner.Item{`{"item":"cooky","name":"cookies"}`: "cookie",
		`{"item":"cooky"}`: "cooky",
		`{"item":`:         ""} {
		if got, err := itemNow(doc); got != want || (err != nil) != (want == "") {
			t.Errorf("%s: %q, %v", doc, got, err)
		}
	}
}

// TestTwoThatShareNothing: a party is read twice at once, the same, and a change of one is none of the other.
func TestTwoThatShareNothing(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	one, other, err := s.LoadPair(t.Context(), home, id)
	if name := supper().Name; err != nil || one.Revision != other.Revision || one.Party.Name != name ||
		other.Party.Name != name {
		t.Fatal(one.Party.Name, other.Party.Name, err)
	}
	if one.Party.Dishes[0].Name = "Another"; other.Party.Dishes[0].Name == "Another" {
		t.Error("they share their dishes")
	}
}
