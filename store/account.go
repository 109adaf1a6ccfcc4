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
	err := s.look(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, systemOfAccount, account)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var p OfAccount
			var arrival int64
			if err := rows.Scan(&p.Community, &p.ID, &p.Name, &p.Zone, &p.Channel, &arrival, &p.Covers,
				&p.Revision); err != nil {
				return err
			}
			p.Arrival = fromMilli(arrival)
			out = append(out, p)
		}
		return rows.Err()
	})
	return out, err
}
