package safety

import (
	"fmt"
	"math"
	"sync"
)

// Chilling: an estimate of how long a pot takes from 57 °C to 21 °C and to
// 5 °C, the two marks of the FDA Food Code's rule (3-501.14). It is meant to
// be too long rather than too short: the sides of the vessel do not count, the
// air is still and warms with the load, thick food is not stirred by itself.
//
// Thick food cools by conduction: a slab between two surfaces, the hottest
// point counting. Thin food mixes itself: one temperature throughout, but top
// and bottom alone give off heat. Ice baths that are stirred go by measured
// rates (America's Test Kitchen, 2.5 qt of soup in three bowls), slowed.

// Body says how a food carries heat.
type Consistency string

// The bodies.
const (
	Thick Consistency = "thick" // stew, chili, purée, rice: heat must creep through
	Thin  Consistency = "thin"  // stock, clear soup: moves by itself
)

// Place is where and how a food is chilled.
type Place string

// The places.
const (
	PlaceRefrigerator Place = "refrigerator" // a home refrigerator, on a rack, uncovered
	PlaceColdRoom     Place = "cold-room"    // a walk-in with a fan
	PlaceFreezer      Place = "freezer"
	PlaceIceBath      Place = "ice-bath"         // standing in ice water, not stirred
	PlaceStirredIce   Place = "stirred-ice-bath" // in ice water, stirred at least every 10 minutes
	PlaceTapWater     Place = "cold-tap-water"   // in a sink of cold water, changed
	PlaceCounter      Place = "counter"          // at 21 °C
)

// Vessel is what the food stands in.
type Material string

// The vessels, by what heat has to go through.
const (
	Metal   Material = "metal"
	Glass   Material = "glass" // or glazed earthenware
	Plastic Material = "plastic"
)

// Pot is a food to be chilled.
type Pot struct {
	MadeOf      Material
	DepthCM     float64 // of the food, 0.5 to 60
	Litres      float64 // of the food, 0.05 to 100
	Consistency Consistency
	Place       Place
	Covered     bool
}

// Chill is an estimate. It is no promise: see [Caution].
type Cooled struct {
	StageOne int  // minutes from 57 °C to 21 °C; NeverChills when it does not get there
	Whole    int  // minutes from 57 °C to 5 °C; NeverChills when it does not get there
	Within   bool // within both stages of the rule, by this estimate
	IceKG    float64
	Limit    Limit // the whole of the two-stage rule
}

// NeverChills stands for more than a week.
const NeverCools = 7 * 24 * 60

const (
	startC    = 57.2 // 135 °F
	stageOneC = 21.1 // 70 °F
	wholeC    = 5.0  // 41 °F

	// Cold of the places. A refrigerator has 2.8 °C (37 °F) as long as little
	// warm food stands in it, and its limit of 4 °C with more.
	refrigeratorC     = 2.8
	loadedC           = 4
	loadLitres        = 2
	freezerC          = -18
	tapWaterC         = 18
	counterC          = 21
	conductivity      = 0.5    // W/mK, food
	heatCapacity      = 3900e3 // J/m³K, food
	plasticDepthCM    = 0.32   // a wall of 1/8 in acts like 1/8 in of food
	coverHolds        = 0.5    // of the heat that the surface would give off
	stirredAtLitres   = 2.37   // 2.5 qt, of the measurements
	stirredCare       = 0.4    // of the measured rate: there it was stirred all the time
	thickStirredCare  = 0.5    // of a thin food's rate
	tapWaterCare      = 0.5    // of an ice bath's rate: no ice, little stirring
	iceHeatKJ         = 334    // melts a kilogram
	iceFromC          = 80     // a pot comes to the ice hotter than 57 °C
	iceCare           = 1.25
	kilojoulePerLitre = 3.9
)

// film is the heat that a surface gives off, in W/m²K: still refrigerator air
// 5 to 10 with radiation, moving air 15 to 30, ice water that is not stirred
// 60 to 80 at most by the failures of 2 in pans in the studies (ASHRAE
// Refrigeration 2018 ch. 19-20, from memory); ours are at the careful ends.
type film struct{ top, bottom float64 }

var films = map[Place]film{
	PlaceRefrigerator: {7, 5},
	PlaceColdRoom:     {16, 10},
	PlaceFreezer:      {7, 5},
	PlaceIceBath:      {8, 40},
	PlaceCounter:      {7, 5},
}

// thinInIce is the film at the bottom of a thin food that nobody stirs.
const thinInIce = 12

// stirredRate is the measured natural-log rate an hour of 2.5 qt of soup
// stirred in an ice bath (America's Test Kitchen: 11.5, 26 and 36 minutes from
// 174 °F to 80 °F).
var stirredRate = map[Material]float64{Metal: 5.66, Glass: 2.5, Plastic: 1.81}

// ChillTime estimates how long the pot takes. The error says what is missing
// or makes no sense.
func CoolTime(p Pot) (Cooled, error) {
	if err := p.check(); err != nil {
		return Cooled{}, err
	}
	c := p.estimate()
	_, c.Limit = TwoStageCooling()
	if p.Place == PlaceIceBath || p.Place == PlaceStirredIce {
		c.IceKG = iceFor(p.Litres)
	}
	return c, nil
}

