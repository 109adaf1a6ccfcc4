package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"

	"tureen/planner"
)

// alongside has what is done around the SQL of a migration's step (rest), for those that SQL alone cannot take.
var alongside = map[int]func(ctx context.Context, tx *sql.Tx, rest func() error) error{4: respell}

// respell is the step to one word an idea. Plans in the journal are told apart by their digests afterwards as before:
// an entry whose digest was of the plan after it has that plan's digest again.
func respell(ctx context.Context, tx *sql.Tx, rest func() error) error {
	parties, err := queried(ctx, tx, systemParties, func(rows *sql.Rows) (p ofParty, err error) {
		return p, rows.Scan(&p.community, &p.id)
	})
	if err != nil {
		return err
	}
	held := map[ofParty]map[int64]bool{}
	for _, p := range parties {
		held[p] = map[int64]bool{}
		err := backwards(ctx, tx, p, func(at journalled) error {
			held[p][at.revision] = at.plan == at.digest
			return nil
		})
		if err != nil {
			return err
		}
	}
	if err := rest(); err != nil {
		return err
	}
	for _, p := range parties {
		if err := eachDish(ctx, tx, p, throughStep); err != nil {
			return err
		}
		if err := oneItem(ctx, tx, p); err != nil {
			return err
		}
		err := backwards(ctx, tx, p, func(at journalled) error {
			if !held[p][at.revision] {
				return nil
			}
			const update = `UPDATE entry SET plan = ? WHERE community = ? AND party = ? AND revision = ?`
			_, err := tx.ExecContext(ctx, update, at.digest, string(p.community), p.id, at.revision)
			return err
		})
		if err != nil {
			return err
		}
	}
	return nil
}

const systemParties = `SELECT community, id FROM party`

// ofParty names a party.
type ofParty struct {
	community Community
	id        planner.PartyID
}

// throughUse is a use, as it is written, up to the step through which it stays taken; that was called "until", as the
// sign that a step is done still is.
var throughUse = regexp.MustCompile(`("what":"[a-z ]+"(?:,"name":"(?:[^"\\]|\\.)*")?` +
	`(?:,"(?:amount|for|c|tolerance)":-?\d+)*(?:,"shut":true)?(?:,"then":\[[^\]]*\])?,)"until":`)

func throughStep(doc string) string { return throughUse.ReplaceAllString(doc, `${1}"through":`) }

// The texts of a party's dishes, now and in its journal, and what puts others in their places.
var dishTexts = []struct{ read, write string }{
	{`SELECT DISTINCT doc FROM piece WHERE community = ? AND party = ? AND kind = 'dish'`,
		`UPDATE piece SET doc = ? WHERE community = ? AND party = ? AND kind = 'dish' AND doc = ?`},
	{`SELECT DISTINCT before_doc FROM touched
		WHERE community = ? AND party = ? AND kind = 'dish' AND before_doc IS NOT NULL`,
		`UPDATE touched SET before_doc = ? WHERE community = ? AND party = ? AND kind = 'dish' AND before_doc = ?`},
	{`SELECT DISTINCT after_doc FROM touched
		WHERE community = ? AND party = ? AND kind = 'dish' AND after_doc IS NOT NULL`,
		`UPDATE touched SET after_doc = ? WHERE community = ? AND party = ? AND kind = 'dish' AND after_doc = ?`},
}

// eachDish puts f of them in the place of all texts of a party's dishes.
func eachDish(ctx context.Context, tx *sql.Tx, p ofParty, f func(string) string) error {
	for _, texts := range dishTexts {
		docs, err := queried(ctx, tx, texts.read, func(rows *sql.Rows) (doc string, err error) {
			return doc, rows.Scan(&doc)
		}, string(p.community), p.id)
		if err != nil {
			return err
		}
		for _, doc := range docs {
			if now := f(doc); now != doc {
				if _, err := tx.ExecContext(ctx, texts.write, now, string(p.community), p.id, doc); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// journalled is how a party stood after an entry of its journal and before it.
type journalled struct {
	revision      int64
	plan          string // the digest that the entry has
	digest        string // of the plan after it
	after, before map[pieceKey]piece
}

// backwards goes through a party's journal, the newest entry first.
func backwards(ctx context.Context, tx *sql.Tx, p ofParty, f func(journalled) error) error {
	const query = `SELECT revision, plan FROM entry WHERE community = ? AND party = ? ORDER BY revision DESC`
	entries, err := queried(ctx, tx, query, func(rows *sql.Rows) (at journalled, err error) {
		return at, rows.Scan(&at.revision, &at.plan)
	}, string(p.community), p.id)
	if err != nil {
		return err
	}
	pieces, err := readPieces(ctx, tx, p.community, p.id)
	if err != nil {
		return err
	}
	now, mark := map[pieceKey]piece{}, digest(pieces)
	for _, c := range pieces {
		now[c.pieceKey] = c
	}
	for _, at := range entries {
		touched, err := touchedBy(ctx, tx, p.community, p.id, at.revision)
		if err != nil {
			return err
		}
		at.digest, at.after, at.before = mark, now, maps.Clone(now)
		for _, t := range touched {
			delete(at.before, t.pieceKey)
			if t.before != nil {
				at.before[t.pieceKey] = *t.before
			}
		}
		if err := f(at); err != nil {
			return err
		}
		now = at.before
		if slices.ContainsFunc(touched, func(t touch) bool { return t.kind.OfPlan() }) {
			mark = digest(slices.Collect(maps.Values(now)))
		}
	}
	return nil
}

// namedItem is what a text about an item to buy says of which it is.
type namedItem struct {
	Item planner.Item `json:"item"`
	Name string       `json:"name"`
}

// itemNow is the item that a text is about, by today's rule for its name.
func itemNow(doc string) (planner.Item, error) {
	var v namedItem
	if err := json.Unmarshal([]byte(doc), &v); err != nil {
		return "", fmt.Errorf("read an item: %w", err)
	}
	if v.Name == "" {
		return v.Item, nil
	}
	return planner.ItemOf(v.Name, v.Item.Frozen()), nil
}
