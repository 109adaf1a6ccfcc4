package trace_test

import (
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// cookedTo is what a step with nothing before it is to bring its food to.
func cookedTo(do string) string {
	d := planner.Dish{Key: "d", Name: "D", Serves: 4, Steps: []planner.Step{{Key: "cook", Do: do, Cooks: true}}}
	p := &planner.Party{Dishes: []planner.Dish{d}}
	return trace.CookedTo(p, &p.Dishes[0], &p.Dishes[0].Steps[0])
}

// TestCookedToByWords: what a step cooks by its words has its published temperature or sign: no less than that of the
// kind beside it, which is what the words said before there was one table of foods.
func TestCookedToByWords(t *testing.T) {
	for _, c := range []struct {
		kind  safety.Kind
		words string
	}{
		{safety.Poultry, "chicken,chickens,turkey,duck,goose,quail,poussin,the turkey stuffing,chicken pie"},
		{safety.GroundMeat, "mince,minced meat,minced beef,meatballs,burgers,sausages,meatloaf"},
		{safety.RedMeat, "beef,pork,lamb,veal,steak,steaks,the beef stew,the lamb tagine"},
		{safety.Fish, "fish,salmon,cod,haddock,trout,hake,halibut,bream,bass,tuna,fish cakes,the fish pie"},
		{safety.Shellfish, "prawns,shrimp,scallops,squid"},
		// FDA Food Code 2022, 3-401.11(A)(3): what is not known to be farmed counts as wild.
		{safety.Game, "venison,rabbit,hare,wild boar"},
		{safety.Offal, "kidneys,sweetbreads,ox heart,tongue"},
		{safety.Bivalves, "mussels,clams,oysters,cockles"},
		// These had none.
		{safety.Poultry, "pheasant,partridge,guinea fowl,pigeon,grouse,the chicken livers,ground turkey"},
		{safety.GroundMeat, "chorizo,merguez,sausage,haggis"},
		{safety.RedMeat, "goat,oxtail,mutton,brisket,ribs,shanks"},
		{safety.Fish, "mackerel,herring,sardines,turbot,monkfish,sole,plaice,snapper"},
		{safety.Shellfish, "crab,lobster,octopus,crayfish,langoustines"},
	} {
		for w := range strings.SplitSeq(c.words, ",") {
			got, want := cookedTo("Cook "+w+" through"), safety.CookTo(c.kind)
			if !strings.Contains(got, want.Figure()) {
				t.Errorf("cook %s: %q, want %q in it", w, got, want.Figure())
			}
		}
	}
	for _, w := range []string{"the onions", "chicken stock", "rice", "the beef tomatoes", "the oyster mushrooms",
		"duck eggs",
		"tinned tuna", "kidney beans", "something"} {
		if got := cookedTo("Fry " + w); got != "" {
			t.Errorf("fry %s: %q, and nothing is published for it", w, got)
		}
	}
	if got := cookedTo("Fry the salmon and the chicken"); !strings.Contains(got, "73.9 °C") &&
		!strings.Contains(got, "74 °C") {
		t.Errorf("of two foods the hotter temperature holds: %q", got)
	}
}

// TestCookedToInUK: a party in the UK hears the UK's figure (Food Standards Agency, Cooking safely in your business:
// 70 °C for 2 minutes), where it has one, and no rest beside it.
func TestCookedToInUK(t *testing.T) {
	for name, want := range map[string]string{
		"pork loin": "at least 70 °C (158 °F) for 2 min in the middle (UK FSA)", "chicken thighs": "(UK FSA)",
		"beef sirloin": "62.8 °C (145 °F) in the middle, then 3 min of rest (foodsafety.gov)", "salmon": "foodsafety.gov",
	} {
		d := planner.Dish{Key: "d", Name: "D", Serves: 4, Ingredients: []planner.Ingredient{{Name: name, Amount: "1 kg"}},
			Steps: []planner.Step{{Key: "cook", Do: "Roast it", Cooks: true}}}
		for zone, want := range map[string]string{"Europe/London": want, "Europe/Vienna": "foodsafety.gov"} {
			p := &planner.Party{Zone: zone, Dishes: []planner.Dish{d}}
			if got := trace.CookedTo(p, &p.Dishes[0], &p.Dishes[0].Steps[0]); !strings.Contains(got, want) {
				t.Errorf("%s in %s: %q, want %q in it", name, zone, got, want)
			}
		}
	}
}

// TestCookedTo: the charts' figures by kind (foodsafety.gov, Safe Minimum Internal Temperatures), for what goes into a
// step.
func TestCookedTo(t *testing.T) {
	food := func(k safety.Kind) planner.Food { return planner.Food{Perishable: true, Kind: k} }
	for _, c := range []struct {
		what  string
		into  planner.Food
		waits planner.State
		cooks bool // the step before
		until string
		do    string
		want  string
	}{
		{"poultry", food(safety.Poultry), planner.Refrigerator, false, "", "",
			"73.9 °C (165 °F) in the middle (foodsafety.gov)"},
		{"minced meat", food(safety.GroundMeat), planner.Refrigerator, false, "", "", "71.1 °C (160 °F)"},
		{"a whole cut rests", food(safety.RedMeat), planner.Refrigerator, false, "", "",
			"62.8 °C (145 °F) in the middle, then 3 min of rest"},
		{"pink", food(safety.RedMeat), planner.Refrigerator, false, "54 °C in the middle", "", "62.8 °C"},
		{"its own sign asks for more", food(safety.RedMeat), planner.Refrigerator, false, "65 °C in the middle", "", ""},
		{"fish", food(safety.Fish), planner.Refrigerator, false, "it flakes", "", "62.8 °C (145 °F)"},
		{"mussels have a sign", food(safety.Shellfish), planner.Refrigerator, false, "", "", "until"},
		{"leftovers", food(safety.Cooked), planner.Refrigerator, true, "", "", "74 °C (165 °F)"},
		{"hot all the while", food(safety.Cooked), planner.Counter, true, "", "", ""},
		{"cold kitchen", food(safety.Cooked), planner.Refrigerator, false, "", "", ""},
		{"nothing that spoils", planner.Food{}, planner.Counter, false, "", "Bake the bread", ""},
		{"by its words", planner.Food{}, planner.Counter, false, "", "Roast the chicken", "73.9 °C"},
	} {
		do := c.do
		if do == "" {
			do = "Cook it"
		}
		d := planner.Dish{Key: "dish", Steps: []planner.Step{
			{Key: "before", Do: "Ready it", Leaves: c.into, Cooks: c.cooks},
			{Key: "cook", Do: do, Cooks: true, Until: c.until,
				After: []planner.After{{Step: "before", Wait: planner.Wait{State: c.waits}}}}}}
		p := &planner.Party{Dishes: []planner.Dish{d}}
		got := trace.CookedTo(p, &p.Dishes[0], &p.Dishes[0].Steps[1])
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s: got %q, want %q in it", c.what, got, c.want)
		}
	}
}
