package console

import (
	"bytes"
	"context"
	"log/slog"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/store"
)

// A terminal on a database that another face works on too leaves the reminders of others to it.
func TestRemindersOfOthersAreLeftAlone(t *testing.T) {
	ctx := context.Background()
	s, err := store.Open(ctx, filepath.Join(t.TempDir(), "party.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	now := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	for _, c := range []store.Community{"123456", community} {
		snap, err := s.Create(ctx, c, store.Actor{}, now, planner.Party{Name: "Supper", Zone: "UTC"})
		if err != nil {
			t.Fatal(err)
		}
		due := store.Reminder{Key: "k", Due: now.Add(time.Minute), Until: now.Add(time.Hour), Text: "Said in " + string(c)}
		if _, err := s.Save(ctx, c, store.Change{Base: snap.Revision, At: now, Party: snap.Party,
			Reminders: []store.Reminder{due}}); err != nil {
			t.Fatal(err)
		}
	}
	var out bytes.Buffer
	c := New(s, "Ana", now, t.TempDir(), &out, slog.New(slog.DiscardHandler))
	if _, err := c.Lines(ctx, strings.NewReader("wait 10m\n")); err != nil {
		t.Fatal(err)
	}
	if got := out.String(); !strings.Contains(got, "Said in console") || strings.Contains(got, "123456") {
		t.Errorf("printed\n%s", got)
	}
	if rows, err := s.Reminders(ctx, "123456", 1); err != nil || len(rows) != 1 || rows[0].State != store.Waiting {
		t.Errorf("the other's reminder: %+v (%v), want it waiting", rows, err)
	}
}
