package menu

import (
	"strings"
	"testing"

	"tureen/planner"
)

// TestGuestsInTheUK: what a guest under advice may have at a table in London, by who advises there: the NHS's pages on
// foods to avoid in pregnancy and for babies and young children, from memory; ours, by hand.
func TestGuestsInTheUK(t *testing.T) {
	plain := dish("main", "Plain", 10, 0)
	cold := func(do string, in ...string) planner.Dish { return doing(of(plain, in...), do, "", false) }
	hot := func(do, until string, in ...string) planner.Dish { return doing(of(plain, in...), do, until, true) }
	for _, c := range []struct {
		name, under string
		d           planner.Dish
		want        Verdict
		why         string
	}{
		{"cured meat", "pregnant", cold("Lay out the salami", "200 g", "salami"), Check, "cold cured meat (salami"},
		{"cured meat cooked", "pregnant", hot("Fry the chorizo", "", "200 g", "chorizo"), Free, ""},
		{"pate of vegetables", "pregnant", cold("Spread", "200 g", "mushroom pate"), Check, "vegetable pate too (UK NHS"},
		{"cold-smoked fish", "pregnant", cold("Slice", "300 g", "smoked salmon"), Check, "no cold-smoked or cured fish"},
		{"smoked fish baked in a tart", "pregnant", hot("Bake the smoked salmon in the tart", "", "300 g", "smoked salmon"),
			Free, ""},
		{"stilton", "pregnant", cold("Crumble", "200 g", "stilton"), Free, ""},
		{"dolcelatte", "pregnant", cold("Crumble", "200 g", "dolcelatte"), Check, "soft blue cheese"},
		{"feta", "pregnant", cold("Crumble the feta", "200 g", "pasteurised feta"), Free, ""},
		{"liver cooked through", "pregnant", hot("Fry the liver", "no longer pink", "1 kg", "lamb's liver"), Check,
			"no liver, nor what is made of it; it holds much vitamin A"},
		{"liver cooked through", "vulnerable", hot("Fry the liver", "no longer pink", "1 kg", "lamb's liver"), Free, ""},
		{"shark", "infant", hot("Grill the shark", "", "1 kg", "shark"), Check, "no high-mercury fish"},
		{"honey", "infant", hot("Glaze the carrots with the honey", "", "1 kg", "carrots", "50 g", "honey"), Not,
			"no honey (CDC, Botulism"},
		{"honey on a ham", "infant", hot("Bake the ham", "", "1 kg", "honey-glazed ham"), Not, "no honey"},
		{"whole almonds", "small child", cold("Scatter the almonds", "100 g", "whole almonds"), Check, "no whole nuts, popcorn"},
		{"ground almonds", "small child", hot("Bake the ground almonds", "", "100 g", "ground almonds"), Free, ""},
		{"a fruit punch with rum", "small child", cold("Stir", "1 l", "orange juice", "200 ml", "white rum"), Not,
			"no alcohol (UK Chief"},
		{"pork until it is rosy", "pregnant", hot("Roast the pork", "pink in the middle", "1 kg", "pork loin"), Not,
			"theirs steaming hot, with no pink or blood (UK NHS"},
		{"a poached egg", "vulnerable", hot("Poach the eggs", "", "4", "eggs"), Check, "take Lion-marked or pasteurized eggs"},
		{"unpasteurised cheese", "pregnant", cold("Slice", "200 g", "unpasteurised goat cheese"), Not,
			"no unpasteurized milk, cheese or juice (UK NHS"},
		{"rice drink", "small child", hot("Heat the rice milk", "", "1 l", "rice milk"), Check, "no rice drinks under 5"},
	} {
		g := planner.Guest{Diets: []string{c.under}}
		got, reasons := Suits(&planner.Party{Zone: "Europe/London"}, &c.d, &g)
		if why := joined(reasons); got != c.want || !strings.Contains(why, c.why) || c.why == "" && why != "" {
			t.Errorf("%s, %s: got %s (%s), want %s (%s)", c.name, c.under, got, why, c.want, c.why)
		}
	}
}
