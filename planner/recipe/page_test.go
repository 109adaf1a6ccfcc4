package recipe

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/export"
	"tureen/planner/ingredient"
	"tureen/planner/measure"
)

func pageFile(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", "pages", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// The fixtures of testdata/pages; LICENSES.md there says whose they are.
func TestPagesAreRead(t *testing.T) {
	for _, name := range []string{"g_schemaorg_eg0013.jsonld", "g_schemaorg_eg0013_microdata.html",
		"g_schemaorg_eg0013_rdfa.html", "s_test1.jsonld", "s_test1mdt.html", "s_test1rdfa.html"} {
		r, err := ReadFile(pageFile(t, name))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if r.Title != "Mom's World Famous Banana Bread" || r.Yield != "1 loaf" || r.Serves != 0 || r.Prep.Low != 15 ||
			r.Cook.Low != 60 {
			t.Errorf("%s: got %q, %q, serves %d, %v, %v", name, r.Title, r.Yield, r.Serves, r.Prep, r.Cook)
		}
		var lines []string
		for i := range r.Ingredients {
			lines = append(lines, r.Ingredients[i].Outline())
		}
		if got, want := strings.Join(lines, "; "), "3–4 | ripe bananas | smashed; 1 | egg; ¾ cup | sugar"; got != want {
			t.Errorf("%s: got %q, want %q", name, got, want)
		}
		if n := len(r.Steps); n != 2 || r.Steps[1].Heat != planner.AnOven || r.Steps[1].Oven.Temperature.OvenF() != 350 ||
			r.Steps[1].Time.Low != 60 {
			t.Errorf("%s: steps\n%s", name, r.Outline())
		}
	}
	for _, name := range []string{"n_schemanet_applepie.jsonld", "p_amp_recipe.jsonld", "s_test3.jsonld"} {
		r, err := ReadFile(pageFile(t, name))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if r.Serves != 8 || len(r.Ingredients) != 2 || len(r.Steps) != 1 || r.Total.Low != 90 {
			t.Errorf("%s:\n%s", name, r.Outline())
		}
		if len(r.Questions) == 0 || r.Questions[0].About != "heat" {
			t.Errorf("%s: an hour of cooking without a step for it is not asked: %v", name, r.Questions)
		}
	}
}

func TestPagesThatAreNoRecipes(t *testing.T) {
	for _, c := range []struct{ name, data, says string }{
		{"recipe without parts", string(pageFile(t, "s_test2.jsonld")), "neither ingredients nor a method"},
		{"recipe without ingredients", string(pageFile(t, "s_test4.jsonld")), "no ingredients"},
		{"a data set", string(pageFile(t, "s_test5.jsonld")), "it describes a Dataset"},
		{"broken", "{\n\"@type\": \"Recipe\",\n\"name\" \"x\"}", "broken JSON, at line 3"},
		{"cut off", `{"@type": "Recipe", "name": "x"`, "broken JSON"},
		{"deep", strings.Repeat("[", 10_000) + strings.Repeat("]", 10_000), "nested too deeply"},
		{"deep objects", strings.Repeat(`{"a":`, 10_000), "nested too deeply"},
		{"deep page", "<html>" + strings.Repeat("<div>", 10_000), "cannot make sense"},
		{"page with scripts", "<html><script>alert('1 egg')</script><p>hello</p></html>", "no recipe data"},
		{"page with broken data", `<html><script type="application/ld+json">{"@type":</script></html>`, "broken JSON"},
		{"too long", strings.Repeat("x", MaxPage+1), "too long"},
		{"zip", "PK\x03\x04....", "packed file"},
	} {
		r, err := ReadFile([]byte(c.data))
		if err == nil {
			t.Errorf("%s: read as\n%s", c.name, r.Outline())
			continue
		}
		if !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got %q, want it to say %q", c.name, err, c.says)
		}
	}
}

