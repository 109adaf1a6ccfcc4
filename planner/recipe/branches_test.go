package recipe

import (
	"slices"
	"strings"
	"testing"

	"tureen/planner"
)

// at is the last step whose words have some of a text.
func at(t *testing.T, r *Reading, words string) int {
	t.Helper()
	for i := len(r.Steps) - 1; i >= 0; i-- {
		if strings.Contains(strings.ToLower(r.Steps[i].Do), strings.ToLower(words)) {
			return i
		}
	}
	t.Fatalf("no step says %q in\n%s", words, r.Outline())
	return -1
}

// comesAfter reports whether a step comes after another, over any number of steps.
func comesAfter(order [][]int, late, early int) bool {
	return slices.ContainsFunc(order[late], func(a int) bool { return a == early || comesAfter(order, a, early) })
}

// TestBranches: what goes into what in recipes of several parts, as a cook reads them: "a < b" says that b is done with
// what a left, "a | b" that neither waits for the other.
func TestBranches(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"browned meat is put back, and its pan is fried in meanwhile", `Beef in stout
Serves 4
1 kg stewing beef
2 onions
1 head of garlic
300 ml stout
400 ml beef stock

Brown the beef in batches and set it aside. Chop the onions and fry them in the same pan for 10 minutes. Halve the ` +
			`garlic and put it in cut side down. Pour in the stout and boil it down by half. Put the beef back, add the ` +
			`stock and simmer for 2 hours.`,
			[]string{"fry them < put it in", "put it in < simmer", "brown < fry them", "chop the onions | brown"}},
		{"the juices stay in the tin while the meat rests", `Roast pork
Serves 6
2 kg pork loin
1 cabbage
300 ml cider

1. Roast the pork at 180 °C for 2 hours. Lift it out, cover it loosely and rest it for 30 minutes.
2. Shred the cabbage and steam it for 10 minutes.
3. Skim the fat off the juices, add the cider and boil for 5 minutes.
4. Carve and serve.`,
			[]string{"roast < boil for 5", "boil for 5 | rest it", "rest it < carve", "steam | roast", "boil for 5 < serve"}},
		{"a paragraph of new food begins a part", `Bowls
Serves 4
250 g pearl barley
600 g carrots
2 tbsp oil
350 g couscous
450 ml stock
300 g yoghurt
1 cucumber

Toss the carrots in the oil. Roast them at 220 °C for 30 minutes.

Simmer the barley for 25 minutes. Drain it well.

Pour the stock over the couscous. Cover it for 10 minutes.

Salt the cucumber and leave it for 20 minutes. Squeeze it and stir it into the yoghurt.

Bring everything to the table.`,
			[]string{"roast | simmer", "cover | simmer", "salt | cover", "simmer < bring", "cover < bring", "squeeze < bring"}},
		{"a part's name, back to the soup, and the dish it is served in", `Pea soup with croutons
Serves 4
1 onion
500 g peas
1 l stock
2 slices of bread
2 tbsp oil

Soften the onion for 8 minutes, add the stock and the peas and blend.

Croutons: fry the bread in the oil until gold.

Reheat the soup gently. Ladle it out, croutons on top.`,
			[]string{"blend < reheat", "fry the bread | reheat", "fry the bread < ladle"}},
		{"warmed for the table, before it is dressed", `Warm lentils
Serves 4
250 g lentils
100 g rocket
2 tbsp vinegar
4 tbsp olive oil

Simmer the lentils for 20 minutes and drain them.

Whisk the vinegar and oil to a dressing.

Toss the lentils and the rocket with the dressing and serve.

The lentils can be made a day ahead; warm the lentils through before serving.`,
			[]string{"simmer < warm the lentils", "warm the lentils < toss"}},
		{"under it, as soon as it sets", `Trout mousse
Serves 6
300 g smoked trout
4 leaves of gelatine
100 ml stock
200 ml cream

Soak the gelatine for 5 minutes. Blend the trout. Warm the stock, melt the gelatine in it and stir it into the ` +
			`trout. Whip the cream and fold it in as soon as the mass begins to set. Chill for 6 hours.`,
			[]string{"warm the stock < fold it in", "begins to set < fold it in", "whip < fold it in", "fold it in < chill"}},
	} {
		r, err := Read(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		order := r.Order()
		for _, w := range c.want {
			a, b, before := strings.Cut(w, " < ")
			if !before {
				a, b, _ = strings.Cut(w, " | ")
			}
			i, k := at(t, r, a), at(t, r, b)
			if before && i != k && !comesAfter(order, k, i) {
				t.Errorf("%s: %q does not come before %q in\n%s", c.name, a, b, r.Outline())
			}
			if !before && (i == k || comesAfter(order, i, k) || comesAfter(order, k, i)) {
				t.Errorf("%s: %q and %q wait for each other in\n%s", c.name, a, b, r.Outline())
			}
		}
	}
}

