package food_test

import (
	"strings"
	"testing"

	"tureen/planner/food"
)

// TestCompounds: what everyday compound foods tell, surely or perhaps (with a question mark: at least perhaps), and
// what the words of plainly free ones do not; ours, by hand.
func TestCompounds(t *testing.T) {
	rows := golden(t, "compounds.tsv", 3)
	if len(rows) < 250 {
		t.Errorf("%d names, want at least 250", len(rows))
	}
	for _, r := range rows {
		got := map[string]food.Certainty{}
		for _, x := range food.Tells(r[0]) {
			if got[string(x.Tag)] != food.Contains {
				got[string(x.Tag)] = x.Certainty
			}
		}
		for _, w := range strings.Fields(r[1]) {
			tag, perhaps := strings.CutSuffix(w, "?")
			if got[tag] == "" || !perhaps && got[tag] != food.Contains && tag != "pregnancy" {
				words, _ := food.Unclear(r[0])
				if got[tag] != "" || words == "" {
					t.Errorf("%q: %s is not told; it tells %v", r[0], w, got)
				}
			}
		}
		for _, w := range strings.Fields(r[2]) {
			if got[w] != "" {
				t.Errorf("%q: %s is told", r[0], w)
			}
		}
	}
}

// TestUnclear: what nobody knows, and what is made after many recipes, is not free of anything, unless it says so.
func TestUnclear(t *testing.T) {
	for text, want := range map[string]string{
		"stardust": "stardust", "house dressing": "", "salad dressing": "salad dressing", "my aunt's glorp": "my aunt glorp",
		"🥜": "🥜", "雞蛋": "雞蛋", "vegan salad dressing": "", "dairy-free sauce": "", "curry": "curry", "": "",
		" ":                  "",
		"canola or corn oil": "", "salt and stardust": "stardust", "fish sauce or soy sauce": "",
		"leg of lamb, boned": "", "parsley, torn by hand": "", "2 lemons for squeezing": "",
		"tomato brittle": "tomato brittle",
	} {
		if got, _ := food.Unclear(text, "milk"); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
	for _, n := range food.Names() {
		if words, mixed := food.Unclear(n); words != "" && !mixed {
			t.Errorf("%q is in the table and not known: %q", n, words)
		}
	}
}
