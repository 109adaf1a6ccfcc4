package planner

// Kitchen is what the party cooks and keeps things with.
type Kitchen struct {
	Ovens        []Oven  `json:"ovens,omitempty"`
	Burners      int     `json:"burners"`
	Grills       int     `json:"grills,omitempty"`
	Counter      int     `json:"counter"` // places to work at
	Appliances   []Ware  `json:"appliances,omitempty"`
	Vessels      []Ware  `json:"vessels,omitempty"`
	HotPlaces    []Ware  `json:"hotPlaces,omitempty"`  // that keep food hot: warming drawer, slow cooker; Count is places
	Plates       []Ware  `json:"plates,omitempty"`     // plates and glasses
	Dishwasher   Minutes `json:"dishwasher,omitempty"` // how long one run takes; 0: none
	Refrigerator Cold    `json:"refrigerator"`
	Freezer      Cold    `json:"freezer"`
}

// Ware is a named thing of which the kitchen has some.
type Ware struct {
	Name        string `json:"name"`
	Count       int    `json:"count"`
	Millilitres int    `json:"ml,omitempty"`     // what one of a vessel or appliance holds at most; 0: nobody has said
	Across      int    `json:"across,omitempty"` // centimetres across a round vessel, or the long side of another one
	Wide        int    `json:"wide,omitempty"`   // its short side in centimetres; 0: it is round
}

// Cold is a refrigerator's or freezer's free space.
type Cold struct {
	Millilitres int `json:"ml"`
	Flat        int `json:"flat"` // places where a tray or a wide dish lies flat
}

// HomeKitchen is the kitchen a party starts with: a well-equipped home, common practice, no source.
func HomeKitchen() Kitchen {
	return Kitchen{
		Ovens:   []Oven{{Name: "oven", Shelves: 2, MinC: 50, MaxC: 250, Preheat: 15, Rise: 6, Fall: 15}},
		Burners: 4,
		Grills:  1,
		Counter: 3,
		Appliances: []Ware{{Name: "food processor", Count: 1, Millilitres: 2000},
			{Name: "blender", Count: 1, Millilitres: 2000},
			{Name: "stand mixer", Count: 1, Millilitres: 4500}, {Name: "hand mixer", Count: 1}, {Name: "kettle", Count: 1}},
		Vessels: []Ware{{Name: "large pot", Count: 2, Millilitres: 8000}, {Name: "saucepan", Count: 3, Millilitres: 3000},
			{Name: "frying pan", Count: 2, Across: 28}, {Name: "casserole", Count: 1, Millilitres: 7000},
			{Name: "roasting tin", Count: 1, Across: 40, Wide: 30},
			{Name: "baking tray", Count: 3, Across: 40, Wide: 35}, {Name: "baking dish", Count: 2, Across: 30, Wide: 20},
			{Name: "cake tin", Count: 1, Across: 24},
			{Name: "tart tin", Count: 1, Across: 27}, {Name: "loaf tin", Count: 1, Across: 25, Wide: 11},
			{Name: "mixing bowl", Count: 4}},
		HotPlaces: []Ware{{Name: "warming tray", Count: 2}},
		Plates: []Ware{{Name: "small plate", Count: 24}, {Name: "dinner plate", Count: 12}, {Name: "soup bowl", Count: 12},
			{Name: "dessert bowl", Count: 12}, {Name: "wine glass", Count: 24}},
		Dishwasher:   90,
		Refrigerator: Cold{Millilitres: 60000, Flat: 3},
		Freezer:      Cold{Millilitres: 20000, Flat: 1},
	}
}

// Oven finds an oven by its name; nil when there is none.
func (k *Kitchen) Oven(name string) *Oven {
	for i := range k.Ovens {
		if k.Ovens[i].Name == name {
			return &k.Ovens[i]
		}
	}
	return nil
}

// Stock is how many the kitchen has of something that is no oven; known is false for a name that it does not know.
func (k *Kitchen) Stock(what Equipment, name string) (n int, known bool) {
	switch what {
	case ABurner:
		return k.Burners, true
	case AGrill:
		return k.Grills, true
	case ACounter:
		return k.Counter, true
	}
	for _, w := range k.wares(what) {
		if w.Name == name {
			n, known = n+w.Count, true
		}
	}
	return n, known
}
