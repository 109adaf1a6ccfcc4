package store

import (
	"context"
	"database/sql"
	"errors"
	"slices"
	"strings"
	"time"

	"tureen/planner"
)

// Rebuilt is what follows from a party once a change has been taken back.
type Rebuilt struct {
	Plan      *planner.Plan
	Reminders []Reminder
}

// Rebuild computes a party's plan and reminders after an undo or redo, or refuses it. The snapshot has
// the party as it will be, at the revision that it will have; its plan is the one that goes with it
// exactly when nothing else has touched the plan since, else the one in force.
type Rebuild func(Snapshot) (Rebuilt, error)

// Undo takes back the last change that still stands of the person's or of the [House]'s, and reports which. What others
// have touched since is never overwritten: then it is a *TouchedError and nothing changes. ErrNothing when the person
// has nothing left to take back. The undo is an entry of the journal itself.
func (s *Store) Undo(ctx context.Context, c Community, id planner.PartyID, by Actor, at time.Time,
	rebuild Rebuild) (Entry, Snapshot, error) {
	return s.turnBack(ctx, c, id, by, at, rebuild, Undone)
}

// Redo takes back the person's last undo, unless the person has changed something else since: then it is
// ErrNothing. Otherwise it is as Undo.
func (s *Store) Redo(ctx context.Context, c Community, id planner.PartyID, by Actor, at time.Time,
	rebuild Rebuild) (Entry, Snapshot, error) {
	return s.turnBack(ctx, c, id, by, at, rebuild, Redone)
}

// How the sentences of undo and redo begin in the journal; the change's own follows.
const (
	tookBack = "took back: "
	didAgain = "did again: "
)

// Deed is what a change did, without how often it was taken back since.
func (e *Entry) Deed() string {
	return strings.TrimPrefix(strings.TrimPrefix(e.What, tookBack), didAgain)
}

// turnBackTries is how often a change by others while we rebuild is tolerated.
const turnBackTries = 3

func (s *Store) turnBack(ctx context.Context, c Community, id planner.PartyID, by Actor, at time.Time, rebuild Rebuild,
	kind EntryKind) (Entry, Snapshot, error) {
	for try := 1; ; try++ {
		e, snap, err := s.turnBackOnce(ctx, c, id, by, at, rebuild, kind)
		if !errors.Is(err, ErrConflict) || try == turnBackTries {
			return e, snap, err
		}
	}
}

func (s *Store) turnBackOnce(ctx context.Context, c Community, id planner.PartyID, by Actor, at time.Time,
	rebuild Rebuild, kind EntryKind) (e Entry, snap Snapshot, err error) {
	var base int64
	err = s.look(ctx, func(tx *sql.Tx) error {
		st, err := load(ctx, tx, c, id)
		if err != nil {
			return err
		}
		base = st.revision
		if e, err = findTurn(ctx, tx, c, id, by, kind); err != nil {
			return err
		}
		if err := readTouched(ctx, tx, c, id, &e); err != nil {
			return err
		}
		if st.pieces, err = restored(ctx, tx, c, st, e); err != nil {
			return err
		}
		st.revision++
		if slices.ContainsFunc(e.Touched, func(t Touched) bool { return t.Kind.shapes() }) {
			st.shaped = st.revision
		}
		snap, err = st.snapshot()
		return err
	})
	if err != nil {
		return e, snap, err
	}
	built := Rebuilt{Plan: snap.Plan}
	if rebuild != nil {
		if built, err = rebuild(snap); err != nil {
			return e, snap, err
		}
	}
	what := tookBack + e.Deed()
	if kind == Redone {
		what = didAgain + e.Deed()
	}
	ch := Change{Base: base, Actor: by, At: at, What: what, Party: snap.Party, Plan: built.Plan,
		Reminders: built.Reminders, KeepReminders: rebuild == nil}
	err = s.change(ctx, func(tx *sql.Tx) error {
		st, err := load(ctx, tx, c, id)
		if err != nil {
			return err
		}
		snap, err = put(ctx, tx, c, st, ch, entryHead{kind, e.Revision})
		return err
	})
	if err == nil && rebuild != nil {
		s.rearm()
	}
	return e, snap, err
}

