package repertoire

import (
	"context"
	"math/rand/v2"
	"testing"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/propose"
	"tureen/planner/solve"
)

// TestMenusPlan: dinners of several courses from the shelf, with drinks and everything proposed for them,
// plan without a broken rule.
func TestMenusPlan(t *testing.T) {
	for _, menu := range [][]string{
		{"rosemary almonds", "prawns", "roast chicken", "rosemary roast", "lemon posset"},
		{"white bean dip", "roast tomato soup", "baked salmon", "herbed rice", "baked apples"},
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
			p.Drinks = []planner.Drink{{Name: "Riesling", Kind: planner.White, Bottles: 3},
				{Name: "Rioja", Kind: planner.Red, Bottles: 2}}
			p.People[0].Dress = 20
			propose.Renew(p, p.Opens())
			for _, x := range p.Validate() {
				t.Errorf("%v: %s: %s", menu, x.Where, x.Text)
			}
			plan, clash, err := solve.Make(context.Background(), p, solve.Ask{Now: p.Opens(), FirstOnly: true})
			if err != nil || clash != nil {
				t.Errorf("%v for %d: %v, %+v", menu, covers, err, clash)
				continue
			}
			for _, b := range check.Plan(p, plan) {
				t.Errorf("%v for %d breaks rule %d: %s %s", menu, covers, b.Rule, b.Task, b.Text)
			}
		}
	}
}

// TestProposalsSpoilNoDinner: random dinners from the shelf, for people of all hours, with few or no days of prep.
// Where the dishes alone have a plan, they have one with everything that tureen proposes for them, and it breaks no
// rule.
func TestProposalsSpoilNoDinner(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	byCourse := map[planner.CourseKey][]Card{}
	for _, c := range List() {
		byCourse[c.Course] = append(byCourse[c.Course], c)
	}
	pick := func(k planner.CourseKey) Card { return byCourse[k][r.IntN(len(byCourse[k]))] }
	planned := 0
	for range 30 {
		var menu []Card
		for _, k := range []planner.CourseKey{"nibbles", "starter", "main", "dessert"} {
			if k == "main" || r.IntN(4) > 0 {
				menu = append(menu, pick(k))
			}
		}
		p := homeParty(2+r.IntN(10), menu...)
		for _, k := range []planner.CourseKey{"side", "bread"} {
			if r.IntN(2) == 0 {
				d := pick(k).dish
				d.Course = "main"
				p.Dishes = append(p.Dishes, d)
			}
		}
		p.PrepDays = r.IntN(4)
		p.People[0].Cooks = planner.DayHours{From: planner.Minutes(60 * (8 + r.IntN(10))), Until: 23 * 60}
		p.People[0].Home, p.People[0].Dress = p.People[0].Cooks, 30
		p.Drinks = []planner.Drink{{Name: "Riesling", Kind: planner.White, Bottles: 1 + r.IntN(12)},
			{Name: "Rioja", Kind: planner.Red, Bottles: 3}}
		ask := solve.Ask{Now: p.Opens(), FirstOnly: true}
		alone, _, err := solve.Make(context.Background(), p, ask)
		if err != nil {
			t.Fatal(err)
		}
		if alone == nil {
			continue
		}
		propose.Renew(p, p.Opens())
		plan, clash, err := solve.Make(context.Background(), p, ask)
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, d := range p.Dishes {
			names = append(names, d.Name)
		}
		if plan == nil {
			t.Errorf("%v for %d from %d h on: the proposals spoil it: %+v", names, p.Covers, p.People[0].Cooks.From/60,
				clash.Requirements)
			continue
		}
		planned++
		for _, b := range check.Plan(p, plan) {
			t.Errorf("%v: rule %d: %s %s", names, b.Rule, b.Task, b.Text)
		}
	}
	if planned < 20 {
		t.Errorf("only %d of 30 dinners had a plan", planned)
	}
}
