package portion

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"tureen/planner"
)

func meal(kind planner.PartyKind, covers int, courses map[string][]string) *planner.Party {
	at := time.Date(2026, time.October, 10, 18, 0, 0, 0, time.UTC)
	p := &planner.Party{Name: "Supper", Zone: "UTC", Arrival: at, Covers: covers, Kind: kind}
	for name, dishes := range courses {
		p.Courses = append(p.Courses, planner.Course{Key: planner.CourseKey(planner.Key(name)), Name: name,
			Servings: []planner.Serving{{At: at.Add(2 * time.Hour)}}})
		for _, d := range dishes {
			dish := planner.Dish{Key: planner.DishKey(planner.Key(d)), Name: d, Course: planner.CourseKey(planner.Key(name)),
				Serves: 8}
			if food, ok := strings.CutPrefix(d, "Roast "); ok {
				dish.Ingredients = []planner.Ingredient{{Name: food, Amount: "1.6 kg"}}
			}
			p.Dishes = append(p.Dishes, dish)
		}
	}
	return p
}

// TestBites: in place of a meal 12 to 15 pieces a head over the whole time and 4 to 6 an hour, before one 3 to 8 (rows
// bites of portions.csv); a child counts for half.
func TestBites(t *testing.T) {
	p := meal(planner.Standing, 40, map[string][]string{"Bites": {"Stuffed eggs", "Sausage rolls", "Dates", "Almonds"}})
	got := Bites(p)
	for _, part := range []string{"12 to 15 pieces a head", "over 3 hours", "480 to 600 in all",
		"120 to 150 of each of the 4",
		"Dummies"} {
		if !strings.Contains(got, part) {
			t.Errorf("no %q in %s", part, got)
		}
	}
	p.Courses[0].Servings[0].At = p.Arrival // two hours only
	if got := Bites(p); !strings.Contains(got, "8 to 12 pieces a head") {
		t.Errorf("two hours: %s", got)
	}
	for i := range 10 {
		p.Guests = append(p.Guests, planner.Guest{Name: fmt.Sprint("Kid ", i), Group: "children"})
	}
	if got := Bites(p); !strings.Contains(got, "280 to 420 in all") || !strings.Contains(got, "a child counts for 0.5") {
		t.Errorf("ten of the forty are children: %s", got)
	}
	before := meal(planner.Plated, 8, map[string][]string{"Nibbles": {"Almonds"}})
	before.Courses = append(before.Courses, planner.Course{Key: "main", Name: "Main"})
	if got := Bites(before); !strings.Contains(got, "3 to 8 pieces a head before the meal, 24 to 64 in all") {
		t.Errorf("before dinner: %s", got)
	}
	if got := Bites(meal(planner.Plated, 8, map[string][]string{"Main": {"Stew"}})); got != "" {
		t.Errorf("no bites: %s", got)
	}
}

// TestShare: of two mains with meat or fish 0.65 of a portion each at most, of two desserts 0.6, of more the sum stays
// (rows factor-second and factor-desserts); what goes beside them is none of them.
func TestShare(t *testing.T) {
	for _, c := range []struct {
		course, dishes, of string
		kind               planner.PartyKind
		want               int
	}{
		{"Dessert", "Lemon tart", "Lemon tart", planner.Plated, 0},
		{"Dessert", "Lemon tart, Chocolate pots", "Lemon tart", planner.Plated, 6},
		{"Dessert", "Lemon tart, Vanilla custard", "Lemon tart", planner.Plated, 0},
		{"Dessert", "Lemon tart, Chocolate pots, Granita", "Granita", planner.Plated, 4},
		{"Dessert", "Lemon tart, Vanilla ice cream", "Lemon tart", planner.Plated, 6},
		{"Main", "Roast beef, Roast salmon", "Roast salmon", planner.FamilyStyle, 7},
		{"Main", "Roast beef, Mash", "Roast beef", planner.Plated, 0},
		{"Main", "Roast beef, Roast salmon, Roast chicken, Roast pork", "Roast beef", planner.Buffet, 4},
		{"Starter", "Terrine, Soup", "Soup", planner.Plated, 0},
	} {
		p := meal(c.kind, 10, map[string][]string{c.course: strings.Split(c.dishes, ", ")})
		p.Courses = append(p.Courses, planner.Course{Key: "other", Name: "Other"})
		n, why := Share(p, p.Dish(planner.DishKey(planner.Key(c.of))))
		if n != c.want || n > 0 && !strings.Contains(why, "(") {
			t.Errorf("%s of %s, %s: %d (%s), want %d", c.of, c.dishes, c.kind, n, why, c.want)
		}
		p.Dish(planner.DishKey(planner.Key(c.of))).Covers = 10
		if n, _ := Share(p, p.Dish(planner.DishKey(planner.Key(c.of)))); n != 0 {
			t.Errorf("%s: its host has said how many", c.of)
		}
	}
}

// TestDrinksWanted: wine, water and coffee until they are on a list; children drink no wine and no coffee.
func TestDrinksWanted(t *testing.T) {
	p := meal(planner.Plated, 10, map[string][]string{"Main": {"Stew"}})
	said := func() string {
		var out []string
		for _, w := range DrinksWanted(p) {
			out = append(out, w.Name+" "+w.Amount)
		}
		return strings.Join(out, ", ")
	}
	if got := said(); got != "Wine 5, water 5 l, ground coffee 110 g" {
		t.Errorf("nothing is listed: %s", got)
	}
	p.Guests = []planner.Guest{{Name: "Pia", Note: "a child of six"}, {Name: "Tom", Group: "kids"}}
	p.Drinks = []planner.Drink{{Name: "Mineral water", Kind: planner.Soft, Bottles: 6}}
	if got := said(); got != "Wine 4, ground coffee 88 g" {
		t.Errorf("two children, and water: %s", got)
	}
	p.Drinks = append(p.Drinks, planner.Drink{Name: "Rioja", Kind: planner.Red, Bottles: 2})
	p.Goods = []planner.Good{{Item: "coffee bean", Name: "coffee beans", Extra: "250 g"}}
	if got := said(); got != "" {
		t.Errorf("all is listed: %s", got)
	}
	p = meal(planner.Standing, 40, map[string][]string{"Bites": {"Eggs"}})
	if got := said(); !strings.HasPrefix(got, "Wine 16,") { // (2 + 2) drinks, half of them wine: 80 glasses
		t.Errorf("forty who stand for three hours: %s", got)
	}
}
