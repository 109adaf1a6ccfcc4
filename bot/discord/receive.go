package discord

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"tureen/bot/talk"
)

// Permissions of a member that make an administrator: page topics/permissions.
const adminBits = 1<<3 | 1<<5 // administrator, manage the community

// directPrefix begins the name of the community that a person's direct messages are.
const directPrefix = "dm:"

// maxAttachment is the largest file that is fetched.
const maxAttachment = 8 << 20

var mention = regexp.MustCompile(`^<@!?(\d+)>$`)

// request is who asks, and where.
func (i *interaction) request() talk.Request {
	r := talk.Request{Community: i.Guild, Channel: i.Channel, Narrow: true, Pictures: true,
		Options: map[string]string{}, Files: map[string]talk.File{}}
	who := i.User
	name := ""
	if i.Member != nil {
		who = &i.Member.User
		name = i.Member.Nick
		bits, _ := strconv.ParseUint(i.Member.Permissions, 10, 64)
		r.User.Admin = bits&adminBits != 0
	}
	if who != nil {
		r.User.ID = who.ID
		for _, n := range []string{who.GlobalName, who.Username, who.ID} {
			if name == "" {
				name = n
			}
		}
	}
	r.User.Name = name
	if i.Where.Type >= threadNews && i.Where.Type <= threadPrivate {
		r.Parent = i.Where.Parent
	}
	if r.Community == "" {
		r.Community = directPrefix + i.Channel
	}
	return r
}

// command reads a command with its options. focused is the option that is being typed.
func (f *Face) command(i *interaction) (req talk.Request, files map[string]attachment, focused, typed string) {
	req = i.request()
	files = map[string]attachment{}
	req.Command = i.Data.Name
	options := i.Data.Options
	if len(options) == 1 && options[0].Type == optionSub {
		req.Command += " " + options[0].Name
		options = options[0].Options
	}
	all := f.bot.Commands()
	n := slices.IndexFunc(all, func(c talk.Command) bool { return c.Name == req.Command })
	for _, o := range options {
		kind := talk.Text
		if n >= 0 {
			if at := slices.IndexFunc(all[n].Options, func(x talk.Option) bool { return x.Name == o.Name }); at >= 0 {
				kind = all[n].Options[at].Kind
			}
		}
		text := valueText(o.Value)
		if o.Focused {
			focused, typed = o.Name, text
			continue
		}
		if kind == talk.FileOption {
			if a, ok := i.Data.Resolved.Attachments[text]; ok {
				files[o.Name] = a
				continue
			}
		}
		switch kind {
		case talk.LongText:
			text = strings.ReplaceAll(text, `\n`, "\n") // a command's option is one line at a client
		case talk.PersonOption, talk.Text:
			if m := mention.FindStringSubmatch(strings.TrimSpace(text)); m != nil {
				text = "@" + m[1]
			}
		}
		req.Options[o.Name] = text
	}
	return req, files, focused, typed
}

// valueText is an option's value as one would type it.
func valueText(raw json.RawMessage) string {
	var v any
	if json.Unmarshal(raw, &v) != nil {
		return ""
	}
	switch v := v.(type) {
	case string:
		return v
	case bool:
		if v {
			return "yes"
		}
		return "no"
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return ""
}

// fetch gets the attachments of a request. The bot's token is not sent along. The error is a *[talk.Refusal].
func (f *Face) fetch(ctx context.Context, req *talk.Request, files map[string]attachment) error {
	for name, a := range files {
		if a.Size > maxAttachment {
			return &talk.Refusal{Text: fmt.Sprintf("%s is too large; attach a file of at most %d MB.", a.Filename,
				maxAttachment>>20)}
		}
		data, err := f.download(ctx, a.URL)
		if err != nil {
			f.log.Warn("attachment not fetched", "error", plainError(err))
			return &talk.Refusal{Text: "Discord did not hand over the file; attach it again."}
		}
		req.Files[name] = talk.File{Name: a.Filename, Type: a.ContentType, Data: data}
	}
	return nil
}

// Hosts on which the platform keeps files.
var fileHosts = []string{"cdn.discordapp.com", "media.discordapp.net"}

func (f *Face) download(ctx context.Context, address string) ([]byte, error) {
	u, err := url.Parse(address)
	if err != nil {
		return nil, err
	}
	standIn := f.guard.api != nil && isLoopback(u.Hostname())
	if !standIn && (u.Scheme != "https" || !slices.Contains(fileHosts, u.Host)) {
		return nil, errors.New("an attachment from a foreign host")
	}
	ctx, cancel := context.WithTimeout(ctx, f.time.callWithin)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, address, nil)
	if err != nil {
		return nil, err
	}
	resp, err := f.files.Do(req)
	if err != nil {
		return nil, err
	}
	defer resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("status %d", resp.StatusCode)
	}
	data, err := io.ReadAll(io.LimitReader(resp.Body, maxAttachment+1))
	if err == nil && len(data) > maxAttachment {
		err = errors.New("larger than it was said to be")
	}
	return data, err
}

const placePrefix = "https://discord.com/channels/"

// placeURL is the address of a channel.
func placeURL(guild, channel string) string { return placePrefix + guild + "/" + channel }

// isID reports whether a text is an id of the platform's.
func isID(s string) bool {
	_, err := strconv.ParseUint(s, 10, 64)
	return err == nil
}

// seen remembers interactions for a while, since the platform may send one twice.
type seen struct {
	at  map[string]time.Time
	old []string
}

// first reports whether an id has not been seen before. It keeps the last 4096.
func (s *seen) first(id string) bool {
	if s.at == nil {
		s.at = map[string]time.Time{}
	}
	if _, there := s.at[id]; there {
		return false
	}
	s.at[id] = time.Now()
	s.old = append(s.old, id)
	if len(s.old) > 4096 {
		delete(s.at, s.old[0])
		s.old = s.old[1:]
	}
	return true
}
