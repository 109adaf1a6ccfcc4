package method

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/words"
)

// word is a word of a sentence, in lower case and without accents, and the bytes it stands at; or a mark.
type word struct {
	w       string
	at, end int
}

// wordsOf cuts a sentence into words and marks. A hyphen or apostrophe within a word is part of it.
func wordsOf(text string) []word {
	var out []word
	for i := 0; i < len(text); {
		c, n := utf8.DecodeRuneInString(text[i:])
		start := i
		switch {
		case unicode.IsLetter(c):
			i += n
			for i < len(text) {
				c, n := utf8.DecodeRuneInString(text[i:])
				if !unicode.IsLetter(c) && !unicode.IsDigit(c) && !unicode.IsMark(c) && c != '\'' && c != '’' &&
					(c != '-' || i+1 >= len(text) || !letterAt(text, i+1)) {
					break
				}
				i += n
			}
		case unicode.IsDigit(c):
			i += n
			for i < len(text) {
				c, n := utf8.DecodeRuneInString(text[i:])
				if !unicode.IsLetter(c) && !unicode.IsDigit(c) && c != '/' && (c != '.' || !digitAt(text, i+1)) {
					break
				}
				i += n
			}
		case unicode.IsSpace(c):
			i += n
			continue
		default:
			i += n
		}
		out = append(out, word{fold(text[start:i]), start, i})
	}
	return withoutAsides(out)
}

// joined makes one verb of two words: air fry, slow cook.
func joined(t []word, v *vocabulary) []word {
	out := t[:0:len(t)]
	for i := 0; i < len(t); i++ {
		x := t[i]
		if i+1 < len(t) && v.lists["before a verb"][x.w] && v.verb[x.w+"-"+t[i+1].w] != nil {
			i++
			x = word{x.w + "-" + t[i].w, x.at, t[i].end}
		}
		out = append(out, x)
	}
	return out
}

// withoutAsides leaves out amounts in brackets, which part "one tablespoon (15 ml) of oil".
func withoutAsides(t []word) []word {
	out := t[:0:len(t)]
	for i := 0; i < len(t); i++ {
		if t[i].w == "(" && i+1 < len(t) && t[i+1].w[0] >= '0' && t[i+1].w[0] <= '9' {
			end := i + 2
			for end < len(t) && end < i+7 && t[end].w != ")" {
				end++
			}
			if at(t, end) == ")" {
				i = end
				continue
			}
		}
		out = append(out, t[i])
	}
	return out
}

func letterAt(text string, i int) bool {
	c, _ := utf8.DecodeRuneInString(text[i:])
	return unicode.IsLetter(c)
}

func digitAt(text string, i int) bool {
	return i < len(text) && text[i] >= '0' && text[i] <= '9'
}

func fold(w string) string {
	for i := range len(w) {
		if w[i] >= utf8.RuneSelf {
			return mended(words.Fold(w))
		}
	}
	return strings.ToLower(w)
}

// mended are words that a wrong encoding has spoilt.
func mended(w string) string {
	for i := range len(w) {
		if w[i] < utf8.RuneSelf {
			continue
		}
		switch {
		case strings.HasPrefix(w, "saut"):
			return "saute"
		case strings.HasPrefix(w, "pur"):
			return "puree"
		}
		break
	}
	return w
}

// at is the i-th word, and a full stop beyond the ends.
func at(t []word, i int) string {
	if i < 0 || i >= len(t) {
		return "."
	}
	return t[i].w
}

// ends part phrases from each other.
var ends = setOf(".", ";", ":", ",", "(", ")", "-", "–", "—", "--", "/", "&", "!", "'", `"`, "’", "”", "“",
	"•", "*")
