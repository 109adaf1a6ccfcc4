package sheet

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/safety"
)

// pastry is a tart whose shell and custard wait in the refrigerator, the custard twice.
func pastry() (*planner.Party, *planner.Plan) {
	serve := time.Date(2026, 10, 10, 20, 0, 0, 0, time.UTC)
	cold := planner.Wait{State: planner.Refrigerator}
	d := planner.Dish{Key: "tart", Name: "Custard tart", Course: "dessert", Serves: 8,
		Ingredients: []planner.Ingredient{{Name: "plain flour", Step: "shell"}, {Name: "butter", Step: "shell"},
			{Name: "whole milk", Step: "custard"}, {Name: "egg yolks", Step: "custard"},
			{Name: "chopped walnuts", Step: "bake"}},
		Steps: []planner.Step{
			{Key: "shell", Do: "Line the tin", Component: "shell", Leaves: planner.Food{}},
			{Key: "custard", Do: "Cook the custard", Component: "custard", Cooks: true,
				Leaves: planner.Food{Perishable: true, Kind: safety.Custard}},
			{Key: "sieve", Do: "Sieve the custard", Component: "custard",
				Leaves: planner.Food{Perishable: true, Kind: safety.Custard},
				After:  []planner.After{{Step: "custard", Wait: cold}}},
			{Key: "bake", Do: "Bake the tart", Until: "just set", Leaves: planner.Food{Perishable: true, Kind: safety.Custard},
				After: []planner.After{{Step: "shell", Wait: cold}, {Step: "sieve", Wait: cold}},
				Serve: &planner.Wait{State: planner.Counter}},
		}}
	p := &planner.Party{Zone: "UTC", Arrival: serve, Covers: 8, Kitchen: planner.HomeKitchen(), Dishes: []planner.Dish{d},
		Courses: []planner.Course{{Key: "dessert", Name: "Dessert", Servings: []planner.Serving{{At: serve}}}},
		People:  []planner.Person{{Key: "ana", Name: "Ana"}}}
	at := func(key string, day, hour, minutes int) planner.Placed {
		start := time.Date(2026, 10, day, hour, 0, 0, 0, time.UTC)
		return planner.Placed{Task: planner.StepTask("tart", planner.StepKey(key), 1), Start: start,
			End: start.Add(time.Duration(minutes) * time.Minute), People: []planner.PersonKey{"ana"}}
	}
	plan := &planner.Plan{Served: []planner.Served{{Course: "dessert", At: serve}},
		Tasks: []planner.Placed{at("shell", 9, 9, 30), at("custard", 9, 12, 60), at("sieve", 9, 18, 10),
			at("bake", 10, 18, 45)}}
	plan.Tasks[3].Uses = []planner.Held{{What: planner.AnOven, Name: "oven", C: 160, From: plan.Tasks[3].Start,
		To: plan.Tasks[3].End}}
	return p, plan
}

