package food_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/safety"
)

// TestKindsAreSafetys: the kinds here and those that package safety has limits for are the same, by the same labels.
func TestKindsAreSafetys(t *testing.T) {
	theirs := safety.Kinds()
	if len(food.Kinds()) != len(theirs) {
		t.Errorf("%d kinds, want %d", len(food.Kinds()), len(theirs))
	}
	for i, k := range food.Kinds() {
		if string(theirs[i]) != string(k) || theirs[i].Label() != k.Label() || theirs[i].Perishable() != k.Perishable() {
			t.Errorf("%q (%s), want %q (%s)", k, k.Label(), theirs[i], theirs[i].Label())
		}
	}
	if k := food.Stricter(food.Poultry, food.None); k != food.Poultry || food.Stricter(food.None, food.Rice) != food.Rice {
		t.Errorf("of poultry and none, %q is stricter", k)
	}
}

// TestClasses: enough of them, each with a label of its own and somewhere to be kept.
func TestClasses(t *testing.T) {
	labels := map[string]string{}
	for _, c := range food.Classes() {
		if twin := labels[c.Label]; twin != "" {
			t.Errorf("%s and %s are both %q", c.Name, twin, c.Label)
		}
		labels[c.Label] = c.Name
		if c.Source.Text == "" || c.Kind.Raw() && c.Cooked.Kind.Raw() {
			t.Errorf("%s has no source, or is raw when it is cooked", c.Name)
		}
		if c.Kind.Perishable() && c.Whole.Perishable() && c.Keep == "counter" {
			t.Errorf("%s spoils and is kept on the counter", c.Name)
		}
	}
	if len(labels) < 100 {
		t.Errorf("%d classes, want 100", len(labels))
	}
	if _, err := food.ClassOf("no such"); err == nil {
		t.Error("a class that is none was found")
	}
}

// TestSources: every telling, wait and verb names a source that says whether it was read.
func TestSources(t *testing.T) {
	check := func(what string, s food.Source) {
		if s.Text == "" || s.How != "memory" && !strings.HasPrefix(s.How, "read: ") {
			t.Errorf("%s: source %q, %q", what, s.Text, s.How)
		}
	}
	for _, n := range food.Names() {
		for _, x := range food.Tells(n) {
			check(n, x.Source)
		}
		if f, ok := food.Find(n); ok && f.Shelf() != nil {
			check(n, f.Shelf().Source)
		}
	}
	for _, v := range food.Verbs() {
		check(v.Name, v.Source)
	}
	for _, w := range food.Waits() {
		check(w.Class.Name+", "+w.Place, w.Source)
	}
	if len(food.Verbs()) < 10 || len(food.Waits()) < 10 {
		t.Errorf("%d verbs and %d waits", len(food.Verbs()), len(food.Waits()))
	}
}

// TestWaits: a braise is better after a day, and a class that the table does not have is said to be unknown.
func TestWaits(t *testing.T) {
	stew, _ := food.Find("beef stew")
	w, ok := food.WaitOf(stew.Class, "refrigerator")
	if !ok || w.BestFrom != 24*60 || w.WorthUntil < w.BestUntil || w.Finish == "" {
		t.Errorf("a braise waits so: %v", w)
	}
	if w, ok := food.WaitOf(stew.Class, "counter"); ok {
		t.Errorf("a braise waits on the counter: %v", w)
	}
}

