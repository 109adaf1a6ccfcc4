package planner

import (
	"math"

	"tureen/planner/safety"
)

// HotC is the published lowest temperature of hot holding, in whole °C rounded up: what an oven is set to at least.
func HotC() int { return int(math.Ceil(safety.HotHold().TempC)) }

// KeepsHot says whether what food is held in keeps it hot by the published limit, whatever setting within its tolerance
// an oven comes to have. Validation asks it of a party, solve of what it is to plan, and check of a plan: what a
// published limit says of a thing is no reading of a plan.
func (u *Use) KeepsHot() bool {
	if u == nil {
		return false
	}
	switch u.What {
	case AHotPlace:
		return u.Name != ""
	case ABurner:
		return true
	case AnOven:
		return u.C-u.Tolerance >= HotC()
	}
	return false
}
