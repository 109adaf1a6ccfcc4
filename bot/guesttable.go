package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"golang.org/x/text/width"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/menu"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// The table of who can eat what: a word a dish and guest, so that it reads without colour, then the reasons.

const (
	tableWidth  = 56 // a terminal's half
	dishWidth   = 24
	phoneWidth  = 34 // what fits on a phone held upright
	phoneDish   = 16
	guestWidth  = 9
	mostReasons = 12 // of all dishes and guests; of one guest or dish there are more
	mostOfOne   = 40
	notServed   = "–"
	unknownMark = "?"
)

// legend says what the words of the table mean, those that stand in it.
var legend = []struct{ word, means string }{
	{string(menu.Not), "it contains something that the guest does not eat"},
	{string(menu.Check), "it may contain it, so read the label; or it can be made without"},
	{string(menu.Free), "free of it, as far as the ingredients tell"},
	{unknownMark, "unknown: somebody brings it, or its ingredients are not written down"},
	{notServed, "the guest is not served this course"},
}

// seat is one dish for one guest.
type seat struct {
	dish    *planner.Dish
	course  *planner.Course
	guest   *planner.Guest
	word    string
	verdict menu.Verdict // empty when the guest is not served the course
	reasons []menu.Reason
}

func guestTable(_ context.Context, t *Turn) (talk.Reply, error) {
	p := t.Party
	var guests []*planner.Guest
	var open []string // of whom nothing is known
	for i := range p.Guests {
		switch g := &p.Guests[i]; {
		case t.has("guest") && t.values["guest"].guest != g.Name:
		case menu.Restricted(g):
			guests = append(guests, g)
		default:
			open = append(open, g.Name)
		}
	}
	rows := seats(t, guests)
	rep := talk.Reply{Next: "Next: /ingredient change for what can be changed, /guest change for what a guest says"}
	switch {
	case len(p.Guests) == 0:
		return talk.Reply{}, talk.Refuse("/guest add name:Clara diets:vegetarian allergies:nuts", "No guests are named yet.")
	case len(guests) == 0:
		rep.Text = "Ask your guests what they do not eat: nothing is noted yet."
	case len(rows) == 0:
		return talk.Reply{}, talk.Refuse(dishAddExample, "There are no dishes yet.")
	default:
		rep.Text = tableHead(rows, len(t.unfedOf()) > 0)
		if t.yes("lines", false) {
			rep.Sections = append(rep.Sections, lineSections(rows)...)
		} else {
			rep.Tables = t.grid(rows, guests)
			rep.Buttons = []talk.Button{t.button("One line a dish", "guest table", "lines", "yes")}
		}
		rep.Sections = append(rep.Sections, talk.Section{Title: "What the words mean", Lines: legendLines(rows)})
		rep.Sections = append(rep.Sections, whySections(t, rows)...)
		if lines := t.inTheKitchen(); len(lines) > 0 {
			lines = firstLines(lines, mostReasons, "/guest table guest:… has a guest's all")
			rep.Sections = append(rep.Sections, talk.Section{Title: "In the same kitchen", Lines: lines})
		}
	}
	if lines := openLines(p, open); len(lines) > 0 && !t.has("guest") {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Ask", Lines: lines})
	}
	rep.Sections = append(rep.Sections, talk.Section{Title: "In any case", Lines: []string{safety.AllergenCaution}})
	return rep, nil
}

// inTheKitchen says where an allergen may get from dish to dish: of the guest and the dish in question.
func (t *Turn) inTheKitchen() []string {
	p := t.withGuest()
	lines := menu.InTheKitchen(&p)
	if d := t.Party.Dish(t.values["dish"].dish); d != nil {
		lines = slices.DeleteFunc(lines, func(s string) bool { return !strings.Contains(s, d.Name) })
	}
	return lines
}

