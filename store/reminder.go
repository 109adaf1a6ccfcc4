package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
)

// The rules of this file.
//
//   - A row is told by its key, which stays the same when the plan is made anew. Rows that have not been
//     sent follow the plan: new ones come, others move or go. A row that is being sent stays as it is.
//   - A row that was sent stays sent, unless what it speaks of (At) has moved by [AnewAfter] or more and
//     still lies ahead: then it is armed again, in a new round. When it moves back before it has been sent
//     again (somebody has undone the change), it counts as sent: its person knows that already.
//   - A snoozed row keeps its person's wish: it never comes before the time that it was put off to.
//   - A row that is kept true (Live) changes where it stands after it was sent: another row, of its key and
//     [EditMark], says so once; the latest text wins, and none comes when what it tells is over.
//   - Sending is: MarkSending, send, MarkSent. Whoever crashes in between leaves a row that says so
//     (Unsure), and that comes up again.

// EditMark begins the key of a row that changes a message that was sent; the rest is that message's key.
const EditMark = "edit/"

// Edit is the kind of such a row.
const Edit ReminderKind = "edit"

// AnewAfter is how far the instant that a sent reminder spoke of has to move for it to be sent again.
const AnewAfter = 10 * time.Minute

// ReminderKind says what a reminder is about; package reminders has the kinds.
type ReminderKind string

// Press is a button under a reminder: its label, and the message without the slash that it stands for.
type Press struct {
	Label string `json:"label"`
	Do    string `json:"do"`
}

// Reminder is something to be told to a person at an instant.
type Reminder struct {
	Key     string    // within the party; the same for the same thing in every plan
	Due     time.Time // when it is sent
	At      time.Time // the instant that it speaks of; zero: Due
	Until   time.Time // after this it is stale; zero: At
	Person  planner.PersonKey
	Kind    ReminderKind
	Task    planner.TaskKey // empty for a reminder that is about no task
	Text    string
	Buttons []Press
	Silent  bool // it makes no sound
	Live    bool // after it was sent, it is changed where it stands when its text changes
	Over    bool // nothing of it is left to do: it is not sent any more, only changed
}

// DeliveryState is how far a reminder has come.
type DeliveryState string

// The states of delivery.
const (
	Waiting DeliveryState = "waiting"
	Sending DeliveryState = "sending"
	Sent    DeliveryState = "sent"
	Dropped DeliveryState = "dropped"
)

// Row is a reminder in the store. ID and Round together name one message.
type Row struct {
	ID        int64
	Round     int
	Community Community
	Party     planner.PartyID
	Reminder
	State   DeliveryState
	Attempt int       // how often sending has begun
	Unsure  bool      // an attempt began and nobody has said how it ended
	Batch   int64     // rows that go out as one message share it; 0: alone
	SentAt  time.Time // when it was last sent; zero: never
	Posted  string    `json:"-"` // what the face calls the message that was last sent
}

// dueFrom is when a reminder that is known since an instant is due. One about a task is due at once where its lead
// had begun before: nobody could have sent it then, so it is not late. The others say how long it is until something,
// and keep their instant.
func dueFrom(r Reminder, known time.Time) time.Time {
	if r.Task != "" && r.Due.Before(known) && (r.At.After(known) || r.Live) {
		return known
	}
	return r.Due
}

