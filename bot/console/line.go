package console

import (
	"context"
	"fmt"
	"mime"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/measure"
)

// community and channel are the console's own.
const (
	community = talk.Terminal
	channel   = "console"
)

// maxFile is the largest file that may be attached.
const maxFile = 8 << 20

var spoken = regexp.MustCompile(`^([^>/#"\n]{1,60})>\s*(.*)$`)

// line answers one line of input and reports whether it was refused.
func (c *Chat) line(ctx context.Context, text string) (refused bool) {
	text = strings.TrimSpace(text)
	if text == "" || strings.HasPrefix(text, "#") {
		return false
	}
	c.screen.begin()
	who := c.as
	if m := spoken.FindStringSubmatch(text); m != nil {
		who, text = strings.TrimSpace(m[1]), m[2]
	}
	user := userOf(who)
	word, rest, _ := strings.Cut(text, " ")
	switch word {
	case "press":
		return c.press(ctx, user, strings.TrimSpace(rest))
	case "channel":
		return c.turnTo(strings.TrimSpace(rest))
	case "wait":
		return c.wait(ctx, user, strings.TrimSpace(rest))
	}
	if !strings.HasPrefix(text, "/") {
		rep := c.bot.Say(ctx, c.request(user), text)
		if rep.Text == "" {
			return false
		}
		return c.show(ctx, rep)
	}
	return c.message(ctx, user, text, true)
}

// request is somebody's, without what is asked for.
func (c *Chat) request(user talk.User) talk.Request {
	return talk.Request{Community: community, Channel: c.channel, User: user, Options: map[string]string{},
		Files: map[string]talk.File{}, Open: openThread}
}

// userOf is a person by name, as the console tells people apart: by the key of their name.
func userOf(name string) talk.User {
	id := planner.Key(name)
	if id == "" {
		id = name
	}
	return talk.User{ID: id, Name: name, Admin: true}
}

// message says a message to the bot. Whoever has typed it hears which of its words are other ones now.
func (c *Chat) message(ctx context.Context, user talk.User, text string, typed bool) (refused bool) {
	line, err := c.bot.Parse(text)
	if err != nil {
		return c.show(ctx, talk.RefusedReply(err))
	}
	req := c.request(user)
	req.Command, req.Options, req.AsOf, req.Pressed = line.Command, line.Options, line.AsOf, !typed
	for name, path := range line.Files {
		f, err := attach(path)
		if err != nil {
			return c.show(ctx, talk.RefusedReply(err))
		}
		req.Files[name] = f
	}
	rep := c.bot.Do(ctx, req)
	if news := line.News(); typed && news != "" {
		rep.Text += "\n" + news
	}
	return c.show(ctx, rep)
}

// turnTo speaks in another channel from now on. The terminal has as many as one names; a thread is one of them.
func (c *Chat) turnTo(name string) (refused bool) {
	c.channel = channel
	if key := planner.Key(name); key != "" {
		c.channel = key
	}
	c.screen.print(indent + "You speak in the channel " + c.channel + ".\n")
	return false
}

// openThread is a thread at the terminal: the channel of its name.
func openThread(_ context.Context, name string) (string, error) {
	if key := planner.Key(name); key != "" {
		return key, nil
	}
	return "thread", nil
}

// show prints a reply, and what has fallen due meanwhile.
func (c *Chat) show(ctx context.Context, r talk.Reply) (refused bool) {
	c.screen.reply(r)
	if !r.Refused {
		c.tick(ctx)
	}
	return r.Refused
}

func (c *Chat) refuse(ctx context.Context, text, try string) bool {
	r := talk.Reply{Text: text, Refused: true}
	if try != "" {
		r.Next = "Type: " + try
	}
	return c.show(ctx, r)
}

// attach reads a file that is to go with a message.
func attach(path string) (talk.File, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return talk.File{}, unattached("There is no file %s that can be read.", filepath.Base(path))
	case info.IsDir():
		return talk.File{}, unattached("%s is a folder; attach a file.", filepath.Base(path))
	case info.Size() > maxFile:
		return talk.File{}, unattached("%s is too large; a file may have %d megabytes.", filepath.Base(path), maxFile>>20)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return talk.File{}, unattached("The file %s cannot be read.", filepath.Base(path))
	}
	kind := mime.TypeByExtension(filepath.Ext(path))
	if kind == "" {
		kind = "application/octet-stream"
	}
	return talk.File{Name: filepath.Base(path), Type: kind, Data: data}, nil
}

func unattached(format string, args ...any) error {
	return &talk.Refusal{Text: fmt.Sprintf(format, args...)}
}

// press presses a button of what was printed last.
func (c *Chat) press(ctx context.Context, user talk.User, text string) (refused bool) {
	n, err := strconv.Atoi(text)
	if err != nil {
		return c.refuse(ctx, "Say which button to press, by its number.", "press 1")
	}
	b, ok := c.screen.button(n)
	if !ok {
		return c.refuse(ctx, fmt.Sprintf("There is no button %d on what was printed last.", n), "")
	}
	return c.message(ctx, user, b.Do, false)
}

// wait moves the clock on, and sends what falls due on the way at its own time.
func (c *Chat) wait(ctx context.Context, user talk.User, text string) (refused bool) {
	now, zone := c.clock.now(), c.bot.Zone(ctx, community, c.channel, user)
	until := now
	if rest, ok := strings.CutPrefix(text, "until "); ok {
		at, err := talk.ParseWhen(rest, now, zone)
		if err != nil {
			return c.show(ctx, talk.RefusedReply(err))
		}
		until = at
	} else {
		d, err := measure.ParseDuration(text)
		if err != nil || d.Low != d.High {
			return c.refuse(ctx, "Say how long to wait, or until when.", "wait 2h, or wait until 18:00")
		}
		until = now.Add(time.Duration(d.Low) * time.Minute)
	}
	if until.Before(now) {
		return c.refuse(ctx, fmt.Sprintf("That has passed; it is %s.", now.In(zone).Format(longTime)), "wait 2h")
	}
	if until.Sub(now) > longestWait {
		return c.refuse(ctx, "That is too long to wait; at most a year at a time.", "wait 2 days")
	}
	err := c.dispatcher.Advance(ctx, now, until, c.clock.advance)
	c.clock.advance(until)
	if err != nil {
		c.log.ErrorContext(ctx, "sending reminders", "error", err)
		return c.refuse(ctx, "The reminders could not be read from the database; look at its file.", "")
	}
	c.screen.print(fmt.Sprintf("%sIt is %s.\n", indent, until.In(zone).Format(longTime)))
	return false
}

const (
	longTime    = "Mon 2 Jan 2006, 15:04"
	longestWait = 366 * 24 * time.Hour
)
