package discord

import (
	"context"
	"encoding/json"
	"slices"
	"strings"

	"tureen/bot/talk"
)

// Who writes to the bot and not a command, by a direct message or with a mention, is heard: the platform hands over
// the text of just those messages without a privileged intent. A recipe's text, or a file, is read as /recipe read
// would; anything of one line is what somebody says in words of their own.

// writtenTo is a message as far as it matters here.
type writtenTo struct {
	ID      string `json:"id"`
	Channel string `json:"channel_id"`
	Guild   string `json:"guild_id"`
	Type    int    `json:"type"`
	Content string `json:"content"`
	Webhook string `json:"webhook_id"`
	Author  struct {
		person
		Bot bool `json:"bot"`
	} `json:"author"`
	Member struct {
		Nick string `json:"nick"`
	} `json:"member"`
	Mentions    []person     `json:"mentions"`
	Attachments []attachment `json:"attachments"`
	Answers     *struct {
		Components []component `json:"components"`
	} `json:"referenced_message"`
}

// Message types of what people write: page resources/message.
const (
	typeWritten = 0
	typeAnswer  = 19
)

// written takes a message that was written where the bot is.
func (f *Face) written(data json.RawMessage) {
	var m writtenTo
	if err := json.Unmarshal(data, &m); err != nil {
		f.log.Error("a message cannot be read", "error", err)
		return
	}
	self := f.self()
	if m.Author.Bot || m.Author.ID == self || m.Webhook != "" || m.Type != typeWritten && m.Type != typeAnswer ||
		m.Guild != "" && !slices.ContainsFunc(m.Mentions, func(p person) bool { return p.ID == self }) {
		return
	}
	f.mu.Lock()
	first := f.known.first(m.ID)
	f.mu.Unlock()
	if first {
		f.spawn("message", func() { f.answerWritten(&m, self) })
	}
}

// answerWritten reads the recipe of a message, and answers in its channel.
func (f *Face) answerWritten(m *writtenTo, self string) {
	ctx, cancel := context.WithTimeout(f.ctx, f.time.workWithin)
	defer cancel()
	i := interaction{Guild: m.Guild, Channel: m.Channel, User: &m.Author.person}
	req := i.request()
	for _, p := range m.Mentions {
		req.Names[p.ID] = p.shown()
	}
	if m.Member.Nick != "" {
		req.User.Name = m.Member.Nick
	}
	text := strings.TrimSpace(strings.NewReplacer("<@"+self+">", "", "<@!"+self+">", "").Replace(m.Content))
	req.Command = "recipe read"
	var rep talk.Reply
	one := text != "" && !strings.Contains(text, "\n") && len(text) <= longMessage
	switch {
	case len(m.Attachments) == 0 && one && (strings.HasPrefix(text, "/") || !strings.Contains(text, ": ")):
		f.withPlaces(ctx, &req)
		req.Command = ""
		if rep = f.bot.Say(ctx, req, text, m.answered()...); rep.Text == "" {
			return // small talk
		}
	case len(m.Attachments) > 0:
		if err := f.fetch(ctx, &req, map[string]attachment{"file": m.Attachments[0]}); err != nil {
			rep = talk.RefusedReply(err)
		} else {
			rep = f.do(ctx, req)
		}
	case strings.Contains(text, "\n") || strings.Contains(text, ": ") || len(text) > longMessage:
		req.Options["text"] = text
		rep = f.do(ctx, req)
	default:
		rep = talk.Reply{Text: "Type / to see what I can do. A recipe that you send me like this, as text or as a file, I " +
			"read.", Next: "/recipe read opens a form for one; /help shows the way"}
	}
	where := m.Channel
	if rep.Private && m.Guild != "" { // a message cannot be seen by one alone: theirs comes directly
		if direct, err := f.directChannel(ctx, m.Author.ID); err == nil {
			where = direct
		} else {
			rep = talk.Reply{Text: "That is for your eyes alone, and you take no direct messages from here: type it as a " +
				"command, with /."}
		}
	}
	d := f.draw(rep)
	d.Nonce, d.Enforce, d.Flags = m.ID, true, d.Flags&^flagEphemeral
	d.quietly()
	err := f.rest.send(withSending(ctx, &sending{repeatable: true}), "POST", "channels/"+where+"/messages", d.message,
		d.files, nil)
	if err != nil {
		f.log.Warn("a message is not answered", "error", err)
	}
}

// answered are the messages of the buttons on the message that this one answers.
func (m *writtenTo) answered() (out []string) {
	if m.Answers == nil {
		return nil
	}
	for _, row := range m.Answers.Components {
		for _, c := range row.Components {
			if do, ok := said(c.CustomID); ok {
				out = append(out, do)
			}
		}
	}
	return out
}

// longMessage is from how many bytes on a message of one line is taken for a recipe.
const longMessage = 200
