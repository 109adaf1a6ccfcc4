package planner_test

import (
	"testing"

	"tureen/planner"
)

func TestKey(t *testing.T) {
	for _, c := range []struct{ name, want string }{
		{"Pear tart", "pear-tart"},
		{"  Crème brûlée!  ", "creme-brulee"},
		{"Roast pork with fennel and apples", "roast-pork-with-fennel-and"},
		{"Kürbissuppe", "kurbissuppe"},
		{"Борщ", "борщ"},
		{"Donaudampfschifffahrtsgesellschaftskuchen", "donaudampfschifffahrtsgesell"},
		{"7-hour lamb", "7-hour-lamb"},
		{"🍐", ""},
	} {
		got := planner.Key(c.name)
		if got != c.want {
			t.Errorf("Key(%q) = %q, want %q", c.name, got, c.want)
		}
		if len(got) > planner.MaxKey {
			t.Errorf("Key(%q) is %d bytes long", c.name, len(got))
		}
	}
}
