package reminders

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// due is a row due at an instant and stale after another.
func dueRow(id int64, due, until time.Time) store.Row {
	return store.Row{ID: id, Reminder: store.Reminder{Due: due, Until: until, Text: fmt.Sprintf("Do %d now.\nMore.", id)}}
}

// TestMessagesSayThatTheyAreLate: from two minutes on; and what is of no use any more is folded into one.
func TestMessagesSayThatTheyAreLate(t *testing.T) {
	noon := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	soon, hour := dueRow(1, noon, noon), dueRow(1, noon, noon.Add(time.Hour))
	for _, c := range []struct {
		row   store.Row
		after time.Duration
		want  string
	}{
		{hour, 0, "Do 1 now.\nMore."}, {hour, 119 * time.Second, "Do 1 now.\nMore."},
		{hour, 2 * time.Minute, "Do 1 now.\nMore.\nThis comes 2 minutes late; it was due at Sat 12:00."},
		{hour, time.Hour, "Do 1 now.\nMore.\nThis comes 1 hour late; it was due at Sat 12:00."},
		{hour, time.Hour + time.Second, "A reminder comes too late to act on. Look at what has to be done now.\n" +
			"Sat 12:00: Do 1 now."},
		{soon, time.Minute, "Do 1 now.\nMore."},
		{soon, 2 * time.Minute, "A reminder comes too late to act on. Look at what has to be done now.\n" +
			"Sat 12:00: Do 1 now."},
	} {
		if got := words.PlainStamps(text([]store.Row{c.row}, time.UTC, noon.Add(c.after))); got != c.want {
			t.Errorf("%v late: got %q, want %q", c.after, got, c.want)
		}
	}
	for _, n := range []int{2, 12, 13, 15} {
		var rows []store.Row
		for i := range n {
			rows = append(rows, dueRow(int64(i+1), noon, noon))
		}
		lines := strings.Split(words.PlainStamps(text(rows, time.UTC, noon.Add(time.Hour))), "\n")
		if !strings.HasPrefix(lines[0], fmt.Sprintf("%d reminders", n)) || len(lines) != 1+min(n, 13) ||
			lines[min(n, 12)] != fmt.Sprintf("Sat 12:00: Do %d now.", min(n, 12)) ||
			n > 12 && lines[13] != fmt.Sprintf("and %d more", n-12) {
			t.Errorf("%d rows: %q", n, lines)
		}
	}
	batch := hour
	batch.Batch = 7
	if got := text([]store.Row{batch}, time.UTC, noon); !strings.HasPrefix(got, "A reminder comes too late") {
		t.Errorf("what is left of a batch: %q", got)
	}
}

// TestGroup: what went out together stays together, what is stale is folded by party and person, the rest is alone.
func TestGroup(t *testing.T) {
	noon := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	row := func(id, batch int64, party planner.PartyID, who planner.PersonKey, useful, unsure bool) store.Row {
		r := dueRow(id, noon, noon)
		if useful {
			r.Until = noon.Add(2 * time.Hour)
		}
		r.Batch, r.Party, r.Person, r.Unsure = batch, party, who, unsure
		return r
	}
	rows := []store.Row{
		row(1, 0, 1, "ada", false, false), row(2, 0, 1, "ada", true, false), row(3, 0, 1, "ben", false, false),
		row(4, 0, 1, "ada", false, false), row(5, 0, 2, "ada", false, false), row(6, 9, 1, "ada", false, true),
		row(7, 0, 1, "ada", false, true), row(8, 9, 1, "ben", true, true), row(9, 0, 1, "ada", true, false),
	}
	var got []string
	for _, g := range (&Dispatcher{}).group(rows, noon.Add(time.Hour)) {
		var ids []string
		for _, r := range g {
			ids = append(ids, fmt.Sprint(r.ID))
		}
		got = append(got, strings.Join(ids, "+"))
	}
	expect(t, got, "1+4", "2", "3", "5", "6+8", "7", "9")
}

