package several

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const (
	oneSoup = "Leek soup\n\nServes 4\n\n1 kg leeks\n1 l stock\n\nSlice the leeks. Simmer them in the stock for " +
		"20 minutes.\n"
	oneBake = "Pear bake for 6\n\n1 kg pears\n200 ml double cream\n\nSlice the pears. Bake them with the cream " +
		"at 180 °C for 40 minutes.\n"
	oneMash = "Mash\n\nIngredients\n\n1 kg potatoes\n100 g butter\n\nMethod\n\nBoil the potatoes for 20 minutes. " +
		"Mash them with the butter.\n"
)

// TestSeveral: how many recipes there are in a text, by their titles; ours, by hand.
func TestSeveral(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"by yields", oneSoup + "\n" + oneBake, "Leek soup, Pear bake"},
		{"by headings", oneMash + "\n\n" + strings.Replace(oneMash, "Mash\n", "Turnip mash\n", 1), "Mash, Turnip mash"},
		{"by lines between", oneSoup + "---\n" + oneMash + "\n***\n\n" + oneBake, "Leek soup, Mash, Pear bake"},
		{"Markdown", "# " + oneSoup + "\n# " + oneMash, "Leek soup, Mash"},
		{"one", oneSoup, ""},
		{"a part of its own", oneMash + "\nFor the sauce:\n\nIngredients\n\n2 onions\n300 ml stock\n\nMethod\n\nFry the " +
			"onions. Add the stock and boil for 5 minutes.\n", ""},
		{"the same twice", oneSoup + "\n---\n" + oneSoup, ""},
		{"a remark after a line", oneSoup + "\n---\nThis is from Rosa, who had it from her aunt.\n", ""},
		{"JSON-LD", `[{"@type":"Recipe","name":"A","recipeIngredient":["1 egg"],"recipeInstructions":"Boil the egg for 5 ` +
			`minutes."},{"@type":"Recipe","name":"B","recipeIngredient":["1 egg"],"recipeInstructions":"Fry the egg for 5 ` +
			`minutes."},{"@type":"Recipe","name":"C"}]`, "A, B"},
		{"nothing", "", ""},
		{"a picture", "GIF89a\x00", ""},
	} {
		var got []string
		for _, o := range In([]byte(c.text)) {
			got = append(got, o.Title)
		}
		if strings.Join(got, ", ") != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
	// No recipe of our own is taken for several.
	names, _ := filepath.Glob(filepath.Join("..", "recipe", "testdata", "*", "*"))
	n := 0
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil || !slices.Contains([]string{"recipes", "pages"}, filepath.Base(filepath.Dir(name))) ||
			strings.HasSuffix(name, ".golden") {
			continue
		}
		n++
		if all := In(data); all != nil {
			t.Errorf("%s: taken for %d recipes, of which %q and %q", name, len(all), all[0].Title, all[1].Title)
		}
	}
	if n < 20 {
		t.Errorf("%d files", n)
	}
}