// rewrite makes a party's rows follow a new set of reminders, as of an instant.
func rewrite(ctx context.Context, tx *sql.Tx, c Community, id planner.PartyID, now time.Time, list []Reminder) error {
	rows, err := readRows(ctx, tx, c, id)
	if err != nil {
		return err
	}
	old := map[string]*storedRow{}
	for i := range rows {
		old[rows[i].Key] = &rows[i]
	}
	const insert = `INSERT INTO reminder (community, party, key, round, due, at, until, person, kind, task, text, buttons,
		silent, state, attempt, unsure, batch, next)
		VALUES (?, ?, ?, 0, ?, ?, ?, ?, ?, ?, ?, ?, ?, 'waiting', 0, 0, 0, ?)`
	const update = `UPDATE reminder SET round = ?, due = ?, at = ?, until = ?, person = ?, kind = ?, task = ?, text = ?,
		buttons = ?, silent = ?, state = 'waiting', attempt = 0, unsure = 0, batch = 0, next = ?, snoozed = ?
		WHERE community = ? AND id = ?`
	seen := map[string]bool{}
	for _, r := range list {
		if seen[r.Key] {
			return fmt.Errorf("store reminders: two have the key %q", r.Key)
		}
		o := old[r.Key]
		if r.Over && (o == nil || o.State == Waiting) {
			continue
		}
		seen[r.Key] = true
		if r.At.IsZero() {
			r.At = r.Due
		}
		if r.Until.IsZero() {
			r.Until = r.At
		}
		ahead := !r.Due.Before(now) || r.At.After(now)
		if r.Live { // what has begun is changed where it stands, and told where nobody was told
			ahead = r.At.After(now) || o == nil && r.Until.After(now)
		}
		buttons, _ := json.Marshal(r.Buttons) // texts alone: it does not fail
		what := []any{toMilli(r.At), toMilli(r.Until), string(r.Person), string(r.Kind), string(r.Task), r.Text,
			string(buttons), r.Silent}
		if o == nil {
			if !ahead {
				continue // too late to be new
			}
			due := toMilli(dueFrom(r, now))
			args := append([]any{string(c), id, r.Key, due}, what...)
			if _, err := tx.ExecContext(ctx, insert, append(args, due)...); err != nil {
				return err
			}
			continue
		}
		var err error
		becomes, round, due, snoozed := o.again(r, now, ahead)
		switch becomes {
		case stays:
			seen[EditMark+r.Key] = r.Until.After(now) // one that waits still holds
			err = queueEdit(ctx, tx, o, now, r, string(buttons))
		case toldBefore:
			_, err = tx.ExecContext(ctx, restore, string(c), o.ID)
		case renewed:
			args := append([]any{round, due}, what...)
			_, err = tx.ExecContext(ctx, update, append(args, due, snoozed, string(c), o.ID)...)
		}
		if err != nil {
			return err
		}
	}
	return forget(ctx, tx, c, now, rows, seen)
}

// restore makes a row that waits to be told again one that was told, as it was.
const restore = `UPDATE reminder SET state = 'sent', at = told WHERE community = ? AND id = ?`

// forget removes the rows that wait and are not wanted any more; what was told once was told, and what a message that
// nobody speaks of again should say since the last change of it, it still comes to say.
func forget(ctx context.Context, tx *sql.Tx, c Community, now time.Time, rows []storedRow,
	wanted map[string]bool) error {
	const remove = `DELETE FROM reminder WHERE community = ? AND id = ? AND state = 'waiting'`
	for _, o := range rows {
		last := o.Kind == Edit && !wanted[strings.TrimPrefix(o.Key, EditMark)] && o.Until.After(now)
		if o.State == Waiting && !wanted[o.Key] && !last {
			gone := remove
			if o.told.Valid {
				gone = restore
			}
			if _, err := tx.ExecContext(ctx, gone, string(c), o.ID); err != nil {
				return err
			}
		}
	}
	return nil
}

// saysOther says of a message that is out whether it says something else than it should.
func (o *storedRow) saysOther(r Reminder) bool {
	return (o.State == Sent || o.State == Sending) && (o.Text != r.Text || !slices.Equal(o.Buttons, r.Buttons))
}

