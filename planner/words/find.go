package words

import (
	"slices"
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

// Index is where a whole word or phrase stands in a text in small letters; -1 for nowhere.
func Index(text, word string) int {
	for from := 0; ; {
		at := strings.Index(text[from:], word)
		if at < 0 {
			return -1
		}
		at += from
		end := at + len(word)
		if (at == 0 || !ofWord(text[at-1])) && (end == len(text) || !ofWord(text[end])) {
			return at
		}
		from = end
	}
}

func ofWord(c byte) bool { return c >= 'a' && c <= 'z' || c >= 0x80 || c == '-' }

// Contains reports whether one of the phrases stands in a text, anywhere.
func Contains(text string, phrases ...string) bool {
	return slices.ContainsFunc(phrases, func(p string) bool { return strings.Contains(text, p) })
}

// Begins reports whether a text begins with one of the phrases.
func Begins(text string, phrases []string) bool {
	return slices.ContainsFunc(phrases, func(p string) bool { return strings.HasPrefix(text, p) })
}

// Apart are the words of a text in small letters, with the hyphens within them.
func Apart(low string) []string {
	return strings.FieldsFunc(low, func(c rune) bool { return !(c >= 'a' && c <= 'z' || c > 0x7f || c == '-') })
}