// findTurn finds the entry that an undo or a redo by the person would take back.
func findTurn(ctx context.Context, tx *sql.Tx, c Community, id planner.PartyID, by Actor,
	kind EntryKind) (Entry, error) {
	list, err := readEntries(ctx, tx, c, id, -1)
	if err != nil {
		return Entry{}, err
	}
	for _, e := range list {
		if e.BackBy != 0 || e.Actor.ID != by.ID && (e.Actor.ID != House.ID || kind != Undone) {
			continue
		}
		switch {
		case kind == Undone && (e.Kind == Changed || e.Kind == Redone):
			return e, nil
		case kind == Redone && e.Kind == Undone:
			return e, nil
		case kind == Redone && e.Kind == Changed:
			return Entry{}, ErrNothing // the person has gone on from there
		}
	}
	return Entry{}, ErrNothing
}

// restored is the party's pieces with an entry's put back to what they were before it.
func restored(ctx context.Context, tx *sql.Tx, c Community, st state, e Entry) ([]piece, error) {
	touched, err := touchedBy(ctx, tx, c, st.id, e.Revision)
	if err != nil {
		return nil, err
	}
	var plan string
	const query = `SELECT plan FROM entry WHERE community = ? AND party = ? AND revision = ?`
	if err := tx.QueryRowContext(ctx, query, string(c), st.id, e.Revision).Scan(&plan); err != nil {
		return nil, err
	}
	samePlan := plan == digest(st.pieces)
	now := map[pieceKey]piece{}
	for _, p := range st.pieces {
		now[p.pieceKey] = p
	}
	var clash, lost []pieceKey
	for _, t := range touched {
		if t.kind.OfPlan() && !samePlan {
			continue // the plan follows from the rest; the caller makes it anew
		}
		cur, there := now[t.pieceKey]
		if differs := there != (t.after != nil) || there && cur.doc != t.after.doc; differs && !t.kind.OfPlan() {
			clash = append(clash, t.pieceKey)
			continue
		}
		if t.before == nil {
			delete(now, t.pieceKey)
			lost = append(lost, dependents(t, now)...)
			continue
		}
		back := *t.before
		if there && t.before.ord == t.after.ord {
			back.ord = cur.ord // others may have moved it since
		}
		now[t.pieceKey] = back
	}
	if len(clash)+len(lost) > 0 {
		since, err := whoTouched(ctx, tx, c, st.id, e, append(clash, lost...))
		if err != nil {
			return nil, err
		}
		if len(clash) > 0 || len(since) > 0 {
			return nil, &TouchedError{What: e.What, Since: since}
		}
	}
	out := make([]piece, 0, len(now))
	for _, p := range st.pieces {
		if q, still := now[p.pieceKey]; still {
			out = append(out, q)
			delete(now, p.pieceKey)
		}
	}
	for _, t := range touched { // what had been deleted
		if q, back := now[t.pieceKey]; back {
			out = append(out, q)
			delete(now, t.pieceKey)
		}
	}
	return out, nil
}

// dependents are the pieces that lose their meaning when a dish or chore goes: what people have said
// about its tasks.
func dependents(t touch, now map[pieceKey]piece) []pieceKey {
	if t.kind != DishPiece && t.kind != ChorePiece {
		return nil
	}
	var out []pieceKey
	for k := range now {
		if k.kind != WorkPiece {
			continue
		}
		dish, _, _, chore, _ := planner.TaskKey(k.key).Split()
		if t.kind == DishPiece && string(dish) == t.key || t.kind == ChorePiece && string(chore) == t.key {
			out = append(out, k)
		}
	}
	return out
}

// whoTouched lists the entries after e, by others and still standing, that touched any of the pieces.
func whoTouched(ctx context.Context, tx *sql.Tx, c Community, id planner.PartyID, e Entry,
	keys []pieceKey) ([]Entry, error) {
	const query = `SELECT revision FROM touched
		WHERE community = ? AND party = ? AND kind = ? AND key = ? AND revision > ?`
	var revisions []int64
	for _, k := range keys {
		since, err := queried(ctx, tx, query, func(rows *sql.Rows) (r int64, err error) {
			err = rows.Scan(&r)
			return r, err
		}, string(c), id, string(k.kind), k.key, e.Revision)
		if err != nil {
			return nil, err
		}
		revisions = append(revisions, since...)
	}
	list, err := readEntries(ctx, tx, c, id, -1)
	if err != nil {
		return nil, err
	}
	slices.Reverse(list)
	return slices.DeleteFunc(list, func(l Entry) bool {
		return !slices.Contains(revisions, l.Revision) || l.BackBy != 0 || l.Actor.ID == e.Actor.ID
	}), nil
}