// TestWaitsKeepToTheirPages: a row that two or more pages speak of is best until some time in their range, and says
// so; no other row says it, and none rests on a page that says not to.
func TestWaitsKeepToTheirPages(t *testing.T) {
	pages := map[string][]string{}
	for _, r := range golden(t, "ahead.tsv", 7) {
		pages[r[0]] = r
	}
	classes := map[string]bool{}
	for _, w := range food.Waits() {
		classes[w.Class.Name] = true
		var told []int
		addresses := map[string]bool{}
		for _, id := range w.Facts {
			r := pages[id]
			if r == nil || r[2] != w.Place || r[5] != "" {
				t.Errorf("%+v rests on %s, %v", w, id, r)
				continue
			}
			addresses[r[6]] = true
			if r[3] != "" {
				told = append(told, minutesOf(t, r[3]))
			}
		}
		want := []string{"common practice", "one page", "two or more"}[min(len(addresses), 2)]
		if !strings.Contains(w.Source.Text, want) {
			t.Errorf("%+v: source %q for %d pages", w, w.Source.Text, len(addresses))
		}
		if len(addresses) > 1 && (w.BestUntil < slices.Min(told) || w.BestUntil > slices.Max(told)) {
			t.Errorf("%+v, but the pages say %v minutes", w, told)
		}
	}
	if len(classes) < 60 {
		t.Errorf("%d classes", len(classes))
	}
	for id, r := range pages {
		if r[5] == "" {
			continue
		}
		class, err := food.ClassOf(r[5])
		if err != nil {
			t.Fatal(err)
		}
		if w, ok := food.WaitOf(class, r[2]); ok && w.Loss == 0 {
			t.Errorf("%+v costs nothing, but %s says not to", w, id)
		}
	}
}

// minutesOf reads a length of a published page: 90m, ~3d, 2wk, 3mo.
func minutesOf(t *testing.T, s string) int {
	s = strings.TrimPrefix(s, "~")
	number := strings.TrimRight(s, "abcdefghijklmnopqrstuvwxyz")
	n, err := strconv.Atoi(number)
	per := map[string]int{"m": 1, "h": 60, "d": 24 * 60, "wk": 7 * 24 * 60, "mo": 30 * 24 * 60}[s[len(number):]]
	if err != nil || per == 0 {
		t.Fatalf("%q is no length", s)
	}
	return n * per
}

// TestShelfGolden: names have the row of the published table that they had before.
func TestShelfGolden(t *testing.T) {
	for _, r := range golden(t, "shelf.tsv", 2) {
		f, _ := food.Find(r[0])
		if s := f.Shelf(); s == nil && r[1] != "" || s != nil && s.Name != r[1] {
			t.Errorf("%q has the row %v, want %q", r[0], s, r[1])
		}
	}
	for _, s := range []string{"smoked chicken", "dried apricots", "chicken stock", "frozen peas", "stardust",
		"tinned sardines"} {
		if f, _ := food.Find(s); f.Shelf() != nil {
			t.Errorf("%q keeps as %v does", s, f.Shelf())
		}
	}
}

// TestDensityGolden: a US cup of what cooks call things weighs what it did; where not, the golden row says why.
func TestDensityGolden(t *testing.T) {
	rows := golden(t, "density.tsv", 5)
	if len(rows) < 250 {
		t.Errorf("%d names, want 250", len(rows))
	}
	cup, _ := measure.Cup.InBase().Float64()
	for _, r := range rows {
		d := food.DensityOf(r[0])
		if d == nil {
			if r[1] != "" {
				t.Errorf("%q has no density, want %s g", r[0], r[1])
			}
			continue
		}
		at := func(v interface{ Float64() (float64, bool) }) string {
			g, _ := v.Float64()
			return fmt.Sprintf("%.1f", g*cup)
		}
		if got := []string{at(d.Likely), at(d.Low), at(d.High)}; got[0] != r[1] || got[1] != r[2] || got[2] != r[3] {
			t.Errorf("a cup of %q weighs %v g, want %v", r[0], got, r[1:4])
		}
		if d.Source == "" || d.Ingredient == "" {
			t.Errorf("%q: no source", r[0])
		}
	}
}

// TestPieces: what one weighs and what is thrown away.
func TestPieces(t *testing.T) {
	f, _ := food.Find("leeks")
	p := f.Piece()
	if p == nil || p.Refuse == nil || p.Refuse.FloatString(2) != "0.56" || p.AsBought.FloatString(0) != "202" ||
		!strings.Contains(p.Source, "SR28") {
		t.Fatalf("leeks: %+v", p)
	}
	f, _ = food.Find("lemon juice")
	if p := f.Piece(); p == nil || p.Refuse != nil || p.Edible.FloatString(0) != "48" {
		t.Errorf("lemon juice: %+v", p)
	}
	f, _ = food.Find("parsnips")
	if p := f.Piece(); p == nil || !strings.HasSuffix(p.Source, "from memory") {
		t.Errorf("parsnips: %+v", p)
	}
}

