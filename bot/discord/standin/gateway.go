package standin

import (
	"bytes"
	"compress/zlib"
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// Greeting says what the gateway does when a client identifies or resumes.
type Greeting int

// The greetings.
const (
	Welcome   Greeting = iota // READY, or RESUMED after what was missed
	Reconnect                 // op 7
	Invalid                   // op 9, not resumable
	Silence                   // nothing at all
	Refuse                    // close with Gateway.CloseCode
	Hang                      // drop the connection
)

// Gateway is how the gateway behaves. It is changed through [Server.Gateway].
type Gateway struct {
	Heartbeat  time.Duration // the interval that HELLO asks for
	NoHello    bool          // nothing is said after the connection is made
	Drops      int           // so many connections are dropped before anything is said
	IgnoreBeat bool          // heartbeats are not acknowledged
	CloseCode  int           // for Refuse
	OnIdentify []Greeting    // for the next ones in turn; after them, Welcome
	OnResume   []Greeting

	Shards        int           // how many are recommended; 0: one
	Concurrency   int           // how many may IDENTIFY at once; 0: one
	IdentifyEvery time.Duration // within which two IDENTIFYs of one key break a rule; 0: that is not looked at
	Needed        int           // with fewer shards, an IDENTIFY is closed with 4011, and this is recommended from then on
	Spent         bool          // no session may be started before ResetAfter
	ResetAfter    time.Duration
}

// gate is the gateway's state.
type gate struct {
	Gateway
	conns      map[*conn]bool
	sessions   map[string]*session
	identified int
	resumed    int
	connected  int
	lastTurn   map[int]time.Time // by key: of the last IDENTIFY
}

// session is what a client may resume.
type session struct {
	id      string
	intents int
	shard   [2]int // which of how many
	seq     int64
	sent    []frame // to be replayed
	conn    *conn   // nil while nobody is connected
}

type frame struct {
	Op   int             `json:"op"`
	Data json.RawMessage `json:"d"`
	Seq  *int64          `json:"s,omitempty"`
	Type string          `json:"t,omitempty"`
}

// conn is a client's connection.
type conn struct {
	ws       *websocket.Conn
	write    sync.Mutex
	compress bool
}

// Gateway changes how the gateway behaves from now on.
func (s *Server) Gateway(change func(*Gateway)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	change(&s.gate.Gateway)
}

// Connects counts connections, identifications and resumptions.
func (s *Server) Connects() (connected, identified, resumed int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.gate.connected, s.gate.identified, s.gate.resumed
}

// WaitConnects waits until so many connections have been made, and reports whether that came about.
func (s *Server) WaitConnects(n int, within time.Duration) bool {
	return s.Wait(within, func() bool { return s.gate.connected >= n })
}

// Online waits until a session is ready to receive events, and reports whether that came about.
func (s *Server) Online(within time.Duration) bool {
	return s.Wait(within, func() bool {
		for _, x := range s.gate.sessions {
			if x.conn != nil {
				return true
			}
		}
		return false
	})
}

// DropConnections closes all connections without a word.
func (s *Server) DropConnections() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for c := range s.gate.conns {
		c.ws.NetConn().Close()
	}
	for _, x := range s.gate.sessions {
		x.conn = nil
	}
}

// SendAll sends an operation without data to every client: 7 asks to reconnect, 1 for a heartbeat.
func (s *Server) SendAll(op int) {
	s.mu.Lock()
	conns := s.list()
	s.mu.Unlock()
	for _, c := range conns {
		c.send(frame{Op: op, Data: json.RawMessage("null")})
	}
}

// CloseAll closes every connection with a code.
func (s *Server) CloseAll(code int) {
	s.mu.Lock()
	conns := s.list()
	s.mu.Unlock()
	for _, c := range conns {
		c.close(code)
	}
}

func (s *Server) list() []*conn {
	var out []*conn
	for c := range s.gate.conns {
		out = append(out, c)
	}
	return out
}

func (c *conn) send(f frame) {
	if f.Data == nil {
		f.Data = json.RawMessage("null")
	}
	b, err := json.Marshal(f)
	if err != nil {
		return
	}
	kind := websocket.TextMessage
	if c.compress {
		var z bytes.Buffer
		w := zlib.NewWriter(&z)
		w.Write(b)
		w.Close()
		b, kind = z.Bytes(), websocket.BinaryMessage
	}
	c.write.Lock()
	defer c.write.Unlock()
	c.ws.WriteMessage(kind, b)
}

func (c *conn) close(code int) {
	c.write.Lock()
	defer c.write.Unlock()
	c.ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(code, ""), time.Now().Add(time.Second))
	// discord.js stalls unless the socket itself is closed after the handshake.
	c.ws.NetConn().Close()
}

