package bot

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/words"
)

func TestStampInstants(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	p := &planner.Party{Zone: "Europe/Lisbon", Arrival: time.Date(2026, 9, 26, 19, 0, 0, 0, zone), PrepDays: 3}
	draw := func(text string) string {
		return words.RenderStamps(stampInstants(p, text), func(i words.Instant) string {
			return fmt.Sprintf("<%s %c>", i.At.In(zone).Format("2 15:04"), i.Style)
		})
	}
	for in, want := range map[string]string{
		"Ben cannot be there at Sat 08:59: it is early.": "Ben cannot be there at <26 08:59 f>: it is early.",
		"Served between Sat 20:00 and 20:30.":            "Served between <26 20:00 f> and <26 20:30 t>.",
		"Fri 23:40 to 00:20":                             "<25 23:40 f> to <26 00:20 t>",
		"Thu 24 Sep 17:00":                               "<24 17:00 f>",
		"Thu 17 Sep 17:00":                               "Thu 17 Sep 17:00", // not among the party's days
		"Tue 17:00":                                      "Tue 17:00",
		"Sat 99:00, sat 17:00, Saturday 17:00, 17:00":    "Sat 99:00, sat 17:00, Saturday 17:00, 17:00",
		"by " + words.Stamp(p.Arrival, words.DayClock, zone) + ", or Sat 19:10": "by <26 19:00 f>, or <26 19:10 f>",
	} {
		if got := draw(in); got != want {
			t.Errorf("%q: got %q, want %q", words.PlainStamps(in), got, want)
		}
	}
	p.PrepDays = 9 // two Saturdays
	if got := draw("Sat 08:59"); got != "Sat 08:59" {
		t.Errorf("an instant that may be another: got %q", got)
	}
}

// TestStampInstantsKeepsWords: whatever a text says, it says the same with its instants marked.
func TestStampInstantsKeepsWords(t *testing.T) {
	p := &planner.Party{Zone: "Europe/Lisbon", Arrival: time.Date(2026, 10, 25, 19, 0, 0, 0, time.UTC), PrepDays: 5} // the clocks go back
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOf(rapid.OneOf(rapid.String(), rapid.StringMatching(`(Mon|Thu|Fri|Sat|Sun) \d\d:\d\d( to \d\d:\d\d)?`),
			rapid.Just(words.Stamp(p.Arrival, words.DayClock, time.UTC)))).Draw(t, "parts")
		text := strings.Join(parts, " ")
		if got, want := words.PlainStamps(stampInstants(p, text)), words.PlainStamps(text); got != want {
			t.Fatalf("got %q, want %q", got, want)
		}
	})
}
