package standin

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// Token is the only bot token that a server accepts.
const Token = "a-stand-in-has-no-secrets.no-key.not-a-secret-0123456789"

// Application is the id of the bot's application, and of its user.
const Application = "900000000000000001"

// Server is the platform. Its exported fields are set before a bot connects.
type Server struct {
	URL string // of everything: pass it as the API's address

	AckWithin time.Duration // for the first answer to an interaction; 0: the platform's 3 s
	TokenLife time.Duration // of an interaction's token; 0: the platform's 15 min
	NonceLife time.Duration // how long enforce_nonce is honoured; 0: 3 min
	// MembersIntent says that the application's page allows the privileged intent for members.
	MembersIntent bool
	// Permissions are what the bot may do in communities; 0: all.
	Permissions uint64
	Clock       func() time.Time // what the answers' Date says; nil: the time

	t    testing.TB
	http *httptest.Server
	stop chan struct{}

	mu           sync.Mutex
	changed      chan struct{} // closed and replaced whenever something changes that a person might see
	nextID       int64
	later        int64 // milliseconds that ids are ahead of their time, so that each shard gets some
	commands     []map[string]any
	registered   int // bulk overwrites
	channels     map[string]*channel
	interactions map[string]*Interaction // by token
	faults       []*Fault
	limits       map[string]*limit
	blockedUntil time.Time // of a global limit
	calls        map[string]int
	files        map[string]File
	members      map[string]map[string]bool // by guild: the people in it
	names        map[string]string          // of people, by id
	gate         gate
}

// channel is a place where messages are.
type channel struct {
	id, guild string
	parent    string // for a thread
	name      string // of a thread
	with      string // for a direct message: the person
	closed    bool   // messages are refused with 50007
	denied    uint64 // permissions that everybody lacks here
	messages  []*Message
	nonces    map[string]sentNonce
}

type sentNonce struct {
	message *Message
	at      time.Time
}

// New starts a server, which stops when the test ends.
func New(t testing.TB) *Server {
	s := &Server{
		t: t, stop: make(chan struct{}), changed: make(chan struct{}), nextID: 1,
		AckWithin: 3 * time.Second, TokenLife: 15 * time.Minute, NonceLife: 3 * time.Minute,
		channels: map[string]*channel{}, interactions: map[string]*Interaction{}, limits: map[string]*limit{},
		calls: map[string]int{}, files: map[string]File{}, members: map[string]map[string]bool{}, names: map[string]string{},
	}
	s.gate.conns = map[*conn]bool{}
	s.gate.sessions = map[string]*session{}
	s.gate.Heartbeat = 20 * time.Second
	s.http = httptest.NewServer(s.routes())
	s.URL = s.http.URL
	t.Cleanup(s.close)
	return s
}

func (s *Server) close() {
	close(s.stop)
	s.DropConnections()
	s.http.Close()
}

// id makes a snowflake. The caller holds mu.
func (s *Server) id() string {
	s.nextID++
	const epoch = 1420070400000 // the platform's: 1 January 2015
	return strconv.FormatInt((time.Now().UnixMilli()+s.later-epoch)<<22|s.nextID&0x3fffff, 10)
}

// notify wakes whoever waits. The caller holds mu.
func (s *Server) notify() {
	close(s.changed)
	s.changed = make(chan struct{})
}

// Wait waits until a condition holds, which is asked with the server locked, and reports whether it did
// within a time.
func (s *Server) Wait(within time.Duration, holds func() bool) bool {
	deadline := time.NewTimer(within)
	defer deadline.Stop()
	for {
		s.mu.Lock()
		ok, changed := holds(), s.changed
		s.mu.Unlock()
		if ok {
			return true
		}
		select {
		case <-changed:
		case <-deadline.C:
			return false
		}
	}
}

// breach reports broken rules.
func (s *Server) breach(where string, problems []string) {
	totalViolations.Add(int64(len(problems)))
	for _, p := range problems {
		s.t.Errorf("the bot broke a rule of the platform: %s: %s", where, p)
	}
}

// Calls counts the requests for a route, as "POST /channels/:/messages".
func (s *Server) Calls(route string) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.calls[route]
}

