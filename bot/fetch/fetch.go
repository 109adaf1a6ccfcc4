package fetch

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"io"
	"mime"
	"net"
	"net/http"
	"strings"
	"time"

	"golang.org/x/net/html/charset"

	"tureen/bot/talk"
)

// Limits. A recipe's page without its pictures is well under a megabyte.
const (
	maxBytes      = 3_000_000 // as planner/recipe.MaxPage
	maxRedirects  = 4
	allWithin     = 15 * time.Second
	connectWithin = 6 * time.Second
	atOnce        = 4 // fetches under way
)

// Kinds of content that can hold a recipe.
var readable = []string{"text/html", "application/xhtml+xml", "text/plain", "text/markdown", "application/ld+json",
	"application/json"}

// Options are for tests; the zero value is for the open internet.
type Options struct {
	Resolver Resolver // nil: the system's
	Connect  func(ctx context.Context, network, address string) (net.Conn,
		error) // nil: a socket, checked as it connects
	Roots  *x509.CertPool // nil: the system's
	Within time.Duration  // 0: 15 s
}

// Fetcher gets pages. New is the only way to get one; it is safe for concurrent use.
type Fetcher struct {
	resolver Resolver
	connect  func(ctx context.Context, network, address string) (net.Conn, error)
	client   *http.Client
	within   time.Duration
	room     chan struct{}
}

// New makes a fetcher.
func New(o Options) *Fetcher {
	f := &Fetcher{resolver: o.Resolver, connect: o.Connect, within: o.Within, room: make(chan struct{}, atOnce)}
	if f.resolver == nil {
		f.resolver = net.DefaultResolver
	}
	if f.connect == nil {
		f.connect = guarded().DialContext
	}
	if f.within == 0 {
		f.within = allWithin
	}
	f.client = &http.Client{
		CheckRedirect: redirect,
		Transport: &http.Transport{ // no proxy: it would do the connecting, unchecked
			DialContext: f.dial, TLSClientConfig: &tls.Config{RootCAs: o.Roots, MinVersion: tls.VersionTLS12},
			TLSHandshakeTimeout: connectWithin, ResponseHeaderTimeout: allWithin, MaxResponseHeaderBytes: 64 << 10,
			DisableKeepAlives: true,
		},
	}
	return f
}

func redirect(req *http.Request, before []*http.Request) error {
	if len(before) > maxRedirects {
		return refuse("This address sends me on and on.")
	}
	for _, h := range []string{"Referer", "Cookie", "Authorization"} {
		req.Header.Del(h)
	}
	return check(req.URL)
}

// Fetch gets a page, as UTF-8 where it is text. The error is a *[talk.Refusal], or the context's.
func (f *Fetcher) Fetch(ctx context.Context, address string) ([]byte, error) {
	u, err := parse(address)
	if err != nil {
		return nil, err
	}
	select {
	case f.room <- struct{}{}:
		defer func() { <-f.room }()
	default:
		return nil, &talk.Refusal{Text: "I am fetching other recipes; try again in a few seconds."}
	}
	ctx, cancel := context.WithTimeout(ctx, f.within)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, u.String(), nil)
	if err != nil {
		return nil, refuse("This is no address that I can open.")
	}
	req.Header.Set("User-Agent", "tureen (a person asked it to read this recipe)")
	req.Header.Set("Accept", strings.Join(readable, ", "))
	resp, err := f.client.Do(req)
	if err != nil {
		return nil, explain(err)
	}
	defer resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		return nil, refuse(answered(resp.StatusCode))
	}
	kind, known := contentKind(resp.Header.Get("Content-Type"))
	if !known {
		return nil, refuse(fmt.Sprintf("There is no recipe's page at this address, but %s.", kind))
	}
	data, err := io.ReadAll(io.LimitReader(resp.Body, maxBytes+1))
	switch {
	case len(data) > maxBytes:
		return nil, refuse(fmt.Sprintf("This page is too long for a recipe: more than %d MB.", maxBytes/1_000_000))
	case err != nil:
		return nil, explain(err)
	}
	return inUTF8(data, kind, resp.Header.Get("Content-Type")), nil
}

// contentKind is the media type of a page, and whether a recipe may be in it.
func contentKind(header string) (kind string, known bool) {
	kind, _, err := mime.ParseMediaType(header)
	if err != nil {
		return "something that does not say what it is", false
	}
	for _, k := range readable {
		if kind == k {
			return kind, true
		}
	}
	return cut(kind), false
}

func cut(text string) string {
	if len(text) > 40 {
		return strings.ToValidUTF8(text[:40], "") + "…"
	}
	return text
}

// inUTF8 brings a page of another encoding, as its header or its head says, into ours. Data is in UTF-8 by its
// standard.
func inUTF8(data []byte, kind, header string) []byte {
	if strings.HasSuffix(kind, "json") {
		return data
	}
	e, name, _ := charset.DetermineEncoding(data[:min(len(data), 1024)], header)
	if name == "utf-8" {
		return data
	}
	if out, err := e.NewDecoder().Bytes(data); err == nil {
		return out
	}
	return data
}

func answered(status int) string {
	switch status {
	case http.StatusNotFound, http.StatusGone:
		return "There is no page at this address."
	case http.StatusUnauthorized, http.StatusForbidden, http.StatusPaymentRequired, http.StatusTooManyRequests:
		return "The site does not let me see this page."
	}
	return fmt.Sprintf("The site does not give me this page (it answers %d).", status)
}

// explain makes a sentence of why a page did not come.
func explain(err error) error {
	var own *talk.Refusal
	var name *lookUpError
	var cert *tls.CertificateVerificationError
	switch {
	case errors.As(err, &own):
		return own
	case errors.Is(err, context.DeadlineExceeded) || isTimeout(err):
		return refuse("The site does not answer in time.")
	case errors.Is(err, context.Canceled):
		return err
	case errors.As(err, &name):
		return refuse("There is no site of this name, or it cannot be found from here.")
	case errors.As(err, &cert):
		return refuse("The site does not prove that it is the one that it says it is.")
	}
	return refuse("The site cannot be reached.")
}

func isTimeout(err error) bool {
	var n net.Error
	return errors.As(err, &n) && n.Timeout()
}
