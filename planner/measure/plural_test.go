package measure

import "testing"

func TestNameFor(t *testing.T) {
	for _, c := range []struct{ amount, name, want string }{
		{"1", "onions", "onion"}, {"1", "eggs", "egg"}, {"1½", "lemon", "lemons"}, {"3", "kiwi", "kiwis"},
		{"2 kg", "onions", "onions"}, {"2", "garlic", "garlic"},
		{"1", "cookies", "cookie"}, {"1", "quiches", "quiche"}, {"2", "knife", "knives"},
		{"1", "tins of tomatoes", "tin of tomatoes"},
		{"½", "glasses", "glass"}, {"2", "oil", "oil"},
	} {
		q, err := ParseWhole(c.amount)
		if got := NameFor(c.name, q); err != nil || got != c.want {
			t.Errorf("%s %s: got %s (%v)", c.amount, c.name, got, err)
		}
	}
}
