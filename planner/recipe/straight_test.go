package recipe

import (
	"os"
	"path/filepath"
	"testing"

	"tureen/planner"
)

// dishOf is the dish of one of our own recipes.
func dishOf(t *testing.T, name string) planner.Dish {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "recipes", name))
	if err != nil {
		t.Fatal(err)
	}
	r, err := Read(string(text))
	if err != nil {
		t.Fatal(err)
	}
	d, _ := r.Dish("main", 0)
	return d
}

// goesStraight reports whether a step goes straight on from another; comes is false where it does not come after it.
func goesStraight(d *planner.Dish, from, to planner.StepKey) (straight, comes bool) {
	for _, a := range d.Step(to).After {
		if a.Step == from {
			return a.Wait.State == planner.Straight, true
		}
	}
	return false, false
}

// What common practice does at once goes straight on: bicarbonate works from when it is wet, and what is to cool for
// minutes cools when it comes out of the oven. Dry things wait.
func TestStraightOn(t *testing.T) {
	for _, c := range []struct {
		recipe   string
		from, to planner.StepKey
		want     bool
	}{
		{"16-soda-bread.txt", "mix", "bake", false},
		{"16-soda-bread.txt", "bake", "cool", true},
		{"15-last-half-hour.txt", "braise", "add", true},
		{"15-last-half-hour.txt", "add", "braise-2", true},
		{"15-last-half-hour.txt", "scrub", "add", false},
	} {
		d := dishOf(t, c.recipe)
		straight, comes := goesStraight(&d, c.from, c.to)
		if !comes || straight != c.want {
			t.Errorf("%s: %s comes after %s %t, straight on %t, want %t", c.recipe, c.to, c.from, comes, straight, c.want)
		}
	}
}

// A wait without an end to it is asked about, where no step is as long as what it is the last of.
func TestLastOfNothingIsAsked(t *testing.T) {
	r, err := Read("Beans for 4\n\nIngredients\n1 kg beans\n1 carrot\n\nMethod\nSimmer the beans for 20 minutes. Add " +
		"the carrot for the last 45 minutes.")
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Questions) == 0 || r.Questions[0].About != "order" {
		t.Errorf("asks %+v", r.Questions)
	}
}