// queueEdit has a message that is out say something else, where it should; what waited to be said there before is
// forgotten.
func queueEdit(ctx context.Context, tx *sql.Tx, o *storedRow, now time.Time, r Reminder, buttons string) error {
	if !r.Live || !r.Until.After(now) || !o.saysOther(r) {
		return nil
	}
	c, id := o.Community, o.Party
	const change = `UPDATE reminder SET text = ?, buttons = ?, task = ?, until = ?
		WHERE community = ? AND party = ? AND key = ?`
	const queue = `INSERT INTO reminder (community, party, key, round, due, at, until, person, kind, task, text, buttons,
			silent, state, attempt, unsure, batch, next)
		VALUES (?, ?, ?, 0, ?, ?, ?, ?, ?, ?, ?, ?, 1, 'waiting', 0, 0, 0, ?)
		ON CONFLICT (community, party, key) DO UPDATE SET round = round + 1, due = excluded.due, at = excluded.at,
			until = excluded.until, person = excluded.person, task = excluded.task, text = excluded.text,
			buttons = excluded.buttons, state = 'waiting', attempt = 0, unsure = 0, next = excluded.next`
	if _, err := tx.ExecContext(ctx, change, r.Text, buttons, string(r.Task), toMilli(r.Until), string(c), id,
		r.Key); err != nil {
		return err
	}
	ms := toMilli(now)
	_, err := tx.ExecContext(ctx, queue, string(c), id, EditMark+r.Key, ms, ms, toMilli(r.Until), string(r.Person),
		string(Edit), string(r.Task), r.Text, buttons, ms)
	return err
}

// Posted is what the face calls the message that a row changes, and whether that one is out for certain.
func (s *Store) Posted(ctx context.Context, r Row) (posted string, out bool, err error) {
	var state DeliveryState
	err = s.look(ctx, func(tx *sql.Tx) error {
		const query = `SELECT posted, state FROM reminder WHERE community = ? AND party = ? AND key = ?`
		err := tx.QueryRowContext(ctx, query, string(r.Community), r.Party, strings.TrimPrefix(r.Key, EditMark)).
			Scan(&posted, &state)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		return err
	})
	return posted, state != Sending, err
}

// PutOff has a row that waits come up again at an instant, without counting an attempt.
func (s *Store) PutOff(ctx context.Context, r Row, until time.Time) error {
	return s.each(ctx, []Row{r}, func(tx *sql.Tx, r *Row) (sql.Result, error) {
		return tx.ExecContext(ctx, systemPutOff, toMilli(until), r.ID, r.Round)
	})
}

// fate is what becomes of a row whose reminder is wanted again.
type fate int

const (
	stays      fate = iota // as it is
	toldBefore             // it counts as sent again
	renewed                // it waits, with another round or other instants
)

// again says what becomes of a row when the reminder r takes its place as of now, and with which round, instant and
// snooze; ahead says that r lies ahead of now.
func (o *storedRow) again(r Reminder, now time.Time, ahead bool) (f fate, round int, due int64, snoozed sql.NullInt64) {
	switch o.State {
	case Sent, Dropped:
		if moved := r.At.Sub(o.At).Abs(); moved < AnewAfter || !ahead {
			return
		}
		return renewed, o.Round + 1, toMilli(dueFrom(r, now)), snoozed
	case Waiting:
		if o.Attempt > 0 {
			return // on its way: an attempt has failed and another follows
		}
		if !o.snoozed.Valid && o.told.Valid && r.At.Sub(fromMilli(o.told.Int64)).Abs() < AnewAfter {
			f = toldBefore
			return
		}
		since := now
		if o.Due.Before(now) {
			since = o.Due // it was late before this change
		}
		due = toMilli(dueFrom(r, since))
		if o.snoozed.Valid {
			due = max(due, o.snoozed.Int64)
		}
		return renewed, o.Round, due, o.snoozed
	}
	return // Sending
}

// Reminders lists a party's rows by due instant.
func (s *Store) Reminders(ctx context.Context, c Community, id planner.PartyID) ([]Row, error) {
	var out []Row
	err := s.look(ctx, func(tx *sql.Tx) error {
		if _, err := load(ctx, tx, c, id); err != nil {
			return err
		}
		rows, err := readRows(ctx, tx, c, id)
		for _, r := range rows {
			out = append(out, r.Row)
		}
		return err
	})
	return out, err
}

