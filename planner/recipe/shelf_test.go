package recipe

import "testing"

// TestOnShelf: for how many covers one shelf is enough, by weight and kind; ours, by hand, from shelf.tsv.
func TestOnShelf(t *testing.T) {
	for _, c := range []struct {
		food, method string
		shelf        int
	}{
		{"75 g walnut halves", "Toast the walnuts on a tray in the oven at 180 °C for 8 minutes.", 26},
		{"600 g beetroot, scrubbed", "Wrap the beetroot in foil and bake at 200 °C for 1 hour.", 16},
		{"2.5 kg pork shoulder", "Roast the pork in a roasting tin at 150 °C for 4 hours.", 8},
		{"1.2 kg carrots, cut into wedges", "Roast the carrots on a tray at 200 °C for 35 minutes.", 5},
		{"1 kg pork chops", "Roast the chops on a tray at 200 °C for 25 minutes.", 8},
		{"250 g flour", "Bake in a cake tin at 180 °C for 30 minutes.", 5}, // the tin says how much
	} {
		r, err := Read("Supper for 4\n\n" + c.food + "\n1 tbsp olive oil\n2 sprigs thyme\n\n" + c.method + " Serve.")
		if err != nil {
			t.Fatal(err)
		}
		d, _ := r.Dish("main", 0)
		got := 0
		for _, s := range d.Steps {
			for _, u := range s.Uses {
				if u.What == "oven" {
					got = u.For
				}
			}
		}
		if got != c.shelf {
			t.Errorf("%s: a shelf for %d, want %d\n%s", c.food, got, c.shelf, r.Outline())
		}
	}
}
