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
		{"Lasagne (mine): 45 min work the day before, then 50 min at 180",
			"Prepare Lasagne [hands, 45 min; the day before] | Bake Lasagne [watch, 50 min; oven 180 °C; after 1]"},
		{"my lasagne: 45 minutes the day before, bake 50 min at 180",
			"Prepare lasagne [hands, 45 min; the day before] | Bake 50 min at 180 °C [watch, 50 min; oven 180 °C; " +
				"after 1]"},
		{"our lasagne, main: 45 min prep, 50 min in the oven at 180",
			"Prepare lasagne [hands, 45 min] | Bake lasagne [watch, 50 min; oven 180 °C; after 1]"},
		{"lasagne, homemade, main, for 8: an hour's work, the day before, 50 min at 180",
			"Prepare lasagne [hands, 1 h; the day before] | Bake lasagne [watch, 50 min; oven 180 °C; after 1]"},
		{"Lasagne, as always: 45 min work, rest 2 hours, 50 min at 180 °C",
			"Prepare Lasagne [hands, 45 min] | Rest 2 hours [unattended, 2 h; after 1] | Bake Lasagne [watch, 50 min; " +
				"oven 180 °C; after 2]"},
		{"lasagne by heart: 45 min work, 50 min oven 180",
			"Prepare lasagne [hands, 45 min] | Bake lasagne [watch, 50 min; oven 180 °C; after 1]"},
		{"granny's stew, mine: 30 min work, simmer 3 hours",
			"Prepare granny's stew [hands, 30 min] | Simmer 3 hours [watch, 3 h; burner; after 1]"},
		{"chilli, own: 40 min hands-on the day before, simmer 2 h, warm up 20 min",
			"Prepare chilli [hands, 40 min; the day before] | Simmer 2 h [watch, 2 h; burner; after 1] | Warm up 20 " +
				"min [watch, 20 min; burner; after 2]"},
		{"tiramisu, mine: 40 min, the day before, chill overnight",
			"Prepare tiramisu [hands, 40 min; the day before] | Chill overnight [unattended, 8–12 h; refrigerator; " +
				"after 1]"},
		{"tiramisu, own, dessert: 40 min work the evening before, 6 h in the fridge",
			"Prepare tiramisu [hands, 40 min; the day before evening] | 6 h in the fridge [unattended, 6 h; " +
				"refrigerator; after 1]"},
		{"potato salad, mine: boil 25 min, 20 min work, chill 2 h",
			"Boil 25 min [watch, 25 min; burner] | Prepare potato salad [hands, 20 min; after 1] | Chill 2 h " +
				"[unattended, 2 h; refrigerator; after 2]"},
		{"roast chicken, mine: 15 min work, 1 h 20 at 200, rest 15 min",
			"Prepare roast chicken [hands, 15 min] | Bake roast chicken [watch, 1 h 20 min; oven 200 °C; after 1] | " +
				"Rest 15 min [unattended, 15 min; after 2]"},
		{"bread, mine: 20 min work, rise 2 h, 10 min shaping, rise 1 h, bake 40 min at 230",
			"Prepare bread [hands, 20 min] | Rise 2 h [unattended, 2 h; after 1] | 10 min shaping [hands, 10 min; " +
				"after 2] | Rise 1 h [unattended, 1 h; after 3] | Bake 40 min at 230 °C [watch, 40 min; oven 230 °C; " +
				"after 4]"},
		{"ice cream, own: 30 min work two days before, freeze 6 hours, out 10 minutes before",
			"Prepare ice cream [hands, 30 min; 2 days before] | Freeze 6 hours [unattended, 6 h; freezer; after 1] | " +
				"Take ice cream out of the refrigerator [unattended, 10 min; after 2]"},
		{"soup, mine: 30 minutes work, 40 minutes simmering",
			"Prepare soup [hands, 30 min] | 40 minutes simmering [watch, 40 min; burner; after 1]"},
		{"salad, mine: 15 min just before serving",
			"Prepare salad [hands, 15 min]"},
		{"pavlova, mine: whisk 15 min, bake 1 h 30 at 120, cool 2 h, 10 min to top it",
			"Whisk 15 min [hands, 15 min] | Bake 1 h 30 at 120 °C [watch, 1 h 30 min; oven 120 °C; after 1] | Cool 2 " +
				"h [unattended, 2 h; after 2] | 10 min to top it [hands, 10 min; after 3]"},
		{"cheesecake, bought: pick up Friday 16:00, take out of the fridge 30 min before",
			"Collect cheesecake [hands, 30 min; friday 16:00] | Take cheesecake out of the refrigerator [unattended, " +
				"30 min; after 1]"},
		{"Bought cheesecake: collect Saturday",
			"Collect cheesecake [hands, 30 min; saturday]"},
		{"shop-bought cheesecake, dessert: out 30 min before",
			"Take cheesecake out of the refrigerator [unattended, 30 min]"},
		{"cheesecake, from the bakery: fetch it on saturday morning",
			"Collect cheesecake [hands, 30 min; saturday morning]"},
		{"bread, bought: collect on the day at 10:00",
			"Collect bread [hands, 30 min; on the day 10:00]"},
		{"ham, from the butcher: collect the day before, slice 10 min",
			"Collect ham [hands, 30 min; the day before] | Slice 10 min [hands, 10 min; after 1]"},
		{"pies (bought): collect friday, warm 20 min at 160",
			"Collect pies [hands, 30 min; friday] | Warm 20 min at 160 °C [watch, 20 min; oven 160 °C; after 1]"},
		{"sushi platter, ordered: pick up at 18:00 on the day",
			"Collect sushi platter [hands, 30 min; on the day 18:00]"},
		{"ready-made dips, bought: out 20 min before",
			"Take dips out of the refrigerator [unattended, 20 min]"},
		{"quiche, bought: collect Thursday, heat 15 min at 180",
			"Collect quiche [hands, 30 min; thursday] | Heat 15 min at 180 °C [watch, 15 min; oven 180 °C; after 1]"},
		{"ice cream, bought: collect saturday, out of the freezer 10 min before",
			"Collect ice cream [hands, 30 min; saturday] | Take ice cream out of the freezer [unattended, 10 min; " +
				"after 1]"},
		{"cake, ordered from Hilda's: collect sat 11:00",
			"Collect cake [hands, 30 min; sat 11:00]"},
		{"cheese board, bought: collect friday, out 1 hour before",
			"Collect cheese board [hands, 30 min; friday] | Take cheese board out of the refrigerator [unattended, 1 " +
				"h; after 1]"},
		{"gravlax, mine: cure 2 days in the fridge, slice 15 min",
			"Cure 2 days in the fridge [unattended, 2 days; refrigerator] | Slice 15 min [hands, 15 min; after 1]"},
		{"pâté, own: 1 h work 3 days before",
			"Prepare pâté [hands, 1 h; 3 days before]"},
		{"gratin, mine: 30 min work in the morning, 1 h 15 in the oven at 160",
			"Prepare gratin [hands, 30 min; on the day morning] | Bake gratin [watch, 1 h 15 min; oven 160 °C; after " +
				"1]"},
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
			if !d.Steps[i].Leaves.Perishable && r.Title != "Bread" { // which keeps, see below
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
