package trace_test

import (
	"fmt"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/trace"
)

// TestMade: what a step leaves is called after what went in and what was done to it, by no word of the dish's name;
// finishing, eggs out of their shells, doughs with baking powder and hot food are called nothing, so that nobody lets
// them wait.
func TestMade(t *testing.T) {
	rows := []struct{ ingredients, steps, want string }{
		{"onions, carrots, beef shin", "Slice the onions and carrots", "cut-onions cut-vegetables"},
		{"pork shoulder, garlic, lemon", "Get ready: pork shoulder (cubed), garlic (crushed), lemon (juice of)",
			"raw-meat cut-onions citrus"},
		{"mushrooms", "Slice the mushrooms", ""},
		{"olive oil, sherry vinegar, mustard", "Whisk the oil with the vinegar and mustard", "dressing"},
		{"olive oil, sherry vinegar, lettuce", "Toss the lettuce with oil and vinegar", ""},
		{"smoked trout, cream cheese, lemon", "Mash the trout with the cream cheese and lemon juice", "dip"},
		{"flour, butter, icing sugar", "Beat the butter with the sugar, work in the flour", "cookie-dough"},
		{"flour, butter, icing sugar", "Beat the butter with the sugar, work in the flour; Chill for an hour",
			"cookie-dough"},
		{"flour, butter, icing sugar", "Beat the butter with the sugar, work in the flour; Bake at 160 °C until golden",
			"biscuits"},
		{"flour, butter, baking powder, milk", "Rub the butter into the flour and baking powder; Stir in the milk", ""},
		{"flour, dried yeast, water", "Knead the flour, yeast and water", ""},
		{"flour, eggs, sugar, butter", "Beat the butter, sugar, eggs and flour; Bake at 180 °C for 40 minutes", "cake"},
		{"milk, egg yolks, sugar", "Stir the milk, yolks and sugar over a low heat until it thickens", "custard"},
		{"strawberries, sugar", "Simmer the strawberries with the sugar for 5 minutes", "compote"},
		{"double cream", "Whip the cream", "whipped-cream"},
		{"chicken thighs, yogurt, garlic", "Turn the chicken in the yogurt and garlic", "marinated-poultry"},
		{"minced pork, chicken livers, brandy", "Mix the pork, livers and brandy; Bake at 160 °C for 90 minutes", "pate"},
		{"minced beef, tinned tomatoes, beef stock", "Simmer the beef with tomatoes and stock for 90 minutes", ""},
		{"leeks, vegetable stock", "Simmer the leeks in the stock for 20 minutes; Blend until smooth", "pureed-soup"},
		{"cream, gelatine, sugar", "Heat the cream with the sugar and gelatine; Pour into moulds and chill", "set-cream"},
		{"mangoes, lime", "Dice the mangoes and mix with the lime juice", "cut-produce"},
		{"walnuts", "Toast the walnuts in a dry pan", "toasted-nuts"},
		{"bread", "Toast the bread", ""},
		{"egg whites, sugar", "Whisk the whites with the sugar", ""},
		{"eggs, cream, butter", "Stir the eggs with the cream in the butter over a low heat", ""},
		{"basil, olive oil, pine nuts", "Blend the basil with the oil and pine nuts", "cold-sauce"},
		{"flour, butter, eggs", "Beat the flour into the butter, then the eggs; Bake at 200 °C for 25 minutes",
			"pastry-baked"},
		{"potatoes, cream", "Layer the potatoes with the cream in a dish", "gratin-raw"},
		{"flour, eggs, sugar, butter", "Beat the butter, sugar, eggs and flour; Bake at 180 °C for 40 minutes; " +
			"Let it cool; Cut into squares", "cake"},
		{"egg whites, sugar", "Whisk the whites with the sugar; Bake at 100 °C for 2 hours; Let it cool", "meringue"},
		{"sea bass, salt", "Bury the fish in the salt; Bake at 200 °C for 30 minutes; Crack the crust", ""},
		{"roast beef", "Carve the beef", ""},
	}
	for _, row := range rows {
		d := planner.Dish{Key: "dish", Name: "Something", Serves: 4}
		for name := range strings.SplitSeq(row.ingredients, ", ") {
			d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: name})
		}
		for do := range strings.SplitSeq(row.steps, "; ") {
			s := planner.Step{Key: planner.StepKey(fmt.Sprint(len(d.Steps))), Do: do, Where: planner.Counter,
				Attention: planner.Hands, Time: planner.Span{Likely: 90}}
			switch {
			case strings.Contains(do, "Let it"):
				s.Attention = planner.Unattended
			case strings.Contains(do, "Bake"):
				s.Where, s.Cooks = planner.Heat, true
				s.Uses = []planner.Use{{What: planner.AnOven, C: 170}}
			case strings.Contains(do, "immer"), strings.Contains(do, "heat"), strings.Contains(do, "Heat"),
				strings.Contains(do, "Toast"):
				s.Where, s.Uses = planner.Heat, []planner.Use{{What: planner.ABurner}}
			}
			if n := len(d.Steps); n > 0 {
				s.After = []planner.After{{Step: d.Steps[n-1].Key}}
			}
			d.Steps = append(d.Steps, s)
		}
		last := &d.Steps[len(d.Steps)-1]
		classes, known := trace.OfDish(&planner.Party{}, &d).Made(&d, last)
		var got []string
		for _, c := range classes {
			if c != nil {
				got = append(got, c.Name)
			}
		}
		if text := strings.Join(got, " "); text != row.want || known != (text != "") {
			t.Errorf("%s of %s: %q, %v; want %q", row.steps, row.ingredients, text, known, row.want)
		}
	}
}

// TestMadeIsKnown: what made.tsv and cuts.tsv call food by has a row in the table of waits, or it would say nothing.
func TestMadeIsKnown(t *testing.T) {
	for _, name := range trace.MadeNames() {
		class, err := food.ClassOf(name)
		if err != nil {
			t.Fatal(err)
		}
		_, counter := food.WaitOf(class, "counter")
		if _, cold := food.WaitOf(class, "refrigerator"); !cold && !counter {
			t.Errorf("nobody says how %s waits", name)
		}
	}
}
