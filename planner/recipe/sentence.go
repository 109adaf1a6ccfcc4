package recipe

import (
	"strings"
	"unicode"

	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/words"
)

// sentence is a piece of the method, with where it stands.
type sentence struct {
	text, section string
	from          Place
	paragraph     int
	adds          bool            // it has no verb, and something is put in: "butter on top"
	told          bool            // one step, in the words of our own export
	about         bool            // from the description: remarks only
	note          bool            // from the notes: remarks only
	at            int             // where it begins in the source with single blanks; -1: not known
	places        []int           // of the bytes of that in the source
	cuts          []cut           // amounts that a step's words leave out
	oven          measure.Setting // to what one before it turns the oven, and tells nothing to do besides; zero: none does
}

// sentences splits a text after full stops that end something.
func sentences(text string) []string {
	var out []string
	start := 0
	for i := 0; i < len(text); i++ {
		if c := text[i]; c != '.' && c != '!' && c != '?' {
			continue
		}
		if i+1 < len(text) && text[i+1] != ' ' && text[i+1] != ')' && text[i+1] != '"' && !runsOn(text, i) {
			continue
		}
		word := words.Small(text[strings.LastIndexAny(text[:i], " (-")+1 : i])
		if titled[word] && text[i] == '.' && i+1 < len(text) {
			continue // Mrs. Dunne's curry
		}
		if i+2 < len(text) && abbreviations[word] && unicode.IsLower(rune(text[i+2])) {
			if next, _ := words.First(text[i+2:]); !minuteWords[word] || !instruction(next) {
				continue // but "8 min. pour off the fat" are two
			}
		}
		if i+2 < len(text) && withNumber(text, i, word) {
			continue
		}
		end := i + 1
		if end < len(text) && (text[end] == ')' || text[end] == '"') {
			end++
		}
		if s := strings.TrimSpace(text[start:end]); strings.Trim(s, "0123456789.") != "" {
			out = append(out, s)
		}
		start = end
	}
	if s := strings.TrimSpace(text[start:]); s != "" {
		out = append(out, s)
	}
	return bounded(out)
}

// withNumber reports whether a word that the full stop at i shortens goes on to or with a number: approx. 10 min, 3/4
// in. thick.
func withNumber(text string, i int, word string) bool {
	next := rune(text[i+2])
	switch word {
	case "min", "max":
		return unicode.IsDigit(next) && !afterNumber(text[:i-3])
	case "in":
		return afterNumber(text[:i-2]) && unicode.IsLower(next)
	}
	return goesBefore[word] && unicode.IsDigit(next)
}

// titled stand short before a person's name.
var titled = words.Set("mrs mr ms dr messrs mme prof")

// goesBefore are abbreviations that stand before a number.
var goesBefore = words.Set("approx ca c no cov abt")

func afterNumber(text string) bool {
	text = strings.TrimRight(text, " ")
	return text != "" && text[len(text)-1] >= '0' && text[len(text)-1] <= '9'
}

// runsOn reports a full stop whose blank was lost: "toss.Check", "salt.2. Boil".
func runsOn(text string, i int) bool {
	word := text[strings.LastIndexAny(text[:i], " (.")+1 : i]
	next := strings.TrimLeft(text[i+1:], "0123456789")
	if digits := len(text) - i - 1 - len(next); digits > 0 { // a number of the list
		return digits < 3 && len(word) > 1 && !startsWithDigit(word) && strings.HasPrefix(next, ".") &&
			beginsUpper(strings.TrimLeft(next[1:], " "))
	}
	return len(word) > 2 && unicode.IsLower(rune(word[len(word)-1])) && beginsUpper(next)
}

// beginsUpper reports whether a text begins with a word in lower case, with a capital.
func beginsUpper(text string) bool {
	return len(text) > 2 && text[0] >= 'A' && text[0] <= 'Z' && text[1] >= 'a' && text[1] <= 'z'
}

// spaced is a line with the blank after its number that was lost: "2.Cream the butter".
func spaced(text string) string {
	rest := strings.TrimLeft(text, "0123456789")
	if n := len(text) - len(rest); n > 0 && n < 3 && len(rest) > 1 && (rest[0] == '.' || rest[0] == ')') &&
		beginsUpper(rest[1:]) {
		return text[:n+1] + " " + rest[1:]
	}
	return text
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
