package propose_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/propose"
	"tureen/planner/repertoire"
	"tureen/planner/solve"
)

// shelfParty puts ready dishes on a menu: three days of prep, a host who dresses, a co-host, drinks.
func shelfParty(covers int, dishes ...string) *planner.Party {
	at := time.Date(2026, time.October, 10, 19, 0, 0, 0, time.UTC)
	hours := planner.DayHours{From: 8 * 60, Until: 22 * 60}
	p := &planner.Party{
		Name: "Harvest supper", Zone: "UTC", Arrival: at.Add(-30 * time.Minute), Covers: covers, PrepDays: 3,
		Kitchen: planner.HomeKitchen(),
		People: []planner.Person{
			{Key: "ines", Name: "Ines", Role: planner.Host, Dress: 30, Cooks: hours, Home: hours},
			{Key: "otto", Name: "Otto", Role: planner.CoHost, Cooks: hours, Home: hours},
		},
		Drinks: []planner.Drink{{Name: "Riesling", Kind: planner.White, Bottles: 3},
			{Name: "Rioja", Kind: planner.Red, Bottles: 2}},
	}
	for _, name := range dishes {
		c, ok := repertoire.Find(name)
		if !ok {
			panic(name)
		}
		if p.Dish(c.Key) != nil {
			continue
		}
		p.Dishes = append(p.Dishes, c.Dish())
	}
	for _, course := range repertoire.Courses {
		if slices.ContainsFunc(p.Dishes, func(d planner.Dish) bool { return d.Course == course }) {
			p.Courses = append(p.Courses, planner.Course{Key: course, Name: string(course),
				Servings: []planner.Serving{{At: at, Early: 10, Late: 20}}})
			at = at.Add(45 * time.Minute)
		}
	}
	return p
}

func chore(p *planner.Party, key planner.ChoreKey) planner.Chore {
	for _, c := range propose.Chores(p) {
		if c.Key == key {
			return c
		}
	}
	return planner.Chore{}
}

