package food_test

import (
	"bufio"
	"os"
	"slices"
	"strings"
	"testing"

	"tureen/planner/food"
	"tureen/planner/safety"
)

// golden reads a table of testdata: a line of column names, then a line a row.
func golden(t *testing.T, file string, columns int) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var rows [][]string
	for s := bufio.NewScanner(f); s.Scan(); {
		r := strings.Split(s.Text(), "\t")
		if len(r) != columns {
			t.Fatalf("%s: %q has %d columns, want %d", file, s.Text(), len(r), columns)
		}
		rows = append(rows, r)
	}
	return rows[1:]
}

func className(f food.Food) string {
	if f.Class == nil {
		return ""
	}
	return f.Class.Name
}

// TestGolden: what kind and class names have. Where the recipe reader's or the cooking check's own lists said another
// kind before there was one table, it stands in was, and why.
func TestGolden(t *testing.T) {
	rows := golden(t, "golden.tsv", 5)
	if len(rows) < 400 {
		t.Errorf("%d names, want at least 400", len(rows))
	}
	for _, r := range rows {
		f, _ := food.Find(r[0])
		k, known := food.KindOf(r[0])
		if string(k) != r[1] || className(f) != r[2] || known != (r[1] != "") {
			t.Errorf("%q is %q of class %q, want %q, %q", r[0], k, className(f), r[1], r[2])
		}
		if (r[3] != "") != (r[4] != "") || r[3] == r[1] && r[3] != "" {
			t.Errorf("%q: was %q, now %q, because %q", r[0], r[3], r[1], r[4])
		}
	}
}

// TestTellsGolden: every allergen and avoided thing that the words told before there was one table they tell still,
// as surely; what is told besides stands in the third column.
func TestTellsGolden(t *testing.T) {
	rows := golden(t, "tells.tsv", 3)
	if len(rows) < 900 {
		t.Errorf("%d names, want at least 900", len(rows))
	}
	for _, r := range rows {
		want := strings.Fields(r[1] + " " + r[2])
		got := map[string]bool{}
		for _, x := range food.Tells(r[0]) {
			mark := string(x.Tag)
			if x.Certainty == food.MayContain {
				mark += "?"
			}
			got[mark] = true
		}
		for _, w := range want {
			if !got[w] && !(strings.HasSuffix(w, "?") && got[strings.TrimSuffix(w, "?")]) {
				t.Errorf("%q: %s is not told; it tells %v", r[0], w, got)
			}
		}
		for g := range got {
			if !slices.Contains(want, g) && !slices.Contains(want, strings.TrimSuffix(g, "?")) {
				t.Errorf("%q: tells %s besides %v", r[0], g, want)
			}
		}
	}
}

// TestCookedTo: every food that is raw meat, fish or shellfish has its published temperature or sign.
func TestCookedTo(t *testing.T) {
	raw := 0
	for _, n := range food.Names() {
		k, _ := food.KindOf(n)
		if !k.Raw() {
			continue
		}
		raw++
		if l := safety.CookTo(safety.Kind(k)); !l.Applies() || l.Source == "" {
			t.Errorf("%s (%s) has no published temperature or sign", n, k)
		}
		// A word that says otherwise must be about all of it.
		for _, s := range []string{"half-cooked " + n, n + ", to be grilled", "raw " + n, n + ", for roasting",
			"frozen " + n} {
			if got, _ := food.KindOf(s); !got.Raw() {
				t.Errorf("%q is %q, though it is raw", s, got)
			}
		}
	}
	if raw < 200 {
		t.Errorf("%d raw foods, want 200", raw)
	}
	for _, s := range []string{"Roast the pheasant", "rabbit", "mackerel", "crab", "sausages", "guinea fowl",
		"partridge", "goat shoulder", "oxtail", "lobster", "octopus", "herring"} {
		if k, ok := food.KindOf(s); !ok || !safety.CookTo(safety.Kind(k)).Applies() {
			t.Errorf("%q is %q and has no temperature", s, k)
		}
	}
}

