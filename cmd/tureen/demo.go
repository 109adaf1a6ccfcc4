package main

import (
	"context"
	_ "embed"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"time"

	"tureen/bot/console"
	"tureen/store"
)

// demoStory is a party from its first message to its last dish: remarks, messages and waits, as a person
// would type them into "tureen chat".
//
//go:embed demo.txt
var demoStory string

// demoStart is when the story begins. Its clock is simulated, so that it ends in seconds and always alike.
var demoStart = time.Date(2026, time.December, 2, 8, 30, 0, 0, time.UTC)

// demo is "tureen demo": it plays the story in a chat of its own, on a database that is thrown away.
func demo(ctx context.Context, args []string, _ io.Reader, out, errs io.Writer) int {
	if len(args) > 0 {
		fmt.Fprintf(errs, "tureen demo: it takes no flags or arguments, and %.40q is one\n", args[0])
		return console.BadUse
	}
	if err := playDemo(ctx, out, errs); err != nil {
		fmt.Fprintf(errs, "tureen demo: %v\n", err)
		return console.CannotRun
	}
	return 0
}

func playDemo(ctx context.Context, out, errs io.Writer) error {
	dir, err := os.MkdirTemp("", "tureen-demo-")
	if err != nil {
		return fmt.Errorf("make a folder for the demo's database: %w", err)
	}
	defer os.RemoveAll(dir)
	db, err := store.Open(ctx, filepath.Join(dir, "demo.db"))
	if err != nil {
		return err
	}
	defer db.Close()
	log := slog.New(slog.NewTextHandler(errs, &slog.HandlerOptions{Level: slog.LevelError}))
	_, err = console.New(db, "Marta", demoStart, dir, out, log).Lines(ctx, strings.NewReader(demoStory))
	return err
}
