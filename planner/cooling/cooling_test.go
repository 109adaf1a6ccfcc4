package cooling

import (
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/safety"
)

// ahead is a dish of one cooking step whose food waits in the refrigerator, for as many covers as it serves.
func ahead(name, do string, ml int, ingredients ...string) (*planner.Party, *planner.Dish) {
	d := planner.Dish{Key: "dish", Name: name, Serves: 8, Steps: []planner.Step{
		{Key: "cook", Do: do, Where: planner.Heat, Cooks: true, Attention: planner.Watch, Time: planner.Span{Likely: 60},
			Leaves: planner.Food{Perishable: true, Kind: safety.Cooked, Millilitres: ml},
			Serve:  &planner.Wait{State: planner.Refrigerator, Least: 720}}}}
	for _, in := range ingredients {
		amount, what, _ := strings.Cut(in, ":")
		d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: what, Amount: amount})
	}
	p := &planner.Party{Covers: 8, Kitchen: planner.HomeKitchen(), Dishes: []planner.Dish{d}}
	return p, &p.Dishes[0]
}

// TestWays: each food goes cold in the way that suits it, and no word of the step keeps it from that.
func TestWays(t *testing.T) {
	for _, c := range []struct {
		name, do string
		ml       int
		in       []string
		want     planner.CoolHow
		task     bool
		say      string
	}{
		{"Chilli", "Simmer it", 4000, nil, planner.CoolTrays, true, "3 shallow trays, 1.5 cm deep"},
		{"Chilli", "Simmer it", 1500, nil, planner.CoolTrays, false, "as part of the step"},
		{"Chilli", "Simmer it and cool it in ice water, stirring", 4000, nil, planner.CoolTrays, true, "shallow trays"},
		{"Chilli", "Simmer it; leave to cool completely", 4000, nil, planner.CoolTrays, true, "shallow trays"},
		{"Chicken stock", "Simmer the stock", 12000, []string{"2 kg:chicken carcasses"}, planner.CoolTrays, true, "trays"},
		{"Cold turkey", "Roast the bird", 0, []string{"5 kg:turkey"}, planner.CoolSliced, true,
			"Take the turkey apart and carve it off the bone"},
		{"Duck in jelly", "Roast it on slices of orange", 0, []string{"2:duck", "4:oranges"}, planner.CoolSliced, true,
			"Take the duck apart"},
		{"Cold chicken", "Roast the bird and carve it", 0, []string{"1.6 kg:chicken"}, planner.CoolFlat, false, "one layer"},
		{"Cold chicken", "Slice the onions and roast the bird", 0, []string{"1.6 kg:chicken", "2:onions"},
			planner.CoolSliced, true, "apart"},
		{"Chicken thighs", "Roast them", 0, []string{"2 kg:chicken thighs"}, planner.CoolFlat, true, "one layer"},
		{"Quails", "Roast them", 0, []string{"1 kg:quails"}, planner.CoolFlat, false, "one layer"},
		{"Salt brisket", "Simmer the joint", 0, []string{"4 kg:beef brisket"}, planner.CoolSliced, true,
			"Slice the beef brisket"},
		{"Salt brisket", "Simmer the joint", 0, []string{"1.5 kg:beef brisket"}, planner.CoolSliced, false, "Slice"},
		{"Pork for Sunday B", "Simmer the chilli", 4000, nil, planner.CoolTrays, true, "Put Pork for Sunday B into"},
		{"Goulash", "Simmer the goulash", 4000, []string{"2 kg:stewing beef"}, planner.CoolTrays, true, "trays"},
		{"Bean stew", "Simmer the stew", 4000, []string{"1.8 kg:pork shoulder", "2 kg:tomatoes", "600 g:dried beans"},
			planner.CoolTrays, true, "trays"},
		{"Rice salad", "Boil the rice", 0, []string{"900 g:rice"}, planner.CoolTrays, true, "about 2.7 l"},
		{"Pilaf", "Cook the rice", 0, []string{"500 g:rice", "1 l:water"}, planner.CoolTrays, false, "about 1.5 l"},
		{"Pot roast", "Braise it", 4000, []string{"3 kg:beef", "600 g:carrots"}, planner.CoolSliced, true, "Slice the beef"},
		{"Chicken soup", "Simmer it", 4000, []string{"1.6 kg:chicken", "2 kg:carrots"}, planner.CoolSliced, true, "apart"},
		{"Goulash", "Cut up the beef and simmer it", 4000, []string{"2.5 kg:beef"}, planner.CoolTrays, true, "trays"},
		{"Cold salmon", "Bake the fillets", 0, []string{"1.8 kg:salmon fillets"}, planner.CoolFlat, true, "one layer"},
		{"Posset", "Boil the cream and pour it into glasses", 3000, nil, planner.CoolAsItIs, false, "as it is"},
	} {
		p, d := ahead(c.name, c.do, c.ml, c.in...)
		all := Of(p, d)
		if len(all) != 1 {
			t.Errorf("%s, %q: %d foods go cold", c.name, c.do, len(all))
			continue
		}
		g := all[0]
		if g.Way.How != c.want || g.Task != c.task || !strings.Contains(g.Say(), c.say) {
			t.Errorf("%s, %q: %s, task %v: %s", c.name, c.do, g.Way.How, g.Task, g.Say())
		}
		if strings.Contains(g.Say(), "is safe") {
			t.Errorf("a promise: %s", g.Say())
		}
	}
}

