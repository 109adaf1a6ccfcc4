package bot

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// lowerFirst is the sentence's text for the middle of another one.
func lowerFirst(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToLower(r)) + text[n:]
}

// short cuts a text to what a button on a phone holds in a line.
func short(text string) string {
	const most = 32
	if r := []rune(text); len(r) > most {
		return strings.TrimSpace(string(r[:most-1])) + "…"
	}
	return text
}

// count says "1 cover", "2 covers".
func count(n int, one, many string) string {
	if n == 1 {
		return fmt.Sprintf("%d %s", n, one)
	}
	return fmt.Sprintf("%d %s", n, many)
}
