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
		{"fish that nothing cooks", cold("Slice the salmon", "600 g", "salmon"), under("pregnant"), Check,
			"no step cooks it"},
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
	} {
		got, reasons := Suits(&c.d, &c.g)
		if why := joined(reasons); got != c.want || !strings.Contains(why, c.why) || c.why == "" && why != "" {
			t.Errorf("%s: got %s (%s), want %s (%s)", c.name, got, why, c.want, c.why)
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
