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

// Whoever forgets to say that food spoils is asked.
func TestSpoiling(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Sunday plate course:main")
	for _, row := range []struct {
		text  string
		asked bool
	}{
		{"/step add dish:sunday-plate name:a do:Joint the chicken time:20 min", true},
		{"/step add dish:sunday-plate name:b do:Joint the chicken time:20 min leaves:poultry", false},
		{"/step add dish:sunday-plate name:c do:Whip the cream time:10 min", true},
		{"/step add dish:sunday-plate name:d do:Bake the cream tart time:10 min leaves:none", false},
		{"/step add dish:sunday-plate name:e do:Peel the potatoes time:10 min", false},
		{"/step add dish:sunday-plate name:f do:Brown the chicken time:10 min after:b", false}, // it follows from b
	} {
		if got := plain(tb.must("Ana", row.text)); strings.Contains(got, "or no limit is kept") != row.asked {
			t.Errorf("%s: want asked %v: %s", row.text, row.asked, got)
		}
	}
}
