package safety

import (
	"testing"
)

// TestShelf: days from purchase in the refrigerator, by hand from the storage data of USDA FSIS (FMA-Data-v128,
// Product sheet, 2018-09-06).
func TestShelf(t *testing.T) {
	for _, c := range []struct {
		name     string
		from, to int // 0: nothing is known
		limit    bool
	}{
		{"whole chickens", 1, 2, true}, {"chicken", 1, 2, true}, {"chicken thighs", 1, 2, true},
		{"fresh raw prawns", 1, 3, true}, {"minced beef", 1, 2, true},
		{"salmon fillet", 1, 2, true}, {"stewing beef", 3, 5, true}, {"pork chops", 3, 5, true}, {"eggs", 21, 35, true},
		{"mussels", 1, 2, true}, {"bacon", 7, 7, true},
		{"strawberries", 2, 3, false}, {"parsley", 2, 3, false}, {"leeks", 7, 14, false}, {"ripe tomatoes", 0, 0, false},
		{"large red chillies", 7, 7, false},
		{"chicken stock", 0, 0, false}, {"smoked mackerel", 0, 0, false}, {"dried thyme", 0, 0, false},
		{"tinned tuna", 0, 0, false}, {"lemon juice", 0, 0, false}, {"", 0, 0, false},
	} {
		s := Shelf(c.name)
		switch {
		case s == nil && c.to == 0:
		case s == nil || s.From != c.from || s.To != c.to || s.Limit != c.limit:
			t.Errorf("%s: got %+v, want %d to %d days, limit %v", c.name, s, c.from, c.to, c.limit)
		case s.Source == "" || s.How == "":
			t.Errorf("%s: no source", c.name)
		}
	}
}

// TestRawMeatIsALimit: no raw meat, poultry or fish of the table passes for a matter of quality, and the days that a
// plan allows it never exceed the strictest published limit of its kind.
func TestRawMeatIsALimit(t *testing.T) {
	for name, kind := range map[string]Kind{
		"chicken": Poultry, "turkey breast": Poultry, "duck": Poultry, "minced lamb": GroundMeat, "sausage": GroundMeat,
		"steak": RedMeat, "lamb chop": RedMeat,
		"pork shoulder": RedMeat, "cod": Fish, "salmon": Fish, "prawn": Shellfish, "mussel": Bivalves,
	} {
		s := Shelf(name)
		if s == nil || !s.Limit {
			t.Fatalf("%s: %+v", name, s)
		}
		if l := strictest(limitsOf(kind).refrigerator); l.Applies() && s.Days*24*60 > l.Minutes {
			t.Errorf("%s keeps %d days, and the limit for %s is %s", name, s.Days, kind.Label(), l)
		}
	}
}
