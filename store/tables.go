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
// against the tables of this name. Where there is no plan the name is not asked for: working it out is dear.
func (s *Store) OtherTables(ctx context.Context, in Scope, name func() string, after time.Time) ([]OfCommunity, error) {
	var out []OfCommunity
	err := s.look(ctx, func(tx *sql.Tx) error {
		_, err := queried(ctx, tx, systemOtherTables, func(rows *sql.Rows) (held string, err error) {
			var p OfCommunity
			if err = rows.Scan(&p.Community, &p.Party, &held); err == nil && held != name() {
				out = append(out, p)
			}
			return held, err
		}, append(in.args(), toMilli(after))...)
		return err
	})
	return out, err
}
