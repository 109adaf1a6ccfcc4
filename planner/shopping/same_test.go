package shopping

import (
	"slices"
	"strings"
	"testing"

	"tureen/planner"
)

// TestOneThingToBuy: what is bought as one thing is one line, in one system of units, with no more spoons than one
// counts; ours, by hand.
func TestOneThingToBuy(t *testing.T) {
	dish := func(key string, lines ...string) planner.Dish {
		d := planner.Dish{Key: planner.DishKey(key), Name: key, Course: "main", Serves: 6,
			Steps: []planner.Step{{Key: "cook", Do: "Cook it", Time: planner.Span{Low: 10, Likely: 10, High: 10}}}}
		for i := 0; i < len(lines); i += 2 {
			d.Ingredients = append(d.Ingredients, planner.Ingredient{Amount: lines[i], Name: lines[i+1]})
		}
		return d
	}
	for _, c := range []struct {
		name   string
		dishes []planner.Dish
		want   []string
	}{
		{"eggs and their whites", []planner.Dish{dish("a", "6", "eggs"), dish("b", "2", "egg whites", "200 g", "sugar")},
			[]string{"8 eggs", "200 g sugar"}},
		{"sticks and ribs", []planner.Dish{dish("a", "2", "celery sticks"), dish("b", "3 ribs", "celery"),
			dish("c", "1 stalk", "celery")}, []string{"6 ribs celery"}},
		{"oils", []planner.Dish{dish("a", "50 ml", "olive oil"), dish("b", "100 ml", "extra virgin olive oil")},
			[]string{"150 ml extra virgin olive oil"}},
		{"sizes", []planner.Dish{dish("a", "5", "large onions"), dish("b", "3", "medium onions"), dish("c", "1", "onion")},
			[]string{"9 onions"}},
		{"one size alone stays", []planner.Dish{dish("a", "5", "large onions")}, []string{"5 large onions"}},
		{"one system", []planner.Dish{dish("a", "500 g", "flour", "1 kg", "beans", "8 oz", "pancetta", "12 tbsp",
			"white wine", "1 cup", "stock", "2 tbsp", "vinegar")},
			[]string{"1 kg beans", "500 g flour", "230 g pancetta", "240 ml stock", "2 tbsp vinegar", "180 ml white wine"}},
		{"pounds and cups stay among themselves", []planner.Dish{dish("a", "2 lb", "beef", "1 cup", "stock")},
			[]string{"2 lb beef", "1 cup stock"}},
	} {
		p := &planner.Party{Covers: 6, Dishes: c.dishes}
		var got []string
		l := Of(p, nil)
		for _, trip := range l.Trips {
			for _, s := range trip.Sections {
				for i := range s.Lines {
					got = append(got, strings.TrimSpace(s.Lines[i].Text()+" "+s.Lines[i].Name))
				}
			}
		}
		slices.Sort(got)
		slices.Sort(c.want)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
