package store

import (
	"context"
	"database/sql"
	"errors"

	"tureen/planner"
)

// Focus says which party a person in a channel is talking about: the person's own choice there, else the
// channel's. ErrNotFound when neither has been set.
func (s *Store) Focus(ctx context.Context, c Community, channel, user string) (planner.PartyID, error) {
	const query = `SELECT party FROM focus WHERE community = ? AND channel = ? AND user IN (?, '')
		ORDER BY user DESC LIMIT 1`
	var id planner.PartyID
	err := s.look(ctx, func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, query, string(c), channel, user).Scan(&id)
	})
	if errors.Is(err, sql.ErrNoRows) {
		return 0, ErrNotFound
	}
	return id, err
}

// SetFocus sets which party a person in a channel is talking about; an empty user sets the channel's.
// Party 0 forgets the choice.
func (s *Store) SetFocus(ctx context.Context, c Community, channel, user string, id planner.PartyID) error {
	const upsert = `INSERT INTO focus (community, channel, user, party) VALUES (?, ?, ?, ?)
		ON CONFLICT (community, channel, user) DO UPDATE SET party = excluded.party`
	const remove = `DELETE FROM focus WHERE community = ? AND channel = ? AND user = ?`
	return s.change(ctx, func(tx *sql.Tx) error {
		if id == 0 {
			_, err := tx.ExecContext(ctx, remove, string(c), channel, user)
			return err
		}
		if _, err := load(ctx, tx, c, id); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, upsert, string(c), channel, user, id)
		return err
	})
}
