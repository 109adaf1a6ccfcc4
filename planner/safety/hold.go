package safety

import "math"

// hotDayC is the air temperature above which the counter limit is halved:
// 90 °F in the source, 32 °C in its metric form. We use the metric figure, the
// stricter of the two by 0.2 degrees.
const hotDayC = 32

// CounterLimit is the longest time, added up over all its stays, that
// perishable food may be between cold and hot holding: 2 hours, or 1 hour when
// the air is above 32 °C. Cooking does not turn the time back. An air
// temperature that is not a number counts as hot.
func CounterLimit(airC float64) Limit {
	if airC > hotDayC || math.IsNaN(airC) {
		return limit("counter-hot-day")
	}
	return limit("counter")
}

// HotHold is the lowest temperature at which hot food is being held and not
// just kept warm. The sources disagree (57 °C FDA Food Code, 60 °C USDA, 63 °C
// UK law): it is the highest, 63 °C. See [Published] for the others.
func HotHold() Limit { return strictest(Published(HotHolding)) }

// TwoStageCooling is how fast hot food must cool: from 57 °C to 21 °C (135 to
// 70 °F) within the first limit, and from 57 °C to 5 °C (41 °F) within the
// whole one, which counts from the same start.
func TwoStageCooling() (first, whole Limit) { return limit("cool-stage1"), limit("cool-whole") }

// FurtherCooling is the other authority's rule for businesses, whose second limit counts from the end of the first:
// from 60 °C to 21 °C, and from there to 5 °C.
func FurtherCooling() (first, further Limit) {
	return limit("cool-anz-stage1"), limit("cool-anz-stage2")
}

// CoolDepth is how deep food may stand in its vessel when it goes into the cold.
func CoolDepth(c Consistency) Limit {
	if c == Thin {
		return limit("cool-thin-depth")
	}
	return limit("cool-thick-depth")
}

// CoolPiece is how heavy and how thick a piece of meat may be that goes into the cold.
func CoolPiece() (weight, thick Limit) { return limit("cool-meat-weight"), limit("cool-meat-thick") }

// CoolBird is what is published about whole birds that go into the cold.
func CoolBird() Limit { return limit("cool-bird") }

// IntoTheCold is how soon after it has left the heat cooked food of the kind is in the refrigerator.
func IntoTheCold(kind Kind, airC float64) Limit {
	if kind == Rice {
		return limit("rice-cool")
	}
	return CounterLimit(airC)
}

// RefrigeratorLimit is how long food of the kind may stay in the refrigerator
// at 4 °C or below, added up from when it was first cooked (or bought, for raw
// kinds); freezing pauses it. It is the strictest of the sources. Nothing is
// published for None: the answer's Applies is false.
func RefrigeratorLimit(kind Kind) Limit {
	if kind == None {
		return Limit{}
	}
	return strictest(limitsOf(kind).refrigerator)
}

// Published lists all rows of a topic in the order of the table.
func Published(topic Topic) []Limit {
	var found []Limit
	for _, l := range tables().limits {
		if l.Topic == topic {
			found = append(found, l)
		}
	}
	return found
}

// strictest picks the row that leaves the least room: the shortest longest
// time; with equal times, or without times, the highest least and the lowest
// greatest temperature. Ties go to the row that stands first. No rows give the
// zero Limit.
func strictest(rows []Limit) Limit {
	var best Limit
	for _, l := range rows {
		if !best.Applies() || stricter(l, best) {
			best = l
		}
	}
	return best
}

func stricter(a, b Limit) bool {
	if a.Timed && b.Timed && a.Bound == AtMost && a.Minutes != b.Minutes {
		return a.Minutes < b.Minutes
	}
	if a.Heated != b.Heated {
		return a.Heated
	}
	if a.Bound == AtLeast {
		return a.TempF > b.TempF
	}
	return a.TempF < b.TempF
}
