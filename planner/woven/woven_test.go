package woven_test

import (
	"fmt"
	"slices"
	"testing"

	"tureen/planner/measure"
	"tureen/planner/woven"
)

// TestIn: amounts as they stand in sentences, in prose of several ages and in a kitchen's notes; by hand.
func TestIn(t *testing.T) {
	for text, want := range map[string][]string{
		"Take a pound of flour, rub in half its weight of butter.":   {"1 lb flour", "½ lb butter"},
		"Add three quarters of a pound of sugar, and six eggs.":      {"¾ lb sugar", "6 eggs"},
		"Pour over a glass of white wine and the same of water.":     {"1 glass white wine", "1 glass water"},
		"Season w/ sherry vinegar 30ml, mustard 20g.":                {"30 ml sherry vinegar", "20 g mustard"},
		"Sweat 200g onions in 50g butter 10 min.":                    {"200 g onions", "50 g butter"},
		"Melt 2 oz. butter, stir in 2 oz. flour and cook 1 min.":     {"2 oz butter", "2 oz flour"},
		"You want a shoulder of lamb of about 2 kg, and you rub it.": {"2 kg shoulder of lamb"},
		"Beat in 3 eggs and a wine-glass of brandy.":                 {"3 eggs", "60 ml brandy"},
		"A couple of tbsp cumin, and half a lemon.":                  {"2 metric tbsp cumin", "½ lemon"},
		"Cure the duck legs (8) overnight.":                          {"8 duck legs"},
		"Cut it into 8 pieces and fry for 2 minutes.":                nil,
		"Spoon into six glasses. Bake at 180 for 20 min.":            nil,
	} {
		r := woven.Reader{Usage: measure.British, Title: "Duck legs"}
		var got []string
		for _, f := range r.In(text) {
			got = append(got, fmt.Sprint(f.Total(), " ", f.Name))
			if f.Start < 0 || f.Start >= f.End || f.End > len(text) {
				t.Errorf("%s: %+v", text, f)
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// TestBare: foods without an amount are found once, and none that were found with one.
func TestBare(t *testing.T) {
	r := woven.Reader{Usage: measure.British}
	text := "Fry 2 onions in oil, add rice and the yolks of 4 eggs."
	var got []string
	for _, l := range r.Bare(text, r.In(text)) {
		got = append(got, l.Name)
	}
	if want := []string{"oil", "rice"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
