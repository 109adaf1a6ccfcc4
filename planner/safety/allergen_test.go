package safety

import (
	"slices"
	"strings"
	"testing"

	"tureen/planner/food"
)

func allergensOf(name string) (sure, may []Allergen) {
	for _, f := range Allergens(name) {
		if f.Certainty == Contains {
			sure = append(sure, f.Allergen)
		} else {
			may = append(may, f.Allergen)
		}
	}
	return sure, may
}

// TestFalseFriends: names that hold an allergen's word and not the allergen:
// common practice, no source.
func TestFalseFriends(t *testing.T) {
	for _, name := range []string{
		"coconut milk", "coconut cream", "rice milk", "cocoa butter", "cream of tartar", "butter beans", "Butter lettuce",
		"butternut squash", "nutmeg", "eggplant", "egg plant", "buckwheat", "buckwheat flour", "rice flour", "corn tortillas",
		"oyster mushrooms", "King oyster mushroom", "water chestnuts", "chestnut mushrooms", "coconut", "crab apples",
		"ginger beer",
		"kidney beans", "beef tomatoes", "honeydew melon", "doughy", "glass noodles", "rice noodles", "spaghetti squash",
		"lychee nuts", "tiger nuts", "aubergine caviar", "milk thistle", "gooseberries", "cauliflower rice", "rice vinegar",
		"tortilla chips", "rice crackers", "pasta sauce", "spirit vinegar", "chickpea pasta", "rice bran oil",
		"strawberries", "", "🥜", "雞蛋", "olive oil", "water", "sea salt", "potatoes",
	} {
		if sure, may := allergensOf(name); len(sure)+len(may) > 0 {
			t.Errorf("%q: got %v, want nothing", name, Allergens(name))
		}
	}
}

func TestAllergens(t *testing.T) {
	for _, c := range []struct {
		name string
		sure string // space separated, in the order of the EU's list
		may  string
	}{
		{"unsalted butter, melted", "milk", ""},
		{"crème fraîche", "milk", ""},
		{"2 large eggs", "egg", ""},
		{"Peanut butter", "peanut", ""},
		{"almond milk", "nuts", ""},
		{"coconut milk or cream", "milk", ""},
		// A comma is no compound: the butter is butter.
		{"almond, butter", "milk nuts", ""},
		{"butter/margarine", "milk", "soy"},
		{"plain flour", "gluten wheat", ""},
		{"rolled oats", "gluten", ""},
		{"pearl barley", "gluten", ""},
		{"tamari", "soy", ""},
		{"fresh pasta", "gluten wheat egg", ""},
		{"oyster sauce", "molluscs", ""},
		{"pine nuts", "nuts", ""},
		{"celeriac", "celery", ""},
		{"tahini", "sesame", ""},
		{"lupin flour", "lupin", ""},
		{"anchovies", "fish", ""},
		{"white wine", "", "sulphites"},
		{"white wine vinegar", "", "sulphites"},
		{"duck eggs", "egg", ""},
		{"goat's cheese", "milk", ""},
		// Labelled so: free as far as the words tell.
		{"gluten-free pasta with egg", "egg", ""},
		{"dairy-free yoghurt", "", ""},
		{"lactose-free milk", "milk", ""},
		{"vegan butter", "", "soy"},
		{"vegan butter or butter", "milk", "soy"},
		// No way to be free of something.
		{"eggs free range", "egg", ""},
		{"free-range eggs", "egg", ""},
		{"fat-free milk", "milk", ""},
		{"butter, not vegan", "milk", ""},
		{"butter not vegan", "milk", ""},
		{"banana bread", "gluten wheat", ""},
		{"oat flour", "gluten", ""},
		{"malt whisky", "", ""},
		{"eggless pasta", "gluten wheat", ""},
	} {
		sure, may := allergensOf(c.name)
		text := func(as []Allergen) string {
			var s []string
			for _, a := range as {
				s = append(s, string(a))
			}
			return strings.Join(s, " ")
		}
		// A doubt more is no fault of a test on what is sure; doubts are checked where given.
		if text(sure) != c.sure || c.may == "sulphites" && text(may) != c.may {
			t.Errorf("%q: got %q, perhaps %q; want %q, perhaps %q", c.name, text(sure), text(may), c.sure, c.may)
		}
	}
}

