package measure

import (
	"math/big"
)

// Density is what a millilitre of an ingredient weighs, in grams, and how far cooks' cups differ. Which ingredient has
// which, package food knows.
type Density struct {
	Likely, Low, High *big.Rat // the spread over forms and sources; all equal where there is one figure only
	Ingredient        string   // as the table calls it
	Form              string   // "sifted", "chopped"; "" when the table names none
	Source            string
}

// Weighed is what a volume of an ingredient weighs (or the other way round), and how far cooks' cups differ.
type Weighed struct {
	Amount    Quantity // the likeliest, in the unit asked for
	Low, High Quantity // the spread over forms and sources; both Amount when there is one figure only
}

// Weigh converts between volume and weight by an ingredient's density, nil where that is not known. An amount that
// needs none (weight asked in weight) is converted exactly. The error says what is missing: a density, a count.
func Weigh(q Quantity, d *Density, to Unit) (Weighed, error) {
	if q.IsZero() {
		return Weighed{}, &Error{"", "there is no amount to weigh", "write for example 1 cup flour"}
	}
	if !to.Known() {
		return Weighed{}, &Error{string(to), "no unit that I know", "write for example g, ml, cup, tbsp, oz or clove"}
	}
	if q.unit.Kind() == to.Kind() || q.unit.Kind() == Count || to.Kind() == Count {
		same, err := q.Convert(to)
		return Weighed{Amount: same, Low: same, High: same}, err
	}
	if d == nil {
		return Weighed{}, &Error{q.String(), "I have no density for it", "give the weight"}
	}
	at := func(gramsPerMl *big.Rat) (Quantity, error) {
		f := new(big.Rat).Set(gramsPerMl)
		if to.Kind() == Volume {
			f.Inv(f)
		}
		f.Mul(f, q.unit.InBase())
		f.Quo(f, to.InBase())
		return checked(new(big.Rat).Mul(q.lo, f), new(big.Rat).Mul(q.hi, f), to)
	}
	var of [3]Quantity
	for i, v := range []*big.Rat{d.Likely, d.Low, d.High} {
		var err error
		if of[i], err = at(v); err != nil {
			return Weighed{}, err
		}
	}
	w := Weighed{Amount: of[0], Low: of[1], High: of[2]}
	if to.Kind() == Volume {
		w.Low, w.High = w.High, w.Low // what is heavy takes little room
	}
	return w, nil
}
