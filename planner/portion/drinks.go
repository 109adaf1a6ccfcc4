package portion

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/words"
)

// Drinks says what handbooks reckon for the party's covers, a line a drink with its source: wine by the bottle, beside
// what is on the list, water, coffee and ice. No covers, no lines.
func Drinks(p *planner.Party) []string {
	if p.Covers < 1 {
		return nil
	}
	n := float64(p.Covers)
	grown := p.Covers - children(p)
	var still, sparkling int
	for _, d := range p.Drinks {
		switch d.Kind {
		case planner.White, planner.Red:
			still += d.Bottles
		case planner.Sparkling:
			sparkling += d.Bottles
		}
	}
	each, pours := drinkRow("wine"), drinkRow("glasses")
	low, high := wineBottles(p)
	line := fmt.Sprintf("Wine with dinner: %s for %s, at %g to %g glasses each and %g glasses a bottle (%s)",
		span(low, high, "bottle", "bottles"), covers(grown), each.Low, each.High, pours.Low, sources(each, pours))
	if PartyKind(p) == planner.Standing {
		each = standingWine(p)
		line = fmt.Sprintf("Wine for those who stand: %s for %s, half of what is drunk in %s, two drinks in the first "+
			"and one in each later, at %g glasses a bottle (%s)", span(low, high, "bottle", "bottles"), covers(grown),
			words.Length(60*Hours(p)),
			pours.Low, sources(each, pours))
	}
	switch {
	case still == 0:
		line += "; none is on the list yet."
	case still*2 < low:
		line += fmt.Sprintf("; %d on the list, less than half of it.", still)
	case still < low:
		line += fmt.Sprintf("; %d on the list, %d short.", still, low-still)
	case still > 2*high:
		line += fmt.Sprintf("; %d on the list, more than twice as much.", still)
	default:
		line += fmt.Sprintf("; %d on the list.", still)
	}
	out := []string{line}
	if sparkling > 0 {
		s := drinkRow("sparkling-glasses")
		out = append(out, fmt.Sprintf("Sparkling: %s, %g to %g glasses (%s); a glass each takes %s.",
			span(sparkling, sparkling, "bottle", "bottles"), float64(sparkling)*s.Low, float64(sparkling)*s.High, sources(s),
			span(bottles(n/s.High), bottles(n/s.Low), "bottle", "bottles")))
	}
	w, ice, coffee := drinkRow("water"), drinkRow("ice"), drinkRow("coffee-cup")
	out = append(out,
		fmt.Sprintf("Water: %s to %s litres (%s).", litres(n*w.Low), litres(n*w.High), sources(w)),
		fmt.Sprintf("Coffee: %g to %g g ground for a cup of 180 ml each (%s).", n*coffee.Low, n*coffee.High, sources(coffee)),
		fmt.Sprintf("Ice: %s to %s kg; the more if bottles are chilled in it too%s (%s).", litres(n*ice.Low),
			litres(n*ice.High), inHeat(p), sources(ice)))
	return out
}

// hotC is from which air temperature on guests are said to be in the heat; the figure is ours.
const hotC = 28

// inHeat is what the ice suppliers add for a summer's evening.
func inHeat(p *planner.Party) string {
	if p.RoomTemperatureC < hotC {
		return ""
	}
	return fmt.Sprintf(", and twice as much in the heat, as at %d °C", p.RoomTemperatureC)
}

// drinkRow is a range that the table must have: it is ours.
func drinkRow(kind string) Range {
	r, ok := rangeOf(kind)
	if !ok {
		panic("portion: portions.csv has no " + kind)
	}
	return r
}

func bottles(n float64) int { return int(math.Ceil(n - 1e-9)) }

// litres are thousandths of what is counted, to the half from 1 on.
func litres(ml float64) string {
	if ml < 1000 {
		return fmt.Sprintf("%.1f", ml/1000)
	}
	return fmt.Sprintf("%g", math.Round(ml/500)/2)
}

func covers(n int) string { return span(n, n, "cover", "covers") }

func span(low, high int, one, many string) string {
	switch {
	case low != high:
		return fmt.Sprintf("%d to %d %s", low, high, many)
	case low == 1:
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", low, many)
}

func sources(all ...Range) string {
	var out []string
	for _, r := range all {
		for _, s := range r.Sources {
			for _, part := range strings.Split(s, "; ") {
				if !slices.Contains(out, part) {
					out = append(out, part)
				}
			}
		}
	}
	return strings.Join(out, "; ")
}
