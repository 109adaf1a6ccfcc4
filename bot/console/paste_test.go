package console

import (
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
)

// TestPastes: what a terminal hands over of typed and pasted text, and the messages that come of it; ours, by hand.
func TestPastes(t *testing.T) {
	paste := func(text string) string { return pasteBegin + text + pasteEnd }
	const soup = "Soup\r\n\r\n1 kg leeks\r\nsay \"when\"\rBoil.\n"
	const quoted = `"Soup\n\n1 kg leeks\nsay \"when\"\nBoil."`
	for _, c := range []struct {
		typed, line string
		want        []string
	}{
		{"/now", "/now", []string{"/now"}},
		{paste("/now"), "/now", []string{"/now"}},
		{"/dish show dish:" + paste("a\tb"), "/dish show dish:a b", []string{"/dish show dish:a b"}},
		{paste(soup), "[pasted text 1, 5 lines]", []string{"/recipe read text:" + quoted}},
		{"Ben> " + paste(soup), "Ben> [pasted text 1, 5 lines]", []string{"Ben> /recipe read text:" + quoted}},
		{"/recipe read text:" + paste(soup), "/recipe read text:[pasted text 1, 5 lines]",
			[]string{"/recipe read text:" + quoted}},
		{paste("/now\n/plan show\n"), "[pasted text 1, 2 lines]", []string{"/now", "/plan show"}},
		{paste("/recipe read text:Soup\n1 kg leeks"), "[pasted text 1, 2 lines]",
			[]string{`/recipe read text:Soup\n1 kg leeks`}},
		{"\x1b[A" + paste("x") + "\x1b[2", "\x1b[Ax", nil}, // an arrow's key goes on as it is
		{pasteBegin + "never\nended", "", nil},
	} {
		for _, in := range []io.Reader{strings.NewReader(c.typed), iotest.OneByteReader(strings.NewReader(c.typed))} {
			p := &pastes{in: in}
			line, err := io.ReadAll(p)
			if err != nil || string(line) != c.line {
				t.Errorf("%q: handed on %q, %v; want %q", c.typed, line, err, c.line)
			}
			if got := p.messages(string(line)); c.want != nil && !slices.Equal(got, c.want) {
				t.Errorf("%q: says %q, want %q", c.typed, got, c.want)
			}
		}
	}
}
