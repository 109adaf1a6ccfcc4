package bot

import "strings"

// short cuts a text to what a button on a phone holds in a line.
func short(text string) string {
	const most = 32
	if r := []rune(text); len(r) > most {
		return strings.TrimSpace(string(r[:most-1])) + "…"
	}
	return text
}
