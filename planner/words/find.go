package words

import (
	"strings"
	"unicode"
)

var marksAsBlanks = strings.NewReplacer(",", " ", ".", " ", ";", " ", ":", " ", "(", " ", ")", " ")

// Has reports whether one of the phrases stands in a text, in small letters and as whole words.
func Has(text string, phrases ...string) bool {
	padded := " " + marksAsBlanks.Replace(Small(text)) + " "
	for _, w := range phrases {
		if strings.Contains(padded, " "+w+" ") {
			return true
		}
	}
	return false
}

// First is a text's first word, of letters, hyphens and apostrophes, and its length in bytes.
func First(text string) (string, int) {
	n := strings.IndexFunc(text, func(c rune) bool { return !unicode.IsLetter(c) && c != '-' && c != '\'' })
	if n < 0 {
		n = len(text)
	}
	return text[:n], n
}

// Cut shortens a text to n characters.
func Cut(text string, n int) string {
	rs := []rune(text)
	if len(rs) <= n {
		return text
	}
	return string(rs[:n]) + "…"
}
