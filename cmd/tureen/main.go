// Command tureen plans a hosted dinner in a chat.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	_ "time/tzdata" // a machine without time zones knows them all

	"tureen/bot/console"
	"tureen/bot/discord"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}

// subcommand is one thing that tureen does. It reads its own flags and answers the exit status.
type subcommand struct {
	name, help string
	run        func(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) int
}

var subcommands = []subcommand{
	{"demo", "watch a party being planned and hosted, on a simulated clock", demo},
	{"chat", "plan a party at the terminal, or from a pipe", console.Main},
	{"serve", "answer on Discord, and send reminders there", discord.Main},
	{"doctor", "see whether serving would work, and what to do if not", discord.Doctor},
	{"read", "print what is understood of recipe files", read},
	{"plan", "print a party's plan, or draw it into a file", console.Plan},
	{"export", "print a party with its plan as JSON", console.Export},
}

func run(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	if len(args) == 0 {
		usage(errs)
		return console.BadUse
	}
	for _, s := range subcommands {
		if s.name == args[0] {
			return s.run(ctx, args[1:], in, out, errs)
		}
	}
	switch args[0] {
	case "help", "-h", "-help", "--help":
		usage(out)
		return 0
	}
	fmt.Fprintf(errs, "tureen: there is no command %.40q\n", args[0])
	usage(errs)
	return console.BadUse
}

func usage(w io.Writer) {
	fmt.Fprintln(w, "tureen plans a dinner that several people host together: what is cooked, who does what, and when.")
	fmt.Fprintln(w)
	for _, s := range subcommands {
		fmt.Fprintf(w, "  tureen %-8s %s\n", s.name, s.help)
	}
	fmt.Fprintln(w)
	fmt.Fprintln(w, "tureen COMMAND -help lists a command's flags.")
}
