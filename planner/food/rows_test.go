package food

import (
	"math"
	"testing"
)

// TestEveryDensityIsFound: each row is found by its food's own name and its form, and its figures lie in the spread
// that is answered. The two sources differ by at most 15 % (flour scooped against unsifted).
func TestEveryDensityIsFound(t *testing.T) {
	for f, rows := range data().density {
		for _, r := range rows {
			name := data().foods[f].name
			for w := range r.forms {
				name += ", " + w
			}
			d := DensityOf(name)
			if d == nil {
				t.Errorf("%q has no density", name)
				continue
			}
			if r.likely.Cmp(d.Low) < 0 || r.likely.Cmp(d.High) > 0 {
				t.Errorf("%q: %s lies outside %s to %s of %s (%s)", name, r.likely.FloatString(3), d.Low.FloatString(3),
					d.High.FloatString(3), d.Ingredient, d.Form)
			}
			if r.other == nil {
				continue
			}
			one, _ := r.likely.Float64()
			if two, _ := r.other.Float64(); math.Abs(two/one-1) > 0.15 {
				t.Errorf("%q: the two sources differ by %.0f %%", name, 100*math.Abs(two/one-1))
			}
		}
	}
}