// withGuest is the party with the guest in question alone, or as it is.
func (t *Turn) withGuest() planner.Party {
	p := *t.Party
	if t.has("guest") {
		p.Guests = slices.DeleteFunc(slices.Clone(p.Guests),
			func(g planner.Guest) bool { return g.Name != t.values["guest"].guest })
	}
	return p
}

// seats are the dishes by the order of the courses, each with its guests in theirs.
func seats(t *Turn, guests []*planner.Guest) [][]seat {
	var rows [][]seat
	for i := range t.Party.Courses {
		c := &t.Party.Courses[i]
		for j := range t.Party.Dishes {
			d := &t.Party.Dishes[j]
			if d.Course != c.Key || t.has("dish") && t.values["dish"].dish != d.Key {
				continue
			}
			var row []seat
			for _, g := range guests {
				s := seat{dish: d, course: c, guest: g, word: notServed}
				if menu.Eats(c, g) {
					s.verdict, s.reasons = menu.Suits(t.Party, d, g)
					s.word = string(s.verdict)
					if s.verdict == menu.Unknown {
						s.word = unknownMark
					}
				}
				row = append(row, s)
			}
			if len(row) > 0 {
				rows = append(rows, row)
			}
		}
	}
	return rows
}

// tableHead is the first line: what to do.
func tableHead(rows [][]seat, unfed bool) string {
	barred, open := 0, 0
	for _, row := range rows {
		not, doubt := false, false
		for _, s := range row {
			not = not || s.verdict == menu.Not
			doubt = doubt || s.verdict == menu.Check || s.verdict == menu.Unknown
		}
		if not {
			barred++
		} else if doubt {
			open++
		}
	}
	switch {
	case barred > 0 && unfed:
		return "Change the menu: not every guest has something of each course, or a whole meal."
	case barred == 1:
		return "Keep one dish from some guests; every guest has something else of its course."
	case barred > 0:
		return fmt.Sprintf("Keep %d dishes from some guests; every guest has something of each course.", barred)
	case open > 0:
		return fmt.Sprintf("Look into %s; nothing else stands against your guests, as far as the ingredients tell.",
			words.Count(open, "dish"))
	}
	return "Nothing on the menu stands against your guests, as far as the ingredients tell."
}

// grid draws the table, in as many parts as its guests need.
func (t *Turn) grid(rows [][]seat, guests []*planner.Guest) []talk.Section {
	first, most, all := 0, dishWidth, tableWidth
	if t.Request.Narrow {
		most, all = phoneDish, phoneWidth
	}
	for _, row := range rows {
		first = max(first, cells(row[0].dish.Name))
	}
	first = min(first+1, most)
	wide := make([]int, len(guests))
	for i, g := range guests {
		wide[i] = min(max(cells(g.Name), 5), guestWidth)
	}
	var out []talk.Section
	for from := 0; from < len(guests); {
		to, sum := from, first
		for to < len(guests) && (to == from || sum+2+wide[to] <= all) {
			sum += 2 + wide[to]
			to++
		}
		head := pad("", first)
		for i := from; i < to; i++ {
			head += "  " + pad(guests[i].Name, wide[i])
		}
		sec := talk.Section{Title: "Who can eat what", Lines: []string{strings.TrimRight(head, " ")}}
		if len(out) > 0 {
			sec.Title = ""
		}
		course := planner.CourseKey("")
		for _, row := range rows {
			if row[0].course.Key != course {
				course = row[0].course.Key
				sec.Lines = append(sec.Lines, words.Upper(row[0].course.Name))
			}
			line := pad(" "+row[0].dish.Name, first)
			for i := from; i < to; i++ {
				line += "  " + pad(row[i].word, wide[i])
			}
			sec.Lines = append(sec.Lines, strings.TrimRight(line, " "))
		}
		out = append(out, sec)
		from = to
	}
	return out
}

// cells is how many columns of a terminal a text takes.
func cells(text string) int {
	n := 0
	for _, r := range text {
		n++
		if k := width.LookupRune(r).Kind(); k == width.EastAsianWide || k == width.EastAsianFullwidth {
			n++
		}
	}
	return n
}

