package measure

import (
	"math"
	"math/big"
	"strings"
)

// Quantity is an exact amount or range of amounts of a unit: 1½ cups, 2–3
// cloves, 200 g. The zero value is no amount at all ("to taste"). Quantities
// are values: no method changes its receiver.
type Quantity struct {
	lo, hi *big.Rat // lo <= hi, both > 0; nil in the zero value
	unit   Unit
}

// The largest amounts that are a kitchen's: ten thousand covers fit.
const (
	MaxBase  = 20_000_000 // grams or millilitres: 20 tonnes, 20,000 litres
	MaxCount = 1_000_000
)

// New is num/den of the unit. The error says why it is no amount.
func New(num, den int64, unit Unit) (Quantity, error) {
	if den == 0 {
		return Quantity{}, &Error{"n/0", "nothing can be divided by 0", "write a fraction such as 1/2"}
	}
	r := big.NewRat(num, den)
	return checked(r, r, unit)
}

// Range is low to high of the unit; the values are copied.
func Range(low, high *big.Rat, unit Unit) (Quantity, error) {
	return checked(new(big.Rat).Set(low), new(big.Rat).Set(high), unit)
}

// quick is about r, or more than any kitchen holds where that is not quickly said.
func quick(r *big.Rat) float64 {
	n, d := r.Num(), r.Denom()
	if !n.IsInt64() || !d.IsInt64() {
		return math.Inf(1)
	}
	return float64(n.Int64()) / float64(d.Int64())
}

// checked is the only way to a Quantity that is not zero. It owns lo and hi.
func checked(lo, hi *big.Rat, unit Unit) (Quantity, error) {
	q := Quantity{lo, hi, unit}
	row, ok := unit.row()
	if !ok {
		return Quantity{}, &Error{string(unit), "no unit that I know", "write for example g, ml, cup, tbsp, oz or clove"}
	}
	fail := func(why, try string) (Quantity, error) {
		text := lo.FloatString(3)
		if lo.Num().BitLen() > maxBits || lo.Denom().BitLen() > maxBits {
			text = "that amount"
		}
		return Quantity{}, &Error{strings.TrimSpace(text + " " + row.names[0]), why, try}
	}
	for _, r := range []*big.Rat{lo, hi} {
		if r.Num().BitLen() > maxBits || r.Denom().BitLen() > maxBits {
			return fail("more digits than a kitchen can use", "write a rounder number")
		}
	}
	most := int64(MaxBase)
	if row.kind == Count {
		most = MaxCount
	}
	switch {
	case lo.Sign() <= 0:
		return fail("an amount is more than 0", "leave it out if none is needed")
	case lo != hi && lo.Cmp(hi) > 0:
		return fail("the range runs backwards", "write the smaller number first, as in 2-3")
	case !(quick(hi)*row.baseFloat < float64(most)/2) &&
		new(big.Rat).Mul(hi, row.base).Cmp(new(big.Rat).SetInt64(most)) > 0:
		return fail("more than any kitchen holds", "check the number and the unit")
	}
	return q, nil
}

// IsZero reports whether there is no amount at all.
func (q Quantity) IsZero() bool { return q.lo == nil }

// IsRange reports whether the amount is a range of different ends.
func (q Quantity) IsRange() bool { return !q.IsZero() && q.lo.Cmp(q.hi) != 0 }

// Unit is the unit of the amount; Each for the zero value.
func (q Quantity) Unit() Unit { return q.unit }

// Low is the near end of the range, or the amount; a copy, 0 for no amount.
func (q Quantity) Low() *big.Rat { return copyOf(q.lo) }

// High is the far end of the range, or the amount; a copy, 0 for no amount.
func (q Quantity) High() *big.Rat { return copyOf(q.hi) }

func copyOf(r *big.Rat) *big.Rat {
	if r == nil {
		return new(big.Rat)
	}
	return new(big.Rat).Set(r)
}

// Equal reports whether both are the same amount in the same unit.
func (q Quantity) Equal(o Quantity) bool {
	if q.IsZero() || o.IsZero() {
		return q.IsZero() == o.IsZero()
	}
	return q.unit == o.unit && q.lo.Cmp(o.lo) == 0 && q.hi.Cmp(o.hi) == 0
}

// Scale is the amount times num/den: Scale(10, 4) takes a recipe for four to
// ten covers. No amount stays none.
func (q Quantity) Scale(num, den int) (Quantity, error) {
	if num <= 0 || den <= 0 {
		return Quantity{}, &Error{q.String(), "it can only be scaled by numbers above 0", "give the covers as 4 and 10"}
	}
	if q.IsZero() {
		return q, nil
	}
	return q.times(big.NewRat(int64(num), int64(den)))
}

