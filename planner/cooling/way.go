package cooling

import (
	"fmt"
	"math"
	"slices"

	"tureen/planner"
	"tureen/planner/safety"
)

// Way is how food is cooled.
type Way struct {
	How      planner.CoolHow
	DepthCM  float64 // as deep as it stands, or as thick as it is
	Vessels  int     // trays or tins
	Grams    int     // of the largest piece of meat
	Place    safety.Place
	MadeOf   safety.Material
	IceKG    float64
	StageOne int // minutes to 21 °C, by the careful estimate
	Whole    int // minutes to 5 °C
	Within   bool
}

// What a tray of a home kitchen holds: 40 by 25 cm; and how many go into a home refrigerator; common practice, no
// source. Whoever has more food than that stands it deeper, as far as is published.
const (
	trayCM2   = 1000
	mostTrays = 6
	trayFull  = 2 / 3.0 // of a tray, where things lie apart on it
	sliceCM   = 1.5     // meat carved to lie flat
	dishCM    = 5
	cutCM     = 5 // pieces that a bake is cut into, apart on trays, and how thick it is
	bakeCM    = 4
	largeML   = 2000 // of a bake, from which it is cut up: what loads a refrigerator (package safety)
	potCM     = 10
	// gramsACM3 turns grams into a thickness: a joint is about twice as long as it is thick
	gramsACM3   = 1.05
	smallLitres = 0.5  // what holds less is a portion: a glass, a jar
	mostBath    = 60   // minutes that anybody keeps an eye on a bath
	layeredCM   = 3    // what is put together to be baked is this deep at least: a layer or two
	bathPotML   = 5000 // millilitres that one pot in a bath holds
)

// flats are what lies on a tray piece by piece, in centimetres: a portion of fish, a breast or a chop; common practice,
// no source. Whatever is smaller is cold sooner.
var flats = map[body]struct{ thick, wide, long float64 }{fillets: {2.5, 6, 10}, pieces: {3, 7, 12}}

// asSlab is the depth of the slab that cools as a block does that gives off heat by its sides too, as it lies apart
// from others: both have as much volume by their surface.
func asSlab(thick, wide, long float64) float64 {
	return max(0.5, thick*wide*long/(thick*wide+thick*long+wide*long))
}

// depths are those that a host can judge by eye.
var depths = []float64{1.5, 2, 2.5, 3, 4, 5}

// Best is the way of cooling that the estimate likes best, or the one that the host has said, with its estimate.
func Best(p *planner.Party, f *Food, said *planner.Cooling) Way {
	if said != nil {
		return saidWay(f, said)
	}
	all := ways(f)
	best := all[0]
	for _, w := range all[1:] {
		if !best.Within && (w.Within || w.Whole < best.Whole) {
			best = w
		}
	}
	return best
}

// ways are the ways that suit a food without anything that a kitchen might lack, the easiest first.
func ways(f *Food) []Way {
	switch f.body {
	case joint:
		if f.again { // whoever glazes it wants no slices
			weight, thick := safety.CoolPiece()
			w := Way{How: planner.CoolPieces, DepthCM: thick.Size, Grams: int(weight.Size), Place: safety.PlaceRefrigerator,
				MadeOf: safety.Metal}
			if n := planner.CeilDiv(f.Grams, w.Grams); n > 0 {
				w.Grams = planner.CeilDiv(f.Grams, n)
			}
			w.Vessels = max(1, planner.CeilDiv(f.Grams, w.Grams))
			return []Way{f.estimate(w, f.consistency())}
		}
		return []Way{f.way(planner.CoolSliced, sliceCM, safety.PlaceRefrigerator)}
	case bird:
		return []Way{f.way(planner.CoolSliced, sliceCM, safety.PlaceRefrigerator)}
	case fillets, pieces:
		cm := flats[f.body].thick
		w := f.way(planner.CoolFlat, cm, safety.PlaceRefrigerator)
		w.Vessels = f.trays(cm * trayFull)
		return []Way{w}
	case inDish, baked, loaf:
		cm := float64(dishCM)
		if f.in != nil {
			cm = f.in.cm
		}
		out := []Way{f.way(planner.CoolAsItIs, cm, safety.PlaceRefrigerator)}
		if f.body == baked && f.Millilitres > largeML {
			w := f.way(planner.CoolPortions, bakeCM, safety.PlaceRefrigerator)
			w.Vessels = f.trays(bakeCM * trayFull)
			out = append(out, w)
		}
		return out
	}
	if f.in != nil && (f.in.cm <= f.deepest() || f.in.litres < smallLitres) {
		return []Way{f.way(planner.CoolAsItIs, f.in.cm, safety.PlaceRefrigerator)}
	}
	if f.layered {
		return []Way{f.way(planner.CoolTrays, layeredCM, safety.PlaceRefrigerator)}
	}
	cm := depths[len(depths)-1]
	if i := slices.IndexFunc(depths, func(cm float64) bool { return f.trays(cm) <= mostTrays }); i >= 0 {
		cm = depths[i]
	}
	out := []Way{f.way(planner.CoolTrays, cm, safety.PlaceRefrigerator)}
	if w := f.way(planner.CoolBath, cm, safety.PlaceTapWater); w.StageOne <= mostBath {
		out = append(out, w)
	}
	return out
}

func (f *Food) deepest() float64 { return safety.CoolDepth(f.consistency()).Size }

func (f *Food) consistency() safety.Consistency {
	if f.body == thin {
		return safety.Thin
	}
	return safety.Thick
}

