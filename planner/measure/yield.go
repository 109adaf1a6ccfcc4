package measure

import (
	"math/big"
	"slices"
	"strings"
)

// trimmedWords before a name say that the amount was weighed after the work: "1 kg peeled potatoes", while
// "1 kg potatoes, peeled" is weighed before it. How recipes are written: common practice, no source.
var trimmedWords = []string{"peeled", "trimmed", "shelled", "podded", "pitted", "stoned", "cored", "hulled", "prepared",
	"cleaned", "pared", "skinned", "seeded"}

// SaysTrimmed reports whether a name says that its amount is meant without what is thrown away.
func SaysTrimmed(name string) bool { return Untrimmed(name) != name }

// Untrimmed is a name without the word that says that its amount is meant trimmed: "peeled potatoes" are bought
// as potatoes.
func Untrimmed(name string) string {
	first, rest, _ := strings.Cut(strings.TrimSpace(name), " ")
	if strings.TrimSpace(rest) != "" && slices.Contains(trimmedWords, strings.ToLower(first)) {
		return rest
	}
	return name
}

// AsBought is the weight to buy for a weight that is ready to cook, of which a part from 0 to 1 is thrown away before:
// q / (1 - refuse), exactly. ok is false, and q comes back as it is, where it is no weight.
func AsBought(q Quantity, refuse *big.Rat) (bought Quantity, ok bool) {
	if q.IsZero() || q.unit.Kind() != Mass {
		return q, false
	}
	left := new(big.Rat).Sub(big.NewRat(1, 1), refuse)
	if left.Sign() <= 0 {
		return q, false
	}
	bought, err := q.times(left.Inv(left))
	if err != nil {
		return q, false
	}
	return bought, true
}

// Juiced is how many of a fruit give an amount of its juice, rounded up, where one gives so many grams; 0 for what
// is counted. Without a density a millilitre of juice weighs a gram (and a little: common practice, no source).
func Juiced(q Quantity, grams *big.Rat, d *Density) (fruits int) {
	if q.IsZero() || q.unit.Kind() == Count || grams.Sign() <= 0 {
		return 0
	}
	one := big.NewRat(1, 1)
	if d == nil {
		d = &Density{Likely: one, Low: one, High: one}
	}
	w, err := Weigh(q, d, Gram)
	if err != nil {
		return 0
	}
	n := new(big.Rat).Quo(w.High.hi, grams)
	whole, rest := split(n)
	fruits = int(whole.Int64())
	if rest.Sign() > 0 {
		fruits++
	}
	return fruits
}
