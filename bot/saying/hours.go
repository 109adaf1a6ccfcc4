package saying

import (
	"slices"
	"strings"

	"tureen/planner/words"
)

// between are words that may stand between the parts of when somebody can.
var between = words.Set("on in at and or the this next onwards")

// ofDay are the hours that are meant by a part of a day. Ours, as the command has them for evenings and mornings.
var ofDay = map[string]string{"morning": " from 9:00 to 12:00", "afternoon": " from 13:00 to 18:00",
	"evening": " from 18:00 to 21:30"}

// hours is when somebody can, as the command takes it: "weekday evenings, saturday from 16:00"; empty where a word of
// it says something else.
func (r *reader) hours(in []token) string {
	var out []string
	for at := 0; at < len(in); {
		if said, used := hoursWord(in[at:]); used > 0 {
			out, at = append(out, said), at+used
			continue
		}
		w := in[at].word
		day := lex().days[w]
		if day == "" && (in[at].fill || between[w]) {
			at++
			continue
		}
		if day == "" {
			return ""
		}
		text := day
		if at++; w == "tonight" {
			text += ofDay["evening"]
		} else if part := lex().parts[wordAt(in, at)]; part != "" {
			text += ofDay[part]
			at++
		}
		for at+1 < len(in) {
			word := map[string]string{"from": "from", "after": "from", "between": "from", "and": "to", "to": "to",
				"till": "to", "until": "to"}[in[at].word]
			clock := clockOf(&in[at+1])
			if word == "" || clock == "" {
				break
			}
			text, at = text+" "+word+" "+clock, at+2
		}
		out = append(out, text)
	}
	return strings.Join(slices.Compact(out), ", ")
}

// hoursWord is what the longest of the table's words mean that a text begins with.
func hoursWord(in []token) (means string, used int) {
	for _, h := range lex().hours {
		said, n := strings.Fields(h[0]), 0
		at := 0
		for ; at < len(in) && n < len(said); at++ {
			if in[at].raw == said[n] || in[at].word == said[n] {
				n++
			} else if !in[at].fill || n == 0 {
				break
			}
		}
		if n == len(said) && at > used {
			means, used = h[1], at
		}
	}
	return means, used
}

// clockOf is a time of the day as the command takes it; an early hour without more is one of the afternoon.
func clockOf(t *token) string {
	m, half := t.n, t.half
	switch {
	case t.word == "#n" && m >= 1 && m <= 23:
		m, half = m*60, m <= 12
	case t.word != "#time":
		return ""
	}
	if half && m < 9*60 {
		m += 12 * 60
	}
	return minutesText(m)
}
