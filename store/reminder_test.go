package store

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"tureen/planner"
)

func after(minutes int) time.Time { return t0.Add(time.Duration(minutes) * time.Minute) }

// saveReminders gives a party other reminders, as of a minute.
func saveReminders(t *testing.T, s *Store, id planner.PartyID, now int, list ...Reminder) {
	t.Helper()
	edit(t, s, home, id, ada, "planned", func(c *Change) { c.At, c.Reminders, c.KeepReminders = after(now), list, false })
}

// remindAt is a reminder at a minute, about a task of its own name.
func remindAt(key string, minute int) Reminder {
	return Reminder{Key: key, Due: after(minute), Person: "ada", Kind: "due", Task: planner.TaskKey("dish/" + key),
		Text:    key,
		Buttons: []Press{{"Done", "task done task:dish/" + key}}}
}

// rowsOf renders a party's rows: key, minute, state, round.
func rowsOf(t *testing.T, s *Store, id planner.PartyID) string {
	t.Helper()
	rows, err := s.Reminders(context.Background(), home, id)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, r := range rows {
		out = append(out, fmt.Sprintf("%s@%d %s %d", r.Key, int(r.Due.Sub(t0).Minutes()), r.State, r.Round))
	}
	return strings.Join(out, ", ")
}

// sendDue sends what is due at a minute.
func sendDue(t *testing.T, s *Store, minute int) {
	t.Helper()
	ctx := context.Background()
	rows, err := s.Due(ctx, Scope{}, after(minute), 100)
	if err != nil {
		t.Fatal(err)
	}
	for i := range rows {
		one, err := s.MarkSending(ctx, rows[i:i+1], after(minute+1))
		if err != nil {
			t.Fatal(err)
		}
		if err := s.MarkSent(ctx, one, after(minute), ""); err != nil {
			t.Fatal(err)
		}
	}
}

// What a new plan does to the rows of the old one. Each line: what was there, what had been sent by which
// minute, what the new plan says and when it was made, and what is there then.
func TestRowsFollowThePlan(t *testing.T) {
	for _, c := range []struct {
		name   string
		before []Reminder
		sent   int
		now    int
		after  []Reminder
		want   string
	}{
		{"moved", []Reminder{remindAt("a", 30)}, 0, 5, []Reminder{remindAt("a", 40)}, "a@40 waiting 0"},
		{"gone", []Reminder{remindAt("a", 30), remindAt("b", 40)}, 0, 5, []Reminder{remindAt("b", 40)}, "b@40 waiting 0"},
		{"new, but past", nil, 0, 50, []Reminder{remindAt("a", 40)}, ""},
		{"new, now", nil, 0, 50, []Reminder{remindAt("a", 50)}, "a@50 waiting 0"},
		{"overdue and still in the plan", []Reminder{remindAt("a", 30)}, 0, 50, []Reminder{remindAt("a", 30)},
			"a@30 waiting 0"},
		{"sent stays sent", []Reminder{remindAt("a", 30)}, 30, 31, []Reminder{remindAt("a", 30)}, "a@30 sent 0"},
		{"sent, moved a little", []Reminder{remindAt("a", 30)}, 30, 31, []Reminder{remindAt("a", 39)}, "a@30 sent 0"},
		{"sent, moved a lot", []Reminder{remindAt("a", 30)}, 30, 31, []Reminder{remindAt("a", 40)}, "a@40 waiting 1"},
		{"sent, moved into the past", []Reminder{remindAt("a", 30)}, 30, 31, []Reminder{remindAt("a", 10)}, "a@30 sent 0"},
		{"sent and gone", []Reminder{remindAt("a", 30)}, 30, 31, nil, "a@30 sent 0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := open0(t)
			id := create(t, s, home, supper()).Party.ID
			saveReminders(t, s, id, 0, c.before...)
			if c.sent > 0 {
				sendDue(t, s, c.sent)
			}
			saveReminders(t, s, id, c.now, c.after...)
			if got := rowsOf(t, s, id); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
		})
	}
}

