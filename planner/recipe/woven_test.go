package recipe

import (
	"errors"
	"strings"
	"testing"
)

// Amounts within the sentences of a method are ingredients; numbers of glasses, batches, minutes and degrees are not.
func TestWovenIngredients(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Lemon cream. Heat 600 ml cream with 150 g sugar for 3 minutes, stir in the juice of 2 lemons, pour into 6 small " +
			"glasses and chill for 3 hours. Serve with shortbread and a handful of raspberries.",
			"cream|sugar|lemons|raspberries|shortbread"},
		{"Fried rice for 4. Fry two onions in 3 tbsp oil in 2 batches, about 5 minutes each. Add 300 g cooked rice and an " +
			"egg, season with salt, and cook for 4 minutes at a high heat.",
			"onions|oil|rice|egg|salt"},
		{"Pear bake for 6. Heat the oven to 180 °C. Quarter 6 pears, toss with 50 g butter and a pinch of cinnamon, cut " +
			"into 8 slices each and bake for 40 minutes.",
			"pears|butter|cinnamon"},
	} {
		r, err := Read(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		var got []string
		for i := range r.Ingredients {
			got = append(got, r.Ingredients[i].Name)
		}
		if got := strings.Join(got, "|"); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.text, got, c.want)
		}
		if len(r.Questions) == 0 || r.Questions[0].About != "ingredients" && r.Questions[1].About != "ingredients" {
			t.Errorf("%s: asks %+v", c.text, r.Questions)
		}
		for i := range r.Steps {
			if do := r.Steps[i].Do; strings.Contains(do, "150 g") || strings.Contains(do, "3 tbsp") ||
				strings.Contains(do, "50 g") {
				t.Errorf("the step %q keeps an amount", do)
			}
		}
	}
}

// Without amounts there is nothing to scale or to buy, and the recipe is refused with what to do.
func TestNothingWoven(t *testing.T) {
	_, err := Read("Onion soup. Chop some onions. Fry them for 10 minutes, add stock and simmer for 25 minutes.")
	var refusal *Refusal
	if !errors.As(err, &refusal) || refusal.Try == "" {
		t.Errorf("got %v", err)
	}
}
