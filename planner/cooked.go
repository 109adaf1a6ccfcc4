package planner

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// CookedTo is what a step that cooks is to bring its food to by the published charts, as the middle of a sentence: "at
// least 73.9 °C (165 °F) in the middle (foodsafety.gov)". It is empty where nothing is published for what goes into the
// step, or where the step's own sign asks for as much. Food that was cooked before and comes out of the cold is heated
// again. What a step cooks in part only another one brings there. That a step reaches it is for people to see.
func (p *Party) CookedTo(d *Dish, s *Step) string {
	if !s.Cooks || s.Leaves.PartCooked {
		return ""
	}
	kinds, again := p.goesInto(d, s)
	var most safety.Limit
	raw := safety.None
	for _, k := range kinds {
		if l := safety.CookTo(k); l.Applies() && (!most.Applies() || l.TempC > most.TempC) {
			most, raw = l, k
		}
	}
	if again {
		if l := safety.Reheat(); !most.Applies() || l.TempC > most.TempC {
			most, raw = l, safety.None
		}
	}
	if !most.Applies() || signAsks(s.Until, most.TempC) {
		return ""
	}
	text := most.Figure()
	if most.Heated {
		text += " in the middle"
	}
	if rest := safety.RestAfterCooking(raw); rest.Applies() {
		text += fmt.Sprintf(", then %s of rest", words.Short(rest.Minutes))
	}
	return fmt.Sprintf("%s (%s)", text, most.Authority)
}

// rawKinds are the kinds that the charts have a temperature or a sign for.
var rawKinds = []safety.Kind{safety.Poultry, safety.GroundMeat, safety.RedMeat, safety.Fish, safety.Shellfish,
	safety.LiveShellfish, safety.Eggs, safety.RawEgg}

// goesInto lists the raw kinds of food that go into a step, and says whether cooked food from the cold does.
func (p *Party) goesInto(d *Dish, s *Step) (kinds []safety.Kind, again bool) {
	fed := false
	for i := range s.After {
		a := &s.After[i]
		of := d
		if a.Dish != "" {
			of = p.Dish(a.Dish)
		}
		if a.FromStart || a.Aside || of == nil || of.Step(a.Step) == nil {
			continue
		}
		left := of.Step(a.Step).Leaves
		fed = fed || left.Perishable
		switch {
		case !left.Perishable:
		case slices.Contains(rawKinds, left.Kind):
			kinds = append(kinds, left.Kind)
		case slices.Contains([]safety.Kind{safety.Cooked, safety.Soup, safety.Rice, safety.Pasta, safety.EggDish}, left.Kind):
			again = again || (a.Wait.State == Refrigerator || a.Wait.State == Freezer) && p.wasCooked(of, of.Step(a.Step), 0)
		}
	}
	if fed {
		return kinds, again
	}
	return rawIn(s.Do), again
}

// rawIn lists the raw kinds of what a text names. What is made of raw food and is not cooked by its name counts as
// that: of a fish cake nobody knows here whether its fish was cooked before. Stocks have no published temperature.
func rawIn(text string) (kinds []safety.Kind) {
	for _, f := range food.All(text) {
		if k := f.Kind(); k.Raw() {
			kinds = append(kinds, k)
			continue
		}
		if f.Class.Group != "made" || f.Kind() == safety.Soup {
			continue
		}
		for w := range strings.FieldsSeq(f.Said()) {
			if k, ok := food.KindOf(w); ok && k.Raw() {
				kinds = append(kinds, k)
			}
		}
	}
	return kinds
}

// wasCooked says whether a step's food was cooked in it or before it.
func (p *Party) wasCooked(d *Dish, s *Step, depth int) bool {
	if s.Cooks || depth > len(d.Steps) {
		return s.Cooks
	}
	return slices.ContainsFunc(s.After, func(a After) bool {
		from := d.Step(a.Step)
		return a.Dish == "" && !a.FromStart && from != nil && p.wasCooked(d, from, depth+1)
	})
}

var degrees = regexp.MustCompile(`(\d{2,3}) ?°C`)

// signAsks says whether a sign names a temperature of at least so much, to the degree.
func signAsks(sign string, c float64) bool {
	m := degrees.FindStringSubmatch(sign)
	if m == nil {
		return false
	}
	n, err := strconv.Atoi(m[1])
	return err == nil && float64(n)+1 > c
}
