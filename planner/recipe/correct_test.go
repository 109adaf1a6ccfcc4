package recipe

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tureen/planner"
)

const gratin = `Leek gratin

Serves 6

1 kg potatoes, sliced
3 leeks
300 ml double cream
1 handful zest of nothing known

Soften the leeks in a frying pan. Layer everything in a baking dish. Bake for 45-50 minutes. ` +
	`Let it rest for 10 minutes.`

// TestCorrect: a correction, and what the reading's outline then says and does not say; ours, by hand.
func TestCorrect(t *testing.T) {
	for _, c := range []struct {
		name     string
		c        Correction
		has, not string
	}{
		{"time", Correction{Step: 2, Low: 12, High: 15}, "2 Soften the leeks in a frying pan [watch, 12–15 min;",
			"12–15 min (my guess)"},
		{"attention", Correction{Step: 4, Attention: planner.Unattended}, "4 Bake for 45-50 minutes [unattended, 45–50 min",
			""},
		{"touch", Correction{Step: 4, Every: 20}, "[touch every 20 min, 45–50 min", ""},
		{"oven", Correction{Step: 4, OvenC: 190}, "oven 190 °C", "At what temperature"},
		{"not in the oven", Correction{Step: 4, Heat: "none"}, "4 Bake for 45-50 minutes [watch, 45–50 min",
			"At what temperature"},
		{"on the burner", Correction{Step: 4, Heat: "burner"}, "45–50 min; burner", "At what temperature"},
		{"in the cold", Correction{Step: 5, Where: planner.Refrigerator},
			"5 Let it rest for 10 minutes [unattended, 10 min; refrigerator", ""},
		{"things", Correction{Step: 3, Things: []string{"Gratin dish", "mandolin"}}, "baking dish; mandolin", ""},
		{"no things", Correction{Step: 2, Things: []string{NoThings}},
			"2 Soften the leeks in a frying pan [watch, 4–6 min (my guess); burner]", "burner; frying pan"},
		{"sign", Correction{Step: 4, Until: "bubbling at the edge"}, "until bubbling at the edge", ""},
		{"words", Correction{Step: 3, Do: "Layer potatoes and leeks"}, "3 Layer potatoes and leeks [", "Layer everything"},
		{"no step", Correction{Step: 5, Drop: true}, "4 Bake for 45-50 minutes", "Let it rest"},
		{"covers", Correction{Serves: 8}, "Leek gratin, for 8", "for 6"},
		{"name", Correction{Title: "Sunday gratin"}, "Sunday gratin, for 6", ""},
		{"keeps", Correction{Keeps: "yes"}, "Leek gratin", "keep on the counter"},
	} {
		r, err := Read(gratin)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(r.Outline(), "keep on the counter") || !strings.Contains(r.Outline(), "At what temperature") {
			t.Fatalf("nothing is asked:\n%s", r.Outline())
		}
		if err := r.Correct(c.c); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if got := r.Outline(); !strings.Contains(got, c.has) || c.not != "" && strings.Contains(got, c.not) {
			t.Errorf("%s: want %q and not %q in\n%s", c.name, c.has, c.not, got)
		}
		if d, _ := r.Dish("main", 0); len(d.Steps) != len(r.Steps) {
			t.Errorf("%s: %d steps of a dish with %d", c.name, len(r.Steps), len(d.Steps))
		}
	}
	r, _ := Read(gratin)
	want := r.Outline()
	for _, c := range []Correction{{Step: 6, Drop: true}, {Step: -1, Do: "x"}, {Low: 5, High: 5}} {
		if err := r.Correct(c); err == nil || r.Outline() != want {
			t.Errorf("%+v: %v", c, err)
		}
	}
}