// wants reports whether a session has asked for an event. Interactions come without asking.
func (x *session) wants(kind string) bool {
	const guilds, members, messages, direct = 1 << 0, 1 << 1, 1 << 9, 1 << 12
	switch {
	case kind == "MESSAGE_CREATE":
		return x.intents&messages != 0 && x.intents&direct != 0
	case strings.HasPrefix(kind, "GUILD_MEMBER_"):
		return x.intents&members != 0
	case strings.HasPrefix(kind, "GUILD_"), strings.HasPrefix(kind, "CHANNEL_"), strings.HasPrefix(kind, "THREAD_"):
		return x.intents&guilds != 0
	}
	return true
}

// has reports whether a shard gets what happens in a guild, or, without one, in direct messages.
func (x *session) has(guild string) bool {
	id, err := strconv.ParseInt(guild, 10, 64)
	if err != nil {
		return x.shard[0] == 0
	}
	return int(id>>22)%x.shard[1] == x.shard[0]
}

// Dispatch sends an event to every session that wants it, and keeps it for those who are away.
func (s *Server) Dispatch(kind string, data any) {
	b, err := json.Marshal(data)
	if err != nil {
		panic("stand-in: " + err.Error())
	}
	var of struct {
		ID    any    `json:"id"`
		Guild string `json:"guild_id"`
	}
	if json.Unmarshal(b, &of) == nil && (kind == "GUILD_CREATE" || kind == "GUILD_DELETE") {
		of.Guild = fmt.Sprint(of.ID)
	}
	s.mu.Lock()
	var to []*conn
	var frames []frame
	for _, x := range s.gate.sessions {
		if !x.wants(kind) || !x.has(of.Guild) {
			continue
		}
		x.seq++
		n := x.seq
		f := frame{Op: 0, Data: b, Seq: &n, Type: kind}
		x.sent = append(x.sent, f)
		if x.conn != nil {
			to, frames = append(to, x.conn), append(frames, f)
		}
	}
	s.mu.Unlock()
	for i, c := range to {
		c.send(frames[i])
	}
}

// serveGateway speaks with one client.
func (s *Server) serveGateway(w http.ResponseWriter, r *http.Request) {
	up := websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}
	ws, err := up.Upgrade(w, r, nil)
	if err != nil {
		return
	}
	c := &conn{ws: ws}
	s.mu.Lock()
	s.gate.conns[c] = true
	s.gate.connected++
	silent, beat := s.gate.NoHello, s.gate.Heartbeat
	dropped := s.gate.Drops > 0
	if dropped {
		s.gate.Drops--
	}
	s.notify()
	s.mu.Unlock()
	defer func() {
		ws.Close()
		s.mu.Lock()
		delete(s.gate.conns, c)
		for _, x := range s.gate.sessions {
			if x.conn == c {
				x.conn = nil
			}
		}
		s.notify()
		s.mu.Unlock()
	}()
	if dropped {
		return
	}
	if !silent {
		c.send(frame{Op: 10, Data: json.RawMessage(fmt.Sprintf(`{"heartbeat_interval":%d}`, beat.Milliseconds()))})
	}
	for {
		_, data, err := ws.ReadMessage()
		if err != nil {
			// A client that closes with 1000 or 1001 ends its session.
			if websocket.IsCloseError(err, websocket.CloseNormalClosure, websocket.CloseGoingAway) {
				s.forget(c)
			}
			return
		}
		if len(data) > 4096 {
			s.breach("gateway", []string{fmt.Sprintf("a payload of %d bytes", len(data))})
			c.close(4002)
			return
		}
		var f frame
		if err := json.Unmarshal(data, &f); err != nil {
			c.close(4002)
			return
		}
		if !s.receive(c, f) {
			return
		}
	}
}

// forget ends the session of a connection.
func (s *Server) forget(c *conn) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for id, x := range s.gate.sessions {
		if x.conn == c {
			delete(s.gate.sessions, id)
		}
	}
}

// receive handles what a client sends; false ends the connection.
func (s *Server) receive(c *conn, f frame) bool {
	switch f.Op {
	case 1:
		s.mu.Lock()
		ignore := s.gate.IgnoreBeat
		s.mu.Unlock()
		if !ignore {
			c.send(frame{Op: 11})
		}
	case 2:
		return s.identify(c, f.Data)
	case 6:
		return s.resume(c, f.Data)
	default:
		s.breach("gateway", []string{fmt.Sprintf("an op %d", f.Op)})
	}
	return true
}

// next takes the next greeting off a list.
func next(list *[]Greeting) Greeting {
	if len(*list) == 0 {
		return Welcome
	}
	g := (*list)[0]
	*list = (*list)[1:]
	return g
}

