package discord

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"log/slog"
	"net/http"
	"os"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"tureen/bot/discord/standin"
)

func TestMain(m *testing.M) {
	serveInstead()
	flag.Parse()
	// Most of these tests wait: the library sleeps for a second whenever it closes a connection.
	if err := flag.Set("test.parallel", "16"); err != nil {
		panic(err)
	}
	slog.SetDefault(slog.New(logged.handler()))
	code := m.Run()
	fmt.Println(standin.Summary())
	if _, broken := standin.Totals(); broken > 0 && code == 0 {
		code = 1
	}
	log, said := logged.text(), standin.Said()
	fmt.Printf("log lines searched for tokens and %d texts: %d\n", len(said), strings.Count(log, "\n"))
	if found := indiscretions(log, said); len(found) > 0 {
		fmt.Printf("what must not be logged is:\n%s\n", strings.Join(found, "\n"))
		code = max(code, 1)
	}
	if code == 0 {
		code = leftBehind()
	}
	os.Exit(code)
}

// meantDeadlocks is how many goroutines tests have left deadlocked in the library on purpose.
var meantDeadlocks = 1 + maxAbandoned

// leftBehind reports goroutines of ours or of the library's that outlived the tests.
func leftBehind() int {
	var found []string
	for range 50 {
		found = found[:0]
		buf := make([]byte, 1<<20)
		for _, g := range strings.Split(string(buf[:runtime.Stack(buf, true)]), "\n\n") {
			if (strings.Contains(g, "tureen/bot") || strings.Contains(g, "discordgo.")) && !strings.Contains(g, "leftBehind") {
				found = append(found, g)
			}
		}
		if len(found) <= meantDeadlocks {
			return 0
		}
		<-time.After(100 * time.Millisecond)
	}
	fmt.Printf("%d goroutines left behind:\n%s\n", len(found), strings.Join(found, "\n\n"))
	return 1
}

// quick is production's timing for the impatient. The lock's limit stays above the second for which the
// library sleeps with its lock held.
func quick() timing {
	q := production
	q.deferAfter, q.offerWithin = 300*time.Millisecond, slowness*2*time.Second
	q.callWithin, q.tryWithin, q.retryPause = slowness*5*time.Second, slowness*2*time.Second, 5*time.Millisecond
	q.openWithin, q.watch = slowness*time.Second, 20*time.Millisecond
	q.lockLimit = slowness * 3 * time.Second
	q.backOffMin, q.backOffMax = 10*time.Millisecond, 50*time.Millisecond
	q.identifyEvery = 10 * time.Millisecond
	return q
}

func newTestGuard(t *testing.T, s *standin.Server, q timing) *guard {
	t.Helper()
	api, err := parseAPI(s.URL)
	if err != nil {
		t.Fatal(err)
	}
	tr := http.DefaultTransport.(*http.Transport).Clone()
	t.Cleanup(tr.CloseIdleConnections)
	return &guard{api: api, next: tr, time: q}
}