// A change that is taken back before its reminder came does not repeat the one that came before it.
func TestTakenBackIsNotToldAgain(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	saveReminders(t, s, id, 0, remindAt("a", 30))
	sendDue(t, s, 30)
	saveReminders(t, s, id, 31, remindAt("a", 60))
	if got, want := rowsOf(t, s, id), "a@60 waiting 1"; got != want {
		t.Errorf("moved: %s, want %s", got, want)
	}
	saveReminders(t, s, id, 32, remindAt("a", 30))
	if next, ok, err := s.NextDue(context.Background(), Scope{}); ok || err != nil {
		t.Errorf("moved back: something waits at %v (%v): %s", next, err, rowsOf(t, s, id))
	}
	saveReminders(t, s, id, 33, remindAt("a", 60))
	saveReminders(t, s, id, 34)
	saveReminders(t, s, id, 35, remindAt("a", 30))
	if next, ok, err := s.NextDue(context.Background(), Scope{}); ok || err != nil {
		t.Errorf("gone and back: something waits at %v (%v): %s", next, err, rowsOf(t, s, id))
	}
	saveReminders(t, s, id, 36, remindAt("a", 60))
	if got, want := rowsOf(t, s, id), "a@60 waiting 3"; got != want {
		t.Errorf("moved again: %s, want %s", got, want)
	}
}

func TestRowsThatAreBeingSentStay(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	saveReminders(t, s, id, 0, remindAt("a", 10))
	rows, err := s.Due(ctx, Scope{}, after(10), 10)
	if err != nil {
		t.Fatal(err)
	}
	if rows, err = s.MarkSending(ctx, rows, after(11)); err != nil {
		t.Fatal(err)
	}
	saveReminders(t, s, id, 10)
	saveReminders(t, s, id, 10, remindAt("a", 60))
	if got, want := rowsOf(t, s, id), "a@10 sending 0"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if err := s.MarkFailed(ctx, rows, after(12), false); err != nil {
		t.Fatal(err)
	}
	if next, ok, err := s.NextDue(ctx, Scope{}); err != nil || !ok || !next.Equal(after(12)) {
		t.Errorf("next %v %v (%v), want %v", next, ok, err, after(12))
	}
}

// A message that is out comes to say what it should have said last, though nobody speaks of it again before that; when
// what it tells is over, it is left as it stands.
func TestLastChangeHolds(t *testing.T) {
	says := func(text string, until int) Reminder {
		r := remindAt("a", 10)
		r.Live, r.Text, r.Until = true, text, after(until)
		return r
	}
	for _, c := range []struct {
		until, now int
		want       string
	}{
		{30, 29, "a@10 sent 0, edit/a@12 waiting 0"},
		{30, 30, "a@10 sent 0"},
	} {
		s := open0(t)
		id := create(t, s, home, supper()).Party.ID
		saveReminders(t, s, id, 0, says("three guests", c.until))
		sendDue(t, s, 10)
		saveReminders(t, s, id, 12, says("four guests", c.until))
		saveReminders(t, s, id, c.now)
		if got := rowsOf(t, s, id); got != c.want {
			t.Errorf("at %d: got %s, want %s", c.now, got, c.want)
		}
	}
}

// Of two dispatchers one gets a row, whatever stage it is at.
func TestMarkSendingOnce(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	saveReminders(t, s, id, 0, remindAt("a", 10), remindAt("b", 10))
	rows, err := s.Due(ctx, Scope{}, after(10), 10)
	if err != nil || len(rows) != 2 {
		t.Fatal(rows, err)
	}
	mine, err := s.MarkSending(ctx, rows[:1], after(11))
	if err != nil || mine[0].Attempt != 1 || !mine[0].Unsure {
		t.Fatal(mine, err)
	}
	if _, err := s.MarkSending(ctx, rows, after(11)); !errors.Is(err, ErrGone) {
		t.Errorf("the second: %v, want ErrGone", err)
	}
	if got, want := rowsOf(t, s, id), "a@10 sending 0, b@10 waiting 0"; got != want {
		t.Errorf("got %s, want %s: all or none", got, want)
	}
	if again, err := s.Due(ctx, Scope{}, after(10), 10); err != nil || len(again) != 1 || again[0].Key != "b" {
		t.Errorf("due meanwhile: %+v (%v), want b", again, err)
	}
	late, err := s.Due(ctx, Scope{}, after(11), 10)
	if err != nil || len(late) != 2 || late[0].Key != "a" || !late[0].Unsure || late[0].State != Sending {
		t.Errorf("due after the time for sending: %+v (%v), want a, unsure", late, err)
	}
	if err := s.MarkSent(ctx, mine, after(11), ""); err != nil {
		t.Fatal(err)
	}
	if err := s.MarkSent(ctx, mine, after(11), ""); !errors.Is(err, ErrGone) {
		t.Errorf("sent twice: %v, want ErrGone", err)
	}
}