// TestReferenceWords: every word of the reference table is found with its EU
// allergen, alone, in capitals and within a name.
func TestReferenceWords(t *testing.T) {
	if n := len(allAllergens); n != 14+1 {
		t.Errorf("the EU lists 14 allergens (Regulation 1169/2011, Annex II), and the US wheat apart; here are %d", n)
	}
	for _, r := range reference(t, "allergens.csv") {
		if r["kind"] != "ingredient_word" {
			continue
		}
		for _, name := range []string{r["term"], strings.ToUpper(r["term"]), "fresh " + r["term"] + ", chopped"} {
			found := Allergens(name)
			if want := Allergen(r["eu_allergen"]); want != "" && !slices.ContainsFunc(found, func(f Finding) bool {
				return f.Allergen == want
			}) {
				t.Errorf("%q: got %v, want %s", name, found, want)
			}
			if r["us_allergen"] == "wheat" && !slices.ContainsFunc(found, func(f Finding) bool {
				return f.Allergen == AllergenWheat
			}) {
				t.Errorf("%q: got %v, want wheat", name, found)
			}
		}
	}
}

// TestTagsAreKnown: every tag that a diet avoids is one that a food may tell.
func TestTagsAreKnown(t *testing.T) {
	for _, r := range dietRules {
		for _, a := range r.avoids {
			if !slices.Contains(food.Tags(), a.tag) {
				t.Errorf("%s avoids %q, which no food tells", r.diet, a.tag)
			}
		}
	}
}

func TestParseAllergen(t *testing.T) {
	for _, c := range []struct {
		text string
		want []Allergen
	}{
		{"peanuts", []Allergen{AllergenPeanut}},
		{"Nuts", []Allergen{AllergenNuts, AllergenPeanut}},
		{"nut allergy", []Allergen{AllergenNuts, AllergenPeanut}},
		{"tree nuts", []Allergen{AllergenNuts}},
		{"dairy", []Allergen{AllergenMilk}},
		{"shellfish", []Allergen{AllergenCrustaceans, AllergenMolluscs}},
		{"sulphites", []Allergen{AllergenSulphites}},
		{"crustaceans", []Allergen{AllergenCrustaceans}},
		{"gluten", []Allergen{AllergenGluten}},
	} {
		if got, err := ParseAllergen(c.text); err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%q: got %v, %v; want %v", c.text, got, err, c.want)
		}
	}
	for _, a := range allAllergens {
		if got, err := ParseAllergen(string(a)); err != nil || !slices.Contains(got, a) {
			t.Errorf("%s: got %v, %v", a, got, err)
		}
	}
	if got, err := ParseAllergen("moonlight"); err == nil || !strings.Contains(err.Error(), "sesame") {
		t.Errorf("moonlight: got %v, %v; want an error with the names", got, err)
	}
	if f, ok := AllergenIn("egg noodles", AllergenMilk, AllergenEgg); !ok || f.Allergen != AllergenEgg ||
		f.Certainty != Contains {
		t.Errorf("egg noodles: got %v, %v", f, ok)
	}
	if !Mentions("Strawberries, halved", "strawberry") || Mentions("straw", "strawberry") || Mentions("x", "") {
		t.Error("Mentions is wrong about strawberries")
	}
}

