package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
)

//go:embed migrations/*.sql
var migrationFiles embed.FS

// migrations are the steps from an empty database to today's tables, in order. The number of steps
// that a file has taken stands in its user_version. A step that has been released never changes.
func migrations() []string {
	names, err := fs.Glob(migrationFiles, "migrations/*.sql") // in order of their names
	if err != nil {
		panic(err) // the pattern is a constant
	}
	var out []string
	for i, name := range names {
		if want := fmt.Sprintf("migrations/%04d.sql", i+1); name != want {
			panic("store: " + name + " stands where " + want + " should")
		}
		text, err := migrationFiles.ReadFile(name)
		if err != nil {
			panic(err)
		}
		out = append(out, string(text))
	}
	return out
}

// migrate takes the steps that are missing, each in its own transaction.
func migrate(ctx context.Context, db *sql.DB) error { return migrateWith(ctx, db, migrations()) }

func migrateWith(ctx context.Context, db *sql.DB, steps []string) error {
	for {
		done, err := migrateOne(ctx, db, steps)
		if err != nil || done {
			return err
		}
	}
}

// migrateOne reads the version under the write lock, so that two programs that start at once do not
// both take a step.
func migrateOne(ctx context.Context, db *sql.DB, steps []string) (done bool, err error) {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return false, err
	}
	defer tx.Rollback()
	var version int
	if err := tx.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version); err != nil {
		return false, err
	}
	switch {
	case version > len(steps):
		return false, ErrNewer
	case version == len(steps):
		return true, nil
	}
	take := func() error {
		_, err := tx.ExecContext(ctx, steps[version])
		return err
	}
	if with := alongside[version+1]; with != nil {
		err = with(ctx, tx, take)
	} else {
		err = take()
	}
	if err != nil {
		return false, fmt.Errorf("migration %d: %w", version+1, err)
	}
	if version == 0 {
		if _, err := tx.ExecContext(ctx, fmt.Sprintf("PRAGMA application_id = %d", applicationID)); err != nil {
			return false, err
		}
	}
	if _, err := tx.ExecContext(ctx, fmt.Sprintf("PRAGMA user_version = %d", version+1)); err != nil {
		return false, err
	}
	return false, tx.Commit()
}
