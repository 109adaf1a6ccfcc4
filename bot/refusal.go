package bot

import (
	"errors"
	"fmt"

	"tureen/planner/measure"
	"tureen/store"
)

// Refusal is an answer that changes nothing: what was wrong, and what to type instead.
type Refusal struct {
	Text string // one sentence
	Try  string // a whole message, or words on what to do; may be empty

	Buttons []Button // what to do, to choose from
}

func (r *Refusal) Error() string { return r.Text }

// refuse makes a refusal. try is a message that would work.
func refuse(try, format string, args ...any) error {
	return &Refusal{Text: fmt.Sprintf(format, args...), Try: try}
}

// refused turns an error into a reply. known is false for one that is not meant for people: it is to be
// logged, and the reply says nothing of it.
func refused(err error) (rep Reply, known bool) {
	rep.Refused = true
	var r *Refusal
	var taken *store.NameTakenError
	var touched *store.TouchedError
	var amount *measure.Error
	switch {
	case errors.As(err, &r):
		rep.Text = r.Text
		if r.Try != "" {
			rep.Next = "Type: " + r.Try
		}
		rep.Buttons = r.Buttons
		return rep, true
	case errors.As(err, &taken), errors.As(err, &touched), errors.As(err, &amount):
		rep.Text = sentence(err.Error())
		return rep, true
	}
	for _, own := range []error{store.ErrNotFound, store.ErrConflict, store.ErrNothing, store.ErrBusy, store.ErrReadOnly,
		store.ErrFull, store.ErrNewer, store.ErrForeign, store.ErrDamaged} {
		if errors.Is(err, own) {
			rep.Text = sentence(own.Error())
			return rep, true
		}
	}
	rep.Text = "Something went wrong on our side, and nothing was changed. Try again; if it stays so, tell whoever runs tureen."
	return rep, false
}