func FuzzFind(f *testing.F) {
	for _, s := range []string{"coconut milk", "leg of lamb, boned", "chicken or vegetable stock",
		"cheese, mozzarella", "egg-free mayonnaise", "of", "of of", "or, and, with",
		"half-cooked", "=peppers", "''s'", "crème\u0301", "free from", "X-free, or", "tin of", "|", "1½ (2) 'n",
		"butter, butter, butter", "\xff", "a\u200bb"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, ok := food.Find(s)
		if ok != (got.Class != nil) || ok && (got.Name == "" || got.Kind() == food.Unknown) {
			t.Fatalf("%q: %+v, %v", s, got, ok)
		}
		k, known := food.KindOf(s)
		if known == (k == food.Unknown) {
			t.Fatalf("%q: %q, %v", s, k, known)
		}
		for _, a := range food.All(s) {
			if a.Class == nil || a.Name == "" {
				t.Fatalf("%q: %+v", s, a)
			}
		}
		for _, x := range food.Tells(s) {
			if x.Word == "" || x.Tag == "" {
				t.Fatalf("%q: %+v", s, x)
			}
		}
		food.DensityOf(s)
	})
}

// lines are a thousand ingredient lines' names, as they come.
func lines(b *testing.B) []string {
	var names []string
	for len(names) < 1000 {
		names = append(names, []string{"unsalted butter, melted and cooled", "4 boneless, skinless chicken thighs",
			"chicken or vegetable stock", "flat-leaf parsley, chopped", "crème fraîche",
			"large eggs", "plain flour, plus more for dusting", "tinned chopped tomatoes", "half-fat coconut milk",
			"leg of lamb (about 2 kg)"}...)
	}
	food.Find(names[0])
	b.ResetTimer()
	return names
}

func BenchmarkFindThousand(b *testing.B) {
	all := lines(b)
	for b.Loop() {
		for _, n := range all {
			food.Find(n)
		}
	}
}

func BenchmarkKindAndTellsThousand(b *testing.B) {
	all := lines(b)
	for b.Loop() {
		for _, n := range all {
			food.KindOf(n)
			food.Tells(n)
		}
	}
}

// reference opens a table of the shared reference folder, beside the repository, or skips the test: a fresh machine
// does not have it. The rows are by the named columns, joined.
func reference(t *testing.T, file string, columns ...string) map[string]bool {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "..", "shared", "reference", file))
	if err != nil {
		t.Skipf("the shared reference tables are not beside this repository: %v", err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, r := range all[1:] {
		var row []string
		for _, c := range columns {
			row = append(row, r[slices.Index(all[0], c)])
		}
		known[strings.Join(row, "|")] = true
	}
	return known
}

// TestReferenceRows: every figure that is taken from a reference table stands there so.
func TestReferenceRows(t *testing.T) {
	for _, c := range []struct {
		ours, theirs string
		mine, cols   []string
	}{
		{"shelf.tsv", "shelf.csv", []string{"id", "name", "subtitle", "from_days", "to_days", "basis"},
			[]string{"id", "name", "subtitle", "fridge_min_days", "fridge_max_days", "fridge_basis"}},
		{"pieces.tsv", "produce_yield.csv", []string{"item", "edible_g", "refuse_percent", "what", "as_bought_g"},
			[]string{"item", "edible_g", "refuse_percent", "refuse_description", "as_purchased_g"}},
		{"density.tsv", "density.csv", []string{"ingredient", "form", "g_per_us_cup", "other_g_per_us_cup", "other_name"},
			[]string{"ingredient", "form", "g_per_us_cup", "gnu_units_g_per_cup", "gnu_units_name"}},
	} {
		known := reference(t, c.theirs, c.cols...)
		text, err := os.ReadFile(c.ours)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimRight(string(text), "\n"), "\n")
		head := strings.Split(lines[0], "\t")
		for _, l := range lines[1:] {
			fields := strings.Split(l, "\t")
			var row []string
			for _, m := range c.mine {
				row = append(row, fields[slices.Index(head, m)])
			}
			if !known[strings.Join(row, "|")] {
				t.Errorf("%s: not a row of the reference table: %v", c.ours, row)
			}
		}
	}
}
