package caution

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/repertoire"
	"tureen/planner/safety"
)

// typed is a dish as a cook types it: its name, what goes in with commas, and its steps one after another. Before a
// step stands how the food waits for it (cold, out, warm, frozen, and for how long at least), after it its heat and its
// sign: "Roast the bird /oven /until 60 °C in the middle /90 min".
func typed(t *testing.T, name, ingredients string, steps ...string) *planner.Party {
	t.Helper()
	d := planner.Dish{Key: "dish", Name: name, Serves: 6}
	for line := range strings.SplitSeq(ingredients, ", ") {
		if line == "" {
			continue
		}
		in := planner.Ingredient{Name: line}
		if i := strings.Index(line, ": "); i > 0 {
			in.Amount, in.Name = line[:i], line[i+2:]
		}
		in.Name, in.Frozen = strings.CutSuffix(in.Name, " (frozen)")
		d.Ingredients = append(d.Ingredients, in)
	}
	for i, text := range steps {
		s := planner.Step{Key: planner.StepKey(fmt.Sprintf("s%d", i)), Where: planner.Counter,
			Time: planner.Span{Low: 20, Likely: 20, High: 20}}
		w := planner.Wait{}
		if before, rest, ok := strings.Cut(text, "> "); ok {
			state, length, _ := strings.Cut(before, " ")
			w.State = map[string]planner.State{"cold": planner.Refrigerator, "out": planner.Counter, "warm": planner.Warm,
				"frozen": planner.Freezer, "hot": planner.HotHold}[state]
			w.Least = minutes(t, length)
			text = rest
		}
		for k, part := range strings.Split(text, " /") {
			switch {
			case k == 0:
				s.Do = part
			case part == "oven":
				s.Cooks, s.Where, s.Uses = true, planner.Heat, []planner.Use{{What: planner.AnOven, C: 180, Amount: 1}}
			case part == "hob":
				s.Cooks, s.Where, s.Uses = true, planner.Heat, []planner.Use{{What: planner.ABurner, Amount: 1}}
			case part == "in the cold":
				s.Where = planner.Refrigerator
			case strings.HasPrefix(part, "uses "):
				s.Uses = append(s.Uses, planner.Use{What: planner.AnAppliance, Name: part[5:], Amount: 1})
			case strings.HasPrefix(part, "until "):
				s.Until = part[6:]
			default:
				s.Time.Likely = minutes(t, part)
			}
		}
		if s.Do == "SERVE" { // the wait before the table
			d.Steps[i-1].Serve = &w
			continue
		}
		if i > 0 {
			s.After = []planner.After{{Step: d.Steps[i-1].Key, Wait: w}}
		}
		d.Steps = append(d.Steps, s)
	}
	return &planner.Party{Covers: 6, Zone: "Europe/London", Dishes: []planner.Dish{d}}
}

func minutes(t *testing.T, text string) planner.Minutes {
	t.Helper()
	if text == "" {
		return 0
	}
	d, err := measure.ParseDuration(text)
	if err != nil {
		t.Fatal(err)
	}
	return planner.Minutes(d.High)
}

func keys(all []Caution) string {
	var out []string
	for _, c := range all {
		out = append(out, c.Key)
	}
	if len(out) == 0 {
		return "none"
	}
	return strings.Join(out, " ")
}

