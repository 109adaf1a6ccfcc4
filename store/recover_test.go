package store

import (
	"context"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"tureen/planner"
)

// takeAway makes a party of two changes and removes it. It answers how the party stood.
func takeAway(t *testing.T, s *Store) planner.Party {
	t.Helper()
	id := create(t, s, home, supper()).Party.ID
	p := edit(t, s, home, id, ada, "one more", func(c *Change) { c.Party.Covers++ }).Party
	if err := s.Remove(context.Background(), home, ada, after(1), id); err != nil {
		t.Fatal(err)
	}
	return p
}

// stillGone says that a party is removed still, and that nothing was written about it.
func stillGone(t *testing.T, s *Store, id planner.PartyID, revision int64) {
	t.Helper()
	ctx := context.Background()
	if _, err := s.Load(ctx, home, id); !errors.Is(err, ErrNotFound) {
		t.Errorf("a refused recovery: Load says %v, want ErrNotFound", err)
	}
	list, err := s.Removed(ctx, home)
	if err != nil || len(list) != 1 || list[0].ID != id || list[0].Revision != revision {
		t.Errorf("a refused recovery leaves %+v (%v), want the party at revision %d", list, err, revision)
	}
}

// TestRecoverAsks: who may refuse sees the party as it stood, and what is refused changes nothing.
func TestRecoverAsks(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	was := takeAway(t, s)
	no := errors.New("not by you")
	err := s.Recover(ctx, home, ben, after(2), was.ID, func(p planner.Party) error {
		if d := cmp.Diff(was, p); d != "" {
			t.Errorf("may is asked about (-want +got):\n%s", d)
		}
		return no
	})
	if !errors.Is(err, no) {
		t.Errorf("Recover answers %v, want what may said", err)
	}
	stillGone(t, s, was.ID, 3)
	if err := s.Recover(ctx, home, ben, after(3), was.ID, func(planner.Party) error { return nil }); err != nil {
		t.Fatal(err)
	}
	got, err := s.Load(ctx, home, was.ID)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(Snapshot{Party: was, Revision: 4, Shaped: 2}, got); d != "" {
		t.Errorf("brought back (-want +got):\n%s", d)
	}
	list, err := s.Journal(ctx, home, was.ID, 2)
	if err != nil || len(list) != 2 {
		t.Fatalf("journal: %+v, %v", list, err)
	}
	for i, want := range []Entry{
		{Revision: 4, Kind: Recovered, Actor: ben, At: after(3), What: "brought the party back"},
		{Revision: 3, Kind: Removed, Actor: ada, At: after(1), What: "removed the party"},
	} {
		if d := cmp.Diff(want, list[i]); d != "" {
			t.Errorf("entry %d (-want +got):\n%s", i, d)
		}
	}
}

// TestRecoverRefuses: what is not removed, not of this community, of a name taken since, or damaged, stays as it is.
func TestRecoverRefuses(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	was := takeAway(t, s)
	yes := func(planner.Party) error { return nil }
	if err := s.Recover(ctx, "next door", ada, t0, was.ID, yes); !errors.Is(err, ErrNotFound) {
		t.Errorf("from another community: %v, want ErrNotFound", err)
	}
	if err := s.Recover(ctx, home, ada, t0, was.ID+1, yes); !errors.Is(err, ErrNotFound) {
		t.Errorf("a party that never was: %v, want ErrNotFound", err)
	}
	other := create(t, s, home, supper()).Party.ID
	if err := s.Recover(ctx, home, ada, t0, other, yes); !errors.Is(err, ErrNotFound) {
		t.Errorf("a party that stands: %v, want ErrNotFound", err)
	}
	var taken *NameTakenError
	if err := s.Recover(ctx, home, ada, t0, was.ID, yes); !errors.As(err, &taken) || taken.Name != was.Name {
		t.Errorf("a name that is taken since: %v, want that it is taken", err)
	}
	stillGone(t, s, was.ID, 3)
	edit(t, s, home, other, ada, "renamed", func(c *Change) { c.Party.Name = "Another supper" })
	const odd = `INSERT INTO piece (community, party, kind, key, ord, doc) VALUES (?, ?, 'riddle', '', 0, '{}')`
	if _, err := s.write.ExecContext(ctx, odd, string(home), was.ID); err != nil {
		t.Fatal(err)
	}
	asked := false
	err := s.Recover(ctx, home, ada, t0, was.ID, func(planner.Party) error { asked = true; return nil })
	if err == nil || !strings.Contains(err.Error(), "riddle") || asked {
		t.Errorf("a piece of no known kind: %v, asked %t, want it named and nobody asked", err, asked)
	}
	stillGone(t, s, was.ID, 3)
}
