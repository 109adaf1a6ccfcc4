package propose_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/propose"
)

// tripsParty is a dinner with things that keep and things that do not, each wanted by a step of its own on the day.
func tripsParty(shop string, names ...string) *planner.Party {
	p := shelfParty(6)
	p.PrepDays = 7
	p.Drinks = nil
	d := planner.Dish{Key: "dish", Name: "Dish", Course: "main", Serves: 6,
		Steps: []planner.Step{{Key: "cook", Do: "Cook it",
			Attention: planner.Hands, Time: planner.Span{Low: 10, Likely: 20, High: 30}, Where: planner.Heat, Cooks: true}}}
	for _, name := range names {
		d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: name, Amount: "500 g", Shop: shop})
	}
	p.Dishes = []planner.Dish{d}
	p.Courses = []planner.Course{{Key: "main", Name: "main", Servings: []planner.Serving{{At: p.Arrival.Add(time.Hour),
		Early: 10, Late: 20}}}}
	return p
}

var (
	keepers = []string{"onions", "carrots", "potatoes", "flour", "sugar", "olive oil", "rice", "celery", "lemons"}
	freshes = []string{"cod", "chicken breast", "parsley"}
)

// What keeps is bought before the eve and what is fresh on it, where both are worth a way and there is time for both;
// and what was decided stays so, as the list has it too.
func TestMainShopAndFreshOne(t *testing.T) {
	for _, c := range []struct {
		name  string
		names []string
		days  int // from now to the party's day
		want  string
	}{
		{"both", append(slices.Clone(keepers), freshes...), 5, "shop-supermarket 9, shop-supermarket-fresh 3"},
		{"on the eve", append(slices.Clone(keepers), freshes...), 1, "shop-supermarket 12"},
		{"nothing fresh", keepers, 5, "shop-supermarket 9"},
		{"two fresh things", append(slices.Clone(keepers), freshes[:2]...), 5, "shop-supermarket 11"},
		{"a short list", append(slices.Clone(keepers[:4]), freshes...), 5, "shop-supermarket 7"},
	} {
		p := tripsParty("supermarket", c.names...)
		now := p.Day().AddDate(0, 0, -c.days).Add(9 * time.Hour)
		for range 2 {
			propose.Renew(p, now)
			var got []string
			for _, trip := range propose.ToBuy(p).Trips {
				got = append(got, fmt.Sprintf("%s %d", trip.Chore, len(trip.Items)))
				if p.Chore(trip.Chore) == nil {
					t.Errorf("%s: the list has a way that is not proposed: %s", c.name, trip.Chore)
				}
			}
			if s := strings.Join(got, ", "); s != c.want {
				t.Errorf("%s: %s, want %s", c.name, s, c.want)
			}
			now = now.Add(time.Hour)
		}
	}
}

// When the main shop is done the fresh one stays, and has what was not got too; put off to the eve they are one again.
func TestMainShopDoneOrPutOff(t *testing.T) {
	p := tripsParty("supermarket", append(slices.Clone(keepers), freshes...)...)
	monday := p.Day().AddDate(0, 0, -5)
	propose.Renew(p, monday)
	eve := p.Day().AddDate(0, 0, -1).Add(10 * time.Hour)
	end := eve.Add(-24 * time.Hour)

	done := p.Clone()
	done.Work = []planner.Work{{Task: "shop-supermarket", Person: "ines", Progress: planner.Done, End: &end, Noted: true}}
	propose.Renew(done, eve)
	if trips := propose.ToBuy(done).Trips; len(trips) != 1 || trips[0].Chore != "shop-supermarket-fresh" ||
		len(trips[0].Items) != 12 {
		t.Errorf("nothing was got on the main shop, and the ways are %v", trips)
	}
	off := p.Clone()
	off.Work = []planner.Work{{Task: "shop-supermarket", Person: "ines", NotBefore: &eve}}
	propose.Renew(off, eve)
	if trips := propose.ToBuy(off).Trips; len(trips) != 1 || trips[0].Chore != "shop-supermarket" ||
		len(trips[0].Items) != 12 {
		t.Errorf("the main shop was put off to the eve, and the ways are %v", trips)
	}
}

// What a butcher has is ordered days before, where there is time; nobody goes anywhere that no host has named for one
// thing.
func TestOrderAndNoTripForOne(t *testing.T) {
	p := tripsParty("supermarket", keepers...)
	p.Dishes[0].Ingredients = append(p.Dishes[0].Ingredients, planner.Ingredient{Name: "beef shin", Amount: "2 kg",
		Shop: "butcher"}, planner.Ingredient{Name: "brie", Amount: "300 g", Shop: "cheese shop", ShopUsual: true})
	propose.Renew(p, p.Day().AddDate(0, 0, -6))
	var keys []string
	for _, c := range p.Chores {
		keys = append(keys, string(c.Key))
	}
	got := strings.Join(keys, " ")
	if !strings.Contains(got, "order-butcher") || !strings.Contains(got, "shop-butcher") ||
		strings.Contains(got, "cheese") {
		t.Errorf("proposed: %s", got)
	}
	order := p.Chore("order-butcher")
	if order == nil || order.Do != "Order at the butcher: beef shin" || order.By[0].Offset != -3*24*60 {
		t.Errorf("the order is %+v", order)
	}
	propose.Renew(p, p.Day().AddDate(0, 0, -1))
	if p.Chore("order-butcher") != nil {
		t.Error("on the eve it is too late to order, and it is proposed")
	}
	p.Dishes[0].Ingredients[len(p.Dishes[0].Ingredients)-1].ShopUsual = false
	if propose.Renew(p, p.Opens()); p.Chore("shop-cheese-shop") == nil {
		t.Error("a host has named the cheese shop, and nobody goes there")
	}
}

// Flour and oil are looked for in the cupboard before the first way; what stands nowhere but in a shop is not.
func TestCupboardFirst(t *testing.T) {
	p := tripsParty("supermarket", append(slices.Clone(keepers), "vinegar")...)
	propose.Renew(p, p.Opens())
	c := p.Chore(propose.CupboardKey)
	if c == nil || c.Note != "To tick, if all of it is there: flour; sugar; olive oil; vinegar." ||
		len(c.By) != 1 || c.By[0].Task != "shop-supermarket" {
		t.Errorf("the look into the cupboard is %+v", c)
	}
}
