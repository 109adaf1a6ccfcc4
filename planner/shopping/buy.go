package shopping

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/words"
)

// Buy is how a line is bought: in packages, or loose.
type Buy struct {
	Packs    []Packs          // none: loose
	LeftOver measure.Quantity // in packages there is so much more than is needed; none: nothing worth saying
	Common   bool             // the packages are common sizes, not what the hosts have said
}

// Packs is some packages of one size.
type Packs struct {
	Number int
	Size   measure.Quantity
	Called string // "packet", "tin"; empty: nobody has said
	price  *big.Rat
}

// String is the packages as a shopper says them: "2 packets of 250 g", "3 × 6".
func (p Packs) String() string {
	if p.Called == "" {
		return fmt.Sprintf("%d × %s", p.Number, p.Size)
	}
	return fmt.Sprintf("%s of %s", words.Count(p.Number, p.Called), p.Size)
}

// Text is the amount that is needed as a shopper reads it, never less: "350 g", "2 tins + 400 g". It is empty for
// what is bought as needed.
func (l *Line) Text() string {
	q := l.Amounts
	if l.Ticked && len(l.Got) > 0 {
		q = nil
		for _, g := range l.Got {
			if g.Used {
				continue
			}
			for _, a := range g.Amounts {
				if v, err := measure.ParseWhole(a); err == nil {
					q = add(q, v)
				}
			}
		}
	} else if len(l.Short) > 0 {
		q = l.Short
	}
	return strings.Join(append(texts(together(q, l.Name)), l.AsWritten...), " + ")
}

func texts(amounts []measure.Quantity) []string {
	var out []string
	for _, q := range amounts {
		out = append(out, up(q).String())
	}
	return out
}

// up rounds up as a shopper says it: kilograms and litres from a thousand on.
func up(q measure.Quantity) measure.Quantity {
	r := q.Up()
	if isSpoon(q.Unit()) && !isSpoon(r.Unit()) && q.High().IsInt() {
		return q // four spoons are no part of a cup
	}
	big := map[measure.Unit]measure.Unit{measure.Gram: measure.Kilogram, measure.Millilitre: measure.Litre}[r.Unit()]
	if big == "" {
		return r
	}
	if c, err := r.Convert(big); err == nil && c.Low().Cmp(oneRat) >= 0 {
		return c
	}
	return r
}

var oneRat = big.NewRat(1, 1)

// together makes one weight of volume and weight of the same thing, where its density is known: the careful,
// larger one.
func together(amounts []measure.Quantity, name string) []measure.Quantity {
	mass := slices.IndexFunc(amounts, func(q measure.Quantity) bool { return q.Unit().Kind() == measure.Mass })
	volume := slices.IndexFunc(amounts, func(q measure.Quantity) bool { return q.Unit().Kind() == measure.Volume })
	if mass < 0 || volume < 0 {
		return amounts
	}
	w, err := measure.Weigh(amounts[volume], food.DensityOf(name), amounts[mass].Unit())
	if err != nil {
		return amounts
	}
	sum, err := amounts[mass].Add(w.High)
	if err != nil {
		return amounts
	}
	out := slices.Clone(amounts)
	out[mass] = sum
	return slices.Delete(out, volume, volume+1)
}

// loose is what is still to be bought of a line that is in no packages, rounded up as a shopper says it.
func (l *Line) loose() []measure.Quantity {
	amounts := l.Amounts
	if len(l.Short) > 0 {
		amounts = l.Short
	}
	var out []measure.Quantity
	for _, q := range together(amounts, l.Name) {
		out = append(out, up(q))
	}
	return out
}

// Bought is what whoever ticks a line has in the basket: the packages, or the amounts as they are read; empty
// for what is bought as needed.
func (l *Line) Bought() []string {
	var sum []measure.Quantity
	for _, p := range l.Buy.Packs {
		if q, err := p.Size.Scale(p.Number, 1); err == nil {
			sum = add(sum, q)
		}
	}
	if len(l.Buy.Packs) == 0 {
		sum = l.loose()
	}
	var out []string
	for _, q := range sum {
		text := q.String()
		if long := up(q).String(); long != text { // 2 kg for 2000 g, where that is just as much
			if same, err := measure.ParseWhole(long); err == nil {
				if back, err := same.Convert(q.Unit()); err == nil && back.Equal(q) {
					text = long
				}
			}
		}
		out = append(out, text)
	}
	return out
}

// Juiced is how many of a fruit give a line's juice, with the source; 0 for what is no juice.
func (l *Line) Juiced() (fruits int, source string) {
	if len(l.Amounts) != 1 {
		return 0, ""
	}
	return food.Juiced(l.Amounts[0], l.Name)
}
