package safety

import (
	"math"
	"testing"
)

// TestStaysHot: the heavier and the hotter the longer, 45 minutes at most, and none below 60 °C or without a weight.
func TestStaysHot(t *testing.T) {
	for _, c := range []struct {
		grams      int
		ends, air  float64
		least, top int
	}{
		{1600, 74, 20, 38, 45}, {1000, 63, 20, 10, 16}, {2000, 63, 20, 15, 20}, {5000, 74, 20, 45, 45},
		{20000, 74, 20, 45, 45}, {2000, 60, 20, 6, 10}, {2000, 59.9, 20, 0, 0}, {2000, 54, 20, 0, 0}, {0, 74, 20, 0, 0},
		{-5, 74, 20, 0, 0}, {2000, math.NaN(), 20, 0, 0}, {2000, 74, math.NaN(), 0, 0}, {2000, 74, 60, 0, 0},
	} {
		if got := StaysHot(c.grams, c.ends, c.air); got < c.least || got > c.top {
			t.Errorf("%+v: %d minutes", c, got)
		}
	}
}
