package store

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"modernc.org/sqlite"
)

// errPulled is what a faulty database answers.
var errPulled = errors.New("the plug was pulled")

// faulty is a database of which one call fails, or one row cannot be read.
type faulty struct {
	calls   int // seen so far: transactions begun and committed, statements, rows
	at      int // the call that fails; 0: none
	garbled bool
	row     bool // the call that failed read a row
}

// fails says whether this call is the one.
func (f *faulty) fails() bool {
	f.calls++
	return f.calls == f.at
}

// open opens a file through it.
func (f *faulty) open(t *testing.T, path string) *Store {
	t.Helper()
	db := func(more string) *sql.DB { return sql.OpenDB(faultyDB{f, dsn(path, more)}) }
	s := &Store{path: path, write: db("_txlock=immediate"), read: db("_pragma=query_only(1)")}
	s.write.SetMaxOpenConns(1)
	t.Cleanup(func() { s.Close() })
	return s
}

type faultyDB struct {
	*faulty
	name string
}

func (d faultyDB) Driver() driver.Driver { return nil }

func (d faultyDB) Connect(context.Context) (driver.Conn, error) {
	c, err := (&sqlite.Driver{}).Open(d.name)
	return faultyConn{c, d.faulty}, err
}

type faultyConn struct {
	driver.Conn
	*faulty
}

func (c faultyConn) BeginTx(ctx context.Context, o driver.TxOptions) (driver.Tx, error) {
	if c.fails() {
		return nil, errPulled
	}
	tx, err := c.Conn.(driver.ConnBeginTx).BeginTx(ctx, o)
	return faultyTx{tx, c.faulty}, err
}

func (c faultyConn) ExecContext(ctx context.Context, q string, args []driver.NamedValue) (driver.Result, error) {
	if c.fails() {
		return nil, errPulled
	}
	return c.Conn.(driver.ExecerContext).ExecContext(ctx, q, args)
}

func (c faultyConn) QueryContext(ctx context.Context, q string, args []driver.NamedValue) (driver.Rows, error) {
	if c.fails() {
		return nil, errPulled
	}
	rows, err := c.Conn.(driver.QueryerContext).QueryContext(ctx, q, args)
	return faultyRows{rows, c.faulty}, err
}

type faultyTx struct {
	driver.Tx
	*faulty
}

func (t faultyTx) Commit() error {
	if t.fails() {
		return errors.Join(errPulled, t.Rollback())
	}
	return t.Tx.Commit()
}

type faultyRows struct {
	driver.Rows
	*faulty
}

func (r faultyRows) Next(dest []driver.Value) error {
	err := r.Rows.Next(dest)
	if !r.fails() {
		return err
	}
	if r.row = err == nil; !r.garbled {
		return errPulled
	}
	for i := range dest {
		dest[i] = struct{}{}
	}
	return err
}

// each does something once for each call that it makes of its database, with that call failing; where that reads a row,
// once more with what cannot be understood in it. Each time it must fail, and change nothing; nothing is in its way
// then.
func (f *faulty) each(t *testing.T, db *sql.DB, do func() error) {
	t.Helper()
	was := everything(t, db)
	for n := 1; ; n++ {
		again := false
		for _, f.garbled = range []bool{false, true} {
			if f.garbled && !again {
				break
			}
			f.calls, f.at, f.row = 0, n, false
			err := do()
			reached := f.calls >= n
			again, f.at = f.row, 0
			if !reached {
				if err != nil || n < 3 {
					t.Errorf("after %d calls: %v", n-1, err)
				}
				return
			}
			if err == nil {
				t.Fatalf("call %d fails (garbled: %v), and it goes well", n, f.garbled)
			}
			if d := cmp.Diff(was, everything(t, db)); d != "" {
				t.Fatalf("call %d fails (garbled: %v), and has changed something (-was +is):\n%s", n, f.garbled, d)
			}
		}
	}
}

