package standin

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Person is somebody at a client, in a channel.
type Person struct {
	ID    string
	Name  string
	Guild string // empty in direct messages
	Where string // the channel
	Admin bool
	// Locale is the language of the person's client; empty: English. What they type then are the names in that
	// language, where a command has one; the bot gets those that it has registered.
	Locale string

	s *Server
}

// answerWithin is how long a person waits for an answer that they can see.
const answerWithin = time.Minute

// Person makes somebody who sits in a channel of a guild.
func (s *Server) Person(name, guild, channel string) *Person {
	s.mu.Lock()
	defer s.mu.Unlock()
	p := &Person{ID: s.id(), Name: name, Guild: guild, Where: channel, s: s}
	s.join(guild, p.ID)
	s.names[p.ID] = name
	return p
}

// join makes somebody a member. The caller holds mu.
func (s *Server) join(guild, user string) {
	if s.members[guild] == nil {
		s.members[guild] = map[string]bool{}
	}
	s.members[guild][user] = true
}

// mutual reports whether somebody is in any guild that the bot is in. The caller holds mu.
func (s *Server) mutual(user string) bool {
	for _, in := range s.members {
		if in[user] {
			return true
		}
	}
	return false
}

// Leave takes the person out of the guild. Bots that asked for the intent are told.
func (p *Person) Leave() {
	p.s.mu.Lock()
	delete(p.s.members[p.Guild], p.ID)
	p.s.mu.Unlock()
	p.s.Dispatch("GUILD_MEMBER_REMOVE", map[string]any{"guild_id": p.Guild,
		"user": map[string]any{"id": p.ID, "username": strings.ToLower(p.Name)}})
}

// Rejoin brings the person back into the guild.
func (p *Person) Rejoin() {
	p.s.mu.Lock()
	p.s.join(p.Guild, p.ID)
	p.s.mu.Unlock()
	p.s.Dispatch("GUILD_MEMBER_ADD", map[string]any{"guild_id": p.Guild,
		"user": map[string]any{"id": p.ID, "username": strings.ToLower(p.Name)}})
}

// OpenThread opens a thread in the person's channel, as people do by themselves, and answers its id.
func (p *Person) OpenThread(name string) string {
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	c := p.s.channel(p.Guild, "")
	c.parent, c.name = p.Where, name
	return c.id
}

// In is the same person in a channel of a guild, of which they become a member.
func (p *Person) In(guild, channel string) *Person {
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	q := *p
	q.Guild, q.Where = guild, channel
	p.s.join(guild, p.ID)
	return &q
}

// InDirect is the same person in their direct messages with the bot.
func (p *Person) InDirect() *Person {
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	q := *p
	q.Guild, q.Where = "", p.s.direct(p.ID).id
	return &q
}

// CloseMessages makes the person's client refuse direct messages, or accept them again.
func (p *Person) CloseMessages(closed bool) {
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	p.s.direct(p.ID).closed = closed
}

// Messages lists the messages of the channel that the person can see, the oldest first.
func (p *Person) Messages() []Message {
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	var out []Message
	if c := p.s.channels[p.Where]; c != nil {
		for _, m := range c.messages {
			if m.For == "" || m.For == p.ID {
				out = append(out, *m)
			}
		}
	}
	return out
}

// WaitMessages waits until the person sees at least n messages, and answers those there are.
func (p *Person) WaitMessages(n int, within time.Duration) []Message {
	p.s.Wait(within, func() bool {
		seen := 0
		if c := p.s.channels[p.Where]; c != nil {
			for _, m := range c.messages {
				if m.For == "" || m.For == p.ID {
					seen++
				}
			}
		}
		return seen >= n
	})
	return p.Messages()
}

// Answer is what came of something that a person did.
type Answer struct {
	Message *Message // what is seen in the end; nil when nothing is
	More    []Message
	Modal   *Modal
	Choices []Choice
	Acked   time.Duration // from the event to the first answer
	Refused string        // what the person's own client found wrong; nothing was sent
	Silent  bool          // the bot did not answer in time
}

