package safety

import "math"

// What the estimate of a joint that stays hot rests on. A piece of meat is taken for a ball, of the smallest surface,
// and gives off twice as much heat as in still air: it is meant to be too short rather than too long. Our own figures,
// no source, as are the most that it ever says and the temperature below which it says nothing.
const (
	hotFilm      = 15.0 // W/m²K: 5 to 10 in still air with radiation
	meatDensity  = 1050 // kg/m³
	hotLongest   = 45   // minutes
	hotEndsAbove = 60.0 // °C in the middle when it leaves the heat
)

// HotUntil is the temperature in °C to which a joint is hot by itself: the Food Code's lowest of hot holding,
// 3-501.16.
const HotUntil = 57.0

// StaysHot estimates for how many minutes a joint or a bird of so many grams, which left the heat with endsC °C in the
// middle, stays at 57 °C or above in air of airC °C: at most 45, and none of what left it below 60 °C or whose
// weight nobody knows.
func StaysHot(grams int, endsC, airC float64) int {
	if grams <= 0 || !(endsC >= hotEndsAbove) || !(airC < HotUntil) {
		return 0
	}
	radius := math.Cbrt(3 * float64(grams) / 1000 / (4 * math.Pi * meatDensity))
	minutes := heatCapacity * radius / 3 / hotFilm / 60 * math.Log((endsC-airC)/(HotUntil-airC))
	return min(hotLongest, int(minutes))
}
