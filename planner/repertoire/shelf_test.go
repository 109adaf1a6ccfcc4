package repertoire

import (
	"slices"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/safety"
)

// TestShelf: at least 60 dishes over all courses, several for each diet, nothing twice.
func TestShelf(t *testing.T) {
	all := List()
	if len(all) < 60 {
		t.Fatalf("%d dishes, want at least 60", len(all))
	}
	courses, diets, keys := map[planner.CourseKey]int{}, map[safety.Diet]int{}, map[planner.DishKey]bool{}
	for _, c := range all {
		courses[c.Course]++
		for _, d := range c.Diets {
			diets[d]++
		}
		if keys[c.Key] {
			t.Errorf("two dishes %s", c.Key)
		}
		keys[c.Key] = true
		if slices.Contains(c.Diets, safety.Vegan) && (!slices.Contains(c.Diets, safety.Vegetarian) ||
			!slices.Contains(c.Diets, safety.DairyFree)) {
			t.Errorf("%s is vegan but not vegetarian and dairy free", c.Name)
		}
	}
	for _, c := range Courses {
		if courses[c] == 0 {
			t.Errorf("no dish for the course %s", c)
		}
	}
	for _, d := range Diets {
		if diets[d] < 3 {
			t.Errorf("%d dishes are %s, want at least 3", diets[d], d)
		}
	}
}

// TestCards: what every card must hold to be planned in a home kitchen.
func TestCards(t *testing.T) {
	kitchen := planner.HomeKitchen()
	for _, c := range List() {
		d := c.Dish()
		for _, in := range d.Ingredients {
			if _, err := measure.ParseWhole(in.Amount); err != nil {
				t.Errorf("%s: %s: %v", c.Name, in.Name, err)
			}
			if !in.Have && (in.Shop == "" || in.Section == "") {
				t.Errorf("%s: %s: no shop or section", c.Name, in.Name)
			}
			if in.Frozen && in.Grams <= 0 {
				t.Errorf("%s: %s: frozen, but of no weight", c.Name, in.Name)
			}
		}
		if d.Plate != "" && !slices.ContainsFunc(kitchen.Plates, func(w planner.Ware) bool { return w.Name == d.Plate }) {
			t.Errorf("%s: no %q in a home kitchen", c.Name, d.Plate)
		}
		served := 0
		for i := range d.Steps {
			s := &d.Steps[i]
			at := c.Name + "/" + string(s.Key)
			if !(0 < s.Time.Low && s.Time.Low <= s.Time.Likely && s.Time.Likely <= s.Time.High) {
				t.Errorf("%s: times %v", at, s.Time)
			}
			if s.Serve != nil {
				served++
			}
			if s.Attention == planner.Touch && s.Every == 0 {
				t.Errorf("%s: a touch without a rhythm", at)
			}
			for _, u := range s.Uses {
				if u.What == planner.AnOven && (u.C < kitchen.Ovens[0].MinC || u.C > kitchen.Ovens[0].MaxC) {
					t.Errorf("%s: oven at %d °C", at, u.C)
				}
			}
		}
		if served != 1 {
			t.Errorf("%s: %d steps are served, want 1", c.Name, served)
		}
	}
}

// TestWaitsKeepLimits: no wait that a card allows is longer than the published limit for the food that
// waits (package safety names the sources), nor is the time it is at its best.
func TestWaitsKeepLimits(t *testing.T) {
	checked := 0
	for _, c := range List() {
		d := c.Dish()
		check := func(from *planner.Step, w planner.Wait) {
			if !from.Leaves.Perishable {
				return
			}
			var limit safety.Limit
			switch w.State {
			case planner.Refrigerator:
				limit = safety.RefrigeratorLimit(from.Leaves.Kind)
			case planner.Counter, planner.Warm:
				limit = safety.CounterLimit(planner.UsualRoomC)
			default:
				return
			}
			checked++
			longest := max(w.Least, w.Longest, w.WorthUntil, w.BestUntil)
			if w.State == planner.Refrigerator && w.Longest == 0 && w.WorthUntil == 0 {
				t.Errorf("%s/%s: waits in the refrigerator without end", c.Name, from.Key)
			}
			if int(longest) > limit.Minutes {
				t.Errorf("%s/%s: may wait %d min in the %s; the limit is %s", c.Name, from.Key, longest, w.State, limit.Figure())
			}
		}
		for i := range d.Steps {
			s := &d.Steps[i]
			for _, a := range s.After {
				if !a.FromStart {
					check(d.Step(a.Step), a.Wait)
				}
			}
			if s.Serve != nil {
				check(s, *s.Serve)
			}
		}
	}
	if checked < 50 {
		t.Errorf("only %d waits were checked", checked)
	}
}

// TestCookedThrough: where raw meat, poultry or fish is cooked, the sign names a temperature that reaches
// the consumer charts (foodsafety.gov, Safe Minimum Internal Temperatures), as package safety holds them.
func TestCookedThrough(t *testing.T) {
	for _, c := range List() {
		d := c.Dish()
		for i := range d.Steps {
			s := &d.Steps[i]
			if !s.Cooks {
				continue
			}
			for _, kind := range rawBefore(&d, s) {
				limit := safety.CookTo(kind)
				if !limit.Heated {
					continue
				}
				if kind == safety.RedMeat && !strings.Contains(s.Until, "°C") {
					// A braise is hours past the chart's 63 °C; its sign is the fork.
					if s.Time.Low < 120 {
						t.Errorf("%s/%s: cooks %s without a temperature", c.Name, s.Key, kind)
					}
					continue
				}
				if got := lastNumber(s.Until); float64(got) < limit.TempC-0.9 || got == 0 && kind != safety.RedMeat {
					t.Errorf("%s/%s: until %q, want %s", c.Name, s.Key, s.Until, limit.Figure())
				}
			}
		}
	}
}

