package shopping

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"unicode"

	"tureen/planner"
	"tureen/planner/measure"
)

// Cost sums prices, exactly.
type Cost struct {
	Sum      big.Rat // of what has a price, rounded line by line to the coins of the currency
	Priced   int     // lines with a price
	Unpriced int     // lines without
	Paid     big.Rat // of Sum, what was bought already
}

// Known reports whether any price is known.
func (c *Cost) Known() bool { return c.Priced > 0 }

func (c *Cost) line(l *Line) {
	switch {
	case l.Ticked:
	case l.Cost == nil:
		c.Unpriced++
	default:
		c.Sum.Add(&c.Sum, l.Cost)
		c.Priced++
	}
}

// maxPrice is the greatest price that can be noted; ours.
var maxPrice = big.NewRat(1_000_000, 1)

// ParsePrice reads a price as people type it: "2.49", "2,49", "3". Empty is no price: nil.
func ParsePrice(text string) (*big.Rat, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return nil, nil
	}
	s := strings.Replace(text, ",", ".", 1)
	whole, part, _ := strings.Cut(s, ".")
	digits := func(s string) bool { return !strings.ContainsFunc(s, func(r rune) bool { return r < '0' || r > '9' }) }
	if whole == "" || len(whole) > 8 || !digits(whole) || !digits(part) || len(part) > 3 || strings.HasSuffix(s, ".") {
		return nil, fmt.Errorf("%.20q is no price; write it as 2.49", text)
	}
	r, ok := new(big.Rat).SetString(s)
	if !ok || r.Cmp(maxPrice) > 0 {
		return nil, fmt.Errorf("%.20q is no price; write it as 2.49", text)
	}
	return r, nil
}

// whole are the currencies without smaller coins, as people write them.
var wholeCurrencies = []string{"¥", "JPY", "₩", "KRW", "HUF", "Ft", "CLP", "ISK", "VND", "₫", "IDR", "Rp"}

// placesOf is how many digits stand behind the point of the party's prices.
func placesOf(p *planner.Party) int {
	places := 2
	if slices.Contains(wholeCurrencies, p.Currency) {
		places = 0
	}
	note := func(price string) {
		if _, part, ok := strings.Cut(strings.Replace(price, ",", ".", 1), "."); ok {
			places = max(places, len(part))
		}
	}
	for i := range p.Goods {
		note(p.Goods[i].Price)
		for _, s := range p.Goods[i].Packs {
			note(s.Price)
		}
	}
	return places
}

// Money writes a sum as the party does: "€ 12.40", "CHF 7.00", "12.40".
func Money(p *planner.Party, sum *big.Rat) string {
	text := sum.FloatString(placesOf(p))
	if p.Currency == "" {
		return text
	}
	if r := []rune(p.Currency); len(r) == 1 && !unicode.IsLetter(r[0]) {
		return p.Currency + text
	}
	return p.Currency + " " + text
}

// price sets what a line's purchase costs, where that can be said.
func (m *maker) price(l *Line) {
	l.Cost = nil
	g := m.goods[l.Item]
	if g == nil {
		return
	}
	if len(l.Buy.Packs) > 0 {
		sum := new(big.Rat)
		for _, p := range l.Buy.Packs {
			if p.price == nil {
				return
			}
			n := new(big.Rat).SetInt64(int64(p.Number))
			sum.Add(sum, n.Mul(n, p.price))
		}
		l.Cost = m.coins(sum)
		return
	}
	price, err := ParsePrice(g.Price)
	if err != nil || price == nil {
		return
	}
	loose := l.loose()
	if len(loose) != 1 || len(l.AsWritten) > 0 {
		return
	}
	per, err := measure.New(1, 1, measure.Each)
	if g.Per != "" {
		per, err = measure.ParseWhole(perText(g.Per))
	}
	if err != nil {
		return
	}
	q := loose[0]
	if g.Per == "" && q.Unit().Kind() == measure.Count {
		per, err = measure.New(1, 1, q.Unit()) // a bunch, a bottle
		if err != nil {
			return
		}
	}
	in, ok := inUnit(q, l.Name, per.Unit())
	if !ok {
		return
	}
	sum := new(big.Rat).Quo(in.High(), per.High())
	l.Cost = m.coins(sum.Mul(sum, price))
}

// perText lets a unit stand for one of it: "kg" is 1 kg.
func perText(per string) string {
	if c := per[0]; c >= '0' && c <= '9' {
		return per
	}
	return "1 " + per
}

// ParsePer reads what a price is for: "kg", "100 g", "bunch".
func ParsePer(text string) error {
	if text == "" {
		return nil
	}
	q, err := measure.ParseWhole(perText(text))
	if err == nil && (q.IsZero() || q.IsRange()) {
		return fmt.Errorf("%.20q is no amount; say for example kg or 100 g", text)
	}
	return err
}

// coins rounds a sum to what can be paid, halves up.
func (m *maker) coins(sum *big.Rat) *big.Rat {
	r, ok := new(big.Rat).SetString(sum.FloatString(m.places))
	if !ok {
		return sum
	}
	return r
}

// costOf sums up the whole dinner: what was paid, and what is still to be bought.
func (m *maker) costOf(l *List) Cost {
	var c Cost
	for i := range l.Trips {
		t := &l.Trips[i].Cost
		c.Sum.Add(&c.Sum, &t.Sum)
		c.Priced += t.Priced
		c.Unpriced += t.Unpriced
	}
	for i := range m.p.Bought {
		for _, g := range m.p.Bought[i].Got {
			if g.Used {
				continue
			}
			if price, err := ParsePrice(g.Paid); err == nil && price != nil {
				c.Paid.Add(&c.Paid, price)
				c.Priced++
			} else {
				c.Unpriced++
			}
		}
	}
	c.Sum.Add(&c.Sum, &c.Paid)
	return c
}
