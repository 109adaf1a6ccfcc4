package menu

import (
	"strings"
	"testing"

	"tureen/planner"
)

// TestGuestsByHow: a dish stands with a guest by what is in it and by how it is done; ours, by hand.
func TestGuestsByHow(t *testing.T) {
	plain := dish("main", "Plain", 10, 0)
	under := func(d string) planner.Guest { return planner.Guest{Diets: []string{d}} }
	without := func(a string) planner.Guest { return planner.Guest{Allergies: []string{a}} }
	cold := func(do string, in ...string) planner.Dish { return doing(of(plain, in...), do, "", false) }
	hot := func(do, until string, in ...string) planner.Dish { return doing(of(plain, in...), do, until, true) }
	tataki := hot("Sear the tuna", "", "1 kg", "tuna")
	undone := plain
	undone.Steps = nil
	tataki.Name = "Tuna tataki"
	for _, c := range []struct {
		name string
		d    planner.Dish
		g    planner.Guest
		want Verdict
		why  string
	}{
		{"meat in cream", hot("Braise the beef", "", "1 kg", "beef", "200 ml", "double cream"), under("kosher"), Not,
			"meat and milk in one dish (beef and double cream; kashrut"},
		{"meat and what may hold milk", hot("Braise", "", "1 kg", "kosher beef", "50 g", "dark chocolate"), under("kosher"),
			Check, "perhaps not kosher with kosher beef: meat and milk"},
		{"meat in a plant's cream", hot("Braise", "", "1 kg", "kosher beef", "200 ml", "oat cream"), under("kosher"), Free,
			""},
		{"meat in cream for others", hot("Braise", "", "1 kg", "beef", "200 ml", "double cream"), without("egg"), Free, ""},
		{"raw clams", cold("Open the clams", "24", "raw clams"), under("vulnerable"), Not, "raw clam"},
		{"clams steamed", hot("Steam the clams", "", "24", "raw clams"), under("vulnerable"), Free, ""},
		{"brie as it is", cold("Slice the brie", "200 g", "brie"), under("pregnant"), Check, "mould-ripened"},
		{"brie baked", hot("Bake the brie", "", "1", "brie"), under("pregnant"), Free, ""},
		{"fish that nothing cooks", cold("Slice the salmon", "600 g", "salmon"), under("pregnant"), Not,
			"raw or only cured: cook theirs"},
		{"bought roasted", cold("Carve", "1", "roast chicken"), under("pregnant"), Free, ""},
		{"cooked prawns", cold("Toss", "300 g", "cooked prawns"), under("pregnant"), Free, ""},
		{"eggs boiled hard", cold("Halve", "4", "hard-boiled eggs"), under("pregnant"), Free, ""},
		{"eggs pasteurised", cold("Fold", "4", "pasteurised eggs"), under("pregnant"), Free, ""},
		{"a name that says raw", tataki, under("pregnant"), Check, "its name says tuna tataki"},
		{"the same cooked", hot("Fry the tuna", "", "1 kg", "tuna"), under("pregnant"), Free, ""},
		{"mercury stays", hot("Grill the swordfish", "", "1 kg", "swordfish"), under("pregnant"), Check, "mercury"},
		{"alcohol stays", hot("Simmer the wine", "", "1 l", "red wine"), under("pregnant"), Not, "red wine"},
		{"whole grapes", cold("Wash the grapes", "500 g", "grapes"), under("small child"), Check, "choke"},
		{"grapes halved", cold("Halve the grapes", "500 g", "grapes"), under("small child"), Free, ""},
		{"grapes beside what is cut", cold("Cut up the apples, mix with the grapes", "4", "apples", "500 g", "grapes"),
			under("small child"), Check, "choke"},
		{"cherries halved among others", cold("Halve the plums and cherries", "4", "plums", "500 g", "cherries"),
			under("small child"), Free, ""},
		{"a cheese is the list's", cold("Crumble the cheese over the pears", "200 g", "gorgonzola", "4", "pears"),
			without("milk"), Not, "gorgonzola: contains milk"},
		{"smoked mackerel is not raw", cold("Flake it", "300 g", "smoked mackerel"), under("small child"), Free, ""},
		{"popcorn", cold("Serve", "100 g", "popcorn"), under("small child"), Check, "choke"},
		{"honey after the first year", cold("Drizzle", "50 g", "honey"), under("small child"), Free, ""},
		{"nobody knows it", cold("Mix", "50 g", "stardust"), without("nuts"), Check,
			"stardust: not known what is in it (stardust): check the label"},
		{"nobody knows it, for a diet", cold("Mix", "50 g", "stardust"), under("vegan"), Check, "not known"},
		{"after many recipes", cold("Dress", "50 ml", "salad dressing"), without("celery"), Check, "not known"},
		{"vegan by its word", cold("Dress", "50 ml", "vegan salad dressing"), under("vegan"), Free, ""},
		{"of no concern to advice", hot("Dress", "", "50 ml", "curry"), under("vulnerable"), Free, ""},
		{"without, by its name", cold("Spread", "50 g", "egg-free mayonnaise"), without("egg"), Free, ""},
		{"without what no law lists", cold("Spread", "50 g", "strawberry-free jam"), without("strawberry"), Free, ""},
		{"custard below the sign", hot("Cook the custard to 60 °C", "", "5", "egg yolks", "500 ml", "milk"),
			under("pregnant"),
			Not, "raw egg"},
		{"raw dough", cold("Roll into balls", "200 g", "flour", "100 g", "butter"), under("vulnerable"), Not, "raw flour"},
		{"berries that are poison raw", cold("Crush the elderberries", "500 g", "elderberries"), under("small child"), Not,
			"cook them through (CDC, MMWR"},
		{"liver pink", hot("Fry the livers", "pink in the middle", "500 g", "chicken livers"), under("vulnerable"), Not,
			"poultry or liver that is not cooked through: theirs to 73.9 °C"},
		{"raw milk warmed", hot("Warm the milk", "", "1 l", "raw milk"), under("vulnerable"), Check, "unpasteurized milk"},
		{"raw milk boiled", hot("Boil the milk", "", "1 l", "raw milk"), under("vulnerable"), Free, ""},
		{"nobody says how it is done", of(undone, "1 kg", "chicken"), under("pregnant"), Check, "no step says how"},
		{"honey in a step", hot("Simmer the oats and drizzle with honey", "", "200 g", "oats"), under("infant"), Check,
			"says honey, which is no ingredient: not for infants"},
		{"a step's milk is the list's", hot("Simmer in the milk", "", "200 ml", "coconut milk"), without("milk"), Free, ""},
		{"mustard is no drink", cold("Whisk", "1 tbsp", "dijon mustard"), under("pregnant"), Free, ""},
		{"mayonnaise from a jar", cold("Mix", "200 g", "jar of mayonnaise"), under("pregnant"), Free, ""},
		{"mayonnaise, nobody says whose", cold("Mix", "200 g", "mayonnaise"), under("pregnant"), Check,
			"out of a shop's jar"},
		{"gravlax is cured", cold("Slice", "400 g", "gravlax"), under("pregnant"), Check, "no cold-smoked or cured fish"},
		{"an allergen in a step", hot("Fry the onions, stir in the cream", "", "3", "onions"), without("milk"), Check,
			"says cream, which is no ingredient"},
	} {
		got, reasons := Suits(&planner.Party{}, &c.d, &c.g)
		if why := joined(reasons); got != c.want || !strings.Contains(why, c.why) || c.why == "" && why != "" {
			t.Errorf("%s: got %s (%s), want %s (%s)", c.name, got, why, c.want, c.why)
		}
	}
}