func (q Quantity) times(f *big.Rat) (Quantity, error) {
	if q.lo == q.hi {
		v := new(big.Rat).Mul(q.lo, f)
		return checked(v, v, q.unit)
	}
	return checked(new(big.Rat).Mul(q.lo, f), new(big.Rat).Mul(q.hi, f), q.unit)
}

// Convert is the same amount in another unit of the same kind, exactly.
// Volume and weight convert only by an ingredient: see [Weigh]. Counts convert
// into nothing.
func (q Quantity) Convert(to Unit) (Quantity, error) {
	if q.IsZero() {
		return q, nil
	}
	from, _ := q.unit.row()
	into, ok := to.row()
	switch {
	case !ok:
		return Quantity{}, &Error{string(to), "no unit that I know", "write for example g, ml, cup, tbsp, oz or clove"}
	case q.unit == to:
		return q, nil
	case from.kind != into.kind || from.kind == Count:
		return Quantity{}, &Error{q.String(), "it cannot be turned into " + orThings(to), hintFor(from.kind, into.kind)}
	}
	f := new(big.Rat).Quo(from.base, into.base)
	if q.lo == q.hi {
		v := f.Mul(f, q.lo)
		return checked(v, v, to)
	}
	return checked(new(big.Rat).Mul(q.lo, f), new(big.Rat).Mul(q.hi, f), to)
}

func orThings(u Unit) string {
	if u == Each {
		return "pieces"
	}
	return u.Name(true)
}

func hintFor(from, to Kind) string {
	if from != Count && to != Count {
		return "name the ingredient: volume and weight meet in its density"
	}
	return "give it in one kind of measure"
}

// Adds reports whether the two amounts can be summed.
func (q Quantity) Adds(o Quantity) bool {
	if q.IsZero() || o.IsZero() || q.unit == o.unit {
		return true
	}
	return q.unit.Kind() == o.unit.Kind() && q.unit.Kind() != Count
}

// Add is the sum. Amounts of one system are summed in the larger unit (1 cup +
// 2 tbsp in cups), of different systems in grams or millilitres (2 sticks +
// 100 g), so that the order of adding never shows. No amount adds nothing. The
// error is for amounts that do not add up.
func (q Quantity) Add(o Quantity) (Quantity, error) {
	switch {
	case o.IsZero():
		return q, nil
	case q.IsZero():
		return o, nil
	case !q.Adds(o):
		return Quantity{}, &Error{q.String() + " + " + o.String(), "they do not add up",
			hintFor(q.unit.Kind(), o.unit.Kind())}
	}
	unit := sumUnit(q.unit, o.unit)
	a, err := q.Convert(unit)
	if err != nil {
		return Quantity{}, err
	}
	b, err := o.Convert(unit)
	if err != nil {
		return Quantity{}, err
	}
	if a.lo == a.hi && b.lo == b.hi {
		v := new(big.Rat).Add(a.lo, b.lo)
		return checked(v, v, unit)
	}
	return checked(new(big.Rat).Add(a.lo, b.lo), new(big.Rat).Add(a.hi, b.hi), unit)
}

// sumUnit is associative: of one system the larger unit, else the base.
func sumUnit(a, b Unit) Unit {
	if a == b {
		return a
	}
	ra, _ := a.row()
	rb, _ := b.row()
	if ra.system != rb.system || ra.system == Metric {
		if ra.kind == Mass {
			return Gram
		}
		return Millilitre
	}
	if c := ra.base.Cmp(rb.base); c > 0 || c == 0 && a < b {
		return a
	}
	return b
}

// Cmp compares the near ends, then the far ends, of two amounts that add up:
// -1, 0 or +1. ok is false for amounts that cannot be compared.
func (q Quantity) Cmp(o Quantity) (order int, ok bool) {
	o, err := o.Convert(q.unit)
	if err != nil || q.IsZero() || o.IsZero() {
		return 0, false
	}
	if c := q.lo.Cmp(o.lo); c != 0 {
		return c, true
	}
	return q.hi.Cmp(o.hi), true
}

// String is the amount as people write it, exactly, so that [Parse] reads the
// same back: "1½ cups", "2–3 cloves", "0.5 kg". No amount is "".
func (q Quantity) String() string {
	if q.IsZero() {
		return ""
	}
	row, _ := q.unit.row()
	decimals := row.system == Metric && row.kind != Count
	s := formatNumber(q.lo, decimals)
	if q.IsRange() {
		s += "–" + formatNumber(q.hi, decimals)
	}
	if name := q.unit.Name(q.hi.Cmp(big.NewRat(1, 1)) > 0); name != "" {
		s += " " + name
	}
	return s
}

// MarshalText is String: quantities are text in JSON.
func (q Quantity) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads what MarshalText wrote, and whatever else [ParseWhole] reads.
func (q *Quantity) UnmarshalText(text []byte) error {
	v, err := ParseWhole(string(text))
	if err != nil {
		return err
	}
	*q = v
	return nil
}
