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
		// To the minute, each just over it by the formula, with 1050 kg/m³, 3900 kJ/m³K and 15 W/m²K.
		{1450, 70, 20, 30, 30}, {2150, 74, 20, 43, 43}, {2950, 63, 20, 19, 19}, {1550, 66, 4, 16, 16},
		{2250, 60, 20, 9, 9}, {2350, 62, 25, 17, 17},
	} {
		if got := StaysHot(c.grams, c.ends, c.air); got < c.least || got > c.top {
			t.Errorf("%+v: %d minutes", c, got)
		}
	}
}