// rawBefore lists the raw kinds that reach a step.
func rawBefore(d *planner.Dish, s *planner.Step) []safety.Kind {
	var kinds []safety.Kind
	for _, a := range s.After {
		from := d.Step(a.Step)
		if k := from.Leaves.Kind; from.Leaves.Perishable && !from.Cooks &&
			slices.Contains([]safety.Kind{safety.Poultry, safety.GroundMeat, safety.RedMeat, safety.Fish, safety.RawEgg}, k) {
			kinds = append(kinds, k)
		}
	}
	return kinds
}

// lastNumber is the last figure in front of "°C" in a text, 0 without one.
func lastNumber(text string) int {
	at := strings.LastIndex(text, "°C")
	if at < 0 {
		return 0
	}
	n, place := 0, 1
	for i := at - 1; i >= 0; i-- {
		b := text[i]
		if b == ' ' && n == 0 {
			continue
		}
		if b < '0' || b > '9' {
			break
		}
		n, place = n+int(b-'0')*place, place*10
	}
	return n
}

func TestFind(t *testing.T) {
	for _, c := range []struct{ name, want string }{
		{"lemon posset", "lemon-posset"},
		{"LEMON POSSET", "lemon-posset"},
		{"posset", "lemon-posset"},
		{"herbed", "herbed-rice"},
		{"salmon dill", "baked-salmon-with-dill"},
		{"roast", ""}, // several
		{"unicorn", ""},
		{"", ""},
		{"🍋", ""},
	} {
		got, ok := Find(c.name)
		if string(got.Key) != c.want || ok != (c.want != "") {
			t.Errorf("Find(%q) = %q, %v, want %q", c.name, got.Key, ok, c.want)
		}
	}
	for _, c := range List() {
		if got, ok := Find(c.Name); !ok || got.Key != c.Key {
			t.Errorf("Find(%q) = %q", c.Name, got.Key)
		}
	}
}

// TestDishIsACopy: what a host changes stays out of the shelf.
func TestDishIsACopy(t *testing.T) {
	c, _ := Find("celeriac mash")
	d := c.Dish()
	d.Ingredients[0].Name = "turnip"
	d.Steps[2].Serve.Hold.Name = "oven"
	d.Steps[1].Uses[0].Amount = 9
	d.Steps[1].After[0].Wait.WorthUntil = 1
	again := c.Dish()
	if again.Ingredients[0].Name == "turnip" || again.Steps[2].Serve.Hold.Name == "oven" ||
		again.Steps[1].Uses[0].Amount == 9 || again.Steps[1].After[0].Wait.WorthUntil == 1 {
		t.Error("the shelf changed with the copy")
	}
}

func TestCardsRefuse(t *testing.T) {
	good := "name: Toast\ncourse: bread\nserves: 2\n2 slices | bread | bakery, bread\nstep toast: Toast it\n  watch 2 / " +
		"3 / 4\n  where heat, cooks\n  leaves none\n"
	if _, err := readCard(good); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ line, say string }{
		{"  sings loudly", "nothing that a step has"},
		{"  uses flame thrower", "no \"flame thrower\""},
		{"  after butter: straight", "no step"},
		{"  oven warm", "warm"},
		{"  leaves dragon", "dragon"},
		{"  serve shelf", "does not wait"},
		{"  where pocket", "pocket"},
		{"  hands 3 / 4", "low / likely / high"},
		{"  uses oven glove", "oven glove"},
		{"colour: brown", "head"},
		{"1 | jam", "amount | name"},
		{"1 | jam | cellar", "where is it bought"},
		{"1 | jam | supermarket, tins | for spread", "no step"},
	} {
		if _, err := readCard(good + c.line + "\n"); err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%q: got %v, want an error with %q", c.line, err, c.say)
		}
	}
}

// FuzzReadCard: whatever stands in a card, reading it answers or refuses, and what it takes is whole.
func FuzzReadCard(f *testing.F) {
	for _, c := range []string{
		"name: Toast\ncourse: bread\nserves: 2\n2 slices | bread | bakery, bread\nstep toast: Toast it\n  watch 2 / 3 / " +
			"4\n  where heat, cooks\n  leaves none\n  serve counter, best 0 to 5 min\n",
		"name: X\n| | |\nstep a: b\n  hands 1 / 2\n", "step : \n  after a: from its start\n", "  oven\n",
		"name: A\ncourse: main\nserves: 1\n1 | x | s, t | keeps 1 d, frozen 5 g\nstep a: b\n  rest 1 h / 2 h / 3 h, rounds " +
			"of 2, gap 5 min\n  where counter\n  leaves poultry, 5 ml, 1 flat, part-cooked\n  uses casserole, 2 of them\n",
	} {
		f.Add(c)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := readCard(text)
		if err != nil {
			return
		}
		d := c.Dish()
		if d.Key == "" || d.Serves < 1 || len(d.Steps) == 0 || d.Course != c.Course {
			t.Errorf("took half a card: %+v", d)
		}
		c.Lead()
	})
}
