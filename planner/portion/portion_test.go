package portion

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
)

// TestRows: every row of ours is in the reference table with the same figures and source.
func TestRows(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "reference", "per_guest.csv"))
	if err != nil {
		t.Skip("the reference table is not beside the repository")
	}
	all, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	ours, _ := csv.NewReader(strings.NewReader(portionsCSV)).ReadAll()
	for _, r := range ours[1:] {
		if !slices.ContainsFunc(all, func(o []string) bool {
			return slices.Equal(r[1:7], o[1:7]) && r[7] == o[8] && r[8] == o[9]
		}) {
			t.Errorf("%v is not in the reference table", r)
		}
	}
}

// TestFor: ranges as the rows have them, by the sources named in portions.csv.
func TestFor(t *testing.T) {
	for _, c := range []struct {
		kind              Kind
		courses, proteins int
		want              string
	}{
		{Meat, 3, 1, "113–227 g"},     // a meat-cookery card's 1/4 lb to a butcher's 1/2 lb
		{Meat, 4, 1, "68–227 g"},      // times 0.6; common practice, from memory
		{Meat, 3, 2, "57–227 g"},      // times 0.5; US caterer guidelines
		{Fish, 3, 1, "127–227 g"},     // Los Angeles Times 1987; butcher trade table
		{Soup, 3, 1, "118–237 ml"},    // 1/2 cup to 1 cup
		{Soup, 6, 2, "118–237 ml"},    // no protein, no factor
		{Potatoes, 3, 1, "142–175 g"}, // US caterer guidelines; British Dietetic Association
	} {
		r, ok := For(c.kind, c.courses, c.proteins)
		if !ok || r.String() != c.want || len(r.Sources) == 0 {
			t.Errorf("%s in %d courses beside %d: got %s, want %s", c.kind, c.courses, c.proteins, r, c.want)
		}
	}
	if r, ok := For("gold", 3, 1); ok {
		t.Errorf("gold: %s", r)
	}
}

func TestKindOf(t *testing.T) {
	for name, want := range map[string]string{
		"pork loin": "meat pork", "minced pork": "ground-meat pork", "stewing beef": "stew-meat beef",
		"lamb shoulder":     "meat-on-bone lamb",
		"boneless lamb leg": "meat lamb", "whole chickens": "poultry-on-bone chicken",
		"boneless chicken thighs": "poultry chicken",
		"chicken stock":           "", "beef dripping": "", "cod": "fish cod", "whole trout": "whole-fish trout",
		"smoked salmon":   "",
		"fish sauce":      "",
		"floury potatoes": "potatoes potatoes", "sweet potatoes": "vegetables sweet potatoes", "basmati rice": "rice rice",
		"rice vinegar": "", "rice flour": "",
		"green beans": "vegetables green beans", "dried white beans": "beans dried beans", "white beans": "",
		"coriander leaves": "", "bay leaves": "",
		"salad leaves": "leaves leaves", "black pepper": "", "red peppers": "vegetables red peppers", "oyster sauce": "",
		"": "",
	} {
		kind, food, ok := KindOf(name)
		got := strings.TrimSpace(string(kind) + " " + food)
		if !ok {
			got = ""
		}
		if got != want {
			t.Errorf("%q: got %q, want %q", name, got, want)
		}
	}
}

func supper(dishes ...planner.Dish) *planner.Party {
	at := time.Date(2026, 10, 10, 19, 0, 0, 0, time.UTC)
	p := &planner.Party{Zone: "UTC", Arrival: at, Covers: 8, Dishes: dishes}
	for _, k := range []string{"starter", "main", "dessert"} {
		p.Courses = append(p.Courses, planner.Course{Key: planner.CourseKey(k), Name: k,
			Servings: []planner.Serving{{At: at}}})
	}
	return p
}

