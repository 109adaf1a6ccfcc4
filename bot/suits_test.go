package bot

import (
	"strings"
	"testing"
)

func TestGuestsAndMenu(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Plum cake course:main",
		"/ingredient add dish:plum-cake name:walnut halves amount:100 g",
		"/ingredient add dish:plum-cake name:butter amount:200 g")
	for _, row := range []struct {
		text, want string // empty: nothing to look at
	}{
		{"/guest add name:Piers allergies:walnuts", "Plum cake, walnut halves: contains nuts (walnut"},
		{"/guest add name:Vera diets:vegan", "Plum cake, butter: not vegan (butter)"},
		{"/guest add name:Oona diets:vegetarian", ""},
		{"/guest add name:Karl allergies:plum", ""},
		{"/ingredient add dish:plum-cake name:plums amount:1 kg", "Karl: it says plum"},
		{"/ingredient add dish:plum-cake name:lard amount:50 g", "Oona: not vegetarian (lard)"},
		{"/dish show dish:plum-cake", "Piers: Plum cake, walnut halves: contains nuts"},
		{"/guest list", "Vera: Plum cake, butter: not vegan (butter)"},
	} {
		got := plain(tb.must("Ana", row.text))
		if caution := strings.Contains(got, "the label and the guest decide"); caution != (row.want != "") {
			t.Errorf("%s: caution %v in %s", row.text, caution, got)
		}
		if !strings.Contains(got, row.want) {
			t.Errorf("%s\ngot  %s\nwant …%s…", row.text, got, row.want)
		}
	}
	if rep := tb.say("Ana", "/guest add name:Kurt diets:vegetarain"); !rep.Refused ||
		!strings.Contains(plain(rep), "Did you mean vegetarian") {
		t.Errorf("a diet that nobody knows: %s", plain(rep))
	}
}

// What food a step leaves follows from its words; nobody need say it, and what spoils cannot be said to keep.
func TestSpoiling(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Sunday plate course:main")
	for _, row := range []struct{ text, leaves string }{
		{"/step add dish:sunday-plate name:a do:Joint the chicken time:20 min", "leaves poultry, perishable"},
		{"/step add dish:sunday-plate name:c do:Whip the cream time:10 min", "leaves whipped cream, perishable"},
		{"/step add dish:sunday-plate name:e do:Peel the potatoes time:10 min", "leaves what keeps on the counter"},
		{"/step add dish:sunday-plate name:f do:Brown the chicken time:10 min cooks:yes after:a",
			"leaves part-cooked poultry"},
		{"/step add dish:sunday-plate name:g do:Roast it time:1 h cooks:yes after:f", "leaves cooked food, perishable"},
	} {
		if got := plain(tb.must("Ana", row.text)); !strings.Contains(got, row.leaves) {
			t.Errorf("%s: want …%s…: %s", row.text, row.leaves, got)
		}
	}
	for _, text := range []string{
		"/step add dish:sunday-plate name:h do:Let it stand time:10 min after:g leaves:none",
		"/step change step:sunday-plate/g leaves:none",
	} {
		if rep := tb.say("Ana", text); !rep.Refused || !strings.Contains(plain(rep), "spoils out of the cold") {
			t.Errorf("%s: %s", text, plain(rep))
		}
	}
	got := plain(tb.must("Ana", "/ingredient add dish:sunday-plate name:zorbleblatt amount:100 g"))
	got += plain(tb.must("Ana", "/step change step:sunday-plate/a time:25 min"))
	if !strings.Contains(got, "I do not know zorbleblatt") {
		t.Errorf("an unknown food is not asked about: %s", got)
	}
	if again := plain(tb.must("Ana", "/step change step:sunday-plate/g time:55 min")); strings.Contains(again,
		"I do not know") {
		t.Errorf("it is asked about at a later step too: %s", again)
	}
	tb.must("Ana", "/ingredient change dish:sunday-plate ingredient:zorbleblatt food:none")
	if got := plain(tb.must("Ana", "/step change step:sunday-plate/a time:20 min")); strings.Contains(got,
		"I do not know") {
		t.Errorf("it is asked about again: %s", got)
	}
}
