package store

import (
	"context"
	"database/sql"
	"os"
	"path/filepath"
	"testing"
)

// TestBackupThatCannotBe: a copy that cannot be written, or put into its place, is said; what stood there stays, and
// nothing half done is left beside it.
func TestBackupThatCannotBe(t *testing.T) {
	s := open0(t)
	create(t, s, home, supper())
	dir := t.TempDir()
	inTheWay := filepath.Join(dir, "taken.db.part")
	folder := filepath.Join(dir, "folder.db")
	for _, d := range []string{filepath.Join(inTheWay, "full"), filepath.Join(folder, "full")} {
		if err := os.MkdirAll(d, 0o700); err != nil {
			t.Fatal(err)
		}
	}
	writeFile(t, filepath.Join(dir, "taken.db"), []byte("old"))
	for _, path := range []string{filepath.Join(dir, "taken.db"), folder, filepath.Join(dir, "nowhere", "copy.db")} {
		if err := s.Backup(context.Background(), path); err == nil {
			t.Errorf("%s: it is said to be written", path)
		}
	}
	if got := string(readFile(t, filepath.Join(dir, "taken.db"))); got != "old" {
		t.Errorf("what stood there is %q", got)
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 3 {
		t.Errorf("left in the folder: %v, %v", left, err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := s.Backup(ctx, filepath.Join(dir, "late.db")); err == nil {
		t.Error("nobody waits for it, and it is said to be written")
	}
	if err := verify(context.Background(), filepath.Join(dir, "none.db")); err == nil {
		t.Error("no file is whole")
	}
	foreign := filepath.Join(dir, "text.db")
	writeFile(t, foreign, []byte("this is a letter, and no database at all, however long it goes on and on"))
	if err := verify(context.Background(), foreign); err == nil {
		t.Error("a letter is a whole database")
	}
}

// TestMigrationsInOrder: as many steps are taken as there are, each once.
func TestMigrationsInOrder(t *testing.T) {
	db, err := sql.Open("sqlite", "file:"+filepath.Join(t.TempDir(), "new.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	steps := migrations()
	for n := 1; n <= len(steps); n++ {
		for try := range 2 {
			done, err := migrateOne(t.Context(), db, steps[:n])
			var version, app int64
			if err := db.QueryRow("PRAGMA user_version").Scan(&version); err != nil {
				t.Fatal(err)
			}
			if err := db.QueryRow("PRAGMA application_id").Scan(&app); err != nil {
				t.Fatal(err)
			}
			if err != nil || done != (try == 1) || version != int64(n) || app != applicationID {
				t.Errorf("step %d, try %d: done %v, %v; the file has taken %d, and is %x", n, try, done, err, version, app)
			}
		}
	}
	if _, err := migrateOne(t.Context(), db, steps[:1]); err != ErrNewer {
		t.Errorf("a file that has taken more steps: %v", err)
	}
}