// TestNotHot: what is not hot, does not go cold, or is brought is not spoken of.
func TestNotHot(t *testing.T) {
	for what, change := range map[string]func(*planner.Dish){
		"served hot":     func(d *planner.Dish) { d.Steps[0].Serve.State = planner.HotHold },
		"at the counter": func(d *planner.Dish) { d.Steps[0].Serve.State = planner.Counter },
		"brought":        func(d *planner.Dish) { d.BroughtBy = "Otto" },
		"never cooked":   func(d *planner.Dish) { d.Steps[0].Cooks, d.Steps[0].Where = false, planner.Counter },
		"part-cooked":    func(d *planner.Dish) { d.Steps[0].Leaves.PartCooked = true },
		"not perishable": func(d *planner.Dish) {
			d.Name, d.Steps[0].Leaves = "Sugar syrup", planner.Food{Millilitres: 4000}
		},
		"served as a ice": func(d *planner.Dish) { d.Name = "Lemon sorbet" },
	} {
		p, d := ahead("Chilli", "Simmer it", 4000)
		change(d)
		if all := Of(p, d); len(all) != 0 {
			t.Errorf("%s: %s", what, all[0].Say())
		}
	}
}

// TestStaysHot: after half an hour on the counter little food is no longer hot, a pot is for hours.
func TestStaysHot(t *testing.T) {
	for _, c := range []struct {
		ml     int
		rest   planner.Minutes
		vessel string
		want   bool
	}{{12000, 180, "large pot", true}, {1500, 20, "large pot", true}, {1500, 45, "large pot", false},
		{2500, 45, "baking tray", false}} {
		p, d := ahead("Chilli", "Simmer it", c.ml)
		d.Steps[0].Uses = []planner.Use{{What: planner.AVessel, Name: c.vessel}}
		d.Steps = append(d.Steps, planner.Step{Key: "leave", Do: "Leave it", Where: planner.Counter,
			Time: planner.Span{Likely: c.rest}, Leaves: d.Steps[0].Leaves, Serve: d.Steps[0].Serve,
			After: []planner.After{{Step: "cook", Wait: planner.Wait{State: planner.Counter}}}})
		d.Steps[0].Serve = nil
		if got := len(Of(p, d)) == 1; got != c.want {
			t.Errorf("%+v: hot %v", c, got)
		}
	}
}

