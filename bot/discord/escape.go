package discord

import (
	"regexp"
	"strconv"
	"strings"

	"tureen/planner/words"
)

var (
	// lineMarks are what makes a heading, a quote, a list or small print at the start of a line.
	lineMarks  = regexp.MustCompile(`^(\s*)(#{1,3}|-#|>{1,3}|[-*+]|\d+\.)(\s|$)`)
	clockWords = regexp.MustCompile(`\d{1,2}:\d{2}$`)
	links      = regexp.MustCompile(`https?://[A-Za-z0-9./_%?=&#+:-]+`)
)

// marks are the characters that the platform's mark-up begins with.
const marks = "\\*_~`|[]<"

// escape makes a text say what it says, whatever mark-up it holds. Addresses stay whole.
func escape(text string) string {
	var b strings.Builder
	for i, line := range strings.Split(text, "\n") {
		if i > 0 {
			b.WriteByte('\n')
		}
		if m := lineMarks.FindStringSubmatchIndex(line); m != nil && !strings.ContainsAny(line[m[4]:m[4]+1], marks) {
			// Within "1." it is the dot that makes the list.
			at := m[4]
			if line[m[5]-1] == '.' {
				at = m[5] - 1
			}
			b.WriteString(line[:at])
			b.WriteByte('\\')
			b.WriteByte(line[at])
			line = line[at+1:]
		}
		at := 0
		for _, l := range links.FindAllStringIndex(line, -1) {
			escapeInto(&b, line[at:l[0]])
			b.WriteString(line[l[0]:l[1]])
			at = l[1]
		}
		escapeInto(&b, line[at:])
	}
	return b.String()
}

func escapeInto(b *strings.Builder, text string) {
	for _, r := range text {
		if strings.ContainsRune(marks, r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
}

// marked is a text as the platform shows it: escaped, with instants in each reader's own time zone.
func marked(text string) string { return words.RenderStamps(escape(text), timestamp) }

// worded is a text escaped, with instants in the party's words: for the line that a lock screen shows, where
// some phones do not draw the platform's timestamps.
func worded(text string) string {
	return words.RenderStamps(escape(text), func(i words.Instant) string {
		if i.Style == words.TypedAs {
			return ""
		}
		return i.Words
	})
}

// nightEdge is how many hours before and after midnight an instant with its day is left to the platform.
const nightEdge = 2

// timestamp is the platform's mark-up of an instant. A date is the party's: elsewhere it may be another day. An
// instant with its day keeps the party's day too, with the clock time in the mark-up: the platform's own style
// with a weekday spells out month and year and takes a line of a phone. That one is used around midnight, when it
// is another day for whoever is only a little to the east or west. What one would type is left out, since here it
// is chosen.
func timestamp(i words.Instant) string {
	mark := func(style string) string { return "<t:" + strconv.FormatInt(i.At.Unix(), 10) + ":" + style + ">" }
	switch i.Style {
	case words.Clock:
		return mark("t")
	case words.DayClock:
		clock := clockWords.FindString(i.Words)
		hour, _, _ := strings.Cut(clock, ":")
		if h, err := strconv.Atoi(hour); err != nil || h < nightEdge || h >= 24-nightEdge {
			return mark("F")
		}
		return strings.TrimSuffix(i.Words, clock) + mark("t")
	case words.Relative:
		return mark("R")
	case words.TypedAs:
		return ""
	}
	return i.Words
}