// greet does what a greeting says, but for Welcome; goOn says whether the connection stays.
func (s *Server) greet(c *conn, g Greeting, code int) (goOn bool) {
	switch g {
	case Reconnect:
		c.send(frame{Op: 7})
	case Invalid:
		c.send(frame{Op: 9, Data: json.RawMessage("false")})
	case Refuse:
		c.close(code)
		return false
	case Hang:
		c.ws.NetConn().Close()
		return false
	}
	return true
}

func (s *Server) identify(c *conn, data json.RawMessage) bool {
	var id struct {
		Token    string
		Intents  *int
		Compress bool
		Shard    *[2]int
	}
	if err := json.Unmarshal(data, &id); err != nil || id.Intents == nil {
		s.breach("gateway", []string{"an IDENTIFY that lacks something"})
		c.close(4002)
		return false
	}
	c.compress = id.Compress
	s.mu.Lock()
	s.gate.identified++
	g, code := next(&s.gate.OnIdentify), s.gate.CloseCode
	s.notify()
	s.mu.Unlock()
	if id.Token != Token && id.Token != "Bot "+Token {
		c.close(4004)
		return false
	}
	const privileged, members = 1<<1 | 1<<8 | 1<<15, 1 << 1
	if asked := *id.Intents & privileged; asked != 0 && (asked != members || !s.MembersIntent) {
		if asked != members {
			s.breach("gateway", []string{"privileged intents"})
		}
		c.close(4014)
		return false
	}
	shard := [2]int{0, 1}
	if id.Shard != nil {
		shard = *id.Shard
	}
	if shard[0] < 0 || shard[1] < 1 || shard[0] >= shard[1] {
		c.close(4010)
		return false
	}
	s.mu.Lock()
	few := shard[1] < s.gate.Needed
	if few {
		s.gate.Shards = s.gate.Needed
	}
	s.mu.Unlock()
	if few {
		c.close(4011)
		return false
	}
	s.turn(shard[0])
	if g != Welcome {
		return s.greet(c, g, code)
	}
	s.mu.Lock()
	x := &session{id: "session-" + s.id(), seq: 1, intents: *id.Intents, shard: shard}
	s.gate.sessions[x.id] = x
	s.mu.Unlock()
	ready, _ := json.Marshal(map[string]any{"v": 9, "user": self, "guilds": []any{}, "session_id": x.id,
		"resume_gateway_url": s.webSocketURL(), "application": map[string]any{"id": Application, "flags": 0}})
	one := int64(1)
	c.send(frame{Op: 0, Data: ready, Seq: &one, Type: "READY"})
	s.attach(x, c)
	return true
}

// turn sees that two shards of one key do not IDENTIFY within the platform's pause.
func (s *Server) turn(shard int) {
	s.mu.Lock()
	key := shard % max(1, s.gate.Concurrency)
	if s.gate.lastTurn == nil {
		s.gate.lastTurn = map[int]time.Time{}
	}
	last, now := s.gate.lastTurn[key], time.Now()
	s.gate.lastTurn[key] = now
	every := s.gate.IdentifyEvery
	s.mu.Unlock()
	if since := now.Sub(last); since < every {
		s.breach("gateway", []string{fmt.Sprintf("an IDENTIFY of shard %d %v after another of its key", shard, since)})
	}
}

// Sessions lists the shards that are connected, as [which, of how many].
func (s *Server) Sessions() (out [][2]int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, x := range s.gate.sessions {
		if x.conn != nil {
			out = append(out, x.shard)
		}
	}
	return out
}

// attach makes a connection the one that gets a session's events.
func (s *Server) attach(x *session, c *conn) {
	s.mu.Lock()
	x.conn = c
	s.notify()
	s.mu.Unlock()
}

func (s *Server) resume(c *conn, data json.RawMessage) bool {
	var r struct {
		Token     string
		SessionID string `json:"session_id"`
		Seq       int64
	}
	if json.Unmarshal(data, &r) != nil {
		c.close(4002)
		return false
	}
	s.mu.Lock()
	s.gate.resumed++
	g, code := next(&s.gate.OnResume), s.gate.CloseCode
	x := s.gate.sessions[r.SessionID]
	s.notify()
	s.mu.Unlock()
	if g != Welcome {
		return s.greet(c, g, code)
	}
	if x == nil || r.Token != Token && r.Token != "Bot "+Token {
		c.send(frame{Op: 9, Data: json.RawMessage("false")})
		return true
	}
	c.compress = true
	s.mu.Lock()
	var missed []frame
	for _, f := range x.sent {
		if *f.Seq > r.Seq {
			missed = append(missed, f)
		}
	}
	x.seq++
	n := x.seq
	s.mu.Unlock()
	for _, f := range missed {
		c.send(f)
	}
	c.send(frame{Op: 0, Data: json.RawMessage("{}"), Seq: &n, Type: "RESUMED"})
	s.attach(x, c)
	return true
}
