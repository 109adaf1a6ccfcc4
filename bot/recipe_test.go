package bot

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tureen/bot/talk"
	"tureen/planner"
)

// attach has somebody send a recipe as a file.
func (tb *table) attach(who, name string, data []byte) talk.Reply {
	return tb.Do(context.Background(), talk.Request{Community: "test", Channel: "kitchen",
		User: talk.User{ID: planner.Key(who), Name: who}, Command: "recipe read",
		Files: map[string]talk.File{"file": {Name: name, Data: data}}})
}

// ownRecipe is one of the recipes that planner/recipe is tested with.
func ownRecipe(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "planner", "recipe", "testdata", "recipes", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// dish is a dish of the party, or nil.
func (tb *table) dish(key planner.DishKey) *planner.Dish {
	snap := tb.party()
	return snap.Party.Dish(key)
}

func recipeSupper(t *testing.T) *table {
	tb := newTable(t)
	tb.must("Ana", `/party new name:Harvest supper date:2026-09-26 arrive:19:00 covers:8 zone:Europe/Lisbon prep-days:3 `+
		`courses:starter 19:30, main 20:30, dessert 21:30`, "/people add name:Ben cooks:14:00-21:30")
	return tb
}

func TestRecipeIsReadThenKept(t *testing.T) {
	tb := recipeSupper(t)
	text := strings.ReplaceAll(strings.ReplaceAll(string(ownRecipe(t, "07-one-paragraph-soup.txt")), "\n", `\n`), `"`,
		`\"`)
	rep := tb.must("Ana", `/recipe read text:"`+text+`"`)
	if n := len(tb.party().Party.Dishes); n != 0 {
		t.Fatalf("%d dishes are on the menu though nobody has kept one", n)
	}
	for _, want := range []string{"Carrot and cumin soup, for 6, with 6 ingredients and 5 steps", "1.5 l, vegetable stock",
		"simmer for 25 minutes", "Next: /recipe keep course:starter"} {
		if !strings.Contains(plain(rep), want) {
			t.Errorf("no %q in\n%s", want, plain(rep))
		}
	}
	for _, s := range rep.Sections {
		if s.Title == "I am not sure" && len(s.Lines) > 3 {
			t.Errorf("%d questions", len(s.Lines))
		}
	}
	rep = tb.press("Ana", rep, "Keep it: starter")
	if !strings.Contains(rep.Text, "is on the menu, as starter") {
		t.Errorf("got %q", rep.Text)
	}
	tb.must("Ana", "/plan make")
	tb.holds()
	if rep := tb.say("Ana", "/recipe keep course:main"); !rep.Refused || !strings.Contains(rep.Text, "already") {
		t.Errorf("kept twice: %q", rep.Text)
	}
	if rep := tb.say("Ben", "/recipe keep course:main"); !rep.Refused ||
		!strings.Contains(rep.Text, "no recipe of yours") {
		t.Errorf("Ben keeps what Ana read: %q", rep.Text)
	}
}

// After a recipe that is refused, the one before it is not kept in its place.
func TestRefusedRecipePutsTheOneBeforeAside(t *testing.T) {
	tb := recipeSupper(t)
	tb.attach("Ana", "soup.txt", ownRecipe(t, "07-one-paragraph-soup.txt"))
	if rep := tb.say("Ana", "/recipe read text:Just some words"); !rep.Refused {
		t.Fatalf("read: %q", rep.Text)
	}
	if rep := tb.say("Ana", "/recipe keep course:starter"); !rep.Refused || !strings.Contains(rep.Text, "was not read") {
		t.Errorf("kept: %q", rep.Text)
	}
	if n := len(tb.party().Party.Dishes); n != 0 {
		t.Errorf("%d dishes are on the menu", n)
	}
	tb.attach("Ana", "soup.txt", ownRecipe(t, "07-one-paragraph-soup.txt"))
	tb.must("Ana", "/recipe keep course:starter")
}

// Every recipe of our own becomes a dish that can be planned, with at most three questions.
func TestEveryOwnRecipeIsPlanned(t *testing.T) {
	if testing.Short() {
		t.Skip("plans twelve parties")
	}
	names, err := filepath.Glob(filepath.Join("..", "planner", "recipe", "testdata", "recipes", "*.golden"))
	if err != nil || len(names) < 12 {
		t.Fatalf("%d recipes, %v", len(names), err)
	}
	for _, golden := range names {
		name := strings.TrimSuffix(filepath.Base(golden), ".golden")
		tb := recipeSupper(t)
		rep := tb.attach("Ana", name, ownRecipe(t, name))
		if rep.Refused {
			t.Errorf("%s: %s", name, rep.Text)
			continue
		}
		rep = tb.must("Ana", "/recipe keep course:main")
		for _, s := range rep.Sections {
			if strings.HasPrefix(s.Title, "Taken") && len(s.Lines) > 3 {
				t.Errorf("%s: %d questions", name, len(s.Lines))
			}
		}
		if rep := tb.say("Ana", "/plan make"); rep.Refused || tb.party().Plan == nil {
			t.Errorf("%s: no plan:\n%s", name, plain(rep))
			continue
		}
		tb.holds()
	}
}

func TestRecipeCorrectionsWork(t *testing.T) {
	tb := recipeSupper(t)
	if rep := tb.attach("Ana", "stew.txt", ownRecipe(t, "01-terse-stew.txt")); rep.Refused {
		t.Fatalf("got %q, next %q", rep.Text, rep.Next)
	}
	rep := tb.must("Ana", "/recipe keep course:main serves:12 name:Sunday pork")
	d := tb.dish("sunday-pork")
	if d == nil || d.Serves != 12 || strings.Contains(plain(rep), "how many covers") {
		t.Fatalf("got %+v\n%s", d, plain(rep))
	}
	if rep := tb.attach("Ana", "bread.txt", ownRecipe(t, "16-soda-bread.txt")); rep.Refused {
		t.Fatalf("got %q, next %q", rep.Text, rep.Next)
	}
	rep = tb.must("Ana", "/recipe keep course:main")
	// What the answer says to type is typed.
	n := 0
	for _, s := range rep.Sections {
		for _, line := range s.Lines {
			if _, cmd, ok := strings.Cut(line, ": /"); ok {
				tb.must("Ana", "/"+cmd)
				n++
			}
		}
	}
	if n == 0 {
		t.Errorf("nothing to correct in\n%s", plain(rep))
	}
}

func TestRecipeLine(t *testing.T) {
	tb := recipeSupper(t)
	rep := tb.must("Ana", "/recipe line text:Pear tart, dessert, for 10: roll out the pastry 20 min, chill 1 h, bake "+
		"40-45 min at 180, cool 1 h")
	d := tb.dish("pear-tart")
	if d == nil || d.Course != "dessert" || d.Serves != 10 || len(d.Steps) != 4 {
		t.Fatalf("got %+v\n%s", d, plain(rep))
	}
	bake := d.Steps[2]
	if bake.Attention != planner.Watch || bake.Uses[0].C != 180 ||
		bake.Time != (planner.Span{Low: 40, Likely: 43, High: 45}) || d.Steps[1].Where != planner.Refrigerator {
		t.Errorf("got %+v", d.Steps)
	}
	for _, text := range []string{"/recipe line text:Pear tart", "/recipe line text:Pear tart: bake 40 min at 180",
		"/recipe line text:Pear tart, elevenses: bake 40 min at 180", "/recipe line text:: bake 3 min"} {
		if rep := tb.say("Ana", text); !rep.Refused || rep.Next == "" && !strings.Contains(rep.Text, "Write it as") {
			t.Errorf("%s: %q, %q", text, rep.Text, rep.Next)
		}
	}
}

func TestRecipeExport(t *testing.T) {
	tb := recipeSupper(t)
	tb.must("Ana", "/repertoire add dish:Roast chicken with lemon and bay")
	rep := tb.must("Ana", "/recipe export dish:Roast chicken with lemon and bay")
	if len(rep.Files) != 1 {
		t.Fatalf("%d files", len(rep.Files))
	}
	tb.must("Ana", "/dish remove dish:Roast chicken with lemon and bay")
	if rep := tb.attach("Ana", rep.Files[0].Name, rep.Files[0].Data); rep.Refused {
		t.Fatal(rep.Text)
	}
	tb.must("Ana", "/recipe keep course:main")
	snap := tb.party()
	if len(snap.Party.Dishes) != 1 {
		t.Fatalf("dishes: %+v", snap.Party.Dishes)
	}
	d := snap.Party.Dishes[0]
	if !strings.HasPrefix(d.Name, "Roast chicken") || len(d.Steps) < 4 || len(d.Ingredients) < 5 {
		t.Errorf("got %+v", d)
	}
}
