package safety

import (
	"fmt"
	"math"
)

// ThawMethod is a way to thaw.
type ThawMethod string

// The ways to thaw. OnCounter is known so that it can be refused by name.
const (
	InRefrigerator ThawMethod = "refrigerator"
	InColdWater    ThawMethod = "cold-water" // changed every 30 minutes: a touch each time
	InMicrowave    ThawMethod = "microwave"
	OnCounter      ThawMethod = "counter"
)

// WaterChangeMinutes is how often thawing water is changed (USDA FSIS, The Big Thaw).
const WaterChangeMinutes = 30

const (
	gramsPerPound = 453.59237
	// MaxThawGrams is the heaviest piece that ThawTime answers for.
	MaxThawGrams = 50_000

	poundsADay      = 4  // in the refrigerator: 24 h for each 4 to 5 lb, the careful end
	minutesAPound   = 30 // in cold water
	smallPackPounds = 4  // up to here the published packs take longer than 30 min a pound
	smallPackMinute = 45 // a pound: 3-4 lb packs take 2 to 3 h
	leastWater      = 60 // about 1 lb: an hour or less
)

// ThawTime is how long a piece of so many grams takes to thaw, in minutes, at
// the careful (long) end, with the published rate it is from. In the
// refrigerator: a day for each 4 lb begun, and a full day even for a small
// pack. In cold water: 30 minutes a pound begun; packs up to 4 lb 45 minutes
// a pound, never less than an hour. The counter is refused, as the source
// does; a microwave's time is in its own book.
func ThawTime(grams int, method ThawMethod) (minutes int, rate Limit, err error) {
	if grams <= 0 || grams > MaxThawGrams {
		return 0, Limit{}, fmt.Errorf("a piece to thaw weighs between 1 g and %d kg; %d g does not", MaxThawGrams/1000, grams)
	}
	pounds := float64(grams) / gramsPerPound
	switch method {
	case InRefrigerator:
		days := int(math.Ceil(pounds / poundsADay))
		rate = limit("thaw-fridge")
		if days == 1 {
			rate = limit("thaw-fridge-small")
		}
		return days * 24 * 60, rate, nil
	case InColdWater:
		begun := int(math.Ceil(pounds))
		if begun <= smallPackPounds {
			rate = limit("thaw-water-packs")
			if begun == 1 {
				rate = limit("thaw-water-small")
			}
			return max(leastWater, begun*smallPackMinute), rate, nil
		}
		return max(smallPackPounds*smallPackMinute, begun*minutesAPound), limit("thaw-water"), nil
	case OnCounter:
		return 0, limit("thaw-counter"), fmt.Errorf("thawing on the counter or in hot water is %s (USDA FSIS): thaw in the "+
			"refrigerator or in cold water", limit("thaw-counter").Note)
	case InMicrowave:
		return 0, limit("thawed-at-once"), fmt.Errorf("a microwave's thawing time depends on the oven: take it from its " +
			"book, and cook the food at once")
	}
	return 0, Limit{}, fmt.Errorf("%.40q is no way to thaw that I know; use refrigerator or cold-water", string(method))
}

// KeepsAfterThaw is how long food of the kind may wait in the refrigerator
// after it has thawed by the method. After cold water or a microwave it is
// cooked at once: the limit is 0 minutes.
func KeepsAfterThaw(kind Kind, method ThawMethod) Limit {
	if kind == None {
		return Limit{}
	}
	if method != InRefrigerator {
		return limit("thawed-at-once")
	}
	return strictest(limitsOf(kind).thawed)
}

// ThawOnCounter is what is published about thawing on the counter or in hot water: that it is not safe.
func ThawOnCounter() Limit { return limit("thaw-counter") }