func dish(course, name string, serves int, amounts ...string) planner.Dish {
	d := planner.Dish{Key: planner.DishKey(planner.Key(name)), Name: name, Course: planner.CourseKey(course),
		Serves: serves}
	for i := 0; i < len(amounts); i += 2 {
		in := planner.Ingredient{Amount: amounts[i], Name: amounts[i+1]}
		in.Name, in.Note, _ = strings.Cut(in.Name, "|")
		d.Ingredients = append(d.Ingredients, in)
	}
	return d
}

func TestOf(t *testing.T) {
	for _, c := range []struct {
		dish planner.Dish
		text string // its beginning; empty: nothing to say
		warn string // part of the warning; empty: none
	}{
		{dish("main", "Roast", 8, "1.2 kg", "pork loin", "2 kg", "potatoes"),
			"About 150 g pork a cover; handbooks: 113–227 g (", ""},
		{dish("main", "Roast", 20, "1.2 kg", "pork loin"), "About 60 g pork",
			"Roast has little pork: about 60 g a cover, where handbooks begin at 113 g, more than 1.5 times as much."},
		{dish("main", "Roast", 3, "1.2 kg", "pork loin"), "About 400 g pork", "more than 1.5 times the 227 g"},
		{dish("main", "Birds", 8, "2", "whole chickens|about 1.6 kg each"),
			"About 400 g chicken a cover; handbooks: 227–454 g", ""},
		{dish("main", "Birds", 8, "2", "whole chickens"), "", ""},
		{dish("main", "Birds", 8, "12 pieces", "chicken thighs", "2 kg", "potatoes"), "", ""}, // never the potatoes instead
		// the figures are a main course's
		{dish("starter", "Terrine", 8, "800 g", "minced pork"), "", ""},
		{dish("main", "Mash", 8, "1.4 kg", "potatoes", "200 g", "butter"), "About 175 g potatoes", ""},
		{dish("main", "Nothing", 8, "", "salt"), "", ""},
		{dish("main", "Nobody", 0, "1 kg", "cod"), "", ""},
	} {
		got, ok := Of(supper(c.dish), &c.dish)
		if !ok {
			got.Food = ""
		}
		if ok != (c.text != "") || ok && !strings.HasPrefix(got.Text(), c.text) {
			t.Errorf("%s: got %q, want %q", c.dish.Name, got.Text(), c.text)
		}
		if !ok {
			continue
		}
		if w := got.Warning(c.dish.Name); (w != "") != (c.warn != "") || !strings.Contains(w, c.warn) {
			t.Errorf("%s: warning %q, want %q", c.dish.Name, w, c.warn)
		}
	}
}

// TestServes: the amounts of a roast for the covers at which everybody gets what the handbooks begin or end at.
func TestServes(t *testing.T) {
	for _, c := range []struct {
		dish planner.Dish
		want int
	}{
		{dish("main", "Roast", 8, "1.2 kg", "pork loin"), 0},
		{dish("main", "Roast", 20, "1.2 kg", "pork loin"), 10}, // 1200 g at 113 g
		{dish("main", "Roast", 3, "1.2 kg", "pork loin"), 6},   // 1200 g at 227 g
	} {
		got, ok := Of(supper(c.dish), &c.dish)
		if n := got.Serves(&c.dish); !ok || n != c.want {
			t.Errorf("for %d: got %d, want %d", c.dish.Serves, n, c.want)
		}
	}
}

// TestFarIsMonotone: more is never farther under, and what lies within the range is never far.
func TestFarIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(1, 500).Draw(t, "low")
		r := Range{Low: low, High: low + rapid.Float64Range(0, 500).Draw(t, "more")}
		a := rapid.Float64Range(0, 2000).Draw(t, "a")
		b := a + rapid.Float64Range(0, 500).Draw(t, "b")
		if r.Far(a) > r.Far(b) {
			t.Fatalf("%v is far %d, %v far %d of %+v", a, r.Far(a), b, r.Far(b), r)
		}
		if r.Low <= a && a <= r.High && r.Far(a) != 0 {
			t.Fatalf("%v lies in %+v and is far", a, r)
		}
	})
}
