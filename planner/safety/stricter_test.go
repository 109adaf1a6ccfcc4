package safety

import "testing"

// TestStricter: of two limits with lengths of time the shorter is the stricter; a temperature is stricter than none;
// of two temperatures to be reached the higher, of two not to be passed the lower.
func TestStricter(t *testing.T) {
	timed := func(b Bound, minutes int, f float64) Limit {
		return Limit{Bound: b, Timed: true, Minutes: minutes, Heated: f != 0, TempF: f}
	}
	heat := func(b Bound, f float64) Limit { return Limit{Bound: b, Heated: true, TempF: f} }
	for _, c := range []struct {
		name string
		a, b Limit
	}{
		{"shorter", timed(AtMost, 60, 0), timed(AtMost, 120, 0)},
		{"shorter, though warmer", timed(AtMost, 60, 50), timed(AtMost, 120, 40)},
		{"as long, and colder", timed(AtMost, 60, 40), timed(AtMost, 60, 50)},
		{"a length by itself says nothing against a temperature", heat(AtMost, 40), timed(AtMost, 60, 0)},
		{"hotter", heat(AtLeast, 165), heat(AtLeast, 145)},
		{"hotter, and not the shorter", timed(AtLeast, 10, 165), timed(AtLeast, 1, 145)},
		{"colder", heat(AtMost, 40), heat(AtMost, 41)},
	} {
		if !stricter(c.a, c.b) || stricter(c.b, c.a) {
			t.Errorf("%s: %v one way, %v the other", c.name, stricter(c.a, c.b), stricter(c.b, c.a))
		}
	}
}
