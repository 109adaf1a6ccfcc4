package discord

import (
	"context"
	"crypto/sha256"
	"encoding/base32"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot"
	"tureen/bot/talk"
	"tureen/reminders"
	"tureen/store"
)

// deliveryError is why a note was not delivered.
type deliveryError struct {
	err   error
	sure  bool // it has not arrived
	after time.Duration
}

func (e *deliveryError) Error() string { return e.err.Error() }

// Unwrap adds reminders.ErrNotSent where that is certain.
func (e *deliveryError) Unwrap() []error {
	if e.sure {
		return []error{e.err, reminders.ErrNotSent}
	}
	return []error{e.err}
}

// RetryAfter implements [reminders.RetryAfter].
func (e *deliveryError) RetryAfter() time.Duration { return e.after }

func failed(err error) error {
	e := &deliveryError{err: err, sure: certain(err)}
	var l *limitedError
	if errors.As(err, &l) {
		e.after = l.wait
	}
	return e
}

// keyMark is a note's key as it stands in its buttons, to be found in a channel's history.
func keyMark(key string) string {
	sum := sha256.Sum256([]byte(key))
	return strings.ToLower(base32.StdEncoding.EncodeToString(sum[:]))[:keyLength]
}

// way is one way to a person.
type way struct {
	direct  bool
	channel string
	mention string // whom to notify there; empty: nobody
}

// Deliver implements [reminders.Deliverer].
func (f *Face) Deliver(ctx context.Context, n reminders.Note) (posted string, err error) {
	if n.Edits != "" {
		return n.Edits, f.change(ctx, n)
	}
	posted, err = f.deliver(ctx, n)
	f.counts.reminded(n, err)
	return posted, err
}

// change makes a message that was sent say what it should now. It stands where it stood, and rings nowhere.
func (f *Face) change(ctx context.Context, n reminders.Note) error {
	channel, id, ok := strings.Cut(n.Edits, "/")
	if !ok || !isID(channel) || !isID(id) {
		return reminders.ErrUndeliverable
	}
	w := way{channel: channel, direct: n.Person != nil && channel != n.Channel}
	f.mu.Lock()
	back, pressed := f.wayBack[id]
	f.mu.Unlock()
	if pressed {
		n.Buttons = append(slices.Clone(n.Buttons), store.Press{Label: back.Label, Do: back.Do})
	}
	m := drawNote(n, w).message
	m.Nonce, m.Enforce, m.Flags = "", false, 0
	err := f.rest.do(withSending(ctx, &sending{repeatable: true}), "PATCH", "channels/"+channel+"/messages/"+id, m, nil)
	if codeOf(err) == codeUnknownMessage || closed(err) {
		return fmt.Errorf("%w: the message to change is gone", reminders.ErrUndeliverable)
	}
	if err != nil {
		return failed(err)
	}
	return nil
}

// deliver brings a note: by direct message to those who prefer that, with the party's
// channel as the way out, and in the channel with a mention to the others, with a direct message as theirs.
func (f *Face) deliver(ctx context.Context, n reminders.Note) (posted string, err error) {
	chat := ""
	if n.Person != nil && isID(n.Person.Chat) {
		chat = n.Person.Chat
	}
	channel := n.Channel
	if c, ok := strings.CutPrefix(string(n.Community), directPrefix); ok {
		channel = c
	}
	if chat != "" && f.gone(ctx, string(n.Community), chat) {
		f.left(ctx, string(n.Community), chat)
		chat = "" // the others read in the channel what was to be done
	}
	var ways []way
	if isID(channel) {
		ways = append(ways, way{channel: channel, mention: chat})
	}
	if chat != "" {
		direct := way{direct: true}
		if n.Person.Direct || reminders.ForOne(n.Kind) {
			ways = append([]way{direct}, ways...)
		} else {
			ways = append(ways, direct)
		}
	}
	if len(ways) == 0 {
		return "", fmt.Errorf("%w: the party has no channel on Discord, and its person no account there",
			reminders.ErrUndeliverable)
	}
	for _, w := range ways {
		if w.direct {
			if w.channel, err = f.directChannel(ctx, chat); err != nil {
				if closed(err) {
					continue
				}
				return "", failed(err)
			}
		}
		id := ""
		if id, err = f.deliverTo(ctx, n, w); err == nil {
			return w.channel + "/" + id, nil
		}
		if !closed(err) {
			return "", failed(err)
		}
		f.log.Info("reminder goes another way", "key", n.Key, "direct", w.direct, "code", codeOf(err))
	}
	// A channel that is gone may be followed by another one that a host chooses: it is worth trying on.
	return "", failed(err)
}