func newTestRest(t *testing.T, s *standin.Server, q timing) *rest {
	t.Helper()
	r, err := newRest(standin.Token, newTestGuard(t, s, q))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// heard runs a gateway until the test ends and collects the kinds of events.
type heard struct {
	*gateway
	mu    sync.Mutex
	kinds []string
	stop  context.CancelFunc
	ended chan error
}

func runGateway(t *testing.T, s *standin.Server, token string, q timing) *heard {
	t.Helper()
	k := &heard{ended: make(chan error, 1)}
	k.gateway = &gateway{token: token, guard: newTestGuard(t, s, q), time: q, log: testLog(t), intents: intents(false),
		counts: &counts{},
		event: func(kind string, _ json.RawMessage) {
			k.mu.Lock()
			defer k.mu.Unlock()
			k.kinds = append(k.kinds, kind)
		}}
	ctx, cancel := context.WithCancel(context.Background())
	k.stop = cancel
	done := make(chan struct{})
	go func() { defer close(done); k.ended <- k.run(ctx) }()
	t.Cleanup(func() { cancel(); <-done })
	return k
}

func (k *heard) seen(kind string) int {
	k.mu.Lock()
	defer k.mu.Unlock()
	n := 0
	for _, x := range k.kinds {
		if x == kind {
			n++
		}
	}
	return n
}

// eventually waits for what another goroutine brings about.
func eventually(t *testing.T, what string, holds func() bool) {
	t.Helper()
	look := time.NewTicker(5 * time.Millisecond)
	defer look.Stop()
	limit := time.After(slowness * 40 * time.Second)
	for !holds() {
		select {
		case <-look.C:
		case <-limit:
			t.Fatalf("%s: not within 40 s", what)
		}
	}
}

func TestAPIAddress(t *testing.T) {
	for _, c := range []struct {
		in string
		ok bool
	}{
		{"", true}, {"http://127.0.0.1:8080", true}, {"http://localhost:1", true}, {"http://[::1]:2", true},
		{"http://discord.example", false}, {"http://10.0.0.1:8080", false}, {"127.0.0.1:80", false},
		{"ftp://127.0.0.1", false},
		{"http://127.0.0.1.example.org", false}, {"http://localhost@example.org", false},
	} {
		if _, err := parseAPI(c.in); (err == nil) != c.ok {
			t.Errorf("parseAPI(%q): got %v, want ok %v", c.in, err, c.ok)
		}
	}
}

// nowhere is a network that must not be reached.
type nowhere struct{ t *testing.T }

func (n nowhere) RoundTrip(r *http.Request) (*http.Response, error) {
	n.t.Errorf("a request went to %s", r.URL.Host)
	return nil, errors.New("no")
}

func TestTokenStaysHome(t *testing.T) {
	g := &guard{next: nowhere{t}, time: quick()}
	for _, address := range []string{"https://discord.com.example/api", "http://discord.com/api/v9/gateway",
		"https://cdn.discordapp.com/x"} {
		req, _ := http.NewRequest("GET", address, nil)
		if _, err := g.RoundTrip(req); !errors.Is(err, errForeign) {
			t.Errorf("%s: got %v, want a refusal", address, err)
		}
	}
	var l line
	for _, address := range []string{"ws://127.0.0.1:1/", "ws://gateway.discord.gg:443/", "wss://discord.gg.example/",
		"wss://127.0.0.1:1/"} {
		if _, _, err := l.dialer(false, time.Second, time.Second).Dial(address, nil); !errors.Is(err, errForeign) {
			t.Errorf("%s: got %v, want a refusal", address, err)
		}
	}
	for _, address := range []string{"wss://gateway.discord.gg/", "ws://192.0.2.1:1/"} {
		if _, _, err := l.dialer(true, time.Second, time.Second).Dial(address, nil); !errors.Is(err, errForeign) {
			t.Errorf("with a stand-in, %s: got %v, want a refusal", address, err)
		}
	}
}

func TestRedact(t *testing.T) {
	api := func(before, path string) string { return before + "https://discord.com/api/v9/" + path }
	for in, want := range map[string]string{
		api(`Post "`, `interactions/123/aW50ZXJhY3Rpb24/callback"`): api(`Post "`, `interactions/123/…/callback"`),
		api("", "webhooks/9/abc.def/messages/@original"):            api("", "webhooks/9/…/messages/@original"),
		`token Bot ` + standin.Token + ` refused`:                   `token … refused`,
	} {
		if got := redact(in); got != want {
			t.Errorf("redact(%q) = %q, want %q", in, got, want)
		}
	}
}

const messageRoute = "/channels/:/messages"

func hello(nonce string) map[string]any {
	m := map[string]any{"content": "hello", "allowed_mentions": map[string]any{"parse": []string{}}}
	if nonce != "" {
		m["nonce"], m["enforce_nonce"] = nonce, true
	}
	return m
}

// TestRequests scripts what goes wrong with requests. Faults of the library (v0.29.0) are named beside.
func TestRequests(t *testing.T) {
	for _, c := range []struct {
		name   string
		fault  standin.Fault
		nonce  bool
		ok     bool
		calls  int
		atMost time.Duration
	}{
		{"500 is repeated where that is safe (the library does not: #1586)", standin.Fault{Status: 500}, true, true, 2,
			slowness * time.Second},
		{"503 and 504 too", standin.Fault{Status: 503, Times: 3}, true, true, 4, slowness * time.Second},
		{"500 after the message was made: the nonce keeps it single", standin.Fault{Status: 500, After: true}, true, true, 2,
			slowness * time.Second},
		{"500 is not repeated where that may do it twice", standin.Fault{Status: 500, After: true}, false, false, 1,
			slowness * time.Second},
		{"a dropped connection", standin.Fault{Status: 0}, true, true, 2, slowness * time.Second},
		{"429 of the route", standin.Fault{Status: 429, Retry: 60 * time.Millisecond}, false, true, 2,
			slowness * time.Second},
		{"429 with HTML (the library: a json.SyntaxError)", standin.Fault{Status: 429, Retry: 60 * time.Millisecond,
			Body: "<html>slow down</html>"}, false, true, 2, slowness * time.Second},
		{"429 that asks for more time than there is (the library sleeps on)", standin.Fault{Status: 429, Retry: time.Hour},
			false, false, 1, slowness * time.Second},
		{"a server that hangs", standin.Fault{Status: 500, Delay: time.Minute}, false, false, 1, 4 * time.Second * slowness},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := standin.New(t)
			r := newTestRest(t, s, quick())
			c.fault.Method, c.fault.Route = "POST", messageRoute
			s.Break(c.fault)
			p := s.Person("Ada", s.Guild(), s.Channel("1"))
			nonce := ""
			if c.nonce {
				nonce = "r1.0"
			}
			ctx := withSending(context.Background(), &sending{repeatable: c.nonce})
			began := time.Now()
			err := r.do(ctx, "POST", "channels/"+p.Where+"/messages", hello(nonce), nil)
			if (err == nil) != c.ok {
				t.Errorf("got %v, want ok %v", err, c.ok)
			}
			if got := s.Calls("POST " + messageRoute); got != c.calls {
				t.Errorf("%d requests, want %d", got, c.calls)
			}
			if n := len(p.Messages()); c.ok && n != 1 {
				t.Errorf("%d messages arrived, want 1", n)
			}
			if d := time.Since(began); d > c.atMost {
				t.Errorf("took %v, want at most %v", d, c.atMost)
			}
		})
	}
}