func TestSnooze(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	first, last := remindAt("a", 10), remindAt("a-last", 60)
	last.Task = first.Task
	saveReminders(t, s, id, 0, first, last)
	sendDue(t, s, 10)
	row, err := s.Snooze(ctx, home, id, first.Task, "ada", after(25))
	if err != nil || row.Key != "a" || row.Round != 1 || !row.Due.Equal(after(25)) {
		t.Fatalf("%+v (%v), want a in round 1 at 25", row, err)
	}
	if len(row.Buttons) != 1 || row.Buttons[0].Do != "task done task:dish/a" {
		t.Errorf("buttons %+v", row.Buttons)
	}
	saveReminders(t, s, id, 12, first, last) // another plan, for other reasons
	if got, want := rowsOf(t, s, id), "a@25 waiting 1, a-last@60 waiting 0"; got != want {
		t.Errorf("after planning again: %s, want %s", got, want)
	}
	sendDue(t, s, 25)
	if got, want := rowsOf(t, s, id), "a@25 sent 1, a-last@60 waiting 0"; got != want {
		t.Errorf("after sending again: %s, want %s", got, want)
	}
	if _, err := s.Snooze(ctx, home, id, first.Task, "ben", after(30)); !errors.Is(err, ErrNotFound) {
		t.Errorf("Ben's: %v, want ErrNotFound", err)
	}
}

// What is not sent yet can be put off too: the next to come.
func TestSnoozeBeforehand(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	first, last := remindAt("a", 10), remindAt("a-last", 60)
	last.Task = first.Task
	saveReminders(t, s, id, 0, last, first)
	if row, err := s.Snooze(context.Background(), home, id, first.Task, "ada", after(20)); err != nil || row.Key != "a" ||
		row.Round != 0 {
		t.Errorf("%+v (%v), want a", row, err)
	}
}

