package scale

import "testing"

func TestSpace(t *testing.T) {
	for _, c := range []struct {
		text     string
		freezer  bool
		ml, flat int
		ok       bool
	}{
		{"6", false, 6000, -1, true}, {"0", false, 0, -1, true}, {"6 l", false, 6000, -1, true},
		{"40 litres", true, 40000, -1, true}, {"a free shelf", false, 25000, 1, true}, {"two", false, 50000, 2, true},
		{"2 shelves", false, 50000, 2, true}, {"half the refrigerator", false, 100000, 2, true},
		{"half", false, 100000, 2, true}, {"half a shelf", false, 12500, 0, true}, {"a quarter of it", false, 50000, 1, true},
		{"a shelf and a drawer", false, 40000, 1, true}, {"a shelf, a drawer", false, 40000, 1, true},
		{"a shelf", true, 10000, 1, true},
		{"a drawer", true, 6000, -1, true}, {"a little", false, 10000, -1, true}, {"nothing", false, 0, 0, true},
		{"full", true, 0, 0, true},
		{"plenty", false, 0, 0, false}, {"-3", false, 0, 0, false}, {"", false, 0, 0, false}, {"3 kg", false, 0, 0, false},
	} {
		ml, flat, ok := Space(c.text, c.freezer)
		if ok != c.ok || ok && (ml != c.ml || flat != c.flat) {
			t.Errorf("%q: %d ml, %d flat, %v", c.text, ml, flat, ok)
		}
	}
}
