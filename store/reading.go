package store

import (
	"context"
	"database/sql"
	"errors"
	"time"
)

// Reading is a recipe that somebody has sent and not yet put on a menu.
type Reading struct {
	At      time.Time
	Source  []byte // the recipe's words
	Changes string // what was said about how they were read, as its caller writes it; may be empty
}

// KeepReadings is how long a reading waits to be put on a menu; [Store.Prune] deletes it then.
const KeepReadings = 7 * 24 * time.Hour

// SetReading keeps a person's reading in a channel, in the place of the one before.
func (s *Store) SetReading(ctx context.Context, c Community, channel, user string, r Reading) error {
	const upsert = `INSERT INTO reading (community, channel, user, at, source, changes) VALUES (?, ?, ?, ?, ?, ?)
		ON CONFLICT (community, channel, user) DO UPDATE SET at = excluded.at, source = excluded.source,
			changes = excluded.changes`
	return s.change(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, upsert, string(c), channel, user, toMilli(r.At), r.Source, r.Changes)
		return err
	})
}

// Reading is a person's last reading in a channel, or ErrNotFound.
func (s *Store) Reading(ctx context.Context, c Community, channel, user string) (Reading, error) {
	const query = `SELECT at, source, changes FROM reading WHERE community = ? AND channel = ? AND user = ?`
	var r Reading
	var at int64
	err := s.look(ctx, func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, query, string(c), channel, user).Scan(&at, &r.Source, &r.Changes)
	})
	if errors.Is(err, sql.ErrNoRows) {
		return Reading{}, ErrNotFound
	}
	r.At = fromMilli(at)
	return r, err
}