func TestProposeWhatAPartyNeeds(t *testing.T) {
	p := shelfParty(10, "prawns", "overnight loaf", "yoghurt chicken", "herbed rice", "posset", "fennel and orange")
	var keys []string
	for _, c := range propose.Chores(p) {
		keys = append(keys, string(c.Key))
	}
	got := strings.Join(keys, " ")
	want := "thaw-raw-prawns thaw-boneless-chicken-thighs chill-white pour-white open-red shop-supermarket cupboard " +
		"make-room lay-table last-things warm-starter warm-main serve-main serve-side serve-salad serve-bread " +
		"serve-dessert dress-ines leftovers-starter leftovers-side leftovers"
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// What may come from wherever is bought on the way to a shop that has everything, and only there.
func TestWhereverIsNoWayOfItsOwn(t *testing.T) {
	for shop, want := range map[string]string{"supermarket": "shop-supermarket", "butcher": "shop-butcher shop"} {
		p := &planner.Party{
			Name: "Supper", Zone: "UTC", Arrival: time.Date(2026, time.October, 10, 19, 0, 0, 0, time.UTC), Covers: 4,
			PrepDays: 2, Kitchen: planner.HomeKitchen(),
			Courses: []planner.Course{{Key: "main", Name: "main",
				Servings: []planner.Serving{{At: time.Date(2026, time.October, 10, 20, 0, 0, 0, time.UTC)}}}},
			Dishes: []planner.Dish{{Key: "stew", Name: "Stew", Course: "main", Covers: 4,
				Ingredients: []planner.Ingredient{{Name: "beef", Shop: shop}, {Name: "flour"}},
				Steps:       []planner.Step{{Key: "cook", Do: "Cook", Time: planner.Span{Low: 60, Likely: 60, High: 60}}}}},
		}
		var keys []string
		for _, c := range propose.Chores(p) {
			if c.Kind == planner.Shop {
				keys = append(keys, string(c.Key))
			}
		}
		if got := strings.Join(keys, " "); got != want {
			t.Errorf("beef from the %s, flour from wherever: the ways are %q, want %q", shop, got, want)
		}
	}
}

// TestThawing: 450 g packs take a day in the refrigerator and then keep two at most (USDA FSIS, The Big
// Thaw, by package safety), and of the two the marinade takes its part.
func TestThawing(t *testing.T) {
	p := shelfParty(6, "prawns", "yoghurt chicken")
	prawns := chore(p, "thaw-raw-prawns")
	if prawns.Time.Likely != 24*60 || prawns.Where != planner.Refrigerator ||
		prawns.By[0].Task != "prawns-with-garlic-and/clean" {
		t.Errorf("prawns: %+v", prawns)
	}
	if w := prawns.By[0].Within; w <= 0 || w > 48*60-8*60 {
		t.Errorf("prawns may wait %d min before they are cleaned and lie 8 h more; together the limit is 2 days", w)
	}
	chicken := chore(p, "thaw-boneless-chicken-thighs")
	if w := chicken.By[0].Within; w <= 0 || w > 48*60-20*60 {
		t.Errorf("the chicken may wait %d min before a marinade of up to 20 h; together the limit is 2 days", w)
	}
	if !strings.Contains(chicken.Note, "Big Thaw") {
		t.Errorf("no source in %q", chicken.Note)
	}
	p.PrepDays = 0
	if wet := chore(p, "thaw-raw-prawns"); wet.Time.Likely != 60 || wet.Attention != planner.Watch ||
		wet.By[0].Within != 15 {
		t.Errorf("without a day to spare: %+v, want cold water for an hour and on at once", wet)
	}
}

// TestThawingWithoutAWeight: what nobody has weighed thaws as a small pack does, a full day in the refrigerator (USDA
// FSIS, The Big Thaw: "even a small amount of frozen food"); what is eaten frozen does not.
func TestThawingWithoutAWeight(t *testing.T) {
	p := shelfParty(6, "prawns")
	d := &p.Dishes[0]
	d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: "raspberries", Amount: "300 g", Frozen: true},
		planner.Ingredient{Name: "chicken", Amount: "2", Frozen: true}, planner.Ingredient{Name: "vanilla ice cream",
			Amount: "1 l", Frozen: true})
	if c := chore(p, "thaw-raspberries"); c.Time.Likely != 24*60 || strings.Contains(c.Note, "grams:") {
		t.Errorf("300 g of raspberries: %+v", c)
	}
	if c := chore(p, "thaw-chicken"); c.Time.Likely != 24*60 || !strings.Contains(c.Note, "grams:") {
		t.Errorf("chicken of no weight: %+v", c)
	}
	for _, c := range propose.Chores(p) {
		if c.Key == "thaw-vanilla-ice-cream" {
			t.Error("the ice cream is thawed")
		}
	}
}

// TestTripsKeep: what keeps two days is not on a trip that must end three days before.
func TestTripsKeep(t *testing.T) {
	p := shelfParty(8, "pork terrine", "honey parfait")
	p.Dishes[0].Steps[3].After[0].Wait.Least = 40 * 60 // sliced no sooner than 40 h after pressing
	for i := range p.Dishes[0].Ingredients {
		p.Dishes[0].Ingredients[i].Shop = "supermarket"
	}
	p.Dishes[1].Ingredients[3].KeepDays = 1
	trips := propose.ToBuy(p).Trips
	if len(trips) == 3 && trips[2].Chore == "ice" {
		trips = trips[:2]
	}
	if len(trips) != 2 || trips[0].Chore != "shop-supermarket" || trips[1].Chore != "shop-supermarket-2" {
		t.Fatalf("got %+v, want two trips", trips)
	}
	pork, berries := trips[0].Items, trips[1].Items
	has := func(items []propose.TripItem, d planner.DishKey, ingredient int, use planner.TaskKey) bool {
		return slices.ContainsFunc(items, func(i propose.TripItem) bool {
			return i.Dish == d && i.Ingredient == ingredient && i.Use == use
		})
	}
	if !has(pork, "pork-terrine-with-pistachios", 0, "pork-terrine-with-pistachios/mix") ||
		!has(berries, "frozen-honey-parfait-with", 3, "frozen-honey-parfait-with/slice") {
		t.Errorf("the pork is for the first way, the raspberries for the second: %+v", trips)
	}
}

func TestWashing(t *testing.T) {
	p := shelfParty(8, "pork terrine", "fennel and orange", "dark chocolate")
	p.Kitchen.Plates[0].Count = 16 // small plates for three courses
	wash := chore(p, "wash-small-plate")
	if wash.Kind != planner.Wash || wash.From.Course != "starter" && wash.From.Course != "salad" ||
		wash.By[0].Course != "dessert" {
		t.Errorf("got %+v, want a wash before dessert", wash)
	}
	p.Kitchen.Plates[0].Count = 24
	if wash := chore(p, "wash-small-plate"); wash.Key != "" {
		t.Errorf("enough plates, and still %+v", wash)
	}
}

