package repertoire

import (
	"context"
	"slices"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cooling"
	"tureen/planner/measure"
	"tureen/planner/propose"
	"tureen/planner/safety"
	"tureen/planner/scale"
	"tureen/planner/solve"
)

// lacksFor23 are the cards that an ordinary kitchen cannot serve to 23 at once, and what it wants for them: food that
// does not wait, and an oven, a grill or a blender that is too small.
var lacksFor23 = map[string]string{
	"Beetroot with walnuts and horseradish": "oven", "Roast tomato soup": "oven", "Cod with tomatoes and olives": "oven",
	"Courgette and ricotta lasagne": "oven", "Mushroom and barley bake": "oven",
	"Roast pork with fennel and apples": "oven",
	"Yoghurt chicken from the grill":    "grill", "Rosemary roast potatoes": "oven",
}

// TestEveryCardFor23: each dish has a plan for 23 in a home kitchen, or it is said what the kitchen lacks.
func TestEveryCardFor23(t *testing.T) {
	for _, c := range List() {
		p := homeParty(23, c)
		propose.Renew(p)
		plan, clash, err := solve.Make(context.Background(), p, solve.Ask{Now: p.Opens(), FirstOnly: true})
		want, short := lacksFor23[c.Name]
		switch {
		case err != nil:
			t.Errorf("%s: %v", c.Name, err)
		case clash != nil && !short:
			t.Errorf("%s: no plan for 23: %+v", c.Name, clash.Requirements)
		case clash != nil:
			if !slices.ContainsFunc(clash.Requirements, func(r solve.Requirement) bool {
				return strings.Contains(r.Text, want)
			}) {
				t.Errorf("%s: the clash does not name the %s: %+v", c.Name, want, clash.Requirements)
			}
		default:
			if short {
				t.Errorf("%s has a plan for 23 after all", c.Name)
			}
			for _, b := range check.Plan(p, plan) {
				t.Errorf("%s for 23 breaks rule %d: %s", c.Name, b.Rule, b.Text)
			}
		}
	}
}

// TestAmountsAtEveryTable: for 4, 10 and 23 no card asks for what a cook would laugh at: parts of an egg or a tin, more
// digits than a scale shows, or spoons by the dozen.
func TestAmountsAtEveryTable(t *testing.T) {
	for _, c := range List() {
		d := c.Dish()
		for _, covers := range []int{4, 10, 23} {
			for i, l := range scale.For(&d, covers) {
				in := &d.Ingredients[i]
				if in.Amount == "" {
					continue
				}
				q, err := measure.ParseWhole(l.Amount)
				if err != nil {
					t.Errorf("%s for %d: %q of %s cannot be read", c.Name, covers, l.Amount, in.Name)
					continue
				}
				whole := q.High().IsInt()
				n, _ := q.High().Float64()
				switch unit := q.Unit(); {
				case !whole && (d.GrowthOf(in) == measure.Stepwise || unit == "tin" || unit == "jar" ||
					strings.Contains(in.Name, "whole chickens")):
					t.Errorf("%s for %d: %s %s", c.Name, covers, l.Amount, in.Name)
				case unit == measure.Tablespoon && n >= 6, unit == measure.Teaspoon && n >= 6:
					t.Errorf("%s for %d: %s %s by the spoon", c.Name, covers, l.Amount, in.Name)
				case (unit == measure.Gram || unit == measure.Millilitre) && n >= 50 && int(n)%5 != 0:
					t.Errorf("%s for %d: %s %s to the gram", c.Name, covers, l.Amount, in.Name)
				}
			}
		}
	}
}

// TestEveryCardGoesCold: what a card puts into the cold while it is hot has a way of cooling that nothing published
// refuses, at its own covers, at 8 and at 23, with ten minutes of hands at most; and no card stirs in ice.
func TestEveryCardGoesCold(t *testing.T) {
	hot := 0
	for _, c := range List() {
		for _, covers := range []int{c.Serves, 8, 23} {
			p := homeParty(covers, c)
			for _, g := range cooling.Of(p, &p.Dishes[0]) {
				hot++
				if text := cooling.Refused(&g.Food, &planner.Cooling{How: g.Way.How, Place: g.Way.Place, MadeOf: g.Way.MadeOf,
					Consistency: safety.Thick, DepthCM: g.Way.DepthCM, Grams: g.Way.Grams}); text != "" {
					t.Errorf("%s for %d: %s", c.Name, covers, text)
				}
			}
			propose.Renew(p)
			for _, x := range p.Chores {
				if x.Kind == planner.Cool && x.Attention == planner.Hands && x.Time.Likely > 10 {
					t.Errorf("%s for %d: %s takes %d minutes of hands", c.Name, covers, x.Do, x.Time.Likely)
				}
			}
		}
		d := c.Dish()
		for _, s := range d.Steps {
			if s.Cool != nil {
				t.Errorf("%s: %s cools by a step of its own", c.Name, s.Key)
			}
		}
	}
	if hot < 20 {
		t.Errorf("only %d foods go cold", hot)
	}
}
