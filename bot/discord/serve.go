package discord

import (
	"context"
	"errors"
	"flag"
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
	cannotRun = 125 // also: the supervisor should start it again
)

// Main is "tureen serve": it reads its flags and the token, opens the database and serves until the context
// ends. It answers the exit status.
func Main(ctx context.Context, args []string, _ io.Reader, out, errs io.Writer) int {
	flags := flag.NewFlagSet("tureen serve", flag.ContinueOnError)
	flags.SetOutput(errs)
	db := flags.String("db", "tureen.db", "the database `file`; it is made when it is not there")
	api := flags.String("api", "", "the `URL` of a stand-in for Discord on this machine, such as http://127.0.0.1:8080")
	zone := flags.String("zone", "UTC", "the `time zone` of parties that are started without one")
	backup := flags.String("backup", "", "a `folder` for a backup every day, a file a weekday (made by the process of shard 0)")
	listen := flags.String("interactions", "", "an `address` such as 127.0.0.1:8080 to take interactions at by HTTP, instead of from the gateway; needs -public-key")
	key := flags.String("public-key", "", "the application's public `key`, in hexadecimal digits")
	fetching := flags.Bool("fetch", false, "let /recipe read open addresses: public https pages alone, one at a time as people ask")
	members := flags.Bool("members", false, "hear at once who leaves a community; needs the Server Members Intent, on the application's page (Bot)")
	shards := flags.Int("shards", 0, "divide the communities into `N` shards, all in this process; 0: as Discord recommends")
	shard := flags.String("shard", "", "serve only the shard `I/N`, as 0/4; other processes on this machine serve the others, with the same database")
	metrics := flags.String("metrics", "", "an `address` on this machine, such as 127.0.0.1:9095, for /metrics and /health")
	flags.Usage = func() {
		fmt.Fprintf(errs, "tureen serve: answer on Discord. The bot's token is read from %s.\n", TokenVariable)
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return badUse
	}
	complain := func(err error) int {
		fmt.Fprintf(errs, "tureen serve: %v\n", err)
		return cannotRun
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(errs, "tureen serve: %q is no flag.\n", flags.Arg(0))
		return badUse
	}
	at, err := time.LoadLocation(*zone)
	if err != nil {
		return complain(fmt.Errorf("there is no time zone %q; give one such as Europe/Lisbon", *zone))
	}
	if os.Getenv(TokenVariable) == "" {
		return complain(fmt.Errorf("there is no bot token: copy it from the application's page at Discord (Bot, Reset Token) into %s", TokenVariable))
	}
	if _, err := parseAPI(*api); err != nil {
		return complain(err)
	}
	share, err := parseShare(*shards, *shard)
	if err != nil {
		return complain(err)
	}
	var watched net.Listener
	if *metrics != "" {
		if err := watchAddress(*metrics); err != nil {
			return complain(err)
		}
		if watched, err = net.Listen("tcp", *metrics); err != nil {
			return complain(fmt.Errorf("metrics: %w", err))
		}
		defer watched.Close()
	}
	s, err := store.Open(ctx, *db)
	if err != nil {
		return complain(err)
	}
	defer s.Close()
	log := slog.New(slog.NewTextHandler(errs, nil))
	options := bot.Options{Zone: at}
	if *fetching {
		options.Fetch = fetch.New(fetch.Options{})
	}
	b := bot.New(s, time.Now, log, options)
	face, err := New(b, Options{Token: os.Getenv(TokenVariable), API: *api, Log: log, Members: *members, Share: share})
	if err != nil {
		return complain(err)
	}
	fmt.Fprintf(out, "tureen serves %s on Discord; interrupt it to stop.\n", *db)
	send := &reminders.Dispatcher{Store: s, Deliverer: face, Scope: share.scope(), Log: log}
	if share.first() {
		send.BackupDir = *backup
	}
	run := face.Run
	if *listen != "" {
		if _, err := face.Endpoint(*key); err != nil {
			return complain(err)
		}
		run = func(ctx context.Context) error { return face.RunEndpoint(ctx, *listen, *key) }
	}
	beside := []func(context.Context) error{send.Run}
	if watched != nil {
		fmt.Fprintf(out, "Figures are at http://%s/metrics, and whether people are heard at /health.\n", watched.Addr())
		beside = append(beside, func(ctx context.Context) error { return face.serveWatch(ctx, watched, *db) })
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
