package recipe

import (
	"strings"
	"testing"
)

const plainPage = `<!DOCTYPE html><html><head><title>A kitchen</title></head><body>
<nav><a>Ingredients A to Z</a></nav><h1>Leek soup</h1><p>Serves 4</p>
<h3>Ingredients</h3>3 leeks, sliced<br>500&nbsp;g potatoes<br>1 l stock
<h3>Method</h3><p>Sweat the leeks in a large pan for 10 minutes.</p><p>Add the potatoes and the stock and simmer
for 20 minutes. Blend until smooth.</p><p>It keeps for 3 days in the fridge.</p>
<h3>Comments</h3><p>Bake it for 3 hours!</p><footer>Add us to your list.</footer></body></html>`

func TestAPageWithoutDataIsReadByItsText(t *testing.T) {
	for _, data := range []string{plainPage, strings.Replace(plainPage, "<nav>", `<script type="application/ld+json">
		{"@type": "Recipe", "name": "Leek soup"}</script><nav>`, 1)} {
		for _, d := range [][]byte{[]byte(data), Essence([]byte(data))} {
			r, err := ReadFile(d)
			if err != nil {
				t.Fatal(err)
			}
			if r.Title != "Leek soup" || r.Serves != 4 || len(r.Ingredients) != 3 || !strings.HasSuffix(r.Outline(),
				`keeps 3 days: "It keeps for 3 days in the fridge."`+"\n") {
				t.Errorf("read as\n%s", r.Outline())
			}
			if len(r.Remarks) == 0 || !strings.Contains(r.Remarks[0].From.Text, "no data of its recipe") {
				t.Errorf("it does not say what it was read from: %v", r.Remarks)
			}
			for _, s := range r.Steps {
				if s.Heat == "oven" || strings.Contains(s.Do, "list") {
					t.Errorf("read as a step: %s", s.Do)
				}
			}
		}
	}
}

func TestBrokenDataIsReadAsFarAsItGoes(t *testing.T) {
	const data = `{"@type": "Recipe", "name": "Leek soup", "recipeYield": 4,
"recipeIngredient": ["3 leeks, sliced", "500 g potatoes", "0 as needed salt", "1 l stock", "don\'t"],
"recipeInstructions": ["Simmer the leeks and potatoes in the stock for 20 minutes.", "Blend.", "Serve`
	for i, d := range [][]byte{[]byte(data), Essence([]byte(data)),
		[]byte(`<html><script type="application/ld+json">` + data + `</script></html>`)} {
		r, err := ReadFile(d)
		if err != nil {
			t.Fatal(i, err, string(d))
		}
		said := ""
		for _, m := range r.Remarks {
			said += m.From.Text + "\n"
		}
		if len(r.Steps) < 2 || !strings.Contains(said, "broken JSON at line 3") ||
			!strings.Contains(said, `skipped: "0 as needed salt"`) {
			t.Errorf("read as\n%s", r.Outline())
		}
	}
}