// trays is how many hold the food so deep.
func (f *Food) trays(cm float64) int {
	return max(1, int(math.Ceil(float64(f.Millilitres)/(trayCM2*cm)-0.01)))
}

// way works a way out.
func (f *Food) way(how planner.CoolHow, cm float64, place safety.Place) Way {
	return f.estimate(Way{How: how, DepthCM: cm, Vessels: f.trays(cm), Place: place, MadeOf: safety.Metal},
		f.consistency())
}

// estimate reckons both stages: a bath ends at 21 °C, and the rest is the refrigerator's.
func (f *Food) estimate(w Way, c safety.Consistency) Way {
	litres := min(100, max(0.05, float64(f.Millilitres)/1000))
	pot := safety.Pot{MadeOf: w.MadeOf, DepthCM: min(60, max(0.5, w.DepthCM)), Litres: litres, Consistency: c,
		Place: safety.PlaceRefrigerator}
	switch flat, is := flats[f.body]; {
	case w.How == planner.CoolPortions && f.body == baked:
		pot.DepthCM = asSlab(w.DepthCM, cutCM, cutCM)
	case w.How == planner.CoolFlat && is:
		pot.DepthCM = asSlab(w.DepthCM, flat.wide, flat.long)
	}
	in, err := safety.CoolTime(pot)
	if err != nil {
		return w
	}
	w.StageOne, w.Whole, w.Within = in.StageOne, in.Whole, in.Within
	if w.How != planner.CoolBath {
		return w
	}
	pots := max(1, int(math.Ceil(float64(f.Millilitres)/bathPotML)))
	pot.Place, pot.Litres, pot.DepthCM = w.Place, litres/float64(pots), potCM
	bath, err := safety.CoolTime(pot)
	if err != nil {
		return w
	}
	w.Whole = min(safety.NeverCools, in.Whole-in.StageOne+bath.StageOne)
	w.StageOne, w.IceKG = bath.StageOne, bath.IceKG*float64(pots)
	first, whole := safety.TwoStageCooling()
	w.Within = w.StageOne <= first.Minutes && w.Whole <= whole.Minutes
	return w
}

// saidWay is what the host said, as a way.
func saidWay(f *Food, c *planner.Cooling) Way {
	w := Way{How: c.How, DepthCM: c.DepthCM, Place: c.Place, MadeOf: c.MadeOf, Grams: c.Grams}
	if w.How == "" { // as it was said before ways had names
		w.How = planner.CoolTrays
		if c.Place != safety.PlaceRefrigerator {
			w.How = planner.CoolBath
		}
	}
	if w.How == planner.CoolPieces {
		w.DepthCM = max(w.DepthCM, Thickness(w.Grams))
	}
	w.Vessels = f.trays(max(0.5, w.DepthCM))
	return f.estimate(w, c.Consistency)
}

// Thickness is how thick a piece of so many grams is, about twice as long and as wide as that.
func Thickness(grams int) float64 { return math.Cbrt(float64(grams) / gramsACM3 / 2) }

// Refused says why a way of cooling is past what is published, with the source; empty when it is not.
func Refused(f *Food, c *planner.Cooling) string {
	_, thick := safety.CoolPiece()
	w := saidWay(f, c)
	solid := f.body == bird || f.body == joint
	switch {
	case f.body == bird && w.How != planner.CoolSliced && w.How != planner.CoolPieces:
		return fmt.Sprintf("A whole bird is taken apart before it goes cold (%s): say how:sliced or how:pieces.",
			safety.CoolBird().Source)
	case solid && w.How != planner.CoolSliced && w.How != planner.CoolPieces:
		return f.tooHeavy(f.Grams)
	case w.How == planner.CoolPieces && math.Floor(w.DepthCM) > math.Floor(thick.Size):
		return fmt.Sprintf("Meat goes cold %s thick (%s), and this is %s cm.", thick.Figure(), thick.Source, plain(w.DepthCM))
	case w.How == planner.CoolPieces:
		return f.tooHeavy(w.Grams)
	case w.How == planner.CoolTrays || w.How == planner.CoolFlat || w.How == planner.CoolPortions ||
		w.How == planner.CoolAsItIs && f.body != loaf:
		if most := safety.CoolDepth(c.Consistency); w.DepthCM > most.Size {
			return fmt.Sprintf("%s food goes cold %s deep (%s), and this is %s cm: divide it.", upper(c.Consistency),
				most.Figure(), most.Source, plain(w.DepthCM))
		}
	}
	if w.How == planner.CoolBath && w.StageOne > safety.CounterLimit(planner.UsualRoomC).Minutes {
		return fmt.Sprintf("By a careful estimate such a bath takes %s to 21 °C: divide it into shallow trays instead "+
			"(how:shallow trays).", length(w.StageOne))
	}
	return ""
}

// tooHeavy says that a piece is past the published weight; empty when it is not. A weight that nobody has said is.
func (f *Food) tooHeavy(grams int) string {
	weight, _ := safety.CoolPiece()
	switch {
	case grams == 0:
		return fmt.Sprintf("Meat goes cold in pieces of %s (%s): say how much the largest weighs, weight:1500 g, or "+
			"how:sliced.", weight.Figure(), weight.Source)
	case grams > int(weight.Size):
		return fmt.Sprintf("Meat goes cold in pieces of %s (%s), and this is %s kg: cut it up (how:pieces) or slice it "+
			"(how:sliced).", weight.Figure(), weight.Source, plain(float64(grams)/1000))
	}
	return ""
}
