package menu

import (
	"context"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/repertoire"
	"tureen/planner/solve"
)

var seven = time.Date(2026, 10, 10, 19, 0, 0, 0, time.UTC)

func hours(from, until int) planner.DayHours {
	return planner.DayHours{From: planner.Minutes(from * 60), Until: planner.Minutes(until * 60)}
}

// party has a starter at 19:30, a main at 20:30 and a dessert at 21:30, two who cook, and a home kitchen.
func party(dishes ...planner.Dish) *planner.Party {
	counted := planner.HomeKitchen()
	for _, list := range [][]planner.Ware{counted.Vessels, counted.Plates} {
		for i := range list {
			list[i].Given = true
		}
	}
	p := &planner.Party{Zone: "UTC", Arrival: seven, Covers: 8, PrepDays: 2, Kitchen: counted, Dishes: dishes,
		People: []planner.Person{{Key: "ana", Role: planner.Host, Cooks: hours(9, 22)},
			{Key: "ben", Role: planner.CoHost, Cooks: hours(16, 22)}}}
	for i, name := range []string{"Starter", "Main", "Dessert"} {
		p.Courses = append(p.Courses, planner.Course{Key: planner.CourseKey(strings.ToLower(name)), Name: name,
			Servings: []planner.Serving{{At: seven.Add(time.Duration(30+60*i) * time.Minute), Early: 5, Late: 20}}})
	}
	return p
}

// dish has one step that is served within so many minutes.
func dish(course, name string, minutes, within planner.Minutes, uses ...planner.Use) planner.Dish {
	return planner.Dish{Key: planner.DishKey(planner.Key(name)), Name: name, Course: planner.CourseKey(course), Serves: 8,
		Steps: []planner.Step{{
			Key: "cook", Do: "Cook", Attention: planner.Hands, Where: planner.Heat,
			Time: planner.Span{Low: minutes, Likely: minutes, High: minutes}, Uses: uses,
			Serve: &planner.Wait{State: planner.Counter, BestUntil: within},
		}}}
}

func resting(d planner.Dish) planner.Dish {
	d.Steps[0].Attention = planner.Unattended
	return d
}

func of(d planner.Dish, ingredients ...string) planner.Dish {
	for i := 0; i < len(ingredients); i += 2 {
		d.Ingredients = append(d.Ingredients, planner.Ingredient{Amount: ingredients[i], Name: ingredients[i+1]})
	}
	return d
}

func oven(c, tolerance, shelves int) planner.Use {
	return planner.Use{What: planner.AnOven, C: c, Tolerance: tolerance, Amount: shelves}
}

func piece(what planner.Equipment, name string, n int) planner.Use {
	return planner.Use{What: what, Name: name, Amount: n}
}

