package console

import (
	"context"
	"errors"
	"io"
	"log/slog"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tureen/bot/talk"
	"tureen/store"
)

var monday = time.Date(2026, 9, 14, 18, 0, 0, 0, time.UTC)

// sit opens a chat on a database of its own; what it prints ends up in the builder.
func sit(t *testing.T) (*Chat, *strings.Builder) {
	t.Helper()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "tureen.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	var out strings.Builder
	return New(s, "Ana", monday, t.TempDir(), &out, slog.New(slog.NewTextHandler(io.Discard, nil))), &out
}

const supper = `/party new name:Supper date:2026-09-26 arrive:19:00 covers:4 zone:Europe/Lisbon courses:main 20:00
/dish add name:Crème caramel course:main
/step add dish:creme-caramel name:bake time:40 min
`

func TestCompletion(t *testing.T) {
	c, _ := sit(t)
	if n, err := c.Lines(context.Background(), strings.NewReader(supper)); n != 0 || err != nil {
		t.Fatalf("%d refused, %v", n, err)
	}
	for _, row := range []struct{ typed, want, choices string }{
		{"/par", "/party ", "/party new ,/party show ,/party list,/party use ,/party change ,/party remove ,/party thread " +
			",/party here ,/party bring-back "},
		{"par", "/party ", "/party new ,/party show ,/party list,/party use ,/party change ,/party remove ,/party thread " +
			",/party here ,/party bring-back "},
		{"/party sh", "/party show ", "/party show "},
		{"/dish show d", "/dish show dish:", "dish:"},
		{"/dish show dish:cr", "/dish show dish:creme-caramel", "creme-caramel"},
		{"/dish show dish:karamel", "/dish show dish:karamel", ""},
		{"/step change step:creme-caramel/bake at", "/step change step:creme-caramel/bake attention:", "attention:"},
		{"/step change step:creme-caramel/bake attention:un", "/step change step:creme-caramel/bake attention:unattended",
			"unattended"},
		{"/no such", "/no such", ""},
		{"", "/", ""},
	} {
		got, choices := Complete(context.Background(), c.bot, channel, userOf("Ana"), row.typed)
		if row.typed == "" {
			if len(choices) < 20 {
				t.Errorf("an empty line offers %d commands", len(choices))
			}
			continue
		}
		if got != row.want || strings.Join(choices, ",") != row.choices {
			t.Errorf("%q: got %q, %q, want %q, %s", row.typed, got, choices, row.want, row.choices)
		}
	}
}

// Two people at one terminal, told apart by their names, and a time that never goes back.
func TestLinesOfTheirOwn(t *testing.T) {
	c, out := sit(t)
	said := supper + strings.Join([]string{
		"wait 90 min", "wait until 2026-09-14 10:00", "wait 20-30 min", "wait", "wait 5000 days", "wait until 6:00", "press",
		"press 0", "press one",
		"Ben> /dish list", "Ben>", "> /dish list", "   ", "# a remark", "/dish add name:\xff\xfe course:main",
	}, "\n")
	refused, err := c.Lines(context.Background(), strings.NewReader(said))
	if err != nil {
		t.Fatal(err)
	}
	if refused != 9 { // a quote is no message, and who says nothing is greeted
		t.Errorf("%d messages were refused, want 9:\n%s", refused, out)
	}
	// 18:00 UTC is 19:00 in Lisbon; then 90 minutes, then the next morning at 6.
	if want := time.Date(2026, 9, 15, 5, 0, 0, 0, time.UTC); !c.clock.now().Equal(want) {
		t.Errorf("it is %v, want %v", c.clock.now(), want)
	}
}

// A line that is too long for any message ends the talk with an error, not with half a message.
func TestEndlessLine(t *testing.T) {
	c, _ := sit(t)
	if _, err := c.Lines(context.Background(), strings.NewReader("/"+strings.Repeat("a", 5<<20))); err == nil {
		t.Error("no error")
	}
	if _, err := c.Lines(context.Background(), broken{}); !errors.Is(err, io.ErrUnexpectedEOF) {
		t.Errorf("got %v, want what the reader says", err)
	}
}

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, io.ErrUnexpectedEOF }

// TestFormerPress: a button that says words of formerly acts, and says nothing of them; whoever types them hears it.
func TestFormerPress(t *testing.T) {
	c, out := sit(t)
	ctx := context.Background()
	if _, err := c.Lines(ctx, strings.NewReader(supper)); err != nil {
		t.Fatal(err)
	}
	const old = "shopping add thing:candles amount:12"
	out.Reset()
	c.screen.begin()
	c.screen.reply(talk.Reply{Text: "An old message.", Buttons: []talk.Button{{Label: "Add", Do: old}}})
	refused := c.line(ctx, "press 1")
	if got := out.String(); refused || !strings.Contains(got, "12 candles") || strings.Contains(got, "is now") {
		t.Errorf("pressed: %s", got)
	}
	out.Reset()
	refused = c.line(ctx, "/shopping have thing:candles")
	if got := out.String(); refused || !strings.Contains(got, "thing: is now item:") {
		t.Errorf("typed: %s", got)
	}
}