// Snooze puts off what a person was told about a task: the last message sent, or else the next one to
// come. It answers the row as it is now, or ErrNotFound when nothing is there to put off.
func (s *Store) Snooze(ctx context.Context, c Community, id planner.PartyID, task planner.TaskKey,
	who planner.PersonKey, until time.Time) (Row, error) {
	var found *storedRow
	err := s.change(ctx, func(tx *sql.Tx) error {
		if _, err := load(ctx, tx, c, id); err != nil {
			return err
		}
		rows, err := readRows(ctx, tx, c, id)
		if err != nil {
			return err
		}
		for i := range rows {
			r := &rows[i]
			if r.Task != task || r.Person != who || r.State == Dropped || r.Kind == Edit {
				continue
			}
			if found == nil || found.toldBefore(r) {
				found = r
			}
		}
		if found == nil {
			return ErrNotFound
		}
		const update = `UPDATE reminder SET state = 'waiting', round = ?, due = ?, next = ?, snoozed = ?,
			until = max(until, ?), attempt = 0, unsure = 0, batch = 0 WHERE community = ? AND id = ?`
		if found.State != Waiting {
			found.Round++
		}
		ms := toMilli(until)
		found.State, found.Due, found.Attempt, found.Unsure, found.Batch = Waiting, fromMilli(ms), 0, false, 0
		if found.Until.Before(until) {
			found.Until = fromMilli(ms)
		}
		_, err = tx.ExecContext(ctx, update, found.Round, ms, ms, ms, ms, string(c), found.ID)
		return err
	})
	if err != nil {
		return Row{}, err
	}
	s.rearm()
	return found.Row, nil
}

type storedRow struct {
	Row
	snoozed sql.NullInt64
	told    sql.NullInt64 // the instant that it spoke of when it was last sent
}

// toldBefore reports whether other reached its person later than r, or r has not reached its person yet.
func (r *storedRow) toldBefore(other *storedRow) bool {
	if other.State == Waiting {
		return false // rows come by due instant: the next to come is the first
	}
	return r.State == Waiting || !other.Due.Before(r.Due)
}

func readRows(ctx context.Context, tx *sql.Tx, c Community, id planner.PartyID) ([]storedRow, error) {
	const query = `SELECT id, round, community, party, key, due, at, until, person, kind, task, text, buttons, state,
		attempt, unsure, batch, snoozed, sent, told, silent, posted
		FROM reminder WHERE community = ? AND party = ? ORDER BY due, id`
	rows, err := tx.QueryContext(ctx, query, string(c), id)
	if err != nil {
		return nil, err
	}
	return scanRows(rows)
}

func scanRows(rows *sql.Rows) ([]storedRow, error) {
	defer rows.Close()
	var out []storedRow
	for rows.Next() {
		var r storedRow
		var due, at, until int64
		var buttons string
		var sent sql.NullInt64
		err := rows.Scan(&r.ID, &r.Round, &r.Community, &r.Party, &r.Key, &due, &at, &until, &r.Person, &r.Kind, &r.Task,
			&r.Text, &buttons, &r.State, &r.Attempt, &r.Unsure, &r.Batch, &r.snoozed, &sent, &r.told, &r.Silent, &r.Posted)
		if err != nil {
			return nil, err
		}
		if err := json.Unmarshal([]byte(buttons), &r.Buttons); err != nil {
			return nil, fmt.Errorf("read buttons of reminder %d: %w", r.ID, err)
		}
		r.Due, r.At, r.Until = fromMilli(due), fromMilli(at), fromMilli(until)
		if sent.Valid {
			r.SentAt = fromMilli(sent.Int64)
		}
		out = append(out, r)
	}
	return out, rows.Err()
}

// OnRearm sets a function that is called after reminders have been rewritten, so that whoever waits for
// the next one can look again. It must not block.
func (s *Store) OnRearm(f func()) { s.armed.Store(&f) }

func (s *Store) rearm() {
	if f := s.armed.Load(); f != nil {
		(*f)()
	}
}

// Scope says whose reminders a program sends: a community's only, or all but one's. The zero value means
// everybody's. Where several programs share the communities of a chat, each has its shard of them, as the chat
// divides its guilds: by their id's 23rd bit and those above. What is no guild belongs to the first.
type Scope struct {
	Only, Except  Community // empty: does not count
	Shard, Shards int       // the Shard-th of Shards, from 0; up to 1: does not count
}

