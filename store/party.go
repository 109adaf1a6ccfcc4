package store

import (
	"cmp"
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"

	"tureen/planner"
)

// Snapshot is a party as it stood at one revision, with the plan in force (nil: none). The caller owns it.
type Snapshot struct {
	Party    planner.Party
	Plan     *planner.Plan
	Revision int64 // of the party; grows by one a change
	// Shaped is the revision in which anything that a plan depends on (all but work and plan) last
	// changed. A plan whose Revision is less is out of date.
	Shaped int64
}

// Summary is a party in a list.
type Summary struct {
	ID       planner.PartyID
	Name     string
	Zone     string
	Channel  string
	Arrival  time.Time
	Covers   int
	Revision int64
}

// Change is a party as it should be from now on.
type Change struct {
	Base          int64 // the revision that it was made from
	Actor         Actor
	At            time.Time
	What          string // one sentence for the journal
	Party         planner.Party
	Plan          *planner.Plan // nil: no plan is in force. One made within this change has Revision Base+1
	Reminders     []Reminder    // all of the party's, past and to come; see reminder.go for what becomes of the rows
	KeepReminders bool          // leave the rows as they are
}

// Create stores a new party as revision 1 and gives it its ID. A name that another party of the community
// has, however it is spelt, is a *NameTakenError.
func (s *Store) Create(ctx context.Context, c Community, by Actor, at time.Time, p planner.Party) (Snapshot, error) {
	var out Snapshot
	err := s.change(ctx, func(tx *sql.Tx) error {
		const insert = `INSERT INTO party (community, name, folded, zone, arrival, covers, channel, revision, shaped)
			VALUES (?, ?, ?, ?, ?, ?, ?, 0, 0)`
		r, err := tx.ExecContext(ctx, insert, string(c), p.Name, fold(p.Name), p.Zone, toMilli(p.Arrival), p.Covers,
			p.Channel)
		if isUnique(err) {
			return &NameTakenError{p.Name}
		}
		if err != nil {
			return err
		}
		id, err := r.LastInsertId()
		if err != nil {
			return err
		}
		p.ID = planner.PartyID(id)
		what := fmt.Sprintf("started the party %s", p.Name)
		out, err = put(ctx, tx, c, state{id: p.ID}, Change{Actor: by, At: at, What: what, Party: p}, entryHead{kind: Created})
		return err
	})
	return out, err
}

// Load reads a party; ErrNotFound when the community has no such party.
func (s *Store) Load(ctx context.Context, c Community, id planner.PartyID) (Snapshot, error) {
	st, err := s.stand(ctx, c, id)
	if err != nil {
		return Snapshot{}, err
	}
	return st.snapshot()
}

// LoadPair reads a party into two snapshots that share nothing: one to change, and one to compare it with.
func (s *Store) LoadPair(ctx context.Context, c Community, id planner.PartyID) (one, other Snapshot, err error) {
	st, err := s.stand(ctx, c, id)
	if err != nil {
		return one, other, err
	}
	if one, err = st.snapshot(); err != nil {
		return one, other, err
	}
	other, err = st.snapshot()
	return one, other, err
}

// stand reads how a party stands.
func (s *Store) stand(ctx context.Context, c Community, id planner.PartyID) (st state, err error) {
	err = s.look(ctx, func(tx *sql.Tx) error {
		st, err = load(ctx, tx, c, id)
		return err
	})
	return st, err
}

// List lists a community's parties by arrival, the latest last.
func (s *Store) List(ctx context.Context, c Community) ([]Summary, error) {
	return s.list(ctx, c, `SELECT id, name, zone, channel, arrival, covers, revision FROM party
		WHERE community = ? AND removed IS NULL ORDER BY arrival, id`)
}

// Removed lists the removed parties that Recover can still bring back, the last removed first.
func (s *Store) Removed(ctx context.Context, c Community) ([]Summary, error) {
	return s.list(ctx, c, `SELECT id, name, zone, channel, arrival, covers, revision FROM party
		WHERE community = ? AND removed IS NOT NULL ORDER BY removed DESC, id DESC`)
}

func (s *Store) list(ctx context.Context, c Community, query string) ([]Summary, error) {
	var out []Summary
	err := s.look(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, query, string(c))
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var p Summary
			var arrival int64
			if err := rows.Scan(&p.ID, &p.Name, &p.Zone, &p.Channel, &arrival, &p.Covers, &p.Revision); err != nil {
				return err
			}
			p.Arrival = fromMilli(arrival)
			out = append(out, p)
		}
		return rows.Err()
	})
	return out, err
}

