package console

import (
	"context"
	"errors"
	"io"
	"os"
	"strings"
	"sync"

	"golang.org/x/term"

	"tureen/bot"
	"tureen/bot/talk"
)

// Terminal talks with a person: line editing, history, completion with the tab key. Reminders are printed
// as they fall due, also while a line is being typed. It ends with the input.
func (c *Chat) Terminal(ctx context.Context, in *os.File, out io.Writer) error {
	state, err := term.MakeRaw(int(in.Fd()))
	if err != nil {
		return err
	}
	defer term.Restore(int(in.Fd()), state)
	typed := &pastes{in: in}
	t := term.NewTerminal(struct {
		io.Reader
		io.Writer
	}{typed, out}, c.as+"> ")
	io.WriteString(out, pasteOn)
	defer io.WriteString(out, pasteOff)
	if w, h, err := term.GetSize(int(in.Fd())); err == nil && w > 0 {
		t.SetSize(w, h)
	}
	c.screen.out = t
	t.AutoCompleteCallback = func(line string, pos int, key rune) (string, int, bool) {
		if key != '\t' {
			return "", 0, false
		}
		return c.completed(ctx, t, line, pos)
	}
	c.screen.print("Type /help for what can be said, and Ctrl-D to go.\n")
	ctx, stop := context.WithCancel(ctx)
	var running sync.WaitGroup
	running.Go(func() {
		if err := c.dispatcher.Run(ctx); err != nil && !errors.Is(err, context.Canceled) {
			c.log.Error("sending reminders", "error", err)
		}
	})
	defer running.Wait()
	defer stop()
	var gather talk.Gather
	for {
		line, err := t.ReadLine()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil && !errors.Is(err, term.ErrPasteIndicator) {
			return err
		}
		for _, line := range typed.messages(line) {
			if message, whole := gather.Line(line); whole {
				c.line(ctx, message)
			}
		}
	}
}

// completed completes the line up to the cursor, and prints the choices where there are several.
func (c *Chat) completed(ctx context.Context, t io.Writer, line string, pos int) (string, int, bool) {
	head := line[:pos]
	grown, choices := Complete(ctx, c.bot, c.channel, userOf(c.as), head)
	if len(choices) > 1 {
		// The terminal holds its lock while it asks us, and writing takes it.
		go io.WriteString(t, indent+strings.Join(choices, "   ")+"\n")
	}
	if grown == head {
		return "", 0, false
	}
	return grown + line[pos:], len(grown), true
}

// Complete grows a line that is being typed in a channel as far as it can only go one way, and lists the ways where
// there are several.
func Complete(ctx context.Context, b *bot.Bot, in string, user talk.User, head string) (grown string,
	choices []string) {
	word := head[strings.LastIndexAny(head, " ")+1:]
	base := strings.TrimSuffix(head, word)
	line, err := b.Parse(head)
	if err != nil && line.Command == "" {
		line = talk.Line{Command: commandOf(b, head)}
	}
	if line.Command == "" {
		return grow("", head, commandsFrom(b, head))
	}
	var names []string
	for _, o := range optionsOf(b, line.Command) {
		if _, given := line.Options[o.Name]; !given && strings.HasPrefix(o.Name, word) {
			names = append(names, o.Name+":")
		}
	}
	name, typed, inValue := lastOption(b, line.Command, head)
	if !inValue || strings.Contains(typed, " ") && word != "" && len(names) > 0 { // a value may go on, or an option begin
		return grow(base, word, names)
	}
	req := talk.Request{Community: community, Channel: in, User: user, Command: line.Command, Options: line.Options}
	var values []string
	for _, s := range b.Complete(ctx, req, name, typed) {
		values = append(values, s.Value)
	}
	if len(values) > 0 && strings.HasPrefix(strings.ToLower(values[0]), strings.ToLower(typed)) {
		return grow(strings.TrimSuffix(head, typed), typed, values)
	}
	return head, values
}

// grow replaces typed by what all choices begin with.
func grow(base, typed string, choices []string) (string, []string) {
	if len(choices) == 0 {
		return base + typed, nil
	}
	common := choices[0]
	for _, c := range choices[1:] {
		for !strings.HasPrefix(c, common) {
			common = common[:len(common)-1]
		}
	}
	if len(common) < len(typed) {
		common = typed
	}
	return base + common, choices
}

func commandsFrom(b *bot.Bot, head string) []string {
	var out []string
	for _, c := range b.Commands() {
		full := "/" + c.Name + " "
		if len(c.Options) == 0 {
			full = "/" + c.Name
		}
		if strings.HasPrefix(full, head) || strings.HasPrefix(full[1:], head) {
			out = append(out, full)
		}
	}
	return out
}

// commandOf is the command whose name a line holds in full, with a space after it.
func commandOf(b *bot.Bot, head string) string {
	for _, c := range b.Commands() {
		if strings.HasPrefix(strings.TrimPrefix(head, "/"), c.Name+" ") {
			return c.Name
		}
	}
	return ""
}

func optionsOf(b *bot.Bot, command string) []talk.Option {
	for _, c := range b.Commands() {
		if c.Name == command {
			return c.Options
		}
	}
	return nil
}

// lastOption is the option whose value is being typed at the end of a line.
func lastOption(b *bot.Bot, command, head string) (name, typed string, ok bool) {
	at := -1
	for _, o := range optionsOf(b, command) {
		if i := strings.LastIndex(head, " "+o.Name+":"); i > at {
			at, name, typed, ok = i, o.Name, head[i+len(o.Name)+2:], true
		}
	}
	if ok && strings.HasSuffix(typed, " ") {
		return "", "", false // a new option begins
	}
	return name, typed, ok
}
