package measure

import (
	_ "embed"
	"fmt"
	"math/big"
	"strings"
	"sync"
)

// yield.csv: what of a vegetable or fruit is thrown away before it is cooked, and how much juice one gives.
// The columns behind the first are those of the project's reference table, row by row unchanged; the first
// has the names that cooks use (common practice, no source).
//
//go:embed yield.csv
var yieldCSV string

type yieldRow struct {
	item   string
	refuse *big.Rat // the part thrown away, 0 to 1; nil in a row about juice
	juice  *big.Rat // grams of juice that one gives; nil in the others
	what   string   // what is thrown away, as the source says
	source string
}

var yields = sync.OnceValue(func() map[string]yieldRow {
	t := map[string]yieldRow{}
	for _, f := range csvRows("yield.csv", yieldCSV) {
		r := yieldRow{item: f[1], what: f[5], source: f[9]}
		if strings.HasPrefix(f[10], "memory") {
			r.source += ", from memory"
		}
		if f[4] != "" {
			percent, ok := new(big.Rat).SetString(f[4])
			if !ok {
				panic("measure: yield.csv: " + f[1])
			}
			r.refuse = percent.Quo(percent, big.NewRat(100, 1))
		} else {
			var ok bool
			if r.juice, ok = new(big.Rat).SetString(f[3]); !ok {
				panic("measure: yield.csv: " + f[1])
			}
		}
		for _, name := range strings.Split(f[0], "|") {
			key := strings.Join(nameTokens(name), " ")
			if _, taken := t[key]; taken {
				panic("measure: yield.csv: " + name + " is two things")
			}
			t[key] = r
		}
	}
	return t
})

// Trimming says what is lost on the way from the shop to the pot.
type Trimming struct {
	Item    string // as the table calls it
	Percent int    // of the weight bought
	What    string // what is thrown away, in the source's words; "" when it does not say
	Source  string
}

// String is the loss in a few words: "11 % is trimmings (USDA ...)".
func (t Trimming) String() string {
	return fmt.Sprintf("%d %% is trimmed away (%s)", t.Percent, t.Source)
}

// trimmedWords before a name say that the amount was weighed after the work: "1 kg peeled potatoes", while
// "1 kg potatoes, peeled" is weighed before it. How recipes are written: common practice, no source.
var trimmedWords = wordSet("peeled trimmed shelled podded pitted stoned cored hulled prepared cleaned " +
	"pared skinned seeded")

// SaysTrimmed reports whether a name says that its amount is meant without what is thrown away.
func SaysTrimmed(name string) bool {
	first, rest, _ := strings.Cut(strings.TrimSpace(name), " ")
	return strings.TrimSpace(rest) != "" && !strings.HasSuffix(first, ",") && trimmedWords[strings.ToLower(first)]
}

// Untrimmed is a name without the word that says that its amount is meant trimmed: "peeled potatoes" are bought
// as potatoes.
func Untrimmed(name string) string {
	first, rest, _ := strings.Cut(name, " ")
	if SaysTrimmed(name) && trimmedWords[strings.ToLower(first)] {
		return rest
	}
	return name
}

// yieldOf finds the row of an ingredient; words of a cook's that change nothing are left out.
func yieldOf(name string) (yieldRow, bool) {
	head, _, _ := strings.Cut(name, "(")
	head, _, _ = strings.Cut(head, ",")
	words := nameTokens(head)
	t := yields()
	for _, w := range [][]string{words, without(words, trimmedWords)} {
		if r, ok := t[strings.Join(w, " ")]; ok {
			return r, true
		}
	}
	return yieldRow{}, false
}

// AsBought is the weight to buy for a weight that is ready to cook: q / (1 - what is thrown away), exactly. ok
// is false, and q comes back as it is, where the table does not have the ingredient or q is no weight.
func AsBought(q Quantity, name string) (bought Quantity, loss Trimming, ok bool) {
	r, ok := yieldOf(name)
	if !ok || r.refuse == nil || q.IsZero() || q.unit.Kind() != Mass {
		return q, Trimming{}, false
	}
	left := new(big.Rat).Sub(big.NewRat(1, 1), r.refuse)
	bought, err := q.times(left.Inv(left))
	if err != nil {
		return q, Trimming{}, false
	}
	percent := new(big.Rat).Mul(r.refuse, big.NewRat(100, 1))
	return bought, Trimming{r.item, int(percent.Num().Int64() / percent.Denom().Int64()), r.what, r.source}, true
}

// Juiced is how many of a fruit give an amount of its juice, rounded up, with the source; 0 where the
// amount is not of a juice that the table has.
func Juiced(q Quantity, name string) (fruits int, source string) {
	r, ok := yieldOf(name)
	if !ok || r.juice == nil || q.IsZero() || q.unit.Kind() == Count {
		return 0, ""
	}
	w, err := Weigh(q, name, Gram)
	if err != nil {
		// A millilitre of juice weighs a gram and a little: common practice, no source.
		ml, err := q.Convert(Millilitre)
		if err != nil {
			return 0, ""
		}
		w.High = Quantity{ml.lo, ml.hi, Gram}
	}
	n := new(big.Rat).Quo(w.High.hi, r.juice)
	whole, rest := split(n)
	fruits = int(whole.Int64())
	if rest.Sign() > 0 {
		fruits++
	}
	return fruits, r.source
}
