package measure

import "math/big"

// Stock is what there is of one ingredient: in the house, or bought. It is drawn on want by want.
type Stock struct {
	density *Density // of the ingredient, nil where it is not known
	amounts []Quantity
	All     bool // there is enough of it, whatever is wanted
	Some    bool // there is some, of which nobody has said how much
}

// NewStock is an empty stock of an ingredient of that density, nil where it is not known.
func NewStock(d *Density) *Stock { return &Stock{density: d} }

// Put adds an amount. A range counts with its near end, since nobody can rely on more.
func (s *Stock) Put(q Quantity) {
	if q.IsZero() {
		s.Some = true
		return
	}
	s.amounts = append(s.amounts, Quantity{q.lo, q.lo, q.unit})
}

// Empty reports whether nothing is left, nor ever was.
func (s *Stock) Empty() bool { return s == nil || len(s.amounts) == 0 && !s.All && !s.Some }

// Draw takes what is wanted out of the stock and says what is still missing; no amount when nothing is. Of a
// range the far end is wanted. Volume is drawn from weight, and weight from volume, by the ingredient's
// density, the careful way round: see [Weigh]. A want without an amount is met by any stock.
func (s *Stock) Draw(q Quantity) (missing Quantity, met bool) {
	switch {
	case s.Empty():
		return q, false
	case s.All, q.IsZero():
		return Quantity{}, true
	}
	missing = Quantity{q.hi, q.hi, q.unit}
	for i := 0; i < len(s.amounts); i++ {
		a := s.amounts[i]
		want, ok := s.in(missing, a.unit)
		if !ok {
			continue
		}
		if a.lo.Cmp(want) > 0 {
			rest := new(big.Rat).Sub(a.lo, want)
			s.amounts[i] = Quantity{rest, rest, a.unit}
			return Quantity{}, true
		}
		s.amounts = append(s.amounts[:i:i], s.amounts[i+1:]...)
		if a.lo.Cmp(want) == 0 {
			return Quantity{}, true
		}
		i--
		part := new(big.Rat).Quo(a.lo, want)
		part.Sub(big.NewRat(1, 1), part)
		v := part.Mul(part, missing.lo)
		missing = Quantity{v, v, missing.unit}
	}
	return missing, false
}

// in is how much of a unit a want takes at most; ok is false where the two cannot be compared.
func (s *Stock) in(want Quantity, unit Unit) (*big.Rat, bool) {
	if c, err := want.Convert(unit); err == nil {
		return c.hi, true
	}
	if want.unit.Kind() == Count || unit.Kind() == Count {
		return nil, false
	}
	w, err := Weigh(want, s.density, unit)
	if err != nil {
		return nil, false
	}
	return w.High.hi, true
}

// Up is the amount rounded as a cook would, but never to less: what is bought must be enough. Counted things
// go to whole ones; of a range the far end counts.
func (q Quantity) Up() Quantity {
	if q.IsZero() {
		return q
	}
	top := Quantity{q.hi, q.hi, q.unit}
	if q.unit.Kind() == Count {
		whole, rest := split(top.hi)
		r := new(big.Rat).SetInt(whole)
		if rest.Sign() > 0 {
			r.Add(r, big.NewRat(1, 1))
		}
		return Quantity{r, r, q.unit}
	}
	for percent := int64(100); percent <= 200; percent++ {
		more, err := top.times(big.NewRat(percent, 100))
		if err != nil {
			break
		}
		r := more.Round()
		if c, ok := r.Cmp(top); ok && c >= 0 {
			return r
		}
	}
	return top
}
