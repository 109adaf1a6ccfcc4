package discord

import (
	"bytes"
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"
	"time"

	"tureen/bot"
	"tureen/bot/discord/standin"
)

// zeros is text without end.
type zeros struct{}

// Read implements io.Reader.
func (zeros) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '0'
	}
	return len(p), nil
}

// TestEndpoint: signed interactions over HTTP are accepted and answered; others get 401, and PING its answer.
func TestEndpoint(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	b := bot.New(openStore(t), time.Now, nil, bot.Options{})
	f, err := newFace(b, Options{Token: standin.Token, API: s.URL}, quick())
	if err != nil {
		t.Fatal(err)
	}
	public, private, err := ed25519.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	h, err := f.Endpoint(hex.EncodeToString(public))
	if err != nil {
		t.Fatal(err)
	}
	post := func(body []byte, at time.Time, with ed25519.PrivateKey) *httptest.ResponseRecorder {
		r := httptest.NewRequest(http.MethodPost, "/", bytes.NewReader(body))
		stamp := strconv.FormatInt(at.Unix(), 10)
		r.Header.Set("X-Signature-Timestamp", stamp)
		r.Header.Set("X-Signature-Ed25519", hex.EncodeToString(ed25519.Sign(with, append([]byte(stamp), body...))))
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		return w
	}
	_, other, err := ed25519.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	ping := []byte(`{"id":"1","type":1}`)
	if w := post(ping, time.Now(), private); w.Code != 200 || strings.TrimSpace(w.Body.String()) != `{"type":1}` {
		t.Errorf("PING: got %d %s", w.Code, w.Body)
	}
	if w := post(ping, time.Now(), other); w.Code != 401 {
		t.Errorf("another's signature: got %d, want 401", w.Code)
	}
	if w := post(ping, time.Now().Add(-time.Hour), private); w.Code != 401 {
		t.Errorf("an old signature: got %d, want 401", w.Code)
	}
	bare := httptest.NewRecorder()
	h.ServeHTTP(bare, httptest.NewRequest(http.MethodPost, "/", bytes.NewReader(ping)))
	if bare.Code != 401 {
		t.Errorf("no signature: got %d, want 401", bare.Code)
	}
	forge := func(change func(*http.Request)) int {
		r := httptest.NewRequest(http.MethodPost, "/", bytes.NewReader(ping))
		stamp := strconv.FormatInt(time.Now().Unix(), 10)
		r.Header.Set("X-Signature-Timestamp", stamp)
		r.Header.Set("X-Signature-Ed25519", hex.EncodeToString(ed25519.Sign(private, append([]byte(stamp), ping...))))
		change(r)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		return w.Code
	}
	for name, c := range map[string]struct {
		change func(*http.Request)
		code   int
	}{
		"as it was":    {func(*http.Request) {}, 200},
		"another body": {func(r *http.Request) { r.Body = io.NopCloser(strings.NewReader(`{"id":"2","type":1}`)) }, 401},
		"another time": {func(r *http.Request) {
			r.Header.Set("X-Signature-Timestamp", strconv.FormatInt(time.Now().Unix()-1, 10))
		}, 401},
		"no time": {func(r *http.Request) { r.Header.Set("X-Signature-Timestamp", "now") }, 401},
		"half a signature": {func(r *http.Request) {
			r.Header.Set("X-Signature-Ed25519", r.Header.Get("X-Signature-Ed25519")[:64])
		}, 401},
		"no digits":        {func(r *http.Request) { r.Header.Set("X-Signature-Ed25519", strings.Repeat("z", 128)) }, 401},
		"a signature of 0": {func(r *http.Request) { r.Header.Set("X-Signature-Ed25519", strings.Repeat("0", 128)) }, 401},
		"too long":         {func(r *http.Request) { r.Body = io.NopCloser(io.LimitReader(zeros{}, maxPosted+1)) }, 400},
		"another method":   {func(r *http.Request) { r.Method = http.MethodGet }, 405},
	} {
		if code := forge(c.change); code != c.code {
			t.Errorf("%s: got %d, want %d", name, code, c.code)
		}
	}
	if w := post([]byte("{"), time.Now(), private); w.Code != 400 {
		t.Errorf("no JSON: got %d, want 400", w.Code)
	}
	guild := s.Guild()
	p := s.Person("Ada", guild, s.Channel(guild))
	i, event := p.Event(2, map[string]any{"name": "help"})
	body, err := json.Marshal(event)
	if err != nil {
		t.Fatal(err)
	}
	if w := post(body, time.Now(), private); w.Code != http.StatusAccepted {
		t.Errorf("a command: got %d, want 202", w.Code)
	}
	if a := p.Await(i); a.Message == nil || !strings.Contains(a.Text(), "/party new") {
		t.Errorf("got %q", a.Text())
	}
	f.finish()
}
