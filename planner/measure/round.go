package measure

import "math/big"

// Rounding for a cook. The rules, and how far a rounded amount may be off:
//
//   - Grams and millilitres go to what a scale and a jug show: 187.3 g is
//     185 g. Off by at most 5 %, or 0.05 g or ml below 1.
//   - Cups, spoons, ounces and pounds go to halves, thirds, quarters and, where
//     those are too coarse, eighths, in whichever of cup, tablespoon and
//     teaspoon (pound and ounce) fits: ⅓ stays ⅓. Off by at most 5 %, or a
//     sixteenth of the smallest of these where that is more.
//   - What is counted goes to whole ones from 4 up, to halves from 1 up, and
//     below to ¼ ⅓ ½ ⅔ ¾. Off by at most half a step: ½, ¼, ⅛.
//
// The tests hold the rules to these limits.

// RoundingLimit is the greatest relative error of rounding what is weighed or
// measured, except for the least amounts named above.
const RoundingLimit = 0.05

// closeEnough is the error up to which a simpler fraction or a larger unit is
// preferred to a nearer one.
var closeEnough = big.NewRat(1, 40)

// Round is the amount as a cook would weigh, spoon or count it. Rounding a
// rounded amount changes nothing.
func (q Quantity) Round() Quantity {
	r := q.roundOnce()
	// A spoon's mark may lie so near a cup's that it would round on.
	for range 3 {
		next := r.roundOnce()
		if next.Equal(r) {
			break
		}
		r = next
	}
	return r
}

func (q Quantity) roundOnce() Quantity {
	if q.IsZero() {
		return q
	}
	row, _ := q.unit.row()
	var lo, hi *big.Rat
	unit := q.unit
	switch {
	case row.kind == Count:
		lo, hi = roundCount(q.lo), roundCount(q.hi)
	case isSI(unit):
		lo, hi, unit = roundSI(q.lo, q.hi, row)
	default:
		lo, hi, unit = roundSpoons(q.lo, q.hi, row)
	}
	if lo.Cmp(hi) > 0 {
		hi = lo
	}
	r, err := checked(lo, hi, unit)
	if err != nil {
		return q // too large to round: as it was
	}
	return r
}

// Off is by how much the rounded amount differs from q, relative to q, at the
// end where it differs more; 0 for no amount or amounts of different kinds.
func (q Quantity) Off(rounded Quantity) float64 {
	r, err := rounded.Convert(q.unit)
	if err != nil || q.IsZero() || r.IsZero() {
		return 0
	}
	return max(floatOf(relative(q.lo, r.lo)), floatOf(relative(q.hi, r.hi)))
}

func relative(exact, rounded *big.Rat) *big.Rat {
	d := new(big.Rat).Sub(exact, rounded)
	return d.Quo(d.Abs(d), exact)
}

// toStep is v at the nearest multiple of the step, halves up.
func toStep(v, step *big.Rat) *big.Rat {
	n := new(big.Rat).Quo(v, step)
	n.Add(n, big.NewRat(1, 2))
	whole, _ := split(n)
	return new(big.Rat).Mul(new(big.Rat).SetInt(whole), step)
}

func isSI(u Unit) bool {
	switch u {
	case Gram, Kilogram, "mg", Millilitre, Litre, "cl", "dl":
		return true
	}
	return false
}

// siSteps: from so many grams or millilitres up, the step of a scale. Each
// step is at most a tenth of its own start, which is the limit of 5 %.
var siSteps = []struct{ from, step *big.Rat }{
	{big.NewRat(10_000, 1), big.NewRat(500, 1)},
	{big.NewRat(2500, 1), big.NewRat(100, 1)},
	{big.NewRat(1000, 1), big.NewRat(50, 1)},
	{big.NewRat(250, 1), big.NewRat(10, 1)},
	{big.NewRat(50, 1), big.NewRat(5, 1)},
	{big.NewRat(10, 1), big.NewRat(1, 1)},
	{big.NewRat(5, 1), big.NewRat(1, 2)},
	{new(big.Rat), big.NewRat(1, 10)},
}

func roundSI(lo, hi *big.Rat, row unitRow) (rlo, rhi *big.Rat, unit Unit) {
	round := func(v *big.Rat) *big.Rat {
		v = new(big.Rat).Mul(v, row.base)
		for _, s := range siSteps {
			if v.Cmp(s.from) >= 0 {
				if r := toStep(v, s.step); r.Sign() > 0 {
					return r
				}
				return s.step
			}
		}
		return v
	}
	rlo, rhi = round(lo), round(hi)
	unit, large := Gram, Kilogram
	if row.kind == Volume {
		unit, large = Millilitre, Litre
	}
	if thousand := big.NewRat(1000, 1); rlo.Cmp(thousand) >= 0 {
		return rlo.Quo(rlo, thousand), new(big.Rat).Quo(rhi, thousand), large
	}
	return rlo, rhi, unit
}

