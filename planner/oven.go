package planner

// The ovens' arithmetic stands here once and is used by packages check and solve alike: how long an oven takes to a
// temperature, or from one to another, is what people have said of their ovens, carried on in proportion. That is a
// reading of the party and not of a rule, so that a second version of it would find no mistake of the first.

// Oven is one oven. Temperatures are °C as marked.
type Oven struct {
	Name    string  `json:"name"`
	Shelves int     `json:"shelves"`
	MinC    int     `json:"minC"`
	MaxC    int     `json:"maxC"`
	Preheat Minutes `json:"preheat"` // from cold to 180 °C
	Rise    Minutes `json:"rise"`    // a rise of 50 °C
	Fall    Minutes `json:"fall"`    // a fall of 50 °C
}

// UsualRoomC is where an oven starts from cold, and what [Party].RoomTemperatureC means when it is 0.
const UsualRoomC = 20

// PreheatTo is how long the oven takes from cold to a temperature, in proportion to its Preheat, rounded up.
func (o *Oven) PreheatTo(c int) Minutes {
	if c <= UsualRoomC {
		return 0
	}
	return Minutes(CeilDiv(int(o.Preheat)*(c-UsualRoomC), 180-UsualRoomC))
}

// Change is how long the oven takes from one setting to another, rounded up; 0 °C is off. Turning off
// costs nothing; from off it is PreheatTo, since nobody knows how much heat is left.
func (o *Oven) Change(from, to int) Minutes {
	switch {
	case from == to || to == 0:
		return 0
	case from == 0:
		return o.PreheatTo(to)
	case to > from:
		return Minutes(CeilDiv(int(o.Rise)*(to-from), 50))
	default:
		return Minutes(CeilDiv(int(o.Fall)*(from-to), 50))
	}
}

// CeilDiv divides, rounding up; b is positive.
func CeilDiv(a, b int) int {
	if a <= 0 {
		return a / b
	}
	return (a + b - 1) / b
}