// TestLook: a row a menu and what is said of it, whole; ours, by hand.
func TestLook(t *testing.T) {
	for _, c := range []struct {
		name string
		p    *planner.Party
		want string // sentences joined with " | "
	}{
		{"nothing", party(), ""},
		{"two pans of 25 minutes, two cooks", party(dish("main", "A", 25, 5), dish("main", "B", 25, 5)), ""},
		{"three are too many", party(dish("main", "A", 30, 5), dish("main", "B", 30, 5), dish("main", "C", 30, 5)),
			"Half an hour before Main everything comes at once: it asks 1 h 15 min of hands, and the 2 who cook then have 1 " +
				"hour. A asks the most."},
		{"three that can be made ahead", party(dish("main", "A", 30, 0), dish("main", "B", 30, 0), dish("main", "C", 30, 0)),
			""},
		{"three that nobody minds", party(resting(dish("main", "A", 30, 5)), resting(dish("main", "B", 30, 5)),
			resting(dish("main", "C", 30, 5))), ""},
		{"heats apart", party(resting(dish("main", "A", 40, 10, oven(220, 10, 1))),
			resting(dish("main", "B", 40, 10, oven(160, 10, 1)))),
			"A at 220 °C and B at 160 °C want the oven at the same time: bake one ahead, " +
				"or let one bear another temperature."},
		{"heats that can be shared", party(resting(dish("main", "A", 40, 10, oven(190, 10, 1))),
			resting(dish("main", "B", 40, 10, oven(170, 10, 1)))), ""},
		{"one after the other", party(resting(dish("main", "A", 40, 90, oven(220, 10, 1))),
			resting(dish("main", "B", 40, 10, oven(160, 10, 1)))), ""},
		{"other courses", party(resting(dish("main", "A", 40, 10, oven(220, 10, 1))),
			resting(dish("dessert", "B", 40, 10, oven(160, 10, 1)))), ""},
		{"shelves", party(resting(dish("main", "A", 40, 10, oven(180, 10, 1))),
			resting(dish("main", "B", 40, 10, oven(180, 10, 1))), resting(dish("main", "C", 40, 10, oven(180, 10, 1)))),
			"A, B and C are in the oven at the same time and take 3 shelves of 2: bake one ahead, or put one on the burners."},
		{"burners", party(resting(dish("main", "A", 20, 5, piece(planner.ABurner, "", 3))),
			resting(dish("main", "B", 20, 5, piece(planner.ABurner, "", 2)))),
			"A and B need 5 burners at the same time, and there are 4: cook one ahead, or use the oven."},
		{"a vessel", party(resting(dish("main", "A", 20, 5, piece(planner.AVessel, "roasting tin", 1))),
			resting(dish("main", "B", 20, 5, piece(planner.AVessel, "roasting tin", 1)))),
			"A and B need 2 roasting tins at the same time, and there is 1: borrow one, or use another."},
		{"food twice", party(of(dish("starter", "Tomato soup", 20, 0), "1 kg", "ripe tomatoes"),
			of(dish("main", "Cod with tomatoes", 20, 5), "2 tins", "chopped tomatoes", "1.2 kg", "cod")),
			"Tomato comes twice: in Tomato soup and Cod with tomatoes. Is that meant?"},
		{"fish twice", party(of(dish("starter", "Toasts", 20, 0), "400 g", "salmon"),
			of(dish("main", "Baked fish", 20, 5), "1.2 kg", "salmon")),
			"Salmon comes twice: in Toasts and Baked fish. Is that meant?"},
		{"one food by two names", party(of(dish("starter", "Aubergine dip", 20, 0), "1 kg", "aubergines"),
			of(dish("main", "Eggplant bake", 20, 5), "1.2 kg", "eggplant")),
			"Aubergine comes twice: in Aubergine dip and Eggplant bake. Is that meant?"},
		{"lemon may", party(of(dish("starter", "Lemon dip", 20, 0), "4", "lemons"), of(dish("dessert", "Lemon ice", 20, 5),
			"4", "lemons")), ""},
		{"twice in one course", party(of(dish("main", "Carrot roast", 20, 0), "1 kg", "carrots"),
			of(dish("main", "Carrot mash", 20, 5), "800 g", "carrots")), ""},
		{"little", party(of(dish("main", "Steaks", 20, 5), "400 g", "beef steak")),
			"Steaks has little beef: about 50 g a cover, where handbooks begin at 113 g, more than 1.5 times as much."},
	} {
		if got := strings.Join(Look(c.p), " | "); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}

func TestWares(t *testing.T) {
	a, b := dish("main", "A", 10, 0), dish("main", "B", 10, 0)
	a.Plate, b.Plate = "dinner plate", "dinner plate"
	p := party(a, b)
	if got := strings.Join(Look(p), " | "); got != "" {
		t.Errorf("eight guests have a plate each, whatever lies on it: %s", got)
	}
	p.Covers = 14
	if got := strings.Join(Look(p), " | "); got != "Main takes 14 dinner plates and you have 12: borrow 2, or serve a "+
		"dish on something else." {
		t.Errorf("two dishes on dinner plates: %s", got)
	}
	p.Kitchen = planner.HomeKitchen()
	if got := strings.Join(Look(p), " | "); got != "Count what you have: the menu takes 14 dinner plates, more than many "+
		"homes have. Fewer? Tell me (/kitchen ware name:… count:…)." {
		t.Errorf("plates that nobody has counted: %s", got)
	}
	more := *p
	if more.Covers = 20; len(News(p, &more)) > 0 {
		t.Errorf("asked to count them twice: %s", News(p, &more))
	}
	p = party(a)
	p.Covers = 30
	p.Drinks = []planner.Drink{{Name: "Red", Kind: planner.Red, Bottles: 6}}
	if got := strings.Join(Look(p), " | "); !strings.Contains(got, "There are 24 glasses for 30 covers: borrow 6.") {
		t.Errorf("glasses: %s", got)
	}
}

func TestUnfed(t *testing.T) {
	p := party(of(dish("main", "Roast", 20, 0), "1.4 kg", "pork loin"), of(dish("starter", "Salad", 20, 0), "300 g",
		"salad leaves"), dish("dessert", "Surprise", 10, 0))
	p.Guests = []planner.Guest{{Name: "Vera", Diets: []string{"vegan"}}, {Name: "Otto"}}
	want := "Main leaves 1 guest nothing, as far as the ingredients tell: add a dish, or change one. The cooks can look " +
		"up whom."
	if got := strings.Join(Look(p), " | "); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	before := *p
	p.Dishes = append(p.Dishes, of(dish("main", "Beans", 20, 0), "900 g", "green beans"))
	if got := News(&before, p); len(got) > 0 {
		t.Errorf("beans help, yet %q is news", got)
	}
	if got := News(p, &before); len(got) != 1 || got[0] != want {
		t.Errorf("without the beans: %q", got)
	}
	p.Dishes[0].Ingredients[0].Optional = true
	p.Dishes = p.Dishes[:3]
	if got := Look(p); len(got) > 0 {
		t.Errorf("what may be left out bars nobody: %q", got)
	}
}

// TestChain: what comes before a step that is served at once is held as tightly as the waits between them say.
func TestChain(t *testing.T) {
	d := dish("main", "A", 10, 5)
	d.Steps = append([]planner.Step{{Key: "mix", Do: "Mix", Attention: planner.Hands, Where: planner.Counter,
		Time: planner.Span{Low: 20, Likely: 20, High: 20}}}, d.Steps...)
	d.Steps[1].After = []planner.After{{Step: "mix", Wait: planner.Wait{State: planner.Counter, WorthUntil: 15, Least: 2}}}
	s := reckon(party(d)).spans
	// Served at 90 minutes after the arrival; cooked by 85 to 90; mixed between 85-10-15 and 90-10-2.
	if s[1].earliest != 85 || s[1].latest != 90 || s[0].earliest != 60 || s[0].latest != 78 {
		t.Errorf("mixed %d to %d, cooked %d to %d", s[0].earliest, s[0].latest, s[1].earliest, s[1].latest)
	}
	d.Steps[0].After = []planner.After{{Step: "cook"}} // a circle, which validation refuses
	Look(party(d))
}

// TestReadyDishes: of any menu from the shelf every sentence is one, the same each time, and more ovens and people
// never make more of it.
func TestReadyDishes(t *testing.T) {
	all := repertoire.List()
	rapid.Check(t, func(t *rapid.T) {
		p := party()
		p.Covers = rapid.IntRange(1, 40).Draw(t, "covers")
		for _, c := range rapid.SliceOfNDistinct(rapid.SampledFrom(all), 0, 8, func(c repertoire.Card) planner.DishKey {
			return c.Key
		}).Draw(t, "menu") {
			d := c.Dish()
			d.Course = rapid.SampledFrom(p.Courses).Draw(t, "course").Key
			p.Dishes = append(p.Dishes, d)
		}
		first := Look(p)
		for i, s := range Look(p) {
			if s != first[i] || !strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "?") {
				t.Fatalf("%q, then %q", first[i], s)
			}
		}
		if n := len(News(p, p)); n > 0 {
			t.Fatalf("%d pieces of news about nothing", n)
		}
		rich := *p
		rich.Kitchen = planner.HomeKitchen()
		for range p.Dishes {
			rich.Kitchen.Ovens = append(rich.Kitchen.Ovens, rich.Kitchen.Ovens[0], rich.Kitchen.Ovens[0])
			rich.People = append(rich.People, p.People[0], p.People[0], p.People[0], p.People[0])
		}
		rich.People = append(rich.People, p.People...)
		for _, s := range Look(&rich) {
			if strings.Contains(s, "want the oven") || strings.Contains(s, "shelves of") {
				t.Fatalf("with an oven or two for each dish: %s", s)
			}
		}
	})
}

