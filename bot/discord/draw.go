package discord

import (
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"tureen/bot/talk"
	"tureen/planner/words"
)

// Limits of a message: page resources/message and components/reference, August 2026. What is kept for the
// footer and the words on what was left out is taken off.
const (
	maxContent    = 2000
	maxCard       = 4000 // of 4096 in a description
	maxCards      = 5700 // of 6000 altogether
	maxFooter     = 200
	maxRows       = 5
	rowButtons    = 5
	maxLabel      = 80
	maxCustomID   = 100
	maxFiles      = 10
	maxFileBytes  = 10 << 20
	maxFilesBytes = 24 << 20 // of a request of 25 MiB
	maxAlt        = 1024
)

// drawn is a reply as a message of the platform's, with its files.
type drawn struct {
	message
	files []talk.File
}

// quietly lets a message that calls nobody make no sound.
func (d *drawn) quietly() {
	if len(d.Mentions.Users) == 0 && d.Flags&flagEphemeral == 0 {
		d.Flags |= flagSilent
	}
}

// A reply is drawn as text with a card below, and not in the platform's newer layout of components: that one
// takes no content, which is the line that a lock screen shows, and older clients do not draw it.

// draw makes a message of a reply's first page, with commands to tap.
func (f *Face) draw(rep talk.Reply) drawn { return drawWith(rep, f.linked) }

func drawWith(rep talk.Reply, link func(string) string) drawn {
	p := pageOf(rep, 1)
	d := drawPage(&p, link)
	files := rep.Files
	if p.of > 1 || !d.whole {
		files = append([]talk.File{wholeFile(rep)}, files...)
	}
	d.attach(files)
	return d.drawn
}

// wholeFile is a long reply for those who want all of it at once.
func wholeFile(rep talk.Reply) talk.File {
	return talk.File{Name: "tureen.txt", Type: "text/plain; charset=utf-8", Data: []byte(plainText(rep)),
		Alt: "The whole answer as text"}
}

// drawnPage is a page as a message.
type drawnPage struct {
	drawn
	whole bool // all that the page says is in the message
}

// drawAt makes a message of a reply's nth page, in the place of one that is there.
func (f *Face) drawAt(rep talk.Reply, n int) drawn {
	at := pageOf(rep, n)
	d := drawPage(&at, f.linked)
	d.Attachments = []attachedFile{}
	if at.of > 1 || !d.whole {
		d.attach([]talk.File{wholeFile(rep)})
	}
	return d.drawn
}

// drawPage makes a message of a page: the text first, what more there is on a card below, then the buttons. link makes
// the commands of the last line what one taps.
func drawPage(p *page, link func(string) string) drawnPage {
	d := drawnPage{drawn{message: message{Embeds: []embed{}, Components: buttonRows(p.Buttons, pressID),
		Mentions: nobody()}}, true}
	if p.Private || p.Refused {
		d.Flags = flagEphemeral
	}
	text := marked(p.Text)
	small, end := "", ""
	if p.Next != "" {
		small = "\n-# " + link(marked(p.Next))
	}
	if p.of > 1 {
		end = p.label() + ". All of it is in the file."
		d.Components = append(d.Components[:min(len(d.Components), maxRows-1)],
			component{Type: componentRow, Components: p.turning()})
	}
	cards, used, all := drawTables(p.Tables)
	below, whole := drawSections(p.Sections, used)
	cards, d.whole = append(cards, below...), all && whole
	if len(cards) > 0 {
		last := &cards[len(cards)-1]
		if end != "" {
			last.Footer = &footer{end}
		}
		if runes(last.Description)+runes(small) < maxCard && runes(small) < maxFooter+100 {
			last.Description += small
			small = ""
		}
		d.Embeds = cards
	}
	d.Content = text + small
	if runes(d.Content) > maxContent {
		d.whole = false
		const note = "\n… All of it is in the file."
		d.Content = fit(text, maxContent-runes(note)) + note
	}
	if d.Content == "" && len(d.Embeds) == 0 && len(p.Files) == 0 {
		d.Content = "…"
	}
	return d
}

