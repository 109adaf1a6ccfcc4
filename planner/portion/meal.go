package portion

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// Hours is how long a party goes on: from the arrival to an hour after its last course, two at least. The hour is
// common practice, no source.
func Hours(p *planner.Party) int {
	last := p.Arrival
	for _, c := range p.Courses {
		for _, s := range c.Servings {
			last = planner.Later(last, s.At)
		}
	}
	return max(2, int(math.Ceil(last.Add(time.Hour).Sub(p.Arrival).Hours())))
}

// children counts the guests who eat as children do.
func children(p *planner.Party) int {
	n := 0
	for _, g := range p.Guests {
		if IsChild(g) {
			n++
		}
	}
	return min(n, p.Covers)
}

// grownUp is for how many grown-ups' portions a party is reckoned: a child's is a part of one.
func grownUp(p *planner.Party) (float64, string) {
	n := children(p)
	if n == 0 {
		return float64(p.Covers), ""
	}
	f := drinkRow("factor-children")
	note := fmt.Sprintf("a child counts for %g (%s)", f.High, sources(f))
	return float64(p.Covers) - float64(n)*(1-f.High), note
}

// Bites says how many pieces a party of bites wants, or the nibbles before a dinner: a head by the hours, and of how
// many kinds. Empty where nothing is eaten in the hand.
func Bites(p *planner.Party) string {
	var names []string
	for i := range p.Dishes {
		if c := p.Course(p.Dishes[i].Course); c != nil && (bites(c) || PartyKind(p) == planner.Standing) {
			names = append(names, p.Dishes[i].Name)
		}
	}
	heads, note := grownUp(p)
	if len(names) == 0 || heads < 1 {
		return ""
	}
	kind, over := "bites-before", "before the meal"
	low, high := 0.0, 0.0
	r := drinkRow(kind)
	if low, high = r.Low, r.High; PartyKind(p) == planner.Standing {
		all, hour := drinkRow("bites"), drinkRow("bites-hour")
		over = fmt.Sprintf("in place of a meal, over %s", words.Length(60*Hours(p)))
		low, high = hour.Low*float64(Hours(p)), hour.High*float64(Hours(p))
		if low > all.Low { // nobody eats on and on
			low = all.Low
		}
		if r = all; high > all.High {
			high = all.High
		}
		r.Sources = append(slices.Clone(all.Sources), hour.Sources...)
	}
	text := fmt.Sprintf("Bites: %g to %g pieces a head %s, %d to %d in all", low, high, over, int(math.Ceil(low*heads)),
		int(math.Ceil(high*heads)))
	if n := float64(len(names)); n > 1 {
		text += fmt.Sprintf(", %d to %d of each of the %d kinds", int(math.Ceil(low*heads/n)), int(math.Ceil(high*heads/n)),
			len(names))
	}
	text += " (" + sources(r) + ")"
	if note != "" {
		text += "; " + note
	}
	return text + "."
}

// Share says for how many covers a dish is enough where guests choose between it and others of its course, several
// mains with meat or fish or several desserts, and on a buffet; why says so, with its sources. It is 0 where the dish
// is alone, or its host has said how many it is for.
func Share(p *planner.Party, d *planner.Dish) (covers int, why string) {
	if d.Covers > 0 || p.Covers < 2 {
		return 0, ""
	}
	n, each, what := rivals(p, d)
	if n < 2 {
		return 0, ""
	}
	// Of two each guest takes so much of each; of more the sum stays what it is of two.
	factor := each.High * 2 / float64(n)
	heads, note := grownUp(p)
	why = fmt.Sprintf("%d %s are there to choose from, and of two each guest takes %g to %g of a portion of each (%s)", n,
		what, each.Low, each.High, sources(each))
	if PartyKind(p).Helped() {
		b := drinkRow("factor-buffet")
		factor *= b.High
		why += fmt.Sprintf("; %g to %g times as much where they help themselves (%s)", b.Low, b.High, sources(b))
	}
	if note != "" {
		why += "; " + note
	}
	covers = int(math.Ceil(heads*factor - 1e-9))
	if covers >= p.Covers {
		return 0, ""
	}
	return covers, why
}

