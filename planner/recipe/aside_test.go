package recipe

import (
	"testing"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// Browned meat that is put aside is in no step until it is named again: the vegetables between leave no part-cooked
// meat and are cooked to no temperature of meat's, and come before or beside it. The meat goes straight on to where it
// comes back (planner/safety: the rule of partial cooking, 9 CFR and USDA FSIS as cited there).
func TestMeatPutAside(t *testing.T) {
	d := dishOf(t, "15-last-half-hour.txt")
	p := &planner.Party{Covers: 6, Dishes: []planner.Dish{d}}
	for _, c := range []struct {
		step       planner.StepKey
		partCooked bool
		cookedTo   bool
	}{
		{"brown", true, false},
		{"slice", false, false},
		{"soften", false, false},
		{"let", false, false}, // the wine bubbles
		{"braise", false, true},
	} {
		s := d.Step(c.step)
		if s == nil {
			t.Fatalf("no step %s", c.step)
		}
		if leavesOf(&d, s.Key).PartCooked != c.partCooked ||
			c.partCooked && leavesOf(&d, s.Key).Kind() != safety.RedMeat {
			t.Errorf("%s leaves %+v, want part-cooked %t", c.step, leavesOf(&d, s.Key), c.partCooked)
		}
		if got := trace.CookedTo(p, &d, s); (got != "") != c.cookedTo {
			t.Errorf("%s is cooked to %q, want any %t", c.step, got, c.cookedTo)
		}
	}
	for _, pair := range [][2]planner.StepKey{{"brown", "braise"}} {
		if straight, comes := goesStraight(&d, pair[0], pair[1]); !comes || !straight {
			t.Errorf("%s after %s: comes %t, straight on %t", pair[1], pair[0], comes, straight)
		}
	}
}

// What is done meanwhile is no part of the dish beside it: couscous that soaks while a chicken roasts is no poultry.
func TestMeanwhileIsBeside(t *testing.T) {
	r, err := Read("Chicken with couscous for 4\n\nIngredients\n6 chicken thighs\n150 g couscous\n\nMethod\nHeat the " +
		"oven to 200 °C. Sit the chicken in a roasting tin and roast for 40 minutes. " +
		"Meanwhile, pour boiling water over the couscous and leave to stand for 5 minutes. Serve.")
	if err != nil {
		t.Fatal(err)
	}
	d, _ := r.Dish("main", 0)
	for _, key := range []planner.StepKey{"leave"} {
		if k := leavesOf(&d, key).Kind(); k == safety.Poultry {
			t.Errorf("%s leaves raw poultry", key)
		}
	}
	if s := d.Step("roast"); leavesOf(&d, s.Key).Kind() != safety.Cooked || len(s.After) != 0 {
		t.Errorf("the chicken in its tin: %+v", s)
	}
}

// Where nothing brings the meat back it is in the pot all the time.
func TestMeatThatStays(t *testing.T) {
	r, err := Read("Beef stew for 6\n\nIngredients\n1.2 kg beef shin\n3 onions\n500 ml red wine\n\nMethod\nBrown the " +
		"meat in a casserole for 15 minutes. " +
		"Add the onions and wine and cook in the oven at 150 °C for 2 1/2 hours.")
	if err != nil {
		t.Fatal(err)
	}
	d, _ := r.Dish("main", 0)
	if s := d.Step("brown"); !leavesOf(&d, s.Key).PartCooked {
		t.Errorf("brown leaves %+v", leavesOf(&d, s.Key))
	}
	if straight, comes := goesStraight(&d, "brown", "cook"); !comes || !straight {
		t.Errorf("what is browned goes on: comes %t, straight on %t", comes, straight)
	}
	if in := d.Ingredients[0]; in.Step != "brown" {
		t.Errorf("the beef goes into %q: the meat is the beef", in.Step)
	}
}

// A tin is greased and a batter folded once for all; what is peeled grows with the covers. A casserole holds more than
// a tray.
func TestWhatGrowsWithCovers(t *testing.T) {
	d := dishOf(t, "16-soda-bread.txt")
	for key, want := range map[planner.StepKey]planner.Growth{"mix": planner.Fixed} {
		if got := d.Step(key).Grows; got != want {
			t.Errorf("soda bread, %s: grows %q, want %q", key, got, want)
		}
	}
	d = dishOf(t, "15-last-half-hour.txt")
	if got := d.Step("slice").Grows; got != planner.InProportionToCovers {
		t.Errorf("slicing onions grows %q", got)
	}
	if got := d.Step("braise").Uses[0].For; got != potCovers {
		t.Errorf("a shelf with a casserole is for %d", got)
	}
	d = dishOf(t, "13-roast-in-passing.txt")
	if got := d.Step("roast").Uses[0].For; got != 6 { // 1 kg of squash in wedges, where a tray takes 1.5 kg
		t.Errorf("a shelf with a tray for 4 is for %d", got)
	}
}

// leavesOf is the food that a step of a dish leaves.
func leavesOf(d *planner.Dish, k planner.StepKey) *trace.Leaves {
	return trace.OfDish(&planner.Party{}, d).Leaves(d.Key, k)
}