// tell brings to somebody what they hear of another's doing.
func (f *Face) tell(community string, m talk.Told) {
	n := reminders.Note{Key: m.Key, Community: store.Community(community), Channel: m.Party.Channel, Party: m.Party.ID,
		PartyName: m.Party.Name, Person: &m.To, Text: m.Text}
	for _, b := range m.Buttons {
		n.Buttons = append(n.Buttons, store.Press{Label: b.Label, Do: b.Do})
	}
	if _, err := f.deliver(f.ctx, n); err != nil {
		f.log.Warn("somebody is not told", "code", codeOf(err), "error", err)
	}
}

// closed reports whether a way is shut for good, and another one should be taken.
func closed(err error) bool {
	switch codeOf(err) {
	case codeMessagesClosed, codeNoMutualGuild, codeUnknownUser, codeUnknownChannel, codeMissingAccess,
		codeMissingPermission, codeDMsTooFast:
		return true
	}
	return false
}

// deliverTo sends a note, or finds it sent, and answers the message's id.
func (f *Face) deliverTo(ctx context.Context, n reminders.Note, w way) (id string, err error) {
	if n.MaybeRepeat {
		id, err := f.arrived(ctx, w.channel, n.Key)
		switch {
		case id != "":
			return id, nil
		case closed(err):
			n = n.AsRepeat() // the history may not be read
		case err != nil:
			return "", err
		}
	}
	m := drawNote(n, w)
	// The platform answers a nonce that it has had with the message it had, for some minutes.
	ctx = withSending(ctx, &sending{repeatable: true})
	var made posted
	err = f.rest.send(ctx, "POST", "channels/"+w.channel+"/messages", m.message, m.files, &made)
	return made.ID, err
}

// drawNote makes a reminder's message: the first line says what to do, to whoever it is for.
func drawNote(n reminders.Note, w way) drawn {
	rep := bot.NoteReply(n)
	if len(rep.Buttons) == 0 { // a key stands in a button, or it could not be found again
		rep.Buttons = []talk.Button{{Label: "What now?", Do: fmt.Sprintf("now party:%d", n.Party)}}
	}
	d := drawWith(rep, func(line string) string { return line })
	head, tail, more := strings.Cut(n.Text, "\n")
	head = worded(head)
	switch {
	case w.mention != "" && n.Silent:
		head = "<@" + w.mention + "> " + head // it is named, and not called
	case w.mention != "":
		head = "<@" + w.mention + "> " + head
		d.Mentions.Users = []string{w.mention}
	case n.Person != nil && !w.direct:
		head = escape(n.Person.Name) + ": " + head
	}
	for _, x := range n.Serves {
		if isID(x.Chat) && !w.direct {
			head = "<@" + x.Chat + "> " + head
			d.Mentions.Users = append(d.Mentions.Users, x.Chat)
		}
	}
	d.Content = head
	if more {
		d.Content += "\n" + marked(tail)
	}
	d.Content = fit(d.Content, maxContent)
	d.Components = buttonRows(rep.Buttons, remindID(n.Key))
	if w.direct && isID(string(n.Community)) && isID(n.Channel) && len(d.Components) < maxRows {
		d.Components = append(d.Components, component{Type: componentRow, Components: []component{
			{Type: componentButton, Style: styleLink, Label: cut("Open "+n.PartyName, maxLabel),
				URL: placeURL(string(n.Community), n.Channel)}}})
	}
	d.Nonce, d.Enforce = n.Key, true
	switch {
	case n.Silent:
		d.Flags = flagSilent
	case !w.direct:
		d.quietly()
	}
	return d
}

// directChannel finds a person's channel of direct messages.
func (f *Face) directChannel(ctx context.Context, user string) (string, error) {
	f.mu.Lock()
	id := f.direct[user]
	f.mu.Unlock()
	if id != "" {
		return id, nil
	}
	var c struct{ ID string }
	// Opening a channel that is open answers that one.
	ctx = withSending(ctx, &sending{repeatable: true})
	if err := f.rest.do(ctx, "POST", "users/@me/channels", map[string]string{"recipient_id": user}, &c); err != nil {
		return "", err
	}
	f.mu.Lock()
	f.direct[user] = c.ID
	f.mu.Unlock()
	return c.ID, nil
}

// arrived looks for a note's key among a channel's latest messages, and answers the id of the one that has it.
func (f *Face) arrived(ctx context.Context, channel, key string) (id string, err error) {
	var list []posted
	if err := f.rest.do(ctx, "GET", "channels/"+channel+"/messages?limit=100", nil, &list); err != nil {
		return "", err
	}
	mark := keyMark(key) + ":"
	for _, m := range list {
		if self := f.self(); self != "" && m.Author.ID != self {
			continue
		}
		for _, row := range m.Components {
			for _, c := range row.Components {
				if strings.HasPrefix(c.CustomID, string(rune(kindRemind))) && strings.Contains(c.CustomID, mark) {
					return m.ID, nil
				}
			}
		}
	}
	return "", nil
}
