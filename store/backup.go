package store

import (
	"context"
	"errors"
	"fmt"
	"os"
)

// Backup writes a copy of the database, complete and checked, to a path; what stood there is replaced only
// once the copy is whole. People can go on meanwhile.
//
// To restore: stop tureen, put the copy in the place of the database, delete the files beside it whose
// names end in -wal and -shm, and start again. A reminder that was sent after the backup may come again.
func (s *Store) Backup(ctx context.Context, path string) error {
	part := path + ".part"
	if err := os.Remove(part); err != nil && !errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("back up: %w", err)
	}
	defer os.Remove(part)
	db := connect(dsn(s.path, ""))
	defer db.Close()
	if _, err := db.ExecContext(ctx, systemBackup, part); err != nil {
		return fmt.Errorf("back up: %w", translate(err))
	}
	if err := verify(ctx, part); err != nil {
		return fmt.Errorf("back up: the copy is not whole: %w", err)
	}
	f, err := os.OpenFile(part, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	if err := errors.Join(f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("back up: %w", err)
	}
	return os.Rename(part, path)
}

// verify lets SQLite check a database file from end to end.
func verify(ctx context.Context, path string) error {
	db := connect(location(path) + "?mode=ro")
	defer db.Close()
	var answer string
	if err := db.QueryRowContext(ctx, "PRAGMA integrity_check").Scan(&answer); err != nil {
		return translate(err)
	}
	if answer != "ok" {
		return fmt.Errorf("%w: %s", ErrDamaged, answer)
	}
	return nil
}