// args are a scope's, as the statements have them.
func (in Scope) args() []any { return []any{string(in.Only), string(in.Except), in.Shard, in.Shards} }

// Due lists rows in a scope that are to be sent by now, in order of their due instants, at most
// limit of them: waiting ones, and those whose sending began and did not end in time.
func (s *Store) Due(ctx context.Context, in Scope, now time.Time, limit int) ([]Row, error) {
	const query = systemDue
	var out []Row
	err := s.look(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, query, append(in.args(), toMilli(now), limit)...)
		if err != nil {
			return err
		}
		list, err := scanRows(rows)
		for _, r := range list {
			out = append(out, r.Row)
		}
		return err
	})
	return out, err
}

// NextDue is the next instant at which Due has something new to say; ok is false when nothing waits.
func (s *Store) NextDue(ctx context.Context, in Scope) (at time.Time, ok bool, err error) {
	var next sql.NullInt64
	err = s.look(ctx, func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, systemNextDue, in.args()...).Scan(&next)
	})
	if err != nil || !next.Valid {
		return time.Time{}, false, err
	}
	return fromMilli(next.Int64), true, nil
}

// ErrGone means that a row is no longer as it was read: somebody else is sending it, or it has been
// sent, rewritten or dropped.
var ErrGone = errors.New("the reminder has changed in the meantime")

// MarkSending begins an attempt to send rows as one message: they count as unsure from here, and come up
// again at retry unless they are marked otherwise. It answers the rows with the attempt counted. ErrGone
// when another was faster with any of them; then none is marked.
func (s *Store) MarkSending(ctx context.Context, rows []Row, retry time.Time) ([]Row, error) {
	rows = slices.Clone(rows)
	err := s.each(ctx, rows, func(tx *sql.Tx, r *Row) (sql.Result, error) {
		if r.Batch == 0 && len(rows) > 1 {
			r.Batch = rows[0].ID
		}
		return tx.ExecContext(ctx, systemMarkSending, r.Batch, toMilli(retry), r.ID, r.Round, r.Attempt, string(r.State),
			toMilli(r.Due))
	})
	for i := range rows {
		rows[i].State, rows[i].Attempt, rows[i].Unsure = Sending, rows[i].Attempt+1, true
	}
	return rows, err
}

// MarkSent ends an attempt that arrived, with what the face calls the message. ErrGone when a row has changed
// meanwhile, as by a snooze.
func (s *Store) MarkSent(ctx context.Context, rows []Row, at time.Time, posted string) error {
	return s.each(ctx, rows, func(tx *sql.Tx, r *Row) (sql.Result, error) {
		return tx.ExecContext(ctx, systemMarkSent, toMilli(at), posted, r.ID, r.Round, r.Attempt)
	})
}

// MarkFailed ends an attempt that did not arrive and says when to try again. With unsure, nobody knows
// whether it arrived.
func (s *Store) MarkFailed(ctx context.Context, rows []Row, retry time.Time, unsure bool) error {
	return s.each(ctx, rows, func(tx *sql.Tx, r *Row) (sql.Result, error) {
		return tx.ExecContext(ctx, systemMarkFailed, unsure, toMilli(retry), r.ID, r.Round, r.Attempt)
	})
}

// Drop gives rows up: they will not be sent.
func (s *Store) Drop(ctx context.Context, rows []Row) error {
	return s.each(ctx, rows, func(tx *sql.Tx, r *Row) (sql.Result, error) {
		return tx.ExecContext(ctx, systemDrop, r.ID, r.Round)
	})
}

// each changes rows in one transaction: all of them or, with ErrGone, none.
func (s *Store) each(ctx context.Context, rows []Row, do func(*sql.Tx, *Row) (sql.Result, error)) error {
	return s.change(ctx, func(tx *sql.Tx) error {
		for i := range rows {
			res, err := do(tx, &rows[i])
			if err != nil {
				return err
			}
			if n, err := res.RowsAffected(); err != nil || n == 0 {
				return errors.Join(err, ErrGone)
			}
		}
		return nil
	})
}