func TestRemoveDropsReminders(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	saveReminders(t, s, id, 0, remindAt("a", 10))
	if err := s.Remove(ctx, home, ada, t0, id); err != nil {
		t.Fatal(err)
	}
	if next, ok, err := s.NextDue(ctx, Scope{}); ok || err != nil {
		t.Errorf("something waits at %v (%v)", next, err)
	}
	if err := s.Recover(ctx, home, ada, t0, id, nil); err != nil {
		t.Fatal(err)
	}
	saveReminders(t, s, id, 0, remindAt("a", 10))
	if got, want := rowsOf(t, s, id), "a@10 waiting 0"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestRearmIsTold(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	calls := 0
	s.OnRearm(func() { calls++ })
	saveReminders(t, s, id, 0, remindAt("a", 10))
	edit(t, s, home, id, ada, "kept", func(c *Change) { c.Party.Covers = 3 })
	if calls != 1 {
		t.Errorf("told %d times, want 1", calls)
	}
}

func TestFocus(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	p := supper()
	p.Name = "Brunch"
	other := create(t, s, home, p).Party.ID
	set := func(channel, user string, id planner.PartyID) {
		t.Helper()
		if err := s.SetFocus(ctx, home, channel, user, id); err != nil {
			t.Fatal(err)
		}
	}
	get := func(channel, user string, want planner.PartyID) {
		t.Helper()
		got, err := s.Focus(ctx, home, channel, user)
		if want == 0 && !errors.Is(err, ErrNotFound) || want != 0 && err != nil || got != want {
			t.Errorf("focus of %q in %q: %d (%v), want %d", user, channel, got, err, want)
		}
	}
	get("kitchen", "u1", 0)
	set("kitchen", "", id)
	set("kitchen", "u1", other)
	get("kitchen", "u1", other)
	get("kitchen", "u2", id)
	get("garden", "u1", 0)
	set("kitchen", "u1", 0)
	get("kitchen", "u1", id)
	if err := s.Remove(ctx, home, ada, t0, id); err != nil {
		t.Fatal(err)
	}
	get("kitchen", "u2", 0)
}

func TestNames(t *testing.T) {
	s := open0(t)
	create(t, s, home, supper())
	for _, name := range []string{"autumn  supper", "AUTUMN SUPPER", "Autumn supper "} {
		p := supper()
		p.Name = name
		_, err := s.Create(context.Background(), home, ada, t0, p)
		var taken *NameTakenError
		if !errors.As(err, &taken) || taken.Name != name {
			t.Errorf("%q: %v, want a NameTakenError", name, err)
		}
	}
	p := supper()
	p.Name = "Other"
	id := create(t, s, home, p).Party.ID
	p.ID, p.Name = id, "autumn supper"
	_, err := s.Save(context.Background(), home, Change{Base: 1, Party: p})
	var taken *NameTakenError
	if !errors.As(err, &taken) {
		t.Errorf("renamed: %v, want a NameTakenError", err)
	}
}

// Two programs on one database, the terminal's and a chat's, each send their own communities' reminders.
func TestScope(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	for i, c := range []Community{"a", "b", "c"} {
		snap := create(t, s, c, supper())
		edit(t, s, c, snap.Party.ID, ada, "planned", func(ch *Change) {
			ch.Reminders, ch.KeepReminders = []Reminder{remindAt("r", 10+i)}, false
		})
	}
	for _, x := range []struct {
		in   Scope
		want string
		next int
	}{{Scope{}, "abc", 10}, {Scope{Only: "b"}, "b", 11}, {Scope{Except: "a"}, "bc", 11}, {Scope{Only: "none"}, "", 0}} {
		rows, err := s.Due(ctx, x.in, after(20), 10)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, r := range rows {
			got += string(r.Community)
		}
		next, ok, err := s.NextDue(ctx, x.in)
		if got != x.want || err != nil || ok != (x.want != "") || ok && !next.Equal(after(x.next)) {
			t.Errorf("%+v: got %q, next %v (%v, %v), want %q", x.in, got, next, ok, err, x.want)
		}
	}
}

// Several programs on one database, each with its shard of a chat's guilds, divide them as the chat does, and what is
// no guild is the first one's: every reminder has exactly one of them.
func TestShardScope(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	guilds := []Community{"dm:12", "81384788765712384", "613425648685547541", "1099511627776000000", "9223372036854775807",
		"4194304", "1"}
	for _, c := range guilds {
		snap := create(t, s, c, supper())
		edit(t, s, c, snap.Party.ID, ada, "planned", func(ch *Change) {
			ch.Reminders, ch.KeepReminders = []Reminder{remindAt("r", 10)}, false
		})
	}
	for _, shards := range []int{0, 1, 2, 3, 16} {
		seen := map[Community]int{}
		for shard := range max(1, shards) {
			in := Scope{Shard: shard, Shards: shards, Except: "console"}
			rows, err := s.Due(ctx, in, after(20), 100)
			if err != nil {
				t.Fatal(err)
			}
			for _, r := range rows {
				seen[r.Community]++
				id, err := strconv.ParseInt(string(r.Community), 10, 64)
				if want := int(id>>22) % max(1, shards); want != shard || err != nil && shard != 0 {
					t.Errorf("%s is with shard %d of %d, want %d", r.Community, shard, shards, want)
				}
			}
			if _, ok, err := s.NextDue(ctx, in); ok != (len(rows) > 0) || err != nil {
				t.Errorf("shard %d of %d: next %v (%v), and %d are due", shard, shards, ok, err, len(rows))
			}
		}
		for _, c := range guilds {
			if seen[c] != 1 {
				t.Errorf("%d shards: %s was found %d times", shards, c, seen[c])
			}
		}
	}
}

// TestLeadBeforeTheChange: a reminder whose lead had begun before anybody could know of it is due at the change; one
// that was waiting stays as late as it is, and one that is about no task keeps its instant.
func TestLeadBeforeTheChange(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	task := remindAt("near", 28)
	task.At = after(33)
	party := task
	party.Key, party.Task = "guests", ""
	saveReminders(t, s, id, 30, task, party)
	if got, want := rowsOf(t, s, id), "guests@28 waiting 0, near@30 waiting 0"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	saveReminders(t, s, id, 31, task, party)
	if got, want := rowsOf(t, s, id), "guests@28 waiting 0, near@30 waiting 0"; got != want {
		t.Errorf("after another change: got %s, want %s", got, want)
	}
}
