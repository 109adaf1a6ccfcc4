package scale

import (
	_ "embed"
	"math/big"
	"strconv"
	"strings"

	"tureen/planner/measure"
)

//go:embed space.tsv
var spaceTable string

// freezerPart is how much smaller a household's freezer is than its refrigerator: some 80 litres beside 200; common
// practice, no source.
const freezerPart = 0.4

// Space reads how much is free in the refrigerator, or in the freezer, as somebody says it: "6", "40 l", "a shelf",
// "two shelves and a drawer", "half the refrigerator". flat is how many trays lie flat there, -1 where the words do not
// tell; ok is false for words that say no space.
func Space(text string, freezer bool) (ml, flat int, ok bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	if text == "" {
		return 0, 0, false
	}
	if n, err := strconv.Atoi(text); err == nil {
		return n * 1000, -1, n >= 0
	}
	if q, err := measure.ParseWhole(text); err == nil && strings.ContainsAny(text[:1], "0123456789") {
		if q, err = q.Convert(measure.Millilitre); err != nil {
			return 0, 0, false
		}
		n, _ := q.High().Float64()
		return int(n + 0.5), -1, true
	}
	litres, flat := 0.0, -1
	for _, part := range strings.Split(strings.NewReplacer(",", " and ", "+", " and ", "-", " ").Replace(text), " and ") {
		l, f, ok := spacePart(part)
		if !ok {
			return 0, 0, false
		}
		if litres += l; f >= 0 {
			flat = max(flat, 0) + f
		}
	}
	if freezer {
		litres *= freezerPart
	}
	return int(litres*1000 + 0.5), flat, true
}

// spacePart reads "two shelves" or "half the refrigerator".
func spacePart(text string) (litres float64, flat int, ok bool) {
	fields := strings.Fields(text)
	if q, err := measure.ParseWhole(text); err == nil && q.Unit() == measure.Each {
		if n, _ := q.High().Float64(); n >= 1 {
			fields = append(fields, "shelves") // "two"
		}
	}
	for line := range strings.Lines(spaceTable) {
		cell := strings.Split(strings.TrimSpace(line), "\t")
		if len(cell) != 4 || cell[0] == "words" {
			continue
		}
		for _, w := range strings.Split(cell[0], "|") {
			at := strings.Index(" "+strings.Join(fields, " ")+" ", " "+w+" ")
			if at < 0 {
				continue
			}
			each, _ := new(big.Rat).SetString(cell[1])
			places, _ := new(big.Rat).SetString(cell[2])
			n := 1.0
			if before := strings.TrimSpace(strings.Join(fields, " ")[:at]); strings.HasPrefix(w, "shel") ||
				strings.HasPrefix(w, "draw") || strings.HasPrefix(w, "comp") || strings.HasPrefix(w, "level") {
				n = countWord(before)
			}
			l, _ := each.Float64()
			p, _ := places.Float64()
			if p < 0 {
				return l * n, -1, true
			}
			return l * n, int(p * n), true
		}
	}
	return 0, 0, false
}

// countWord is the number that words before a thing say, 1 where they say none: "a free", "two", "half a".
func countWord(text string) float64 {
	for _, w := range strings.Fields(text) {
		if w == "half" {
			return 0.5
		}
		if q, err := measure.ParseWhole(w); err == nil && !q.IsZero() {
			n, _ := q.High().Float64()
			return n
		}
	}
	return 1
}
