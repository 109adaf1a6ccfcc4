package shopping

import (
	"math/big"
	"testing"

	"tureen/planner"
)

// FuzzPrice: whatever is typed, a price is either refused or a sum that can be noted, and reads back the same.
func FuzzPrice(f *testing.F) {
	for _, s := range []string{"2.49", "2,49", "3", "", " 0.5 ", "1e9", "-1", "1/3", "0x10", "999999.999", "1_000", "٣",
		".", "1.", "００"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ParsePrice(text)
		if err != nil || r == nil {
			return
		}
		if r.Sign() < 0 || r.Cmp(big.NewRat(1_000_000, 1)) > 0 {
			t.Errorf("%q is %s", text, r)
		}
		again, err := ParsePrice(r.FloatString(3))
		if err != nil || again.Cmp(r) != 0 {
			t.Errorf("%q is %s, which reads back as %v, %v", text, r, again, err)
		}
	})
}

// FuzzItem: an item's key means the item itself, so that a button can say it.
func FuzzItem(f *testing.F) {
	for _, s := range []string{"Limes", "bay leaves", "cherries", "chillies, red", "peas (frozen)", "", "s", "ss",
		"  two   spaces ", "İstanbul", "potatoes", "radishes;", "molasses", "bus", "as.s", "\xffs.s"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		k := planner.ItemOf(name, false)
		if again := planner.ItemOf(string(k), false); again != k {
			t.Errorf("%q is %q, which is %q", name, k, again)
		}
	})
}
