package shopping_test

import (
	"testing"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/shopping"
)

// What is bought instead is the longest row that a name ends with, and never the thing itself; each name is a food.
func TestInsteadOf(t *testing.T) {
	for name, want := range map[string]string{"shallots": "onion", "banana shallots": "onion", "red onion": "onion",
		"fillets of cod": "haddock", "crème fraîche": "sour cream", "soy sauce": "gluten-free tamari"} {
		got := shopping.InsteadOf(name)
		if len(got) == 0 || got[0].Use != want {
			t.Errorf("%s: %v, want %s first", name, got, want)
		}
		for _, s := range got {
			if planner.ItemOf(s.Use, false) == planner.ItemOf(name, false) {
				t.Errorf("%s is offered in place of itself", name)
			}
			if _, known := food.Find(s.Use); !known {
				t.Errorf("%s: %s is no food that is known", name, s.Use)
			}
		}
	}
	if got := shopping.InsteadOf("moonstones"); got != nil {
		t.Errorf("moonstones: %v", got)
	}
}

// A thing that is swapped is gone from every dish and stands there once under its new name; without it, the dish is
// made without it.
func TestSwap(t *testing.T) {
	party := func() *planner.Party {
		return &planner.Party{Dishes: []planner.Dish{
			{Key: "a", Name: "A", Ingredients: []planner.Ingredient{{Name: "shallots", Amount: "4"},
				{Name: "onions", Amount: "1"}}},
			{Key: "b", Name: "B", Ingredients: []planner.Ingredient{{Name: "shallot", Amount: "2", Note: "sliced"}}},
			{Key: "c", Name: "C", Ingredients: []planner.Ingredient{{Name: "shallots", Amount: "2", Have: true}}},
		}}
	}
	p := party()
	if got := shopping.Swap(p, planner.ItemOf("shallots", false),
		shopping.Instead{Use: "onion", How: "a small one for two"}); len(got) != 2 {
		t.Errorf("changed: %v", got)
	}
	a, b := p.Dishes[0].Ingredients, p.Dishes[1].Ingredients
	if len(a) != 1 || a[0].Name != "onions" || a[0].Note != "more: there was no shallot" {
		t.Errorf("A has %+v", a)
	}
	if len(b) != 1 || b[0].Name != "onion" || b[0].Note != "instead of shallot: a small one for two" {
		t.Errorf("B has %+v", b)
	}
	if len(p.Dishes[2].Ingredients) != 1 || p.Dishes[2].Ingredients[0].Name != "shallots" {
		t.Errorf("C had them in the house, and has %+v", p.Dishes[2].Ingredients)
	}
	p = party()
	if shopping.Swap(p, planner.ItemOf("shallots", false), shopping.Instead{}); len(p.Dishes[0].Ingredients) != 1 ||
		len(p.Dishes[1].Ingredients) != 0 {
		t.Errorf("without shallots: %+v", p.Dishes)
	}
}
