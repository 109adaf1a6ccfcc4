package words

import (
	"fmt"
	"testing"
	"time"
)

func TestStamps(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 9, 26, 16, 35, 0, 0, time.UTC) // 17:35 in Lisbon, a Saturday
	for _, c := range []struct {
		style StampStyle
		words string
	}{{Clock, "17:35"}, {DayClock, "Sat 17:35"}, {Date, "Sat 26 Sep"}} {
		text := "Roll it out at " + Stamp(at, c.style, zone) + ", then chill."
		if got, want := PlainStamps(text), "Roll it out at "+c.words+", then chill."; got != want {
			t.Errorf("plain: got %q, want %q", got, want)
		}
		got := RenderStamps(text, func(i Instant) string { return fmt.Sprintf("<%d %c %s>", i.At.Unix(), i.Style, i.Words) })
		if want := fmt.Sprintf("Roll it out at <%d %c %s>, then chill.", at.Unix(), c.style, c.words); got != want {
			t.Errorf("rendered: got %q, want %q", got, want)
		}
	}
}

func TestTypedStampsAreStripped(t *testing.T) {
	forged := "ha " + StampAs(time.Unix(0, 0), Clock, "17:35")
	if got, want := StripStamps(forged), "ha t017:35"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func FuzzRenderStamps(f *testing.F) {
	f.Add("a " + StampAs(time.Unix(5, 0), DayClock, "Sat") + " b")
	f.Add("\x0et12\x1fno end")
	f.Add("\x0e\x0et1\x1fx\x0f\x0f\x1f")
	f.Fuzz(func(t *testing.T, text string) {
		plain := PlainStamps(text)
		if StripStamps(plain) != plain {
			t.Errorf("%q leaves stamp characters in %q", text, plain)
		}
		if PlainStamps(StripStamps(text)) != StripStamps(text) {
			t.Errorf("%q: a stripped text still has stamps", text)
		}
	})
}
