package menu

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/repertoire"
	"tureen/planner/safety"
)

func doing(d planner.Dish, do, until string, cooks bool, uses ...planner.Use) planner.Dish {
	s := planner.Step{Key: "s", Do: do, Until: until, Attention: planner.Hands, Where: planner.Counter,
		Time: planner.Span{Low: 5, Likely: 5, High: 5}, Uses: uses}
	if cooks {
		s.Cooks, s.Where = true, planner.Heat
	}
	d.Steps = []planner.Step{s}
	return d
}

func joined(reasons []Reason) string {
	var all []string
	for _, r := range reasons {
		all = append(all, r.String())
	}
	return strings.Join(all, " | ")
}

// TestSuits: a dish, a guest, how the one stands with the other and a word of why; ours, by hand.
func TestSuits(t *testing.T) {
	plain := dish("main", "Plain", 10, 0)
	brought := of(dish("dessert", "Walnut cake", 10, 0), "300 g", "flour")
	brought.BroughtBy = "Oona"
	maybe := of(plain, "1 kg", "potatoes", "50 g", "walnuts")
	maybe.Ingredients[1].Optional = true
	for _, c := range []struct {
		name string
		d    planner.Dish
		g    planner.Guest
		want Verdict
		why  string
	}{
		{"nothing to think of", of(plain, "1 kg", "pork loin"), planner.Guest{}, Free, ""},
		{"contains", of(plain, "100 g", "butter"), planner.Guest{Allergies: []string{"milk"}}, Not, "butter: contains milk"},
		{"may contain", of(plain, "100 g", "dark chocolate"), planner.Guest{Allergies: []string{"milk"}}, Check,
			"may contain milk"},
		{"free as far as words tell", of(plain, "1 kg", "potatoes"), planner.Guest{Allergies: []string{"milk"},
			Diets: []string{"vegan"}}, Free, ""},
		{"left out", maybe, planner.Guest{Allergies: []string{"nuts"}}, Check, "it can be left out"},
		{"no ingredients", plain, planner.Guest{Diets: []string{"vegan"}}, Unknown, ""},
		{"brought, and nothing written speaks against it", brought, planner.Guest{Diets: []string{"vegetarian"}}, Unknown,
			""},
		{"brought, and its name speaks", brought, planner.Guest{Allergies: []string{"nuts"}}, Unknown,
			"its name says so: contains nuts (walnut"},
		{"brought, and its ingredients speak", brought, planner.Guest{Allergies: []string{"gluten"}}, Not, "flour"},
		{"US lists wheat alone", of(plain, "200 g", "pearl barley"), planner.Guest{Allergies: []string{"wheat"}}, Free, ""},
		{"no list has it", of(plain, "200 g", "strawberries"), planner.Guest{Allergies: []string{"strawberry"}}, Not,
			"it says strawberry"},
		{"advice in pregnancy, with its source", of(plain, "200 g", "brie"), planner.Guest{Diets: []string{"pregnant"}},
			Check, "(CDC, Safer Food Choices (2024-2025); UK NHS, Foods to avoid in pregnancy)"},
		{"egg that nothing cooks", doing(of(plain, "4", "eggs"), "Fold in the egg whites", "", false),
			planner.Guest{Diets: []string{"vulnerable"}}, Not,
			"eggs: raw egg: take pasteurized eggs (FDA Food Code 2022, 3-801.11: a rule for kitchens"},
		{"the same for others", doing(of(plain, "4", "eggs"), "Fold in the egg whites", "", false),
			planner.Guest{Diets: []string{"vegetarian"}}, Free, ""},
		{"egg baked", doing(of(plain, "4", "eggs"), "Bake the cake", "a skewer comes out clean", true),
			planner.Guest{Diets: []string{"pregnant"}}, Free, ""},
		{"egg thickened", doing(of(plain, "4", "egg yolks"), "Beat the hollandaise over steam", "", true),
			planner.Guest{Diets: []string{"pregnant"}}, Check, "soft egg: take pasteurized eggs"},
		// USDA FSIS: 63 °C (145 °F) for whole cuts.
		{"beef pink", doing(of(plain, "1 kg", "beef fillet"), "Roast the beef", "54 °C in the middle", true),
			planner.Guest{Diets: []string{"pregnant"}}, Not, "then 3 min of rest, foodsafety.gov's figure (CDC"},
		{"beef done", doing(of(plain, "1 kg", "beef fillet"), "Roast the beef", "65 °C in the middle", true),
			planner.Guest{Diets: []string{"pregnant"}}, Free, ""},
		{"in Fahrenheit", doing(of(plain, "1 kg", "beef fillet"), "Roast the beef", "130 F in the middle", true),
			planner.Guest{Diets: []string{"infant"}}, Not, "rare or pink"},
		{"a sign", doing(of(plain, "1 kg", "lamb chops"), "Fry the chops", "still pink inside", true),
			planner.Guest{Diets: []string{"vulnerable"}}, Not, "rare or pink"},
		{"its denial", doing(of(plain, "1 kg", "prawns"), "Fry the prawns", "pink and no longer glassy", true),
			planner.Guest{Allergies: []string{"nuts"}}, Free, ""},
		{"no longer pink", doing(of(plain, "1 kg", "chicken breasts"), "Fry them", "no longer pink", true),
			planner.Guest{Diets: []string{"vulnerable"}}, Free, ""},
		{"honey", of(plain, "1 tbsp", "honey"), planner.Guest{Diets: []string{"infant"}}, Not,
			"no honey (CDC, Botulism Prevention)"},
	} {
		got, reasons := Suits(&planner.Party{}, &c.d, &c.g)
		if why := joined(reasons); got != c.want || !strings.Contains(why, c.why) || c.why == "" && c.want != Unknown &&
			why != "" {
			t.Errorf("%s: got %s (%s), want %s (%s)", c.name, got, why, c.want, c.why)
		}
	}
}

