package standin

import (
	"encoding/json"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"time"
)

// apiPrefixes are the versions of the API that are served, all alike.
var apiPrefixes = []string{"/api/v9", "/api/v10"}

// request is a request that passed the gates: its body was read and its route is known.
type request struct {
	*http.Request
	route string
	body  any // decoded JSON; nil when there is none
	files []File
}

// routes is the server's table.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("/ws", s.serveGateway)
	mux.HandleFunc("/ws/", s.serveGateway) // discordgo adds the slash
	mux.HandleFunc("GET /files/{id}/{name}", s.serveFile)
	for _, r := range []struct {
		pattern string
		auth    bool
		serve   func(http.ResponseWriter, *request)
	}{
		{"GET /gateway", false, s.getGateway},
		{"GET /gateway/bot", true, s.getGateway},
		{"GET /users/@me", true, s.getMe},
		{"GET /users/@me/guilds", true, s.getGuilds},
		{"GET /users/{user}", true, s.getUser},
		{"GET /guilds/{guild}/members/{user}", true, s.getMember},
		{"GET /applications/@me", true, s.getApplication},
		{"GET /applications/{app}/commands", true, s.getCommands},
		{"PUT /applications/{app}/commands", true, s.putCommands},
		{"POST /interactions/{id}/{token}/callback", false, s.postCallback},
		{"POST /webhooks/{app}/{token}", false, s.postFollowUp},
		{"GET /webhooks/{app}/{token}/messages/{message}", false, s.getOriginal},
		{"PATCH /webhooks/{app}/{token}/messages/{message}", false, s.patchOriginal},
		{"DELETE /webhooks/{app}/{token}/messages/{message}", false, s.deleteOriginal},
		{"POST /users/@me/channels", true, s.postDirect},
		{"GET /channels/{channel}", true, s.getChannel},
		{"GET /channels/{channel}/messages", true, s.getMessages},
		{"POST /channels/{channel}/messages", true, s.postMessage},
		{"PATCH /channels/{channel}/messages/{message}", true, s.patchMessage},
		{"POST /channels/{channel}/threads", true, s.postThread},
	} {
		method, path, _ := strings.Cut(r.pattern, " ")
		for _, prefix := range apiPrefixes {
			mux.HandleFunc(method+" "+prefix+path, s.gated(method, path, r.auth, r.serve))
		}
	}
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		s.breach(r.Method+" "+r.URL.Path, []string{"no such endpoint"})
		http.NotFound(w, r)
	})
	return mux
}

// routeName turns "/channels/{channel}/messages" into "/channels/:/messages".
func routeName(path string) string {
	parts := strings.Split(path, "/")
	for i, p := range parts {
		if strings.HasPrefix(p, "{") {
			parts[i] = ":"
		}
	}
	return strings.Join(parts, "/")
}

// gated wraps a handler: counting, faults, authorisation, rate limits and reading the body.
func (s *Server) gated(method, path string, auth bool, serve func(http.ResponseWriter, *request)) http.HandlerFunc {
	route := routeName(path)
	return func(w http.ResponseWriter, r *http.Request) {
		totalChecked.Add(1)
		if s.Clock != nil {
			w.Header().Set("Date", s.Clock().UTC().Format(http.TimeFormat))
		}
		s.mu.Lock()
		s.calls[method+" "+route]++
		s.notify()
		s.mu.Unlock()
		if auth && r.Header.Get("Authorization") != "Bot "+Token {
			errUnauthorized.write(w)
			return
		}
		if ua := r.Header.Get("User-Agent"); !strings.HasPrefix(ua, "DiscordBot (") {
			s.breach(method+" "+route, []string{fmt.Sprintf("User-Agent %q", ua)})
		}
		f := s.fault(method, route)
		if f != nil {
			if f.Delay > 0 {
				select {
				case <-time.After(f.Delay):
				case <-r.Context().Done():
					return
				case <-s.stop:
				}
			}
			if !f.After {
				f.answer(w)
				return
			}
		}
		major := r.PathValue("channel") + r.PathValue("app") + r.PathValue("token")
		if s.limited(w, method, route, major, strings.HasPrefix(route, "/interactions") ||
			strings.HasPrefix(route, "/webhooks")) {
			return
		}
		req, err := readRequest(r, route)
		if err != nil {
			s.breach(method+" "+route, []string{err.Error()})
			errBadForm.write(w)
			return
		}
		if f != nil { // do it, and fail all the same
			serve(httptest.NewRecorder(), req)
			f.answer(w)
			return
		}
		serve(w, req)
	}
}