// Save makes a change: the pieces, the journal's entry and the reminders' rows, in one transaction. It is
// ErrConflict when the party is no longer at the change's Base. A change that changes no piece makes
// neither an entry nor a revision.
func (s *Store) Save(ctx context.Context, c Community, ch Change) (Snapshot, error) {
	var out Snapshot
	err := s.change(ctx, func(tx *sql.Tx) error {
		st, err := load(ctx, tx, c, ch.Party.ID)
		if err != nil {
			return err
		}
		out, err = put(ctx, tx, c, st, ch, entryHead{kind: Changed})
		return err
	})
	if err == nil && !ch.KeepReminders {
		s.rearm()
	}
	return out, err
}

// Remove takes a party away: it is found no more and its reminders are dropped. Recover brings it back
// for [KeepRemoved], then Prune deletes it.
func (s *Store) Remove(ctx context.Context, c Community, by Actor, at time.Time, id planner.PartyID) error {
	return s.change(ctx, func(tx *sql.Tx) error {
		st, err := load(ctx, tx, c, id)
		if err != nil {
			return err
		}
		const drop = `DELETE FROM reminder WHERE community = ? AND party = ? AND state IN ('waiting', 'sending')`
		const blur = `DELETE FROM focus WHERE community = ? AND party = ?`
		const mark = `UPDATE party SET removed = ?, revision = ? WHERE community = ? AND id = ?`
		if _, err := tx.ExecContext(ctx, drop, string(c), id); err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, blur, string(c), id); err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, mark, toMilli(at), st.revision+1, string(c), id); err != nil {
			return err
		}
		return writeEntry(ctx, tx, c, id, st.revision+1, entryHead{kind: Removed},
			Change{Actor: by, At: at, What: "removed the party"}, digest(st.pieces))
	})
}

// Recover brings a removed party back, unless may (nil: no question) refuses it for what the party is. Its
// reminders come back with the next Save that computes them.
func (s *Store) Recover(ctx context.Context, c Community, by Actor, at time.Time, id planner.PartyID,
	may func(planner.Party) error) error {
	return s.change(ctx, func(tx *sql.Tx) error {
		const find = `SELECT name, revision FROM party WHERE community = ? AND id = ? AND removed IS NOT NULL`
		const mark = `UPDATE party SET removed = NULL, revision = ? WHERE community = ? AND id = ?`
		var name string
		var revision int64
		err := tx.QueryRowContext(ctx, find, string(c), id).Scan(&name, &revision)
		if errors.Is(err, sql.ErrNoRows) {
			return ErrNotFound
		}
		if err != nil {
			return err
		}
		pieces, err := readPieces(ctx, tx, c, id)
		if err != nil {
			return err
		}
		if may != nil {
			p, _, err := join(id, pieces)
			if err != nil {
				return err
			}
			if err := may(p); err != nil {
				return err
			}
		}
		if _, err := tx.ExecContext(ctx, mark, revision+1, string(c), id); isUnique(err) {
			return &NameTakenError{name}
		} else if err != nil {
			return err
		}
		return writeEntry(ctx, tx, c, id, revision+1, entryHead{kind: Recovered},
			Change{Actor: by, At: at, What: "brought the party back"}, digest(pieces))
	})
}

// state is a party as its rows have it.
type state struct {
	id               planner.PartyID
	revision, shaped int64
	pieces           []piece
}

func (st state) snapshot() (Snapshot, error) {
	p, plan, err := join(st.id, st.pieces)
	return Snapshot{Party: p, Plan: plan, Revision: st.revision, Shaped: st.shaped}, err
}

func load(ctx context.Context, tx *sql.Tx, c Community, id planner.PartyID) (state, error) {
	const query = `SELECT revision, shaped FROM party WHERE community = ? AND id = ? AND removed IS NULL`
	st := state{id: id}
	err := tx.QueryRowContext(ctx, query, string(c), id).Scan(&st.revision, &st.shaped)
	if errors.Is(err, sql.ErrNoRows) {
		return st, ErrNotFound
	}
	if err != nil {
		return st, err
	}
	st.pieces, err = readPieces(ctx, tx, c, id)
	return st, err
}

