package recipe

import (
	"slices"
	"strings"
	"testing"
)

// TestReheatingAfterARemark: how a dish made ahead is warmed up again stands behind what is said of making it ahead,
// and
// is done before it is served.
func TestReheatingAfterARemark(t *testing.T) {
	for _, c := range []struct {
		said, step string
	}{
		{"Can be made two days ahead; cool, chill, then reheat gently on the hob for 20-25 mins until piping hot.",
			"reheat gently on the hob"},
		{"It keeps for 3 days in the fridge, then reheat for 15 minutes at 180 °C.", "reheat for 15 minutes"},
		{"It can be made a day ahead, chilled and reheated.", ""},
		{"Can be made up to 2 days ahead.", ""},
	} {
		r, err := Read("Beef in ale\nServes 6\n1.2 kg stewing beef\n2 onions\n500 ml ale\n2 tbsp parsley\n\n" +
			"1. Brown the beef with the onions for 10 minutes.\n2. Add the ale and cook in the oven at 160 °C for 2 hours. " +
			c.said + "\n3. Scatter with the parsley and serve.")
		if err != nil {
			t.Fatal(err)
		}
		at := slices.IndexFunc(r.Steps, func(s Step) bool { return strings.Contains(strings.ToLower(s.Do), "reheat") })
		switch {
		case c.step == "" && at >= 0:
			t.Errorf("%q became the step %q", c.said, r.Steps[at].Do)
		case c.step != "" && (at < 0 || !strings.HasPrefix(strings.ToLower(r.Steps[at].Do), c.step) || at != len(r.Steps)-2):
			t.Errorf("%q: its step is number %d of %d", c.said, at, len(r.Steps))
		}
		if len(r.Remarks) == 0 {
			t.Errorf("%q: nothing is remarked", c.said)
		}
	}
}
