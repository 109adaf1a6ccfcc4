package check_test

import (
	"fmt"
	"testing"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/solve"
	"tureen/planner/ways"
)

// withSoup gives a tiny party one more dish, which can be made in two ways: for its service, or on the evening before,
// to be warmed up again; and has fewer tasks beside it, so that all plans can be listed.
func withSoup(d partygen.Dice, p *planner.Party) *planner.Dish {
	keep := d.Roll(0, 1)
	p.Dishes, p.Chores, p.Work = p.Dishes[:min(keep, len(p.Dishes))], nil, nil
	long := planner.Minutes(d.Roll(1, 4))
	soup := planner.Dish{Key: "soup", Name: "Stock", Course: "main", Serves: p.Covers,
		Ingredients: []planner.Ingredient{{Name: "vegetable stock", Amount: "500 ml", Step: "boil"}},
		Steps: []planner.Step{{Key: "boil", Do: "Boil the stock", Source: "Boil the stock.",
			Attention: planner.Attention([]planner.Attention{planner.Hands, planner.Watch}[d.Roll(0, 1)]),
			Where:     planner.Heat, Cooks: true, Uses: []planner.Use{{What: planner.ABurner}},
			Time:  planner.Span{Low: long, Likely: long, High: long},
			Ahead: &planner.Wait{State: planner.Refrigerator, WorthUntil: 48 * 60},
			Serve: &planner.Wait{State: planner.Counter, BestUntil: 2, WorthUntil: planner.Minutes(d.Roll(4, 30))}}}}
	p.Dishes = append(p.Dishes, soup)
	return &p.Dishes[len(p.Dishes)-1]
}

// TestWaysAgreeWithBruteForce: in each way of a dish that has two, with the sessions of the evening before, every
// level's value is that of the best of all plans.
func TestWaysAgreeWithBruteForce(t *testing.T) {
	t.Parallel()
	var c tally
	made := map[planner.Way]int{}
	for seed := uint64(0); c.feasible+c.infeasible < partygen.Parties(t, 100); seed++ {
		d := partygen.Seeded(2_000_000 + seed)
		p, now := partygen.Tiny(d)
		soup := withSoup(d, p)
		if soup.Way = planner.ForService; seed%8 > 0 && len(p.People[0].Days[1].Cooks) > 0 { // else nobody can
			soup.Way = planner.MadeAhead
		}
		ways.Renew(p, now)
		if soup.Taken != soup.Way {
			t.Fatalf("seed %d: made %q, want %q", seed, soup.Taken, soup.Way)
		}
		for i := range soup.Steps {
			if s := &soup.Steps[i]; s.Finish { // people cook for some minutes only
				s.Time = planner.Span{Low: 3, Likely: 3, High: 3}
			}
		}
		feasible := c.feasible
		c.compare(t, fmt.Sprintf("seed %d, %s", seed, soup.Way), p, solve.Ask{Now: now})
		made[soup.Way] += c.feasible - feasible
	}
	t.Logf("tiny parties with ways: %s; feasible by way %v", &c, made)
	if made[planner.ForService] < 5 || made[planner.MadeAhead] < 5 {
		t.Errorf("feasible by way: %v", made)
	}
}
