package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// play runs tureen with a standard input and gives its exit status and output.
func play(t *testing.T, in string, args ...string) (int, string) {
	t.Helper()
	var out, errs bytes.Buffer
	status := run(context.Background(), args, strings.NewReader(in), &out, &errs)
	if errs.Len() > 0 {
		t.Errorf("tureen %s: on standard error:\n%s", strings.Join(args, " "), errs.String())
	}
	return status, out.String()
}

// TestScriptDemo plays the demo twice: it tells the whole story, and the same one.
func TestScriptDemo(t *testing.T) {
	status, first := play(t, "", "demo")
	if status != 0 {
		t.Fatalf("exit status %d", status)
	}
	for _, part := range []string{
		"A draft, ", "Your part in Harbour supper: is this fine?",
		"It is yours: ", "Joris has it: ", "Why not later", "Supermarket, Fri",
		"Your Friday: ", "in this order:", "Last moment to start: ", "Turn the oven on to", "65 °C in the middle",
		"Guests in 30 minutes",
		"The guests come at 19:20", "Taken back: ", "The run sheet of Harbour supper", "The guests arrive", "Next, ",
	} {
		if !strings.Contains(first, part) {
			t.Errorf("the demo does not say %q", part)
		}
	}
	if n := strings.Count(first, "\n! "); n != 1 {
		t.Errorf("%d messages of the demo are refused; only the second claim is to be", n)
	}
	if _, second := play(t, "", "demo"); second != first {
		t.Error("played again, the demo is another one")
	}
}

// TestScriptReadmeTour runs the README's tour as it is written.
func TestScriptReadmeTour(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	typed := regexp.MustCompile(`(?s)go run ./cmd/tureen (chat [^\n]*) <<'CHAT'\n(.*?)CHAT\n`)
	tour := typed.FindStringSubmatch(string(readme))
	if tour == nil {
		t.Fatal("the README has no tour")
	}
	db := filepath.Join(t.TempDir(), "tour.db")
	args := strings.Fields(strings.Replace(tour[1], "tour.db", db, 1))
	status, out := play(t, tour[2], args...)
	if status != 0 {
		t.Errorf("%d messages of the tour are refused:\n%s", status, out)
	}
	for _, part := range []string{"A draft, ", "It is yours: ", "Heat the oven", "Taken back: "} {
		if !strings.Contains(out, part) {
			t.Errorf("the tour does not say %q", part)
		}
	}
	if status, doc := play(t, "", "export", "-db", db); status != 0 || !strings.Contains(doc, `"tureen-party/2"`) {
		t.Errorf("export ends with status %d:\n%.500s", status, doc)
	}
}
