package recipe

import (
	"strings"
	"unicode"

	"tureen/planner/method"
	"tureen/planner/words"
)

// sentence is a piece of the method, with where it stands.
type sentence struct {
	text, section string
	from          Place
	paragraph     int
	told          bool  // one step, in the words of our own export
	about         bool  // from the description: remarks only
	note          bool  // from the notes: remarks only
	at            int   // where it begins in the source with single blanks; -1: not known
	places        []int // of the bytes of that in the source
}

// sentences splits a text after full stops that end something.
func sentences(text string) []string {
	var out []string
	start := 0
	for i := 0; i < len(text); i++ {
		if c := text[i]; c != '.' && c != '!' && c != '?' {
			continue
		}
		if i+1 < len(text) && text[i+1] != ' ' && text[i+1] != ')' && text[i+1] != '"' {
			continue
		}
		word := words.Small(text[strings.LastIndexAny(text[:i], " (")+1 : i])
		if i+2 < len(text) && abbreviations[word] && unicode.IsLower(rune(text[i+2])) {
			if next, _ := words.First(text[i+2:]); !minuteWords[word] || !instruction(next) {
				continue // but "8 min. pour off the fat" are two
			}
		}
		end := i + 1
		if end < len(text) && (text[end] == ')' || text[end] == '"') {
			end++
		}
		if s := strings.TrimSpace(text[start:end]); s != "" {
			out = append(out, s)
		}
		start = end
	}
	if s := strings.TrimSpace(text[start:]); s != "" {
		out = append(out, s)
	}
	return bounded(out)
}

// bounded cuts overlong sentences at a blank.
func bounded(all []string) (out []string) {
	for _, s := range all {
		for len(s) > maxSentence {
			at := strings.LastIndexByte(s[:maxSentence], ' ')
			if at <= 0 {
				return out // no language has such words
			}
			out, s = append(out, s[:at]), s[at+1:]
		}
		out = append(out, s)
	}
	return out
}

var minuteWords = words.Set(`min mins hr hrs`)

func instruction(word string) bool { return method.Verb(word) != nil }

var abbreviations = lists.Set("abbreviations")
