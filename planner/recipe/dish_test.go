package recipe

import (
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/safety"
)

// table is a party with every vessel and appliance that the dish's steps use.
func table(d *planner.Dish) *planner.Party {
	p := &planner.Party{Name: "Trial", Zone: "Europe/Lisbon", Covers: 8, PrepDays: 3, RoomTemperatureC: 21,
		Arrival: time.Date(2026, 11, 28, 19, 0, 0, 0, time.UTC)}
	p.Kitchen = planner.Kitchen{Ovens: []planner.Oven{{Name: "oven", Shelves: 2, MinC: 50, MaxC: 300, Preheat: 15}},
		Burners: 4, Grills: 1, Counter: 3}
	for _, s := range d.Steps {
		for _, u := range s.Uses {
			w := planner.Ware{Name: u.Name, Count: 2}
			switch u.What {
			case planner.AVessel:
				p.Kitchen.Vessels = append(p.Kitchen.Vessels, w)
			case planner.AnAppliance:
				p.Kitchen.Appliances = append(p.Kitchen.Appliances, w)
			}
		}
	}
	p.People = []planner.Person{{Key: "anna", Name: "Anna", Role: planner.Host}}
	return p
}

func readFile(t testing.TB, name string) *Reading {
	t.Helper()
	text, err := os.ReadFile("testdata/recipes/" + name)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Read(string(text))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestEveryReadingMakesASoundDish(t *testing.T) {
	for _, f := range ownRecipes(t) {
		r := readFile(t, strings.TrimPrefix(f, "testdata/recipes/"))
		d, _ := r.Dish("main", 0)
		p := table(&d)
		for i := range d.Steps {
			for _, problem := range planner.ValidateStep(p, &d, &d.Steps[i]) {
				t.Errorf("%s: %s: %s", f, problem.Where, problem.Text)
			}
		}
		for _, s := range d.Steps {
			if s.Source == "" {
				t.Errorf("%s: step %s does not say where it came from", f, s.Key)
			}
		}
		for _, g := range d.Ingredients {
			if g.Step != "" && d.Step(g.Step) == nil {
				t.Errorf("%s: %s is for the step %q, which is none", f, g.Name, g.Step)
			}
		}
	}
}

func TestDishOfAStew(t *testing.T) {
	d, qs := readFile(t, "01-terse-stew.txt").Dish("main", 10)
	if d.Serves != 6 || d.Covers != 10 || d.Name != "Beef with barley" {
		t.Errorf("got %q for %d, made for %d", d.Name, d.Serves, d.Covers)
	}
	brown := d.Step("brown")
	if brown == nil || !leavesOf(&d, "brown").PartCooked ||
		leavesOf(&d, "brown").Kind() != safety.RedMeat {
		t.Fatalf("browned beef leaves %+v", brown)
	}
	if next := d.Step("soften"); next == nil || len(next.After) != 1 || next.After[0].Wait.State != planner.Straight {
		t.Errorf("part-cooked beef does not go straight on: %+v", next)
	}
	last := d.Steps[len(d.Steps)-1]
	if !leavesOf(&d, last.Key).Perishable || last.Serve == nil || last.Serve.State != planner.Counter ||
		last.Serve.WorthUntil != hotFloor {
		t.Errorf("got %+v, %+v", leavesOf(&d, last.Key), last.Serve)
	}
	ahead := 0
	for _, s := range d.Steps {
		if s.Ahead != nil {
			ahead++
			if !s.Cooks || s.Ahead.State != planner.Refrigerator || s.Ahead.BestFrom != betterFrom {
				t.Errorf("the recipe says that it is better next day: %s may wait %+v", s.Key, s.Ahead)
			}
		}
	}
	if ahead != 1 || len(qs) > 0 {
		t.Errorf("it may wait after %d steps, and %v was asked: the way is chosen with the plan", ahead, qs)
	}
	stock := slices.IndexFunc(d.Ingredients, func(g planner.Ingredient) bool { return g.Name == "beef stock" })
	if k := d.Ingredients[stock].Step; k != "oven" {
		t.Errorf("beef stock is for %q", k)
	}
	if w := d.Step("add").After[0].Wait; w.State != planner.Straight {
		t.Errorf("what is added for the last 45 minutes waits %+v", w)
	}
}

func TestDishOfATart(t *testing.T) {
	d, qs := readFile(t, "03-metric-tart.txt").Dish("starter", 0)
	if len(qs) > 0 || !slices.ContainsFunc(d.Steps, func(s planner.Step) bool {
		return s.Ahead != nil && s.Cooks && s.Ahead.WorthUntil == day
	}) {
		t.Errorf("asked %v of a recipe that says all but how it is warmed again", qs)
	}
	roll := d.Step("roll")
	if roll == nil || len(roll.After) != 1 {
		t.Fatalf("rolling comes after %+v, want the chilled pastry alone", roll)
	}
	if w := roll.After[0].Wait; w.State != planner.Refrigerator || w.WorthUntil != 2*day-hour {
		t.Errorf("the pastry waits %+v, want in the refrigerator up to 2 days in all", w)
	}
	var butter []string
	for _, g := range d.Ingredients {
		if strings.Contains(g.Name, "butter") {
			butter = append(butter, g.Amount+" "+g.Name)
		}
	}
	if len(butter) != 2 {
		t.Errorf("butter: %q", butter)
	}
}

func TestChickenIsCookedInTheEnd(t *testing.T) {
	d, _ := readFile(t, "02-chatty-chicken.txt").Dish("main", 0)
	if k := leavesOf(&d, "rub").Kind(); k != safety.Poultry {
		t.Errorf("rubbed chicken is %q", k)
	}
	roast := d.Step("roast")
	if leavesOf(&d, "roast").Kind() != safety.Cooked || roast.Attention != planner.Touch || roast.Every != 20 ||
		roast.Uses[0].C != 200 {
		t.Errorf("roast: %+v", roast)
	}
	if w := d.Steps[len(d.Steps)-1].Serve; w == nil || w.WorthUntil != onceFloor {
		t.Errorf("served at once: got %+v", w)
	}
}

func TestASaladBesideMeatIsNoMeat(t *testing.T) {
	d, _ := readFile(t, "09-marinade-lamb.txt").Dish("main", 0)
	if k := leavesOf(&d, "toss").Kind(); k != safety.CutProduce {
		t.Errorf("the salad is %q", k)
	}
	if k := leavesOf(&d, "thread").Kind(); k != safety.RedMeat {
		t.Errorf("the skewers are %q", k)
	}
	if s := d.Step("grill"); len(s.After) != 1 || leavesOf(&d, s.Key).Kind().Raw() {
		t.Errorf("grilling comes after %+v and leaves %+v", s.After, leavesOf(&d, s.Key))
	}
	if s := d.Step("serve"); len(s.After) != 2 {
		t.Errorf("serving comes after %+v, want the skewers and the salad", s.After)
	}
}

func TestUnknownFoodIsTakenForCooked(t *testing.T) {
	if k, known := kindOf("zarbleberries"); known || k != safety.Cooked {
		t.Errorf("got %q, %v", k, known)
	}
	r, err := Read("Zarble salad\nserves 4\n\n300 g zarbleberries\n\nToss the zarbleberries. Serve.")
	if err != nil {
		t.Fatal(err)
	}
	d, qs := r.Dish("starter", 0)
	if !leavesOf(&d, d.Steps[len(d.Steps)-1].Key).Perishable {
		t.Error("unknown food keeps on the counter, and nobody was asked")
	}
	asked := false
	for _, q := range qs {
		asked = asked || q.About == "keeps" && strings.Contains(q.Ask, "zarbleberries")
	}
	if !asked {
		t.Errorf("questions: %v", qs)
	}
}

// Whatever is sent is read or refused in a moment: the slowest of these takes some tenths of a second. The limit tells
// a text that would hang the chat, a hundred times that, and no more: how fast a machine is proves nothing.
func TestLongTextsTakeNoTime(t *testing.T) {
	for _, text := range []string{
		strings.Repeat("Chop the onions. ", 3500), "x\n1 egg\n" + strings.Repeat("a, ", 19000),
		"x\n" + strings.Repeat("1 egg\n", 9900) + "bake it.",
		"x\n1 egg\nMethod\n" + strings.Repeat("Chop the onions and then fry for 3 min, ", 1400), "x\n1 egg\nMethod\n" +
			strings.Repeat("Bake for 3 min.\n\n", 3400),
		strings.Repeat("(", 59000), "x\n1 egg\n" + strings.Repeat("1 ", 29000), "x Ingredients: " +
			strings.Repeat("1 a, ", 11000) + " Method: bake.", strings.Repeat("a: ", 19000),
		"x\nIngredients\n1 egg\n" + strings.Repeat("ABCD\n", 11000),
	} {
		began := time.Now()
		r, err := Read(text)
		if err == nil {
			r.Dish("main", 0)
		}
		if took := time.Since(began); took > time.Minute {
			t.Errorf("%.30q… of %d bytes took %v", text, len(text), took)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	for name, text := range map[string]string{
		"nothing":    "  \n ",
		"zip":        "PK\x03\x04" + strings.Repeat("x", 50),
		"picture":    "\x89PNG\r\n\x1a\n",
		"binary":     "ab\x00cd",
		"200 kB":     strings.Repeat("Chop the onions. ", 12000),
		"an address": "https://10.0.0.1/recipe",
		"a page":     "<html><script>alert(1)</script></html>",
		"German": "Apfelkuchen\n\nZutaten\n300 g Mehl\n1 Prise Salz\n\nZubereitung\nDas Mehl mit der Butter und dem " +
			"Salz verkneten und eine Stunde kühlen. Die Äpfel schälen. 40 Minuten backen.",
		"division": "Soup\n\n1/0 cup milk\n2 onions\n\nFry the onions for 10 minutes.",
		"negative": "Soup\n\n-3 eggs\n2 onions\n\nFry the onions for 10 minutes.",
		"too much": "Soup\n\n1000000000 litres water\n2 onions\n\nBoil for 10 minutes.",
		"a book":   "Soups\n" + strings.Repeat("1 onion\n", 900) + "Fry for 10 minutes.",
		"no food":  "Soup\n\nMethod\nFry it for 10 minutes until brown. Serve.",
	} {
		r, err := Read(text)
		if err == nil {
			t.Errorf("%s: read as %q", name, r.Outline())
			continue
		}
		if s := err.Error(); len(s) > 220 || strings.Contains(s, "\n") || !strings.Contains(s, " ") {
			t.Errorf("%s: %q is no sentence", name, s)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, name := range ownRecipes(f) {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	for _, s := range []string{"", "x", "a\n1 b\nbake", "1. 2. 3.", "Meanwhile, meanwhile",
		"X\n1 egg\nBoil for the last 45 minutes while you squash. Then then, then and then"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := Read(text)
		if err != nil {
			return
		}
		if len(r.Questions) > MaxQuestions {
			t.Errorf("%d questions", len(r.Questions))
		}
		d, _ := r.Dish("main", 0)
		p := table(&d)
		for i := range d.Steps {
			if s := d.Steps[i]; s.Time.Low < 1 || s.Time.Low > s.Time.Likely || s.Time.Likely > s.Time.High {
				t.Errorf("step %q takes %+v", s.Do, s.Time)
			}
			for _, problem := range planner.ValidateStep(p, &d, &d.Steps[i]) {
				t.Errorf("%s: %s", problem.Where, problem.Text)
			}
		}
		if r.Outline() == "" {
			t.Error("no outline")
		}
	})
}

func BenchmarkRead(b *testing.B) {
	var texts []string
	for _, name := range ownRecipes(b) {
		text, err := os.ReadFile(name)
		if err != nil {
			b.Fatal(err)
		}
		texts = append(texts, string(text))
	}
	for i := 0; b.Loop(); i++ {
		if _, err := Read(texts[i%len(texts)]); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "recipes/s")
}
