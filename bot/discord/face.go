package discord

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"runtime/debug"
	"sync"
	"sync/atomic"
	"time"

	"tureen/bot"
	"tureen/bot/talk"
)

// Options are a face's settings.
type Options struct {
	Token string // the bot's
	API   string // a stand-in's address, on loopback; empty: the platform
	// Members asks for the privileged intent that tells at once who leaves a community. Without it that is noticed
	// with the next reminder or the next command after a while.
	Members bool
	Share   Share        // which shards are this process's
	Log     *slog.Logger // nil: the default one
}

// Face answers people on Discord. It is a [reminders.Deliverer].
type Face struct {
	bot   *bot.Bot
	guard *guard
	rest  *rest
	files *http.Client
	log   *slog.Logger
	time  timing

	token        string
	share        Share
	hearsMembers bool
	counts       counts

	looking atomic.Bool  // at a community's members: one at a time
	ids     atomic.Value // map[string]string: of commands, by name, once they are registered
	me      atomic.Value // string: the id of the bot's own user; empty before READY
	work    sync.WaitGroup
	workers chan struct{}
	ctx     context.Context // of what people have asked for; it ends after Run's, so that it can be finished
	cancel  context.CancelFunc

	registering sync.Mutex
	mu          sync.Mutex
	gates       []*gateway // none before Run, and none where interactions come by HTTP
	listening   bool       // by HTTP
	known       seen
	registered  bool
	direct      map[string]string      // by person: the channel of direct messages
	here        map[string]time.Time   // by community and person: a member, as of then
	asked       map[string]string      // by interaction: what it asked that only looks, to be asked again
	wayBack     map[string]talk.Button // by message: what takes the last press on it back
	looked      map[string]time.Time   // by community: when its members were last looked at
}

const (
	maxWorkers = 256              // interactions at a time; the library sets no bound
	grace      = 20 * time.Second // for what is under way when the process is to end
)

// New makes a face for a bot. It does nothing before Run, but can deliver.
func New(b *bot.Bot, o Options) (*Face, error) { return newFace(b, o, production) }

func newFace(b *bot.Bot, o Options, t timing) (*Face, error) {
	if o.Token == "" {
		return nil, errors.New("there is no bot token; put it into TUREEN_DISCORD_TOKEN")
	}
	api, err := parseAPI(o.API)
	if err != nil {
		return nil, err
	}
	if o.Log == nil {
		o.Log = slog.Default()
	}
	g := &guard{api: api, next: http.DefaultTransport.(*http.Transport).Clone(), time: t}
	r, err := newRest(o.Token, g)
	if err != nil {
		return nil, err
	}
	f := &Face{token: o.Token, share: o.Share, hearsMembers: o.Members, bot: b, guard: g, rest: r, log: o.Log, time: t,
		workers: make(chan struct{}, maxWorkers), direct: map[string]string{}, here: map[string]time.Time{},
		looked: map[string]time.Time{}, asked: map[string]string{}, wayBack: map[string]talk.Button{},
		files: &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}}
	f.me.Store("")
	f.ctx, f.cancel = context.WithCancel(context.Background())
	return f, nil
}

// Run serves until the context ends, then finishes what is under way. An error means that there is no
// point in going on; its text says what to do.
func (f *Face) Run(ctx context.Context) error {
	err := f.runGates(ctx)
	f.finish()
	return err
}

// finish waits for what is under way.
func (f *Face) finish() {
	done := make(chan struct{})
	go func() { f.work.Wait(); close(done) }()
	limit := time.NewTimer(grace)
	defer limit.Stop()
	select {
	case <-done:
	case <-limit.C:
		f.log.Warn("some answers were not finished")
	}
	f.cancel()
	<-done
	f.Close()
}

// Close frees connections that wait for reuse.
func (f *Face) Close() {
	f.cancel()
	f.guard.next.(*http.Transport).CloseIdleConnections()
	f.files.CloseIdleConnections()
}

// self is the id of the bot's own user.
func (f *Face) self() string { return f.me.Load().(string) }

// event takes what the gateway tells, without blocking it.
func (f *Face) event(kind string, data json.RawMessage) {
	switch kind {
	case "READY":
		var ready struct {
			User struct{ ID string }
			App  struct{ ID string } `json:"application"`
		}
		if err := json.Unmarshal(data, &ready); err != nil || ready.App.ID == "" {
			f.log.Error("the gateway's READY cannot be read", "error", err)
			return
		}
		f.me.Store(ready.User.ID)
		f.spawn("register", func() { f.registerOnce(ready.App.ID) })
	case "INTERACTION_CREATE":
		i := interaction{at: time.Now()}
		if err := json.Unmarshal(data, &i); err != nil {
			f.log.Error("an interaction cannot be read", "error", err)
			return
		}
		f.mu.Lock()
		first := f.known.first(i.ID)
		f.mu.Unlock()
		if first {
			f.spawn("interaction", func() { f.interact(&i) })
		}
	case "MESSAGE_CREATE":
		f.written(data)
	case "GUILD_MEMBER_REMOVE":
		var gone struct {
			Guild string `json:"guild_id"`
			User  person `json:"user"`
		}
		if err := json.Unmarshal(data, &gone); err != nil {
			f.log.Error("who left cannot be read", "error", err)
			return
		}
		f.spawn("left", func() { f.left(f.ctx, gone.Guild, gone.User.ID) })
	}
}

// spawn does something beside the gateway, or reports that too much is under way. A panic costs that one thing; in the
// library it would end the process.
func (f *Face) spawn(what string, do func()) bool {
	select {
	case f.workers <- struct{}{}:
	default:
		f.log.Error("too much at once; dropped", "what", what)
		return false
	}
	f.work.Go(func() {
		defer func() { <-f.workers }()
		defer func() {
			if v := recover(); v != nil {
				f.log.Error("panic", "what", what, "panic", fmt.Sprint(v), "stack", string(debug.Stack()))
			}
		}()
		do()
	})
	return true
}

// registerOnce brings the commands up to date; where that fails, the next READY tries again.
func (f *Face) registerOnce(app string) {
	f.registering.Lock()
	defer f.registering.Unlock()
	f.mu.Lock()
	done := f.registered
	f.mu.Unlock()
	if done {
		return
	}
	if err := f.register(f.ctx, app); err != nil {
		f.log.Error("commands not registered", "error", err)
		return
	}
	f.mu.Lock()
	f.registered = true
	f.mu.Unlock()
}