// everything is all that a database says.
func everything(t *testing.T, db *sql.DB) string {
	t.Helper()
	var out []string
	read := func(query string) (first []string) {
		rows, err := db.Query(query)
		if err != nil {
			t.Fatal(err)
		}
		defer rows.Close()
		cols, err := rows.Columns()
		if err != nil {
			t.Fatal(err)
		}
		for rows.Next() {
			vals, into := make([]any, len(cols)), make([]any, len(cols))
			for i := range vals {
				into[i] = &vals[i]
			}
			if err := rows.Scan(into...); err != nil {
				t.Fatal(err)
			}
			first = append(first, fmt.Sprint(vals[0]))
			out = append(out, fmt.Sprint(query, vals))
		}
		if err := rows.Err(); err != nil {
			t.Fatal(err)
		}
		return first
	}
	read("PRAGMA user_version")
	for _, table := range read("SELECT name, sql FROM sqlite_schema WHERE type = 'table'") {
		read("SELECT * FROM " + table)
	}
	slices.Sort(out)
	return strings.Join(out, "\n")
}

// TestEveryFault: whichever call of the database fails, or gives a row that cannot be read, the act fails and has
// changed nothing.
func TestEveryFault(t *testing.T) {
	if testing.Short() {
		t.Skip("one call after the other: nothing for the race detector")
	}
	for _, a := range acts() {
		t.Run(a.name, func(t *testing.T) {
			sound := open0(t)
			w := newWorld(t, sound)
			f := &faulty{}
			s := f.open(t, sound.path)
			f.each(t, sound.write, func() error { return a.do(s, w) })
		})
	}
}

// TestEveryFaultOfARefusal: an undo that others' changes stand against says so, and not where it cannot be known.
func TestEveryFaultOfARefusal(t *testing.T) {
	sound := open0(t)
	w := newWorld(t, sound)
	edit(t, sound, home, w.id, ada, "fewer", func(c *Change) { c.Party.Covers = 3 })
	edit(t, sound, home, w.id, ben, "more", func(c *Change) { c.Party.Covers = 9 })
	f := &faulty{}
	s := f.open(t, sound.path)
	f.each(t, sound.write, func() error {
		_, _, err := s.Undo(t.Context(), home, w.id, ada, t0, nil)
		var touched *TouchedError
		if !errors.As(err, &touched) {
			return err
		}
		if len(touched.Since) != 1 || touched.Since[0].What != "more" {
			t.Errorf("%+v stands against it", touched.Since)
		}
		return nil
	})
}

// TestEveryFaultOfAMigration: so is it with the steps of a file that an earlier version left.
func TestEveryFaultOfAMigration(t *testing.T) {
	if testing.Short() {
		t.Skip("one call after the other: nothing for the race detector")
	}
	dish := `{"key":"stew","name":"Stew","course":"main","steps":[{"key":"cook","uses":[{"what":"oven","c":180,` +
		`"until":"carve"}]}]}`
	cookies := `{"thing":"cooky","name":"cookies","house":"6"}`
	path := former(t, `INSERT INTO piece VALUES ('home', 7, 'dish', 'stew', 1, '`+dish+`'),
			('home', 7, 'good', 'cooky', 1024, '`+cookies+`'),
			('home', 7, 'good', 'cookie', 2048, '{"thing":"cookie","name":"cookie","house":"2"}')`,
		`INSERT INTO touched VALUES ('home', 7, 2, 'good', 'cooky', NULL, NULL, 1024, '`+cookies+`'),
			('home', 7, 2, 'dish', 'stew', 1, '`+dish+`', 1, '`+dish+`'), ('home', 7, 3, 'plan', '', 0, '{}', NULL, NULL)`,
		`UPDATE entry SET plan = '`+digest(nil)+`' WHERE revision = 3`)
	f := &faulty{}
	s := f.open(t, path)
	steps := migrations()
	f.each(t, s.write, func() error {
		_, err := migrateOne(t.Context(), s.write, steps[:4])
		return err
	})
}
