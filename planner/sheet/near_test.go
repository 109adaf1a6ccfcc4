package sheet

import (
	"testing"
	"time"
)

// A party moved by a week keeps its weekdays: then the weekday alone says nothing.
func TestNear(t *testing.T) {
	f := Plain(time.UTC)
	from := time.Date(2026, time.December, 12, 19, 15, 0, 0, time.UTC)
	for _, row := range []struct {
		hours int
		want  string
	}{
		{0, "19:15"}, {-1, "18:15"}, {-24, "Fri 19:15"}, {-5 * 24, "Mon 19:15"}, {24, "Sun 19:15"},
		{-7 * 24, "Sat 5 Dec 19:15"}, {7 * 24, "Sat 19 Dec 19:15"}, {-6 * 24, "Sun 6 Dec 19:15"},
	} {
		if got := f.near(from.Add(time.Duration(row.hours)*time.Hour), from); got != row.want {
			t.Errorf("%d hours from the party: got %q, want %q", row.hours, got, row.want)
		}
	}
}