// TestGlobalLimit: a global 429 on one route holds all others back (the library ignores it), and
// interactions go on. The pause is so long that only callers who cannot wait for it see its end.
func TestGlobalLimit(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	r := newTestRest(t, s, quick())
	s.Break(standin.Fault{Route: "/users/@me", Status: 429, Global: true, Retry: time.Hour})
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Minute)
	defer cancel()
	var limited *limitedError
	if err := r.do(ctx, "GET", "users/@me", nil, nil); !errors.As(err, &limited) {
		t.Fatalf("the first request: got %v, want to hear of the limit", err)
	}
	if err := r.do(ctx, "POST", "interactions/1/none/callback", map[string]any{"type": 5},
		nil); codeOf(err) != codeUnknownInteraction {
		t.Errorf("an interaction was held back: got %v, want the code %d", err, codeUnknownInteraction)
	}
	if err := r.do(ctx, "GET", "applications/@me", nil, nil); !errors.As(err, &limited) {
		t.Errorf("another route: got %v, want it to be held", err)
	}
	if n := s.Calls("GET /applications/@me"); n != 0 {
		t.Errorf("another route was asked %d times under the limit", n)
	}
}

// TestGlobalLimitEnds: who can wait for the end of a global limit gets an answer after it, and so do others.
func TestGlobalLimitEnds(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	r := newTestRest(t, s, quick())
	const pause = 300 * time.Millisecond
	s.Break(standin.Fault{Route: "/users/@me", Status: 429, Global: true, Retry: pause})
	began := time.Now()
	if err := r.do(context.Background(), "GET", "users/@me", nil, nil); err != nil {
		t.Error(err)
	}
	if d := time.Since(began); d < pause*9/10 {
		t.Errorf("the route was asked again after %v, want %v", d, pause)
	}
	if err := r.do(context.Background(), "GET", "applications/@me", nil, nil); err != nil {
		t.Error(err)
	}
	if n, m := s.Calls("GET /users/@me"), s.Calls("GET /applications/@me"); n != 2 || m != 1 {
		t.Errorf("the routes were asked %d times and %d, want 2 and 1", n, m)
	}
}

