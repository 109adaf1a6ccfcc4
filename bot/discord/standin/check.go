package standin

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"strings"
	"sync"
	"sync/atomic"
	"unicode"
)

// checkCommands says what is wrong with a list of commands, as it stands in a bulk overwrite.
func checkCommands(body any) []string {
	list, ok := body.([]any)
	if !ok {
		return []string{"commands are not a list"}
	}
	var out []string
	for _, c := range list {
		out = append(out, bySchema(defCommand, c)...)
	}
	return append(out, strictCommands(list)...)
}

// checkedCommands remembers what came of a list of commands, which is long and sent at every start.
var checkedCommands sync.Map

func checkCommandsOnce(body any) []string {
	raw, err := json.Marshal(body)
	if err != nil {
		return []string{err.Error()}
	}
	key := sha256.Sum256(raw)
	if out, ok := checkedCommands.Load(key); ok {
		return out.([]string)
	}
	out := checkCommands(body)
	checkedCommands.Store(key, out)
	return out
}

// checkCallback says what is wrong with the first answer to an interaction.
func checkCallback(body any, files int) []string {
	m := object(body)
	data := object(m["data"])
	if bad := controls(data); bad != nil {
		return bad
	}
	switch kind := whole(m["type"]); kind {
	case callbackReply, 5:
		out := bySchema(defReply, body)
		if kind == callbackReply {
			if m["data"] == nil {
				return append(out, "callback type 4 without data")
			}
			out = append(out, strictMessage(data, files, true)...)
		}
		return out
	case 6, 7:
		out := bySchema(defUpdate, body)
		if m["data"] != nil {
			out = append(out, strictMessage(data, files, false)...)
		}
		return out
	case 8:
		return append(bySchema(defAutocomplete, body), strictChoices(data)...)
	case 9:
		return append(bySchema(defModal, body), strictModal(data)...)
	default:
		return []string{fmt.Sprintf("callback of type %d", kind)}
	}
}

// checkMessage says what is wrong with a message that is sent by one of the definitions.
func checkMessage(def string, body any, files int) []string {
	return append(append(bySchema(def, body), strictMessage(object(body), files, def != defEdit)...), controls(body)...)
}

// controls finds texts with control characters: the platform shows them as nothing or as a box, so that they are a slip
// of whoever sends them.
func controls(v any) (out []string) {
	switch x := v.(type) {
	case string:
		if strings.ContainsFunc(x, func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' }) {
			out = append(out, fmt.Sprintf("control characters in %q", x))
		}
	case []any:
		for _, y := range x {
			out = append(out, controls(y)...)
		}
	case map[string]any:
		for _, y := range x {
			out = append(out, controls(y)...)
		}
	}
	return out
}

var totalChecked, totalViolations atomic.Int64

// Totals counts, over all servers of this process, the requests that were checked and the rules broken.
func Totals() (checked, violations int64) { return totalChecked.Load(), totalViolations.Load() }

// Summary is the totals in a line.
func Summary() string {
	c, v := Totals()
	return fmt.Sprintf("requests checked: %d, violations: %d", c, v)
}
