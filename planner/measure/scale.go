package measure

import (
	"fmt"
	"math"
	"math/big"

	"tureen/planner/words"
)

// Growth is how an amount grows with the covers.
type Growth string

// The ways to grow. Salt in doughs, brines, cures and pickles is Linear.
const (
	Linear    Growth = ""          // flour, meat, stock; the zero value
	Stepwise  Growth = "stepwise"  // comes in whole ones: eggs, tins
	Sublinear Growth = "sublinear" // strong spice, leavening, frying fat: less than in proportion
)

// sublinearPower is the exponent of what grows less than in proportion: twice
// the dish takes 1.7 times the spice, four times 2.8. Common practice, no
// source: cooks take "a good half more" for the double and taste.
const sublinearPower = 0.75

// Scaled is an amount for other covers, with what a cook should know of it.
type Scaled struct {
	Amount Quantity // not rounded, but for Stepwise
	Note   string   // "" when it simply grew in proportion
}

// ScaleAs is the amount for num covers instead of den, as its growth has it.
// Stepwise goes to the nearest whole one, at least one, halves up, and says by
// how much; Sublinear grows less than in proportion upwards, in proportion
// downwards, and asks to taste.
func (q Quantity) ScaleAs(growth Growth, num, den int) (Scaled, error) {
	exact, err := q.Scale(num, den)
	if err != nil || q.IsZero() {
		return Scaled{Amount: exact}, err
	}
	switch growth {
	case Stepwise:
		lo, hi := wholeOnes(exact.lo), wholeOnes(exact.hi)
		whole, err := checked(lo, hi, q.unit)
		if err != nil || whole.Equal(exact) {
			return Scaled{Amount: whole}, err
		}
		return Scaled{Amount: whole, Note: fmt.Sprintf("by the sum %s, taken as %s", exact, whole)}, nil
	case Sublinear:
		if num <= den {
			return Scaled{Amount: exact}, nil
		}
		f := fromFloat(math.Pow(float64(num)/float64(den), sublinearPower))
		less, err := q.times(f)
		if err != nil {
			return Scaled{}, err
		}
		return Scaled{Amount: less, Note: fmt.Sprintf(
			"less than in proportion (that would be %s): taste, and add if it wants more", exact.Round())}, nil
	}
	return Scaled{Amount: exact}, nil
}

func wholeOnes(r *big.Rat) *big.Rat {
	one := big.NewRat(1, 1)
	if w := toStep(r, one); w.Cmp(one) > 0 {
		return w
	}
	return one
}

// Pan is the floor of a pan. Pans of one depth hold as their areas do: see
// [PanFactor].
type Pan struct {
	DiameterCM        float64 // of a round pan; 0 for one with corners
	LengthCM, WidthCM float64
}

// Area is the area of the pan in square centimetres.
func (p Pan) Area() float64 {
	if p.DiameterCM > 0 {
		return math.Pi / 4 * p.DiameterCM * p.DiameterCM
	}
	return p.LengthCM * p.WidthCM
}

// PanFactor is how much of a recipe for one pan fills so many of another at
// the same depth: two 20 cm tarts take 1.11 times a 27 cm one's.
func PanFactor(from, to Pan, pans int) (float64, error) {
	if !(from.Area() > 0) || !(to.Area() > 0) || math.IsInf(from.Area()+to.Area(), 0) || pans <= 0 {
		return 0, &Error{"pan", "a pan has a diameter or two sides", "give for example 24 cm, or 20 by 30 cm"}
	}
	return float64(pans) * to.Area() / from.Area(), nil
}

// Grams of a US large egg without its shell, and of its parts (USDA SR28, NDB
// 01123 to 01125).
const (
	EggGrams      = 50
	EggWhiteGrams = 33
	EggYolkGrams  = 17
)

// Eggs is what to do with a number of eggs that does not come out even: how
// many whole ones, and how many grams of another, beaten, to add. Less than a
// tenth of an egg is dropped, more than nine tenths is a whole one.
func Eggs(q Quantity) (whole, beatenGrams int, advice string) {
	if q.IsZero() || q.unit != Each {
		return 0, 0, ""
	}
	w, part := split(q.hi)
	whole = int(w.Int64())
	switch f := floatOf(part); {
	case f > 0.9:
		whole++
	case f >= 0.1:
		beatenGrams = int(math.Round(f * EggGrams))
	}
	if whole == 0 && beatenGrams == 0 {
		beatenGrams = EggGrams / 10
	}
	switch {
	case beatenGrams == 0:
		advice = words.Count(whole, "egg")
	case whole == 0:
		advice = fmt.Sprintf("beat 1 egg and use %d g of it", beatenGrams)
	default:
		advice = fmt.Sprintf("%s, and beat 1 more and use %d g of it", words.Count(whole, "egg"), beatenGrams)
	}
	return whole, beatenGrams, advice
}
