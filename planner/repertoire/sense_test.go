package repertoire

import (
	_ "embed"
	"slices"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/portion"
	"tureen/planner/safety"
)

// notByFood are the cards whose heaviest food is not what a cover is reckoned by, and why.
var notByFood = map[string]string{
	"Crumbed chicken for children":   "half of a grown-up's",
	"Gravy made ahead":               "the wings go out of it",
	"Sage and onion stuffing":        "it is bread first",
	"Onion tart":                     "the leaves are beside it",
	"Pepper and goat cheese terrine": "the leaves are beside it",
}

// TestWeightsACover: what a cover gets of a card's main food lies where handbooks reckon it (package portion has the
// rows with their sources), or at least not further off than its factor.
func TestWeightsACover(t *testing.T) {
	judged := 0
	for _, c := range List() {
		p := homeParty(c.Serves, c)
		if c.Course != "main" { // beside a main course
			p.Courses = append(p.Courses, planner.Course{Key: "main", Name: "main", Servings: p.Courses[0].Servings})
		}
		cover, ok := portion.Of(p, &p.Dishes[0])
		if !ok || notByFood[c.Name] != "" {
			continue
		}
		judged++
		t.Logf("%-46s %s", c.Name, cover.Text())
		if w := cover.Warning(c.Name); w != "" {
			t.Error(w)
		}
	}
	if judged < len(List())/3 {
		t.Errorf("only %d of %d cards have a weight that can be judged", judged, len(List()))
	}
}

// unsalted are the cards of savoury courses that a cook does not salt: what is in them is salt enough.
var unsalted = []string{"Warm dates with goat cheese", "Cheese board with pears", "Cranberry and orange sauce"}

// pieceGrams is taken for a piece that nobody has weighed, in grams.
const pieceGrams = 100

// TestWaterAndSalt: savoury food is salted, and with no more than 30 g a kilo of what goes into it, its water included;
// what is boiled, simmered, braised or kneaded has something wet among its ingredients.
func TestWaterAndSalt(t *testing.T) {
	for _, c := range List() {
		d := c.Dish()
		salted, wet := 0.0, false
		total := 0.0
		for i := range d.Ingredients {
			in := &d.Ingredients[i]
			g, weighed := portion.Grams(in)
			switch name := strings.ToLower(in.Name); {
			case strings.Contains(name, "salt") && weighed:
				salted += g
			case strings.Contains(name, "salt"):
				salted += 5
			case name == "water":
				wet = true
				total += g
			default:
				if q, err := measure.ParseWhole(in.Amount); err == nil && q.Unit().Kind() == measure.Volume {
					wet = true // stock, wine, cider, milk by the litre
				}
				wet = wet || strings.Contains(name, "tomatoes") || strings.Contains(name, "wine") || strings.Contains(name, "egg")
				if q, err := measure.ParseWhole(in.Amount); err == nil && !weighed && q.Unit().Kind() == measure.Count {
					n, _ := q.High().Float64()
					g = n * pieceGrams
				}
				total += g
			}
		}
		boiled := slices.ContainsFunc(d.Steps, func(s planner.Step) bool {
			do := strings.ToLower(s.Do)
			wet := []string{"boil", "simmer", "braise", "knead", "poach", "soup", "dough"}
			return slices.ContainsFunc(wet, func(w string) bool { return strings.Contains(do, w) })
		})
		savoury := c.Course != "dessert" && !slices.Contains(unsalted, c.Name)
		if savoury && salted == 0 {
			t.Errorf("%s has no salt", c.Name)
		}
		if total > 0 && salted*1000/total > 30 {
			t.Errorf("%s: %g g of salt on %g g", c.Name, salted, total)
		}
		if boiled && !wet {
			t.Errorf("%s is boiled in nothing", c.Name)
		}
	}
}

// TestPansCounted: whatever is on the heat is in something, and it is said for how many covers one of a pan, tray, tin
// or dish is enough.
func TestPansCounted(t *testing.T) {
	for _, c := range List() {
		d := c.Dish()
		var carried []planner.Use
		for i := range d.Steps {
			s := &d.Steps[i]
			heated, held := false, false
			for _, u := range s.Uses {
				heated = heated || u.What == planner.AnOven || u.What == planner.ABurner || u.What == planner.AGrill
				held = held || u.What == planner.AVessel
				if u.What == planner.AVessel && u.For == 0 && s.Grows != planner.InRounds &&
					slices.Contains([]string{"baking tray", "baking dish", "frying pan", "roasting tin", "tart tin", "cake tin",
						"loaf tin"}, u.Name) {
					t.Errorf("%s/%s: a %s for how many?", c.Name, s.Key, u.Name)
				}
				if u.What == planner.AVessel && u.Through != "" {
					carried = append(carried, u)
				}
			}
			held = held || slices.ContainsFunc(carried, func(u planner.Use) bool {
				return u.What == planner.AVessel && comesTo(&d, s.Key, u.Through)
			})
			if heated && !held && s.Key != "batter" {
				t.Errorf("%s/%s: on the heat in nothing", c.Name, s.Key)
			}
		}
	}
}

// comesTo says whether the step "through" is this one or comes after it.
func comesTo(d *planner.Dish, k, through planner.StepKey) bool {
	if k == through {
		return true
	}
	return slices.ContainsFunc(d.Step(through).After, func(a planner.After) bool { return comesTo(d, k, a.Step) })
}

//go:embed testdata/allergens.tsv
var allergensTSV string

// TestAllergensAsACookWouldSay: for each card the allergens of Regulation (EU) 1169/2011, Annex II, that a cook who
// reads its ingredients names; written by hand, apart from the tables. The words tell each of them
// at least as a perhaps, and none for sure that the cook does not name.
func TestAllergensAsACookWouldSay(t *testing.T) {
	want := map[string]string{}
	for _, line := range strings.Split(strings.TrimSpace(allergensTSV), "\n")[1:] {
		name, all, _ := strings.Cut(line, "\t")
		want[name] = all
	}
	for _, c := range List() {
		sure, maybe := map[string]bool{}, map[string]bool{}
		for _, in := range c.dish.Ingredients {
			for _, f := range safety.Allergens(in.Name) {
				if maybe[string(f.Allergen)] = true; f.Certainty == safety.Contains {
					sure[string(f.Allergen)] = true
				}
			}
		}
		delete(sure, string(safety.AllergenWheat)) // gluten says so
		all, ok := want[c.Name]
		if !ok {
			t.Errorf("nobody has said what is in %s", c.Name)
		}
		said := strings.FieldsFunc(all, func(r rune) bool { return r == ',' || r == ' ' })
		for a := range sure {
			if !slices.Contains(said, a) {
				t.Errorf("%s: by its words %s, of which a cook says nothing", c.Name, a)
			}
		}
		for _, a := range said {
			if !maybe[a] {
				t.Errorf("%s: a cook says %s, its words do not tell", c.Name, a)
			}
		}
	}
	for name := range want {
		if c, ok := Find(name); !ok || c.Name != name {
			t.Errorf("testdata/allergens.tsv: no dish %s", name)
		}
	}
}

// TestEveryCardSaysItsSource: where its facts are from, or that it is common practice.
func TestEveryCardSaysItsSource(t *testing.T) {
	for _, c := range List() {
		if c.Source == "" {
			t.Errorf("%s names no source", c.Name)
		}
	}
}
