package picture

import (
	"strings"
	"unicode/utf8"

	"golang.org/x/image/font"
)

// wrapped cuts a text into lines of a width, between words where it can; a word that is wider is cut.
func wrapped(face font.Face, s string, width float64) (lines []string) {
	line := ""
	for _, word := range strings.Fields(s) {
		for next := strings.TrimSpace(line + " " + word); wide(face, next) > width; next = word {
			if line != "" {
				lines, line = append(lines, line), ""
				continue
			}
			head := fitting(face, word, width, "")
			if head == "" { // not even a letter has room
				_, n := utf8.DecodeRuneInString(word)
				head = word[:n]
			}
			lines, word = append(lines, head), word[len(head):]
		}
		line = strings.TrimSpace(line + " " + word)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// fitting is as much of the beginning of a text as has room, with a tail where something is cut off.
func fitting(face font.Face, s string, width float64, tail string) string {
	if wide(face, s) <= width {
		return s
	}
	cut := 0
	for i := range s {
		if wide(face, s[:i]+tail) > width {
			break
		}
		cut = i
	}
	if cut == 0 {
		return ""
	}
	if tail == "" {
		return s[:cut]
	}
	return strings.TrimRight(s[:cut], " ,(") + tail
}

// span is a stretch of a line, in points.
type span struct{ from, to float64 }

// set is a bar with its words: in which lane it lies, and where its words begin, beside it or in the lane below.
type set struct {
	bar   span
	lane  int
	text  string
	words float64
	below bool
}

// between is the room between a bar and its words, and between two in one lane.
const between = 3

// place finds lanes for bars, in their order: each in the first in which it and its words have room. Words stand
// right of their bar, else left of it, else below it.
func place(face font.Face, bars []span, texts []string, width float64) (out []set, lanes int) {
	var taken [][]span
	free := func(lane int, s span) bool {
		if lane >= len(taken) {
			return true
		}
		for _, o := range taken[lane] {
			if s.from < o.to+between && o.from < s.to+between {
				return false
			}
		}
		return true
	}
	take := func(lane int, s span) {
		for len(taken) <= lane {
			taken = append(taken, nil)
		}
		taken[lane] = append(taken[lane], s)
	}
	for i, b := range bars {
		s := set{bar: b, text: texts[i]}
		w := wide(face, s.text)
		all, under := b, span{}
		switch {
		case w == 0:
		case b.to+between+w <= width:
			s.words, all.to = b.to+between, b.to+between+w
		case b.from-between-w >= 0:
			s.words, all.from = b.from-between-w, b.from-between-w
		default:
			s.text, s.below = fitting(face, s.text, width, "…"), true
			w = wide(face, s.text)
			s.words = max(0, min(b.from, width-w))
			under = span{s.words, s.words + w}
		}
		for !free(s.lane, all) || s.below && !free(s.lane+1, under) {
			s.lane++
		}
		take(s.lane, all)
		if s.below {
			take(s.lane+1, under)
		}
		out = append(out, s)
	}
	return out, len(taken)
}
