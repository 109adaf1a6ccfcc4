package discord

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net/http"
	"os"
	"time"

	"tureen/store"
)

// permissions are what the bot needs in a party's channel: to see it, to write (in threads too), to open
// threads, to embed links, to attach files and to read the history. Page topics/permissions.
const permissions = 1<<10 | 1<<11 | 1<<35 | 1<<38 | 1<<14 | 1<<15 | 1<<16

// Flags of an application that may hear of members; limited: in fewer than 100 communities. Page resources/application.
const (
	membersAllowed = 1 << 14
	membersLimited = 1 << 15
)

// installLink is where one invites the bot.
func installLink(app string) string {
	return fmt.Sprintf("https://discord.com/oauth2/authorize?client_id=%s&scope=bot+applications.commands&permissions=%d", app, permissions)
}

// maxSkew is how far this machine's clock may be off: reminders would come as late.
const maxSkew = 30 * time.Second

// Doctor is "tureen doctor": it looks at everything that serving needs, says what is wrong and what to do,
// and answers the exit status. It changes nothing, but for making the database where there is none.
func Doctor(ctx context.Context, args []string, _ io.Reader, out, errs io.Writer) int {
	flags := flag.NewFlagSet("tureen doctor", flag.ContinueOnError)
	flags.SetOutput(errs)
	db := flags.String("db", "tureen.db", "the database `file`")
	api := flags.String("api", "", "the `URL` of a stand-in for Discord on this machine")
	zone := flags.String("zone", "UTC", "the `time zone` of parties that are started without one")
	fetching := flags.Bool("fetch", false, "whether serve is to open the addresses of recipes")
	members := flags.Bool("members", false, "whether serve is to hear at once who leaves a community")
	flags.Usage = func() {
		fmt.Fprintln(errs, "tureen doctor: see whether tureen serve would work, with the same flags.")
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return badUse
	}
	status := 0
	found := func(what string, err error) bool {
		if err != nil {
			fmt.Fprintf(out, "!! %s: %v\n", what, err)
			status = 1
			return false
		}
		fmt.Fprintf(out, "ok %s\n", what)
		return true
	}
	_, err := time.LoadLocation(*zone)
	found("time zone "+*zone, err)
	if *fetching {
		found("addresses: /recipe read opens public https pages, and no others", nil)
	} else {
		found("addresses: none is opened (-fetch lets /recipe read open public pages)", nil)
	}
	s, err := store.Open(ctx, *db)
	if found("database "+*db, err) {
		s.Close()
	}
	if os.Getenv(TokenVariable) == "" {
		found("token", fmt.Errorf("copy it from the application's page at Discord (Bot, Reset Token) into %s", TokenVariable))
		return status
	}
	u, err := parseAPI(*api)
	if err != nil {
		found("API", err)
		return status
	}
	t := http.DefaultTransport.(*http.Transport).Clone()
	defer t.CloseIdleConnections()
	g := &guard{api: u, next: t, time: production}
	r, err := newRest(os.Getenv(TokenVariable), g)
	if err != nil {
		found("token", err)
		return status
	}
	var me struct{ ID, Username string }
	if err := r.do(ctx, "GET", "users/@me", nil, &me); err != nil {
		var e *apiError
		if errors.As(err, &e) && e.status == http.StatusUnauthorized {
			err = &stopped{tokenRefused}
		}
		found("token", err)
		return status
	}
	found("token, of the bot "+me.Username, nil)
	if skew := g.clockSkew(); skew.Abs() > maxSkew {
		found("clock", fmt.Errorf("this machine's clock is %v off; set it, or reminders come at wrong times", skew.Round(time.Second)))
	} else {
		found("clock", nil)
	}
	var gate struct {
		Limit struct {
			Remaining int `json:"remaining"`
		} `json:"session_start_limit"`
	}
	if err := r.do(ctx, "GET", "gateway/bot", nil, &gate); err == nil && gate.Limit.Remaining == 0 {
		found("gateway", errors.New("today's connections are used up; wait a day, and see why it connects so often"))
	} else {
		found("gateway", err)
	}
	var app struct {
		ID    string
		Flags int
	}
	if found("application", r.do(ctx, "GET", "applications/@me", nil, &app)) {
		switch {
		case !*members:
			found("intents: none that need asking for", nil)
		case app.Flags&(membersAllowed|membersLimited) == 0:
			found("intents", errors.New("allow the Server Members Intent on the application's page (Bot), or leave -members away"))
		default:
			found("intents: the one for members", nil)
		}
		fmt.Fprintf(out, "Invite the bot here: %s\n", installLink(app.ID))
	}
	return status
}
