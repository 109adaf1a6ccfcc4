package portion

import (
	"strings"
	"testing"

	"tureen/planner"
)

// TestDrinks: common practice, no source: a bottle serves five. Glasses a guest are an event rental guide's, water a
// party guide's, coffee the SCA's 55 g a litre (from memory), ice of an event rental guide and party supply articles.
func TestDrinks(t *testing.T) {
	for _, c := range []struct {
		covers, still, sparkling int
		want                     []string
	}{
		{10, 0, 0, []string{"4 to 5 bottles for 10 covers", "none is on the list yet", "2.5 to 5 litres",
			"100 to 110 g ground", "Ice: 4.5 to 11.5 kg"}},
		{10, 4, 2, []string{"; 4 on the list.", "Sparkling: 2 bottles, 12 to 16 glasses (event rental; wine shop; party " +
			"guide); a glass each takes 2 bottles"}},
		{10, 3, 0, []string{"; 3 on the list, 1 short."}},
		{10, 1, 0, []string{"less than half"}},
		{10, 11, 0, []string{"more than twice"}},
		{1, 1, 0, []string{"1 bottle for 1 cover,", "Water: 0.2 to 0.5 litres"}},
		{23, 0, 0, []string{"10 to 12 bottles for 23 covers"}},
	} {
		p := &planner.Party{Covers: c.covers, Drinks: []planner.Drink{{Name: "r", Kind: planner.Red, Bottles: c.still},
			{Name: "s", Kind: planner.Sparkling, Bottles: c.sparkling}, {Name: "w", Kind: planner.Soft, Bottles: 40}}}
		got := strings.Join(Drinks(p), "\n")
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%d covers, %d bottles: no %q in\n%s", c.covers, c.still, w, got)
			}
		}
		for _, line := range strings.Split(got, "\n") {
			if !strings.Contains(line, "(") {
				t.Errorf("%q has no source", line)
			}
		}
	}
	if got := strings.Join(Drinks(&planner.Party{Covers: 10, RoomTemperatureC: 33}), "\n"); !strings.Contains(got,
		"twice as much in the heat, as at 33 °C") {
		t.Errorf("a summer's evening has ice as any other: %s", got)
	}
	if got := Drinks(&planner.Party{}); len(got) > 0 {
		t.Errorf("for nobody: %q", got)
	}
}
