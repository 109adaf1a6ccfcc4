package words

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Upper is a text for the beginning of a line: its first letter is a capital.
func Upper(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	if r == utf8.RuneError || unicode.ToUpper(r) == r {
		return text
	}
	return string(unicode.ToUpper(r)) + text[n:]
}

// Lower is a text for the middle of a line: its first letter is none, unless the word is written in capitals, as BBQ.
func Lower(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	next, _ := utf8.DecodeRuneInString(text[n:])
	if r == utf8.RuneError || unicode.ToLower(r) == r || unicode.IsUpper(next) {
		return text
	}
	return string(unicode.ToLower(r)) + text[n:]
}

// Small is a text in small letters, of the same length in bytes, so that places in one are places in the other: the few
// letters whose small form is longer or shorter stay.
func Small(text string) string {
	if !utf8.ValidString(text) {
		small := []byte(text) // a piece that was cut within a letter
		for i, c := range small {
			if c >= 'A' && c <= 'Z' {
				small[i] = c + 'a' - 'A'
			}
		}
		return string(small)
	}
	return strings.Map(func(c rune) rune {
		if small := unicode.ToLower(c); utf8.RuneLen(small) == utf8.RuneLen(c) {
			return small
		}
		return c
	}, text)
}

func letterEnds(s string) bool {
	r, _ := utf8.DecodeLastRuneInString(s)
	return unicode.IsLetter(r)
}
