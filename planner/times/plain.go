package times

import (
	"regexp"
	"slices"
	"strings"

	"tureen/planner/words"
)

var atRE = regexp.MustCompile(`(?i)\bat\s+(\d{3})\b(\s*(?:°|c\b|f\b|fan\b|degrees))?`)

// Scaled gives the temperature of "bake at 180" its scale.
func Scaled(text string) string {
	m := atRE.FindStringSubmatchIndex(text)
	if m == nil || m[4] >= 0 {
		return text
	}
	scale := " °C"
	if text[m[2]:m[3]] > "260" {
		scale = " °F"
	}
	return text[:m[3]] + scale + text[m[3]:]
}

// Without is a text without its lengths and temperatures.
func Without(text string) string {
	all := Spans(text)
	slices.SortFunc(all, func(a, b Span) int { return a.Start - b.Start })
	out, from := "", 0
	for _, s := range all {
		if s.Start >= from {
			out, from = out+text[from:s.Start]+" ", s.End
		}
	}
	return out + text[from:]
}

// Pieces cuts a sentence at its commas and at "and", but not within a length or a temperature.
func Pieces(said string) (out []string) {
	from, spans := 0, Spans(words.Small(said))
	within := func(at int) bool {
		return slices.ContainsFunc(spans, func(s Span) bool { return s.Start < at && at < s.End })
	}
	for at := 0; at < len(said); at++ {
		for _, cutAt := range []string{", and ", ", then ", ", ", " and then ", " and "} {
			if strings.HasPrefix(said[at:], cutAt) && !within(at) {
				out = append(out, said[from:at])
				at += len(cutAt) - 1
				from = at + 1
				break
			}
		}
	}
	return append(out, said[from:])
}
