package discord

import (
	"bytes"
	"fmt"
	"io"
	"log/slog"
	"strings"
	"sync"
	"testing"

	"tureen/bot/discord/standin"
)

// logged is everything that all tests of this package have logged, at every level. TestMain looks through it when
// they are over: neither a token nor what anybody has typed or read may stand there.
var logged logBook

type logBook struct {
	mu sync.Mutex
	b  bytes.Buffer
}

// Write implements io.Writer.
func (l *logBook) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *logBook) text() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// kept is a handler that writes everything into the book.
func (l *logBook) handler() slog.Handler {
	return slog.NewTextHandler(l, &slog.HandlerOptions{Level: slog.LevelDebug})
}

// testLog is for what a test starts: warnings are shown with it, and everything is kept.
func testLog(t *testing.T) *slog.Logger {
	return slog.New(slog.NewMultiHandler(logged.handler(),
		slog.NewTextHandler(t.Output(), &slog.HandlerOptions{Level: slog.LevelWarn})))
}

// alsoLogged keeps what a test has a program print.
func alsoLogged(w io.Writer) io.Writer { return io.MultiWriter(w, &logged) }

// indiscretions lists what stands in a log and must not.
func indiscretions(log string, texts []string) (out []string) {
	secrets := append([]string{standin.Token, standin.InteractionToken}, texts...)
	for _, s := range secrets {
		if i := strings.Index(log, s); i >= 0 {
			line, _, _ := strings.Cut(log[strings.LastIndexByte(log[:i], '\n')+1:], "\n")
			out = append(out, fmt.Sprintf("%q in: %.300s", s, line))
		}
	}
	return out
}

// TestIndiscretions: the look through the logs finds what it looks for.
func TestIndiscretions(t *testing.T) {
	for log, want := range map[string]int{
		"a line\nand another":                     0,
		"POST /webhooks/1/token-of-123/messages":  1,
		"Authorization: Bot " + standin.Token:     1,
		"command failed text=\"Cut the roots\"\n": 1,
		"Cut the roots, said with token-of-12345": 2,
	} {
		if got := indiscretions(log, []string{"Cut the roots"}); len(got) != want {
			t.Errorf("%q: found %v", log, got)
		}
	}
}
