package propose_test

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/propose"
)

// evening has a main at 19:45 and a dessert at 20:45, five minutes early at the most, and a cook until so many minutes
// after midnight.
func evening(until planner.Minutes, dish, food, do string) *planner.Party {
	at := func(h, m int) time.Time { return time.Date(2026, time.November, 7, h, m, 0, 0, time.UTC) }
	return &planner.Party{Name: "Supper", Zone: "UTC", Arrival: at(19, 0), Covers: 6, PrepDays: 2,
		Kitchen: planner.HomeKitchen(),
		People:  []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{From: 8 * 60, Until: until}}},
		Courses: []planner.Course{{Key: "main", Name: "Main",
			Servings: []planner.Serving{{At: at(19, 45), Early: 5, Late: 15}}},
			{Key: "dessert", Name: "Dessert", Servings: []planner.Serving{{At: at(20, 45), Early: 5, Late: 15}}}},
		Dishes: []planner.Dish{{Key: "dish", Name: dish, Course: "main", Serves: 6,
			Ingredients: []planner.Ingredient{{Name: food, Amount: "1 kg"}},
			Steps:       []planner.Step{{Key: "make", Do: do, Attention: planner.Hands, Time: partygen.Exactly(20)}}}}}
}

func proposed(p *planner.Party, key planner.ChoreKey) *planner.Chore {
	for _, c := range propose.Chores(p) {
		if c.Key == key {
			return &c
		}
	}
	return nil
}

// TestLeftovers: into the refrigerator within 2 hours of coming to the table, 1 hour above 32 °C (USDA FSIS, Leftovers
// and Food Safety; Danger Zone).
func TestLeftovers(t *testing.T) {
	c := proposed(evening(22*60, "Roast", "chicken", "Roast it"), "leftovers")
	if c == nil || !strings.Contains(c.Note, "At most 2 hours out of the heat and the cold, before the table and on it "+
		"(USDA FSIS") ||
		c.From.Course != "dessert" || c.By[0].At.Format("15:04") != "21:40" {
		t.Fatalf("two hours from 19:40: %+v", c)
	}
	long := evening(22*60, "Roast", "chicken", "Roast it")
	long.Courses[1].Servings[0].At = long.Courses[1].Servings[0].At.Add(time.Hour)
	if c := proposed(long, "leftovers"); c != nil {
		t.Errorf("two hours after the main the dessert is not yet eaten: %+v", c)
	}
	if c := proposed(long, "leftovers-main"); c == nil || c.From.Course != "main" ||
		c.By[0].At.Format("15:04") != "21:40" || c.Do != "Put what is left of the main into the refrigerator" {
		t.Errorf("what is left of the main goes in before the dessert: %+v", c)
	}
	if c := proposed(evening(22*60, "Bread", "bread", "Slice it"), "leftovers"); c != nil {
		t.Errorf("bread is left out overnight: %+v", c)
	}
	hot := evening(22*60, "Roast", "chicken", "Roast it")
	hot.RoomTemperatureC = 33
	if c := proposed(hot, "leftovers"); c != nil {
		t.Errorf("an hour after the main the dessert is not yet eaten: %+v", c)
	}
	hot.Courses = hot.Courses[:1]
	if c := proposed(hot, "leftovers"); c == nil || !strings.Contains(c.Note, "At most 1 hour out of") ||
		c.By[0].At.Format("15:04") != "20:40" {
		t.Errorf("above 32 °C: %+v", c)
	}
}

// TestPlatters: what stands on a buffet is taken in or replaced after three quarters of the two hours, or of the one
// where it is hot (USDA FSIS, Danger Zone), so that some is left for before it came to the table, as long as service
// goes on.
func TestPlatters(t *testing.T) {
	for _, c := range []struct {
		dish, food, do string
		room           int
		want           string
	}{
		{"Prawn puffs", "prawns", "Bake and put them on the buffet", 0, "21:10"},
		{"Prawn puffs", "prawns", "Bake and put them on the buffet", 33, "20:25"},
		{"Picnic chicken", "chicken", "Pack it", 0, "21:10"},
		{"Prawn puffs", "prawns", "Bake them", 0, ""},
		{"Chicken in the garden", "chicken", "Roast it", 0, "21:10"},
		{"Chicken", "chicken", "Roast it and lay it out; guests help themselves", 0, "21:10"},
		{"Chicken", "chicken", "Roast it until brown on the outside", 0, ""},
		{"Buffet bread", "bread", "Slice it", 0, ""},
	} {
		p := evening(22*60, c.dish, c.food, c.do)
		p.RoomTemperatureC = c.room
		got := proposed(p, "platters-main")
		if c.want == "" && got != nil || c.want != "" && (got == nil || got.By[0].At.Format("15:04") != c.want) {
			t.Errorf("%s, %s, %d °C: %+v", c.dish, c.do, c.room, got)
		}
	}
}

// TestOnTable: a dish that stands out counts to the end of service, or until it is taken in; what somebody says goes
// before its words, and what is said of the dish before what is said of its course.
func TestOnTable(t *testing.T) {
	for _, c := range []struct {
		what         string
		course, dish planner.YesNo
		name         string
		last         bool
		want         planner.Minutes
	}{
		{"by no word", "", "", "Chicken", false, 0}, {"by its name", "", "", "Buffet chicken", false, 90},
		{"of the last course", "", "", "Buffet chicken", true, 60},
		{"the course says so", planner.Yes, "", "Chicken", false, 90},
		{"the course says no", planner.No, "", "Buffet chicken", false, 0},
		{"the dish says no", planner.Yes, planner.No, "Buffet chicken", false, 0},
		{"the dish says so", planner.No, planner.Yes, "Chicken", false, 90},
	} {
		p := evening(22*60, c.name, "chicken", "Roast it")
		p.Courses[0].Out, p.Dishes[0].Out = c.course, c.dish
		if c.last {
			p.Dishes[0].Course = "dessert"
			p.Courses[1].Out = c.course
		}
		if got := propose.OnTable(p, &p.Dishes[0]); got != c.want {
			t.Errorf("%s: %d minutes, want %d", c.what, got, c.want)
		}
	}
}

// TestPlattersThenLeftovers: what stands out is changed before the leftovers are put away, and then goes with them.
func TestPlattersThenLeftovers(t *testing.T) {
	p := evening(23*60, "Buffet chicken", "chicken", "Roast it")
	platters, left := proposed(p, "platters-main"), proposed(p, "leftovers")
	if platters == nil || left == nil || platters.By[0].At.After(*left.By[0].At) ||
		proposed(p, "platters-main-2") != nil ||
		proposed(p, "leftovers-main") != nil || left.By[0].At.Format("15:04") != "22:40" {
		t.Errorf("%+v\n%+v", platters, left)
	}
	p.Courses[1].Servings[0].At = p.Courses[1].Servings[0].At.Add(-30 * time.Minute)
	if platters, left := proposed(p, "platters-main"), proposed(p, "leftovers"); platters != nil || left == nil ||
		left.By[0].At.Format("15:04") != "21:10" {
		t.Errorf("with the leftovers: %+v\n%+v", platters, left)
	}
}