// pad brings a text to so many columns.
func pad(text string, n int) string {
	if cells(text) > n {
		cut := ""
		for _, r := range text {
			if cells(cut+string(r)) >= n {
				break
			}
			cut += string(r)
		}
		text = cut + "…"
	}
	return text + strings.Repeat(" ", max(n-cells(text), 0))
}

// lineSections say the same a line a dish, for a narrow screen.
func lineSections(rows [][]seat) []talk.Section {
	var out []talk.Section
	for _, row := range rows {
		if title := words.Upper(row[0].course.Name); len(out) == 0 || out[len(out)-1].Title != title {
			out = append(out, talk.Section{Title: title})
		}
		var parts []string
		for _, l := range legend {
			var names []string
			for _, s := range row {
				if s.word == l.word {
					names = append(names, s.guest.Name)
				}
			}
			if len(names) > 0 {
				parts = append(parts, l.word+" for "+words.And(names))
			}
		}
		sec := &out[len(out)-1]
		sec.Lines = append(sec.Lines, row[0].dish.Name+": "+strings.Join(parts, "; "))
	}
	return out
}

func legendLines(rows [][]seat) []string {
	there := map[string]bool{}
	for _, row := range rows {
		for _, s := range row {
			there[s.word] = true
		}
	}
	var lines []string
	for _, l := range legend {
		if there[l.word] {
			lines = append(lines, l.word+": "+l.means)
		}
	}
	return lines
}

// whySections give the reasons and what would help.
func whySections(t *Turn, rows [][]seat) []talk.Section {
	var why, doubts, help []string
	for _, row := range rows {
		for _, s := range row {
			for _, r := range s.reasons {
				line := fmt.Sprintf("%s, %s: %s", s.dish.Name, s.guest.Name, r)
				if s.verdict == menu.Not && r.Sure && !r.Optional {
					why = append(why, line)
				} else {
					doubts = append(doubts, line)
				}
			}
			if s.verdict != menu.Not || len(help) > mostOfOne {
				continue
			}
			if text := menu.Help(t.Party, s.dish, s.guest); text != "" {
				help = append(help, text)
			}
		}
	}
	if !t.has("dish") {
		help = append(t.unfedOf(), help...)
	}
	most, more := mostReasons, "/guest table guest:… or dish:… has all of one"
	if t.has("guest") || t.has("dish") {
		most, more = mostOfOne, "the menu has too many to name"
	}
	var out []talk.Section
	for _, s := range []talk.Section{{Title: "Why not", Lines: why}, {Title: "What to check", Lines: doubts},
		{Title: "What would help", Lines: dropTwice(help)}} {
		if len(s.Lines) > 0 {
			out = append(out, talk.Section{Title: s.Title, Lines: firstLines(s.Lines, most, more)})
		}
	}
	return out
}

// unfedOf says whom a course leaves nothing or little, of the guest in question.
func (t *Turn) unfedOf() []string {
	p := t.withGuest()
	return menu.Unfed(&p)
}

// dropTwice drops a line that an earlier one already says.
func dropTwice(lines []string) []string {
	var out []string
	for _, line := range lines {
		said := false
		for _, o := range out {
			said = said || strings.Contains(o, line)
		}
		if !said {
			out = append(out, line)
		}
	}
	return out
}

// openLines say of whom nothing is known.
func openLines(p *planner.Party, open []string) []string {
	var lines []string
	if len(open) > 0 {
		lines = append(lines,
			fmt.Sprintf("Nothing is noted about %s: ask, then /guest change guest:%s diets:… allergies:… advice:…",
				words.And(open), open[0]))
	}
	if n := p.Covers - len(p.Guests); n > 0 {
		lines = append(lines, words.CountAs(n, "cover is", "covers are")+" laid for people who are not named as guests.")
	}
	return lines
}
