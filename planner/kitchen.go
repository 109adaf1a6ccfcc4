package planner

// Kitchen is what the party cooks and keeps things with.
type Kitchen struct {
	Ovens        []Oven  `json:"ovens,omitempty"`
	Burners      int     `json:"burners"`
	Grills       int     `json:"grills,omitempty"`
	Counter      int     `json:"counter"` // places to work at
	Appliances   []Ware  `json:"appliances,omitempty"`
	Vessels      []Ware  `json:"vessels,omitempty"`
	Sources      []Ware  `json:"sources,omitempty"`    // of keeping hot: warming drawer, slow cooker; Count is places
	Plates       []Ware  `json:"plates,omitempty"`     // plates and glasses
	Dishwasher   Minutes `json:"dishwasher,omitempty"` // how long one run takes; 0: none
	Refrigerator Cold    `json:"refrigerator"`
	Freezer      Cold    `json:"freezer"`
}

// Ware is a named thing of which the kitchen has some.
type Ware struct {
	Name  string `json:"name"`
	Count int    `json:"count"`
}

// Cold is a refrigerator's or freezer's free room.
type Cold struct {
	Millilitres int `json:"ml"`
	Flat        int `json:"flat"` // places where a tray or a wide dish lies flat
}

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

// RoomTemperatureC is where an oven starts from cold, and what [Party].RoomC means when it is 0.
const RoomTemperatureC = 20

// PreheatTo is how long the oven takes from cold to a temperature, in proportion to its Preheat, rounded up.
func (o *Oven) PreheatTo(c int) Minutes {
	if c <= RoomTemperatureC {
		return 0
	}
	return Minutes(ceilDiv(int(o.Preheat)*(c-RoomTemperatureC), 180-RoomTemperatureC))
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
		return Minutes(ceilDiv(int(o.Rise)*(to-from), 50))
	default:
		return Minutes(ceilDiv(int(o.Fall)*(from-to), 50))
	}
}

// HomeKitchen is the kitchen a party starts with: a well-equipped home, common practice, no source.
func HomeKitchen() Kitchen {
	return Kitchen{
		Ovens:      []Oven{{Name: "oven", Shelves: 2, MinC: 50, MaxC: 250, Preheat: 15, Rise: 6, Fall: 15}},
		Burners:    4,
		Grills:     1,
		Counter:    3,
		Appliances: []Ware{{"food processor", 1}, {"blender", 1}, {"stand mixer", 1}, {"hand mixer", 1}, {"kettle", 1}},
		Vessels: []Ware{{"large pot", 2}, {"saucepan", 3}, {"frying pan", 2}, {"casserole", 1}, {"roasting tin", 1},
			{"baking tray", 3}, {"baking dish", 2}, {"cake tin", 1}, {"tart tin", 1}, {"loaf tin", 1}, {"mixing bowl", 4}},
		Sources:      []Ware{{"warming tray", 2}},
		Plates:       []Ware{{"small plate", 24}, {"dinner plate", 12}, {"soup bowl", 12}, {"dessert bowl", 12}, {"wine glass", 24}},
		Dishwasher:   90,
		Refrigerator: Cold{Millilitres: 60000, Flat: 3},
		Freezer:      Cold{Millilitres: 20000, Flat: 1},
	}
}

// ceilDiv divides, rounding up; b is positive.
func ceilDiv(a, b int) int {
	if a <= 0 {
		return a / b
	}
	return (a + b - 1) / b
}
