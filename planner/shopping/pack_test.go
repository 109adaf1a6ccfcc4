package shopping

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/measure"
)

// TestPacks: what is bought for an amount, by the sizes that are sold; the least left over, then the fewest.
func TestPacks(t *testing.T) {
	for _, c := range []struct {
		amount string
		sold   []planner.Pack
		want   string
	}{
		{"350 g", []planner.Pack{{Size: "250 g"}}, "350 g stuff as 2 × 250 g, 150 g over"},
		{"350 g", []planner.Pack{{Size: "250 g"}, {Size: "100 g"}}, "350 g stuff as 1 × 250 g + 1 × 100 g"},
		{"900 g", []planner.Pack{{Size: "500 g"}, {Size: "300 g"}}, "900 g stuff as 3 × 300 g"},
		{"7", []planner.Pack{{Size: "6"}, {Size: "10"}}, "7 stuffs as 1 × 10, 3 over"},
		{"12", []planner.Pack{{Size: "6"}, {Size: "10"}}, "12 stuffs as 2 × 6"},
		{"1 l", []planner.Pack{{Size: "750 ml"}}, "1 l stuff as 2 × 750 ml, 500 ml over"},
		{"3", []planner.Pack{{Size: "250 g"}}, "3 stuffs"}, // nobody knows how much three are
		{"500 g", []planner.Pack{{Size: "400 g", Price: "1.00"}, {Size: "500 g", Price: "2.10"}},
			"500 g stuff as 2 × 400 g, 300 g over for 2.00"},
		{"500 g", []planner.Pack{{Size: "400 g", Price: "1.10"}, {Size: "500 g", Price: "2.10"}},
			"500 g stuff as 1 × 500 g for 2.10"},
		{"500 g", []planner.Pack{{Size: "400 g", Price: "1.10"}, {Size: "500 g"}}, "500 g stuff as 1 × 500 g"},
	} {
		p := supper(4, dish("d", 4, planner.Ingredient{Name: "stuff", Amount: c.amount}))
		p.Goods = []planner.Good{{Item: "stuff", Name: "stuff", Packs: c.sold}}
		expect(t, fmt.Sprint(c.amount, c.sold), Of(p, nil), "shop/all: "+c.want)
	}
}

// TestPacksAreBest: against trying every combination, as far as the search goes: up to a dozen of each size.
func TestPacksAreBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need := rapid.Int64Range(1, 60).Draw(t, "need")
		n := rapid.IntRange(1, 3).Draw(t, "sizes")
		priced := rapid.Bool().Draw(t, "priced")
		var sizes []Packs
		for range n {
			q, _ := measure.New(rapid.Int64Range(5, 30).Draw(t, "size"), 1, measure.Gram)
			s := Packs{Size: q}
			if priced {
				s.price = big.NewRat(rapid.Int64Range(0, 500).Draw(t, "price"), 100)
			}
			sizes = append(sizes, s)
		}
		want, _ := measure.New(need, 1, measure.Gram)
		have, cost, number := int64(0), new(big.Rat), 0
		for _, p := range fewest(want, sizes) {
			size := p.Size.Low().Num().Int64()
			have += size * int64(p.Number)
			number += p.Number
			if priced {
				cost.Add(cost, new(big.Rat).Mul(p.price, big.NewRat(int64(p.Number), 1)))
			}
		}
		if have < need {
			t.Fatalf("%d is bought for %d", have, need)
		}
		var try func(i int, h int64, c *big.Rat, k int)
		try = func(i int, h int64, c *big.Rat, k int) {
			if h >= need || i == len(sizes) {
				if h < need {
					return
				}
				better := h < have || h == have && k < number
				if priced {
					order := c.Cmp(cost)
					better = order < 0 || order == 0 && better
				}
				if better {
					t.Fatalf("for %d of %v: %d in %d packs for %s, and %d in %d for %s is better", need, sizes, have, number, cost, h,
						k, c)
				}
			}
			if i == len(sizes) {
				return
			}
			size := sizes[i].Size.Low().Num().Int64()
			for m := int64(0); m <= need/size+1; m++ {
				nc := new(big.Rat).Set(c)
				if priced {
					nc.Add(nc, new(big.Rat).Mul(sizes[i].price, big.NewRat(m, 1)))
				}
				try(i+1, h+m*size, nc, k+int(m))
			}
		}
		try(0, 0, new(big.Rat), 0)
	})
}

// TestPrices: exact sums, rounded line by line to the coins of the currency.
func TestPrices(t *testing.T) {
	for _, c := range []struct {
		amount, price, per, currency string
		want                         string
	}{
		{"1.25 kg", "3", "kg", "€", "€3.75"},
		{"350 g", "1.80", "100 g", "€", "€6.30"},
		{"3", "0.35", "", "€", "€1.05"},
		{"3 bunches", "1.20", "", "CHF", "CHF 3.60"},
		{"2 cups", "4", "l", "", "1.89"},        // 473 ml
		{"333 g", "0.1", "100 g", "€", "€0.34"}, // 340 g, 0.34 exactly
		{"250 g", "333", "kg", "¥", "¥83"},      // 83.25
		{"250 g", "335", "100 g", "¥", "¥838"},  // 837.5, halves up
		{"1 kg", "1.125", "kg", "KD", "KD 1.125"},
	} {
		p := supper(4, dish("d", 4, planner.Ingredient{Name: "milk", Amount: c.amount}))
		p.Currency = c.currency
		p.Goods = []planner.Good{{Item: "milk", Name: "milk", Price: c.price, Per: c.per}}
		l := Of(p, nil)
		line := l.Trips[0].Sections[0].Lines[0]
		if line.Cost == nil {
			t.Errorf("%s at %s a %s: no cost", c.amount, c.price, c.per)
			continue
		}
		if got := Money(p, line.Cost); got != c.want || Money(p, &l.Cost.Sum) != got {
			t.Errorf("%s (%s) at %s a %s: got %s, in all %s, want %s", c.amount, line.Text(), c.price, c.per, got,
				Money(p, &l.Cost.Sum), c.want)
		}
	}
	for _, text := range []string{"-1", "1.2345", "abc", "1e3", "1,2,3", ".5", "5.", "99999999999", "1/3"} {
		if r, err := ParsePrice(text); err == nil {
			t.Errorf("%q is the price %v", text, r)
		}
	}
}
