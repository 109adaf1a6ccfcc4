package recipe

import (
	"strings"
	"testing"

	"tureen/planner"
)

// TestOwnLines: a dish in one line, and its steps as they are read; ours, by hand.
func TestOwnLines(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"lasagne, mine: 45 min work, the day before, 50 min at 180",
			"Prepare lasagne [hands, 45 min; the day before] | Bake lasagne [watch, 50 min; oven 180 °C; after 1]"},
		{"cheesecake, bought: collect Saturday, out 30 minutes before",
			"Collect cheesecake [hands, 30 min; saturday] | Take cheesecake out of the refrigerator [unattended, 30 min; " +
				"after 1]"},
		{"Fish pie, my own: two days before: 1 h hands-on; 40-45 minutes in the oven at 200 °C",
			""},
		{"Fish pie, my own: two days before, 1 h hands-on, 40-45 minutes in the oven at 200 °C",
			"Prepare Fish pie [hands, 1 h; 2 days before] | Bake Fish pie [watch, 40–45 min; oven 200 °C; after 1]"},
		{"Terrine, homemade: 2 h work on thursday morning, take out 1 hour before",
			"Begin Terrine; take out of the refrigerator only what is being worked on [hands, 1 h; refrigerator] | " +
				"Finish the work on Terrine [hands, 1 h; thursday morning; after 1] | " +
				"Take Terrine out of the refrigerator [unattended, 1 h; after 2]"},
		{"Cake, from the bakery: pick up on 5 dec at 11:00 from Hilda's",
			"Collect Cake from Hilda's [hands, 30 min; 5 dec 11:00]"},
		{"Ham, ours: in the morning, simmer 3 hours, 20 min work",
			"Simmer 3 hours [watch, 3 h; on the day morning; burner] | Prepare Ham [hands, 20 min; after 1]"},
		{"Trifle, mine: dance", ""},
		{"Trifle, mine:", ""},
	} {
		r, _, err := ReadLine(c.line)
		if c.want == "" {
			if err == nil {
				t.Errorf("%s: read as %v", c.line, r.StepLines())
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", c.line, err)
			continue
		}
		got := strings.ReplaceAll(strings.Join(r.StepLines(), " | "), " (line 1)", "")
		if got = strings.ReplaceAll(got, " (my guess)", ""); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.line, got, c.want)
		}
		if !r.Unlisted || len(r.Questions) > 0 || len(r.Ingredients) > 0 || !IsOwnLine(c.line) {
			t.Errorf("%s: %+v", c.line, r)
		}
		d, _ := r.Dish("main", 0)
		for i := range d.Steps {
			if !d.Steps[i].Leaves.Perishable {
				t.Errorf("%s: what %s leaves is not taken for what spoils", c.line, d.Steps[i].Key)
			}
		}
	}
	r, _, err := ReadLine("bread, bought: collect on the day")
	if err != nil {
		t.Fatal(err)
	}
	if d, _ := r.Dish("main", 0); d.Steps[0].Leaves.Perishable || d.Steps[0].Serve.State != planner.Counter {
		t.Errorf("a loaf keeps: %+v", d.Steps[0])
	}
	for _, text := range []string{"Lasagne: 45 min work", "Soup, for 4: boil it", "Serves 4: mine", ""} {
		if IsOwnLine(text) {
			t.Errorf("%q says whose it is", text)
		}
	}
}
