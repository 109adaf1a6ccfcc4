package standin

import (
	"net/http"
	"time"
)

// Interaction is something that a person did, and what the bot has answered so far. It is read through
// [Server.Wait] or after the call that made it has returned.
type Interaction struct {
	ID, Token, Channel, User string

	at       time.Time
	acked    time.Time
	source   *Message // whose button was pressed
	deferred bool
	original *Message // the answer
	more     []*Message
	modal    *Modal
	choices  []Choice
	done     bool // something has come that a person can see
}

// Modal is a form that the bot has opened.
type Modal struct {
	CustomID   string      `json:"custom_id"`
	Title      string      `json:"title"`
	Components []Component `json:"components"`
}

// Choice is an offer for completion.
type Choice struct {
	Name  string `json:"name"`
	Value any    `json:"value"`
}

// postCallback takes the first answer: in time, and once.
func (s *Server) postCallback(w http.ResponseWriter, r *request) {
	if !s.checked(w, r, checkCallback(r.body, len(r.files))) {
		return
	}
	body := object(r.body)
	data := object(body["data"])
	s.mu.Lock()
	defer s.mu.Unlock()
	i := s.interactions[r.PathValue("token")]
	switch {
	case i == nil || i.ID != r.PathValue("id"):
		errNoInteraction.write(w)
		return
	case !i.acked.IsZero():
		errAcknowledged.write(w)
		return
	case time.Since(i.at) > s.AckWithin:
		errNoInteraction.write(w)
		return
	}
	i.acked = time.Now()
	c := s.channels[i.Channel]
	switch kind := whole(body["type"]); kind {
	case 4, 5:
		i.deferred, i.done = kind == 5, kind == 4
		if data == nil {
			data = map[string]any{}
		}
		m := &Message{ID: s.id(), Channel: i.Channel, By: i.User, in: i.ID}
		m.take(data, r.files)
		if m.Ephemeral() {
			m.For = i.User
		}
		i.original = m
		if c != nil && kind == 4 {
			c.messages = append(c.messages, m)
		}
	case 6:
		i.original = i.source // nothing is seen before it is edited, or followed up
	case 7:
		i.done, i.original = true, i.source
		if i.source != nil {
			i.source.take(data, r.files)
		}
	case 8:
		i.done = true
		plain(data["choices"], &i.choices)
	case 9:
		i.done, i.modal = true, &Modal{}
		plain(data, i.modal)
	}
	s.notify()
	// discord.js crashes on a Content-Type here.
	w.WriteHeader(http.StatusNoContent)
}

// alive finds the interaction of a token that still lives, after its first answer.
func (s *Server) alive(w http.ResponseWriter, r *request) *Interaction {
	i := s.interactions[r.PathValue("token")]
	switch {
	case i == nil || i.acked.IsZero():
		errNoWebhook.write(w)
		return nil
	case time.Since(i.at) > s.TokenLife:
		errInvalidToken.write(w)
		return nil
	}
	return i
}

// postFollowUp adds a message. The first one after a deferred answer takes that one's visibility, as on
// the platform.
func (s *Server) postFollowUp(w http.ResponseWriter, r *request) {
	if !s.checked(w, r, checkMessage(defFollowUp, r.body, len(r.files))) {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	i := s.alive(w, r)
	if i == nil {
		return
	}
	c := s.channels[i.Channel]
	if c == nil {
		errNoChannel.write(w)
		return
	}
	m := s.message(c, object(r.body), r.files)
	m.By, m.in = i.User, i.ID
	if i.deferred {
		m.Flags = m.Flags&^flagEphemeral | i.original.Flags&flagEphemeral
		i.deferred, i.original = false, m
	} else {
		i.more = append(i.more, m)
	}
	if m.Ephemeral() {
		m.For = i.User
	}
	i.done = true
	s.notify()
	writeJSON(w, 200, m.wire())
}

func (s *Server) getOriginal(w http.ResponseWriter, r *request) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if i := s.alive(w, r); i != nil {
		if i.original == nil {
			errNoMessage.write(w)
			return
		}
		writeJSON(w, 200, i.original.wire())
	}
}

func (s *Server) patchOriginal(w http.ResponseWriter, r *request) {
	if !s.checked(w, r, checkMessage(defEdit, r.body, len(r.files))) {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	i := s.alive(w, r)
	if i == nil {
		return
	}
	m := i.original
	if m == nil || r.PathValue("message") != "@original" && r.PathValue("message") != m.ID {
		errNoMessage.write(w)
		return
	}
	flags, here := m.raw["flags"], i.deferred
	m.take(object(r.body), r.files)
	if flags != nil { // visibility is fixed by the first answer
		m.raw["flags"] = flags
		m.Flags = whole(flags)
	}
	if c := s.channels[i.Channel]; c != nil && here {
		c.messages = append(c.messages, m)
	}
	i.deferred, i.done = false, true
	s.notify()
	writeJSON(w, 200, m.wire())
}

func (s *Server) deleteOriginal(w http.ResponseWriter, r *request) {
	s.mu.Lock()
	defer s.mu.Unlock()
	i := s.alive(w, r)
	if i == nil {
		return
	}
	if i.original == nil {
		errNoMessage.write(w)
		return
	}
	if c := s.channels[i.Channel]; c != nil {
		for n, m := range c.messages {
			if m == i.original {
				c.messages = append(c.messages[:n:n], c.messages[n+1:]...)
				break
			}
		}
	}
	i.original = nil
	s.notify()
	w.WriteHeader(http.StatusNoContent)
}
