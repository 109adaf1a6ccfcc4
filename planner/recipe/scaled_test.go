package recipe

import (
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/scale"
)

// TestReadDishesGrow: what a dish that was read asks for when it is made for more; the recipes are our own.
func TestReadDishesGrow(t *testing.T) {
	const lasagne = "Plain lasagne\n\nServes 12\n\n1 kg beef mince\n2 onions\n2 tbsp olive oil\n2 bay leaves\n" +
		"1 l passata\n14 tbsp soy sauce\n500 ml bechamel\n24 lasagne sheets\n" +
		"250 g parmesan\n\n1. Slice the onions. Fry them with the " +
		"mince in the oil for 15 minutes.\n2. Add the passata and bay leaves and simmer for 45 minutes.\n3. Preheat the " +
		"oven to 180 °C. Layer the sauce, bechamel and sheets in a baking dish and top with the parmesan.\n4. Bake for 45 " +
		"minutes. Turn off the oven and rest for 10 minutes."
	const muffins = "Corn muffins\n\nMakes 12, serves 12\n\n250 g flour\n2 eggs\n2 egg whites\n250 ml milk\n\n1. " +
		"Mix the flour, eggs, whites and milk.\n2. Fill a muffin tin and bake at 190 °C for 20 minutes."
	for _, c := range []struct {
		text   string
		covers int
		says   []string // of the work
	}{
		{lasagne, 12, nil},
		{lasagne, 14, nil}, // a quarter more goes into the same dish
		{lasagne, 23, []string{"2 shelves, 2 baking dishes at once"}},
		{lasagne, 40, []string{"rounds"}},
		{muffins, 23, []string{"2 shelves at once", "wants 2 muffin tins: borrow"}},
	} {
		r, err := Read(c.text)
		if err != nil {
			t.Fatal(err)
		}
		p := planner.Party{Covers: c.covers, Kitchen: planner.HomeKitchen()}
		d, _ := r.Dish("main", 0)
		p.Dishes = []planner.Dish{d}
		work := strings.Join(scale.Work(&p, &d), "\n")
		if len(c.says) == 0 && work != "" {
			t.Errorf("%s for %d: %s", d.Name, c.covers, work)
		}
		for _, s := range c.says {
			if !strings.Contains(work, s) {
				t.Errorf("%s for %d: no %q in\n%s", d.Name, c.covers, s, work)
			}
		}
		for i := range d.Steps {
			s := &d.Steps[i]
			fit := p.Fit(&d, s)
			grown, oven := fit.Time.Likely != s.Time.Likely, false
			for _, u := range s.Uses {
				oven = oven || u.What == planner.AnOven
			}
			if oven && grown { // it bakes as deep as it is
				t.Errorf("%s for %d: %s takes %v", d.Name, c.covers, s.Do, fit.Time)
			}
			if strings.HasPrefix(s.Do, "Slice") && c.covers == 23 && !grown {
				t.Errorf("%s for %d: %s takes no longer", d.Name, c.covers, s.Do)
			}
			if strings.Contains(s.Do, "Turn off") || strings.Contains(s.Do, "Preheat") {
				t.Errorf("%s is a step", s.Do)
			}
		}
		for i, l := range scale.Amounts(&p, &d) {
			if strings.Contains(l.Amount, "⅔") && d.Ingredients[i].Name == "bay leaves" ||
				strings.Contains(l.Amount, "tbsp") &&
					len(l.Amount) > 0 && l.Amount[0] >= '1' && l.Amount[0] <= '9' && l.Amount[1] >= '0' && l.Amount[1] <= '9' &&
					c.covers > 12 {
				t.Errorf("%s for %d: %s of %s", d.Name, c.covers, l.Amount, d.Ingredients[i].Name)
			}
		}
	}
}
