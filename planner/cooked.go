package planner

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

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
var rawKinds = []safety.Kind{safety.Poultry, safety.GroundMeat, safety.RedMeat, safety.Fish, safety.Shellfish, safety.LiveShellfish, safety.Eggs, safety.RawEgg}

// kindWords tell what a step without any before it cooks, from what it does. They are ours.
var kindWords = []struct {
	kind  safety.Kind
	words []string
}{
	{safety.Poultry, []string{"chicken", "chickens", "turkey", "duck", "goose", "quail", "poussin"}},
	{safety.GroundMeat, []string{"mince", "minced", "meatballs", "burgers", "sausages", "meatloaf"}},
	{safety.RedMeat, []string{"beef", "pork", "lamb", "veal", "venison", "steak", "steaks"}},
	{safety.Fish, []string{"fish", "salmon", "cod", "haddock", "trout", "hake", "halibut", "bream", "bass", "tuna"}},
	{safety.Shellfish, []string{"prawns", "shrimp", "mussels", "clams", "scallops", "squid"}},
}

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
		food := of.Step(a.Step).Leaves
		fed = fed || food.Perishable
		switch {
		case !food.Perishable:
		case slices.Contains(rawKinds, food.Kind):
			kinds = append(kinds, food.Kind)
		case slices.Contains([]safety.Kind{safety.Cooked, safety.Soup, safety.Rice, safety.Pasta, safety.EggDish}, food.Kind):
			again = again || (a.Wait.State == Refrigerator || a.Wait.State == Freezer) && p.wasCooked(of, of.Step(a.Step), 0)
		}
	}
	if fed {
		return kinds, again
	}
	for _, w := range strings.FieldsFunc(strings.ToLower(s.Do), func(r rune) bool { return (r < 'a' || r > 'z') && r < 128 }) {
		for _, k := range kindWords {
			if slices.Contains(k.words, w) {
				return []safety.Kind{k.kind}, false
			}
		}
	}
	return nil, again
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
