package store

import (
	"context"
	"database/sql"
	"time"

	"tureen/planner"
)

// OfCommunity names a party and the community that it belongs to.
type OfCommunity struct {
	Community Community
	Party     planner.PartyID
}

// OtherTables lists the parties in a scope, with guests who come after an instant, whose plan in force was not held
// against the tables of this name.
func (s *Store) OtherTables(ctx context.Context, in Scope, name string, after time.Time) ([]OfCommunity, error) {
	var out []OfCommunity
	err := s.look(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, systemOtherTables, append(in.args(), name, toMilli(after))...)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var p OfCommunity
			if err := rows.Scan(&p.Community, &p.Party); err != nil {
				return err
			}
			out = append(out, p)
		}
		return rows.Err()
	})
	return out, err
}
