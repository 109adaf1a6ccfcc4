package discord

import (
	"bytes"
	"context"
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"time"
)

// The alternative to the gateway: the platform posts interactions to an address of ours, signed. They are
// accepted with 202 and answered as those of the gateway are, through the callback: page
// interactions/receiving-and-responding.

const (
	askPing       = 1
	maxPosted     = 4 << 20         // bytes of an interaction
	signatureLife = 5 * time.Minute // older ones may have been recorded
)

// Endpoint serves interactions over HTTP, for the public key of the application as the platform prints it.
func (f *Face) Endpoint(text string) (http.Handler, error) {
	key, err := publicKey(text)
	if err != nil {
		return nil, err
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { f.posted(w, r, key) }), nil
}

// publicKey reads an application's public key.
func publicKey(text string) (ed25519.PublicKey, error) {
	key, err := hex.DecodeString(text)
	if err != nil || len(key) != ed25519.PublicKeySize {
		return nil, fmt.Errorf("the public key must be %d hexadecimal digits, as on the application's page (General "+
			"Information)", 2*ed25519.PublicKeySize)
	}
	return key, nil
}

func (f *Face) posted(w http.ResponseWriter, r *http.Request, key ed25519.PublicKey) {
	if r.Method != http.MethodPost {
		http.Error(w, "post interactions here", http.StatusMethodNotAllowed)
		return
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxPosted))
	if err != nil {
		http.Error(w, "cannot read it", http.StatusBadRequest)
		return
	}
	if !signed(r.Header, body, key, time.Now()) {
		http.Error(w, "bad signature", http.StatusUnauthorized)
		return
	}
	var i interaction
	if err := json.Unmarshal(body, &i); err != nil {
		http.Error(w, "not an interaction", http.StatusBadRequest)
		return
	}
	if i.Type == askPing {
		w.Header().Set("Content-Type", "application/json")
		fmt.Fprint(w, `{"type":1}`)
		return
	}
	f.event("INTERACTION_CREATE", body)
	w.WriteHeader(http.StatusAccepted)
}

// signed checks a request's Ed25519 signature over its timestamp and body, and that it is of now.
func signed(h http.Header, body []byte, key ed25519.PublicKey, now time.Time) bool {
	stamp := h.Get("X-Signature-Timestamp")
	sec, err := strconv.ParseInt(stamp, 10, 64)
	if err != nil || now.Sub(time.Unix(sec, 0)).Abs() > signatureLife {
		return false
	}
	sig, err := hex.DecodeString(h.Get("X-Signature-Ed25519"))
	if err != nil || len(sig) != ed25519.SignatureSize {
		return false
	}
	return ed25519.Verify(key, bytes.Join([][]byte{[]byte(stamp), body}, nil), sig)
}

// RunEndpoint serves interactions at an address until the context ends, then finishes what is under way.
// Without a gateway, the commands are registered at once.
func (f *Face) RunEndpoint(ctx context.Context, address, key string) error {
	h, err := f.Endpoint(key)
	if err != nil {
		return err
	}
	var app, self struct{ ID string }
	err = f.rest.do(ctx, "GET", "applications/@me", nil, &app)
	if err == nil {
		err = f.rest.do(ctx, "GET", "users/@me", nil, &self)
	}
	if err != nil {
		var e *apiError
		if errors.As(err, &e) && e.status == http.StatusUnauthorized {
			return &stopped{why: tokenRefused}
		}
		return fmt.Errorf("ask Discord who we are: %w", err)
	}
	f.me.Store(self.ID)
	f.mu.Lock()
	f.listening = true
	f.mu.Unlock()
	f.spawn("register", func() { f.registerOnce(app.ID) })
	s := &http.Server{Addr: address, Handler: h, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second,
		IdleTimeout: time.Minute}
	ended := make(chan error, 1)
	go func() { ended <- s.ListenAndServe() }()
	select {
	case err = <-ended:
	case <-ctx.Done():
		limited, cancel := context.WithTimeout(context.WithoutCancel(ctx), grace)
		err = s.Shutdown(limited)
		cancel()
	}
	f.finish()
	return err
}
