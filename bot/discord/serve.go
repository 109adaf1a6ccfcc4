package discord

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"sync"
	"time"

	"tureen/bot"
	"tureen/bot/fetch"
	"tureen/reminders"
	"tureen/store"
)

// TokenVariable is the environment variable that the bot's token is read from.
const TokenVariable = "TUREEN_DISCORD_TOKEN"

// Exit statuses of Main.
const (
	badUse    = 2
	needsYou  = 78  // Discord refuses the token or a setting: starting again does not help
	cannotRun = 125 // also: the supervisor should start it again
)

// Main is "tureen serve": it reads its flags and the token, opens the database and serves until the context
// ends. It answers the exit status.
func Main(ctx context.Context, args []string, _ io.Reader, out, errs io.Writer) int {
	c, status, goOn := readSettings("serve", "answer on Discord.", args, errs)
	if !goOn {
		return status
	}
	complain := func(err error) int {
		fmt.Fprintf(errs, "tureen serve: %v\n", err)
		var e *stopped
		if errors.As(err, &e) {
			return needsYou
		}
		return cannotRun
	}
	for _, f := range c.findings() {
		if f.err != nil {
			return complain(f.err)
		}
	}
	at, err := c.location()
	if err != nil {
		return complain(err)
	}
	share, err := c.share()
	if err != nil {
		return complain(err)
	}
	var watched net.Listener
	if c.metrics != "" {
		if watched, err = net.Listen("tcp", c.metrics); err != nil {
			return complain(fmt.Errorf("metrics: %w", err))
		}
		defer watched.Close()
	}
	s, err := store.Open(ctx, c.db)
	if err != nil {
		return complain(err)
	}
	defer s.Close()
	log := slog.New(slog.NewTextHandler(errs, nil))
	options := bot.Options{Zone: at}
	if c.fetching {
		options.Fetch = fetch.New(fetch.Options{})
	}
	b := bot.New(s, time.Now, log, options)
	face, err := New(b, Options{Token: os.Getenv(TokenVariable), API: c.api, Log: log, Members: c.members, Share: share})
	if err != nil {
		return complain(err)
	}
	fmt.Fprintf(out, "tureen serves %s on Discord; interrupt it to stop.\n", c.db)
	send := &reminders.Dispatcher{Store: s, Deliverer: face, Scope: share.scope(), Log: log}
	if share.first() {
		send.BackupDir = c.backup
	}
	run := face.Run
	if c.listen != "" {
		run = func(ctx context.Context) error { return face.RunEndpoint(ctx, c.listen, c.key) }
	}
	beside := []func(context.Context) error{send.Run}
	if watched != nil {
		fmt.Fprintf(out, "Figures are at http://%s/metrics, and whether people are heard at /health.\n", watched.Addr())
		beside = append(beside, func(ctx context.Context) error { return face.serveWatch(ctx, watched, c.db) })
	}
	if err := serve(ctx, run, beside...); err != nil {
		return complain(err)
	}
	return 0
}

// serve runs a face, and what runs beside it, until the context ends or one of them fails.
func serve(ctx context.Context, run func(context.Context) error, beside ...func(context.Context) error) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	var wait sync.WaitGroup
	errs := make([]error, 1+len(beside))
	for i, f := range beside {
		wait.Go(func() {
			defer cancel()
			errs[1+i] = f(ctx)
		})
	}
	errs[0] = run(ctx)
	cancel()
	wait.Wait()
	return errors.Join(errs...)
}
