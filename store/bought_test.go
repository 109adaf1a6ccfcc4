package store

import (
	"database/sql"
	"errors"
	"path/filepath"
	"testing"

	"tureen/planner"
)

func tick(thing planner.Item, amount string, by planner.PersonKey) func(*Change) {
	return func(c *Change) {
		got := planner.Got{Amounts: []string{amount}, By: by}
		if b := c.Party.Purchased(thing); b != nil {
			b.Got = append(b.Got, got)
			return
		}
		c.Party.Bought = append(c.Party.Bought, planner.Purchase{Item: thing, Name: string(thing), Got: []planner.Got{got}})
	}
}

// What was bought is no part of what a plan depends on, comes back after a restart, and is taken back by whoever said
// so, unless somebody has bought more of the same thing since.
func TestBought(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	said := edit(t, s, home, id, ada, "said how butter is sold", func(c *Change) {
		c.Party.Currency = "€"
		c.Party.Goods = []planner.Good{{Item: "butter", Name: "butter", Packs: []planner.Pack{{Size: "250 g", Price: "2.49"}},
			Have: "100 g"}}
	})
	if said.Shaped != said.Revision {
		t.Errorf("what is in the house changes what a plan depends on: shaped in %d, now %d", said.Shaped, said.Revision)
	}
	edit(t, s, home, id, ada, "bought butter", tick("butter", "250 g", "ada"))
	two := edit(t, s, home, id, ben, "bought limes", tick("lime", "3", "ben"))
	if two.Shaped != said.Shaped {
		t.Errorf("a tick changes what a plan depends on: shaped in %d, was in %d", two.Shaped, said.Shaped)
	}
	again, err := Open(t.Context(), s.path)
	if err != nil {
		t.Fatal(err)
	}
	same(t, again, id, two)
	if err := again.Close(); err != nil {
		t.Error(err)
	}
	turn(t, s, s.Undo, id, ada) // Ben's limes stay
	if snap, err := s.Load(t.Context(), home, id); err != nil || snap.Party.Purchased("butter") != nil ||
		snap.Party.Purchased("lime") == nil {
		t.Errorf("%v: %+v", err, snap.Party.Bought)
	}
	turn(t, s, s.Redo, id, ada)
	edit(t, s, home, id, ben, "bought more butter", tick("butter", "250 g", "ben"))
	var touched *TouchedError
	if _, _, err := s.Undo(t.Context(), home, id, ada, t0, nil); !errors.As(err, &touched) {
		t.Errorf("Ben has bought butter, too: %v, want *TouchedError", err)
	}
}

// A file of before things to buy were noted is read as it is, and a program of then refuses it from now on.
func TestFileOfBeforeBought(t *testing.T) {
	path := filepath.Join(t.TempDir(), "old.db")
	db, err := sql.Open("sqlite", "file:"+path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if err := migrateWith(t.Context(), db, migrations()[:1]); err != nil {
		t.Fatal(err)
	}
	for _, q := range []string{
		`INSERT INTO party (id, community, name, folded, zone, arrival, covers, channel, revision, shaped)
			VALUES (7, 'home', 'Old', 'old', 'UTC', 1790000000000, 4, '', 3, 2)`,
		`INSERT INTO piece VALUES ('home', 7, 'setting', 'name', 0, '"Old"'),
			('home', 7, 'setting', 'zone', 0, '"UTC"'), ('home', 7, 'setting', 'covers', 0, '4')`,
		`INSERT INTO piece VALUES ('home', 7, 'dish', 'soup', 0,
			'{"key":"soup","name":"Soup","course":"main","serves":4,
			"ingredients":[{"name":"leek","amount":"3","keepDays":2}]}')`,
		`INSERT INTO piece VALUES ('home', 7, 'work', 'chore/shop', 0,
			'{"task":"chore/shop","person":"ada","progress":"done","end":"2026-09-19T10:00:00Z"}')`,
	} {
		if _, err := db.Exec(q); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	snap, err := s.Load(t.Context(), home, 7)
	if err != nil {
		t.Fatal(err)
	}
	p := snap.Party
	if in := p.Dishes[0].Ingredients[0]; in.Trimmed || in.KeepDays != 2 || p.Work[0].Noted ||
		p.Work[0].Progress != planner.Done || p.Goods != nil || p.Bought != nil || p.Currency != "" {
		t.Errorf("got %+v", p)
	}
	var version int
	if err := s.write.QueryRow("PRAGMA user_version").Scan(&version); err != nil || version < 2 {
		t.Errorf("%v: version %d, which a program that knows no purchases would open", err, version)
	}
}