// Registered counts how often commands were overwritten.
func (s *Server) Registered() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.registered
}

// Commands answers the commands as registered.
func (s *Server) Commands() []map[string]any {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]map[string]any(nil), s.commands...)
}

// Channel makes a channel in a guild and answers its id.
func (s *Server) Channel(guild string) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	c := s.channel(guild, "")
	return c.id
}

func (s *Server) channel(guild, with string) *channel {
	c := &channel{id: s.id(), guild: guild, with: with, nonces: map[string]sentNonce{}}
	s.channels[c.id] = c
	return c
}

// OpenThread makes a thread in a channel and answers its id.
func (s *Server) OpenThread(channel string) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	c := s.channel(s.channels[channel].guild, "")
	c.parent, c.name = channel, "thread"
	return c.id
}

// Thread finds the latest thread of a name in a channel; empty when there is none.
func (s *Server) Thread(channel, name string) (id string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, c := range s.channels {
		if c.parent == channel && c.name == name && c.id > id {
			id = c.id
		}
	}
	return id
}

// Guild answers an id for a community.
func (s *Server) Guild() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	id := s.id()
	s.join(id, Application)
	return id
}

// Deny takes permissions away from everybody in a channel.
func (s *Server) Deny(channel string, bits uint64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.channels[channel].denied = bits
}

// GuildOf answers an id for a community that belongs to a shard of so many.
func (s *Server) GuildOf(shard, shards int) string {
	for {
		id := s.Guild()
		if n, _ := strconv.ParseInt(id, 10, 64); int(n>>22)%shards == shard {
			return id
		}
		s.mu.Lock()
		s.later++
		s.mu.Unlock()
	}
}

// DeleteChannel removes a channel and tells the bot.
func (s *Server) DeleteChannel(id string) {
	s.mu.Lock()
	c := s.channels[id]
	delete(s.channels, id)
	s.mu.Unlock()
	if c != nil {
		s.Dispatch("CHANNEL_DELETE", map[string]any{"id": id, "guild_id": c.guild, "type": 0, "name": "party"})
	}
}

// direct finds or makes the channel of direct messages with a person. The caller holds mu.
func (s *Server) direct(user string) *channel {
	for _, c := range s.channels {
		if c.with == user {
			return c
		}
	}
	return s.channel("", user)
}

// apiError is an error as the platform words it.
type apiError struct {
	status, code int
	message      string
}

var (
	errUnauthorized   = &apiError{http.StatusUnauthorized, 0, "401: Unauthorized"}
	errNoChannel      = &apiError{http.StatusNotFound, 10003, "Unknown Channel"}
	errNoMember       = &apiError{http.StatusNotFound, 10007, "Unknown Member"}
	errNoMessage      = &apiError{http.StatusNotFound, 10008, "Unknown Message"}
	errNoWebhook      = &apiError{http.StatusNotFound, 10015, "Unknown Webhook"}
	errNoInteraction  = &apiError{http.StatusNotFound, 10062, "Unknown interaction"}
	errAcknowledged   = &apiError{http.StatusBadRequest, 40060, "Interaction has already been acknowledged."}
	errWrongChannel   = &apiError{http.StatusBadRequest, 50024, "Cannot execute action on this channel type"}
	errMessagesClosed = &apiError{http.StatusForbidden, 50007, "Cannot send messages to this user"}
	errNoMutualGuild  = &apiError{http.StatusForbidden, 50278,
		"Cannot send messages to this user due to having no mutual guilds"}
	errInvalidToken = &apiError{http.StatusUnauthorized, 50027, "Invalid Webhook Token"}
	errBadForm      = &apiError{http.StatusBadRequest, 50035, "Invalid Form Body"}
)

func (e *apiError) write(w http.ResponseWriter) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(e.status)
	fmt.Fprintf(w, `{"message": %q, "code": %d}`, e.message, e.code)
}

func writeJSON(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	json.NewEncoder(w).Encode(v)
}

// webSocketURL is the address of the gateway.
func (s *Server) webSocketURL() string { return "ws" + strings.TrimPrefix(s.URL, "http") + "/ws" }