func (p Pot) check() error {
	_, isAir := films[p.Place]
	switch {
	case !isAir && p.Place != PlaceStirredIce && p.Place != PlaceTapWater:
		return fmt.Errorf("%.40q is no place to cool that I know; use refrigerator, freezer, ice-bath or stirred-ice-bath",
			string(p.Place))
	case p.Consistency != Thick && p.Consistency != Thin:
		return fmt.Errorf("%.40q: say whether the food is thick (stew, purée, rice) or thin (stock, clear soup)",
			string(p.Consistency))
	case stirredRate[p.MadeOf] == 0:
		return fmt.Errorf("%.40q is no vessel that I know; use metal, glass or plastic", string(p.MadeOf))
	case !(p.DepthCM >= 0.5 && p.DepthCM <= 60):
		return fmt.Errorf("food to cool stands between 0.5 and 60 cm deep; %v cm does not", p.DepthCM)
	case !(p.Litres >= 0.05 && p.Litres <= 100):
		return fmt.Errorf("a pot to cool holds between 0.05 and 100 litres; %v does not", p.Litres)
	}
	return nil
}

func (p Pot) estimate() Cooled {
	c := Cooled{
		StageOne: minutesUp(p.hours(startC, stageOneC)),
		Whole:    minutesUp(p.hours(startC, wholeC)),
	}
	first, whole := TwoStageCooling()
	c.Within = c.StageOne <= first.Minutes && c.Whole <= whole.Minutes
	return c
}

// minutesUp rounds up to five minutes, and to NeverChills past a week.
func minutesUp(hours float64) int {
	if !(hours < NeverCools/60) {
		return NeverCools
	}
	return 5 * int(math.Ceil(hours*60/5))
}

// cold is the temperature around the pot.
func (p Pot) cold() float64 {
	switch p.Place {
	case PlaceRefrigerator:
		if p.Litres > loadLitres {
			return loadedC
		}
		return refrigeratorC
	case PlaceColdRoom:
		return refrigeratorC
	case PlaceFreezer:
		return freezerC
	case PlaceTapWater:
		return tapWaterC
	case PlaceCounter:
		return counterC
	}
	return 0 // ice water
}

// hours is how long the hottest part takes between two temperatures in °C;
// infinite when the place is not cold enough.
func (p Pot) hours(from, to float64) float64 {
	around := p.cold()
	if to <= around {
		return math.Inf(1)
	}
	if p.Place == PlaceStirredIce || p.Place == PlaceTapWater {
		// The rate goes with surface to volume: the cube root of the litres.
		rate := stirredRate[p.MadeOf] * stirredCare * math.Cbrt(stirredAtLitres/p.Litres)
		if p.Litres < stirredAtLitres {
			rate = stirredRate[p.MadeOf] * stirredCare
		}
		if p.Consistency == Thick {
			rate *= thickStirredCare
		}
		if p.Place == PlaceTapWater {
			rate *= tapWaterCare
		}
		return math.Log((from-around)/(to-around)) / rate
	}
	f, depth := films[p.Place], p.DepthCM/100
	if p.Place == PlaceIceBath {
		// A tomato sauce that anybody would call thin failed in the studies too.
		if p.Consistency == Thin {
			f.bottom = thinInIce
		}
	}
	if p.Covered {
		f.top *= coverHolds
	}
	if p.MadeOf == Plastic {
		depth += plasticDepthCM / 100
	}
	if p.Consistency == Thin {
		perSecond := (f.top + f.bottom) / (heatCapacity * depth)
		return math.Log((from-around)/(to-around)) / perSecond / 3600
	}
	return slabHours(depth, f, from, to, around)
}

// slabCase is all that the time of a slab hangs on.
type slabCase struct {
	depth            float64
	f                film
	from, to, around float64
}

// slabs keeps what slabHours has worked out: a menu asks for the same few slabs again and again.
var slabs = struct {
	sync.Mutex
	hours map[slabCase]float64
}{hours: map[slabCase]float64{}}

// mostSlabs is how many are kept; beyond it all are worked out anew.
const mostSlabs = 1000

// slabHours is how long the hottest point of a slab of food takes.
func slabHours(depth float64, f film, from, to, around float64) float64 {
	c := slabCase{depth, f, from, to, around}
	slabs.Lock()
	defer slabs.Unlock()
	if h, ok := slabs.hours[c]; ok {
		return h
	}
	if len(slabs.hours) >= mostSlabs {
		clear(slabs.hours)
	}
	h := workSlab(depth, f, from, to, around)
	slabs.hours[c] = h
	return h
}

// workSlab goes by steps in time over cells in depth (explicit finite differences).
func workSlab(depth float64, f film, from, to, around float64) float64 {
	const cells = 24
	const mostHours = 2000
	dx := depth / cells
	diffusivity := conductivity / heatCapacity
	dt := 0.2 * dx * dx / diffusivity
	// A surface gives off heat through half a cell of food and its film.
	give := func(h float64) float64 { return dt / (heatCapacity * dx) / (1/h + dx/2/conductivity) }
	top, bottom, within := give(f.top), give(f.bottom), dt*diffusivity/(dx*dx)
	var now, next [cells]float64
	for i := range now {
		now[i] = from
	}
	for t := 0.0; t < mostHours*3600; t += dt {
		hottest := now[0]
		for _, v := range now {
			hottest = max(hottest, v)
		}
		if hottest <= to {
			return t / 3600
		}
		for i := range now {
			flow := 0.0
			if i > 0 {
				flow += within * (now[i-1] - now[i])
			} else {
				flow += top * (around - now[i])
			}
			if i < cells-1 {
				flow += within * (now[i+1] - now[i])
			} else {
				flow += bottom * (around - now[i])
			}
			next[i] = now[i] + flow
		}
		now = next
	}
	return math.Inf(1)
}

// iceFor is the ice to buy for a bath, in kilograms, up to the next half.
func iceFor(litres float64) float64 {
	kg := litres * kilojoulePerLitre * (iceFromC - wholeC) / iceHeatKJ * iceCare
	return math.Ceil(kg*2) / 2
}
