package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Whatever is no database of ours is refused, and not a byte of it changes.
func TestOpenRefuses(t *testing.T) {
	ctx := context.Background()
	sqlite := func(path string, statements ...string) {
		db, err := sql.Open("sqlite", location(path))
		if err != nil {
			t.Fatal(err)
		}
		defer db.Close()
		for _, s := range statements {
			if _, err := db.ExecContext(ctx, s); err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, c := range []struct {
		name string
		make func(path string)
		want error
	}{
		{"text", func(path string) { writeFile(t, path, []byte("1 kg potatoes\n")) }, ErrForeign},
		{"almost a database", func(path string) {
			writeFile(t, path, append([]byte(sqliteHead), bytes.Repeat([]byte{7}, 4096)...))
		}, ErrForeign},
		{"cut short", func(path string) { writeFile(t, path, []byte(sqliteHead)[:9]) }, ErrForeign},
		{"another program's", func(path string) { sqlite(path, "CREATE TABLE song (id INTEGER)") }, ErrForeign},
		{"another program's, marked", func(path string) { sqlite(path, "PRAGMA application_id = 77", "CREATE TABLE t (a)") },
			ErrForeign},
		{"a newer version's", func(path string) {
			sqlite(path, fmt.Sprintf("PRAGMA application_id = %d", applicationID),
				fmt.Sprintf("PRAGMA user_version = %d", len(migrations())+1), "CREATE TABLE t (a)")
		}, ErrNewer},
	} {
		dir := t.TempDir()
		path := filepath.Join(dir, "party.db")
		c.make(path)
		before := readFile(t, path)
		s, err := Open(ctx, path)
		if !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
		if s != nil {
			s.Close()
		}
		if !bytes.Equal(before, readFile(t, path)) {
			t.Errorf("%s: the file was changed", c.name)
		}
		if files, err := os.ReadDir(dir); err != nil || len(files) != 1 {
			t.Errorf("%s: files were left beside it: %v (%v)", c.name, files, err)
		}
	}
}

func TestOpenSaysWhatIsWrongWithThePath(t *testing.T) {
	dir := t.TempDir()
	for path, want := range map[string]string{
		filepath.Join(dir, "none", "party.db"): "make the folder",
		dir:                                    "this is a folder",
	} {
		s, err := Open(context.Background(), path)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q in it", filepath.Base(path), err, want)
		}
		if s != nil {
			s.Close()
		}
	}
}

func TestOpenNewFiles(t *testing.T) {
	for _, name := range []string{"party.db", "a party? 100% & #1.db", "empty.db"} {
		path := filepath.Join(t.TempDir(), name)
		if name == "empty.db" {
			writeFile(t, path, nil)
		}
		for range 2 { // new, and again
			s, err := Open(context.Background(), path)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if err := s.Close(); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
		if _, err := os.Stat(path); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// While another program holds the write lock, reading goes on and writing is refused in time, with
// nothing changed; afterwards all is well.
func TestLocked(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	other, err := sql.Open("sqlite", location(s.path)+"?_txlock=immediate")
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	tx, err := other.BeginTx(ctx, nil)
	if err != nil {
		t.Fatal(err)
	}
	// A patience of nothing, so that the test need not wait for the usual one.
	if _, err := s.write.ExecContext(ctx, "PRAGMA busy_timeout = 0"); err != nil {
		t.Fatal(err)
	}
	if err := s.SetFocus(ctx, home, "kitchen", "", id); !errors.Is(err, ErrBusy) {
		t.Errorf("write: %v, want ErrBusy", err)
	}
	if _, err := s.Load(ctx, home, id); err != nil {
		t.Errorf("read: %v", err)
	}
	if err := tx.Rollback(); err != nil {
		t.Fatal(err)
	}
	if err := s.SetFocus(ctx, home, "kitchen", "", id); err != nil {
		t.Errorf("write afterwards: %v", err)
	}
}

func TestReadOnly(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	if _, err := s.write.ExecContext(ctx, "PRAGMA query_only = 1"); err != nil {
		t.Fatal(err)
	}
	if err := s.Remove(ctx, home, ada, t0, id); !errors.Is(err, ErrReadOnly) {
		t.Errorf("%v, want ErrReadOnly", err)
	}

	path := filepath.Join(t.TempDir(), "party.db")
	fresh, err := Open(ctx, path)
	if err != nil {
		t.Fatal(err)
	}
	if err := fresh.Close(); err != nil {
		t.Fatal(err)
	}
	if os.Geteuid() == 0 {
		t.Log("a file's permissions do not stop root: only the first half was tried")
		return
	}
	if err := os.Chmod(path, 0o400); err != nil {
		t.Fatal(err)
	}
	if s, err := Open(ctx, path); err == nil {
		defer s.Close()
		if _, err := s.Create(ctx, home, ada, t0, supper()); !errors.Is(err, ErrReadOnly) {
			t.Errorf("%v, want ErrReadOnly", err)
		}
	} else if !errors.Is(err, ErrReadOnly) {
		t.Errorf("%v, want ErrReadOnly", err)
	}
}

// A step that fails leaves the tables as they were before it, and the version says so.
func TestMigrationIsAllOrNothing(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	steps := append(migrations(), "CREATE TABLE extra (a INTEGER) STRICT",
		"CREATE TABLE more (a INTEGER) STRICT; CREATE TABLE more (a INTEGER) STRICT")
	if err := migrateWith(ctx, s.write, steps); err == nil {
		t.Fatal("a broken step was taken")
	}
	var version, extra, more int
	for q, to := range map[string]*int{
		"PRAGMA user_version": &version,
		"SELECT count(*) FROM sqlite_schema WHERE name = 'extra'": &extra,
		"SELECT count(*) FROM sqlite_schema WHERE name = 'more'":  &more,
	} {
		if err := s.write.QueryRowContext(ctx, q).Scan(to); err != nil {
			t.Fatal(err)
		}
	}
	if version != len(steps)-1 || extra != 1 || more != 0 {
		t.Errorf("version %d, extra %d, more %d, want %d, 1, 0", version, extra, more, len(steps)-1)
	}
	if _, err := s.Load(ctx, home, id); err != nil {
		t.Errorf("what was stored before: %v", err)
	}
	if _, err := Open(ctx, s.path); !errors.Is(err, ErrNewer) {
		t.Errorf("the version before: %v, want ErrNewer", err)
	}
}

// Two programs that start on a new file at once both find it complete.
func TestOpenAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "party.db")
	errs := make(chan error)
	const programs = 4
	for range programs {
		go func() {
			s, err := Open(context.Background(), path)
			if err == nil {
				err = s.Close()
			}
			errs <- err
		}()
	}
	for range programs {
		if err := <-errs; err != nil {
			t.Error(err)
		}
	}
}

// A copy of the files as a power cut would leave them, with a transaction under way, opens with what had
// been answered and without what had not.
func TestCrash(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	edit(t, s, home, id, ben, "more covers", func(c *Change) { c.Party.Covers = 9 })
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := tx.ExecContext(ctx, "DELETE FROM party"); err != nil {
		t.Fatal(err)
	}
	crashed := filepath.Join(t.TempDir(), "party.db")
	for _, end := range []string{"", "-wal"} {
		writeFile(t, crashed+end, readFile(t, s.path+end))
	}
	if err := tx.Rollback(); err != nil {
		t.Fatal(err)
	}
	again, err := Open(ctx, crashed)
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	snap, err := again.Load(ctx, home, id)
	if err != nil || snap.Party.Covers != 9 || snap.Revision != 2 {
		t.Errorf("covers %d, revision %d (%v), want 9, 2", snap.Party.Covers, snap.Revision, err)
	}
}

func TestBackupAndRestore(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	edit(t, s, home, id, ada, "planned", func(c *Change) { c.Plan = planFor(&c.Party, 2) })
	want, err := s.Load(ctx, home, id)
	if err != nil {
		t.Fatal(err)
	}
	copied := filepath.Join(t.TempDir(), "copy.db")
	writeFile(t, copied, []byte("yesterday's"))
	if err := s.Backup(ctx, copied); err != nil {
		t.Fatal(err)
	}
	edit(t, s, home, id, ada, "after the backup", func(c *Change) { c.Party.Covers = 99 })
	if _, err := os.Stat(copied + ".part"); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the part file is left: %v", err)
	}
	restored, err := Open(ctx, copied)
	if err != nil {
		t.Fatal(err)
	}
	defer restored.Close()
	same(t, restored, id, want)
	if err := s.Backup(ctx, filepath.Join(copied, "nowhere", "copy.db")); err == nil {
		t.Error("a backup to nowhere succeeded")
	}
}

// A copy that is not whole is never put in the place of the last good one.
func TestVerifyFindsDamage(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	for i := range 30 {
		p := supper()
		p.Name = fmt.Sprint("party ", i)
		create(t, s, home, p)
	}
	copied := filepath.Join(t.TempDir(), "copy.db")
	if err := s.Backup(ctx, copied); err != nil {
		t.Fatal(err)
	}
	data := readFile(t, copied)
	for i := 3 * 4096; i < len(data); i += 4096 {
		copy(data[i:], bytes.Repeat([]byte{0xff}, 64)) // the heads of most pages
	}
	writeFile(t, copied, data)
	if err := verify(ctx, copied); !errors.Is(err, ErrDamaged) {
		t.Errorf("%v, want ErrDamaged", err)
	}
}

func TestPrune(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	kept := create(t, s, home, supper()).Party.ID
	p := supper()
	p.Name = "Gone"
	gone := create(t, s, home, p).Party.ID
	if err := s.Remove(ctx, home, ada, t0, gone); err != nil {
		t.Fatal(err)
	}
	if err := s.Prune(ctx, t0.Add(KeepRemoved)); err != nil {
		t.Fatal(err)
	}
	if err := s.Recover(ctx, home, ada, t0, gone, nil); err != nil {
		t.Errorf("after %v: %v", KeepRemoved, err)
	}
	if err := s.Remove(ctx, home, ada, t0, gone); err != nil {
		t.Fatal(err)
	}
	if err := s.Prune(ctx, t0.Add(KeepRemoved+time.Second)); err != nil {
		t.Fatal(err)
	}
	if err := s.Recover(ctx, home, ada, t0, gone, nil); !errors.Is(err, ErrNotFound) {
		t.Errorf("after more than %v: %v, want ErrNotFound", KeepRemoved, err)
	}
	for _, table := range []string{"piece", "entry", "touched"} {
		var n int
		if err := s.read.QueryRowContext(ctx, "SELECT count(*) FROM "+table+" WHERE party = ?", gone).Scan(&n); err != nil ||
			n != 0 {
			t.Errorf("%d rows left in %s (%v)", n, table, err)
		}
	}
	if _, err := s.Load(ctx, home, kept); err != nil {
		t.Error(err)
	}
}

func writeFile(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

func readFile(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
