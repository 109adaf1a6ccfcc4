package planner

import (
	"math"

	"tureen/planner/safety"
)

// HotC is the published lowest temperature of hot holding, in whole °C rounded up: what an oven is set to at least.
func HotC() int { return int(math.Ceil(safety.HotHold().TempC)) }

// KeepsHot says whether what food is held in keeps it hot by the published limit, whatever setting within its tolerance an
// oven comes to have. A party that has been looked at holds hot food in nothing else, and check asks the same of a plan.
func (u *Use) KeepsHot() bool {
	if u == nil {
		return false
	}
	switch u.What {
	case ASource:
		return u.Name != ""
	case ABurner:
		return true
	case AnOven:
		return u.C-u.Tolerance >= HotC()
	}
	return false
}
