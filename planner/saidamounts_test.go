package planner

import "testing"

func TestDoFor(t *testing.T) {
	d := &Dish{Ingredients: []Ingredient{{Name: "large eggs", Amount: "3"}, {Name: "butter", Amount: "50 g"}}}
	for _, c := range []struct {
		do       string
		num, den int
		want     string
	}{
		{"Melt 25g of the butter in a pan", 8, 4, "Melt 50 g of the butter in a pan"},
		{"Melt 25g of the butter in a pan", 4, 4, "Melt 25g of the butter in a pan"},
		{"Beat 2 eggs with ½ tsp salt for 5 minutes at 180 °C", 12, 6,
			"Beat 4 eggs with 1 tsp salt for 5 minutes at 180 °C"},
		{"Fry in 2 batches in a 2 l casserole", 12, 6, "Fry in 2 batches in a 2 l casserole"},
		{"Cut into 16 slices 2 cm thick (keep 100 ml stock)", 9, 6, "Cut into 16 slices 2 cm thick (keep 150 ml stock)"},
		{"Roast 20 minutes per 500 g plus 20 minutes", 12, 6, "Roast 20 minutes per 500 g plus 20 minutes"},
		{"Take the 500 g", 12, 6, "Take the 500 g"},
	} {
		if got := doFor(d, c.do, c.num, c.den); got != c.want {
			t.Errorf("%s for %d instead of %d: %q, want %q", c.do, c.num, c.den, got, c.want)
		}
	}
}
