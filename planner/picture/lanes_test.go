package picture

import (
	"slices"
	"strings"
	"testing"

	"golang.org/x/image/font/basicfont"
	"pgregory.net/rapid"
)

// TestPlace: whatever bars there are, none of them and none of their words lie upon another, and all words lie on the
// paper. The face has letters of one width.
func TestPlace(t *testing.T) {
	face := basicfont.Face7x13
	rapid.Check(t, func(t *rapid.T) {
		const width = 200.0
		n := rapid.IntRange(0, 30).Draw(t, "bars")
		var bars []span
		var texts []string
		for range n {
			from := rapid.Float64Range(0, width).Draw(t, "from")
			bars = append(bars, span{from, rapid.Float64Range(from, width).Draw(t, "to")})
			texts = append(texts, strings.Repeat("m", rapid.IntRange(0, 90).Draw(t, "letters")))
		}
		sets, lanes := place(face, bars, texts, width)
		var taken []struct {
			span
			lane, of int
		}
		for i, s := range sets {
			put := func(x span, lane int) {
				if lane >= lanes || x.from < 0 || x.to > width+1e-9 {
					t.Fatalf("bar %d lies at %v in lane %d of %d", i, x, lane, lanes)
				}
				for _, o := range taken {
					if o.lane == lane && o.of != i && x.from < o.to && o.from < x.to {
						t.Fatalf("bar %d at %v lies upon %v of bar %d", i, x, o.span, o.of)
					}
				}
				taken = append(taken, struct {
					span
					lane, of int
				}{x, lane, i})
			}
			put(s.bar, s.lane)
			if s.text == "" {
				continue
			}
			lane := s.lane
			if s.below {
				lane++
			}
			put(span{s.words, s.words + wide(face, s.text)}, lane)
		}
	})
}

// TestWrapped: no line is wider than it may be, and no letter is lost.
func TestWrapped(t *testing.T) {
	face := basicfont.Face7x13
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOfN(rapid.RuneFrom([]rune("ab ,(é")), 0, 80, -1).Draw(t, "text")
		width := rapid.Float64Range(4, 100).Draw(t, "width")
		lines := wrapped(face, s, width)
		for _, l := range lines {
			if wide(face, l) > width && len([]rune(l)) > 1 {
				t.Fatalf("%q is wider than %g", l, width)
			}
		}
		bare := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got, want := bare(strings.Join(lines, "")), bare(s); got != want {
			t.Fatalf("got %q of %q", got, want)
		}
	})
	if got := wrapped(face, "one two three", 7*7/float64(dots)); !slices.Equal(got, []string{"one two", "three"}) {
		t.Errorf("%q", got)
	}
}
