package bot

import (
	"fmt"
	"slices"
	"strings"
)

// openToLook are the commands for anyone that change nothing; of the others those that lookers may use.
var openToLook = []string{"help", "party list", "repertoire list", "repertoire show"}

// OnlyLooks reports whether a command changes nothing, so that it may be asked any number of times.
func (c *Command) OnlyLooks() bool { return c.Access == Lookers || slices.Contains(openToLook, c.Name) }

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
	if do := message(t.command, options); len(do) <= maxDo {
		return do
	}
	return ""
}

// message writes a command with its options as a person would type it, without the slash. [ParseLine] reads
// the same from it.
func message(c *Command, options map[string]string) string {
	var b strings.Builder
	b.WriteString(c.Name)
	for i := range c.Options {
		name := c.Options[i].Name
		text, given := options[name]
		if !given {
			continue
		}
		if text == "" || strings.TrimSpace(text) != text || strings.ContainsAny(text, "\":\\\n\t") || strings.HasPrefix(text, "@") {
			text = `"` + strings.NewReplacer(`\`, `\\`, "\n", `\n`, `"`, `\"`).Replace(text) + `"`
		}
		b.WriteString(" " + name + ":" + text)
	}
	return b.String()
}
