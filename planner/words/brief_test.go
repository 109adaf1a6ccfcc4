package words

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestBrief(t *testing.T) {
	for long, want := range map[string]string{
		"Roll out the pastry":                           "Roll out the pastry",
		"Sweat the leeks in the butter for 10 minutes.": "Sweat the leeks",
		"Peel and slice the potatoes thinly; rub the dish with garlic": "Peel and slice the " +
			"potatoes thinly",
		"Add the wine and braise in the oven at 150 for 3 hours": "Add the wine and braise",
		"Cover with foil and roast for two hours, until it falls off the bone": "Cover with foil and " +
			"roast",
		"Move the raw prawns (Prawns with garlic and chilli) from the freezer to the refrigerator": "Move the raw prawns " +
			"from the freezer to…",
		"Reheat to at least 74 °C in the middle, stirring": "Reheat",
		"Stir": "Stir",
		"In a large pan, heat the oil and soften the shallots with the thyme": "Heat the oil and " +
			"soften the shallots",
		"In the same pot soften the onions, carrots and celery for about 10 min":       "Soften the onions",
		"In a bowl whisk the eggs with the sugar until they are pale, then fold it in": "Whisk the eggs",
	} {
		if got := Brief(long, 40); got != want {
			t.Errorf("%q became %q, not %q", long, got, want)
		}
	}
	endless := strings.Repeat("ä", 400)
	if got := Brief(endless+" "+endless, 30); utf8.RuneCountInString(got) > 30 || !utf8.ValidString(got) {
		t.Errorf("a word without an end became %q", got)
	}
	for _, odd := range []string{"", " ", ";", "a ;", "( ( (",
		"…………………………………………………………………………………………"} {
		if got := Brief(odd, 5); utf8.RuneCountInString(got) > 5 {
			t.Errorf("%q became %q", odd, got)
		}
	}
}