// Text is all that can be read in an answer.
func (a Answer) Text() string {
	if a.Message == nil {
		return a.Refused
	}
	text := a.Message.Text()
	for i := range a.More {
		text += "\n" + a.More[i].Text()
	}
	return text
}

// Slash types a command, as "dish add", with its options as text; each is sent as the type that the
// command declares. What a client would not let a person send is refused by the answer.
func (p *Person) Slash(command string, options map[string]string, files map[string]File) Answer {
	data, refused := p.commandData(command, options, files, "")
	if refused != "" {
		return Answer{Refused: refused}
	}
	return p.act(2, data, nil)
}

// Complete asks for completions of an option, as far as it is typed.
func (p *Person) Complete(command string, options map[string]string, focused, typed string) Answer {
	all := map[string]string{}
	for k, v := range options {
		all[k] = v
	}
	all[focused] = typed
	data, refused := p.commandData(command, all, nil, focused)
	if refused != "" {
		return Answer{Refused: refused}
	}
	return p.act(4, data, nil)
}

// Press presses the button with a label on a message.
func (p *Person) Press(m *Message, label string) Answer {
	for _, b := range m.Buttons() {
		if b.Label == label {
			return p.PressID(m, b.CustomID)
		}
	}
	return Answer{Refused: fmt.Sprintf("no button is called %q", label)}
}

// Choose chooses from one of a message's lists.
func (p *Person) Choose(m *Message, label string) Answer {
	for _, r := range m.Components {
		for _, c := range r.Components {
			for _, o := range c.Options {
				if o.Label == label {
					return p.ChooseID(m, c.CustomID, o.Value)
				}
			}
		}
	}
	return Answer{Refused: fmt.Sprintf("no list offers %q", label)}
}

// ChooseID chooses a value from a list with an id, which need not be on the message.
func (p *Person) ChooseID(m *Message, id, value string) Answer {
	return p.act(3, map[string]any{"custom_id": id, "component_type": kindSelect, "values": []any{value}}, m)
}

// PressID presses a button with an id, which need not be on the message.
func (p *Person) PressID(m *Message, id string) Answer {
	return p.act(3, map[string]any{"custom_id": id, "component_type": 2}, m)
}

// Submit sends a modal with its inputs filled in.
func (p *Person) Submit(modal *Modal, values map[string]string) Answer {
	var rows []any
	for _, r := range modal.Components {
		for _, c := range r.Components {
			remember(values[c.CustomID])
			rows = append(rows, map[string]any{"type": 1,
				"components": []any{map[string]any{"type": kindInput, "custom_id": c.CustomID, "value": values[c.CustomID]}}})
		}
	}
	return p.act(5, map[string]any{"custom_id": modal.CustomID, "components": rows}, nil)
}

// Raw sends an interaction of a kind with any data.
func (p *Person) Raw(kind int, data any) Answer { return p.act(kind, data, nil) }

// act sends an interaction and waits for what comes of it.
func (p *Person) act(kind int, data any, source *Message) Answer {
	i, event := p.interaction(kind, data, source)
	p.s.Dispatch("INTERACTION_CREATE", event)
	return p.Await(i)
}

// Await waits for what comes of an interaction.
func (p *Person) Await(i *Interaction) Answer {
	ok := p.s.Wait(answerWithin, func() bool { return i.done })
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	a := Answer{Modal: i.modal, Choices: i.choices, Silent: !ok}
	if !i.acked.IsZero() {
		a.Acked = i.acked.Sub(i.at)
	}
	if i.original != nil {
		m := *i.original
		a.Message = &m
	}
	for _, m := range i.more {
		a.More = append(a.More, *m)
	}
	return a
}

// Begin sends a command without waiting, for tests that do several things at once; twice sends the very
// same event two times, as the platform may.
func (p *Person) Begin(command string, options map[string]string, twice bool) *Interaction {
	data, refused := p.commandData(command, options, nil, "")
	if refused != "" {
		p.s.t.Errorf("the client refuses: %s", refused)
		return nil
	}
	i, event := p.interaction(2, data, nil)
	p.s.Dispatch("INTERACTION_CREATE", event)
	if twice {
		p.s.Dispatch("INTERACTION_CREATE", event)
	}
	return i
}

