package discord

import (
	_ "embed"
	"html"
	"html/template"
	"regexp"
	"strconv"
	"strings"
	"time"

	"tureen/bot/discord/standin"
)

// How a message looks on a phone, in a plain look of our own: enough to judge what is read first, how lines
// break and what a thumb reaches. It draws the messages as the stand-in has got them.

//go:embed testdata/phone.html
var phonePage string

var phoneTemplate = template.Must(template.New("phone").Parse(phonePage))

// shownMessage is a message for the template.
type shownMessage struct {
	Who, Typed string
	Text       []shownLine
	Cards      []shownCard
	Files      []string
	Rows       [][]shownButton
}

type shownCard struct {
	Lines []shownLine
	End   string
}

type shownLine struct {
	HTML  template.HTML
	Small bool
	Fixed bool // each character takes the same room
	Item  bool // of a list
}

type shownButton struct{ Label, Class string }

// shownOn is a message as a phone in a zone shows it. who says by what it came.
func shownOn(m *standin.Message, zone *time.Location, names map[string]string, who, typed string) shownMessage {
	s := shownMessage{Who: who, Typed: typed, Text: shownLines(m.Content, zone, names)}
	for _, e := range m.Embeds {
		s.Cards = append(s.Cards, shownCard{shownLines(e.Description, zone, names), e.Footer.Text})
	}
	for _, f := range m.Files {
		s.Files = append(s.Files, f.Name)
	}
	for _, r := range m.Components {
		var row []shownButton
		for _, c := range r.Components {
			b := shownButton{Label: c.Label}
			switch {
			case c.Type == componentSelect:
				b = shownButton{c.Placeholder + " (" + strconv.Itoa(len(c.Options)) + ")", "list"}
			case c.Style == stylePrimary:
				b.Class = "first"
			}
			row = append(row, b)
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

var (
	stampMark = regexp.MustCompile(`&lt;t:(\d+):([tFR])&gt;`)
	userMark  = regexp.MustCompile(`&lt;@(\d+)&gt;`)
	boldMark  = regexp.MustCompile(`\*\*(.+?)\*\*`)
)

// shownLines draws the mark-up that tureen sends: bold titles, small print, instants, mentions and escapes.
func shownLines(text string, zone *time.Location, names map[string]string) []shownLine {
	var out []shownLine
	if text == "" {
		return nil
	}
	fixed := false
	for _, line := range strings.Split(text, "\n") {
		var l shownLine
		if line, block := strings.CutPrefix(line, "```"); block || fixed && strings.HasSuffix(line, "```") {
			fixed = !fixed
			if line = strings.TrimSuffix(line, "```"); line == "" {
				continue
			}
			out = append(out, shownLine{HTML: template.HTML(html.EscapeString(line)), Fixed: true})
			continue
		}
		if fixed {
			out = append(out, shownLine{HTML: template.HTML(html.EscapeString(line + " ")), Fixed: true})
			continue
		}
		line, l.Small = strings.CutPrefix(line, "-# ")
		line, l.Item = strings.CutPrefix(line, "- ")
		line = strings.NewReplacer(`\*`, "\x01", `\_`, "_", "\\`", "`", `\~`, "~", `\|`, "|", `\[`, "[", `\]`, "]", `\<`, "<",
			`\\`, `\`,
			`\#`, "#", `\>`, ">", `\-`, "-", `\.`, ".").Replace(line)
		line = html.EscapeString(line)
		line = boldMark.ReplaceAllString(line, "<b>$1</b>")
		line = stampMark.ReplaceAllStringFunc(line, func(mark string) string {
			m := stampMark.FindStringSubmatch(mark)
			sec, _ := strconv.ParseInt(m[1], 10, 64)
			at := time.Unix(sec, 0).In(zone)
			if m[2] == "t" {
				return at.Format("15:04")
			}
			return at.Format("Monday, 2 January 2006 15:04")
		})
		line = userMark.ReplaceAllStringFunc(line, func(mark string) string {
			return "@" + html.EscapeString(names[userMark.FindStringSubmatch(mark)[1]])
		})
		line = strings.ReplaceAll(line, "\x01", "*")
		if line == "" {
			line = "&nbsp;"
		}
		l.HTML = template.HTML(line)
		out = append(out, l)
	}
	return out
}
