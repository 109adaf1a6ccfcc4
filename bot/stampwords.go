package bot

import (
	"regexp"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
)

// The planner says instants in words, since it knows no face: "Sat 17:35", "Sat 17:35 to 18:10". Within the days of
// the party they can only mean one instant, and are marked as such here, so that each face draws them in its own way.

var instantWords = regexp.MustCompile(`\b(Mon|Tue|Wed|Thu|Fri|Sat|Sun)( \d{1,2} [A-Z][a-z]{2})? (\d{2}):(\d{2})\b(?:( to | and |-)(\d{2}):(\d{2})\b)?`)

// stampWords marks the instants in a reply's text.
func (t *Turn) stampWords(rep *talk.Reply) {
	if t.Party == nil {
		return
	}
	rep.Text = stampInstants(t.Party, rep.Text)
	for i := range rep.Sections {
		lines := make([]string, len(rep.Sections[i].Lines))
		for j, l := range rep.Sections[i].Lines {
			lines[j] = stampInstants(t.Party, l)
		}
		rep.Sections[i].Lines = lines
	}
}

// stampInstants marks a text's instants that are not marked already. What is read, when the marks are taken away
// again, is the same.
func stampInstants(p *planner.Party, text string) string {
	if !strings.Contains(text, ":") {
		return text
	}
	// What is marked already is put aside, and back: a mark's first character stands in no other text.
	const hole = "\x0e"
	var marked []string
	text = words.RenderStamps(text, func(i words.Instant) string {
		marked = append(marked, words.StampAs(i.At, i.Style, i.Words))
		return hole
	})
	var b strings.Builder
	for i, part := range strings.Split(text, hole) {
		if i > 0 {
			b.WriteString(marked[i-1])
		}
		b.WriteString(instantWords.ReplaceAllStringFunc(part, func(words string) string { return stampInstant(p, words) }))
	}
	return b.String()
}

func stampInstant(p *planner.Party, said string) string {
	m := instantWords.FindStringSubmatch(said)
	zone := p.Location()
	var day time.Time
	for at, end := p.Opens().In(zone), p.NightEnd().In(zone); !at.After(end); at = at.AddDate(0, 0, 1) {
		if at.Format("Mon") != m[1] || m[2] != "" && at.Format(" 2 Jan") != m[2] {
			continue
		}
		if !day.IsZero() {
			return said // two such days
		}
		day = at
	}
	if day.IsZero() {
		return said
	}
	clock := func(hour, minute string, next int) time.Time {
		h, _ := time.Parse("15:04", hour+":"+minute)
		return time.Date(day.Year(), day.Month(), day.Day()+next, h.Hour(), h.Minute(), 0, 0, zone)
	}
	from := clock(m[3], m[4], 0)
	if from.Format("15:04") != m[3]+":"+m[4] { // no such hour, or none on that day
		return said
	}
	out := words.StampAs(from, words.DayClock, m[1]+m[2]+" "+m[3]+":"+m[4])
	if m[5] == "" {
		return out
	}
	to := clock(m[6], m[7], 0)
	if to.Before(from) {
		to = clock(m[6], m[7], 1)
	}
	return out + m[5] + words.StampAs(to, words.Clock, m[6]+":"+m[7])
}
