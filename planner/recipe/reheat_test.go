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

// TestRemarkBehindWork: what is said of waiting at the end of a sentence does not swallow the work before it.
func TestRemarkBehindWork(t *testing.T) {
	for _, c := range []struct{ said, step string }{
		{"Wash and dry the lettuce; it keeps in a bag in the refrigerator until the evening.", "dry the lettuce"},
		{"Whisk the mustard with the oil; it keeps for 3 days in the refrigerator.", "whisk the mustard"},
		{"Chop the parsley; this may be done in the morning.", "chop the parsley"},
	} {
		r, err := Read("Green salad\nServes 4\n2 lettuces\n1 tsp mustard\n4 tbsp olive oil\n2 tbsp parsley\n\n" + c.said +
			" Toss everything and serve.")
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(r.Steps, func(s Step) bool { return strings.Contains(strings.ToLower(s.Do), c.step) }) {
			t.Errorf("%q: read %+v", c.said, r.Steps)
		}
		if len(r.Remarks) == 0 {
			t.Errorf("%q: nothing is remarked", c.said)
		}
	}
}

// TestWorkForTheTable: what is done for the table, or a told time before the meal, is not one step with what may be
// done before.
func TestWorkForTheTable(t *testing.T) {
	for _, c := range []struct {
		said  string
		alone string
		best  int
	}{
		{"Whisk the oil with the mustard. Toss the lettuce with it at the table.", "toss the lettuce", 0},
		{"Whisk the oil with the mustard. An hour before you eat, tear in the lettuce and toss everything.", "tear in", 90},
		{"Whisk the oil with the mustard and toss the lettuce with it.", "", 0},
	} {
		r, err := Read("Green salad\nServes 4\n2 lettuces\n1 tsp mustard\n4 tbsp olive oil\n\n" + c.said)
		if err != nil {
			t.Fatal(err)
		}
		last := &r.Steps[len(r.Steps)-1]
		whisks := strings.Contains(strings.ToLower(last.Do), "whisk")
		if whisks != (c.alone == "") || !strings.Contains(strings.ToLower(last.Do), c.alone) {
			t.Errorf("%q: the last step is %q", c.said, last.Do)
		}
		d, _ := r.Dish("main", 0)
		if w := d.Steps[len(d.Steps)-1].Serve; c.best > 0 && int(w.BestUntil) != c.best {
			t.Errorf("%q: it waits %+v", c.said, w)
		}
	}
}
