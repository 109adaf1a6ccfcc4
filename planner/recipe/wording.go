package recipe

import (
	"strings"

	"tureen/planner/words"
)

// untilOf is the sign that something is done, from its clause.
func untilOf(c string) string {
	low := lower(c)
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
	for _, f := range durations(sign) {
		sign = sign[:f.start]
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
	return sign
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
	if lead := lower(c[:at]); ok && at > 0 && at < 30 && !strings.HasPrefix(lead, "in ") &&
		!strings.HasPrefix(lead, "on ") && !strings.HasPrefix(lead, "when ") && !strings.HasPrefix(lead, "once ") {
		c = c[at:]
	}
	for _, lead := range []string{"Meanwhile, ", "meanwhile, ", "Meanwhile ", "meanwhile ", "Then ", "then ",
		"The next day, "} {
		c = strings.TrimPrefix(c, lead)
	}
	if low := lower(c); strings.HasPrefix(low, "make the ") && strings.Contains(c, ":") ||
		strings.HasPrefix(low, "for the ") || strings.HasPrefix(low, "to make the ") {
		if i := strings.IndexAny(c, ",:"); i > 0 && i < 40 && len(c) > i+2 {
			c = strings.TrimLeft(c[i+1:], " ")
		}
	}
	return words.Upper(c)
}