func roundCount(v *big.Rat) *big.Rat {
	switch {
	case v.Cmp(big.NewRat(4, 1)) >= 0:
		return toStep(v, big.NewRat(1, 1))
	case v.Cmp(big.NewRat(1, 1)) >= 0:
		return toStep(v, big.NewRat(1, 2))
	}
	best := big.NewRat(1, 4)
	for _, f := range []*big.Rat{big.NewRat(1, 3), big.NewRat(1, 2), big.NewRat(2, 3), big.NewRat(3, 4),
		big.NewRat(1, 1)} {
		if nearer(v, f, best) {
			best = f
		}
	}
	return best
}

// nearer reports whether a is nearer to v than b.
func nearer(v, a, b *big.Rat) bool {
	da, db := new(big.Rat).Sub(v, a), new(big.Rat).Sub(v, b)
	return da.Abs(da).Cmp(db.Abs(db)) < 0
}

// Ladders of units that cooks change between, large to small. leastOf is the
// least of a unit that is spoken of while there is a smaller one.
var leastOf = map[Unit]*big.Rat{
	"us-gallon": big.NewRat(1, 2), Quart: big.NewRat(1, 2), Pint: big.NewRat(1, 2), Cup: big.NewRat(1, 4),
	FluidOunce: big.NewRat(1, 1), Tablespoon: big.NewRat(1, 1),
	"metric-cup": big.NewRat(1, 4), "metric-tbsp": big.NewRat(1, 1), "au-tbsp": big.NewRat(1, 1),
	"label-cup": big.NewRat(1, 4), "label-tbsp": big.NewRat(1, 1),
	"imp-pint": big.NewRat(1, 4), "imp-quart": big.NewRat(1, 4), "stone": big.NewRat(1, 2), Pound: big.NewRat(1, 4),
}

// ladders by the unit of the amount. Units that are missing stay themselves.
var ladders = func() map[Unit][]Unit {
	spoons := []Unit{Cup, Tablespoon, Teaspoon}
	m := map[Unit][]Unit{
		"us-gallon": append([]Unit{"us-gallon"}, spoons...),
		Quart:       append([]Unit{Quart}, spoons...),
		Pint:        append([]Unit{Pint}, spoons...),
		"us-gill":   spoons,
		"jigger":    spoons,
		FluidOunce:  {FluidOunce, Tablespoon, Teaspoon},
		"imp-pint":  {"imp-pint", "imp-fl-oz"},
		"imp-quart": {"imp-quart", "imp-fl-oz"},
		"stone":     {"stone", Pound, Ounce},
		"au-tbsp":   {"metric-cup", "au-tbsp", "metric-tsp"},
	}
	for _, l := range [][]Unit{
		spoons,
		{"metric-cup", "metric-tbsp", "metric-tsp"},
		{"label-cup", "label-tbsp", "label-tsp"},
		{Pound, Ounce},
	} {
		for _, u := range l {
			m[u] = l
		}
	}
	return m
}()

func roundSpoons(lo, hi *big.Rat, row unitRow) (rlo, rhi *big.Rat, unit Unit) {
	units, ok := ladders[row.id]
	if !ok {
		units = []Unit{row.id}
	}
	var best *big.Rat // the error of the choice so far
	for i, u := range units {
		into, _ := u.row()
		f := new(big.Rat).Quo(row.base, into.base)
		v := new(big.Rat).Mul(lo, f)
		last := i == len(units)-1
		if !last && v.Cmp(leastOf[u]) < 0 {
			continue
		}
		at := toMark(v, last)
		off := relative(v, at)
		if best == nil || off.Cmp(best) < 0 {
			best, unit, rlo, rhi = off, u, at, toMark(new(big.Rat).Mul(hi, f), last)
		}
		if off.Cmp(closeEnough) <= 0 {
			break
		}
	}
	return rlo, rhi, unit
}

// marks are the fractions on spoons and cups, simple ones first.
var marks = [][]*big.Rat{
	{new(big.Rat), big.NewRat(1, 1)},
	{big.NewRat(1, 2)},
	{big.NewRat(1, 3), big.NewRat(2, 3), big.NewRat(1, 4), big.NewRat(3, 4)},
	{big.NewRat(1, 8), big.NewRat(3, 8), big.NewRat(5, 8), big.NewRat(7, 8)},
}

// toMark is v at the simplest mark that is close enough, else at the nearest,
// and never at none. Less than one goes to eighths only in the last, smallest
// unit: there is no cup of three eighths, but there are six tablespoons.
func toMark(v *big.Rat, last bool) *big.Rat {
	whole, frac := split(v)
	usable := marks
	if whole.Sign() == 0 && !last {
		usable = marks[:len(marks)-1]
	}
	var nearest *big.Rat
	for _, simple := range usable {
		for _, m := range simple {
			at := new(big.Rat).SetInt(whole)
			at.Add(at, m)
			if at.Sign() > 0 && (nearest == nil || nearer(v, at, nearest)) {
				nearest = at
			}
		}
		if nearest != nil && relative(v, nearest).Cmp(closeEnough) <= 0 {
			break
		}
	}
	// Half of the least mark is the least of all.
	if whole.Sign() == 0 && frac.Cmp(big.NewRat(3, 32)) < 0 {
		return big.NewRat(1, 16)
	}
	return nearest
}
