package standin

import (
	"strings"
	"time"
)

// File is an attachment.
type File struct {
	Name string
	Type string
	Data []byte
}

// Message is a message as it stands now.
type Message struct {
	ID         string
	Channel    string
	Content    string      `json:"content"`
	Embeds     []Embed     `json:"embeds"`
	Components []Component `json:"components"`
	Flags      int         `json:"flags"`
	Nonce      string      `json:"-"`
	Mentions   []string    `json:"-"` // the users whom it notifies
	Files      []File      `json:"-"`
	For        string      `json:"-"` // the only person who sees it; empty: everybody
	in         string      // the interaction that it answers
	By         string      `json:"-"` // whose doing it answers; empty: nobody's

	raw map[string]any
}

// Embed is a card in a message.
type Embed struct {
	Title       string `json:"title"`
	Description string `json:"description"`
	URL         string `json:"url"`
	Fields      []struct {
		Name  string `json:"name"`
		Value string `json:"value"`
	} `json:"fields"`
	Footer struct {
		Text string `json:"text"`
	} `json:"footer"`
}

// Component is a row, a button, a select or an input.
type Component struct {
	Type       int         `json:"type"`
	CustomID   string      `json:"custom_id"`
	Label      string      `json:"label"`
	Style      int         `json:"style"`
	URL        string      `json:"url"`
	Disabled   bool        `json:"disabled"`
	Components []Component `json:"components"`

	Placeholder string `json:"placeholder"`
	Value       string `json:"value"` // what a form's input holds when it opens
	Options     []Item `json:"options"`
}

// Item is one of the things that a select offers.
type Item struct {
	Label string `json:"label"`
	Value string `json:"value"`
}

// Ephemeral reports whether only one person sees the message.
func (m *Message) Ephemeral() bool { return m.Flags&flagEphemeral != 0 }

// Buttons lists the buttons in order.
func (m *Message) Buttons() []Component {
	var out []Component
	for _, r := range m.Components {
		for _, c := range r.Components {
			if c.Type == kindButton {
				out = append(out, c)
			}
		}
	}
	return out
}

// Items lists what the message's selects offer, in order.
func (m *Message) Items() []Item {
	var out []Item
	for _, r := range m.Components {
		for _, c := range r.Components {
			out = append(out, c.Options...)
		}
	}
	return out
}

// Text is everything that can be read in the message: content, embeds and text files.
func (m *Message) Text() string {
	var parts []string
	add := func(s string) {
		if s != "" {
			parts = append(parts, s)
		}
	}
	add(m.Content)
	for _, e := range m.Embeds {
		add(e.Title)
		add(e.Description)
		for _, f := range e.Fields {
			add(f.Name)
			add(f.Value)
		}
		add(e.Footer.Text)
	}
	for _, f := range m.Files {
		if strings.HasPrefix(f.Type, "text/") || strings.HasSuffix(f.Name, ".txt") {
			add(string(f.Data))
		}
	}
	return strings.Join(parts, "\n")
}

// take puts the fields of a body into the message; what the body leaves out stays.
func (m *Message) take(body map[string]any, files []File) {
	if m.raw == nil {
		m.raw = map[string]any{}
	}
	for _, k := range []string{"content", "embeds", "components", "flags"} {
		if v, ok := body[k]; ok {
			m.raw[k] = v
		}
	}
	m.Content, m.Embeds, m.Components, m.Flags = "", nil, nil, 0
	if err := plain(m.raw, m); err != nil {
		panic("stand-in: a body that was validated does not decode: " + err.Error())
	}
	remember(m.Text())
	if s, ok := body["nonce"].(string); ok {
		m.Nonce = s
	}
	if files != nil {
		m.Files = files
	}
	m.Mentions = nil
	for _, u := range items(object(body["allowed_mentions"])["users"]) {
		if id := text(u); strings.Contains(m.Content, "<@"+id+">") {
			m.Mentions = append(m.Mentions, id)
		}
	}
}

// wire is the message as the platform sends it.
func (m *Message) wire() map[string]any {
	out := map[string]any{"id": m.ID, "channel_id": m.Channel, "author": self,
		"timestamp":        time.Now().UTC().Format(time.RFC3339),
		"edited_timestamp": nil, "tts": false, "type": 0, "content": m.Content, "embeds": []any{}, "components": []any{},
		"flags":    m.Flags,
		"mentions": []any{}, "attachments": []any{}, "pinned": false, "mention_everyone": false, "mention_roles": []any{}}
	for _, k := range []string{"embeds", "components"} {
		if v, ok := m.raw[k].([]any); ok {
			out[k] = v
		}
	}
	if m.By != "" {
		out["interaction_metadata"] = map[string]any{"id": m.in, "type": 2,
			"authorizing_integration_owners": map[string]any{},
			"user": map[string]any{"id": m.By, "username": "someone", "discriminator": "0",
				"avatar": nil}}
	}
	return out
}

// message makes a message in a channel. The caller holds mu.
func (s *Server) message(c *channel, body map[string]any, files []File) *Message {
	m := &Message{ID: s.id(), Channel: c.id}
	m.take(body, files)
	c.messages = append(c.messages, m)
	s.notify()
	return m
}
