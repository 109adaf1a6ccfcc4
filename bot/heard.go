package bot

import (
	"fmt"
	"strings"
	"sync"
	"time"

	"tureen/bot/saying"
	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
)

// heard remembers what was last said to whom, so that "done" needs no name, and what they have been taught. It is not
// stored: a program that starts anew asks for the name, and its buttons hold all that they need.
type heard struct {
	mu       sync.Mutex
	said     map[hearer]spoken
	taught   map[string]bool
	readings map[hearer]waiting // whose recipe waits, and since when
}

type hearer struct {
	party planner.PartyID
	user  string
}

// spoken is the last message to somebody: what it was about, and the message that a Yes says.
type spoken struct {
	at       time.Time
	last     saying.Last
	question string
}

// mostHeard bounds what is remembered; then it is all forgotten.
const mostHeard = 8192

func (h *heard) note(t *Turn, s spoken) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.said == nil || len(h.said) > mostHeard {
		h.said = map[hearer]spoken{}
	}
	h.said[hearer{t.Party.ID, t.Request.User.ID}] = s
}

func (h *heard) last(t *Turn) spoken {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.said[hearer{t.Party.ID, t.Request.User.ID}]
}

// noteTurn remembers what a command was about.
func (h *heard) noteTurn(t *Turn) {
	s := spoken{at: t.Now, last: saying.Last{Task: string(t.values["task"].task),
		Course: string(t.values["course"].course)}}
	if s.last.Task != "" || s.last.Course != "" {
		s.last.Kind = saying.About
		h.note(t, s)
	}
}

// shorter is the short way to say what somebody has said, until they have said something so once; else empty.
func (h *heard) shorter(t *Turn, m saying.Meant, said string) string {
	if m.Short == "" {
		return ""
	}
	command, _, _ := strings.Cut(m.Do, ":")
	key := t.Request.User.ID + " " + command
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.taught == nil || len(h.taught) > mostHeard {
		h.taught = map[string]bool{}
	}
	if h.taught[key] {
		return ""
	}
	short := len(strings.Fields(said)) <= len(strings.Fields(m.Short))
	if short || strings.EqualFold(words.Fold(said), words.Fold(m.Short)) {
		h.taught[key] = true
		return ""
	}
	return fmt.Sprintf("Shorter next time: %s.", talk.Clean(m.Short, false))
}