// TestDishes: dishes typed as a cook types them, each with the warnings that must come, no more and no fewer.
func TestDishes(t *testing.T) {
	for _, c := range []struct {
		name, ingredients string
		steps             []string
		want              string
	}{
		// raw fish
		{"Ceviche of bass", "600 g: sea bass fillets, 6: limes, 1: red onion",
			[]string{"Dice the fish", "cold 30 min> Cover with lime juice and chill", "> SERVE"}, "raw-fish"},
		{"Salmon tartare", "500 g: salmon fillet, 1: shallot", []string{"Chop the salmon finely and season", "cold> SERVE"},
			"raw-fish"},
		{"Cured trout", "1 kg: trout fillets, 200 g: salt, 200 g: sugar, 1 bunch: dill",
			[]string{"Rub the trout with salt, sugar and dill", "cold 24h> Slice thinly", "cold> SERVE"}, "raw-fish"},
		{"Sashimi plate", "400 g: tuna", []string{"Slice the tuna", "> SERVE"}, "raw-fish"},
		{"Poke", "500 g: tuna (frozen), 300 g: cucumber", []string{"Dice the tuna and dress it", "cold> SERVE"}, "none"},
		{"Soused herring", "8: herring fillets, 300 ml: vinegar", []string{"Cover the herring with cold vinegar", "cold 12h> SERVE"},
			"raw-fish"},
		{"Smoked salmon blinis", "300 g: smoked salmon, 200 g: crème fraîche", []string{"Top the blinis with salmon", "cold> SERVE"},
			"none"},
		{"Baked cod", "1 kg: cod fillets", []string{"Bake the cod /oven /until it flakes", "> SERVE"}, "none"},
		{"Seared tuna", "800 g: tuna steaks", []string{"Sear the tuna on both sides /hob /until rare in the middle", "> SERVE"},
			"pink-fish"},
		// shellfish
		{"Oysters", "24: oysters", []string{"Open the oysters", "> SERVE"}, "raw-shellfish"},
		{"Scallop crudo", "12: scallops, 2: lemons", []string{"Slice the scallops and dress with lemon", "> SERVE"}, "raw-shellfish"},
		{"Crab salad", "400 g: crab meat, 200 g: mayonnaise", []string{"Mix the crab with mayonnaise", "cold> SERVE"}, "none"},
		{"Raw prawns", "600 g: raw prawns, 4: limes", []string{"Cover the prawns with lime juice", "cold 1h> SERVE"}, "raw-shellfish"},
		{"Seared squid", "1 kg: squid", []string{"Sear the squid /hob", "> SERVE"}, "none"},
		{"Cold platter", "1.5 kg: roast chicken, 500 g: roast pork", []string{"Arrange on a platter", "> SERVE"}, "none"},
		{"Moules", "2 kg: mussels, 300 ml: white wine", []string{"Steam the mussels in the wine /hob /until the shells open", "> SERVE"},
			"none"},
		// meat, by sign and temperature
		{"Cheeseburgers", "1 kg: minced beef, 6: buns", []string{"Shape the patties", "cold> Fry the patties /hob /until pink inside",
			"> SERVE"}, "pink-mince"},
		{"Kofta", "1 kg: lamb mince", []string{"Grill the kofta to 55 °C in the middle", "> SERVE"}, "pink-mince"},
		{"Steak tartare", "600 g: minced beef, 6: egg yolks", []string{"Season the meat and top with the yolks", "> SERVE"},
			"raw-egg pink-mince"},
		{"Carpaccio", "400 g: beef fillet", []string{"Slice the beef very thinly", "> SERVE"}, "raw-meat"},
		{"Meatloaf", "1 kg: minced beef", []string{"Bake the loaf /oven /until 72 °C in the middle", "> SERVE"}, "none"},
		{"Chicken breasts", "6: chicken breasts", []string{"Roast the chicken /oven /until 60 °C in the middle", "> SERVE"},
			"pink-poultry"},
		{"Duck", "4: duck breasts", []string{"Fry the duck /hob /until pink", "> SERVE"}, "pink-poultry"},
		{"Turkey roll", "2 kg: turkey breast", []string{"Cook the turkey to 62 C in the middle /oven", "> SERVE"}, "pink-poultry"},
		{"Pork chops", "6: pork chops", []string{"Fry the chops /hob /until rosy", "> SERVE"}, "pink-pork"},
		{"Leg of lamb", "2.5 kg: leg of lamb", []string{"Roast the lamb /oven /until 54 °C in the middle", "> SERVE"}, "rare-cut"},
		{"Sirloin", "6: sirloin steaks", []string{"Grill the steaks medium rare /hob", "> SERVE"}, "rare-cut"},
		{"Roast chicken", "2 kg: chicken", []string{"Roast the chicken /oven /until the juices run clear", "> SERVE"}, "none"},
		{"Roast pork", "2 kg: pork shoulder", []string{"Roast the pork /oven /until 75 °C in the middle", "> SERVE"}, "none"},
		{"Beef stew", "1.5 kg: stewing beef, 3: onions", []string{"Brown the beef /hob", "Braise with the onions /oven", "hot> SERVE"},
			"none"},
		{"Chicken ahead", "8: chicken thighs", []string{"Brown the chicken /hob", "cold 8h> Roast the chicken /oven", "> SERVE"},
			"part-cooked"},
		// stuffing
		{"Goose", "5 kg: goose, 300 g: breadcrumbs, 3: apples", []string{"Fill the cavity with apples and crumbs",
			"cold 10h> Roast /oven", "> SERVE"}, "stuffed-ahead"},
		{"Rolled pork loin", "2 kg: pork loin, 300 g: sausagemeat", []string{"Spread the stuffing and tie it up",
			"cold 12h> Roast to 75 °C in the middle /oven", "> SERVE"}, "stuffed-ahead"},
		{"Stuffed capon at once", "3 kg: chicken, 300 g: breadcrumbs", []string{"Stuff the chicken", "Roast the chicken /oven", "> SERVE"},
			"none"},
		{"Stuffed peppers", "6: peppers, 200 g: rice", []string{"Stuff the peppers with the rice", "cold 5h> Bake /oven", "> SERVE"},
			"none"},
		// marinade
		{"Teriyaki chicken", "1 kg: chicken thighs, 100 ml: soy sauce", []string{"Marinate the chicken in the soy sauce /in the cold",
			"cold 2h> Grill the chicken /hob", "Pour the rest of the marinade over the chicken", "> SERVE"}, "used-marinade"},
		{"Kebabs", "1 kg: lamb, 200 ml: yoghurt", []string{"Marinate the lamb in yoghurt", "cold 3h> Grill the lamb, basting with the " +
			"marinade /hob", "> SERVE"}, "used-marinade"},
		{"Bulgogi", "1 kg: beef, 100 ml: soy sauce", []string{"Marinate the beef", "cold 2h> Fry the beef /hob",
			"Boil the marinade for 5 minutes and spoon it over", "> SERVE"}, "none"},
		{"Tofu skewers", "600 g: tofu, 100 ml: soy sauce", []string{"Marinate the tofu", "cold 2h> Grill the tofu /hob",
			"Drizzle with the marinade", "> SERVE"}, "none"},
		{"Coq au vin", "2 kg: chicken legs, 1 bottle: red wine", []string{"Marinate the chicken in wine", "cold 12h> Braise the chicken " +
			"in its marinade /hob", "> SERVE"}, "none"},
		{"Jerk pork", "1 kg: pork shoulder, 200 ml: cider vinegar", []string{"Set aside a third of the marinade",
			"Marinate the pork in the rest", "cold 4h> Grill the pork /hob", "Brush with the marinade kept back before", "> SERVE"}, "none"},
		// eggs
		{"Mayonnaise", "3: egg yolks, 300 ml: oil", []string{"Whisk the yolks with the oil drop by drop", "cold> SERVE"}, "raw-egg"},
		{"Tiramisu", "5: eggs, 500 g: mascarpone, 300 g: sponge fingers", []string{"Beat the yolks with the sugar and mascarpone",
			"Layer with the sponge fingers", "cold 8h> SERVE"}, "raw-egg"},
		{"Safe tiramisu", "5: pasteurised eggs, 500 g: mascarpone", []string{"Beat the eggs with the mascarpone", "cold 8h> SERVE"},
			"none"},
		{"Eggs Benedict", "12: eggs, 6: muffins", []string{"Poach the eggs /hob", "> SERVE"}, "soft-egg"},
		{"Ramen eggs", "6: eggs", []string{"Boil the eggs /hob /6 min", "cold 2h> SERVE"}, "soft-egg"},
		{"Egg mayonnaise", "8: eggs, 100 g: mayonnaise", []string{"Boil the eggs /hob /10 min /until the yolks are firm",
			"Chop and mix with mayonnaise", "cold> SERVE"}, "none"},
		{"Sponge", "4: eggs, 200 g: flour, 200 g: sugar, 200 g: butter", []string{"Beat everything", "Bake the cake /oven", "out> SERVE"},
			"none"},
		// beans
		{"Chilli", "400 g: dried kidney beans, 1 kg: beef shin", []string{"Slow-cook everything on low /8 h /hob", "> SERVE"}, "beans"},
		{"Tuscan beans", "500 g: dried cannellini beans", []string{"Soak the beans", "out 8h> Bake the beans in a low oven /oven", "> SERVE"},
			"beans"},
		{"Beans, boiled first", "500 g: dried borlotti beans", []string{"Soak the beans", "cold 10h> Boil hard for 10 minutes /hob",
			"Simmer /hob", "> SERVE"}, "none"},
		{"Chilli from tins", "2 tins: kidney beans, 1 kg: minced beef", []string{"Simmer everything /hob", "> SERVE"}, "none"},
		{"Baked beans", "500 g: beans, 300 g: bacon", []string{"Soak the beans", "cold 8h> Bake with the bacon /oven", "> SERVE"}, "beans"},
		{"Beans on toast", "400 g: beans, 6: slices of bread", []string{"Heat the beans /hob", "> SERVE"}, "none"},
		{"Dal", "400 g: red lentils", []string{"Simmer the lentils /hob", "> SERVE"}, "none"},
		// twice
		{"Ragù", "1 kg: minced beef", []string{"Simmer /hob", "cold 10h> Reheat for tasting /hob", "cold 10h> Reheat /hob", "> SERVE"},
			"reheated-twice"},
		{"Curry", "1 kg: chicken", []string{"Simmer the curry /hob", "cold 10h> Reheat until piping hot /hob", "> SERVE"}, "none"},
		{"Fresh and old", "1 kg: tomatoes", []string{"Simmer the tomatoes /hob", "Mix what is left of yesterday's sauce into the fresh one",
			"> SERVE"}, "mixed-old"},
		{"Salad bar", "1 kg: cooked chicken", []string{"Dress the chicken", "cold 1h> Top up the bowl on the buffet", "> SERVE"}, "mixed-old"},
		{"Broth", "1 kg: beef bones", []string{"Simmer the bones, topping up with water /hob", "> SERVE"}, "none"},
		// plants, flour, oil, rice
		{"Pad thai salad", "300 g: bean sprouts, 200 g: carrots", []string{"Toss the sprouts and carrots", "> SERVE"}, "raw-sprouts"},
		{"Stir-fry", "300 g: bean sprouts", []string{"Stir-fry the sprouts /hob", "> SERVE"}, "none"},
		{"Raw cookie dough", "300 g: flour, 200 g: butter, 200 g: sugar", []string{"Mix flour, butter and sugar and roll into balls",
			"cold 1h> SERVE"}, "raw-flour"},
		{"Shortbread", "300 g: flour, 200 g: butter", []string{"Rub the butter into the flour", "cold 1h> Bake /oven", "out> SERVE"}, "none"},
		{"Garlic oil", "500 ml: olive oil, garlic", []string{"Put the garlic into the oil", "cold 3 days> SERVE"}, "garlic-oil"},
		{"Rice for later", "500 g: rice", []string{"Boil the rice /hob", "Keep it warm in the rice cooker", "> SERVE"}, "warm-rice"},
		{"Rice", "500 g: rice", []string{"Boil the rice /hob", "> SERVE"}, "none"},
		{"Elderberry sauce", "500 g: elderberries, 100 g: sugar", []string{"Crush the elderberries with the sugar", "> SERVE"},
			"elderberries"},
		{"Elderberry jelly", "500 g: elderberries, 500 g: sugar", []string{"Boil the elderberries with the sugar /hob", "out> SERVE"}, "none"},
		{"Bitter biscuits", "300 g: almonds, 30 g: bitter almonds", []string{"Bake the biscuits /oven", "out> SERVE"}, "bitter-kernels"},
		// the kitchen
		{"Soup", "1 kg: carrots, 2 l: stock", []string{"Simmer the carrots in the stock /hob", "Purée in the blender /uses blender",
			"> SERVE"}, "hot-blender"},
		{"Soup by hand blender", "1 kg: carrots, 2 l: stock", []string{"Simmer the carrots in the stock /hob",
			"Purée with a hand blender", "> SERVE"}, "none"},
		{"Crêpes", "6: pancakes, 50 ml: brandy", []string{"Warm the pancakes /hob", "Flambé with the brandy", "> SERVE"}, "flambe"},
		{"Chips", "1.5 kg: potatoes, 2 l: oil", []string{"Deep-fry the chips /hob", "> SERVE"}, "deep-fry"},
		{"Pulled pork", "2 kg: pork shoulder (frozen)", []string{"Slow-cook on low /9 h /hob", "> SERVE"}, "slow-frozen"},
		{"Washed bird", "2 kg: chicken", []string{"Rinse the chicken under the tap", "Roast the chicken /oven", "> SERVE"}, "washed-poultry"},
	} {
		if got := keys(Of(typed(t, c.name, c.ingredients, c.steps...), true)); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// TestRepertoireIsQuiet: what is on the shelf is ordinary cooking; no warning is said in more than one in ten of it.
func TestRepertoireIsQuiet(t *testing.T) {
	cards := repertoire.List()
	times := map[string][]string{}
	for i := range cards {
		d := cards[i].Dish()
		for _, c := range Of(&planner.Party{Covers: 8, Dishes: []planner.Dish{d}}, true) {
			times[c.Key] = append(times[c.Key], cards[i].Name)
		}
	}
	for key, names := range times {
		t.Logf("%s: %s", key, strings.Join(names, ", "))
		if len(names)*10 > len(cards) {
			t.Errorf("%s is said in %d of %d dishes", key, len(names), len(cards))
		}
	}
}

var figure = regexp.MustCompile(`\d+(?:\.\d+)? (?:°C|h|min|d(?:ays?)?)\b`)

// TestFigures: no figure with a unit stands in a sentence that is not of a row of the published limits, but for those
// that the row's source has and the limits' table has not.
func TestFigures(t *testing.T) {
	ours := []string{"15 min", "12 min", "5 h"} // fiddleheads (Health Canada); soaking, in the note of beans-boil
	var allowed []string
	for _, id := range []string{"cook-stuffing", "reheat-us", "raw-egg", "beans-boil", "freeze-parasites", "cook-ground",
		"cook-uk-core", "cook-poultry", "cook-pork", "rest-red-meat", "cook-red-meat", "cook-fish", "hot-hold-uk", "rice-cool"} {
		l := safety.Row(id)
		from := l
		from.Minutes = l.From
		allowed = append(allowed, figure.FindAllString(l.Figure()+" "+from.Figure(), -1)...)
	}
	for _, r := range data().rows {
		for _, text := range []string{r.says, r.short} {
			for _, f := range figure.FindAllString(text, -1) {
				if !slices.Contains(allowed, f) && !slices.Contains(ours, f) {
					t.Errorf("%s: %s is of no row", r.key, f)
				}
			}
			if strings.ContainsAny(text, "{}\t") || strings.Contains(text, "  ") {
				t.Errorf("%s: %q", r.key, text)
			}
		}
		if !strings.Contains(r.source, " ") {
			t.Errorf("%s: no source", r.key)
		}
	}
}

// TestNews: a warning comes once, goes quiet for who knows it, and never while a guest at risk is at the table.
func TestNews(t *testing.T) {
	p := typed(t, "Oysters", "24: oysters", "Open the oysters", "> SERVE")
	before := *p
	before.Dishes = []planner.Dish{p.Dishes[0]}
	before.Dishes[0].Steps = nil
	if got := keys(News(&before, p)); got != "raw-shellfish" {
		t.Errorf("when it comes: %s", got)
	}
	if got := keys(News(p, p)); got != "none" {
		t.Errorf("said again: %s", got)
	}
	known := p.Clone()
	known.Dishes[0].Known = []string{"raw-shellfish"}
	if got := keys(Said(known, true, func(*planner.Dish) bool { return true })); got != "none" {
		t.Errorf("known: %s", got)
	}
	known.Guests = []planner.Guest{{Name: "Mina", Diets: []string{"pregnant"}}}
	if got := keys(News(p, known)); got != "raw-shellfish" {
		t.Errorf("a guest at risk has come: %s", got)
	}
	if got := keys(Said(known, true, func(*planner.Dish) bool { return true })); got != "raw-shellfish" {
		t.Errorf("known, with a guest at risk: %s", got)
	}
}