func TestDrinks(t *testing.T) {
	p := shelfParty(10, "posset")
	p.Drinks = append(p.Drinks, planner.Drink{Name: "Cava", Kind: planner.Sparkling, Bottles: 20})
	c := chore(p, "chill-sparkling")
	if c.Where != planner.Counter || c.From == nil || c.From.Task != "ice" || !strings.Contains(c.Do, "tub") {
		t.Errorf("20 bottles do not fit beside the food: %+v", c)
	}
	if ice := chore(p, "ice"); !strings.Contains(ice.Do, "5 kg") {
		t.Errorf("got %q, want 5 kg around the bottles of 10 guests", ice.Do)
	}
	p.Drinks = append(p.Drinks, planner.Drink{Name: "Gin", Kind: planner.Soft, Bottles: 1})
	if ice := chore(p, "ice"); !strings.Contains(ice.Do, "12 kg") {
		t.Errorf("got %q, want 12 kg for 10 guests' glasses and their bottles", ice.Do)
	}
	p.Drinks = nil
	if c := chore(p, "ice"); c.Key != "" {
		t.Errorf("ice for nothing: %+v", c)
	}
}

func TestRenewKeepsWhatPeopleDid(t *testing.T) {
	p := shelfParty(8, "prawns", "posset")
	came, _ := propose.Renew(p, p.Opens())
	if len(came) != len(p.Chores) || len(came) == 0 {
		t.Fatalf("%d came, %d are there", len(came), len(p.Chores))
	}
	before, _ := json.Marshal(p)
	if came, went := propose.Renew(p, p.Opens()); len(came)+len(went) != 0 {
		t.Errorf("again: %v came, %v went", came, went)
	}
	if after, _ := json.Marshal(p); string(after) != string(before) {
		t.Errorf("renewing without a change changed\n%s\nto\n%s", before, after)
	}
	// The host edits one, has done one, somebody claims two more; then the prawns leave the menu.
	p.Chore("lay-table").Do, p.Chore("lay-table").Proposed = "Lay the long table", false
	end := p.Arrival.Add(-48 * time.Hour)
	p.Work = []planner.Work{
		{Task: "shop-supermarket", Progress: planner.Done, End: &end},
		{Task: "thaw-raw-prawns", Person: "otto"},
		{Task: "chill-white", Person: "otto"},
	}
	p.Dishes = p.Dishes[1:]
	_, went := propose.Renew(p, p.Opens())
	if !slices.Equal(went, []planner.ChoreKey{"thaw-raw-prawns", "warm-starter", "serve-dessert"}) {
		t.Errorf("went %v, want the thawing, and what the starter wanted", went)
	}
	if p.Chore("lay-table").Do != "Lay the long table" || p.Chore("shop-supermarket") == nil {
		t.Error("what people changed or did is gone")
	}
	if p.WorkOn("thaw-raw-prawns") != nil || p.WorkOn("chill-white") == nil {
		t.Errorf("work: %+v", p.Work)
	}
	p.Courses = p.Courses[1:]
	for _, x := range p.Validate() {
		t.Errorf("%s: %s", x.Where, x.Text)
	}
}

