package method_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tureen/planner/method"
)

// read reads a method of sentences that stand after each other; ingredients are parted by commas.
func read(ingredients, text string) []method.Act {
	var list []method.Ingredient
	for _, g := range strings.Split(ingredients, ", ") {
		list = append(list, method.Ingredient{Name: g})
	}
	var said []method.Sentence
	for _, s := range strings.SplitAfter(text, ". ") {
		said = append(said, method.Sentence{Text: strings.TrimSpace(s)})
	}
	return method.Read(list, said)
}

// shown are the acts with what each comes after, by its number and verb.
func shown(acts []method.Act) string {
	var out []string
	for i, a := range acts {
		var after []string
		for _, p := range a.After {
			after = append(after, fmt.Sprint(p))
		}
		out = append(out, fmt.Sprintf("%d %s<%s", i, a.Verb, strings.Join(after, ",")))
	}
	return strings.Join(out, " ")
}

// TestPartsWithoutHeadings: the parts of the list of ingredients tell where a method without headings begins another,
// and what "everything else" is.
func TestPartsWithoutHeadings(t *testing.T) {
	list := []method.Ingredient{
		{Name: "lamb shoulder", Section: "For the lamb"}, {Name: "garlic", Section: "For the lamb"},
		{Name: "carrots", Section: "For the carrots"}, {Name: "honey", Section: "For the carrots"},
		{Name: "leeks", Section: "For the leeks"}, {Name: "butter", Section: "For the leeks"},
		{Name: "thyme", Section: "For the leeks"}}
	var said []method.Sentence
	for _, s := range []string{"Rub the lamb with the garlic.", "Roast for 3 hours.",
		"Melt the butter, add everything else and cook gently.",
		"Toss the carrots with the honey and roast for 40 minutes.", "Take the lamb out and rest it."} {
		said = append(said, method.Sentence{Text: s})
	}
	want := "0 rub< 1 roast<0 2 melt< 3 add<2 4 cook<3 5 toss< 6 roast<5 7 take<1 8 rest<4,6,7"
	if got := shown(method.Read(list, said)); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

// TestGraph: what must come before what, in methods of our own, a rule each; by hand.
func TestGraph(t *testing.T) {
	for _, c := range []struct{ why, list, text, want string }{
		{"it goes on with what is in hand", "onions, oil", "Fry the onions in the oil. Season and serve.",
			"0 fry< 1 season<0 2 serve<1"},
		{"what is new in a bowl of its own begins", "onions, eggs, cream",
			"Fry the onions. In a bowl, beat the eggs with the cream. Stir in the onions.", "0 fry< 1 beat< 2 stir<0,1"},
		{"meanwhile begins", "beef, rice", "Brown the beef. Meanwhile, boil the rice. Serve the beef with the rice.",
			"0 brown< 1 boil< 2 serve<0,1"},
		{"what is set aside comes back", "lamb, leeks, stock",
			"Brown the lamb in a pan and set aside. Soften the leeks in the pan. Return the lamb with the stock.",
			"0 brown< 1 set<0 2 soften<1 3 return<1,2"},
		{"the oven waits for the first thing in it", "flour, eggs",
			"Preheat the oven. Whisk the eggs with the flour. Bake for 20 minutes.", "0 preheat< 1 whisk< 2 bake<0,1"},
		{"the tin waits for what goes into it", "butter, flour, eggs",
			"Grease a loaf tin. Whisk the eggs with the flour. Scrape into the tin.", "0 grease< 1 whisk< 2 scrape<0,1"},
		{"a participle was done before", "parsley, soup", "Heat the soup. Stir in the chopped parsley.",
			"0 heat< 1 chop< 2 stir<0,1"},
		{"the dry and the wet", "flour, salt, eggs, milk",
			"Mix the flour and salt in a bowl. In another bowl, whisk the eggs and milk. Pour the wet into the dry.",
			"0 mix< 1 whisk< 2 pour<0,1"},
		{"what is done beside it", "chicken, garlic",
			"Roast the chicken with the garlic. Let it rest while you squash the garlic. Carve.",
			"0 roast< 1 let<0 2 squash<0 3 carve<1,2"},
		{"a section's name is what it makes", "butter, flour, apples, sugar",
			"For the pastry, rub the butter into the flour. Stew the apples with the sugar. Roll out the pastry.",
			"0 rub< 1 stew< 2 roll<0,1"},
		{"food goes into the sauce in hand", "beef, milk, flour, butter",
			"Simmer the beef in water. Melt the butter with the flour. Whisk in the milk and simmer. " +
				"Put the beef into the sauce.",
			"0 simmer< 1 melt< 2 whisk<1 3 simmer<2 4 put<0,3"},
		{"until just set is no act", "eggs", "Bake the eggs until just set. Do not stir.", "0 bake< 1 <0"},
		{"notes of a cook in a hurry", "beans, stock", "Boil the stock. Beans in for 4 minutes.", "0 boil< 1 add<0"},
	} {
		if got := shown(read(c.list, c.text)); got != c.want {
			t.Errorf("%s: %s\n got %s\nwant %s", c.why, c.text, got, c.want)
		}
	}
}

// TestTakes: which act takes in which ingredient, by its words, its sort, its part, or what the verb asks for.
func TestTakes(t *testing.T) {
	list := []method.Ingredient{{Name: "chicken thighs"}, {Name: "chicken stock"}, {Name: "carrots"}, {Name: "parsnips"},
		{Name: "cumin"}, {Name: "turmeric"}, {Name: "salt and pepper"}, {Name: "cheddar"},
		{Name: "parsley", Note: "to serve"},
		{Name: "plain flour", Section: "batter"}, {Name: "eggs", Section: "batter"}}
	acts := method.Read(list, []method.Sentence{{Text: "Brown the chicken."}, {Text: "Add the vegetables and the spices."},
		{Text: "Pour in the stock and season."}, {Text: "Mix the batter and stir it in."}, {Text: "Scatter over the cheese."},
		{Text: "Serve."}})
	want := map[string][]int{"brown": {0}, "add": {2, 3, 4, 5}, "pour": {1}, "season": {6}, "mix": {9, 10}, "scatter": {7},
		"serve": {8}}
	for _, a := range acts {
		slices.Sort(a.Takes)
		if !slices.Equal(a.Takes, want[a.Verb]) {
			t.Errorf("%s takes in %v, want %v", a.Verb, a.Takes, want[a.Verb])
		}
	}
}

// TestSectionsChangePlaces: parts of a dish that need nothing of each other may be told in any order; what comes after
// what stays the same.
func TestSectionsChangePlaces(t *testing.T) {
	parts := []method.Sentence{
		{Text: "Rub the butter into the flour. Chill it.", Section: "pastry"},
		{Text: "Stew the plums with the sugar, and leave them to cool.", Section: "filling"},
		{Text: "Whisk the yolks with the cream, and heat it gently.", Section: "custard"},
	}
	list := []method.Ingredient{{Name: "butter"}, {Name: "flour"}, {Name: "plums"}, {Name: "sugar"}, {Name: "yolks"},
		{Name: "cream"}}
	orders := func(of []method.Sentence) map[string]bool {
		acts := method.Read(list, append(slices.Clone(of), method.Sentence{Text: "Line a tin with the pastry, spoon in the " +
			"filling and pour over the custard."}))
		out := map[string]bool{}
		for _, a := range acts {
			for _, p := range a.After {
				out[acts[p].Verb+" before "+a.Verb] = true
			}
		}
		return out
	}
	want := orders(parts)
	for _, swap := range [][]int{{1, 0, 2}, {2, 1, 0}, {0, 2, 1}, {2, 0, 1}, {1, 2, 0}} {
		var of []method.Sentence
		for _, i := range swap {
			of = append(of, parts[i])
		}
		got := orders(of)
		for o := range want {
			if strings.Contains(o, "line") || strings.Contains(o, "spoon") || strings.Contains(o, "pour") {
				continue // they take up what was told last first
			}
			if !got[o] {
				t.Errorf("%v: %s is lost: %v", swap, o, got)
			}
		}
		for _, apart := range [][2]string{{"rub", "stew"}, {"stew", "whisk"}, {"rub", "whisk"}, {"chill", "stew"}} {
			if got[apart[0]+" before "+apart[1]] || got[apart[1]+" before "+apart[0]] {
				t.Errorf("%v: %v wait for each other", swap, apart)
			}
		}
	}
}

// TestWhateverIsSaid: acts stand in their sentences, each after acts before it only, and takes in what there is.
func TestWhateverIsSaid(t *testing.T) {
	pieces := strings.Fields("Chop fry the onions , and until ; in a bowl . meanwhile Add remaining chopped 5 minutes " +
		"while you set aside to make ( oven ) preheat it them dry ingredients for sauce: tin butter é ½ stirring " +
		"before serving")
	rapid.Check(t, func(rt *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 40).Draw(rt, "words"), " ")
		list := []method.Ingredient{{Name: "onions"}, {Name: "butter"}}
		said := []method.Sentence{{Text: text}, {Text: text, Section: "sauce"}}
		for i, a := range method.Read(list, said) {
			if a.From < 0 || a.From > a.To || a.To > len(said[a.Sentence].Text) || a.At < 0 || a.At > a.End ||
				a.End > len(said[a.Sentence].Text) {
				rt.Fatalf("%q: %+v", text, a)
			}
			for _, p := range a.After {
				if p < 0 || p >= i {
					rt.Fatalf("%q: act %d comes after %d", text, i, p)
				}
			}
		}
	})
}

// TestVerb: a verb is found in its forms, and the sense for a food is that food's.
func TestVerb(t *testing.T) {
	for word, want := range map[string]string{"fry": "fry", "fries": "", "fried": "fry", "frying": "fry",
		"halving": "halve",
		"beaten":  "beat", "sauteed": "saute", "table": ""} {
		got := ""
		if row := method.Verb(word); row != nil {
			got = row.Name
		}
		if got != want {
			t.Errorf("%s is %q, want %q", word, got, want)
		}
	}
}
