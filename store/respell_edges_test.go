package store

import (
	"testing"
	"time"

	"tureen/planner"
)

// TestRespeltItemThatIsGone: what was said of an item and taken away again is so under its new name too, in the entries
// that did it alone.
func TestRespeltItemThatIsGone(t *testing.T) {
	cookies := `{"thing":"cooky","name":"cookies","house":"6"}`
	s := reopened(t, former(t, `INSERT INTO touched VALUES
		('home', 7, 2, 'good', 'cooky', NULL, NULL, 1024, '`+cookies+`'),
		('home', 7, 3, 'good', 'cooky', 1024, '`+cookies+`', NULL, NULL)`,
		`INSERT INTO entry (community, party, revision, kind, actor, actor_name, at, what, plan)
			VALUES ('home', 7, 4, 'change', 'u2', 'Ben', 1789000180000, 'says hello', '')`,
		`UPDATE party SET revision = 4`))
	rows, err := s.Journal(t.Context(), home, 7, 9)
	if err != nil || len(rows) != 4 {
		t.Fatal(rows, err)
	}
	for i, want := range []string{"", "before", "after", ""} {
		got := ""
		for _, x := range rows[i].Touched {
			if x.Key != "cookie" {
				t.Errorf("%+v is touched", x)
			}
			if x.Before != nil {
				got += "before"
			}
			if x.After != nil {
				got += "after"
			}
		}
		if got != want {
			t.Errorf("entry %d has the item %q, want %q", rows[i].Revision, got, want)
		}
	}
	for n, was := range []string{"cookies", ""} {
		if _, _, err := s.Undo(t.Context(), home, 7, ada, t0.Add(time.Hour), nil); err != nil {
			t.Fatal(err)
		}
		snap, err := s.Load(t.Context(), home, 7)
		if err != nil {
			t.Fatal(err)
		}
		if good := snap.Party.Good("cookie"); (good != nil) != (was != "") || good != nil && good.Name != was {
			t.Errorf("taken back %d times: %+v, want %q", n+1, good, was)
		}
	}
}

// TestWhatIsNoJSON: a text that cannot be read is said, and nothing is guessed: of a party, of a reminder's buttons, of
// an item that is to become another, and of two that are to become one.
func TestWhatIsNoJSON(t *testing.T) {
	for _, doc := range []string{`{`, `[]`, `{"thing":7}`} {
		for _, kind := range []string{"good", "bought"} {
			path := former(t, `INSERT INTO piece VALUES ('home', 7, '`+kind+`', 'cooky', 1024, '`+doc+`')`)
			if s, err := Open(t.Context(), path); err == nil {
				t.Errorf("%s %s: it is migrated", kind, doc)
				s.Close()
			}
		}
	}
	for _, join := range []func(planner.Item, []piece) ([]byte, error){joinedGoods, joinedPurchases} {
		for _, docs := range [][]string{{`{`}, {`{}`, `{`}} {
			var pieces []piece
			for _, doc := range docs {
				pieces = append(pieces, piece{doc: doc})
			}
			if got, err := join("cookie", pieces); err == nil || got != nil {
				t.Errorf("%q become %s, %v", docs, got, err)
			}
		}
	}
	s := open0(t)
	w := newWorld(t, s)
	for _, c := range []struct {
		spoil string
		read  func() error
	}{
		{`UPDATE reminder SET buttons = '{'`, func() error {
			_, err := s.Reminders(t.Context(), home, w.id)
			return err
		}},
		{`UPDATE piece SET doc = '{' WHERE kind = 'dish'`, func() error {
			_, err := s.Load(t.Context(), home, w.id)
			return err
		}},
	} {
		if err := c.read(); err != nil {
			t.Fatal(err)
		}
		if _, err := s.write.Exec(c.spoil); err != nil {
			t.Fatal(err)
		}
		if err := c.read(); err == nil {
			t.Errorf("%s: it is read", c.spoil)
		}
	}
}
