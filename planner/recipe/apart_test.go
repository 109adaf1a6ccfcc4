package recipe

import "testing"

// TestApart: a method that stands in an ingredient's line is told from one; a remark on the ingredient is none.
func TestApart(t *testing.T) {
	for line, want := range map[string]string{
		"2 kg pork loin. Cook sous vide 12 h at 58":                "2 kg pork loin",
		"6 salmon fillets, bake at 200 °C for 15 minutes":          "6 salmon fillets",
		"1 celeriac. Slow roast for 3 hours. Rest and slice":       "1 celeriac",
		"500 g beans; boil for 10 minutes, then simmer":            "500 g beans",
		"4 eggs, boiled for 6 minutes":                             "",
		"1 oz. butter":                                             "",
		"2 tbsp. ground cumin, toasted":                            "",
		"200 g chocolate (70 %), chopped":                          "",
		"1 chicken, jointed":                                       "",
		"1 lb. Roast beef, sliced":                                 "",
		"2 onions, thinly sliced and cooked for 20 minutes before": "",
	} {
		if buy, _, ok := Apart(line); ok != (want != "") || ok && buy != want {
			t.Errorf("%q: %q, want %q", line, buy, want)
		}
	}
}

// TestOneIngredient: a recipe of one ingredient in one line is read, and named by it where it has no name.
func TestOneIngredient(t *testing.T) {
	for text, title := range map[string]string{
		"2 kg pork loin. Cook sous vide 12 h at 58.":                                 "Pork loin",
		"Loin: 2 kg pork loin. Cook sous vide 12 h at 58.":                           "Loin",
		"Pulled pork for 6. 2.5 kg pork shoulder. Slow roast at 120 °C for 8 hours.": "Pulled pork",
		"Baked swede. 3 swedes. Bake at 200 C for 1 hour. Rest for 10 minutes.":      "Baked swede",
		"Take 1 chicken. Roast at 200 °C for 90 minutes.":                            "Chicken",
	} {
		r, err := Read(text)
		if err != nil || r.Title != title || len(r.Ingredients) != 1 || len(r.Steps) == 0 {
			t.Errorf("%q: %v, %+v", text, err, r)
		}
	}
}
