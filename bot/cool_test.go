package bot

import (
	"strings"
	"testing"
)

// A large pot that is only left to cool is portioned by a chore, whatever the step's words are, and the host may say
// how.
func TestPotLeftToCool(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Bean pot course:main", "/ingredient add dish:bean-pot name:carrots amount:6 kg",
		"/step add dish:bean-pot name:simmer do:Simmer the beans time:1 h attention:watch cooks:yes leaves:cooked",
		"/step use step:bean-pot/simmer what:burner",
		"/step add dish:bean-pot name:leave do:Leave to cool in ice water time:25 min attention:unattended leaves:cooked "+
			"after:simmer wait:counter",
		"/step add dish:bean-pot name:chill do:Chill overnight time:8 h attention:unattended where:refrigerator "+
			"leaves:cooked after:leave wait:counter",
		"/step add dish:bean-pot name:reheat do:Heat it time:20 min attention:watch cooks:yes after:chill wait:refrigerator")
	const name = "the bean pot into 4 shallow trays"
	const chore = name + ", 1.5 cm deep"
	for _, row := range [][2]string{{"/dish show dish:bean-pot", chore}, {"/plan make", name}, {"/task list", name}} {
		text, want := row[0], row[1]
		if got := plain(tb.must("Ana", text)); !strings.Contains(got, want) {
			t.Errorf("%s: %s", text, got)
		}
	}
	got := plain(tb.say("Ana", "/dish cool step:bean-pot/simmer depth:6"))
	if !strings.Contains(got, "at most 5 cm deep") {
		t.Errorf("6 cm deep: %s", got)
	}
	tb.must("Ana", "/dish cool step:bean-pot/simmer how:ice bath")
	got = plain(tb.must("Ana", "/dish show dish:bean-pot"))
	if !strings.Contains(got, "sink of cold water with 7 kg of ice") || !strings.Contains(got, "7 kg ice") {
		t.Errorf("cooled in ice: %s", got)
	}
	tb.must("Ana", "/dish cool step:bean-pot/leave remove:yes")
	if got := plain(tb.must("Ana", "/plan make")); strings.Contains(got, "the bean pot into") {
		t.Errorf("it is little: %s", got)
	}
	if got := plain(tb.must("Ana", "/dish show dish:bean-pot")); !strings.Contains(got, chore) ||
		strings.Contains(got, "kg ice") {
		t.Errorf("what is published stays said: %s", got)
	}
}

// A whole bird is never little, and never goes cold as it is.
func TestBirdGoesCold(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Cold turkey course:main", "/ingredient add dish:cold-turkey name:turkey amount:5 kg",
		"/step add dish:cold-turkey name:roast do:Roast the bird time:3 h oven:170 attention:watch cooks:yes",
		"/step serve step:cold-turkey/roast wait:refrigerator least:12 h longest:1 day")
	for _, text := range []string{"/dish show dish:cold-turkey", "/plan make"} {
		if got := strings.ToLower(plain(tb.must("Ana", text))); !strings.Contains(got, "take the turkey apart") {
			t.Errorf("%s: %s", text, got)
		}
	}
	for text, want := range map[string]string{
		"/dish cool step:cold-turkey/roast remove:yes":               "The turkey is not little",
		"/dish cool step:cold-turkey/roast how:as it is":             "taken apart before it goes cold (USDA FSIS",
		"/dish cool step:cold-turkey/roast how:pieces weight:1900 g": "at most 1.8 kg",
	} {
		if got := plain(tb.say("Ana", text)); !strings.Contains(got, want) {
			t.Errorf("%s: %s", text, got)
		}
	}
	tb.must("Ana", "/dish cool step:cold-turkey/roast how:pieces weight:1800 g")
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
