package trace_test

import (
	"testing"

	"tureen/planner"
	"tureen/planner/trace"
)

// Where food is follows from the words of a step; where heat is ordered too, or two places are named, they tell none.
func TestWhereWordsPutFood(t *testing.T) {
	for do, want := range map[string][2]planner.State{
		"Chill overnight":                            {planner.Refrigerator, planner.Refrigerator},
		"Leave in the fridge for two hours":          {planner.Refrigerator, planner.Refrigerator},
		"Freeze in the freezer":                      {planner.Freezer, planner.Freezer},
		"Leave the pot on the hob overnight":         {planner.Counter, planner.Counter},
		"Simmer on the hob":                          {planner.Counter, ""},
		"Let it stand at room temperature":           {planner.Counter, planner.Counter},
		"Take it out of the fridge":                  {"", ""},
		"Stir until the chill is off":                {"", ""},
		"Put it in the fridge, then on the counter":  {"", ""},
		"Leave it on the draining board":             {planner.Counter, planner.Counter},
		"Let it sit beside the switched-off cooker":  {planner.Counter, planner.Counter},
		"Leave it in the turned off oven overnight":  {planner.Counter, planner.Counter},
		"Bring it up in the oven":                    {"", ""},
		"Leave it on the top shelf of the fridge":    {"", ""},
		"Stand it in the garage":                     {planner.Counter, planner.Counter},
		"Whisk it well":                              {"", ""},
		"Leave the barbecue sauce in the fridge":     {planner.Refrigerator, planner.Refrigerator},
		"Marinate at room temperature for six hours": {planner.Counter, planner.Counter},
	} {
		if got := [2]planner.State{trace.PlaceIn(do), trace.StandsIn(do)}; got != want {
			t.Errorf("%q: %q, want %q", do, got, want)
		}
	}
}

// What nobody attends to for longer than food may be out of the cold goes into it, to the minute, where no word says
// where it is.
func TestWhatIsLeftForLongIsChilled(t *testing.T) {
	for _, c := range []struct {
		food, do  string
		attention planner.Attention
		minutes   planner.Minutes
		want      bool
	}{
		{"chicken thighs", "Marinate", planner.Unattended, 121, true},
		{"chicken thighs", "Marinate", planner.Unattended, 120, false},
		{"chicken thighs", "Marinate", planner.Hands, 121, false},
		{"chicken thighs", "Marinate on the counter", planner.Unattended, 121, false},
		{"apples", "Leave to stand", planner.Unattended, 600, false},
		{"dried chickpeas", "Soak the chickpeas", planner.Unattended, 600, true},
	} {
		d := planner.Dish{Key: "d", Name: "A dish", Serves: 4,
			Ingredients: []planner.Ingredient{{Name: c.food, Amount: "1 kg"}},
			Steps: []planner.Step{{Key: "s", Do: c.do, Attention: c.attention, Where: planner.Counter,
				Time: planner.Span{Low: c.minutes, Likely: c.minutes, High: c.minutes}}}}
		if got := trace.Chills(&planner.Party{}, &d, &d.Steps[0]); got != c.want {
			t.Errorf("%s, %q for %d minutes: %v, want %v", c.food, c.do, c.minutes, got, c.want)
		}
	}
}

// Part-cooked food is to be finished where a later step cooks it, over steps between too, and not where none does; a
// sauce's name orders no heat.
func TestWhatIsToBeFinished(t *testing.T) {
	dish := func(steps ...string) planner.Dish {
		d := planner.Dish{Key: "d", Name: "A dish", Serves: 4,
			Ingredients: []planner.Ingredient{{Name: "pork ribs", Amount: "2 kg"}}}
		for i, do := range steps {
			s := planner.Step{Key: planner.StepKey(rune('a' + i)), Do: do, Where: planner.Counter}
			if i > 0 {
				s.After = []planner.After{{Step: planner.StepKey(rune('a' + i - 1)), Wait: planner.Wait{State: planner.Counter}}}
			}
			d.Steps = append(d.Steps, s)
		}
		return d
	}
	for _, c := range []struct {
		steps []string
		want  bool
	}{
		{[]string{"Brown the ribs", "Grill the ribs"}, true},
		{[]string{"Brown the ribs", "Slice the ribs", "Grill the ribs"}, true},
		{[]string{"Brown the ribs", "Slice the ribs"}, false},
		{[]string{"Brown the ribs", "Brush with the barbecue sauce"}, false},
	} {
		d := dish(c.steps...)
		l := trace.OfDish(&planner.Party{}, &d).Leaves("d", "a")
		if !l.PartCooked || l.ToFinish != c.want {
			t.Errorf("%q: part-cooked %v, to be finished %v, want %v", c.steps, l.PartCooked, l.ToFinish, c.want)
		}
	}
}
