package measure

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseDuration(t *testing.T) {
	const h, d = 60, 24 * 60
	for _, c := range []struct {
		text      string
		low, high int
	}{
		{"90", 90, 90},
		{"0", 0, 0},
		{"20 min", 20, 20},
		{"20min", 20, 20},
		{"20 mins.", 20, 20},
		{"40-45 min", 40, 45},
		{"40–45", 40, 45},
		{"40 to 45 minutes", 40, 45},
		{"5 or 6 min", 5, 6},
		{"2-3 h", 2 * h, 3 * h},
		{"1-1½ h", 1 * h, 90},
		{"1 to 1 1/2 hours", 1 * h, 90},
		{"1 h 20", 80, 80},
		{"1h20", 80, 80},
		{"1h20m", 80, 80},
		{"1 hr 20 min", 80, 80},
		{"1 hour and 20 minutes", 80, 80},
		{"1 hour, 20 minutes", 80, 80},
		{"1 h 20-30 min", 80, 90},
		{"1 h 20 to 1 h 40", 80, 100},
		{"1 h 20 min to 1 h 40 min", 80, 100},
		{"30 min to 1 hour", 30, 60},
		{"1:20", 80, 80},
		{"1.5 hours", 90, 90},
		{"1½ hours", 90, 90},
		{"1 1/2 hours", 90, 90},
		{"half an hour", 30, 30},
		{"half hour", 30, 30},
		{"an hour", 60, 60},
		{"an hour and a half", 90, 90},
		{"two and a half hours", 150, 150},
		{"a quarter of an hour", 15, 15},
		{"three quarters of an hour", 45, 45},
		{"about 20 minutes", 20, 20},
		{"~20 min", 20, 20},
		{"20-minute", 20, 20},
		{"2 days", 2 * d, 2 * d},
		{"1-2 days", 1 * d, 2 * d},
		{"1 day 6 hours", d + 6*h, d + 6*h},
		{"a week", 7 * d, 7 * d},
		{"30 seconds", 1, 1},
		{"90 s", 2, 2},
		{"10 MINUTES", 10, 10},
	} {
		got, err := ParseDuration(c.text)
		if err != nil || got != (Duration{c.low, c.high}) {
			t.Errorf("%q: got %v, %v; want %d to %d", c.text, got, err, c.low, c.high)
		}
	}
	for _, c := range []struct{ text, say string }{
		{"", "no duration"},
		{"overnight", "8-12 h"},
		{"until tender", "about how long"},
		{"a little while", "about how long"},
		{"at least 2 h", "range"},
		{"-20 min", "negative"},
		{"45-40 min", "backwards"},
		{"20 min flour", "not a duration"},
		{"20 potatoes", "not a duration"},
		{"twenty five o'clock", "not a duration"},
		{"min", "not a duration"},
		{"1/0 h", "divided by 0"},
		{"1:75", "60 minutes"},
		{"20 min 30 min", "not a duration"},
		{"2000 days", "longer"},
		{"3 months", "weeks"},
		{"🕐", "not a duration"},
		{strings.Repeat("1 h ", 3000), "not a duration"},
	} {
		got, err := ParseDuration(c.text)
		if err == nil || !strings.Contains(err.Error(), c.say) || len(err.Error()) > 300 {
			t.Errorf("%.40q: got %v, %v; want a refusal that says %q", c.text, got, err, c.say)
		}
	}
}

func TestDurationReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.IntRange(0, MaxMinutes).Draw(t, "low")
		d := Duration{low, rapid.IntRange(low, min(MaxMinutes, low*2+60)).Draw(t, "high")}
		if rapid.Bool().Draw(t, "one") {
			d.High = d.Low
		}
		back, err := ParseDuration(d.String())
		if err != nil || back != d {
			t.Fatalf("%+v is %q, reads back as %+v, %v", d, d, back, err)
		}
	})
}

func FuzzParseDuration(f *testing.F) {
	for _, s := range []string{"90", "40-45 min", "1 h 20", "1h20-30m", "1:20", "an hour and a half", "2 days",
		"overnight", "1/0 h", "½ h", "1½–2 hours", "three quarters of an hour"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := ParseDuration(s)
		if err != nil {
			return
		}
		if d.Low < 0 || d.High < d.Low || d.High > MaxMinutes {
			t.Fatalf("%q: %+v", s, d)
		}
		if back, err := ParseDuration(d.String()); err != nil || back != d {
			t.Fatalf("%q is %q, reads back as %+v, %v", s, d, back, err)
		}
	})
}
