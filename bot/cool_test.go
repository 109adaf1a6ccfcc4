package bot

import (
	"strings"
	"testing"

	"tureen/bot/talk"
)

// A large pot that is only left to cool is spoken of wherever the plan is, until it is cooled in ice.
func TestPotLeftToCool(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Bean pot course:main", "/ingredient add dish:bean-pot name:beans amount:6 kg",
		"/step add dish:bean-pot name:simmer do:Simmer the beans time:1 h attention:watch cooks:yes leaves:cooked",
		"/step use step:bean-pot/simmer what:burner",
		"/step add dish:bean-pot name:leave do:Leave to cool time:25 min attention:unattended leaves:cooked after:simmer "+
			"wait:counter",
		"/step add dish:bean-pot name:chill do:Chill overnight time:8 h attention:unattended where:refrigerator "+
			"leaves:cooked after:leave wait:counter",
		"/step add dish:bean-pot name:reheat do:Heat it time:20 min attention:watch cooks:yes after:chill wait:refrigerator")
	const press = "dish cool step:bean-pot/leave how:ice bath"
	for _, text := range []string{"/dish show dish:bean-pot", "/plan make", "/plan check"} {
		rep := tb.must("Ana", text)
		if got := plain(rep); !strings.Contains(got, `goes into the refrigerator warm after "Leave to cool"`) ||
			!offers(rep, press) {
			t.Errorf("%s: %s\n%v", text, got, rep.Buttons)
		}
	}
	if got := plain(tb.must("Ana", "/"+press)); !strings.Contains(got, "Leave to cool, in a bath of ice water, stirring") {
		t.Errorf("%s", got)
	}
	if got := plain(tb.must("Ana", "/dish show dish:bean-pot")); strings.Contains(got,
		"goes into the refrigerator warm") || !strings.Contains(got, "kg ice") {
		t.Errorf("cooled in ice: %s", got)
	}
	if got := plain(tb.must("Ana", "/dish cool step:bean-pot/leave remove:yes")); strings.Contains(got, "ice water") {
		t.Errorf("taken back: %s", got)
	}
}

// offers tells whether a reply has a button that does what a message says, for whichever party.
func offers(rep talk.Reply, do string) bool {
	for _, b := range rep.Buttons {
		if strings.HasPrefix(b.Do, do) {
			return true
		}
	}
	return false
}

// A plan says which vessels it does without.
func TestPlanSaysWhatLacks(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Bean pot course:main",
		"/step add dish:bean-pot name:simmer do:Simmer the beans time:1 h attention:watch cooks:yes leaves:none",
		"/step use step:bean-pot/simmer what:burner", "/step use step:bean-pot/simmer what:casserole enough-for:2")
	rep := tb.must("Ana", "/plan make")
	if got := plain(rep); !strings.Contains(got, "Missing (the plan makes do with what there is)") ||
		!strings.Contains(got, "casseroles") {
		t.Error(got)
	}
}