// TestTimesOfWork: how long work by hand and rounds take is by how much of it there is.
func TestTimesOfWork(t *testing.T) {
	for _, c := range []struct {
		name, text, step string
		low, high        int // between which the step's likely time lies
	}{
		{"two or three at a time, on both sides", "Cheeks\nServes 6\n6 ox cheeks\n2 tbsp oil\n\nBrown the cheeks in the " +
			"oil, two or three at a time, five minutes a side.\nServe.", "brown", 20, 30},
		{"so long a batch", "Balls\nServes 6\n900 g minced lamb\n2 tbsp oil\n\nRoll the lamb into balls. Fry them in the " +
			"oil in batches, eight minutes a batch.\nServe.", "fry", 16, 24},
		{"on each of three sides", "Ribs\nServes 4\n4 short ribs\n2 tbsp oil\n\nBrown the ribs in the oil for four minutes " +
			"on each of three sides.\nServe.", "brown", 12, 12},
		{"out before it is cooked", "Cod\nServes 4\n4 cod fillets\n\nTake the cod out 20 minutes before cooking. Fry it " +
			"for 6 minutes.\nServe.", "take the cod out", 20, 20},
		{"cooled in water", "Eggs\nServes 4\n8 eggs\n\nBoil the eggs for 7 minutes. Cool them in iced water.\nServe.", "cool",
			3, 6},
		{"cut up by weight", "Curry\nServes 8\n2 kg mutton\n2 tbsp oil\n\nTake the mutton and cut it into small pieces. " +
			"Fry it in the oil for 10 minutes.\nServe.", "cut it", 10, 30},
	} {
		r, err := Read(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		s := &r.Steps[at(t, r, c.step)]
		if likely := (s.Time.Low + s.Time.High) / 2; likely < c.low || likely > c.high {
			t.Errorf("%s: %q takes %s, want %d to %d min", c.name, s.Do, s.Time, c.low, c.high)
		}
	}
}

// TestHotForTheTable: what a recipe lets be made ahead and warms again waits in the cold before that and never after
// it, and what nothing warms again is not served cold.
func TestHotForTheTable(t *testing.T) {
	r, err := Read(`Parsnip soup
Serves 6
800 g parsnips
1 l stock
100 ml cream
4 slices of bacon

Simmer the parsnips in the stock for 25 minutes. Blend the soup smooth.

Fry the bacon until crisp.

Add the cream to the soup and reheat it. Bacon on top at the table.

The soup keeps 3 days in the fridge.`)
	if err != nil {
		t.Fatal(err)
	}
	d, _ := r.Dish("main", 6)
	warms := at(t, r, "reheat")
	for i := range d.Steps {
		for _, a := range d.Steps[i].After {
			if a.Step == d.Steps[warms].Key && a.Wait.State == planner.Refrigerator {
				t.Errorf("warmed up, and then into the cold for %q", d.Steps[i].Do)
			}
		}
	}
	r, err = Read(`Pork with red cabbage
Serves 8

For the pork
2.5 kg pork shoulder

For the cabbage
1 red cabbage
2 apples
50 g butter

1. Roast the pork at 150 °C for 4 hours. Rest it for 40 minutes.
2. Melt the butter, add the cabbage and the apples and cook for 1 1/2 hours.
3. Carve the pork and serve everything.

The cabbage can be made up to 3 days ahead and reheated.`)
	if err != nil {
		t.Fatal(err)
	}
	d, _ = r.Dish("main", 8)
	cabbage, pork := at(t, r, "cook for 1 1/2"), at(t, r, "roast the pork")
	if w := d.Steps[cabbage].Ahead; w == nil || w.State != planner.Refrigerator || w.WorthUntil != 3*24*60 {
		t.Errorf("the cabbage may wait so: %+v, want three days in the cold, to be reheated", w)
	}
	if w := d.Steps[pork].Ahead; w != nil {
		t.Errorf("the pork may wait so: %+v, and only the cabbage can", w)
	}
	for i := range d.Steps {
		for _, a := range d.Steps[i].After {
			if a.Wait.State == planner.Refrigerator && (a.Step == d.Steps[cabbage].Key || a.Step == d.Steps[pork].Key) {
				t.Errorf("%q is put into the cold before %q, which heats nothing", a.Step, d.Steps[i].Do)
			}
		}
	}
}
