package store

import (
	"context"
	"database/sql"
)

// OfAccount is a party that an account is among the people of, with its community.
type OfAccount struct {
	Community Community
	Summary
}

// PartiesOf lists the parties of all communities that have a person with this account, by arrival.
func (s *Store) PartiesOf(ctx context.Context, account string) ([]OfAccount, error) {
	if account == "" {
		return nil, nil
	}
	var out []OfAccount
	err := s.look(ctx, func(tx *sql.Tx) (err error) {
		out, err = queried(ctx, tx, systemOfAccount, func(rows *sql.Rows) (p OfAccount, err error) {
			var arrival int64
			err = rows.Scan(&p.Community, &p.ID, &p.Name, &p.Zone, &p.Channel, &arrival, &p.Covers, &p.Revision)
			p.Arrival = fromMilli(arrival)
			return p, err
		}, account)
		return err
	})
	return out, err
}
