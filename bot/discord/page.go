package discord

import (
	"crypto/sha256"
	"encoding/base32"
	"fmt"
	"strconv"
	"strings"

	"tureen/bot/talk"
	"tureen/planner/words"
)

// A long reply is shown page by page, where asking for it again changes nothing: a page is the same command
// asked once more. What it was, and of which state of things the page before was, stands in the button.

// How long a page is: about two screens of a phone, of which one line holds about so many characters.
const (
	phoneLine = 44
	pageLines = 40
	pageChars = 3600 // of maxCard, with what splitting costs
	maxPages  = 1295 // two digits of base 36
	markSize  = 4
)

// page is what one message shows of a reply.
type page struct {
	talk.Reply
	number, of int    // from 1
	mark       string // tells the state of the whole reply from any other
}

// pageOf is the reply's nth page, from 1, or the last where it has fewer.
func pageOf(rep talk.Reply, n int) page {
	list := paginate(rep.Sections)
	if rep.Again == "" || len(list) < 2 || len(list) > maxPages {
		return page{Reply: rep, number: 1, of: 1}
	}
	n = max(1, min(n, len(list)))
	at := list[n-1]
	p := page{rep, n, len(list), markOf(rep)}
	p.Sections, p.Buttons = at.sections, nil
	if n > 1 {
		p.Tables = nil
	}
	for _, b := range rep.Buttons {
		if b.Line == 0 || at.first <= b.Line && b.Line <= at.last {
			p.Buttons = append(p.Buttons, b)
		}
	}
	return p
}

// stretch is a run of a reply's lines, first to last, counted from 1 over all sections.
type stretch struct {
	sections    []talk.Section
	first, last int
}

// paginate cuts sections into pages: between two sections where that leaves a page at least half full, else
// between two lines. Nil: they need no cutting.
func paginate(sections []talk.Section) []stretch {
	high, long := 0, 0
	for _, s := range sections {
		h, l := room(s.Title, s.Lines...)
		high, long = high+h, long+l
	}
	if high <= pageLines+pageLines/4 && long <= pageChars {
		return nil
	}
	var out []stretch
	cur := stretch{first: 1}
	lines, chars, line := 0, 0, 0
	flush := func() {
		if len(cur.sections) > 0 {
			cur.last = line
			out = append(out, cur)
		}
		cur = stretch{first: line + 1}
		lines, chars = 0, 0
	}
	for _, s := range sections {
		high, long := room(s.Title, s.Lines...)
		if lines+high > pageLines && lines >= pageLines/2 || chars+long > pageChars && chars >= pageChars/2 {
			flush()
		}
		part := talk.Section{Title: s.Title}
		if h, l := room(s.Title); s.Title != "" {
			lines, chars = lines+h, chars+l
		}
		add := func(text string) {
			h, l := room("", text)
			if len(part.Lines) > 0 && (lines+h > pageLines || chars+l > pageChars) {
				cur.sections = append(cur.sections, part)
				flush()
				part = talk.Section{Title: continued(s.Title)}
				h0, l0 := room(part.Title)
				lines, chars = h0, l0
			}
			part.Lines = append(part.Lines, text)
			lines, chars = lines+h, chars+l
		}
		for _, text := range s.Lines {
			for _, piece := range split(text, pageChars/2) {
				add(piece)
			}
			line++
		}
		cur.sections = append(cur.sections, part)
	}
	flush()
	return out
}

func continued(title string) string {
	if title == "" {
		return ""
	}
	return title + ", continued"
}

// room is how many lines of a phone, and how many of the platform's characters, a title and lines take.
func room(title string, lines ...string) (high, long int) {
	if title != "" {
		lines = append([]string{title, ""}, lines...)
	}
	for _, l := range lines {
		high += max(1, (runes(words.PlainStamps(l))+phoneLine-1)/phoneLine)
		long += runes(marked(l)) + 7
	}
	return high, long
}

// label is where one stands, for the end of the page.
func (p *page) label() string { return fmt.Sprintf("Page %d of %d", p.number, p.of) }

// turning are the buttons to the pages before and after.
func (p *page) turning() []component {
	var out []component
	for i, n := range []int{p.number - 1, p.number + 1} {
		if n >= 1 && n <= p.of {
			out = append(out, component{Type: componentButton, Style: styleSecondary, CustomID: pageID(i, n, p.mark, p.Again),
				Label: []string{"Page before", "Next page"}[i]})
		}
	}
	return out
}

// markOf tells one state of a reply from another.
func markOf(rep talk.Reply) string {
	sum := sha256.Sum256([]byte(plainText(rep)))
	return strings.ToLower(base32.StdEncoding.EncodeToString(sum[:]))[:markSize]
}

// A page's button has a custom id of its kind's letter, its place, the page in two digits, the mark of the
// state that its message shows, a colon and the command.
func pageID(place, number int, mark, do string) string {
	n := strconv.FormatInt(int64(number), 36)
	return string(rune(kindPage)) + placeMark(place) + strings.Repeat("0", 2-len(n)) + n + mark + ":" + do
}

// turned reads such an id.
func turned(id string) (number int, mark, do string, ok bool) {
	const head = 2 + 2 + markSize
	if !strings.HasPrefix(id, string(rune(kindPage))) || len(id) <= head+1 || id[head] != ':' {
		return 0, "", "", false
	}
	n, err := strconv.ParseInt(id[2:4], 36, 32)
	return int(n), id[4:head], id[head+1:], err == nil && n > 0
}

// pageShown is the page that a message shows, by its buttons to the pages beside it.
func pageShown(m *posted) int {
	for _, row := range m.Components {
		for _, c := range row.Components {
			n, _, _, ok := turned(c.CustomID)
			if !ok {
				continue
			}
			if c.CustomID[1] == placeMark(0)[0] { // to the page before
				return n + 1
			}
			return n - 1
		}
	}
	return 1
}
