package discord

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"sync"

	"github.com/bwmarrin/discordgo"

	"tureen/bot/talk"
)

// Codes of the platform's errors that are told apart here: page topics/opcodes-and-status-codes.
const (
	codeUnknownChannel     = 10003
	codeUnknownMember      = 10007
	codeUnknownMessage     = 10008
	codeUnknownUser        = 10013
	codeUnknownInteraction = 10062
	codeMissingAccess      = 50001
	codeMessagesClosed     = 50007
	codeMissingPermission  = 50013
	codeWrongChannel       = 50024
	codeMostThreads        = 160006
	codeInvalidToken       = 50027
	codeDMsTooFast         = 40003
	codeAcknowledged       = 40060
	codeNoMutualGuild      = 50278
)

// apiError is the platform's refusal of a request.
type apiError struct {
	status, code int
	message      string
}

func (e *apiError) Error() string {
	return fmt.Sprintf("Discord answers %d (code %d): %s", e.status, e.code, e.message)
}

// codeOf is the platform's code in an error, or 0.
func codeOf(err error) int {
	var e *apiError
	if errors.As(err, &e) {
		return e.code
	}
	return 0
}

// certain reports whether an error means that the request has surely not been carried out.
func certain(err error) bool {
	var e *apiError
	var l *limitedError
	return errors.As(err, &e) && e.status < 500 || errors.As(err, &l)
}

// rest makes requests to the platform. It is safe for concurrent use.
type rest struct {
	session *discordgo.Session
	time    timing
}

// newRest makes a rest on a guard.
func newRest(token string, g *guard) (*rest, error) {
	s, err := newSession(token, g)
	if err != nil {
		return nil, err
	}
	return &rest{session: s, time: g.time}, nil
}

// newSession makes a session of the library's with what both halves of the transport need.
func newSession(token string, g *guard) (*discordgo.Session, error) {
	logOnce.Do(func() { discordgo.Logger = logLibrary })
	s, err := discordgo.New("Bot " + token)
	if err != nil {
		return nil, err
	}
	s.Client = &http.Client{Transport: g, CheckRedirect: func(*http.Request, []*http.Request) error {
		return http.ErrUseLastResponse
	}}
	s.StateEnabled = false           // 22.7 kB a community, for nothing
	s.ShouldReconnectOnError = false // its loop cannot be stopped, and repeats fatal closes for ever
	s.ShouldReconnectVoiceOnSessionError = false
	s.ShouldRetryOnRateLimit = false // it sleeps without a context
	s.MaxRestRetries = 0             // the guard repeats
	s.LogLevel = discordgo.LogError  // at higher levels it logs messages, and tokens
	return s, nil
}

// do makes a request with a JSON body and reads the answer into out; both may be nil.
func (r *rest) do(ctx context.Context, method, path string, in, out any) error {
	return r.send(ctx, method, path, in, nil, out)
}

// send is do with files, which travel with the body as a form.
func (r *rest) send(ctx context.Context, method, path string, in any, files []talk.File, out any) error {
	ctx, cancel := context.WithTimeout(ctx, r.time.callWithin)
	defer cancel()
	kind := "application/json"
	var body []byte
	var err error
	switch {
	case len(files) > 0:
		var list []*discordgo.File
		for _, f := range files {
			list = append(list, &discordgo.File{Name: f.Name, ContentType: f.Type, Reader: strings.NewReader(string(f.Data))})
		}
		kind, body, err = discordgo.MultipartBodyWithJSON(in, list)
	case in != nil:
		body, err = json.Marshal(in)
	}
	if err != nil {
		return err
	}
	// A bucket of its own for each request keeps the library's limiter out: it has one bucket for all edits
	// of interactions' answers, serially, and never frees any.
	bucket := discordgo.NewRatelimiter().LockBucket("")
	answer, err := r.session.RequestWithLockedBucket(method, discordgo.EndpointAPI+strings.TrimPrefix(path, "/"), kind,
		body, bucket, 0, discordgo.WithContext(ctx))
	if err != nil {
		return plainError(err)
	}
	if out == nil || len(answer) == 0 {
		return nil
	}
	return json.Unmarshal(answer, out)
}

// plainError turns the library's errors into ours, which carry no address: in an interaction's stands its token.
func plainError(err error) error {
	var refused *discordgo.RESTError
	if errors.As(err, &refused) {
		e := &apiError{status: refused.Response.StatusCode, message: http.StatusText(refused.Response.StatusCode)}
		if refused.Message != nil {
			e.code, e.message = refused.Message.Code, refused.Message.Message
		}
		return e
	}
	var where *url.Error
	if errors.As(err, &where) {
		err = where.Err
	}
	var l *limitedError
	if errors.As(err, &l) || errors.Is(err, errForeign) || errors.Is(err, context.Canceled) ||
		errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	return errors.New(redact(err.Error()))
}

var secrets = regexp.MustCompile(`(/(?:interactions|webhooks)/\d+/)[^/?\s"]+|(Bot )?[\w-]{20,}\.[\w-]{5,}\.[\w-]{20,}`)

// redact takes interactions' tokens and the bot's out of a text.
func redact(text string) string { return secrets.ReplaceAllString(text, "$1…") }

var logOnce sync.Once

// logLibrary takes what the library logs, which it does through a variable of its package. What matters of it
// the reconnect loop says in its own words, also when a connection was cut on purpose.
func logLibrary(level, _ int, format string, args ...any) {
	if level <= discordgo.LogError {
		slog.Default().Debug("discordgo: " + redact(fmt.Sprintf(format, args...)))
	}
}