// TestRefused: each published limit is kept to the centimetre and to 100 g, and broken by one more. Southern Nevada
// Health District: 2 inches of thick food, 4 of thin, meat of 4 inches and 4 pounds; USDA FSIS on whole birds.
func TestRefused(t *testing.T) {
	pot := Food{Name: "the soup", Millilitres: 4000, body: thick}
	meat := Food{Name: "the brisket", Millilitres: 4000, Grams: 4000, body: joint}
	fowl := Food{Name: "the turkey", Millilitres: 5000, Grams: 5000, body: bird}
	cool := func(how planner.CoolHow, c safety.Consistency, cm float64, grams int) *planner.Cooling {
		return &planner.Cooling{How: how, Place: safety.PlaceRefrigerator, MadeOf: safety.Metal, Consistency: c, DepthCM: cm,
			Grams: grams}
	}
	for _, c := range []struct {
		what string
		f    *Food
		c    *planner.Cooling
		want string
	}{
		{"thick, 5 cm", &pot, cool(planner.CoolTrays, safety.Thick, 5, 0), ""},
		{"thick, 6 cm", &pot, cool(planner.CoolTrays, safety.Thick, 6, 0), "at most 5 cm deep (Southern Nevada"},
		{"thin, 10 cm", &pot, cool(planner.CoolTrays, safety.Thin, 10, 0), ""},
		{"thin, 11 cm", &pot, cool(planner.CoolTrays, safety.Thin, 11, 0), "at most 10 cm deep (Southern Nevada"},
		{"portions, thick, 6 cm", &pot, cool(planner.CoolPortions, safety.Thick, 6, 0), "at most 5 cm"},
		{"as it is, thick, 6 cm", &pot, cool(planner.CoolAsItIs, safety.Thick, 6, 0), "at most 5 cm"},
		{"1800 g", &meat, cool(planner.CoolPieces, safety.Thick, 0, 1800), ""},
		{"1900 g", &meat, cool(planner.CoolPieces, safety.Thick, 0, 1900), "at most 1.8 kg (Southern Nevada"},
		{"10 cm", &meat, cool(planner.CoolPieces, safety.Thick, 10, 1500), ""},
		{"11 cm", &meat, cool(planner.CoolPieces, safety.Thick, 11, 1500), "at most 10 cm thick (Southern Nevada"},
		{"unknown weight", &meat, cool(planner.CoolPieces, safety.Thick, 8, 0), "weighs"},
		{"whole joint", &meat, cool(planner.CoolAsItIs, safety.Thick, 5, 0), "this is 4 kg"},
		{"sliced joint", &meat, cool(planner.CoolSliced, safety.Thick, 2, 0), ""},
		{"whole bird", &fowl, cool(planner.CoolAsItIs, safety.Thick, 5, 0), "A whole bird is taken apart"},
		{"carved bird", &fowl, cool(planner.CoolSliced, safety.Thick, 2, 0), ""},
	} {
		got := Refused(c.f, c.c)
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
	small := meat
	small.Grams = 1800
	if got := Refused(&small, cool(planner.CoolAsItIs, safety.Thick, 5, 0)); got != "" {
		t.Errorf("a joint of 1800 g: %s", got)
	}
	ice := cool(planner.CoolBath, safety.Thick, 2.5, 0)
	ice.Place = safety.PlaceStirredIce
	if got := Refused(&pot, ice); got != "" {
		t.Errorf("4 l in ice water: %s", got)
	}
	ice.Place = safety.PlaceTapWater
	if got := Refused(&pot, ice); !strings.Contains(got, "divide it") {
		t.Errorf("4 l of stew in a sink of cold water for hours: %q", got)
	}
}

// TestBestIsBest: no way that is offered beats the one that is chosen, and what is chosen keeps what is published.
func TestBestIsBest(t *testing.T) {
	for _, b := range []body{thick, thin, joint, bird, fillets, pieces, inDish} {
		for _, ml := range []int{500, 2000, 6000, 9000, 15000, 60000} {
			f := Food{Name: "it", Millilitres: ml, Grams: ml, body: b}
			best := Best(&planner.Party{}, &f, nil)
			for _, w := range ways(&f) {
				if w.Within && !best.Within || best.Within == w.Within && !w.Within && w.Whole < best.Whole {
					t.Errorf("%s, %d ml: %+v is better than %+v", b, ml, w, best)
				}
			}
			if text := Refused(&f, &planner.Cooling{How: best.How, Place: best.Place, MadeOf: best.MadeOf,
				Consistency: f.consistency(), DepthCM: best.DepthCM}); text != "" {
				t.Errorf("%s, %d ml: %+v is refused: %s", b, ml, best, text)
			}
			if best.StageOne == 0 || best.Whole < best.StageOne {
				t.Errorf("%s, %d ml: %+v has no estimate", b, ml, best)
			}
		}
	}
}

// TestPublished: each rule is said with its own figure and source, and businesses' as theirs.
func TestPublished(t *testing.T) {
	p, d := ahead("Cold turkey", "Roast the bird", 0, "5 kg:turkey")
	got := strings.Join(Published(p, Of(p, d)), "\n")
	for _, want := range []string{"within 2 h of leaving the heat (USDA FSIS",
		"pieces of 1.8 kg and 10 cm (Southern Nevada",
		"(USDA FSIS, Turkey Basics", "For businesses: 57 to 21 °C in 2 h and to 5 °C in 6 h in all (FDA Food Code",
		"60 to 21 °C in 2 h and to 5 °C in 4 h more (FSANZ Standard 3.2.2"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not said:\n%s", want, got)
		}
	}
	p.RoomTemperatureC = 33
	if got := Published(p, Of(p, d))[0]; !strings.Contains(got, "within 1 h") {
		t.Errorf("above 32 °C: %s", got)
	}
	p, d = ahead("Rice", "Boil the rice", 3000, "1 kg:rice")
	d.Steps[0].Leaves.Kind = safety.Rice
	if got := Published(p, Of(p, d))[0]; !strings.Contains(got,
		"Cooked rice within 1 h (Food Standards Agency, Home food fact checker: rice)") {
		t.Errorf("rice: %s", got)
	}
}

