package bot

import (
	"errors"

	"tureen/bot/talk"
	"tureen/store"
)

// refused turns an error into a reply, the store's included; see [talk.Refused].
func refused(err error) (rep talk.Reply, known bool) {
	var taken *store.NameTakenError
	var touched *store.TouchedError
	if errors.As(err, &taken) || errors.As(err, &touched) {
		return talk.Reply{Refused: true, Text: talk.Sentence(err.Error())}, true
	}
	for _, own := range []error{store.ErrNotFound, store.ErrConflict, store.ErrNothing, store.ErrBusy, store.ErrReadOnly,
		store.ErrFull, store.ErrNewer, store.ErrForeign, store.ErrDamaged} {
		if errors.Is(err, own) {
			return talk.Reply{Refused: true, Text: talk.Sentence(own.Error())}, true
		}
	}
	return talk.Refused(err)
}
