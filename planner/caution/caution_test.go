package caution

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/repertoire"
	"tureen/planner/safety"
)

// typed is a dish as a cook types it: its name, what goes in with commas, and its steps one after another. Before a
// step stands how the food waits for it (cold, out, warm, frozen, and for how long at least), after it its heat and its
// sign: "Roast the bird /oven /until 60 °C in the middle /90 min".
func typed(t *testing.T, name, ingredients string, steps ...string) *planner.Party {
	t.Helper()
	d := planner.Dish{Key: "dish", Name: name, Serves: 6}
	for line := range strings.SplitSeq(ingredients, ", ") {
		if line == "" {
			continue
		}
		in := planner.Ingredient{Name: line}
		if i := strings.Index(line, ": "); i > 0 {
			in.Amount, in.Name = line[:i], line[i+2:]
		}
		in.Name, in.Frozen = strings.CutSuffix(in.Name, " (frozen)")
		d.Ingredients = append(d.Ingredients, in)
	}
	for i, text := range steps {
		s := planner.Step{Key: planner.StepKey(fmt.Sprintf("s%d", i)), Where: planner.Counter,
			Time: planner.Span{Low: 20, Likely: 20, High: 20}}
		w := planner.Wait{}
		if before, rest, ok := strings.Cut(text, "> "); ok {
			state, length, _ := strings.Cut(before, " ")
			w.State = map[string]planner.State{"cold": planner.Refrigerator, "out": planner.Counter, "warm": planner.Warm,
				"frozen": planner.Freezer, "hot": planner.HotHold}[state]
			w.Least = minutes(t, length)
			text = rest
		}
		for k, part := range strings.Split(text, " /") {
			switch {
			case k == 0:
				s.Do = part
			case part == "oven":
				s.Cooks, s.Where, s.Uses = true, planner.Heat, []planner.Use{{What: planner.AnOven, C: 180, Amount: 1}}
			case part == "hob":
				s.Cooks, s.Where, s.Uses = true, planner.Heat, []planner.Use{{What: planner.ABurner, Amount: 1}}
			case part == "in the cold":
				s.Where = planner.Refrigerator
			case strings.HasPrefix(part, "uses "):
				s.Uses = append(s.Uses, planner.Use{What: planner.AnAppliance, Name: part[5:], Amount: 1})
			case strings.HasPrefix(part, "until "):
				s.Until = part[6:]
			default:
				s.Time.Likely = minutes(t, part)
			}
		}
		if s.Do == "SERVE" { // the wait before the table
			d.Steps[i-1].Serve = &w
			continue
		}
		if i > 0 {
			s.After = []planner.After{{Step: d.Steps[i-1].Key, Wait: w}}
		}
		d.Steps = append(d.Steps, s)
	}
	return &planner.Party{Covers: 6, Zone: "Europe/London", Dishes: []planner.Dish{d}}
}

func minutes(t *testing.T, text string) planner.Minutes {
	t.Helper()
	if text == "" {
		return 0
	}
	d, err := measure.ParseDuration(text)
	if err != nil {
		t.Fatal(err)
	}
	return planner.Minutes(d.High)
}

func keys(all []Caution) string {
	var out []string
	for _, c := range all {
		out = append(out, c.Key)
	}
	if len(out) == 0 {
		return "none"
	}
	return strings.Join(out, " ")
}

// TestDishes: dishes typed as a cook types them, each with the warnings that must come, no more and no fewer.
func TestDishes(t *testing.T) {
	text, err := os.ReadFile("testdata/dishes.tsv")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	for _, line := range lines[1:] {
		f := strings.Split(line, "\t")
		if got := keys(Of(typed(t, f[0], f[1], strings.Split(f[2], " | ")...), true)); got != f[3] {
			t.Errorf("%s: %s, want %s", f[0], got, f[3])
		}
	}
	if len(lines) < 60 {
		t.Errorf("%d dishes", len(lines))
	}
}

// TestRepertoireIsQuiet: what is on the shelf is ordinary cooking; no warning is said in more than one in ten of it.
func TestRepertoireIsQuiet(t *testing.T) {
	cards := repertoire.List()
	times := map[string][]string{}
	for i := range cards {
		d := cards[i].Dish()
		for _, c := range Of(&planner.Party{Covers: 8, Dishes: []planner.Dish{d}}, true) {
			times[c.Key] = append(times[c.Key], cards[i].Name)
		}
	}
	for key, names := range times {
		t.Logf("%s: %s", key, strings.Join(names, ", "))
		if len(names)*10 > len(cards) {
			t.Errorf("%s is said in %d of %d dishes", key, len(names), len(cards))
		}
	}
}