// TestKeysOfMessages: every message and round has its own, a batch its own again, all within 25 characters.
func TestKeysOfMessages(t *testing.T) {
	seen := map[string]bool{}
	for _, id := range []int64{1, 2, 35, 36, 1<<63 - 1} {
		for _, batch := range []int64{0, id} {
			for _, round := range []int{0, 1, 1 << 20} {
				r := store.Row{ID: id, Batch: batch, Round: round}
				k := keyOf([]store.Row{r, {ID: 5}})
				if seen[k] || len(k) > 25 {
					t.Errorf("%+v: %q, of %d characters; had before: %t", r, k, len(k), seen[k])
				}
				seen[k] = true
			}
		}
	}
}

// TestNotesOnTheirWay: a reminder that comes in time has its buttons and its task; what is folded has neither; both are
// the party's, to its person.
func TestNotesOnTheirWay(t *testing.T) {
	noon := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	a, b, c := remind("a", "ada", noon, time.Hour), remind("b", "ben", noon, time.Minute), remind("c", "", noon, time.Hour)
	a.Buttons = []store.Press{{Label: "Done", Do: "task done task:dish/a"}}
	b.Buttons = a.Buttons
	s, snap := kitchen(t, noon, a, b, c)
	d := &Dispatcher{Store: s, Log: quietLog()}
	rows, err := s.Due(t.Context(), store.Scope{}, noon, 9)
	if err != nil || len(rows) != 3 {
		t.Fatal(rows, err)
	}
	for i, who := range []planner.PersonKey{"ada", "ben", ""} {
		for _, late := range []time.Duration{0, 30 * time.Minute} {
			n, ok, err := d.note(t.Context(), rows[i:i+1], noon.Add(late))
			folded := late > 0 && who == "ben"
			if err != nil || !ok || (len(n.Buttons) == 1) != (who != "" && !folded) || (n.Task == "") != folded {
				t.Errorf("to %q, %v late: %+v (%t, %v)", who, late, n, ok, err)
			}
			if n.Party != snap.Party.ID || n.PartyName != "Supper" || n.Community != home || n.Kind != Due ||
				!n.Due.Equal(noon) || (n.Person == nil) != (who == "") || who != "" && n.Person.Key != who {
				t.Errorf("to %q: %+v", who, n)
			}
		}
	}
	batch := rows[0]
	batch.Batch = 7
	for _, list := range [][]store.Row{rows[:2], {batch}} {
		if n, ok, err := d.note(t.Context(), list, noon); err != nil || !ok || len(n.Buttons) != 0 || n.Task != "" {
			t.Errorf("%d together: %+v (%t, %v)", len(list), n, ok, err)
		}
	}
	old := rows[0]
	old.Until = noon
	for _, x := range []struct {
		after   time.Duration
		attempt int
		want    bool
	}{{24*time.Hour - 1, 1, true}, {24 * time.Hour, 1, false}, {24 * time.Hour, 0, true}} {
		old.Attempt = x.attempt
		if _, ok, err := d.note(t.Context(), []store.Row{old}, noon.Add(x.after)); ok != x.want || err != nil {
			t.Errorf("%v after it was of use, attempt %d: sent %t (%v)", x.after, x.attempt, ok, err)
		}
	}
	stranger := rows[0]
	stranger.Person = "zoe"
	if _, ok, err := d.note(t.Context(), []store.Row{stranger}, noon); ok || err != nil {
		t.Errorf("to somebody who has left: sent %t (%v)", ok, err)
	}
	elsewhere := rows[0]
	elsewhere.Party = 99
	if _, ok, err := d.note(t.Context(), []store.Row{elsewhere}, noon); ok || err != nil {
		t.Errorf("of a party that is gone: sent %t (%v)", ok, err)
	}
}

// TestWhatIsDueIsLaterThanNow: the next run is never the instant itself, which would not fire.
func TestWhatIsDueIsLaterThanNow(t *testing.T) {
	noon := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	for _, due := range []time.Duration{-time.Hour, 0, time.Millisecond} {
		var a alarm
		a.next.Store(noon.Add(due).UnixMilli())
		if got := a.Next(noon).Sub(noon); got <= 0 || got > 20*time.Millisecond {
			t.Errorf("due %v from now: the next run is %v from now", due, got)
		}
	}
}
