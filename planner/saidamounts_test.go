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
		{"Roast with 20 g oil at 200C for 40 mins", 12, 6, "Roast with 40 g oil at 200C for 40 mins"},
		{"Roast at 200 C, then 180c fan", 9, 4, "Roast at 200 C, then 180c fan"},
		{"Bake at 400F (gas 6) or 200 deg", 9, 4, "Bake at 400F (gas 6) or 200 deg"},
		{"Heat to 160 C/140 C fan/gas 3 with 1 c stock", 8, 4, "Heat to 160 C/140 C fan/gas 3 with 2 cups stock"},
		{"Cook to 74c in the middle", 9, 4, "Cook to 74c in the middle"},
	} {
		if got := doFor(d, c.do, c.num, c.den); got != c.want {
			t.Errorf("%s for %d instead of %d: %q, want %q", c.do, c.num, c.den, got, c.want)
		}
	}
}