// TestSpellings: names, spellings and loan words for one food.
func TestSpellings(t *testing.T) {
	for _, names := range [][]string{
		{"aubergine", "eggplant", "Aubergines", "EGGPLANTS", "egg-plant", "egg plant"}, {"courgette", "zucchini",
			"courgettes"},
		{"coriander", "cilantro", "fresh coriander", "coriander leaves"}, {"rocket", "baby rocket"},
		{"spring onion", "scallion", "green onions", "salad onions"}, {"beetroot", "beet", "beets"}, {"swede", "rutabaga"},
		{"chickpeas", "garbanzo beans", "chickpea"}, {"crème fraîche", "creme fraiche", "Crème Fraîche", "creme-fraiche"},
		{"chillies", "chilli", "chilis", "chiles", "jalapeño", "jalapeno"}, {"pâté", "pate"}, {"cornflour",
			"cornstarch", "corn starch"},
		{"icing sugar", "powdered sugar", "confectioners' sugar"}, {"self-raising flour", "self raising flour",
			"self-rising flour"},
		{"plain flour", "all-purpose flour", "flour"}, {"bicarbonate of soda", "baking soda"}, /* one name each */
		{"pepper", "black pepper"},
		{"peppers", "bell pepper", "red peppers", "capsicum"}, {"prawns", "prawn", "raw prawns"}, {"guinea fowl",
			"guinea-fowl", "guineafowl"},
		{"ketchup", "tomato ketchup"}, {"bay leaves", "bay leaf", "bay"}, {"loaves", "loaf"}, {"cookies", "cookie"},
		{"quiche", "quiches"},
		{"leg of lamb", "lamb leg", "boneless leg of lamb"}, {"cloves of garlic", "garlic cloves", "garlic, crushed",
			"3 garlic cloves"},
		{"flour, bread", "bread flour"}, {"mozzarella", "mozzarella cheese", "buffalo mozzarella", "cheese, mozzarella"},
	} {
		first, ok := food.Find(names[0])
		if !ok {
			t.Errorf("%q is not known", names[0])
		}
		for _, n := range names[1:] {
			if f, ok := food.Find(n); !ok || f.Name != first.Name || f.Class != first.Class {
				t.Errorf("%q is %q, want %q as %q is", n, f.Name, first.Name, names[0])
			}
		}
	}
}

// TestUnknown: what the tables do not know is said to be unknown.
func TestUnknown(t *testing.T) {
	for _, s := range []string{"", " ", ",", "stardust", "tomato brittle", "pear crunch", "tofu bacon", "🥜", "雞蛋",
		"the", "200 g", "cake tin", "pastry brush"} {
		f, ok := food.Find(s)
		if k, known := food.KindOf(s); ok || known || k != food.Unknown || f.Kind() != food.Unknown ||
			f.Shelf() != nil || f.Piece() != nil {
			t.Errorf("%q is said to be %q, %q", s, f.Name, k)
		}
	}
	// What is about something unknown, and has raw meat in it, is raw meat for the limits.
	for s, want := range map[string]food.Kind{"chicken supreme royale": food.Poultry, "salmon whatsit": food.Fish} {
		if _, ok := food.Find(s); ok {
			t.Errorf("%q is said to be known", s)
		}
		if k, ok := food.KindOf(s); !ok || k != want {
			t.Errorf("%q is %q, want %q", s, k, want)
		}
	}
}

// TestAll: every food of a step, with what is said of each.
func TestAll(t *testing.T) {
	for text, want := range map[string]string{
		"Add the cooked rice and the chicken to the pan":    "rice/cooked-rice chicken/raw-poultry",
		"Whisk the egg yolks with sugar, then add milk":     "egg yolk/raw-egg sugar/sugar milk/milk",
		"Chop the butter beans":                             "white bean/dry-pulses",
		"Simmer 20 minutes":                                 "",
		"Brown the minced beef; drain the tinned chickpeas": "minced beef/raw-mince tinned chickpea/tinned-pulses",
	} {
		var got []string
		for _, f := range food.All(text) {
			got = append(got, f.Name+"/"+className(f))
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q names %v, want %s", text, got, want)
		}
	}
}

// TestStates: what a text says of a food is kept beside its class.
func TestStates(t *testing.T) {
	f, ok := food.Find("frozen cooked prawns, thawed")
	if !ok || !f.Is("frozen") || !f.Is("cooked") || f.Class.Kind != food.Cooked || f.Class.Keep != "refrigerator" {
		t.Errorf("frozen cooked prawns: %+v", f)
	}
	if f, _ := food.Find("apricots, dried"); className(f) != "dried-fruit" || f.Shelf() != nil || f.Piece() != nil {
		t.Errorf("dried apricots keep as fresh ones: %+v", f)
	}
	if f, _ := food.Find("eggs"); f.Class.Whole != food.Eggs || f.Kind() != food.RawEgg ||
		f.Class.Cooked.Kind != food.EggDish {
		t.Errorf("eggs: %+v", f.Class)
	}
	if f, _ := food.Find("garlic"); !f.Season() || f.Class.Sold != "vegetables" {
		t.Errorf("garlic: %+v", f)
	}
}