// readRequest reads a body: JSON, or a form with payload_json and files.
func readRequest(r *http.Request, route string) (*request, error) {
	req := &request{Request: r, route: route}
	if r.Method == http.MethodGet || r.Method == http.MethodDelete {
		return req, nil
	}
	data, err := io.ReadAll(io.LimitReader(r.Body, maxRequest+1))
	if err != nil {
		return nil, err
	}
	if len(data) > maxRequest {
		return nil, fmt.Errorf("a request of more than %d bytes", maxRequest)
	}
	kind, params, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil {
		return nil, fmt.Errorf("content type: %w", err)
	}
	if kind == "application/json" {
		req.body, err = decode(data)
		return req, err
	}
	if kind != "multipart/form-data" {
		return nil, fmt.Errorf("content type %s", kind)
	}
	form := multipart.NewReader(strings.NewReader(string(data)), params["boundary"])
	for {
		part, err := form.NextPart()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		content, err := io.ReadAll(part)
		if err != nil {
			return nil, err
		}
		switch name := part.FormName(); {
		case name == "payload_json":
			if req.body, err = decode(content); err != nil {
				return nil, err
			}
		case name == fmt.Sprintf("files[%d]", len(req.files)):
			if len(content) > maxFile {
				return nil, fmt.Errorf("a file of %d bytes", len(content))
			}
			req.files = append(req.files, File{Name: part.FileName(), Type: part.Header.Get("Content-Type"), Data: content})
		default:
			return nil, fmt.Errorf("a part of a form is called %q", name)
		}
	}
	if req.body == nil {
		return nil, fmt.Errorf("a form without payload_json")
	}
	return req, nil
}

// checked validates and reports whether the request may go on.
func (s *Server) checked(w http.ResponseWriter, r *request, problems []string) bool {
	s.breach(r.Method+" "+r.route, problems)
	if len(problems) > 0 {
		errBadForm.write(w)
	}
	return len(problems) == 0
}

func (s *Server) getGateway(w http.ResponseWriter, r *request) {
	s.mu.Lock()
	g := s.gate.Gateway
	s.mu.Unlock()
	remaining, reset := 999, 4*time.Hour
	if g.Spent {
		remaining, reset = 0, g.ResetAfter
	}
	writeJSON(w, 200, map[string]any{"url": s.webSocketURL(), "shards": max(1, g.Shards),
		"session_start_limit": map[string]any{
			"total": 1000, "remaining": remaining, "reset_after": reset.Milliseconds(),
			"max_concurrency": max(1, g.Concurrency)}})
}

var self = map[string]any{"id": Application, "username": "tureen", "discriminator": "0000", "bot": true,
	"global_name": nil, "avatar": nil}

func (s *Server) getMe(w http.ResponseWriter, r *request) { writeJSON(w, 200, self) }

func (s *Server) getUser(w http.ResponseWriter, r *request) {
	writeJSON(w, 200, map[string]any{"id": r.PathValue("user"), "username": "someone", "discriminator": "0",
		"avatar": nil})
}

func (s *Server) getMember(w http.ResponseWriter, r *request) {
	s.mu.Lock()
	in := s.members[r.PathValue("guild")][r.PathValue("user")]
	s.mu.Unlock()
	if !in {
		errNoMember.write(w)
		return
	}
	writeJSON(w, 200, map[string]any{"user": map[string]any{"id": r.PathValue("user"), "username": "someone"},
		"roles": []any{}, "joined_at": "2026-01-01T00:00:00Z"})
}

func (s *Server) getApplication(w http.ResponseWriter, r *request) {
	flags := 0
	if s.MembersIntent {
		flags |= 1 << 15
	}
	writeJSON(w, 200, map[string]any{"id": Application, "name": "tureen", "flags": flags})
}

func (s *Server) getCommands(w http.ResponseWriter, r *request) {
	s.mu.Lock()
	list := append([]any{}, toAny(s.commands)...)
	s.mu.Unlock()
	if r.URL.Query().Get("with_localizations") != "true" {
		for i := range list {
			list[i] = unlocalised(list[i])
		}
	}
	writeJSON(w, 200, list)
}

func toAny(list []map[string]any) (out []any) {
	for _, x := range list {
		out = append(out, x)
	}
	return out
}

// unlocalised is a copy of a command as it is told to those who do not ask for its other languages.
func unlocalised(v any) any {
	switch v := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, x := range v {
			if k != "name_localizations" && k != "description_localizations" {
				out[k] = unlocalised(x)
			}
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i, x := range v {
			out[i] = unlocalised(x)
		}
		return out
	}
	return v
}

// putCommands keeps commands as the platform does, which adds ids and fields of its own.
func (s *Server) putCommands(w http.ResponseWriter, r *request) {
	if !s.checked(w, r, checkCommandsOnce(r.body)) {
		return
	}
	s.mu.Lock()
	s.commands = nil
	for _, v := range items(r.body) {
		c := object(v)
		c["id"], c["application_id"], c["version"] = s.id(), Application, s.id()
		for k, v := range map[string]any{"type": 1, "default_member_permissions": nil, "nsfw": false,
			"name_localizations": nil, "description_localizations": nil} {
			if _, there := c[k]; !there {
				c[k] = v
			}
		}
		s.commands = append(s.commands, c)
	}
	s.registered++
	list := s.commands
	s.notify()
	s.mu.Unlock()
	writeJSON(w, 200, list)
}

func (s *Server) postDirect(w http.ResponseWriter, r *request) {
	if !s.checked(w, r, bySchema(defDM, r.body)) {
		return
	}
	s.mu.Lock()
	c := s.direct(text(object(r.body)["recipient_id"]))
	s.mu.Unlock()
	writeJSON(w, 200, map[string]any{"id": c.id, "type": 1,
		"recipients": []any{map[string]any{"id": c.with, "username": "someone"}}})
}