// TestCorrectedDishesValidate: whatever is said of a recipe of our own, in whatever order, the dish that comes of it
// names only steps that it has, and said twice over its JSON it is the same.
func TestCorrectedDishesValidate(t *testing.T) {
	names, _ := filepath.Glob(filepath.Join("testdata", "recipes", "*.golden"))
	if len(names) < 12 {
		t.Fatalf("%d recipes", len(names))
	}
	rapid.Check(t, func(rt *rapid.T) {
		golden := rapid.SampledFrom(names).Draw(rt, "recipe")
		data, err := os.ReadFile(strings.TrimSuffix(golden, ".golden"))
		if err != nil {
			rt.Fatal(err)
		}
		r, err := ReadFile(data)
		if err != nil {
			rt.Fatal(err)
		}
		again, _ := ReadFile(Essence(data))
		for range rapid.IntRange(1, 6).Draw(rt, "corrections") {
			c := Correction{Step: rapid.IntRange(1, max(len(r.Steps), 1)).Draw(rt, "step")}
			switch rapid.IntRange(0, 6).Draw(rt, "what") {
			case 0:
				c.Drop = true
			case 1:
				c.Low = rapid.IntRange(1, 600).Draw(rt, "low")
				c.High = c.Low + rapid.IntRange(0, 60).Draw(rt, "more")
			case 2:
				c.Attention = rapid.SampledFrom([]planner.Attention{planner.Hands, planner.Watch, planner.Touch,
					planner.Unattended}).Draw(rt, "attention")
			case 3:
				c.Heat = rapid.SampledFrom([]string{"oven", "burner", "grill", "none"}).Draw(rt, "heat")
			case 4:
				c.OvenC = rapid.IntRange(50, 300).Draw(rt, "oven")
			case 5:
				c.Where = rapid.SampledFrom([]planner.State{planner.Counter, planner.Refrigerator, planner.Freezer}).Draw(rt,
					"where")
			case 6:
				c.Keeps, c.Step = rapid.SampledFrom([]string{"yes", "no"}).Draw(rt, "keeps"), 0
			}
			text, err := json.Marshal(c)
			if err != nil {
				rt.Fatal(err)
			}
			var same Correction
			if err := json.Unmarshal(text, &same); err != nil {
				rt.Fatal(err)
			}
			if a, b := r.Correct(c), again.Correct(same); (a == nil) != (b == nil) {
				rt.Fatalf("%s: %v, and over JSON %v", text, a, b)
			}
		}
		if r.Outline() != again.Outline() {
			rt.Fatalf("said over JSON it is another:\n%s\n%s", r.Outline(), again.Outline())
		}
		d, _ := r.Dish("main", 0)
		for i := range d.Steps {
			if d.Steps[i].Time.Low < 1 {
				rt.Fatalf("%s takes no time", d.Steps[i].Key)
			}
			for _, a := range d.Steps[i].After {
				if d.Step(a.Step) == nil || a.Step == d.Steps[i].Key {
					rt.Fatalf("%s comes after %s", d.Steps[i].Key, a.Step)
				}
			}
		}
	})
}

// TestEssence: of every page and data file that we have, what is kept is read alike and holds no script.
func TestEssence(t *testing.T) {
	n := 0
	for _, pattern := range []string{filepath.Join("testdata", "pages", "*"), filepath.Join("testdata", "recipes", "*")} {
		files, _ := filepath.Glob(pattern)
		for _, name := range files {
			data, err := os.ReadFile(name)
			if err != nil {
				continue
			}
			want, err := ReadFile(data)
			if err != nil {
				continue
			}
			n++
			kept := Essence(data)
			got, err := ReadFile(kept)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			if got.Outline() != want.Outline() || !reflect.DeepEqual(got.Questions, want.Questions) {
				t.Errorf("%s: the essence reads otherwise\n%s\n%s", name, got.Outline(), want.Outline())
			}
			if strings.Contains(string(kept), "<script") {
				t.Errorf("%s: %d of %d bytes are kept, with a script", name, len(kept), len(data))
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d files were read", n)
	}
}