// TestSpansHoldInPlans: in plans that leave nothing longer than is good for it, every step of the ready dishes ends
// between the times that are reckoned here without a plan, and the hands of the last half hour are no fewer. The
// planner shares no code with the reckoning.
func TestSpansHoldInPlans(t *testing.T) {
	steps := 0
	for _, name := range []string{"Roast pork with fennel and apples", "Rosemary roast potatoes",
		"Prawns with garlic and chilli", "Roast chicken with lemon and bay", "Lemon posset", "Herbed rice",
		"Cod with tomatoes and olives", "Courgette and ricotta lasagne"} {
		card, ok := repertoire.Find(name)
		if !ok {
			t.Fatalf("no ready dish %q", name)
		}
		d := card.Dish()
		d.Course = "main"
		p := party(d)
		p.Courses = p.Courses[1:2]
		p.Courses[0].Servings[0].Early, p.Courses[0].Servings[0].Late = 0, 0
		if problems := p.Validate(); len(problems) > 0 {
			t.Fatal(problems)
		}
		plan, _, err := solve.Make(context.Background(), p, solve.Ask{Now: seven.AddDate(0, 0, -3)})
		if err != nil || plan == nil {
			t.Fatalf("%s: no plan: %v", name, err)
		}
		w := reckon(p)
		for i := range w.spans {
			s := &w.spans[i]
			last := 1
			for _, task := range planner.Tasks(p) {
				if task.Dish == s.dish.Key && task.Step == s.step.Key {
					last = task.Rounds
				}
			}
			at := plan.Placed(planner.StepTask(s.dish.Key, s.step.Key, last))
			if at == nil {
				t.Fatalf("%s/%s is not in the plan", s.dish.Key, s.step.Key)
			}
			end := int(at.End.Sub(p.Arrival) / time.Minute)
			steps++
			if end > s.latest || end < s.earliest {
				t.Errorf("%s/%s ends at %d, reckoned %d to %d", s.dish.Key, s.step.Key, end, s.earliest, s.latest)
			}
		}
	}
	if steps < 15 {
		t.Errorf("only %d steps looked at", steps)
	}
}

// BenchmarkLook is the whole shelf on one menu, larger than any dinner.
func BenchmarkLook(b *testing.B) {
	p := party()
	for i, c := range repertoire.List() {
		d := c.Dish()
		d.Course = p.Courses[i%len(p.Courses)].Key
		p.Dishes = append(p.Dishes, d)
	}
	p.Guests = []planner.Guest{{Name: "Vera", Diets: []string{"vegan"}},
		{Name: "Otto", Allergies: []string{"nuts", "milk"}}}
	for b.Loop() {
		Look(p)
	}
}