func (s *Server) getChannel(w http.ResponseWriter, r *request) {
	s.mu.Lock()
	c := s.channels[r.PathValue("channel")]
	s.mu.Unlock()
	if c == nil {
		errNoChannel.write(w)
		return
	}
	kind, overwrites := 0, []any{}
	if c.parent != "" {
		kind = 11
	} else if c.denied != 0 {
		overwrites = append(overwrites, map[string]any{"id": c.guild, "type": 0, "allow": "0",
			"deny": strconv.FormatUint(c.denied, 10)})
	}
	writeJSON(w, 200, map[string]any{"id": c.id, "type": kind, "guild_id": c.guild, "name": "party", "parent_id": c.parent,
		"permission_overwrites": overwrites})
}

// getGuilds lists the communities that the bot is in.
func (s *Server) getGuilds(w http.ResponseWriter, r *request) {
	bits := s.Permissions
	if bits == 0 {
		bits = 1<<53 - 1
	}
	list := []any{}
	s.mu.Lock()
	for id, in := range s.members {
		if in[Application] {
			list = append(list, map[string]any{"id": id, "name": "home", "permissions": strconv.FormatUint(bits, 10),
				"owner": false})
		}
	}
	s.mu.Unlock()
	writeJSON(w, 200, list)
}

// getMessages answers a channel's messages, the newest first. A nonce is not among what it tells.
func (s *Server) getMessages(w http.ResponseWriter, r *request) {
	most := 50
	if n, err := strconv.Atoi(r.URL.Query().Get("limit")); err == nil && n >= 1 && n <= 100 {
		most = n
	}
	s.mu.Lock()
	c := s.channels[r.PathValue("channel")]
	var list []map[string]any
	if c != nil {
		for i := len(c.messages) - 1; i >= 0 && len(list) < most; i-- {
			list = append(list, c.messages[i].wire())
		}
	}
	s.mu.Unlock()
	if c == nil {
		errNoChannel.write(w)
		return
	}
	if list == nil {
		list = []map[string]any{}
	}
	writeJSON(w, 200, list)
}

func (s *Server) postMessage(w http.ResponseWriter, r *request) {
	s.mu.Lock()
	c := s.channels[r.PathValue("channel")]
	closed := c != nil && c.closed
	stranger := c != nil && c.with != "" && !s.mutual(c.with)
	s.mu.Unlock()
	switch {
	case c == nil:
		errNoChannel.write(w)
		return
	case stranger:
		errNoMutualGuild.write(w)
		return
	case closed:
		errMessagesClosed.write(w)
		return
	}
	if !s.checked(w, r, checkMessage(defMessage, r.body, len(r.files))) {
		return
	}
	body := object(r.body)
	nonce := fmt.Sprint(body["nonce"])
	enforce, _ := body["enforce_nonce"].(bool)
	s.mu.Lock()
	defer s.mu.Unlock()
	if old, ok := c.nonces[nonce]; ok && enforce && time.Since(old.at) < s.NonceLife {
		writeJSON(w, 200, old.message.wire())
		return
	}
	m := s.message(c, body, r.files)
	if enforce {
		c.nonces[nonce] = sentNonce{m, time.Now()}
	}
	writeJSON(w, 200, m.wire())
}

func (s *Server) patchMessage(w http.ResponseWriter, r *request) {
	if !s.checked(w, r, checkMessage(defEdit, r.body, len(r.files))) {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if c := s.channels[r.PathValue("channel")]; c != nil {
		for _, m := range c.messages {
			if m.ID == r.PathValue("message") {
				m.take(object(r.body), r.files)
				s.notify()
				writeJSON(w, 200, m.wire())
				return
			}
		}
	}
	errNoMessage.write(w)
}

func (s *Server) postThread(w http.ResponseWriter, r *request) {
	if !s.checked(w, r, bySchema(defThread, r.body)) {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	parent := s.channels[r.PathValue("channel")]
	if parent == nil {
		errNoChannel.write(w)
		return
	}
	if parent.guild == "" || parent.parent != "" {
		errWrongChannel.write(w)
		return
	}
	c := s.channel(parent.guild, "")
	c.parent, c.name = parent.id, text(object(r.body)["name"])
	s.notify()
	writeJSON(w, 201, map[string]any{"id": c.id, "type": 11, "guild_id": c.guild, "parent_id": parent.id,
		"name": object(r.body)["name"]})
}

func (s *Server) serveFile(w http.ResponseWriter, r *http.Request) {
	if r.Header.Get("Authorization") != "" {
		s.breach("GET /files", []string{"the bot's token was sent to where files are kept"})
	}
	s.mu.Lock()
	f, ok := s.files[r.PathValue("id")]
	s.mu.Unlock()
	if !ok {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", f.Type)
	w.Write(f.Data)
}

// plain turns decoded JSON into what it was written as, for reading into structs.
func plain(v any, into any) error {
	b, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return json.Unmarshal(b, into)
}