var figure = regexp.MustCompile(`\d+(?:\.\d+)? (?:°C|h|min|d(?:ays?)?)\b`)

// TestFigures: no figure with a unit stands in a sentence that is not of a row of the published limits, but for those
// that the row's source has and the limits' table has not.
func TestFigures(t *testing.T) {
	ours := []string{"15 min", "12 min", "5 h"} // fiddleheads (Health Canada); soaking, in the note of beans-boil
	var allowed []string
	for _, id := range []string{"cook-stuffing", "reheat-us", "raw-egg", "beans-boil", "freeze-parasites", "cook-ground",
		"cook-uk-core", "cook-poultry", "cook-pork", "rest-red-meat", "cook-red-meat", "cook-fish", "hot-hold-uk",
		"hot-hold-food-code", "rice-cool", "oven-poultry", "counter", "counter-hot-day", "thaw-fridge",
		"fridge-garlic-oil-short", "fridge-oil-vegetables"} {
		l := safety.Row(id)
		from := l
		from.Minutes = l.From
		allowed = append(allowed, figure.FindAllString(l.Figure()+" "+from.Figure(), -1)...)
	}
	for _, r := range data().rows {
		for _, text := range []string{r.says, r.short, r.guest} {
			for _, f := range figure.FindAllString(text, -1) {
				if !slices.Contains(allowed, f) && !slices.Contains(ours, f) {
					t.Errorf("%s: %s is of no row", r.key, f)
				}
			}
			for _, c := range []safety.Country{safety.UnitedKingdom, safety.UnitedStates, safety.Elsewhere} {
				if strings.ContainsAny(safety.InCountry(text, c), "[]") {
					t.Errorf("%s: %q", r.key, safety.InCountry(text, c))
				}
			}
			if strings.ContainsAny(text, "{}\t") || strings.Contains(text, "  ") {
				t.Errorf("%s: %q", r.key, text)
			}
		}
		if !strings.Contains(r.source, " ") {
			t.Errorf("%s: no source", r.key)
		}
	}
}

// TestNews: a warning comes once, goes quiet for who knows it, and never while a guest at risk is at the table.
func TestNews(t *testing.T) {
	p := typed(t, "Oysters", "24: oysters", "Open the oysters", "> SERVE")
	before := *p
	before.Dishes = []planner.Dish{p.Dishes[0]}
	before.Dishes[0].Steps = nil
	if got := keys(News(&before, p)); got != "raw-shellfish" {
		t.Errorf("when it comes: %s", got)
	}
	if got := keys(News(p, p)); got != "none" {
		t.Errorf("said again: %s", got)
	}
	known := p.Clone()
	known.Dishes[0].Known = []string{"raw-shellfish"}
	if got := keys(Said(known, true, func(*planner.Dish) bool { return true })); got != "none" {
		t.Errorf("known: %s", got)
	}
	known.Guests = []planner.Guest{{Name: "Mina", Diets: []string{"pregnant"}}}
	if got := keys(News(p, known)); got != "raw-shellfish" {
		t.Errorf("a guest at risk has come: %s", got)
	}
	if got := keys(Said(known, true, func(*planner.Dish) bool { return true })); got != "raw-shellfish" {
		t.Errorf("known, with a guest at risk: %s", got)
	}
}

// TestTheWayHere: how a dish travels that somebody brings is asked about, where it spoils or nobody knows; of how it is
// made nothing is said.
func TestTheWayHere(t *testing.T) {
	for _, c := range []struct {
		name, in, by string
		asked        bool
	}{
		{"Chicken salad", "", "Olaf", true}, {"Chicken salad", "", "", false}, {"Aunt's surprise", "", "Olaf", true},
		{"Gingerbread", "", "Olaf", false}, {"Aunt's surprise", "plain flour", "Olaf", false},
		{"Aunt's surprise", "minced beef", "Olaf", true},
	} {
		d := planner.Dish{Key: "d", Name: c.name, Serves: 4, BroughtBy: c.by}
		if c.in != "" {
			d.Ingredients = []planner.Ingredient{{Name: c.in, Amount: "1 kg"}}
		}
		all := Of(&planner.Party{Covers: 4, Dishes: []planner.Dish{d}}, true)
		if got := len(all) == 1 && all[0].Key == "the-way"; got != c.asked || len(all) > 1 {
			t.Errorf("%s of %q by %q: %v", c.name, c.in, c.by, all)
		}
	}
}