func TestDataInManyShapes(t *testing.T) {
	const data = `<!doctype html><html><head><script type="application/ld+json">
{"@context":"https://schema.org","@graph":[{"@type":"WebPage","name":"x"},
{"@type":["Thing","Recipe"],"name":"Leek &amp; <b>ham</b> gratin","recipeYield":["6","6 portions"],
"prepTime":"PT0.5H","cookTime":"P0DT45M","totalTime":"soon",
"recipeIngredient":["1 kg leeks","200 g ham<br>","{broken"],
"recipeInstructions":[{"@type":"HowToSection","name":"For the sauce:",
"itemListElement":[{"@type":"HowToStep","text":"<p>Whisk the sauce over a low heat for 10 minutes.</p>"}]},
{"@type":"HowToSection","name":"To finish",
"itemListElement":{"@list":[{"@type":"HowToStep",
"name":"Bake at 180 °C for 25 minutes<script>alert(1)<\/script>."}]}}]}]}
</script></head><body>1 egg</body></html>`
	r, err := ReadFile([]byte(data))
	if err != nil {
		t.Fatal(err)
	}
	if r.Title != "Leek & ham gratin" || r.Serves != 6 || r.Prep.Low != 30 || r.Cook.Low != 45 || len(r.Ingredients) != 3 {
		t.Errorf("got\n%s", r.Outline())
	}
	var sauce, bake *Step
	for i := range r.Steps {
		switch r.Steps[i].kind {
		case doing.OverBurner:
			sauce = &r.Steps[i]
		case doing.InOven:
			bake = &r.Steps[i]
		}
	}
	if sauce == nil || sauce.Section != "sauce" || sauce.Time.Low != 10 || bake == nil ||
		bake.Oven.Temperature.OvenC() != 180 || bake.Time.Low != 25 || strings.Contains(bake.Do, "alert") {
		t.Errorf("got\n%s", r.Outline())
	}
}

func TestExportReadsBackTheSame(t *testing.T) {
	for _, f := range ownRecipes(t) {
		name := filepath.Base(f)
		want, _ := readFile(t, name).Dish("main", 0)
		data, err := export.JSONLD(&want)
		if err != nil {
			t.Fatal(err)
		}
		if !json.Valid(data) {
			t.Fatalf("%s: no JSON", name)
		}
		r, err := ReadFile(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		got, _ := r.Dish("main", 0)
		if got.Name != want.Name || got.Serves != want.Serves || len(got.Ingredients) != len(want.Ingredients) ||
			len(got.Steps) != len(want.Steps) {
			t.Errorf("%s: got %q for %d with %d ingredients, %d steps; want %q for %d with %d, %d", name, got.Name, got.Serves,
				len(got.Ingredients), len(got.Steps),
				want.Name, want.Serves, len(want.Ingredients), len(want.Steps))
			continue
		}
		for i, g := range got.Ingredients {
			w := want.Ingredients[i]
			a, _ := measure.ParseWhole(g.Amount)
			b, _ := measure.ParseWhole(w.Amount)
			if ingredient.Head(g.Name) != ingredient.Head(w.Name) || !a.Equal(b) || g.Optional != w.Optional {
				t.Errorf("%s: got %+v, want %+v", name, g, w)
			}
		}
		for i, g := range got.Steps {
			w := want.Steps[i]
			same := strings.TrimRight(g.Do, ".") == strings.TrimRight(w.Do, ". ") && g.Attention == w.Attention &&
				g.Every == w.Every && g.Time.Low == w.Time.Low && g.Time.High == w.Time.High &&
				g.Where == w.Where && g.Until == strings.ReplaceAll(w.Until, ";", ",") && len(g.After) == len(w.After) &&
				len(g.Uses) == len(w.Uses)
			for k := range w.Uses {
				same = same && g.Uses[k].What == w.Uses[k].What && g.Uses[k].C == w.Uses[k].C && g.Uses[k].Name == w.Uses[k].Name
			}
			if !same {
				t.Errorf("%s: got %+v, want %+v", name, g, w)
			}
		}
	}
}

func FuzzReadFile(f *testing.F) {
	files, err := filepath.Glob(filepath.Join("testdata", "pages", "*_*"))
	if err != nil || len(files) < 8 {
		f.Fatal(len(files), err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := ReadFile(data)
		if err != nil {
			return
		}
		d, _ := r.Dish("main", 0)
		if out, err := export.JSONLD(&d); err != nil || !json.Valid(out) {
			t.Errorf("export: %v", err)
		}
		if kept, err := ReadFile(Essence(data)); err != nil || kept.Outline() != r.Outline() {
			t.Errorf("what is kept of it is read otherwise: %v", err)
		}
	})
}
