package store

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/json"
	"maps"
	"slices"

	"tureen/planner"
	"tureen/planner/measure"
)

// oneItem has a party's items to buy go by today's singular of their names: "cookies" was "cooky" and "cookie" was
// another item. Where two become one, so do they at every entry of the journal; where that cannot be (somebody has said
// "2" of one and "500 g" of the other), they stay the two that they were.
func oneItem(ctx context.Context, tx *sql.Tx, p ofParty) error {
	const query = `SELECT kind, key, doc FROM piece WHERE community = ?1 AND party = ?2 AND kind IN ('good', 'bought')
		UNION SELECT kind, key, ifnull(after_doc, before_doc) FROM touched
		WHERE community = ?1 AND party = ?2 AND kind IN ('good', 'bought')`
	rows, err := queried(ctx, tx, query, func(rows *sql.Rows) (c piece, err error) {
		return c, rows.Scan(&c.kind, &c.key, &c.doc)
	}, string(p.community), p.id)
	if err != nil {
		return err
	}
	becomes := map[pieceKey]map[string]bool{} // by today's key, the keys that it had
	for _, c := range rows {
		item, err := itemNow(c.doc)
		if err != nil {
			return err
		}
		now := pieceKey{c.kind, string(item)}
		if becomes[now] == nil {
			becomes[now] = map[string]bool{}
		}
		becomes[now][c.key] = true
	}
	for now, was := range becomes {
		if len(was) == 1 && was[now.key] {
			continue
		}
		if err := joinItems(ctx, tx, p, now, slices.Sorted(maps.Keys(was))); err != nil {
			return err
		}
	}
	return nil
}

// joinItems has all pieces of some keys become one, of another key, now and at every entry of the journal.
func joinItems(ctx context.Context, tx *sql.Tx, p ofParty, now pieceKey, was []string) error {
	type change struct {
		revision      int64
		before, after *piece
	}
	var changes []change
	var latest *piece
	whole, first := true, true
	err := backwards(ctx, tx, p, func(at journalled) error {
		after, err1 := joined(now, was, at.after)
		before, err2 := joined(now, was, at.before)
		whole = whole && err1 == nil && err2 == nil
		if first {
			latest, first = after, false
		}
		if same := after == nil && before == nil || after != nil && before != nil && *after == *before; !same {
			changes = append(changes, change{at.revision, before, after})
		}
		return nil
	})
	if err != nil || !whole || first {
		return err
	}
	const forget = `DELETE FROM piece WHERE community = ? AND party = ? AND kind = ? AND key = ?`
	const unsay = `DELETE FROM touched WHERE community = ? AND party = ? AND kind = ? AND key = ?`
	const insert = `INSERT INTO piece (community, party, kind, key, ord, doc) VALUES (?, ?, ?, ?, ?, ?)`
	const note = `INSERT INTO touched (community, party, revision, kind, key, before_ord, before_doc, after_ord, after_doc)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`
	for _, key := range was {
		for _, query := range []string{forget, unsay} {
			if _, err := tx.ExecContext(ctx, query, string(p.community), p.id, string(now.kind), key); err != nil {
				return err
			}
		}
	}
	if latest != nil {
		_, err := tx.ExecContext(ctx, insert, string(p.community), p.id, string(now.kind), now.key, latest.ord, latest.doc)
		if err != nil {
			return err
		}
	}
	for _, c := range changes {
		args := []any{string(p.community), p.id, c.revision, string(now.kind), now.key, nil, nil, nil, nil}
		if c.before != nil {
			args[5], args[6] = c.before.ord, c.before.doc
		}
		if c.after != nil {
			args[7], args[8] = c.after.ord, c.after.doc
		}
		if _, err := tx.ExecContext(ctx, note, args...); err != nil {
			return err
		}
	}
	return nil
}

// joined is one piece of those that are there, nil for none, or why they cannot be one.
func joined(now pieceKey, was []string, pieces map[pieceKey]piece) (*piece, error) {
	var there []piece
	for _, key := range was {
		if p, ok := pieces[pieceKey{now.kind, key}]; ok {
			there = append(there, p)
		}
	}
	if len(there) == 0 {
		return nil, nil
	}
	slices.SortStableFunc(there, func(a, b piece) int { return cmp.Compare(a.ord, b.ord) })
	join := joinedPurchases
	if now.kind == GoodPiece {
		join = joinedGoods
	}
	doc, err := join(planner.Item(now.key), there)
	return &piece{pieceKey: now, ord: there[0].ord, doc: string(doc)}, err
}

func joinedGoods(now planner.Item, pieces []piece) ([]byte, error) {
	var out planner.Good
	for i, p := range pieces {
		var g planner.Good
		if err := json.Unmarshal([]byte(p.doc), &g); err != nil {
			return nil, err
		}
		if i == 0 {
			out = g
			continue
		}
		var err1, err2 error
		out.Have, err1 = together(out.Have, g.Have)
		out.Extra, err2 = together(out.Extra, g.Extra)
		if err := cmp.Or(err1, err2); err != nil {
			return nil, err
		}
		out.Shop, out.Section = cmp.Or(out.Shop, g.Shop), cmp.Or(out.Section, g.Section)
		out.Brings = cmp.Or(out.Brings, g.Brings)
		if out.Price == "" {
			out.Price, out.Per = g.Price, g.Per
		}
		for _, pack := range g.Packs {
			if !slices.ContainsFunc(out.Packs, func(have planner.Pack) bool { return have.Size == pack.Size }) {
				out.Packs = append(out.Packs, pack)
			}
		}
	}
	out.Item = now
	return json.Marshal(out)
}

func joinedPurchases(now planner.Item, pieces []piece) ([]byte, error) {
	var out planner.Purchase
	for i, p := range pieces {
		var b planner.Purchase
		if err := json.Unmarshal([]byte(p.doc), &b); err != nil {
			return nil, err
		}
		if i == 0 {
			out = b
		} else {
			out.Got = append(out.Got, b.Got...)
		}
	}
	out.Item = now
	return json.Marshal(out)
}

// together is the sum of two amounts, of which each may be one of a [planner.Good]'s words for what is no amount.
func together(a, b string) (string, error) {
	switch {
	case a == "" || a == planner.AsNeeded && b != "" || b == planner.Enough:
		return b, nil
	case b == "" || b == planner.AsNeeded || a == planner.Enough:
		return a, nil
	}
	one, err := measure.ParseWhole(a)
	if err != nil {
		return "", err
	}
	other, err := measure.ParseWhole(b)
	if err != nil {
		return "", err
	}
	sum, err := one.Add(other)
	if err != nil {
		return "", err
	}
	return sum.String(), nil
}
