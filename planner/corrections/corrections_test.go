package corrections

import (
	"slices"
	"strings"
	"testing"

	"tureen/planner/recipe"
)

// TestCorrectInWords: what is said of a reading in words, and the lines that then stand there; ours, by hand.
func TestCorrectInWords(t *testing.T) {
	const tart = "Plum tart for 6\n\nIngredients\n250 g flour\n125 g butter\n800 g plums\n2 tbsp sugar\n\nMethod\n" +
		"Rub the butter into the flour with a little water to make a dough. Chill for 30 minutes. " +
		"Halve the plums and toss with the sugar. Roll out the dough and line a tin. Bake with the plums at 190 °C " +
		"for 40 minutes. Cool for 20 minutes. Serve."
	for _, c := range []struct{ text, has, not string }{
		{"step 2 takes 45 minutes", "2 Chill for 30 minutes [unattended, 45 min;", ""},
		{"2 is an hour and a half", "unattended, 1 h 30 min;", ""},
		{"remove 6", "7 Serve", "Cool for"}, // its number stays what it was
		{"remove 2 and 6", "Serve", "Chill"},
		{"4 needs nothing before it", "4 Roll out the dough and line a tin [hands", "tart tin; after"},
		{"4 after 1", "after 1]", ""},
		{"step 5 at 200 °C", "oven 200 °C", "oven 190 °C"},
		{"5 is unattended", "[unattended, 40 min; oven", ""},
		{"serves 8", "Plum tart, for 8", ""},
		{"dough keeps two days in the fridge", "refrigerator; then keeps 2 days (refrigerator); after 1]", ""},
		{"4 keeps a day", "then keeps 1 day;", ""},
		{"step 2 takes 1 hour; remove 6", "2 Chill for 30 minutes [unattended, 1 h;", "Cool for"},
		{"step 2 takes 1.5 hours, remove 6 and step 5 is at 200", "oven 200 °C", "Cool for"},
		{"step 2 is an hour and a half and 1 is hands, 10 minutes", "a dough [hands, 10 min]", "1–2 h"},
		{"remove 3, 6 and 7", "5 Bake", "Halve"},
		{"remove 3; 5 after 4", "4]", "after 3"},
		{"1 after 3", "3 Halve the plums and toss with the sugar [hands, 1–3 min (my guess)] (line 10)\n  1 Rub", ""},
		{"3 before 1", "(my guess)] (line 10)\n  1 Rub", ""},
		{"chilling takes two hours", "unattended, 2 h;", ""},
		{"step three takes ten minutes", "3 Halve the plums and toss with the sugar [hands, 10 min]", ""},
		{"the last step takes 5 minutes", "7 Serve [hands, 5 min;", ""},
		{"step 4: line the tin with the dough and trim it", "4 Line the tin with the dough and trim it [hands", "Roll out"},
		{"6 is in the fridge", "[unattended, 20 min; refrigerator", ""},
		{"3 simmers on the hob for 8 minutes", "8 min; burner", ""},
		{"it is for 10 people", "Plum tart, for 10", ""},
		{"5 until the juice bubbles", "until the juice bubbles", ""},
	} {
		r, err := recipe.Read(tart)
		if err != nil {
			t.Fatal(err)
		}
		all, err := In(r, c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		for _, one := range all {
			if err := r.Correct(one); err != nil {
				t.Errorf("%s: %v", c.text, err)
			}
		}
		if got := r.Outline(); !strings.Contains(got, c.has) || c.not != "" && strings.Contains(got, c.not) {
			t.Errorf("%s: want %q and not %q in\n%s", c.text, c.has, c.not, got)
		}
	}
	r, _ := recipe.Read(tart)
	all, err := In(r, "sugar goes into step 4")
	if err != nil || len(all) != 1 || r.Correct(all[0]) != nil || !slices.Contains(r.Steps[3].Parts, 3) ||
		slices.Contains(r.Steps[2].Parts, 3) {
		t.Errorf("the sugar is in %v and %v: %v %v", r.Steps[2].Parts, r.Steps[3].Parts, all, err)
	}
	for _, text := range []string{"it is nicer with cream", "step takes long", "2 after 5", "step 9 takes 2 minutes",
		"remove 0", "2 after 2", ", and", "and 2 and 3"} {
		all, err := In(r, text)
		for _, one := range all {
			err = r.Correct(one)
		}
		if err == nil {
			t.Errorf("%s: %v", text, all)
		}
	}
}