func feast(dishes ...planner.Dish) *planner.Party {
	p := party(dishes...)
	p.Guests = []planner.Guest{{Name: "Vera", Diets: []string{"vegan"}}, {Name: "Piers", Allergies: []string{"soy"}}}
	return p
}

// TestHelp: a substitution is offered only when it would help the guest wholly, and says whom it would harm.
func TestHelp(t *testing.T) {
	for _, c := range []struct {
		name, guest string
		d           planner.Dish
		want        string // in the help; empty: none is known
	}{
		{"butter for a vegan", "Vera", of(dish("main", "Mash", 10, 0), "1 kg", "potatoes", "100 g", "butter"),
			"for butter take dairy-free margarine"},
		{"cream: oats suit both", "Vera", of(dish("main", "Soup", 10, 0), "200 ml", "double cream"),
			"for double cream take oat cream"},
		{"two things, both known", "Vera", of(dish("main", "Cake", 10, 0), "100 g", "butter", "2 tbsp", "honey"),
			"for honey take maple syrup"},
		{"meat is not swapped away", "Vera", of(dish("main", "Roast", 10, 0), "1 kg", "pork loin"), ""},
		{"one known and one not", "Vera", of(dish("main", "Pie", 10, 0), "100 g", "butter", "1 kg", "lamb shoulder"), ""},
		{"lardons, which tofu would replace, for who eats no soy", "Piers", of(dish("main", "Stew", 10, 0), "2 tbsp",
			"soy sauce"), "for soy sauce take coconut aminos"},
		{"raw egg for who expects", "Mina", doing(of(dish("dessert", "Mousse", 10, 0), "4", "egg whites"), "Fold", "", false),
			"for egg whites take pasteurized egg"},
		{"lardons for a vegan: the tofu is not for Piers, the mushrooms are", "Vera", of(dish("main", "Stew", 10, 0), "100 g",
			"lardons"), "smoked paprika and fried mushrooms"},
	} {
		p := feast(c.d)
		g := &p.Guests[0]
		switch c.guest {
		case "Piers":
			g = &p.Guests[1]
		case "Mina":
			p.Guests = append(p.Guests, planner.Guest{Name: "Mina", Diets: []string{"pregnant"}})
			g = &p.Guests[2]
		}
		got := Help(p, &p.Dishes[0], g)
		if (got == "") != (c.want == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s: got %q, want %q in it", c.name, got, c.want)
		}
	}
}

// TestHelpHelps: whatever is proposed, of whatever dish and guest, the substitute itself never surely stands against
// the guest whom it is for, and every row of the shelf with the swaps made is no longer barred.
func TestHelpHelps(t *testing.T) {
	allergies := []string{"milk", "egg", "nuts", "soy", "gluten", "sesame", "fish", "celery", "mustard", "peanut"}
	rapid.Check(t, func(rt *rapid.T) {
		cards := repertoire.List()
		d := cards[rapid.IntRange(0, len(cards)-1).Draw(rt, "dish")].Dish()
		g := planner.Guest{Name: "G", Allergies: rapid.SliceOfNDistinct(rapid.SampledFrom(allergies), 0, 3,
			rapid.ID[string]).Draw(rt, "allergies")}
		if rapid.Bool().Draw(rt, "diet") {
			diets := safety.Diets()
			g.Diets = []string{string(diets[rapid.IntRange(0, len(diets)-1).Draw(rt, "diet")])}
		}
		p := party(d)
		p.Guests = []planner.Guest{g}
		list, all := swaps(p, &d, &g)
		if !all {
			return
		}
		for _, s := range list {
			for i := range d.Ingredients {
				if d.Ingredients[i].Name == s.ingredient {
					d.Ingredients[i].Name = s.Use
				}
			}
		}
		if v, why := Suits(p, &d, &g); v == Not {
			rt.Fatalf("%s for %+v, with %v: still %s", d.Name, g, list, joined(why))
		}
	})
}

