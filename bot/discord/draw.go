package discord

import (
	"strings"
	"unicode/utf8"

	"tureen/bot"
	"tureen/reminders"
)

// Limits of a message: page resources/message and components/reference, August 2026. What is kept for the
// footer and the words on what was left out is taken off.
const (
	maxContent    = 2000
	maxCard       = 4000 // of 4096 in a description
	maxCards      = 5700 // of 6000 altogether
	maxFooter     = 200
	maxButtons    = 25
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
	files []bot.File
}

// draw makes a message of a reply: the text first, what more there is on a card below, and, when it is too
// long for one, all of it in a file.
func draw(rep bot.Reply) drawn {
	d := drawn{message: message{Embeds: []embed{}, Components: buttonRows(rep.Buttons, pressID), Mentions: nobody()}}
	if rep.Private || rep.Refused {
		d.Flags = flagEphemeral
	}
	text := marked(rep.Text)
	small := ""
	if rep.Next != "" {
		small = "\n-# " + marked(rep.Next)
	}
	cards, whole := drawSections(rep.Sections)
	if len(cards) > 0 {
		small = ""
		if rep.Next != "" {
			cards[len(cards)-1].Footer = &footer{cut(reminders.PlainStamps(rep.Next), maxFooter)}
		}
		d.Embeds = cards
	}
	d.Content = text + small
	if runes(d.Content) > maxContent {
		whole = false
		const note = "\n… All of it is in the file."
		d.Content = fit(text, maxContent-runes(note)) + note
	}
	if d.Content == "" && len(d.Embeds) == 0 && len(rep.Files) == 0 {
		d.Content = "…"
	}
	files := rep.Files
	if !whole {
		files = append([]bot.File{{Name: "tureen.txt", Type: "text/plain; charset=utf-8", Data: []byte(plainText(rep)), Alt: "The whole answer as text"}}, files...)
	}
	d.attach(files)
	return d
}

// attach adds files as far as the platform takes them.
func (d *drawn) attach(files []bot.File) {
	sum := 0
	for _, f := range files {
		if len(d.files) == maxFiles || len(f.Data) > maxFileBytes || sum+len(f.Data) > maxFilesBytes {
			d.Content = fit(d.Content, maxContent-80) + "\n-# A file was too large to send."
			continue
		}
		sum += len(f.Data)
		d.Attachments = append(d.Attachments, attachedFile{ID: len(d.files), Filename: f.Name, Description: cut(reminders.PlainStamps(f.Alt), maxAlt)})
		d.files = append(d.files, f)
	}
}

// drawSections puts sections on cards. whole is false when not all lines had room.
func drawSections(list []bot.Section) (cards []embed, whole bool) {
	var b strings.Builder
	sum, left := 0, 0
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
			parts := split(marked(line), maxCard-1)
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
func plainText(rep bot.Reply) string {
	var b strings.Builder
	b.WriteString(rep.Text + "\n")
	for _, s := range rep.Sections {
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
	return reminders.PlainStamps(b.String())
}

// buttonRows lays buttons out, five a row. id makes a button's custom id from its place and what it does.
func buttonRows(list []bot.Button, id func(n int, do string) string) []component {
	rows := []component{}
	n := 0
	for _, b := range list {
		custom, label := id(n, b.Do), cut(strings.TrimSpace(reminders.PlainStamps(b.Label)), maxLabel)
		if runes(custom) > maxCustomID || n == maxButtons {
			continue
		}
		if label == "" {
			label = "…"
		}
		if n%rowButtons == 0 {
			rows = append(rows, component{Type: componentRow})
		}
		row := &rows[len(rows)-1]
		row.Components = append(row.Components, component{Type: componentButton, Style: styleOf(b.Style), Label: label, CustomID: custom})
		n++
	}
	return rows
}

func styleOf(s bot.ButtonStyle) int {
	switch s {
	case bot.Main:
		return stylePrimary
	case bot.Danger:
		return styleDanger
	}
	return styleSecondary
}

// A custom id is a letter for its kind, a letter that makes it single in its message, for a reminder eight
// characters of its key, a colon, and the message that the button says. So a button still works after a
// restart and after weeks: all that it means stands in it.
const (
	kindPress  = 'b'
	kindRemind = 'r'
	keyLength  = 8
)

func pressID(n int, do string) string { return string(rune(kindPress)) + place(n) + ":" + do }

func remindID(key string) func(int, string) string {
	return func(n int, do string) string { return string(rune(kindRemind)) + place(n) + keyMark(key) + ":" + do }
}

func place(n int) string { return string(rune('a' + n%26)) }

// said is the message that a custom id stands for.
func said(id string) (do string, ok bool) {
	head := 3
	if strings.HasPrefix(id, string(rune(kindRemind))) {
		head += keyLength
	} else if !strings.HasPrefix(id, string(rune(kindPress))) {
		return "", false
	}
	if len(id) <= head || id[head-1] != ':' {
		return "", false
	}
	return id[head:], true
}
