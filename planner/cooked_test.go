package planner_test

import (
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/safety"
)

// cookedTo is what a step with nothing before it is to bring its food to.
func cookedTo(do string) string {
	d := planner.Dish{Key: "d", Name: "D", Serves: 4, Steps: []planner.Step{{Key: "cook", Do: do, Cooks: true}}}
	p := &planner.Party{Dishes: []planner.Dish{d}}
	return p.CookedTo(&p.Dishes[0], &p.Dishes[0].Steps[0])
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
		{safety.RedMeat, "beef,pork,lamb,veal,venison,steak,steaks,the beef stew,the lamb tagine"},
		{safety.Fish, "fish,salmon,cod,haddock,trout,hake,halibut,bream,bass,tuna,fish cakes,the fish pie"},
		{safety.Shellfish, "prawns,shrimp,mussels,clams,scallops,squid"},
		// These had none.
		{safety.Poultry, "pheasant,partridge,guinea fowl,pigeon,grouse,the chicken livers,ground turkey"},
		{safety.GroundMeat, "chorizo,merguez,sausage,haggis"},
		{safety.RedMeat, "rabbit,hare,goat,oxtail,mutton,brisket,kidneys,sweetbreads,ribs,shanks"},
		{safety.Fish, "mackerel,herring,sardines,turbot,monkfish,sole,plaice,snapper"},
		{safety.Shellfish, "crab,lobster,octopus,oysters,crayfish,langoustines"},
	} {
		for w := range strings.SplitSeq(c.words, ",") {
			got, want := cookedTo("Cook "+w+" through"), safety.CookTo(c.kind)
			if !strings.Contains(got, want.Figure()) && !(c.kind == safety.Shellfish && got != "") {
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
