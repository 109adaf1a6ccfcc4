package repertoire

import (
	"context"
	"testing"

	"tureen/planner"
)

// TestEveryCardPlansAlone: each dish, alone on the menu of a home kitchen with everything tureen proposes
// for it, has a plan, and the independent checker finds no broken rule in it.
func TestEveryCardPlansAlone(t *testing.T) {
	for _, c := range List() {
		for _, covers := range []int{4, 10} {
			p := homeParty(covers, c)
			planner.Renew(p)
			plan, clash, err := planner.Make(context.Background(), p, planner.Ask{Now: p.Opens(), FirstOnly: true})
			switch {
			case err != nil:
				t.Errorf("%s for %d: %v", c.Name, covers, err)
			case clash != nil:
				t.Errorf("%s for %d has no plan (unproved: %v):", c.Name, covers, clash.Unproved)
				for _, r := range clash.Requirements {
					t.Errorf("    %s", r.Text)
				}
			default:
				for _, b := range planner.Check(p, plan) {
					t.Errorf("%s for %d breaks rule %d: %s %s", c.Name, covers, b.Rule, b.Task, b.Text)
				}
			}
		}
	}
}

// TestMenusPlan: dinners of several courses from the shelf, with drinks and everything proposed for them,
// plan without a broken rule.
func TestMenusPlan(t *testing.T) {
	for _, menu := range [][]string{
		{"rosemary almonds", "prawns", "roast chicken", "rosemary roast", "lemon posset"},
		{"white bean dip", "roast tomato soup", "salmon", "herbed rice", "baked apples"},
		{"cheddar", "pork terrine", "slow lamb", "leaves", "cheese board", "dark chocolate"},
		{"beetroot", "overnight loaf", "mushroom and barley", "green beans", "honey parfait"},
		{"roast peppers", "yoghurt chicken", "herbed rice", "fennel and orange", "pears in spiced"},
		{"dates", "lemon and lentil", "beef braised", "celeriac", "red cabbage", "olive oil focaccia", "lemon posset"},
	} {
		var cards []Card
		for _, name := range menu {
			c, ok := Find(name)
			if !ok {
				t.Fatalf("no card %q", name)
			}
			cards = append(cards, c)
		}
		for _, covers := range []int{5, 8} {
			p := homeParty(covers, cards...)
			p.Drinks = []planner.Drink{{Name: "Riesling", Kind: planner.White, Bottles: 3}, {Name: "Rioja", Kind: planner.Red, Bottles: 2}}
			p.People[0].Dress = 20
			planner.Renew(p)
			for _, x := range p.Validate() {
				t.Errorf("%v: %s: %s", menu, x.Where, x.Text)
			}
			plan, clash, err := planner.Make(context.Background(), p, planner.Ask{Now: p.Opens(), FirstOnly: true})
			if err != nil || clash != nil {
				t.Errorf("%v for %d: %v, %+v", menu, covers, err, clash)
				continue
			}
			for _, b := range planner.Check(p, plan) {
				t.Errorf("%v for %d breaks rule %d: %s %s", menu, covers, b.Rule, b.Task, b.Text)
			}
		}
	}
}