func readPieces(ctx context.Context, tx *sql.Tx, c Community, id planner.PartyID) ([]piece, error) {
	const query = `SELECT kind, key, ord, doc FROM piece WHERE community = ? AND party = ?`
	return queried(ctx, tx, query, func(rows *sql.Rows) (p piece, err error) {
		err = rows.Scan(&p.kind, &p.key, &p.ord, &p.doc)
		return p, err
	}, string(c), id)
}

// put makes a change to a party that stands at st.
func put(ctx context.Context, tx *sql.Tx, c Community, st state, ch Change, head entryHead) (Snapshot, error) {
	if ch.Base != st.revision {
		return Snapshot{}, ErrConflict
	}
	after, err := split(&ch.Party, ch.Plan)
	if err != nil {
		return Snapshot{}, err
	}
	touched := compare(st.pieces, after)
	if len(touched) > 0 || head.of != 0 {
		st.revision++
		if slices.ContainsFunc(touched, touch.shapes) {
			st.shaped = st.revision
		}
		if err := writeHead(ctx, tx, c, st, &ch.Party); err != nil {
			return Snapshot{}, err
		}
		if err := writeEntry(ctx, tx, c, st.id, st.revision, head, ch, digest(after)); err != nil {
			return Snapshot{}, err
		}
		if err := writePieces(ctx, tx, c, st, touched); err != nil {
			return Snapshot{}, err
		}
	}
	if !ch.KeepReminders {
		if err := rewrite(ctx, tx, c, st.id, ch.At, ch.Reminders); err != nil {
			return Snapshot{}, err
		}
	}
	st.pieces = after
	return st.snapshot()
}

func writeHead(ctx context.Context, tx *sql.Tx, c Community, st state, p *planner.Party) error {
	const update = `UPDATE party SET name = ?, folded = ?, zone = ?, arrival = ?, covers = ?, channel = ?, revision = ?,
		shaped = ? WHERE community = ? AND id = ?`
	_, err := tx.ExecContext(ctx, update, p.Name, fold(p.Name), p.Zone, toMilli(p.Arrival), p.Covers, p.Channel,
		st.revision, st.shaped, string(c), st.id)
	if isUnique(err) {
		return &NameTakenError{p.Name}
	}
	return err
}

func writePieces(ctx context.Context, tx *sql.Tx, c Community, st state, touched []touch) error {
	const upsert = `INSERT INTO piece (community, party, kind, key, ord, doc) VALUES (?, ?, ?, ?, ?, ?)
		ON CONFLICT (community, party, kind, key) DO UPDATE SET ord = excluded.ord, doc = excluded.doc`
	const remove = `DELETE FROM piece WHERE community = ? AND party = ? AND kind = ? AND key = ?`
	const note = `INSERT INTO touched (community, party, revision, kind, key, before_ord, before_doc, after_ord, after_doc)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`
	for _, t := range touched {
		args := []any{string(c), st.id, st.revision, string(t.kind), t.key, nil, nil, nil, nil}
		if t.before != nil {
			args[5], args[6] = t.before.ord, t.before.doc
		}
		var err error
		if t.after != nil {
			args[7], args[8] = t.after.ord, t.after.doc
			_, err = tx.ExecContext(ctx, upsert, string(c), st.id, string(t.kind), t.key, t.after.ord, t.after.doc)
		} else {
			_, err = tx.ExecContext(ctx, remove, string(c), st.id, string(t.kind), t.key)
		}
		if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, note, args...); err != nil {
			return err
		}
	}
	return nil
}

// digest tells one plan from another. For which revision of the party a plan stands does not count, since
// that alone changes when a plan is found to hold for a later one.
func digest(pieces []piece) string {
	var plan []piece
	for _, p := range pieces {
		if !p.kind.OfPlan() {
			continue
		}
		if p.kind == PlanPiece {
			var head planner.Plan
			if json.Unmarshal([]byte(p.doc), &head) == nil {
				head.Revision = 0
				if doc, err := json.Marshal(head); err == nil {
					p.doc = string(doc)
				}
			}
		}
		plan = append(plan, p)
	}
	slices.SortFunc(plan, func(a, b piece) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(a.key, b.key))
	})
	h := sha256.New()
	for _, p := range plan {
		fmt.Fprintf(h, "%s %q %s\n", p.kind, p.key, p.doc)
	}
	return hex.EncodeToString(h.Sum(nil)[:16])
}

// fold makes two spellings of one name equal: case, accents' encoding and spacing do not count.
func fold(name string) string {
	return strings.Join(strings.Fields(cases.Fold().String(norm.NFKC.String(name))), " ")
}