// TestRouteLimit: a route whose requests are spent is not asked again before its reset.
func TestRouteLimit(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	r := newTestRest(t, s, quick())
	s.Limit("POST", messageRoute, 2, 300*time.Millisecond)
	a, b := s.Channel("1"), s.Channel("1")
	began := time.Now()
	for range 3 {
		if err := r.do(context.Background(), "POST", "channels/"+a+"/messages", hello(""), nil); err != nil {
			t.Fatal(err)
		}
	}
	if d := time.Since(began); d < 200*time.Millisecond {
		t.Errorf("three messages took %v, want the limit's window", d)
	}
	if err := r.do(context.Background(), "POST", "channels/"+b+"/messages", hello(""), nil); err != nil {
		t.Fatal(err)
	}
	if n := s.Calls("POST " + messageRoute); n != 4 {
		t.Errorf("%d requests, want 4: none that the limit refuses", n)
	}
}

func TestRefusals(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	r := newTestRest(t, s, quick())
	p := s.Person("Ada", "", "").InDirect()
	p.CloseMessages(true)
	err := r.do(context.Background(), "POST", "channels/"+p.Where+"/messages", hello(""), nil)
	if codeOf(err) != codeMessagesClosed || !certain(err) {
		t.Errorf("closed messages: got %v, want the code %d, certain", err, codeMessagesClosed)
	}
	bad, err := newRest("wrong", newTestGuard(t, s, quick()))
	if err != nil {
		t.Fatal(err)
	}
	var e *apiError
	if err := bad.do(context.Background(), "GET", "users/@me", nil, nil); !errors.As(err, &e) || e.status != 401 {
		t.Errorf("a wrong token: got %v, want 401", err)
	}
}

// TestGateway scripts what goes wrong at the gateway; each must end with a session that gets events.
func TestGateway(t *testing.T) {
	for _, c := range []struct {
		name   string
		before func(*standin.Gateway)
		after  func(*standin.Server)
		quick  func(*timing)
		ids    int // IDENTIFYs at least
		resume int // RESUMEs at least
	}{
		{name: "a quiet start", ids: 1},
		{name: "no HELLO (the library hangs with its lock held)", before: func(g *standin.Gateway) { g.NoHello = true },
			after: func(s *standin.Server) { s.Gateway(func(g *standin.Gateway) { g.NoHello = false }) }, ids: 1},
		{name: "dropped before HELLO", before: func(g *standin.Gateway) { g.Drops = 2 }, ids: 1},
		{name: "dropped before HELLO while resuming", after: func(s *standin.Server) {
			s.Gateway(func(g *standin.Gateway) { g.Drops = 1 })
			s.DropConnections()
		}, ids: 2},
		{name: "dropped again once resumed", after: func(s *standin.Server) {
			s.DropConnections()
			s.WaitConnects(2, 20*time.Second)
			s.Online(20 * time.Second)
			s.DropConnections()
		}, resume: 2, ids: 1},
		{name: "silence after IDENTIFY", before: func(g *standin.Gateway) {
			g.OnIdentify = []standin.Greeting{standin.Silence}
		}, ids: 2},
		{name: "dropped at IDENTIFY", before: func(g *standin.Gateway) {
			g.OnIdentify = []standin.Greeting{standin.Hang}
		}, ids: 2},
		{name: "INVALID_SESSION at IDENTIFY", before: func(g *standin.Gateway) {
			g.OnIdentify = []standin.Greeting{standin.Invalid}
		}, ids: 2},
		{name: "dropped while ready", after: func(s *standin.Server) { s.DropConnections() }, resume: 1, ids: 1},
		{name: "asked to reconnect", after: func(s *standin.Server) { s.SendAll(7) }, resume: 1, ids: 1},
		{name: "closed with 4000", after: func(s *standin.Server) { s.CloseAll(4000) }, resume: 1, ids: 1},
		{name: "dropped at RESUME", before: func(g *standin.Gateway) { g.OnResume = []standin.Greeting{standin.Hang} },
			after: func(s *standin.Server) { s.DropConnections() }, resume: 1, ids: 2},
		{name: "INVALID_SESSION at RESUME", before: func(g *standin.Gateway) {
			g.OnResume = []standin.Greeting{standin.Invalid}
		},
			after: func(s *standin.Server) { s.DropConnections() }, resume: 1, ids: 2},
		{name: "heartbeats unanswered (the library waits for five intervals)", before: func(g *standin.Gateway) {
			g.IgnoreBeat, g.Heartbeat = true, 100*time.Millisecond
		},
			after: func(s *standin.Server) {
				s.WaitConnects(2, 20*time.Second) // the first connection is given up
				s.Gateway(func(g *standin.Gateway) { g.IgnoreBeat = false })
			}, quick: func(q *timing) { q.ackLimit = 300 * time.Millisecond }, ids: 2},
		{name: "a heartbeat asked for", after: func(s *standin.Server) { s.SendAll(1) }, ids: 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := standin.New(t)
			if c.before != nil {
				s.Gateway(c.before)
			}
			q := quick()
			if c.quick != nil {
				c.quick(&q)
			}
			k := runGateway(t, s, standin.Token, q)
			if c.after != nil {
				if c.before == nil || c.resume > 0 {
					if !s.Online(10 * time.Second) {
						t.Fatal("never online")
					}
				}
				c.after(s)
			}
			eventually(t, "an event comes", func() bool {
				_, ids, resumes := s.Connects()
				if ids < c.ids || resumes < c.resume {
					return false
				}
				s.Dispatch("GUILD_DELETE", map[string]any{"id": "1"})
				return k.seen("GUILD_DELETE") > 0
			})
			if n := k.abandoned.Load(); n != 0 {
				t.Errorf("%d sessions deadlocked", n)
			}
		})
	}
}