// TestLionEggs: what a mark on an egg is worth is told by country, and only there.
func TestLionEggs(t *testing.T) {
	d := doing(of(dish("main", "Toast", 10, 0), "6", "lion eggs"), "Soft-boil the eggs", "", true)
	g := planner.Guest{Diets: []string{"pregnant"}}
	for zone, want := range map[string]Verdict{"Europe/London": Free, "America/Chicago": Check, "Europe/Vienna": Check} {
		if got, reasons := Suits(&planner.Party{Zone: zone}, &d, &g); got != want {
			t.Errorf("%s: %s (%s), want %s", zone, got, joined(reasons), want)
		}
	}
	// Food Standards Agency, advice on runny eggs, from memory: not for the severely immunocompromised.
	old := planner.Guest{Diets: []string{"vulnerable"}}
	if got, why := Suits(&planner.Party{Zone: "Europe/London"}, &d, &old); got != Check ||
		!strings.Contains(joined(why), "severely weak immune system") {
		t.Errorf("for who falls ill easily, in the UK: %s (%s)", got, joined(why))
	}
	d.Ingredients[0].Name = "eggs"
	if got, why := Suits(&planner.Party{Zone: "Europe/London"}, &d, &g); got != Check ||
		!strings.Contains(joined(why), "take Lion-marked or pasteurized eggs, or cook until firm (UK NHS") {
		t.Errorf("in the UK: %s", joined(why))
	}
}

// TestBlueCheese: the UK's advice is on soft blue cheese, and Stilton is hard.
func TestBlueCheese(t *testing.T) {
	g := planner.Guest{Diets: []string{"pregnant"}}
	for _, c := range []struct {
		cheese, zone string
		want         Verdict
	}{{"stilton", "Europe/London", Free}, {"stilton", "America/Chicago", Check}, {"gorgonzola", "Europe/London", Check},
		{"brie", "Europe/London", Check}, {"cheddar", "Europe/London", Free}} {
		d := doing(of(dish("main", "Board", 10, 0), "300 g", c.cheese), "Arrange on a board", "", false)
		if got, why := Suits(&planner.Party{Zone: c.zone}, &d, &g); got != c.want {
			t.Errorf("%s in %s: %s (%s), want %s", c.cheese, c.zone, got, joined(why), c.want)
		}
	}
}

// TestMeetings: meat and milk in one meal, in two dishes.
func TestMeetings(t *testing.T) {
	p := party(of(dish("main", "Roast", 10, 0), "1 kg", "kosher beef"), of(dish("dessert", "Fool", 10, 0), "1 l", "cream"))
	p.Guests = []planner.Guest{{Name: "Kim", Diets: []string{"kosher"}}, {Name: "Vera", Diets: []string{"vegetarian"}}}
	if got := strings.Join(InTheKitchen(p), " | "); !strings.HasPrefix(got,
		"Kim (kosher): Roast has meat and Fool has milk: not in one meal") || strings.Contains(got, "Vera") {
		t.Errorf("got %q", got)
	}
	p.Dishes[1].Ingredients[0].Name = "oat cream"
	if got := InTheKitchen(p); len(got) > 0 {
		t.Errorf("got %q", got)
	}
}