// TestPulledAhead: meat that a later step pulls is pulled apart before it goes cold, and what a step's words say that
// it makes goes cold under that name.
func TestPulledAhead(t *testing.T) {
	chilled := planner.Wait{State: planner.Refrigerator, Longest: 1440}
	d := planner.Dish{Key: "d", Name: "Pork B", Course: "main", Serves: 8,
		Ingredients: []planner.Ingredient{{Name: "pork shoulder", Amount: "3 kg"}},
		Steps: []planner.Step{
			{Key: "roast", Do: "Roast it until it falls apart", Cooks: true, Where: planner.Heat,
				Time: planner.Span{Likely: 300}},
			{Key: "pull", Do: "Shred the meat", Time: planner.Span{Likely: 20},
				After: []planner.After{{Step: "roast", Wait: chilled}}},
		}}
	p := &planner.Party{Covers: 8, Kitchen: planner.HomeKitchen(), Dishes: []planner.Dish{d}}
	all := Of(p, &p.Dishes[0])
	if len(all) != 1 || !strings.HasPrefix(all[0].Do(), "Pull the pork shoulder apart before it goes cold") {
		t.Errorf("%v", all)
	}
	d = planner.Dish{Key: "d", Name: "Trifle B", Course: "dessert", Serves: 8, Steps: []planner.Step{
		{Key: "cook", Do: "Cook it to a custard", Cooks: true, Where: planner.Heat, Time: planner.Span{Likely: 20},
			Leaves: planner.Food{Perishable: true, Kind: safety.Custard, Millilitres: 3000}},
		{Key: "layer", Do: "Layer it", Time: planner.Span{Likely: 10}, After: []planner.After{{Step: "cook", Wait: chilled}}},
	}}
	p.Dishes[0] = d
	if all = Of(p, &p.Dishes[0]); len(all) != 1 || !strings.HasPrefix(all[0].Do(), "Put the custard into") {
		t.Errorf("%v", all)
	}
}
