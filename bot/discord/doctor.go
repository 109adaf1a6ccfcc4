package discord

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"time"

	"tureen/store"
)

// Flags of an application that may hear of members; limited: in fewer than 100 communities. Page resources/application.
const (
	membersAllowed = 1 << 14
	membersLimited = 1 << 15
)

// installLink is where one invites the bot.
func installLink(app string) string {
	return fmt.Sprintf("https://discord.com/oauth2/authorize?client_id=%s&scope=bot+applications.commands&permissions=%d",
		app, permissions())
}

// maxSkew is how far this machine's clock may be off: reminders would come as late.
const maxSkew = 30 * time.Second

// Doctor is "tureen doctor": it looks at everything that serving needs, says what is wrong and what to do,
// and answers the exit status. It changes nothing, but for making the database where there is none.
func Doctor(ctx context.Context, args []string, _ io.Reader, out, errs io.Writer) int {
	c, status, goOn := readSettings("doctor", "see whether tureen serve would work, with the same flags.", args, errs)
	if !goOn {
		return status
	}
	found := func(what string, err error) bool {
		if err != nil {
			fmt.Fprintf(out, "!! %s: %v\n", what, err)
			status = 1
			return false
		}
		fmt.Fprintf(out, "ok %s\n", what)
		return true
	}
	for _, f := range c.findings() {
		found(f.what, f.err)
	}
	if c.fetching {
		found("addresses: /recipe read opens public https pages, and no others", nil)
	} else {
		found("addresses: none is opened (-fetch lets /recipe read open public pages)", nil)
	}
	s, err := store.Open(ctx, c.db)
	if found("database "+c.db, err) {
		defer s.Close()
	}
	if status != 0 && (tokenThere() != nil || s == nil) {
		return status
	}
	u, err := parseAPI(c.api)
	if err != nil {
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
			err = &stopped{why: tokenRefused}
		}
		found("token", err)
		return status
	}
	found("token, of the bot "+me.Username, nil)
	if skew := g.clockSkew(); skew.Abs() > maxSkew {
		found("clock", fmt.Errorf("this machine's clock is %v off; set it, or reminders come at wrong times",
			skew.Round(time.Second)))
	} else {
		found("clock", nil)
	}
	found("gateway", c.lookAtGateway(ctx, r))
	var app struct {
		ID    string
		Flags int
	}
	if found("application", r.do(ctx, "GET", "applications/@me", nil, &app)) {
		switch {
		case !c.members:
			found("intents: none that need asking for", nil)
		case app.Flags&(membersAllowed|membersLimited) == 0:
			found("intents",
				errors.New("allow the Server Members Intent on the application's page (Bot), or leave -members out"))
		default:
			found("intents: the one for members", nil)
		}
		for _, f := range lookAtPermissions(ctx, r, s, me.ID) {
			found(f.what, f.err)
		}
		fmt.Fprintf(out, "Invite the bot here: %s\n", installLink(app.ID))
	}
	return status
}

// lookAtGateway asks how many connections the platform recommends and has left for today.
func (c *settings) lookAtGateway(ctx context.Context, r *rest) error {
	var gate start
	err := r.do(ctx, "GET", "gateway/bot", nil, &gate)
	share, shareErr := c.share()
	switch shards := max(1, gate.Shards); {
	case err != nil || shareErr != nil:
	case gate.Limit.Remaining < share.count(shards):
		err = errors.New("today's connections are used up; wait a day, and see why it connects so often")
	case share.Shards > 0 && share.Shards < shards:
		err = fmt.Errorf("it recommends %d shards; leave -shards out, or give as many", shards)
	}
	return err
}