// attach adds files as far as the platform takes them.
func (d *drawn) attach(files []talk.File) {
	sum := 0
	for _, f := range files {
		if len(d.files) == maxFiles || len(f.Data) > maxFileBytes || sum+len(f.Data) > maxFilesBytes {
			d.Content = fit(d.Content, maxContent-80) + "\n-# A file was too large to send."
			continue
		}
		sum += len(f.Data)
		d.Attachments = append(d.Attachments, attachedFile{ID: len(d.files), Filename: f.Name,
			Description: cut(words.PlainStamps(f.Alt), maxAlt)})
		d.files = append(d.files, f)
	}
}

// timeFirst is the time that a line begins with.
var timeFirst = regexp.MustCompile(`^((?:\w{3} )?<t:\d+:t>(?:-<t:\d+:t>)?)`)

// numbered is a line with a number of its own, or one that goes on from the line before.
var numbered = regexp.MustCompile(`^(\d+\.\s|\s|$)`)

// item is a line of a section: its time stands out, and, among others, it is one of a list, so that one sees on a
// narrow screen where the next begins.
func item(line string, among bool) string {
	text := timeFirst.ReplaceAllString(marked(line), "**$1**")
	if among && !numbered.MatchString(line) {
		return "- " + text
	}
	return text
}

// drawSections puts sections on cards, of whose room some is used already. whole is false when not all lines had room.
func drawSections(list []talk.Section, used int) (cards []embed, whole bool) {
	var b strings.Builder
	sum, left := used, 0
	flush := func() {
		if text := strings.Trim(b.String(), "\n"); text != "" {
			cards = append(cards, embed{Description: text})
		}
		b.Reset()
	}
	size := 0
	add := func(line string) {
		n := runes(line) + 1
		if left > 0 || sum+n > maxCards {
			left++
			return
		}
		if size+n > maxCard {
			flush()
			size = 0
		}
		b.WriteString(line + "\n")
		sum += n
		size += n
	}
	for i, s := range list {
		if i > 0 && (s.Title != "" || list[i-1].Title != "") {
			add("")
		}
		var head string // a title stays with its first line
		if s.Title != "" {
			head = "**" + worded(s.Title) + "**"
		}
		if head != "" && len(s.Lines) == 0 {
			add(head)
		}
		for n, line := range s.Lines {
			parts := split(item(line, len(s.Lines) > 1), maxCard-1)
			if n == 0 && head != "" {
				if runes(head)+runes(parts[0])+2 < maxCard {
					parts[0] = head + "\n" + parts[0]
				} else {
					add(head)
				}
			}
			for _, part := range parts {
				add(part)
			}
		}
	}
	flush()
	if left > 0 {
		cards[len(cards)-1].Description += "\n… The rest is in the file."
	}
	return cards, left == 0
}

// split cuts a line that is too long for a card at its spaces.
func split(line string, most int) []string {
	var out []string
	for runes(line) > most {
		head := fit(line, most)
		out = append(out, head)
		line = strings.TrimLeft(strings.TrimPrefix(line, head), " ")
	}
	return append(out, line)
}

// fit is as much of a text's beginning as n characters hold, up to the end of a line or a word.
func fit(text string, n int) string {
	r := []rune(text)
	if len(r) <= n {
		return text
	}
	head := string(r[:n])
	for _, sep := range []string{"\n", " "} {
		if i := strings.LastIndex(head, sep); i > len(head)/2 {
			return head[:i]
		}
	}
	return strings.TrimRight(head, `\`)
}

func runes(s string) int { return utf8.RuneCountInString(s) }

// plainText is a reply as a text file.
func plainText(rep talk.Reply) string {
	var b strings.Builder
	b.WriteString(rep.Text + "\n")
	for _, s := range append(slices.Clone(rep.Tables), rep.Sections...) {
		b.WriteString("\n")
		if s.Title != "" {
			b.WriteString(s.Title + "\n")
		}
		for _, l := range s.Lines {
			b.WriteString(l + "\n")
		}
	}
	if rep.Next != "" {
		b.WriteString("\n" + rep.Next + "\n")
	}
	return words.PlainStamps(b.String())
}
