package bot

import (
	"os"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/txtar"

	"tureen/bot/talk"
	"tureen/planner/words"
)

// Every answer of two days of talk begins with a line that a lock screen can show, ends with what is likely
// next, and offers buttons that say messages that can be read.
func TestAnswersAreInShape(t *testing.T) {
	data, err := os.ReadFile("console/testdata/script/michaelmas.txtar")
	if err != nil {
		t.Fatal(err)
	}
	tb := newTable(t)
	tb.now = time.Date(2026, 9, 28, 9, 0, 0, 0, time.UTC)
	answers := 0
	for _, f := range txtar.Parse(data).Files {
		if f.Name != "monday.txt" && f.Name != "tuesday.txt" {
			continue
		}
		for _, text := range strings.Split(strings.TrimSpace(string(f.Data)), "\n") {
			who := "Ines"
			if name, rest, ok := strings.Cut(text, "> "); ok && !strings.HasPrefix(text, "/") {
				who, text = name, rest
			}
			if !strings.HasPrefix(text, "/") {
				continue
			}
			rep := tb.say(who, text)
			answers++
			first, _, _ := strings.Cut(words.PlainStamps(rep.Text), "\n")
			if n := utf8.RuneCountInString(first); n == 0 || n > 250 || !strings.ContainsAny(first[len(first)-1:], ".!?:)") {
				t.Errorf("%s\nbegins with %d characters: %s", text, n, first)
			}
			if rep.Next == "" && !rep.Refused {
				t.Errorf("%s\nsays nothing of what is next: %s", text, first)
			}
			if strings.Contains(plain(rep), "%!") {
				t.Errorf("%s\nis worded badly: %s", text, plain(rep))
			}
			for _, b := range rep.Buttons {
				if _, err := tb.Parse(b.Do); err != nil || len(b.Do) > talk.MaxDo {
					t.Errorf("%s\nhas a button that does %q: %v", text, b.Do, err)
				}
			}
		}
	}
	if answers < 70 {
		t.Errorf("%d answers were seen", answers)
	}
}
