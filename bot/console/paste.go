package console

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"tureen/bot/talk"
)

// A terminal says where a pasted text begins and ends, when it is asked to. A text of several lines would else be as
// many messages: here it becomes one word of the line that is being typed, and its lines again when that line is
// sent.

const (
	pasteOn    = "\x1b[?2004h"
	pasteOff   = "\x1b[?2004l"
	pasteBegin = "\x1b[200~"
	pasteEnd   = "\x1b[201~"
)

// pastes reads what is typed, and puts a word in the place of each pasted text of several lines.
type pastes struct {
	in     io.Reader
	held   []byte // what has been read and may be the beginning of a mark
	out    []byte // what is still to be handed on
	pasted []byte
	within bool
	texts  map[string]string // by their words
}

// Read implements [io.Reader].
func (p *pastes) Read(to []byte) (int, error) {
	for len(p.out) == 0 {
		chunk := make([]byte, 4096)
		n, err := p.in.Read(chunk)
		p.take(chunk[:n])
		if err != nil && len(p.out) == 0 {
			return 0, err
		}
	}
	n := copy(to, p.out)
	p.out = p.out[n:]
	return n, nil
}

// mostPasted is the most of one pasted text that is kept; the rest is dropped.
const mostPasted = 1 << 20

func (p *pastes) take(chunk []byte) {
	all := append(p.held, chunk...)
	p.held = nil
	for len(all) > 0 {
		mark := pasteBegin
		if p.within {
			mark = pasteEnd
		}
		at := bytes.Index(all, []byte(mark))
		if at < 0 {
			keep := 0 // of its end, what a mark begins with
			for n := min(len(mark)-1, len(all)); n > 0 && keep == 0; n-- {
				if bytes.HasSuffix(all, []byte(mark[:n])) {
					keep = n
				}
			}
			p.give(all[:len(all)-keep])
			p.held = bytes.Clone(all[len(all)-keep:])
			return
		}
		p.give(all[:at])
		if p.within {
			p.out = append(p.out, p.word()...)
			p.pasted = nil
		}
		p.within = !p.within
		all = all[at+len(mark):]
	}
}

func (p *pastes) give(b []byte) {
	if !p.within {
		p.out = append(p.out, b...)
		return
	}
	p.pasted = append(p.pasted, b[:min(len(b), max(mostPasted-len(p.pasted), 0))]...)
}

// word is what stands for the text that was pasted: itself, where it is one line.
func (p *pastes) word() string {
	text := strings.ToValidUTF8(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(p.pasted)), "�")
	text = strings.TrimRight(text, "\n")
	if !strings.Contains(text, "\n") {
		return strings.ReplaceAll(text, "\t", " ")
	}
	if p.texts == nil {
		p.texts = map[string]string{}
	}
	word := fmt.Sprintf("[pasted text %d, %d lines]", len(p.texts)+1, strings.Count(text, "\n")+1)
	p.texts[word] = text
	return word
}

// messages are what a sent line says: one message, with the pasted text in it, or as many as there are lines of which
// each is a command.
func (p *pastes) messages(line string) []string {
	for word, text := range p.texts {
		head, tail, ok := strings.Cut(line, word)
		if !ok {
			continue
		}
		delete(p.texts, word)
		if head, tail = strings.TrimSpace(head), strings.TrimSpace(tail); tail != "" {
			text += "\n" + tail
		}
		lines := strings.Split(text, "\n")
		if head != "" || !strings.HasPrefix(strings.TrimSpace(lines[0]), "/") {
			return []string{talk.WithText(head, text)}
		}
		commands := 0
		for _, l := range lines {
			if l = strings.TrimSpace(l); l == "" || strings.HasPrefix(l, "/") || strings.HasPrefix(l, "#") ||
				spoken.MatchString(l) || strings.HasPrefix(l, "wait ") || strings.HasPrefix(l, "press ") {
				commands++
			}
		}
		if commands == len(lines) {
			return lines
		}
		return []string{strings.Join(lines, `\n`)}
	}
	return []string{line}
}
