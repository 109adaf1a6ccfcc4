package reminders

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// Note is a message on its way to a person.
type Note struct {
	Key         string // names this message, the same at every attempt; at most 25 characters
	Community   store.Community
	Channel     string // the party's
	Party       planner.PartyID
	PartyName   string
	Person      *planner.Person  // nil: everybody, in the channel
	Serves      []planner.Person // who is called by what tells everybody of a service: those who do it
	Kind        store.ReminderKind
	Task        planner.TaskKey // empty when it is about no task
	Due         time.Time
	Text        string // with stamps; the first line says what to do
	Buttons     []store.Press
	Silent      bool   // it makes no sound
	Edits       string // what the face calls the message that this one changes; empty: it is a message of its own
	Attempt     int    // from 1
	MaybeRepeat bool   // an earlier attempt may have arrived
}

// Deliverer brings notes to people. It answers no error once a note has arrived, now or at an earlier attempt, and
// what it calls the message, by which it may be told to change it where it stands; empty where it cannot.
//
// When MaybeRepeat is set, a deliverer that can find out whether the note's Key has arrived does so and
// sends nothing if it has; one that cannot sends [Note.AsRepeat]. Any error means that the note may have
// arrived, but for ErrNotSent and ErrUndeliverable.
type Deliverer interface {
	Deliver(ctx context.Context, n Note) (posted string, err error)
}

// What a deliverer can say for certain; it wraps them.
var (
	// ErrNotSent means that the note has not arrived, and that it is worth trying again.
	ErrNotSent = errors.New("the message was not sent")
	// ErrUndeliverable means that the note has not arrived and never will.
	ErrUndeliverable = errors.New("the message cannot be delivered")
)

// RetryAfter is what an error of a deliverer may implement to say when to try again at the earliest.
type RetryAfter interface {
	RetryAfter() time.Duration
}

// AsRepeat is the note with a line that says that it may have come before.
func (n Note) AsRepeat() Note {
	n.Text += "\nYou may have had this before: tureen was interrupted while sending it."
	return n
}

// keyOf names the message that rows go out as.
func keyOf(rows []store.Row) string {
	id, head := rows[0].ID, "r"
	if rows[0].Batch != 0 {
		id, head = rows[0].Batch, "b"
	}
	return head + strconv.FormatInt(id, 36) + "." + strconv.FormatInt(int64(rows[0].Round), 36)
}

// When a message counts as late, and how long one is kept trying after it has gone stale.
const (
	lateAfter   = 2 * time.Minute
	giveUpAfter = 24 * time.Hour
)

// text words rows as one message at an instant.
func text(rows []store.Row, zone *time.Location, now time.Time) string {
	if rows[0].Batch == 0 && len(rows) == 1 && !stale(&rows[0], now) {
		late := now.Sub(rows[0].Due)
		if late < lateAfter || rows[0].Kind == store.Edit {
			return rows[0].Text
		}
		return fmt.Sprintf("%s\nThis comes %s late; it was due at %s.", rows[0].Text, words.Length(int(late/time.Minute)),
			words.Stamp(rows[0].Due, words.DayClock, zone))
	}
	lines := []string{fmt.Sprintf("%d reminders come too late to act on. Look at what has to be done now.", len(rows))}
	if len(rows) == 1 {
		lines[0] = "A reminder comes too late to act on. Look at what has to be done now."
	}
	for i := range rows {
		if i == digestLines {
			lines = append(lines, fmt.Sprintf("and %d more", len(rows)-digestLines))
			break
		}
		first, _, _ := strings.Cut(rows[i].Text, "\n")
		lines = append(lines, words.Stamp(rows[i].Due, words.DayClock, zone)+": "+first)
	}
	return strings.Join(lines, "\n")
}

// stale reports whether a row has come to nothing: it is late, and past what it was useful for.
func stale(r *store.Row, now time.Time) bool {
	return now.After(r.Until) && now.Sub(r.Due) >= lateAfter
}
