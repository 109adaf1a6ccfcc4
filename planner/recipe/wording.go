package recipe

import (
	"strings"

	"tureen/planner/ingredient"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/words"
)

// untilOf is the sign that something is done, from its clause.
func untilOf(c string) string {
	low := words.Small(c)
	at := -1
	for _, w := range []string{"until ", "till "} {
		if i := strings.Index(low, w); i >= 0 && (i == 0 || low[i-1] == ' ') {
			at = i + len(w)
			break
		}
	}
	if at < 0 {
		return ""
	}
	sign := c[at:]
	for _, f := range times.Lengths(sign) {
		sign = sign[:f.Start]
		break
	}
	for _, stop := range []string{"; ", " (about", " (around", ". "} {
		if i := strings.Index(sign, stop); i > 0 {
			sign = sign[:i]
		}
	}
	sign = strings.Trim(sign, " ,.;:-–(")
	for _, w := range []string{" about", " for", " or", " at least", " another"} {
		sign = strings.TrimRight(strings.TrimSuffix(sign, w), " ,")
	}
	return trimJoin(sign)
}

func join(a, b string) string {
	switch {
	case a == "":
		return b
	case b == "" || strings.Contains(a, b):
		return a
	}
	return a + ", " + b
}

// imperative is a clause as an instruction: without what leads in, with a capital.
func imperative(c string) string {
	c = strings.Trim(c, " ,;.:!-–")
	_, at, ok := actionWord(c)
	if lead := words.Small(c[:at]); ok && at > 0 && at < 30 && !strings.HasPrefix(lead, "in ") &&
		!strings.HasPrefix(lead, "on ") && !strings.HasPrefix(lead, "when ") && !strings.HasPrefix(lead, "once ") {
		c = c[at:]
	}
	for _, lead := range []string{"Meanwhile, ", "meanwhile, ", "Meanwhile ", "meanwhile ", "Then ", "then ",
		"The next day, "} {
		c = strings.TrimPrefix(c, lead)
	}
	if low := words.Small(c); strings.HasPrefix(low, "make the ") && strings.Contains(c, ":") ||
		strings.HasPrefix(low, "for the ") || strings.HasPrefix(low, "to make the ") {
		if i := strings.IndexAny(c, ",:"); i > 0 && i < 40 && len(c) > i+2 {
			c = strings.TrimLeft(c[i+1:], " ")
		}
	}
	return words.Upper(c)
}

// actionWord is the instruction that a text begins with, or with no more before it than a word or phrase that leads in;
// ok is false where it begins with none.
func actionWord(text string) (word string, at int, ok bool) {
	word, at, ok = method.Told(text)
	lead := strings.Trim(text[:at], " ,:")
	if !ok || lead == "" {
		return word, at, ok
	}
	w, _ := words.First(lead)
	if w = words.Small(w); at < 60 && leadPhrases[w] {
		return word, at, true
	}
	for _, w := range strings.Fields(words.Small(lead)) {
		if w = strings.Trim(w, ","); !ingredient.Adverb(w) && !leadWords[w] && !strings.HasSuffix(w, "ly") {
			return "", 0, false
		}
	}
	return word, at, true
}

// leadPhrases begin what stands before an instruction and a comma.
var leadPhrases = lists.Set("lead phrases")

// leadWords stand before an instruction.
var leadWords = lists.Set("lead words")

// determiners stand after a verb that is as often a noun.
var determiners = lists.Set("determiners")

// danglers are what is left at a clause's end of what the next one begins with.
var danglers = []string{" (i", " (you", " (we", " i", " we", " and then", " and", " then"}

// trimJoin takes "and", "then" and commas off a clause's ends.
func trimJoin(s string) string {
	s = strings.Trim(s, " ,;:-–")
	for _, w := range danglers {
		if len(s) > len(w) && strings.EqualFold(s[len(s)-len(w):], w) {
			s = strings.Trim(s[:len(s)-len(w)], " ,;:")
		}
	}
	return s
}
