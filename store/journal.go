package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"time"

	"tureen/planner"
)

// EntryKind says how a change came about.
type EntryKind string

// The kinds of entry.
const (
	Created   EntryKind = "create"
	Changed   EntryKind = "change"
	Undone    EntryKind = "undo"
	Redone    EntryKind = "redo"
	Removed   EntryKind = "remove"
	Recovered EntryKind = "recover"
)

// Entry is one change in a party's journal.
type Entry struct {
	Revision int64 // that the change made
	Kind     EntryKind
	Actor    Actor
	At       time.Time
	What     string    // one sentence: "moved dessert to 21:30"
	Of       int64     // the revision that an undo or redo turned back; 0 for other kinds
	BackBy   int64     // the revision that turned this one back; 0: it stands
	Touched  []Touched // by kind and key
}

// Touched is one piece before and after a change: JSON, nil where the piece is not there.
type Touched struct {
	Kind          Kind
	Key           string
	Before, After json.RawMessage
}

type entryHead struct {
	kind EntryKind
	of   int64
}

// Journal reads a party's newest entries, the newest first, at most limit of them.
func (s *Store) Journal(ctx context.Context, c Community, id planner.PartyID, limit int) ([]Entry, error) {
	var out []Entry
	err := s.look(ctx, func(tx *sql.Tx) error {
		if _, err := load(ctx, tx, c, id); err != nil {
			return err
		}
		var err error
		if out, err = readEntries(ctx, tx, c, id, limit); err != nil {
			return err
		}
		for i := range out {
			if err := readTouched(ctx, tx, c, id, &out[i]); err != nil {
				return err
			}
		}
		return nil
	})
	return out, err
}

// readEntries reads the newest entries without their pieces; a negative limit means all.
func readEntries(ctx context.Context, tx *sql.Tx, c Community, id planner.PartyID, limit int) ([]Entry, error) {
	const query = `SELECT revision, kind, actor, actor_name, at, what, ifnull(of, 0), ifnull(back, 0) FROM entry
		WHERE community = ? AND party = ? ORDER BY revision DESC LIMIT ?`
	return queried(ctx, tx, query, func(rows *sql.Rows) (e Entry, err error) {
		var at int64
		err = rows.Scan(&e.Revision, &e.Kind, &e.Actor.ID, &e.Actor.Name, &at, &e.What, &e.Of, &e.BackBy)
		e.At = fromMilli(at)
		return e, err
	}, string(c), id, limit)
}

func readTouched(ctx context.Context, tx *sql.Tx, c Community, id planner.PartyID, e *Entry) error {
	list, err := touchedBy(ctx, tx, c, id, e.Revision)
	for _, t := range list {
		out := Touched{Kind: t.kind, Key: t.key}
		if t.before != nil {
			out.Before = json.RawMessage(t.before.doc)
		}
		if t.after != nil {
			out.After = json.RawMessage(t.after.doc)
		}
		e.Touched = append(e.Touched, out)
	}
	return err
}

func touchedBy(ctx context.Context, tx *sql.Tx, c Community, id planner.PartyID, revision int64) ([]touch, error) {
	const query = `SELECT kind, key, before_ord, before_doc, after_ord, after_doc FROM touched
		WHERE community = ? AND party = ? AND revision = ? ORDER BY kind, key`
	return queried(ctx, tx, query, func(rows *sql.Rows) (t touch, err error) {
		var before, after struct {
			ord sql.NullInt64
			doc sql.NullString
		}
		err = rows.Scan(&t.kind, &t.key, &before.ord, &before.doc, &after.ord, &after.doc)
		if before.doc.Valid {
			t.before = &piece{t.pieceKey, before.ord.Int64, before.doc.String}
		}
		if after.doc.Valid {
			t.after = &piece{t.pieceKey, after.ord.Int64, after.doc.String}
		}
		return t, err
	}, string(c), id, revision)
}

// writeEntry writes the journal's entry; an undo or redo also marks the entry that it turns back.
func writeEntry(ctx context.Context, tx *sql.Tx, c Community, id planner.PartyID, revision int64, head entryHead,
	ch Change, plan string) error {
	const insert = `INSERT INTO entry (community, party, revision, kind, actor, actor_name, at, what, of, plan)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`
	const mark = `UPDATE entry SET back = ? WHERE community = ? AND party = ? AND revision = ?`
	_, err := tx.ExecContext(ctx, insert, string(c), id, revision, string(head.kind), ch.Actor.ID, ch.Actor.Name,
		toMilli(ch.At), ch.What, orNull(head.of != 0, head.of), plan)
	if err != nil || head.of == 0 {
		return err
	}
	_, err = tx.ExecContext(ctx, mark, revision, string(c), id, head.of)
	return err
}
