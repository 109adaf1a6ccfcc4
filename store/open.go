package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"sync/atomic"
	"time"
)

// Community is whose data may be seen: a chat's guild, or the local console.
type Community string

// Actor is who makes a change: the face's id, and the name to show.
type Actor struct{ ID, Name string }

// House is the actor of what tureen does by itself. Whoever takes something back may take that back too. No person
// has its id: those of faces are numbers, and those of the terminal have no colon.
var House = Actor{ID: "house:", Name: "tureen"}

// Store is an open database. Open is the only way to get one; it is safe for concurrent use.
type Store struct {
	path  string
	write *sql.DB // one connection, immediate transactions
	read  *sql.DB // a pool, query only
	armed atomic.Pointer[func()]
}

const (
	readers    = 4
	patience   = 5 * time.Second // with a file that another program has locked
	sqliteHead = "SQLite format 3\x00"
)

// applicationID marks our files: "TRNB" in the header's application_id.
const applicationID = 0x54524e42

// Open opens the database at a path, creates it when there is none, and brings its tables up to date.
// A file that is not ours, or that a newer version wrote, is refused and left as it is: see the errors.
func Open(ctx context.Context, path string) (*Store, error) {
	began := time.Now()
	for {
		s, err := open(ctx, path)
		switch {
		case err == nil:
			return s, nil
		case !errors.Is(err, ErrBusy) || time.Since(began) > patience:
			return nil, fmt.Errorf("%s: %w", filepath.Base(path), err)
		}
		// SQLite does not wait by itself while another program turns a new file to WAL, or closes it as its last
		// user and folds the WAL away: both take it whole for a moment.
		select {
		case <-ctx.Done():
			return nil, fmt.Errorf("%s: %w", filepath.Base(path), ctx.Err())
		case <-time.After(10 * time.Millisecond):
		}
	}
}

func open(ctx context.Context, path string) (*Store, error) {
	if err := inspect(ctx, path); err != nil {
		return nil, err
	}
	s := &Store{path: path, write: connect(dsn(path, "_txlock=immediate"))}
	s.write.SetMaxOpenConns(1)
	if err := migrate(ctx, s.write); err != nil {
		return nil, errors.Join(translate(err), s.write.Close())
	}
	s.read = connect(dsn(path, "_pragma=query_only(1)"))
	s.read.SetMaxOpenConns(readers)
	s.read.SetMaxIdleConns(readers)
	return s, nil
}

// connect is a database by its name. No file is opened before something is asked of it, so that nothing can fail here:
// the driver is linked in.
func connect(name string) *sql.DB {
	db, _ := sql.Open("sqlite", name)
	return db
}

// Close closes every connection. The store is not to be used afterwards.
func (s *Store) Close() error { return errors.Join(s.read.Close(), s.write.Close()) }

// waiting makes a connection wait for a lock as long as Open does.
var waiting = fmt.Sprintf("?_pragma=busy_timeout(%d)", patience.Milliseconds())

// dsn puts the settings that every connection must have into its name, since a PRAGMA by Exec would
// reach one pooled connection only.
func dsn(path, more string) string {
	return location(path) + waiting + "&_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)" +
		"&_pragma=foreign_keys(1)&_dqs=0&" + more
}

// location is the path as a URI, so that a question mark in a file's name stays part of it.
func location(path string) string {
	return "file:" + (&url.URL{Path: filepath.ToSlash(path)}).EscapedPath()
}

// inspect looks at a file without being able to change it, before anything is opened for writing.
func inspect(ctx context.Context, path string) error {
	if path == "" || path == ":memory:" { // SQLite would keep it in memory, each connection its own
		return errors.New("no file is named: name the one that keeps the parties")
	}
	f, err := os.Open(path)
	if errors.Is(err, os.ErrNotExist) {
		if dir, err := os.Stat(filepath.Dir(path)); err != nil || !dir.IsDir() {
			return fmt.Errorf("its folder does not exist: make the folder %s first", filepath.Dir(path))
		}
		return nil
	}
	if err != nil {
		return err
	}
	head := make([]byte, len(sqliteHead))
	n, err := io.ReadFull(f, head)
	if e := f.Close(); e != nil {
		return e
	}
	if n == 0 && errors.Is(err, io.EOF) {
		return nil // an empty file becomes a new database
	}
	if string(head[:n]) != sqliteHead {
		if info, err := os.Stat(path); err == nil && info.IsDir() {
			return errors.New("this is a folder: name a file in it")
		}
		return ErrForeign
	}
	db := connect(location(path) + waiting + "&mode=ro")
	defer db.Close()
	var app, version, tables int64
	for _, q := range []struct {
		ask string
		to  *int64
	}{{"PRAGMA application_id", &app}, {"PRAGMA user_version", &version},
		{"SELECT count(*) FROM sqlite_schema", &tables}} {
		if err := db.QueryRowContext(ctx, q.ask).Scan(q.to); err != nil {
			return translate(err)
		}
	}
	switch {
	case app == applicationID && version > int64(len(migrations())):
		return ErrNewer
	case app == applicationID, app == 0 && tables == 0:
		return nil
	}
	return ErrForeign
}

// change runs one writing transaction and translates its error.
func (s *Store) change(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return translate(err)
	}
	defer tx.Rollback()
	if err := do(tx); err != nil {
		return translate(err)
	}
	return translate(tx.Commit())
}

// look runs one reading transaction, which sees a single state of the database.
func (s *Store) look(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := s.read.BeginTx(ctx, nil)
	if err != nil {
		return translate(err)
	}
	defer tx.Rollback()
	return translate(do(tx))
}

// queried reads all rows of a query, so that others may follow within the transaction.
func queried[T any](ctx context.Context, tx *sql.Tx, query string, scan func(*sql.Rows) (T, error),
	args ...any) ([]T, error) {
	rows, err := tx.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []T
	for rows.Next() {
		v, err := scan(rows)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, rows.Err()
}

func toMilli(t time.Time) int64    { return t.UnixMilli() }
func fromMilli(ms int64) time.Time { return time.UnixMilli(ms).UTC() }
func orNull[T any](set bool, v T) any {
	if !set {
		return nil
	}
	return v
}
