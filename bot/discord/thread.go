package discord

import (
	"context"
	"strings"

	"tureen/bot/talk"
)

// weekIdle is after how many minutes without a word the platform folds a thread away; a message opens it again.
const weekIdle = 7 * 24 * 60

// newThread is the body that asks for a thread: page resources/channel.
type newThread struct {
	Name string `json:"name"`
	Type int    `json:"type"`
	Idle int    `json:"auto_archive_duration"`
}

// opener opens a thread in a channel, once, whatever it is asked.
func (f *Face) opener(channel string) func(context.Context, string) (string, error) {
	opened := ""
	return func(ctx context.Context, name string) (string, error) {
		if opened != "" {
			return opened, nil
		}
		if name = strings.TrimSpace(cut(name, 100)); name == "" {
			name = "Party"
		}
		var c struct{ ID string }
		// Not repeated when it is doubtful: a second thread would be worse than a sentence.
		err := f.rest.do(ctx, "POST", "channels/"+channel+"/threads", newThread{name, threadPublic, weekIdle}, &c)
		if err != nil {
			f.log.Info("thread not opened", "code", codeOf(err), "error", err)
			return "", threadRefusal(err)
		}
		opened = c.ID
		return opened, nil
	}
}

// threadRefusal says why a thread could not be opened, and what to do.
func threadRefusal(err error) error {
	switch codeOf(err) {
	case codeMissingAccess, codeMissingPermission:
		return &talk.Refusal{Text: "I may not open threads in this channel: it takes the permissions to create public " +
			"threads and to send messages in threads.",
			Try: "/party here, in a thread that you have opened"}
	case codeWrongChannel:
		return &talk.Refusal{Text: "No thread can be opened here.", Try: "/party here"}
	case codeMostThreads:
		return &talk.Refusal{Text: "This community has as many threads as it may have; fold some away first.",
			Try: "/party here"}
	}
	return &talk.Refusal{Text: "Discord did not open a thread. Look whether it is there all the same: then say /party " +
		"here in it.", Try: "/party here"}
}

// showIn puts the card of the party that a request was about into its new channel.
func (f *Face) showIn(channel string, req talk.Request) {
	rep := f.bot.Do(f.ctx, talk.Request{Community: req.Community, Channel: channel, User: req.User, Command: "party show",
		Options: map[string]string{}})
	if rep.Refused {
		f.log.Warn("no card for the new thread", "refused", rep.Refused)
		return
	}
	d := f.draw(rep)
	d.quietly()
	if err := f.rest.send(f.ctx, "POST", "channels/"+channel+"/messages", d.message, d.files, nil); err != nil {
		f.log.Warn("no card in the new thread", "error", err)
	}
}