// TestUnfedCooks: what the cooks are told and the channel is not; names are in the one and never in the other.
func TestUnfedCooks(t *testing.T) {
	p := feast(of(dish("main", "Mash", 10, 0), "1 kg", "potatoes", "100 g", "butter"),
		of(dish("starter", "Ham", 10, 0), "200 g", "ham"),
		of(dish("dessert", "Tofu cream", 10, 0), "200 g", "tofu", "200 ml", "cream"), of(dish("dessert", "Pears", 10, 0), "6",
			"pears"))
	cooks, channel := strings.Join(Unfed(p), " | "), strings.Join(Look(p), " | ")
	for _, want := range []string{
		"Starter leaves Vera nothing, as far as the ingredients tell. No substitution",
		"Main leaves Vera nothing, as far as the ingredients tell. Mash, for Vera: for butter take dairy-free margarine",
		"Dessert: of 2 dishes Vera is left Pears. Is that enough?",
		"Dessert: of 2 dishes Piers is left Pears. Is that enough?",
	} {
		if !strings.Contains(cooks, want) {
			t.Errorf("the cooks are not told %q:\n%s", want, cooks)
		}
	}
	for _, want := range []string{"Main leaves 1 guest nothing",
		"None of the 2 guests whom you have named can eat Tofu cream"} {
		if !strings.Contains(channel, want) {
			t.Errorf("the channel is not told %q:\n%s", want, channel)
		}
	}
	if strings.Contains(channel, "Vera") || strings.Contains(channel, "Piers") || strings.Contains(channel, "vegan") {
		t.Errorf("the channel is told of one guest: %s", channel)
	}
	// A course for one group leaves nobody else without.
	p.Courses[1].Servings[0].Group = "children"
	if got := strings.Join(Unfed(p), " | "); strings.Contains(got, "Main") {
		t.Errorf("Vera eats with the grown-ups: %s", got)
	}
}

// TestInTheKitchen: the ways from one dish into another; sources in planner/safety.
func TestInTheKitchen(t *testing.T) {
	processor, fryer := piece(planner.AnAppliance, "food processor", 1), piece(planner.AnAppliance, "deep fryer", 1)
	pesto := doing(of(dish("main", "Pesto", 10, 0), "100 g", "pine nuts"), "Grind the pesto", "", false, processor)
	for _, c := range []struct {
		name string
		a    planner.Dish
		want string
	}{
		{"a machine", doing(of(dish("main", "Dip", 10, 0), "1", "beetroot"), "Purée the beetroot", "", false, processor),
			"Dip and Pesto (pine nuts) share the food processor"},
		{"another machine", doing(of(dish("main", "Dip", 10, 0), "1", "beetroot"), "Purée the beetroot", "", false, fryer),
			""},
		{"hands", doing(of(dish("main", "Dip", 10, 0), "1", "beetroot"), "Slice the beetroot", "", false), ""},
	} {
		p := party(pesto, c.a)
		p.Guests = []planner.Guest{{Name: "Piers", Allergies: []string{"nuts"}},
			{Name: "Vera", Diets: []string{"vegetarian"}}}
		got := strings.Join(InTheKitchen(p), " | ")
		if c.want == "" && strings.Contains(got, "share") || !strings.Contains(got, c.want) || strings.Contains(got, "Vera") {
			t.Errorf("%s: got %q, want %q in it", c.name, got, c.want)
		}
	}
	fritters := doing(of(dish("main", "Prawn fritters", 10, 0), "1 kg", "prawns"), "Deep-fry the fritters", "", true)
	for do, want := range map[string]bool{"Fry the chips in the same oil": true, "Deep fry the chips": true,
		"Roast the chips": false, "Fry the chips in butter": false} {
		p := party(fritters, doing(of(dish("main", "Chips", 10, 0), "2 kg", "potatoes"), do, "", true))
		p.Guests = []planner.Guest{{Name: "Ben", Allergies: []string{"shellfish"}}}
		got := strings.Join(InTheKitchen(p), " | ")
		if strings.Contains(got, "Chips and Prawn fritters (prawn") != want || want &&
			!strings.Contains(got, "Food Standards Agency") {
			t.Errorf("%s: got %q", do, got)
		}
	}
	p := party(doing(of(dish("main", "Walnut salad", 10, 0), "100 g", "walnuts"), "Chop the walnuts", "", false),
		doing(of(dish("main", "Slaw", 10, 0), "1", "cabbage"), "Slice the cabbage", "", false))
	p.Guests = []planner.Guest{{Name: "Piers", Allergies: []string{"walnut"}}}
	if got := strings.Join(InTheKitchen(p), " | "); !strings.Contains(got,
		"Piers: what is made in the same kitchen as Walnut salad (walnut): wash boards") {
		t.Errorf("boards: %q", got)
	}
}