func (p *Person) interaction(kind int, data any, source *Message) (*Interaction, map[string]any) {
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	i := &Interaction{ID: p.s.id(), Channel: p.Where, User: p.ID, at: time.Now()}
	i.Token = InteractionToken + i.ID
	user := map[string]any{"id": p.ID, "username": strings.ToLower(p.Name), "global_name": p.Name, "discriminator": "0",
		"avatar": nil}
	event := map[string]any{"id": i.ID, "application_id": Application, "type": kind, "data": data, "channel_id": p.Where,
		"token": i.Token, "version": 1, "authorizing_integration_owners": map[string]any{"0": p.Guild},
		"attachment_size_limit": maxFile, "locale": p.locale(), "app_permissions": "0", "entitlements": []any{}, "context": 0}
	if c := p.s.channels[p.Where]; c != nil {
		switch {
		case c.parent != "":
			event["channel"] = map[string]any{"id": c.id, "type": 11, "parent_id": c.parent, "name": c.name}
		case c.guild == "":
			event["channel"] = map[string]any{"id": c.id, "type": 1}
		default:
			event["channel"] = map[string]any{"id": c.id, "type": 0, "parent_id": nil, "name": "party"}
		}
	}
	if p.Guild != "" {
		perms := "0"
		if p.Admin {
			perms = "8"
		}
		event["guild_id"] = p.Guild
		event["member"] = map[string]any{"user": user, "nick": nil, "roles": []any{}, "permissions": perms,
			"joined_at": "2026-01-01T00:00:00Z", "deaf": false, "mute": false}
	} else {
		event["user"], event["context"] = user, 1
	}
	if source != nil {
		for _, c := range p.s.channels { // the message as it is, not as the test remembers it
			for _, m := range c.messages {
				if m.ID == source.ID {
					source = m
				}
			}
		}
		i.source = source
		event["message"] = source.wire()
	}
	p.s.interactions[i.Token] = i
	return i, event
}

func (p *Person) locale() string {
	if p.Locale == "" {
		return "en-GB"
	}
	return p.Locale
}

// shown is what a person's client calls a command, an option or a choice.
func (p *Person) shown(named map[string]any) string {
	if word := text(object(named["name_localizations"])[p.Locale]); word != "" {
		return word
	}
	return text(named["name"])
}

// commandData builds what a client sends for a command. focused is the option that is being completed.
func (p *Person) commandData(command string, options map[string]string, files map[string]File,
	focused string) (data map[string]any, refused string) {
	words := strings.Fields(command)
	var found map[string]any
	for _, c := range p.s.Commands() {
		if len(words) > 0 && p.shown(c) == words[0] {
			found = c
		}
	}
	if found == nil {
		return nil, "the client offers no command " + command
	}
	declared := items(found["options"])
	data = map[string]any{"id": found["id"], "name": found["name"], "type": 1}
	var sub map[string]any
	if len(declared) > 0 && whole(object(declared[0])["type"]) == optSub {
		for _, v := range declared {
			if len(words) == 2 && p.shown(object(v)) == words[1] {
				sub = object(v)
			}
		}
		if sub == nil {
			return nil, "the client offers no command " + command
		}
		declared = items(sub["options"])
	} else if len(words) > 1 {
		return nil, "the client offers no command " + command
	}
	var out []any
	attached, picked := map[string]any{}, map[string]any{}
	used := 0
	for _, v := range declared {
		o := object(v)
		name := p.shown(o)
		raw, given := options[name]
		file, isFile := files[name]
		if !given && !isFile {
			if need, _ := o["required"].(bool); need && focused == "" {
				return nil, name + " is required"
			}
			continue
		}
		used++
		remember(raw)
		value, why := p.value(o, raw, name == focused)
		if whole(o["type"]) == optUser {
			if id, _ := value.(string); p.member(id) {
				picked[id] = p.s.userOf(id)
			} else if why == "" {
				why = "nobody here"
			}
		}
		if isFile {
			value, why = p.attach(file, attached), ""
		}
		if why != "" && focused == "" {
			return nil, name + ": " + why
		}
		x := map[string]any{"name": o["name"], "type": o["type"], "value": value}
		if name == focused {
			x["focused"] = true
		}
		out = append(out, x)
	}
	if used != len(options)+len(files) {
		return nil, fmt.Sprintf("the client offers no such option: %v of %s", options, command)
	}
	if sub != nil {
		out = []any{map[string]any{"name": sub["name"], "type": 1, "options": out}}
	}
	data["options"] = out
	resolve(data, "attachments", attached)
	resolve(data, "users", picked)
	return data, ""
}

