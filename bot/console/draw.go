package console

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"tureen/bot"
	"tureen/bot/talk"
	"tureen/planner/words"
	"tureen/reminders"
)

// screen prints replies and notes, and remembers the buttons of what was printed since the last line came in.
// Notes may come from another goroutine.
type screen struct {
	mu      sync.Mutex
	out     io.Writer
	files   string // the folder that files of replies are put into
	buttons []talk.Button
	fresh   bool // a line has come in, and its answer begins the numbers anew
}

// begin says that a line has come in: what is printed from here on numbers its buttons from 1. The old
// ones stay while messages are refused.
func (s *screen) begin() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.fresh = true
}

func (s *screen) button(n int) (talk.Button, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if n < 1 || n > len(s.buttons) {
		return talk.Button{}, false
	}
	return s.buttons[n-1], true
}

func (s *screen) print(text string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	fmt.Fprint(s.out, text)
}

const indent = "  "

// reply prints an answer.
func (s *screen) reply(r talk.Reply) {
	s.mu.Lock()
	defer s.mu.Unlock()
	var b strings.Builder
	lead := indent
	if r.Refused {
		lead = "! "
	}
	for _, line := range strings.Split(words.PlainStamps(r.Text), "\n") {
		b.WriteString(lead + line + "\n")
		lead = indent
	}
	sections(&b, indent, r.Tables)
	sections(&b, indent, r.Sections)
	if len(r.Aside) > 0 {
		b.WriteString(indent + eyesOnly + "\n")
		sections(&b, indent+indent, r.Aside)
	}
	if r.Private && !r.Refused {
		b.WriteString(indent + eyesOnly + "\n")
	}
	for _, m := range r.Told {
		b.WriteString(indent + "(to @" + m.To.Name + ") " + strings.ReplaceAll(m.Text, "\n", " ") + "\n")
	}
	if r.Place != "" {
		b.WriteString(indent + "It is the channel " + r.Place + ".\n")
	}
	for _, f := range r.Files {
		b.WriteString(indent + s.keep(f) + "\n")
	}
	if !r.Refused || len(r.Buttons) > 0 {
		s.numbers(&b, r.Few())
	}
	if r.Next != "" {
		b.WriteString(indent + words.PlainStamps(r.Next) + "\n")
	}
	fmt.Fprint(s.out, b.String())
}

// eyesOnly marks, at a terminal where everybody reads along, what a chat shows to the asker alone.
const eyesOnly = "(for your eyes only)"

func sections(b *strings.Builder, in string, list []talk.Section) {
	for _, sec := range list {
		inside := in
		if sec.Title != "" {
			b.WriteString(in + words.PlainStamps(sec.Title) + "\n")
			inside += indent
		}
		for _, line := range sec.Lines {
			b.WriteString(inside + words.PlainStamps(line) + "\n")
		}
	}
}

// note prints a reminder, with whom it is for.
func (s *screen) note(n reminders.Note, when string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	to := "everybody"
	if n.Person != nil {
		to = n.Person.Name
	}
	var b strings.Builder
	if n.Channel != channel && n.Channel != "" && (n.Person == nil || !n.Person.Direct) {
		to += ", in " + n.Channel
	}
	sound := ""
	if n.Silent {
		sound = ", without a sound"
	}
	fmt.Fprintf(&b, "* %s, to %s%s:\n", when, to, sound)
	for _, line := range strings.Split(words.PlainStamps(n.Text), "\n") {
		b.WriteString(indent + line + "\n")
	}
	s.numbers(&b, bot.NoteReply(n).Buttons)
	fmt.Fprint(s.out, b.String())
}

// changed prints what a list begins with now, as long as something on it is to be done.
func (s *screen) changed(n reminders.Note) {
	s.mu.Lock()
	defer s.mu.Unlock()
	first, list, _ := strings.Cut(words.PlainStamps(n.Text), "\n")
	if !strings.Contains(list, "\n[ ] ") {
		return
	}
	fmt.Fprintf(s.out, "~ %s's list: %s\n", n.Person.Name, first)
}

func (s *screen) numbers(b *strings.Builder, buttons []talk.Button) {
	if s.fresh {
		s.buttons, s.fresh = nil, false
	}
	if len(buttons) == 0 {
		return
	}
	var parts []string
	for _, x := range buttons {
		s.buttons = append(s.buttons, x)
		parts = append(parts, fmt.Sprintf("[%d] %s", len(s.buttons), x.Label))
	}
	b.WriteString(indent + strings.Join(parts, "  ") + "\n")
}

// keep puts a reply's file into the folder for files, under a name that is not taken, and says where.
func (s *screen) keep(f talk.File) string {
	name := filepath.Base(strings.Map(func(r rune) rune {
		if r < ' ' || strings.ContainsRune(`/\:*?"<>|`, r) {
			return '-'
		}
		return r
	}, f.Name))
	ext := filepath.Ext(name)
	stem := strings.TrimSuffix(name, ext)
	for n := 1; n < 1000; n++ {
		if n > 1 {
			name = fmt.Sprintf("%s-%d%s", stem, n, ext)
		}
		file, err := os.OpenFile(filepath.Join(s.files, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if os.IsExist(err) {
			continue
		}
		if err == nil {
			_, err = file.Write(f.Data)
			if e := file.Close(); err == nil {
				err = e
			}
		}
		if err != nil {
			return fmt.Sprintf("The file %s could not be kept: it cannot be written in %s.", f.Name, s.files)
		}
		return fmt.Sprintf("File: %s (%d bytes)", name, len(f.Data))
	}
	return fmt.Sprintf("The file %s could not be kept: too many of that name.", f.Name)
}
