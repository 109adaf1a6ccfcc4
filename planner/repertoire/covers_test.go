package repertoire

import (
	"context"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cooling"
	"tureen/planner/measure"
	"tureen/planner/propose"
	"tureen/planner/safety"
	"tureen/planner/scale"
	"tureen/planner/solve"
)

// TestEveryDishAlone: each dish, alone on the menu of a home kitchen with everything tureen proposes for it, has a plan
// for 4, 10 and 23 covers that breaks no rule. -v prints the table.
func TestEveryDishAlone(t *testing.T) {
	t.Logf("%-46s %-8s %s", "dish", "course", "first task of the dish, for 4, 10, 23")
	for _, c := range List() {
		line := ""
		for _, covers := range []int{4, 10, 23} {
			p := homeParty(covers, c)
			propose.Renew(p, p.Opens())
			plan, clash, err := solve.Make(context.Background(), p, solve.Ask{Now: p.Opens(), FirstOnly: true})
			switch {
			case err != nil:
				t.Errorf("%s for %d: %v", c.Name, covers, err)
			case clash != nil:
				t.Errorf("%s for %d has no plan (unproved: %v): %+v", c.Name, covers, clash.Unproved, clash.Requirements)
			default:
				for _, b := range check.Plan(p, plan) {
					t.Errorf("%s for %d breaks rule %d: %s %s", c.Name, covers, b.Rule, b.Task, b.Text)
				}
				line += "  " + firstOf(plan).Format("Mon 15:04")
			}
		}
		t.Logf("%-46s %-8s%s", c.Name, c.Course, line)
	}
}

// firstOf is when the first step of any dish starts.
func firstOf(plan *planner.Plan) time.Time {
	var first time.Time
	for i := range plan.Tasks {
		if pl := &plan.Tasks[i]; strings.Contains(string(pl.Task), "/") && (first.IsZero() || pl.Start.Before(first)) {
			first = pl.Start
		}
	}
	return first
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
			propose.Renew(p, p.Opens())
			for _, x := range p.Chores {
				if x.Kind == planner.Cool && covers <= 8 && strings.Contains(x.Note, "longer than") {
					t.Errorf("%s for %d: %s: %s", c.Name, covers, x.Do, x.Note)
				}
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
