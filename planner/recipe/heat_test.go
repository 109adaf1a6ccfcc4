package recipe

import (
	"fmt"
	"strings"
	"testing"

	"tureen/planner/doing"
	"tureen/planner/ingredient"
)

// What heats the food, however its verb stands in the sentence; a trifle, as to drizzle with oil, belongs to the step
// that it serves. Each sentence is the method of a recipe of its own,
// after "Heat the oven to 200 °C."
func TestHeatInPassing(t *testing.T) {
	for _, c := range []struct{ method, want string }{
		{"Rub the squash with oil and roast for 50 minutes.", "hands; oven 200 °C, 50 min"},
		{"Rub with oil and roast for 50 minutes at 180 °C.", "hands; oven 180 °C, 50 min"},
		{"Season and roast, turning once, for 20 minutes.", "oven 200 °C, 20 min"},
		{"Drizzle with oil, and roast for 40 mins.", "oven 200 °C, 40 min"},
		{"Tip into a tin and roast until golden.", "oven 200 °C, 30–45 min"},
		{"Return to the oven for 20 minutes.", "oven 200 °C, 20 min"},
		{"Cover with foil and braise for 2 hours.", "oven 200 °C, 2 h"},
		{"Add the squash and braise on the hob for 2 hours.", "burner watch, 2 h"},
		{"Add the stock, bring to the boil and simmer for 30 minutes.",
			"burner watch, 35–40 min"},
		{"Dust with flour and stew gently for 1 hour.", "burner watch, 1 h"},
		{"Season and brown in the oil for 10 minutes.", "burner hands, 10 min"},
		{"Tip into a pan to fry for 10 minutes.", "burner hands, 10 min"},
		{"Add the onion and fry for 8 minutes.", "burner hands, 8 min"},
		{"Sprinkle over the sugar and caramelise under a hot grill.", "grill hands, 8–12 min"},
		{"Drizzle with oil, then grill for 8 minutes.", "grill hands, 8 min"},
		{"Toast the seeds in a frying pan.", "burner hands, 3–5 min"},
		{"Bake for 40 minutes; after 20 minutes, brush with oil. Turn the oven down to 160 °C and cook for another 15 " +
			"minutes.",
			"oven 200 °C, 20 min; hands; oven 200 °C, 20 min; oven 160 °C, 15 min"},
		// And where it is food.
		{"Serve with the gravy and roast potatoes.", "hands"},
		{"Add the butter and brown sugar.", "hands"},
		{"Top with the stew and toast.", "hands"},
	} {
		r, err := Read("Squash for 4\n\nIngredients\n1 squash\n2 tbsp oil\n\nMethod\nHeat the oven to 200 °C. " + c.method)
		if err != nil {
			t.Errorf("%s: %v", c.method, err)
			continue
		}
		var got []string
		for _, s := range r.Steps {
			one := "hands"
			if s.Heat != "" {
				one = fmt.Sprintf("%s %s, %s", s.Heat, s.Attention, s.Time)
				if s.kind == doing.InOven {
					one = fmt.Sprintf("oven %d °C, %s", s.Oven.Conventional().OvenC(), s.Time)
				}
			}
			got = append(got, one)
		}
		if got := strings.Join(got, "; "); got != c.want {
			t.Errorf("%s: got %s, want %s", c.method, got, c.want)
		}
	}
}

// An oven that no temperature was named for is asked about.
func TestOvenIsAsked(t *testing.T) {
	r, err := Read("Squash for 4\n\n1 squash\n2 tbsp oil\n\nRub the squash with the oil and roast for 50 minutes.")
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Questions) == 0 || r.Questions[0].About != "oven" || r.Questions[0].Step != 1 {
		t.Errorf("asks %+v", r.Questions)
	}
}

func TestIngredientsInALine(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"600 ml double cream, 150 g sugar, juice of 2 lemons, shortbread, a handful of raspberries.",
			"600 ml double cream|150 g sugar|juice of 2 lemons|shortbread|a handful of raspberries"},
		{"2 onions, finely chopped, 1 carrot, peeled and sliced, salt and pepper, crusty bread, to serve and 50 g butter, " +
			"softened",
			"2 onions, finely chopped|1 carrot, peeled and sliced|salt and pepper|crusty bread, to serve|50 g butter, softened"},
		{"1 (400 g) tin beans, drained, 4 sausages (or 6 small ones, halved), 1 and 1/2 tsp salt, freshly ground " +
			"black pepper",
			"1 (400 g) tin beans, drained|4 sausages (or 6 small ones, halved)|1 and 1/2 tsp salt|freshly ground black pepper"},
		{"chicken thighs, skin on, boneless, oil for frying, flat-leaf parsley, chopped, and some rice",
			"chicken thighs, skin on, boneless|oil for frying|flat-leaf parsley, chopped|rice"},
		{"200 g flour 100 g butter 3 eggs; milk", "200 g flour|100 g butter|3 eggs|milk"},
	} {
		if got := strings.Join(ingredient.Run(c.line), "|"); strings.ReplaceAll(got, "| ", "|") != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.line, got, c.want)
		}
	}
}