// TestProposeIsValidAndStable: whatever is on the menu, the proposals make sense in the party, the same
// party gets the same ones, and proposing anew changes nothing.
func TestProposeIsValidAndStable(t *testing.T) {
	var names []string
	for _, c := range repertoire.List() {
		names = append(names, c.Name)
	}
	rapid.Check(t, func(t *rapid.T) {
		menu := rapid.SliceOfNDistinct(rapid.SampledFrom(names), 0, 8, rapid.ID[string]).Draw(t, "menu")
		p := shelfParty(rapid.IntRange(1, 40).Draw(t, "covers"), menu...)
		p.PrepDays = rapid.IntRange(0, 6).Draw(t, "prepDays")
		for _, kind := range []planner.DrinkKind{planner.Sparkling, planner.Soft} {
			if n := rapid.IntRange(0, 30).Draw(t, string(kind)); n > 0 {
				p.Drinks = append(p.Drinks, planner.Drink{Name: string(kind), Kind: kind, Bottles: n})
			}
		}
		a, _ := json.Marshal(propose.Chores(p))
		b, _ := json.Marshal(propose.Chores(p))
		if string(a) != string(b) {
			t.Fatalf("two proposals for one party:\n%s\n%s", a, b)
		}
		propose.Renew(p, p.Opens())
		for _, x := range p.Validate() {
			t.Errorf("%s: %s", x.Where, x.Text)
		}
		once, _ := json.Marshal(p)
		propose.Renew(p, p.Opens())
		if twice, _ := json.Marshal(p); string(once) != string(twice) {
			t.Fatalf("renewing changed\n%s\nto\n%s", once, twice)
		}
		bought := map[string]int{}
		for _, trip := range propose.ToBuy(p).Trips {
			for _, i := range trip.Items {
				if i.Dish != "" {
					bought[fmt.Sprint(i.Dish, " ", i.Ingredient)]++
				}
			}
		}
		for _, d := range p.Dishes {
			for i, in := range d.Ingredients {
				if n := bought[fmt.Sprint(d.Key, " ", i)]; in.Have && n != 0 || !in.Have && n != 1 {
					t.Fatalf("%s of %s is bought %d times", in.Name, d.Name, n)
				}
			}
		}
	})
}

func TestHostsOwnTasksComeFirst(t *testing.T) {
	p := shelfParty(8, "posset", "prawns")
	p.Kind = planner.Buffet
	p.Chores = []planner.Chore{
		{Key: "table", Kind: planner.LayTable, Do: "Lay the long table", Attention: planner.Hands,
			Time: planner.Span{Low: 20, Likely: 30, High: 40}},
		{Key: "market", Kind: planner.Shop, Shop: "supermarket", Do: "Shop", Attention: planner.Hands,
			Time: planner.Span{Low: 20, Likely: 30, High: 40}},
	}
	propose.Renew(p, p.Opens())
	if p.Chore("lay-table") != nil || p.Chore("shop-supermarket") != nil || p.Chore("table") == nil ||
		p.Chore("set-out") == nil {
		t.Errorf("got %+v", p.Chores)
	}
	propose.Decline(p, "set-out")
	propose.Decline(p, "market")
	came, _ := propose.Renew(p, p.Opens())
	if p.Chore("set-out") != nil {
		t.Error("what was declined is back")
	}
	if !slices.Equal(came, []planner.ChoreKey{"shop-supermarket"}) {
		t.Errorf("came %v, want the shopping that is nobody's now", came)
	}
	for _, x := range p.Validate() {
		t.Errorf("%s: %s", x.Where, x.Text)
	}
}

// TestProposalsFitPeoplesHours: whatever hours people keep and whenever the guests come, what is proposed can
// be done in somebody's hours, so that it does not make a dinner impossible that was possible before.
func TestProposalsFitPeoplesHours(t *testing.T) {
	for _, c := range []struct {
		name        string
		arrive      int // hour
		from, until planner.Minutes
	}{
		{"an evening of people who come home at five", 19, 17 * 60, 23 * 60},
		{"a late brunch", 11, 8 * 60, 22 * 60},
		{"an early breakfast", 8, 6 * 60, 20 * 60},
		{"a night", 22, 14 * 60, 24 * 60},
	} {
		p := shelfParty(6, "posset", "herbed rice")
		day := p.Day()
		move := day.Add(time.Duration(c.arrive) * time.Hour).Sub(p.Arrival)
		p.Arrival = p.Arrival.Add(move)
		for i := range p.Courses {
			p.Courses[i].Servings[0].At = p.Courses[i].Servings[0].At.Add(move)
		}
		for i := range p.People {
			p.People[i].Cooks, p.People[i].Home = planner.DayHours{From: c.from, Until: c.until},
				planner.DayHours{From: c.from, Until: c.until}
		}
		p.Drinks = append(p.Drinks, planner.Drink{Name: "Cava", Kind: planner.Sparkling, Bottles: 4})
		propose.Renew(p, p.Opens())
		plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: p.Opens(), FirstOnly: true})
		if err != nil || clash != nil {
			t.Errorf("%s: %v, %+v", c.name, err, clash)
			continue
		}
		for _, b := range check.Plan(p, plan) {
			t.Errorf("%s: rule %d: %s %s", c.name, b.Rule, b.Task, b.Text)
		}
	}
}
