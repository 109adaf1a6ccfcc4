package console

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"os"
	"strings"
	"time"

	"golang.org/x/term"

	"tureen/bot"
	"tureen/bot/fetch"
	"tureen/bot/talk"
	"tureen/reminders"
	"tureen/store"
)

// Exit statuses. With -strict, the number of messages refused comes as 1 to MostRefused.
const (
	MostRefused = 100
	BadUse      = 2   // of the command line, for commands that count nothing
	CannotRun   = 125 // the database cannot be used, or the flags make no sense
)

// DefaultDB is the database where nobody names one: a file in the folder that one works in.
const DefaultDB = "tureen.db"

// Chat is one sitting at the terminal.
type Chat struct {
	bot        *bot.Bot
	dispatcher *reminders.Dispatcher
	screen     *screen
	clock      *clock
	log        *slog.Logger
	as         string
	channel    string
	echo       bool // print each line that is read, since nobody has seen it typed
}

// New makes a chat on a store; the caller closes the store after it. A zero now is the real time.
func New(s *store.Store, as string, now time.Time, files string, out io.Writer, log *slog.Logger) *Chat {
	return newChat(s, as, now, files, out, log, nil)
}

// newChat is New with what opens addresses; nil opens none.
func newChat(s *store.Store, as string, now time.Time, files string, out io.Writer, log *slog.Logger,
	f bot.Fetcher) *Chat {
	c := &Chat{screen: &screen{out: out, files: files}, clock: &clock{set: now}, log: log, as: as, channel: channel}
	c.bot = bot.New(s, c.clock.now, log, bot.Options{Zone: localZone(), Fetch: f})
	c.dispatcher = &reminders.Dispatcher{Store: s, Deliverer: c, Scope: store.Scope{Only: community}, Now: c.clock.now,
		Log: log}
	return c
}

// localZone is the machine's time zone where it has a name that others know, else UTC.
func localZone() *time.Location {
	name := os.Getenv("TZ")
	if name == "" {
		if link, err := os.Readlink("/etc/localtime"); err == nil {
			if _, zone, ok := strings.Cut(link, "zoneinfo/"); ok {
				name = zone
			}
		}
	}
	if zone, err := time.LoadLocation(name); err == nil && name != "" {
		return zone
	}
	return time.UTC
}

// Deliver implements [reminders.Deliverer]: a note arrives by being printed. What was printed cannot be changed: of a
// message that should say something else now, the first line is printed.
func (c *Chat) Deliver(_ context.Context, n reminders.Note) (string, error) {
	zone := time.UTC
	if z := c.bot.PartyZone(context.Background(), community, n.Party); z != nil {
		zone = z
	}
	if n.MaybeRepeat {
		n = n.AsRepeat()
	}
	if n.Edits != "" {
		c.screen.changed(n)
		return n.Edits, nil
	}
	c.screen.note(n, c.clock.now().In(zone).Format("Mon 15:04"))
	return n.Channel + "/" + n.Key, nil
}

func (c *Chat) tick(ctx context.Context) {
	if _, err := c.dispatcher.Tick(ctx, c.clock.now()); err != nil {
		c.log.ErrorContext(ctx, "sending reminders", "error", err)
	}
}

// Lines reads messages one a line, prints each with its answer, and counts those refused.
func (c *Chat) Lines(ctx context.Context, in io.Reader) (refused int, err error) {
	lines := bufio.NewScanner(in)
	lines.Buffer(make([]byte, 0, 64<<10), 4<<20)
	c.echo = true
	c.tick(ctx)
	var gather talk.Gather
	for more := true; more; {
		var text string
		whole := true
		if more = lines.Scan(); more {
			text, whole = gather.Line(strings.ToValidUTF8(lines.Text(), "�"))
		} else {
			text = gather.Rest()
		}
		text = strings.TrimSpace(text)
		switch {
		case !whole:
			continue
		case text == "":
			continue
		case strings.HasPrefix(text, "#"):
			c.screen.print(text + "\n")
			continue
		case spoken.MatchString(text):
			c.screen.print(cut(text) + "\n")
		default:
			c.screen.print(c.as + "> " + cut(text) + "\n")
		}
		if c.line(ctx, text) {
			refused++
		}
	}
	return refused, lines.Err()
}

// cut shortens a line that is only printed again.
func cut(text string) string {
	const most = 400
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// Main is "tureen chat": it reads its flags, opens the database and talks until the input ends. It answers
// the exit status.
func Main(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	flags := flag.NewFlagSet("tureen chat", flag.ContinueOnError)
	flags.SetOutput(errs)
	db := flags.String("db", DefaultDB, "the database `file`; it is made when it is not there")
	as := flags.String("as", defaultName(), "the `name` of whoever speaks")
	at := flags.String("now", "", "a `time` to begin at instead of now, such as 2026-09-14T18:00 or "+
		"2026-09-14T18:00:00Z; the clock then moves by wait alone")
	strict := flags.Bool("strict", false, fmt.Sprintf("end with the number of refused messages as exit status, at most %d",
		MostRefused))
	files := flags.String("files", ".", "the `folder` that files of replies are put into")
	fetching := flags.Bool("fetch", false, "let /recipe read open addresses: public https pages alone")
	flags.Usage = func() {
		fmt.Fprintln(errs, "tureen chat: plan a party by messages. Type /help to see them, or pipe in one message a line.")
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return CannotRun
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(errs, "tureen chat: %q is no flag; messages come from the terminal or a pipe.\n", flags.Arg(0))
		return CannotRun
	}
	var now time.Time
	if *at != "" {
		var err error
		if now, err = time.Parse(time.RFC3339, *at); err == nil {
			now = now.UTC()
		} else if now, err = talk.ParseWhen(*at, time.Now(), localZone()); err != nil {
			fmt.Fprintf(errs, "tureen chat: -now: %v\n", err)
			return CannotRun
		}
	}
	s, err := store.Open(ctx, *db)
	if err != nil {
		fmt.Fprintf(errs, "tureen chat: %v\n", err)
		return CannotRun
	}
	defer s.Close()
	log := slog.New(slog.NewTextHandler(errs, &slog.HandlerOptions{Level: slog.LevelError}))
	var opens bot.Fetcher
	if *fetching {
		opens = fetch.New(fetch.Options{})
	}
	c := newChat(s, *as, now, *files, out, log, opens)
	if file, ok := in.(*os.File); ok && term.IsTerminal(int(file.Fd())) {
		if err := c.Terminal(ctx, file, out); err != nil {
			fmt.Fprintf(errs, "tureen chat: %v\n", err)
			return CannotRun
		}
		return 0
	}
	refused, err := c.Lines(ctx, in)
	if err != nil {
		fmt.Fprintf(errs, "tureen chat: the input cannot be read: %v\n", err)
		return CannotRun
	}
	if *strict {
		return min(refused, MostRefused)
	}
	return 0
}

func defaultName() string {
	for _, v := range []string{"USER", "USERNAME"} {
		if name := os.Getenv(v); name != "" {
			return name
		}
	}
	return "host"
}