// TestDeadlock: op 7 as the answer to RESUME deadlocks the library for good, Close too (#513, #1694). The
// session is left behind and replaced.
func TestDeadlock(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	s.Gateway(func(g *standin.Gateway) { g.OnResume = []standin.Greeting{standin.Reconnect} })
	k := runGateway(t, s, standin.Token, quick())
	if !s.Online(10 * time.Second) {
		t.Fatal("never online")
	}
	s.DropConnections()
	eventually(t, "a new session", func() bool {
		_, ids, _ := s.Connects()
		return ids == 2 && k.ready.Load()
	})
	if n := k.abandoned.Load(); n != 1 {
		t.Errorf("%d sessions left behind, want 1", n)
	}
}

// TestFatal: a gateway that will refuse us next time too is not asked again (the library asks for ever).
func TestFatal(t *testing.T) {
	for _, code := range []int{4004, 4010, 4011, 4012, 4013, 4014} {
		t.Run(fmt.Sprint(code), func(t *testing.T) {
			t.Parallel()
			s := standin.New(t)
			s.Gateway(func(g *standin.Gateway) {
				g.CloseCode = code
				g.OnIdentify = []standin.Greeting{standin.Refuse, standin.Refuse, standin.Refuse}
			})
			k := runGateway(t, s, standin.Token, quick())
			select {
			case err := <-k.ended:
				var e *stopped
				if !errors.As(err, &e) || strings.Contains(err.Error(), standin.Token) {
					t.Errorf("got %v, want a reason to stop", err)
				}
			case <-time.After(10 * time.Second):
				t.Fatal("still trying")
			}
			if _, ids, _ := s.Connects(); ids != 1 {
				t.Errorf("%d IDENTIFYs, want 1", ids)
			}
		})
	}
}

// TestStopWhileTrying: stopping during the back-off ends everything (the library would open again later).
func TestStopWhileTrying(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	s.Break(standin.Fault{Route: "/gateway", Status: 404, Times: 1000})
	q := quick()
	q.backOffMin, q.backOffMax = time.Minute, time.Minute
	k := runGateway(t, s, standin.Token, q)
	eventually(t, "the first attempt", func() bool { return s.Calls("GET /gateway") > 0 })
	k.stop()
	select {
	case err := <-k.ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(5 * time.Second):
		t.Fatal("does not stop")
	}
	if n, _, _ := s.Connects(); n != 0 {
		t.Errorf("%d connections, want none", n)
	}
}
