package planner

import "slices"

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
	Given       bool   `json:"given,omitempty"`  // the hosts have said how many
}

// Cold is a refrigerator's or freezer's free space.
type Cold struct {
	Millilitres int `json:"ml"`
	Flat        int `json:"flat"` // places where a tray or a wide dish lies flat
	// the hosts have said the litres, and the flat places
	Given     bool `json:"given,omitempty"`
	FlatGiven bool `json:"flatGiven,omitempty"`
}

// HomeKitchen is the kitchen a party starts with: a well-equipped home, common practice, no source. What it has of
// space in the cold, vessels, plates and glasses nobody has given: such a figure is a guess to give advice by, and
// forbids nothing.
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
			{Name: "muffin tin", Count: 1},
			{Name: "mixing bowl", Count: 4}},
		HotPlaces: []Ware{{Name: "warming tray", Count: 2}},
		Plates: []Ware{{Name: "small plate", Count: 24}, {Name: "dinner plate", Count: 12}, {Name: "soup bowl", Count: 12},
			{Name: "dessert bowl", Count: 12}, {Name: "wine glass", Count: 24}},
		Dishwasher:   90,
		Refrigerator: Cold{Millilitres: 60000, Flat: 3},
		Freezer:      Cold{Millilitres: 20000, Flat: 1},
	}
}

// home is the kitchen that figures are compared with, to tell what nobody has given.
var home = HomeKitchen()

// GivenSpace is the free space in the refrigerator or freezer that the hosts have given, -1 where they have not. What
// was stored before it was noted who had said a figure counts as given if it is not the one that each party started
// with.
func (k *Kitchen) GivenSpace(state State) (ml, flat int) {
	has, usual := k.Refrigerator, home.Refrigerator
	if state == Freezer {
		has, usual = k.Freezer, home.Freezer
	}
	ml, flat = -1, -1
	if has.Given || has.Millilitres != usual.Millilitres {
		ml = has.Millilitres
	}
	if has.FlatGiven || has.Flat != usual.Flat {
		flat = has.Flat
	}
	return ml, flat
}

// Binds says whether a plan may use no more of some equipment than the kitchen has: of vessels only where the hosts
// have said how many there are.
func (k *Kitchen) Binds(what Equipment, name string) bool {
	if what != AVessel {
		return true
	}
	i := slices.IndexFunc(k.Vessels, func(w Ware) bool { return w.Name == name })
	return i < 0 || k.Vessels[i].given(home.Vessels)
}

// PlatesGiven says whether the hosts have said how many there are of a plate or glass.
func (w *Ware) PlatesGiven() bool { return w.given(home.Plates) }

// given says whether the hosts have said how many there are; as for [Kitchen.GivenSpace], what differs from what each
// party started with was said.
func (w *Ware) given(usual []Ware) bool {
	i := slices.IndexFunc(usual, func(u Ware) bool { return u.Name == w.Name })
	return w.Given || i < 0 || usual[i].Count != w.Count
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
