package planner

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/measure"
	"tureen/planner/times"
	"tureen/planner/words"
)

// doFor is a step's text with its weights, measures and counts of ingredients for num covers instead of den: "melt 25 g
// of the butter" is the dish's as it was written, and no text is made for other covers. Lengths and temperatures
// never grow, however they are written: "at 200C" is no 200 cups.
func doFor(d *Dish, do string, num, den int) string {
	if num == den || num < 1 || den < 1 || !strings.ContainsAny(do, "0123456789½¼¾⅓⅔⅛") {
		return do
	}
	out, from := "", 0
	still := times.Spans(do)
	for i := 0; i < len(do); {
		if k := slices.IndexFunc(still, func(s times.Span) bool { return s.Start <= i && i < s.End }); k >= 0 {
			i = still[k].End
			continue
		}
		c, size := utf8.DecodeRuneInString(do[i:])
		before, _ := utf8.DecodeLastRuneInString(do[:i])
		if !unicode.IsNumber(c) || i > 0 && before != ' ' && before != '(' {
			i += size
			continue
		}
		q, rest, err := measure.Parse(do[i:])
		end := len(do) - len(rest)
		end = i + len(strings.TrimSuffix(strings.TrimRight(do[i:end], " "), " of"))
		if err == nil && end > i && d.measures(q, do[:i], rest) {
			if more, err := q.Scale(num, den); err == nil {
				out, from = out+do[from:i]+more.Round().String(), end
			}
		}
		i = max(end, i+size)
	}
	return words.Cut(out+do[from:], MaxText-1)
}

// measures reports whether an amount in a step's text is of food, by what stands round it: a weight or measure that is
// no vessel's, or a count of one of the dish's ingredients.
func (d *Dish) measures(q measure.Quantity, before, after string) bool {
	if q.IsZero() {
		return false
	}
	next := strings.Fields(strings.TrimLeft(after, " -"))
	last := before[strings.LastIndexByte(strings.TrimRight(before, " "), ' ')+1:]
	switch strings.TrimSpace(strings.ToLower(last)) {
	case "per", "every", "each":
		return false
	}
	if len(next) == 0 || strings.HasPrefix(after, "-") {
		return false
	}
	word := words.Singular(strings.ToLower(strings.Trim(next[0], ".,;:)")))
	switch q.Unit().Kind() {
	case measure.Mass, measure.Volume:
		then := ""
		if len(next) > 1 {
			then = words.Singular(strings.ToLower(strings.Trim(next[1], ".,;:)")))
		}
		return !vessels[word] && !vessels[then]
	}
	if q.Unit() != measure.Each {
		return false
	}
	for i := range d.Ingredients {
		have, rest, err := measure.Parse(d.Ingredients[i].Amount)
		name := strings.Fields(strings.ToLower(d.Ingredients[i].Name))
		if err == nil && rest == "" && have.Unit() == measure.Each && len(name) > 0 &&
			words.Singular(name[len(name)-1]) == word {
			return true
		}
	}
	return false
}

// vessels are what has a measure that no covers change: a 2 l casserole. Common practice, no source.
var vessels = words.Set("pan pot tin dish casserole jug bowl basin ramekin mould jar bottle tray glass mug saucepan " +
	"loaf cake")