func TestAgainst(t *testing.T) {
	const no, perhaps, fine = Contains, MayContain, Certainty("")
	for _, c := range []struct {
		diet Diet
		name string
		want Certainty
	}{
		{Vegetarian, "chicken thighs", no},
		{Vegetarian, "anchovies", no},
		{Vegetarian, "leaf gelatine", no},
		{Vegetarian, "chicken stock", no},
		{Vegetarian, "stock", perhaps},
		{Vegetarian, "vegetable stock", fine},
		{Vegetarian, "parmesan", perhaps},
		{Vegetarian, "eggs", fine},
		{Vegetarian, "kidney beans", fine},
		{Vegetarian, "celery ribs", fine},
		{Vegetarian, "char-grilled peppers", fine},
		{Vegetarian, "burger buns", fine},
		{Vegetarian, "beef seasoning", fine},
		{Vegetarian, "beef short ribs", no},
		{Vegetarian, "lamb's lettuce", fine},
		{Vegetarian, "cauliflower steak", fine},
		{Vegetarian, "vegetarian sausages", fine},
		{Vegetarian, "goat's cheese", perhaps},
		{Vegan, "butter", no},
		{Vegan, "vegan butter", fine},
		{Vegan, "honey", no},
		{Vegan, "red wine", perhaps},
		{Vegan, "coconut milk", fine},
		{Vegan, "coconut yogurt", fine},
		{Vegan, "pistachio ice cream", perhaps},
		{Vegan, "strawberry ice cream", no},
		{Vegan, "peanut butter", fine},
		{Vegan, "aubergine", fine},
		{Pescatarian, "cod", fine},
		{Pescatarian, "bacon", no},
		{GlutenFree, "plain flour", no},
		{GlutenFree, "gluten-free flour", fine},
		{GlutenFree, "oats", no},
		{GlutenFree, "rice", fine},
		{GlutenFree, "miso", perhaps},
		{DairyFree, "ghee", no},
		{DairyFree, "oat milk", fine},
		{EggFree, "mayonnaise", no},
		{NutFree, "nutmeg", fine},
		{NutFree, "marzipan", no},
		{PorkFree, "lardons", no},
		{PorkFree, "turkey bacon", fine},
		{PorkFree, "gelatine", perhaps},
		{AlcoholFree, "rum", no},
		{AlcoholFree, "rump steak", fine},
		{AlcoholFree, "ginger ale", fine},
		{AlcoholFree, "white wine vinegar", fine},
		{AlcoholFree, "alcohol-free beer", fine},
		{AlcoholFree, "vanilla extract", perhaps},
		{Halal, "lamb shoulder", perhaps},
		{Halal, "halal lamb shoulder", fine},
		{Halal, "pancetta", no},
		{Halal, "halal wine", no},
		{Kosher, "prawns", no},
		{Kosher, "salmon", fine},
		{Kosher, "beef", perhaps},
		{Pregnant, "beef carpaccio", no},
		{Pregnant, "brie", perhaps},
		{Vulnerable, "raw egg", no},
		{Vulnerable, "red wine", fine},
		{Infant, "honey", no},
	} {
		got, ok := Against(c.diet, c.name)
		worst := fine
		if len(got) > 0 {
			worst = got[0].Certainty
		}
		if !ok || worst != c.want {
			t.Errorf("%s, %q: got %v, want %q", c.diet, c.name, got, c.want)
		}
	}
	for name, want := range map[string]string{"butter": "not vegan (butter)",
		"red wine": "perhaps not vegan (red wine): some are fined with fish, egg or gelatine: check the label"} {
		if got, _ := Against(Vegan, name); len(got) == 0 || got[0].String() != want {
			t.Errorf("%s: got %v, want %q", name, got, want)
		}
	}
	if got, _ := Against(Infant, "honey"); len(got) == 0 ||
		!strings.HasPrefix(got[0].String(), "not for infants (honey)") {
		t.Errorf("honey: got %v", got)
	}
	if got, ok := Against("breatharian", "air"); ok {
		t.Errorf("an unknown diet got an answer: %v", got)
	}
	for _, d := range Diets() {
		if got, err := ParseDiet(strings.ToUpper(string(d))); err != nil || got != d {
			t.Errorf("ParseDiet(%s): got %v, %v", d, got, err)
		}
	}
	for text, want := range map[string]Diet{"veggie": Vegetarian, "Coeliac": GlutenFree, "no pork": PorkFree} {
		if got, err := ParseDiet(text); err != nil || got != want {
			t.Errorf("ParseDiet(%s): got %v, %v", text, got, err)
		}
	}
	if _, err := ParseDiet("air"); err == nil || !strings.Contains(err.Error(), "vegan") {
		t.Errorf("ParseDiet(air): got %v, want an error with the names", err)
	}
}

func FuzzAllergens(f *testing.F) {
	for _, s := range []string{"coconut milk", "vegan butter or butter", "free from", "crème, fraîche", "egg plant",
		"non",
		"plant based", "goat's", "X-free"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		seen := map[Allergen]bool{}
		for _, a := range Allergens(s) {
			if seen[a.Allergen] || a.Word == "" {
				t.Fatalf("%q: %v", s, Allergens(s))
			}
			seen[a.Allergen] = true
		}
		for _, d := range Diets() {
			if _, ok := Against(d, s); !ok {
				t.Fatal(d)
			}
		}
	})
}

func BenchmarkAllergens(b *testing.B) {
	for b.Loop() {
		Allergens("unsalted butter, melted and cooled")
	}
}
