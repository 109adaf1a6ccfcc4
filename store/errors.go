package store

import (
	"errors"
	"fmt"
	"strings"

	"modernc.org/sqlite"
)

// The store's own errors. Each carries a sentence for the person.
var (
	// ErrNotFound means that the community has no such party, focus or reminder.
	ErrNotFound = errors.New("there is no such party here")
	// ErrConflict means that the party has changed since the revision that the change was based on.
	ErrConflict = errors.New("somebody has changed the party in the meantime; look again and repeat")
	// ErrNothing means that the person has nothing to undo or redo.
	ErrNothing = errors.New("there is nothing of yours to take back")
	// ErrBusy means that another program kept the database locked for longer than we wait.
	ErrBusy = errors.New("the database is locked by another program; try again in a moment")
	// ErrReadOnly means that the file, its folder or its disk cannot be written.
	ErrReadOnly = errors.New("the database cannot be written; nothing was changed")
	// ErrFull means that the disk is full.
	ErrFull = errors.New("the disk is full; nothing was changed")
	// ErrNewer means that a newer version of tureen wrote the database.
	ErrNewer = errors.New("the database was written by a newer tureen; run that version, or restore a backup")
	// ErrForeign means that the file is not a database of tureen's.
	ErrForeign = errors.New("the file is not a tureen database; it was left as it is")
	// ErrDamaged means that the database's contents are broken.
	ErrDamaged = errors.New("the database is damaged; restore the last backup")
)

// NameTakenError means that the community already has a party of that name.
type NameTakenError struct{ Name string }

func (e *NameTakenError) Error() string {
	return fmt.Sprintf("there is already a party called %q here; choose another name", e.Name)
}

// TouchedError means that an undo would overwrite what others have changed since.
type TouchedError struct {
	What  string  // the sentence of the change that stays
	Since []Entry // who touched the same pieces since, oldest first
}

func (e *TouchedError) Error() string {
	if len(e.Since) == 0 {
		return "this cannot be taken back on its own, since the same was changed afterwards"
	}
	var who []string
	for _, s := range e.Since {
		who = append(who, fmt.Sprintf("%s (%s)", s.Actor.Name, s.What))
	}
	return fmt.Sprintf("this cannot be taken back on its own, since the same was changed afterwards by %s",
		strings.Join(who, ", "))
}

// SQLite's result codes that we tell apart. The low byte is the primary code.
const (
	codeBusy     = 5
	codeLocked   = 6
	codeReadOnly = 8
	codeCorrupt  = 11
	codeFull     = 13
	codeCantOpen = 14
	codeNotADB   = 26

	codeUnique = 2067
)

// translate turns a driver's error into the store's own where there is one, keeping the cause.
func translate(err error) error {
	var se *sqlite.Error
	if err == nil || !errors.As(err, &se) {
		return err
	}
	var own error
	switch se.Code() & 0xff {
	case codeBusy, codeLocked:
		own = ErrBusy
	case codeReadOnly, codeCantOpen:
		own = ErrReadOnly
	case codeCorrupt:
		own = ErrDamaged
	case codeFull:
		own = ErrFull
	case codeNotADB:
		own = ErrForeign
	default:
		return err
	}
	return &caused{own, err}
}

// caused shows a person the sentence and a log the cause.
type caused struct{ own, cause error }

func (c *caused) Error() string   { return c.own.Error() }
func (c *caused) Unwrap() []error { return []error{c.own, c.cause} }

// isUnique reports whether a UNIQUE constraint was broken.
func isUnique(err error) bool {
	var se *sqlite.Error
	return errors.As(err, &se) && se.Code() == codeUnique
}