// rivals counts the dishes of a course that guests choose between, this one among them.
func rivals(p *planner.Party, d *planner.Dish) (n int, each Range, what string) {
	c := p.Course(d.Course)
	if c == nil {
		return 0, each, ""
	}
	var counts func(o *planner.Dish) bool
	switch ws := Words(c.Name); {
	case slices.ContainsFunc(ws, func(w string) bool { return w == "dessert" || w == "pudding" || w == "sweet" }):
		each, what = drinkRow("factor-desserts"), "desserts"
		counts = func(o *planner.Dish) bool { return !beside(o) }
	case isMain(p, c.Key):
		each, what = drinkRow("factor-second"), "mains"
		counts = func(o *planner.Dish) bool {
			m, ok := heaviest(o, true)
			return ok && m.Kind.Protein()
		}
	default:
		return 0, each, ""
	}
	if !counts(d) {
		return 0, each, ""
	}
	for i := range p.Dishes {
		if o := &p.Dishes[i]; o.Course == d.Course && counts(o) {
			n++
		}
	}
	return n, each, what
}

// besideWords name what goes with a dessert and is none of its own.
var besideWords = strings.Fields("sauce custard cream biscuits biscuit wafers shortbread syrup coulis compote topping")

// beside says whether a dish goes with another one, by the last word of its name.
func beside(d *planner.Dish) bool {
	ws := Words(d.Name)
	return len(ws) > 0 && slices.Contains(besideWords, ws[len(ws)-1]) && !slices.Contains(ws, "ice")
}

// Wanted is something to drink that is on no list yet.
type Wanted struct {
	Name, Amount string // as /shopping add takes them; of wine the bottles
	Text         string // "2.5 to 5 litres of water"
}

// DrinksWanted is what handbooks reckon of wine, water and coffee for a party that has none of it on its lists.
func DrinksWanted(p *planner.Party) []Wanted {
	if p.Covers < 1 {
		return nil
	}
	listed := func(any ...string) bool {
		is := func(name string) bool {
			return slices.ContainsFunc(Words(name), func(w string) bool { return slices.Contains(any, w) })
		}
		return slices.ContainsFunc(p.Drinks, func(d planner.Drink) bool { return is(d.Name) }) ||
			slices.ContainsFunc(p.Goods, func(g planner.Good) bool { return g.Extra != "" && is(g.Name) })
	}
	var out []Wanted
	wine := slices.ContainsFunc(p.Drinks, func(d planner.Drink) bool { return d.Kind != planner.Soft })
	if low, high := wineBottles(p); !wine && high > 0 {
		out = append(out, Wanted{"Wine", fmt.Sprint(high), span(low, high, "bottle", "bottles") + " of wine"})
	}
	n := float64(p.Covers)
	if w := drinkRow("water"); !listed("water") {
		out = append(out, Wanted{"water", litres(n*w.High) + " l", fmt.Sprintf("%s to %s litres of water", litres(n*w.Low),
			litres(n*w.High))})
	}
	if c := drinkRow("coffee-cup"); !listed("coffee") {
		drinkers := float64(p.Covers - children(p))
		out = append(out, Wanted{"ground coffee", fmt.Sprintf("%g g", drinkers*c.High),
			fmt.Sprintf("%g to %g g of ground coffee", drinkers*c.Low, drinkers*c.High)})
	}
	return out
}

// wineBottles is how many bottles of wine grown-ups drink: with a dinner by the glass, standing by the hours.
func wineBottles(p *planner.Party) (low, high int) {
	n, pours := float64(p.Covers-children(p)), drinkRow("glasses")
	each := drinkRow("wine")
	if PartyKind(p) == planner.Standing {
		each = standingWine(p)
	}
	return bottles(n * each.Low / pours.High), bottles(n * each.High / pours.Low)
}

// standingWine is the glasses of wine a head at a party of so many hours where wine is one drink among others.
func standingWine(p *planner.Party) Range {
	first, later, share := drinkRow("drinks-first"), drinkRow("drinks-later"), drinkRow("drinks-wine")
	glasses := (first.Low + later.Low*float64(Hours(p)-1)) * share.Low / 100
	return Range{Low: glasses, High: glasses, Unit: "glasses",
		Sources: append(slices.Clone(first.Sources), share.Sources...)}
}
