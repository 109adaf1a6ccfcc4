package shopping

import (
	_ "embed"
	"encoding/csv"
	"math/big"
	"slices"
	"strings"
	"sync"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
)

// packs.csv: sizes in which things are often sold, for where the hosts have said none. They differ from country
// to country: common practice, no source.
//
//go:embed packs.csv
var packsCSV string

type commonPack struct {
	size   measure.Quantity
	called string
}

var commonPacks = sync.OnceValue(func() map[planner.Item][]commonPack {
	rows, err := csv.NewReader(strings.NewReader(packsCSV)).ReadAll()
	if err != nil {
		panic("shopping: packs.csv: " + err.Error())
	}
	t := map[planner.Item][]commonPack{}
	for _, f := range rows[1:] {
		size, err := measure.ParseWhole(f[1])
		if err != nil {
			panic("shopping: packs.csv: " + err.Error())
		}
		for _, name := range strings.Split(f[0], "|") {
			k := planner.ItemOf(name, false)
			t[k] = append(t[k], commonPack{size, f[2]})
		}
	}
	return t
})

// sizes are the packages in which a thing is sold, those of the hosts first.
func (m *maker) sizes(t planner.Item) (sizes []Packs, common bool) {
	if g := m.goods[t]; g != nil && len(g.Packs) > 0 {
		for _, s := range g.Packs {
			if q, err := measure.ParseWhole(s.Size); err == nil && !q.IsZero() {
				price, _ := ParsePrice(s.Price)
				sizes = append(sizes, Packs{Size: q, price: price})
			}
		}
		return sizes, false
	}
	if g := m.goods[t]; g != nil && g.Price != "" {
		return nil, false // it is sold by weight or by the piece
	}
	for _, c := range commonPacks()[t] {
		sizes = append(sizes, Packs{Size: c.size, Called: c.called})
	}
	return sizes, true
}

func (m *maker) buy(l *Line) { l.Buy = m.buyOf(l, l.Amounts) }

// buyOf says how some amounts of a line's thing are bought.
func (m *maker) buyOf(l *Line, amounts []measure.Quantity) Buy {
	sizes, common := m.sizes(l.Item)
	if len(sizes) == 0 {
		return Buy{}
	}
	amounts = together(amounts, l.Name)
	if len(amounts) != 1 || len(l.AsWritten) > 0 {
		return Buy{}
	}
	need := make([]Packs, 0, len(sizes))
	var want measure.Quantity
	all := amounts[0]
	if all.Unit().Kind() == measure.Count {
		all = all.Up() // nobody buys a part of one
	}
	for _, s := range sizes {
		q, ok := inUnit(all, l.Name, s.Size.Unit())
		if !ok {
			continue
		}
		if len(need) == 0 {
			want = q
		}
		if size, err := s.Size.Convert(want.Unit()); err == nil {
			s.Size = size
			need = append(need, s)
		}
	}
	if len(need) == 0 {
		return Buy{}
	}
	b := Buy{Packs: fewest(want, need), Common: common}
	have := new(big.Rat)
	for i := range b.Packs {
		n := new(big.Rat).SetInt64(int64(b.Packs[i].Number))
		have.Add(have, n.Mul(n, b.Packs[i].Size.Low()))
	}
	// What is left over is reckoned from the amount as it is read.
	read := want.High()
	if u, err := want.Up().Convert(want.Unit()); err == nil {
		read = u.High()
	}
	if have.Sub(have, read); have.Sign() > 0 {
		b.LeftOver, _ = measure.Range(have, have, want.Unit())
	}
	return b
}

// inUnit is an amount in a package's unit, the careful way round by density where that is needed. Of some
// counted things a package holds single ones: 6 of them, or 6 cloves.
func inUnit(q measure.Quantity, name string, unit measure.Unit) (measure.Quantity, bool) {
	if c, err := q.Convert(unit); err == nil {
		return c, true
	}
	if q.Unit().Kind() == measure.Count || unit.Kind() == measure.Count {
		return measure.Quantity{}, false
	}
	w, err := measure.Weigh(q, food.DensityOf(name), unit)
	return w.High, err == nil
}

// nearEnds bounds the search for packages: of each size so many fewer than would do alone are tried, and so many
// from none up. Beyond it what is chosen holds enough, but there may be something a little better.
const nearEnds = 12

// fewest chooses packages that hold enough: the cheapest where all prices are known, else those with the least
// left over, and of these the fewest. Sizes are all in want's unit.
func fewest(want measure.Quantity, sizes []Packs) []Packs {
	sizes = slices.Clone(sizes)
	slices.SortStableFunc(sizes, func(a, b Packs) int { return b.Size.Low().Cmp(a.Size.Low()) })
	priced := !slices.ContainsFunc(sizes, func(p Packs) bool { return p.price == nil })
	var best []int
	var bestCost, bestHave *big.Rat
	bestN := 0
	counts := make([]int, len(sizes))
	consider := func() {
		have, cost, n := new(big.Rat), new(big.Rat), 0
		for i, c := range counts {
			k := new(big.Rat).SetInt64(int64(c))
			have.Add(have, new(big.Rat).Mul(k, sizes[i].Size.Low()))
			if priced {
				cost.Add(cost, k.Mul(k, sizes[i].price))
			}
			n += c
		}
		order := 0
		if best != nil {
			if priced {
				order = cost.Cmp(bestCost)
			}
			if order == 0 {
				order = have.Cmp(bestHave)
			}
			if order == 0 {
				order = n - bestN
			}
		}
		if best == nil || order < 0 {
			best, bestCost, bestHave, bestN = slices.Clone(counts), cost, have, n
		}
	}
	var try func(i int, rest *big.Rat)
	try = func(i int, rest *big.Rat) {
		all := 0
		if rest.Sign() > 0 {
			all = ceil(new(big.Rat).Quo(rest, sizes[i].Size.Low()))
		}
		if i == len(sizes)-1 {
			counts[i] = all
			consider()
			return
		}
		for c := all; c >= 0; c-- {
			if c > nearEnds && c < all-nearEnds {
				continue
			}
			counts[i] = c
			k := new(big.Rat).SetInt64(int64(c))
			try(i+1, k.Sub(rest, k.Mul(k, sizes[i].Size.Low())))
		}
		counts[i] = 0
	}
	try(0, want.High())
	var out []Packs
	for i, n := range best {
		if n > 0 {
			sizes[i].Number = n
			out = append(out, sizes[i])
		}
	}
	return out
}

func ceil(r *big.Rat) int {
	n := new(big.Int).Add(r.Num(), r.Denom())
	n.Sub(n, big.NewInt(1))
	return int(n.Quo(n, r.Denom()).Int64())
}