// TestLabels: the custard counts from its cooking at its second wait too. The limit itself is safety's,
// with its source in limits.csv.
func TestLabels(t *testing.T) {
	p, plan := pastry()
	limit := safety.RefrigeratorLimit(safety.Custard)
	first := time.Date(2026, 10, 9, 13, 0, 0, 0,
		time.UTC).Add(time.Duration(limit.Minutes) * time.Minute).Format("Mon 2 Jan 15:04")
	want := `# Custard tart: shell
After "Line the tin", for 8 covers
Made of plain flour and butter
Contains gluten (plain flour), wheat (plain flour) and milk (butter)
Made Fri 9 Oct 09:30
Food that keeps, as far as is known: no published limit is counted
Kept in the refrigerator until Sat 10 Oct 18:00
Then: Sat 18:00 Bake the tart (Custard tart), the oven at 160 °C, 45 min, until just set – Ana
# Custard tart: custard
After "Cook the custard", for 8 covers
Made of whole milk and egg yolks
Contains milk (whole milk) and egg (egg yolks)
Made Fri 9 Oct 13:00
Use by ` + first + `: the limit for ` + safety.Custard.Label() + ` is ` + limit.String() + `
Kept in the refrigerator until Fri 9 Oct 18:00
Then: Fri 18:00 Sieve the custard (Custard tart), 10 min – Ana
# Custard tart: custard
After "Sieve the custard", for 8 covers
Made of whole milk and egg yolks
Contains milk (whole milk) and egg (egg yolks)
First cooked Fri 9 Oct 13:00, made Fri 9 Oct 18:10
`
	got := text(Labels(p, plan, Plain(time.UTC)))
	if !strings.HasPrefix(got, want) {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	if !strings.Contains(got[len(want):], "Use by "+first+":") {
		t.Errorf("sieved custard, which counts from its cooking, is not to be used by %s:\n%s", first, got[len(want):])
	}
	if strings.Contains(got, "walnuts") {
		t.Error("walnuts come only with the baking")
	}
	sesame := *p
	sesame.Dishes = slices.Clone(p.Dishes)
	sesame.Dishes[0].Ingredients = append(slices.Clone(p.Dishes[0].Ingredients), planner.Ingredient{Name: "sesame seeds"})
	if got := text(Labels(&sesame, plan, Plain(time.UTC))); strings.Count(got, "sesame (sesame seeds)") != 3 {
		t.Errorf("nobody said where the sesame goes, so that it may be anywhere:\n%s", got)
	}
	p.Dishes[0].Steps[2].After[0].Wait.Longest = 6 * 60
	if got := text(Labels(p, plan, Plain(time.UTC))); !strings.Contains(got,
		"Use by Fri 9 Oct 19:00: the dish's own limit") {
		t.Errorf("its own limit is sooner:\n%s", got)
	}
	p.Dishes[0].Steps[2].After[0].Wait = planner.Wait{State: planner.Freezer}
	if got := text(Labels(p, plan, Plain(time.UTC))); !strings.Contains(got, "Once thawed use within "+
		length(time.Duration(limit.Minutes)*time.Minute)) {
		t.Errorf("frozen:\n%s", got)
	}
}

// TestRawEggOnALabel: what has raw egg in it says so, with that egg's own figure (limits.csv, fridge-raw-egg).
func TestRawEggOnALabel(t *testing.T) {
	p, plan := pastry()
	d := &p.Dishes[0]
	d.Name, d.Steps[1].Do = "Chocolate mousse", "Whisk the yolks with sugar and fold in the milk"
	d.Steps[1].Cooks, d.Steps[1].Leaves = false, planner.Food{}
	want := "Raw egg is in it: " + p.RefrigeratorLimit(safety.RawEgg).String()
	if got := text(Labels(p, plan, Plain(time.UTC))); !strings.Contains(got, want) {
		t.Errorf("want %s:\n%s", want, got)
	}
	p, plan = pastry()
	if got := text(Labels(p, plan, Plain(time.UTC))); strings.Contains(got, "Raw egg") {
		t.Errorf("the custard is cooked:\n%s", got)
	}
}

// TestLabelsOfRichParty: each wait in the cold of a whole party is on exactly one label, and nothing is used after the
// limit that the plan, which the checker has passed, keeps.
func TestLabelsOfRichParty(t *testing.T) {
	p, plan := partygen.Rich()
	f := Plain(p.Location())
	f.Stamp = func(t time.Time, _ Style) string { return t.UTC().Format(time.RFC3339) }
	all := Labels(p, plan, f)
	waits := 0
	for _, s := range newView(p, plan, f).stays() {
		if (s.wait.State == planner.Refrigerator || s.wait.State == planner.Freezer) && s.length() >= time.Minute {
			waits++
		}
	}
	then := 0
	for _, l := range all {
		var by, until time.Time
		for _, line := range l.Lines {
			if strings.HasPrefix(line, "Then: ") {
				then++
			}
			if rest, ok := strings.CutPrefix(line, "Use by "); ok {
				by, _ = time.Parse(time.RFC3339, rest[:20])
			}
			if _, rest, ok := strings.Cut(line, " until "); ok && strings.HasPrefix(line, "Kept in") {
				until, _ = time.Parse(time.RFC3339, rest[:20])
			}
		}
		if until.IsZero() || !by.IsZero() && until.After(by) {
			t.Errorf("%s is kept until %v, used by %v", l.Title, until, by)
		}
	}
	if waits == 0 || then != waits {
		t.Errorf("%d waits in the cold, %d of them on labels", waits, then)
	}
	if !slices.EqualFunc(all, Labels(p, plan, f), func(a, b Section) bool {
		return a.Title == b.Title && slices.Equal(a.Lines, b.Lines)
	}) {
		t.Error("the labels are others the second time")
	}
}

// TestIceIsNoFood: the ice of a bath that food was cooled in stands on no label; ice that goes into a dish does.
func TestIceIsNoFood(t *testing.T) {
	p, plan := pastry()
	d := &p.Dishes[0]
	d.Steps[1].Cool = &planner.Cooling{Place: safety.PlaceStirredIce, MadeOf: safety.Metal, Consistency: safety.Thick,
		DepthCM: 5}
	d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: "ice", Step: "custard"})
	made := func() string {
		var out []string
		for _, s := range Labels(p, plan, Plain(time.UTC)) {
			out = append(out, s.Lines...)
		}
		return strings.Join(out, "\n")
	}
	if got := made(); strings.Contains(got, " ice") {
		t.Errorf("it was cooled in ice, and is not made of it:\n%s", got)
	}
	d.Ingredients[len(d.Ingredients)-1].Step = "shell"
	if got := made(); !strings.Contains(got, "Made of plain flour, butter and ice") {
		t.Errorf("ice went into it:\n%s", got)
	}
	d.Ingredients[len(d.Ingredients)-1].Step, d.Steps[1].Cool.Place = "custard", safety.PlaceRefrigerator
	if got := made(); !strings.Contains(got, "egg yolks and ice") {
		t.Errorf("it was cooled without ice, so that the ice went into it:\n%s", got)
	}
}
