package food_test

import (
	"slices"
	"testing"

	"tureen/planner/food"
)

// TestTurned: a name that is written as in an index is the food that a cook means by it, with what is said behind it; a
// remark turns nothing.
func TestTurned(t *testing.T) {
	for _, c := range []struct{ text, as string }{
		{"beans, kidney, tinned", "tinned kidney beans"}, {"beans, kidney, dried", "dried kidney beans"},
		{"beef, mince, frozen", "frozen beef mince"}, {"lasagne sheets, fresh", "fresh lasagne sheets"},
		{"noodles, egg, fresh", "fresh egg noodles"}, {"mince, quorn", "quorn mince"},
		{"rice, brown, cooked", "cooked brown rice"},
		{"chicken, raw, diced", "raw chicken"}, {"tagliatelle, fresh", "fresh tagliatelle"}, {"onion, diced", "onion"},
		{"lemon, zest", "lemon"}, {"pork, belly", "pork belly"},
	} {
		f, ok := food.Find(c.text)
		if want, _ := food.Find(c.as); !ok || f.Class != want.Class || f.Is("frozen") != want.Is("frozen") {
			t.Errorf("%q is %q of %v, want it as %q: %v", c.text, f.Name, f.Class, c.as, want.Class)
		}
	}
}

// TestTurnedIsOne: of a turned name no second food is found in the word that turns it.
func TestTurnedIsOne(t *testing.T) {
	for text, want := range map[string]int{"beans, kidney, dried": 1, "mince, soya": 1, "onion, diced": 1,
		"flour, eggs": 2, "almond, butter": 2, "chicken, rice": 2} {
		if all := food.All(text); len(all) != want {
			t.Errorf("%q names %d foods, want %d: %v", text, len(all), want, all)
		}
	}
}

// TestTurnedTells: what a turned name tells of allergens and diets, and what it does not; a list of foods hides none.
func TestTurnedTells(t *testing.T) {
	for _, c := range []struct {
		text   string
		tag    food.Tag
		wanted bool
	}{
		{"tagliatelle, fresh", "egg", true}, {"pudding, black", food.Blood, true}, {"sauce, soy", "gluten", true},
		{"milk, oat", "milk", false}, {"milk, oat", "gluten", true}, {"butter, peanut", "milk", false},
		{"flour, gram", "gluten", false}, {"mince, quorn", food.Meat, false}, {"cheese, vegan", "milk", false},
		{"pasta, gluten-free", "gluten", false}, {"chocolate, dark, dairy-free", "milk", false},
		{"mayonnaise, egg-free", "egg", false}, {"bread, not gluten-free", "gluten", true},
		{"yogurt, dairy-free if you like", "milk", true}, {"pasta, check that it is gluten-free", "gluten", true},
		{"milk, coconut, sugar", "milk", true}, {"chocolate (sugar, milk, coconut)", "milk", true},
		{"flour, eggs, vegan spread", "egg", true}, {"almond, butter", "milk", true},
		{"margarine, dairy-free", "milk", false},
	} {
		found := slices.ContainsFunc(food.Tells(c.text), func(x food.Tell) bool { return x.Tag == c.tag })
		if found != c.wanted {
			t.Errorf("%q tells %s: %t, want %t", c.text, c.tag, found, c.wanted)
		}
	}
}
