package propose_test

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/propose"
)

// TestShelfLivesBindTrips: a trip for raw chicken ends at most two days before its first step, whatever the host says
// (USDA FSIS, FMA-Data-v128, product 113: 1 to 2 days from purchase), less the time that it is raw from then on, down
// to a day; what a host says of a quality binds, and what is only published of one does not.
func TestShelfLivesBindTrips(t *testing.T) {
	const day = 24 * 60
	for _, c := range []struct {
		name string
		in   planner.Ingredient
		raw  planner.Minutes // it lies in the refrigerator between the first step and the heat
		want planner.Minutes
	}{
		{"published", planner.Ingredient{Name: "whole chickens"}, 0, 2*day - 10},
		{"the host says more", planner.Ingredient{Name: "whole chickens", KeepDays: 5}, 0, 2*day - 10},
		{"the host says less", planner.Ingredient{Name: "whole chickens", KeepDays: 1}, 0, day},
		{"salted the day before", planner.Ingredient{Name: "whole chickens"}, 20 * 60, 2*day - 20*60 - 10},
		{"salted two days before", planner.Ingredient{Name: "whole chickens"}, 40 * 60, day},
		{"leaves, by the host", planner.Ingredient{Name: "leeks", KeepDays: 2}, 0, 2 * day},
		{"leaves, as published", planner.Ingredient{Name: "parsley"}, 0, 0},
		{"prawns, by their kind", planner.Ingredient{Name: "raw prawns"}, 0, 2*day - 10},
		{"frozen", planner.Ingredient{Name: "whole chickens", Frozen: true}, 0, 0},
	} {
		d := planner.Dish{Key: "d", Name: "D", Course: "main", Serves: 4, Steps: []planner.Step{
			{Key: "salt", Do: "Salt", Attention: planner.Hands, Time: planner.Span{Low: 10, Likely: 10, High: 10},
				Leaves: planner.Food{Perishable: true, Kind: "poultry"}},
			{Key: "roast", Do: "Roast", Attention: planner.Watch, Time: planner.Span{Low: 60, Likely: 60, High: 60}, Cooks: true,
				Where: planner.Heat},
		}}
		wait := planner.Wait{State: planner.Straight}
		if c.raw > 0 {
			wait = planner.Wait{State: planner.Refrigerator, Longest: c.raw}
		}
		d.Steps[1].After = []planner.After{{Step: "salt", Wait: wait}}
		c.in.Amount, c.in.Shop = "1", "butcher"
		d.Ingredients = []planner.Ingredient{c.in}
		at := time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC)
		p := &planner.Party{Zone: "UTC", Arrival: at, Covers: 4, PrepDays: 7, Dishes: []planner.Dish{d},
			Courses: []planner.Course{{Key: "main", Servings: []planner.Serving{{At: at.Add(time.Hour)}}}},
			People: []planner.Person{{Key: "ada", Name: "Ada", Role: planner.Host,
				Cooks: planner.DayHours{From: 9 * 60, Until: 21 * 60}}}}
		found := false
		for _, x := range propose.Chores(p) {
			if x.Kind != planner.Shop {
				continue
			}
			found = true
			if len(x.By) != 1 || x.By[0].Within != c.want {
				t.Errorf("%s: %+v, want within %d minutes", c.name, x.By, c.want)
			}
		}
		if !found {
			t.Errorf("%s: no trip", c.name)
		}
	}
}

// TestTripsAfterTheShop: a trip that is over keeps its key and its things; what is wanted later goes on another one,
// also beside a task of the hosts' own to go shopping.
func TestTripsAfterTheShop(t *testing.T) {
	p := shelfParty(8, "posset")
	propose.Renew(p, p.Opens())
	end := p.Arrival.Add(-24 * time.Hour)
	p.Work = []planner.Work{{Task: "shop-supermarket", Progress: planner.Done, End: &end}}
	if trips := propose.ToBuy(p).Trips; trips[0].Chore != "shop-supermarket" || len(trips[0].Items) != 5 {
		t.Errorf("done, and not noted: %d things on %s", len(trips[0].Items), trips[0].Chore)
	}
	p.Work[0].Noted = true
	for _, i := range propose.ToBuy(p).Trips[0].Items {
		b := planner.Purchase{Item: i.Item, Name: i.Name, Got: []planner.Got{{Trip: "shop-supermarket"}}}
		if !i.Amount.IsZero() {
			b.Got[0].Amounts = []string{i.Amount.String()}
		}
		p.Bought = append(p.Bought, b)
	}
	if b := propose.ToBuy(p); len(b.Trips) != 0 || len(b.There) != 5 {
		t.Errorf("all bought: %+v", b.Trips)
	}
	came, went := propose.Renew(p, p.Opens())
	if len(came) != 0 || len(went) != 1 || went[0] != "make-room" {
		t.Errorf("nothing is to be bought, so nothing but room for it is to be made no more: %v came, %v went", came, went)
	}
	p.Dishes[0].Ingredients = append(p.Dishes[0].Ingredients, planner.Ingredient{Name: "pistachios", Amount: "50 g",
		Shop: "supermarket"})
	p.Chores[indexOf(p, "shop-supermarket")].Proposed = false // the hosts have changed it
	if came, _ = propose.Renew(p, p.Opens()); !slices.Contains(came, "shop-supermarket-2") {
		t.Errorf("pistachios: %v came", came)
	}
}

func indexOf(p *planner.Party, k planner.ChoreKey) int {
	for i := range p.Chores {
		if p.Chores[i].Key == k {
			return i
		}
	}
	return -1
}
