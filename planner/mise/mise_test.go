package mise_test

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/mise"
)

func dish(key, do string, ingredients ...planner.Ingredient) planner.Dish {
	d := planner.Dish{Key: planner.DishKey(key), Name: key, Serves: 4, Ingredients: ingredients, Steps: []planner.Step{
		{Key: "cut", Do: do, Attention: planner.Hands, Time: planner.Span{Low: 1, Likely: 5, High: 9}},
		{Key: "cook", Do: "Cook it", Attention: planner.Watch, Cooks: true, After: []planner.After{{Step: "cut"}}}}}
	for i := range d.Ingredients {
		d.Ingredients[i].Step = "cut"
	}
	return d
}

func in(amount, name, note string) planner.Ingredient {
	return planner.Ingredient{Amount: amount, Name: name, Note: note}
}

// What two dishes want cut in the same way is one piece of work, with what goes where; what is cut otherwise, is meat,
// or comes with other work is not.
func TestSharedCutting(t *testing.T) {
	for _, c := range []struct {
		dishes []planner.Dish
		want   string
	}{
		{[]planner.Dish{dish("soup", "Get ready: onions (diced)", in("2", "onions", "diced")),
			dish("braise", "Dice the onions and carrots", in("3", "onions", ""), in("2", "carrots", ""))},
			"10 onions, diced (4 for soup and 6 for braise); 4 carrots, diced (braise)"},
		{[]planner.Dish{dish("soup", "Peel and finely chop the onion", in("1", "onion", "")),
			dish("stew", "Get ready: onion (peeled and finely chopped)", in("1", "onion", "peeled and finely chopped")),
			dish("tart", "Chop the onions finely", in("2", "onions", ""))},
			"8 onions, finely chopped (2 for soup, 2 for stew and 4 for tart)"},
		{[]planner.Dish{dish("mash", "Peel the potatoes and slice them", in("1 kg", "potatoes", "")),
			dish("gratin", "Peel and slice the potatoes", in("500 g", "potatoes", ""))},
			"3 kg potatoes, sliced (2 kg for mash and 1 kg for gratin)"},
		{[]planner.Dish{dish("soup", "Slice the onions", in("2", "onions", "")),
			dish("braise", "Dice the onions", in("3", "onions", ""))}, ""},
		{[]planner.Dish{dish("soup", "Slice the onions and toss them with salt", in("2", "onions", "")),
			dish("braise", "Slice the onions", in("3", "onions", ""))}, ""},
		{[]planner.Dish{dish("stew", "Dice the beef", in("1 kg", "beef", "")),
			dish("pie", "Dice the beef", in("1 kg", "beef", ""))}, ""},
	} {
		p := &planner.Party{Covers: 8, Dishes: c.dishes}
		var all []*planner.Placed
		for i, d := range c.dishes {
			at := time.Date(2026, 12, 4, 18, 10*i, 0, 0, time.UTC)
			all = append(all, &planner.Placed{Task: planner.StepTask(d.Key, "cut", 1), Start: at, End: at.Add(5 * time.Minute)},
				&planner.Placed{Task: planner.StepTask(d.Key, "cook", 1), Start: at.Add(5 * time.Minute), End: at.Add(time.Hour)})
		}
		g := mise.Of(p, all)
		switch {
		case g == nil && c.want != "":
			t.Errorf("nothing is shared, want %s", c.want)
		case g != nil && g.String(p) != c.want:
			t.Errorf("got  %s\nwant %s", g.String(p), c.want)
		case g != nil && (len(g.Tasks) != len(c.dishes) ||
			slices.Contains(g.Tasks, planner.StepTask(c.dishes[0].Key, "cook", 1))):
			t.Errorf("its tasks are %v", g.Tasks)
		}
	}
}
