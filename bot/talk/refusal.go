package talk

import (
	"errors"
	"fmt"

	"tureen/planner/measure"
)

// Refusal is an answer that changes nothing: what was wrong, and what to type instead.
type Refusal struct {
	Text string // one sentence
	Try  string // a whole message, or words on what to do; may be empty

	Buttons []Button // what to do, to choose from
}

// Error is the sentence.
func (r *Refusal) Error() string { return r.Text }

// Refuse makes a refusal. try is a message that would work.
func Refuse(try, format string, args ...any) error {
	return &Refusal{Text: fmt.Sprintf(format, args...), Try: try}
}

// Refused turns an error into a reply. known is false for one that is not meant for people: it is to be
// logged, and the reply says nothing of it.
func Refused(err error) (rep Reply, known bool) {
	var r *Refusal
	var amount *measure.Error
	switch {
	case errors.As(err, &r):
		rep = Reply{Refused: true, Text: r.Text, Buttons: r.Buttons}
		if r.Try != "" {
			rep.Next = "Type: " + r.Try
		}
		return rep, true
	case errors.As(err, &amount):
		return Reply{Refused: true, Text: Sentence(err.Error())}, true
	}
	return Reply{Refused: true, Text: "Something went wrong on our side, and nothing was changed. Try again; if it " +
		"stays so, tell whoever runs tureen."}, false
}

// RefusedReply is the answer to a message that could not be read.
func RefusedReply(err error) Reply {
	rep, _ := Refused(err)
	return rep
}
