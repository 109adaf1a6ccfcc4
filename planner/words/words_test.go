package words_test

import (
	"math"
	"slices"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"
	"tureen/planner/measure"
	"tureen/planner/words"
)

func TestFold(t *testing.T) {
	for name, want := range map[string]string{
		"Fête": "fete", "  Straße  12 ": "strasse 12", "ŒUF": "oeuf", "ﬁg": "fig", "Smørrebrød": "smorrebrod",
		"İstanbul": "istanbul", "Łódź": "lodz",
		"\tJo\u00a0Ann ": "jo ann", "e\u0301té": "ete", "Ｆｅｔｅ": "fete", "Jo’s": "jo's", "が": "が", "か": "か",
		"กี่": "กี่", "שָׁלוֹם": "שלום", "": "",
	} {
		if got := words.Fold(name); got != want {
			t.Errorf("%q: got %q, want %q", name, got, want)
		}
	}
	for r := rune(0); r <= utf8.MaxRune; r++ {
		if once := words.Fold(string(r)); words.Fold(once) != once {
			t.Errorf("%U folds to %q, and that to %q", r, once, words.Fold(once))
		}
	}
}

func FuzzFold(f *testing.F) {
	f.Add("Fête  à ẞ ǅ ŉ İ \u0345\u0301")
	f.Add("\xff\u3099\u1100\u1161")
	f.Fuzz(func(t *testing.T, name string) {
		once := words.Fold(name)
		if words.Fold(once) != once {
			t.Errorf("%q folds to %q, and that to %q", name, once, words.Fold(once))
		}
		if found := words.Match(name, []string{name}); len(found) != 1 {
			t.Errorf("%q is not found by its own name", name)
		}
		u, l := words.Upper(name), words.Lower(name)
		if utf8.ValidString(name) && (!utf8.ValidString(u) || !utf8.ValidString(l)) {
			t.Errorf("%q is cut: %q, %q", name, u, l)
		}
	})
}

func TestFoldTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.String().Draw(t, "name")
		if once := words.Fold(name); words.Fold(once) != once {
			t.Fatalf("%q folds to %q, and that to %q", name, once, words.Fold(once))
		}
	})
}

func TestMatch(t *testing.T) {
	names := []string{"Fête", "Fete", "Winter  dinner", "fETE"}
	for want, places := range map[string][]int{
		"Fête": {0}, "Fe\u0302te": {0}, "Fete": {1}, " Fete ": {1}, "fete": {0, 1, 3}, "FÊTE": {0, 1, 3},
		"winter dinner": {2}, "summer": nil, "": nil,
	} {
		if got := words.Match(want, names); !slices.Equal(got, places) {
			t.Errorf("%q: got %v, want %v", want, got, places)
		}
	}
}

func TestLetters(t *testing.T) {
	for _, c := range []struct{ text, upper, lower string }{
		{"émaillé pie dish", "Émaillé pie dish", "émaillé pie dish"}, {"Émaillé", "Émaillé", "émaillé"},
		{"BBQ ribs", "BBQ ribs", "BBQ ribs"}, {"Roast it", "Roast it", "roast it"},
		{"", "", ""}, {"1 egg", "1 egg", "1 egg"}, {"\xffx", "\xffx", "\xffx"}, {"ßx", "ßx", "ßx"},
	} {
		if got := words.Upper(c.text); got != c.upper {
			t.Errorf("Upper(%q) is %q", c.text, got)
		}
		if got := words.Lower(c.text); got != c.lower {
			t.Errorf("Lower(%q) is %q", c.text, got)
		}
	}
}

func TestLists(t *testing.T) {
	for _, c := range []struct {
		list         []string
		and, or, few string
	}{
		{nil, "", "", ""}, {[]string{"a"}, "a", "a", "a"}, {[]string{"a", "b"}, "a and b", "a or b", "a and b"},
		{[]string{"a", "b", "c"}, "a, b and c", "a, b or c", "a, b and c"},
		{[]string{"a", "b", "c", "d", "e"}, "a, b, c, d and e", "a, b, c, d or e", "a, b and 3 more"},
	} {
		if got := words.And(c.list); got != c.and {
			t.Errorf("and: got %q, want %q", got, c.and)
		}
		if got := words.Or(c.list); got != c.or {
			t.Errorf("or: got %q, want %q", got, c.or)
		}
		if got := words.Few(c.list, 3); got != c.few {
			t.Errorf("few: got %q, want %q", got, c.few)
		}
	}
}

func TestLengths(t *testing.T) {
	for _, c := range []struct {
		minutes     int
		long, short string
	}{
		{0, "0 minutes", "0 min"}, {1, "1 minute", "1 min"}, {45, "45 minutes", "45 min"},
		{60, "1 hour", "1 h"}, {61, "1 h 1 min", "1 h 1 min"}, {90, "1 h 30 min", "1 h 30 min"},
		{120, "2 hours", "2 h"}, {1440, "1 day", "1 day"}, {1500, "25 hours", "25 h"},
		{2880, "2 days", "2 days"}, {2910, "48 h 30 min", "48 h 30 min"}, {-20, "-20 minutes", "-20 min"},
	} {
		if got := words.Length(c.minutes); got != c.long {
			t.Errorf("%d: got %q, want %q", c.minutes, got, c.long)
		}
		if got := words.Short(c.minutes); got != c.short {
			t.Errorf("%d: got %q, want %q", c.minutes, got, c.short)
		}
	}
	if words.Length(math.MinInt) == "" || words.Short(math.MinInt) == "" {
		t.Error("nothing said of the least number")
	}
	for _, c := range []struct {
		low, high int
		want      string
	}{
		{40, 45, "40–45 min"}, {45, 90, "45 min to 1 h 30 min"}, {60, 120, "1–2 h"}, {1440, 2880, "1–2 days"},
		{20, 20, "20 min"}, {90, 100, "1 h 30 min to 1 h 40 min"},
	} {
		if got := words.ShortRange(c.low, c.high); got != c.want {
			t.Errorf("%d to %d: got %q, want %q", c.low, c.high, got, c.want)
		}
	}
	if got := words.Minutes(89*time.Minute + 40*time.Second); got != 90 {
		t.Errorf("got %d minutes", got)
	}
}

// What is written can be typed again.
func TestLengthsAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.IntRange(0, measure.MaxMinutes).Draw(t, "low")
		high := rapid.IntRange(low, measure.MaxMinutes).Draw(t, "high")
		for _, text := range []string{words.Length(low), words.Short(low)} {
			if d, err := measure.ParseDuration(text); err != nil || d.Low != low || d.High != low {
				t.Fatalf("%d is written %q and read as %v (%v)", low, text, d, err)
			}
		}
		text := words.ShortRange(low, high)
		if d, err := measure.ParseDuration(text); err != nil || d.Low != low || d.High != high {
			t.Fatalf("%d to %d is written %q and read as %v (%v)", low, high, text, d, err)
		}
	})
}
