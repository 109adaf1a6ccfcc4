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

// lower is a word in lower case with as many bytes at its end as before, so that endings may be cut by length.
func lower(word string) string {
	if ascii(word) {
		return strings.ToLower(word)
	}
	return strings.Map(func(r rune) rune {
		if l := unicode.ToLower(r); utf8.RuneLen(l) == utf8.RuneLen(r) {
			return l
		}
		return r
	}, word)
}

func letterEnds(s string) bool {
	r, _ := utf8.DecodeLastRuneInString(s)
	return unicode.IsLetter(r)
}
