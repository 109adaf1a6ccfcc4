package bot

import (
	"fmt"

	"tureen/bot/talk"
)

// again is the turn's message as a button can say it again, whoever presses and whichever party they have in
// mind then; empty when it may not be said again, or is too long.
func (t *Turn) again() string {
	if !t.command.OnlyLooks() || len(t.Request.Files) > 0 {
		return ""
	}
	options := map[string]string{}
	for name, text := range t.Request.Options {
		options[name] = text
	}
	if t.Party != nil {
		options[partyOption.Name] = fmt.Sprint(t.Party.ID)
	}
	if do := t.command.Message(options); len(do) <= talk.MaxDo {
		return do
	}
	return ""
}
