package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tureen/planner"
	"tureen/store/held"
)

// TestRespeltIsAsWritten: after the step to one word an idea every piece reads as today's program writes it, so that
// saving a party again touches nothing but what was changed; and an entry whose digest was of the plan after it has
// that plan's digest again.
func TestRespeltIsAsWritten(t *testing.T) {
	ctx := context.Background()
	path := held.File(t, nil)
	old, err := sql.Open("sqlite", "file:"+path)
	if err != nil {
		t.Fatal(err)
	}
	held := digests(t, old)
	if err := old.Close(); err != nil {
		t.Fatal(err)
	}
	s, err := Open(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	now := digests(t, s.write)
	same := 0
	for e, holds := range held {
		if holds != now[e] {
			t.Errorf("entry %v: its plan is told by its digest: %v before, %v now", e, holds, now[e])
		}
		if holds {
			same++
		}
	}
	if len(now) != len(held) || same < 100 {
		t.Errorf("%d entries, %d of them with the digest of their plan; now %d", len(held), same, len(now))
	}
	parties, err := s.write.Query(systemParties)
	if err != nil {
		t.Fatal(err)
	}
	defer parties.Close()
	seen := 0
	for parties.Next() {
		var p ofParty
		if err := parties.Scan(&p.community, &p.id); err != nil {
			t.Fatal(err)
		}
		var pieces []piece
		err := s.look(ctx, func(tx *sql.Tx) (err error) {
			pieces, err = readPieces(ctx, tx, p.community, p.id)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		party, plan, err := join(p.id, pieces)
		if err != nil {
			t.Fatal(err)
		}
		again, err := split(&party, plan)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range compare(pieces, again) {
			t.Errorf("party %d: %s %q is stored as\n%v\nand written as\n%v", p.id, c.kind, c.key, c.before, c.after)
		}
		seen += len(pieces)
	}
	if err := parties.Err(); err != nil || seen < 200 {
		t.Errorf("%d pieces, %v", seen, err)
	}
	const spelt = `SELECT count(*) FROM touched
		WHERE instr(key || ifnull(before_doc, '') || ifnull(after_doc, ''), ?)`
	for _, word := range []string{`"thing":`, `"ware":`, `"inHouse":`, `"growth":`, `"onCall":`, `"min":`, `"max":`,
		`"floor":`, `"what":"source"`, `"attention":"rest"`, `chore/`} {
		var n int
		err := s.write.QueryRow(spelt, word).Scan(&n)
		if err != nil || n > 0 {
			t.Errorf("%d entries' pieces have %s still, %v", n, word, err)
		}
	}
}

// digests says of every entry of all journals whether its digest is that of the plan after it.
func digests(t *testing.T, db *sql.DB) map[string]bool {
	t.Helper()
	ctx := context.Background()
	out := map[string]bool{}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer tx.Rollback()
	parties, err := queried(ctx, tx, systemParties, func(rows *sql.Rows) (p ofParty, err error) {
		return p, rows.Scan(&p.community, &p.id)
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range parties {
		err := backwards(ctx, tx, p, func(at journalled) error {
			out[fmt.Sprint(p, at.revision)] = at.plan == at.digest
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// former is a file that has taken three steps, with a party and what has been done to it.
func former(t *testing.T, statements ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "former.db")
	db, err := sql.Open("sqlite", "file:"+path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if err := migrateWith(t.Context(), db, migrations()[:3]); err != nil {
		t.Fatal(err)
	}
	statements = append([]string{
		`INSERT INTO party (id, community, name, folded, zone, arrival, covers, channel, revision, shaped)
			VALUES (7, 'home', 'Old', 'old', 'UTC', 1790000000000, 4, '', 3, 2)`,
		`INSERT INTO piece VALUES ('home', 7, 'setting', 'name', 0, '"Old"'), ('home', 7, 'setting', 'zone', 0, '"UTC"'),
			('home', 7, 'setting', 'covers', 0, '4'), ('home', 7, 'setting', 'arrival', 0, '"2026-10-10T16:00:00Z"')`,
		`INSERT INTO entry (community, party, revision, kind, actor, actor_name, at, what, plan)
			VALUES ('home', 7, 1, 'create', 'u1', 'Ada', 1789000000000, 'started the party Old', ''),
			('home', 7, 2, 'change', 'u1', 'Ada', 1789000060000, 'has cookies', ''),
			('home', 7, 3, 'change', 'u1', 'Ada', 1789000120000, 'has a cookie', '')`,
	}, statements...)
	for _, q := range statements {
		if _, err := db.Exec(q); err != nil {
			t.Fatalf("%v: %s", err, q)
		}
	}
	return path
}

func reopened(t *testing.T, path string) *Store {
	t.Helper()
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// TestRespeltItems: what was said of "cookies" and of "a cookie" is said of one item, at every entry of the journal, so
// that each is taken back on its own; what cannot be one stays as it was.
func TestRespeltItems(t *testing.T) {
	first := `{"thing":"cooky","name":"cookies","house":"6","sold":[{"size":"12"}],"price":"2.50"}`
	second := `{"thing":"cookie","name":"cookie","house":"2","shop":"baker",` +
		`"sold":[{"size":"12"},{"size":"1","price":"0.60"}]}`
	s := reopened(t, former(t,
		`INSERT INTO piece VALUES ('home', 7, 'good', 'cooky', 1024, '`+first+`'),
			('home', 7, 'good', 'cookie', 2048, '`+second+`'),
			('home', 7, 'good', 'tomato', 3072, '{"thing":"tomato","name":"tomatoes","house":"3"}'),
			('home', 7, 'good', 'quich', 4096, '{"thing":"quich","name":"quiches","house":"3"}'),
			('home', 7, 'good', 'quiche', 5120, '{"thing":"quiche","name":"quiche","house":"500 g"}'),
			('home', 7, 'bought', 'cooky', 1024, '{"thing":"cooky","name":"cookies","got":[{"amounts":["12"]}]}'),
			('home', 7, 'bought', 'cookie', 2048, '{"thing":"cookie","name":"cookie","got":[{"amounts":["1"],"paid":"0.60"}]}')`,
		`INSERT INTO touched VALUES ('home', 7, 2, 'good', 'cooky', NULL, NULL, 1024, '`+first+`'),
			('home', 7, 3, 'good', 'cookie', NULL, NULL, 2048, '`+second+`')`))
	ctx := context.Background()
	load := func() planner.Party {
		snap, err := s.Load(ctx, home, 7)
		if err != nil {
			t.Fatal(err)
		}
		return snap.Party
	}
	p := load()
	whole := planner.Good{Item: "cookie", Name: "cookies", Have: "8", Shop: "baker",
		Packs: []planner.Pack{{Size: "12"}, {Size: "1", Price: "0.60"}}, Price: "2.50"}
	if d := cmp.Diff(&whole, p.Good("cookie")); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if got := p.Purchased("cookie"); got == nil || len(got.Got) != 2 || got.Got[1].Paid != "0.60" {
		t.Errorf("bought %+v", got)
	}
	if p.Good("tomato") == nil || p.Good("quich") == nil || p.Good("quiche") == nil || len(p.Goods) != 4 ||
		len(p.Bought) != 1 {
		t.Errorf("%+v\n%+v", p.Goods, p.Bought)
	}
	back := func(want string) {
		t.Helper()
		if _, _, err := s.Undo(ctx, home, 7, ada, t0.Add(time.Hour), nil); err != nil {
			t.Fatal(err)
		}
		now := load()
		text, err := json.Marshal(now.Good("cookie"))
		if err != nil || !strings.Contains(string(text), want) {
			t.Errorf("after taking one back: %s, %v; want %s", text, err, want)
		}
	}
	back(`"have":"6"`)
	back(`null`)
}

// TestRespeltUse: what is taken through a later step is, whatever else the use says; a sign that a step is done stays.
func TestRespeltUse(t *testing.T) {
	for _, use := range []string{
		`{"what":"vessel","name":"pot \"big\"","amount":2,"for":8,"until":"carve"}`,
		`{"what":"oven","c":180,"tolerance":10,"shut":true,"then":[{"after":5,"c":160}],"until":"carve"}`,
		`{"what":"hot place","name":"tray","until":"x"}`,
	} {
		if got, want := throughStep(use), strings.Replace(use, `"until"`, `"through"`, 1); got != want {
			t.Errorf("got %s\nwant %s", got, want)
		}
	}
	for _, no := range []string{`{"do":"Say \"what\":\"oven\",\"until\":\"x\"","until":"done"}`,
		`{"uses":[{"what":"oven","c":180}],"until":"done"}`} {
		if got := throughStep(no); got != no {
			t.Errorf("got %s\nwant %s", got, no)
		}
	}
}