// resolve hands over what options name by their ids.
func resolve(data map[string]any, kind string, all map[string]any) {
	if len(all) == 0 {
		return
	}
	if data["resolved"] == nil {
		data["resolved"] = map[string]any{}
	}
	object(data["resolved"])[kind] = all
}

// value turns text into an option's type, as a client does, or says why it does not.
func (p *Person) value(o map[string]any, raw string, typing bool) (any, string) {
	if typing {
		return raw, ""
	}
	switch whole(o["type"]) {
	case 3:
		if most := whole(o["max_length"]); most > 0 && chars(raw) > most {
			return nil, fmt.Sprintf("longer than %d", most)
		}
		if least := whole(o["min_length"]); chars(raw) < least {
			return nil, fmt.Sprintf("shorter than %d", least)
		}
		if list := items(o["choices"]); len(list) > 0 {
			for _, c := range list {
				if object(c)["value"] == raw || p.Locale != "" && p.shown(object(c)) == raw {
					return object(c)["value"], ""
				}
			}
			return nil, "no such choice"
		}
		return raw, ""
	case 4:
		n, err := strconv.Atoi(raw)
		if err != nil {
			return nil, "no whole number"
		}
		if v, ok := o["min_value"].(json.Number); ok && n < whole(v) {
			return nil, "too small"
		}
		if v, ok := o["max_value"].(json.Number); ok && n > whole(v) {
			return nil, "too big"
		}
		return n, ""
	case 5:
		switch strings.ToLower(raw) {
		case "yes", "true":
			return true, ""
		case "no", "false":
			return false, ""
		}
		return nil, "neither true nor false"
	case optUser: // a client offers its members; it is the id that it sends
		return strings.Trim(raw, "<@!>"), ""
	case 11:
		return nil, "a file is needed"
	}
	return raw, ""
}

// member reports whether somebody may be picked: who is in the person's guild, in direct messages anybody by their id.
func (p *Person) member(id string) bool {
	p.s.mu.Lock()
	defer p.s.mu.Unlock()
	return p.s.members[p.Guild][id] || p.Guild == "" && p.s.names[id] != ""
}

// userOf is an account as an interaction hands it over.
func (s *Server) userOf(id string) map[string]any {
	s.mu.Lock()
	defer s.mu.Unlock()
	return map[string]any{"id": id, "username": strings.ToLower(s.names[id]), "global_name": s.names[id],
		"discriminator": "0", "avatar": nil}
}

// attach puts a file where the bot can fetch it.
func (p *Person) attach(f File, attached map[string]any) string {
	url := p.s.Keep(f)
	id := strings.Split(strings.TrimPrefix(url, p.s.URL), "/")[2]
	attached[id] = map[string]any{"id": id, "filename": f.Name, "content_type": f.Type, "size": len(f.Data), "url": url,
		"proxy_url": url}
	return id
}

// Keep puts a file where a bot can fetch it, and answers its address.
func (s *Server) Keep(f File) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	id := s.id()
	remember(f.Name)
	s.files[id] = f
	return s.URL + "/files/" + id + "/" + f.Name
}

// Event makes an interaction without sending it, for bots that are told of them in another way.
func (p *Person) Event(kind int, data any) (*Interaction, map[string]any) {
	return p.interaction(kind, data, nil)
}
