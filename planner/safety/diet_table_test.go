package safety

import (
	"fmt"
	"strings"
	"testing"
)

// TestDietsToTheWord: what each diet makes of a food of each sort that some avoid: sure, a doubt, or nothing. The sorts
// stand as they are read in the rules of those who keep to them; common practice, no source.
func TestDietsToTheWord(t *testing.T) {
	foods := []string{"lamb", "bacon", "salmon", "prawns", "mussels", "gelatine", "parmesan", "honey", "white wine",
		"wine vinegar", "milk", "egg", "wheat flour", "walnuts", "peanuts", "black pudding"}
	want := map[Diet]string{
		Vegetarian:  "XXXXXX?········X",
		Vegan:       "XXXXXXXX??XX···X",
		Pescatarian: "XX···?·········X",
		GlutenFree:  "············X··?",
		DairyFree:   "······X···X····?",
		EggFree:     "···········X···?",
		NutFree:     "·············XX·",
		PorkFree:    "·X···?·········X",
		AlcoholFree: "········X·······",
		Halal:       "?X···??·X?·····X",
		Kosher:      "?X·XX??·??·····X",
	}
	for diet, line := range want {
		var got []string
		for _, f := range foods {
			found, ok := Against(diet, f)
			if !ok {
				t.Fatalf("%s is no diet", diet)
			}
			mark := "·"
			if len(found) > 0 {
				mark = "?"
			}
			for _, c := range found {
				if c.Certainty == Contains {
					mark = "X"
				}
			}
			got = append(got, mark)
		}
		if s := strings.Join(got, ""); s != line {
			t.Errorf("%s: %s, want %s of %q", diet, s, line, foods)
		}
	}
}

// TestKindsAsTyped: a kind's name may be typed with spaces, hyphens, lines below or tabs between its words.
func TestKindsAsTyped(t *testing.T) {
	for _, between := range []string{" ", "-", "_", "\t", " - ", "__"} {
		if got, err := ParseKind(fmt.Sprintf("Ground%smeat", between)); got != GroundMeat || err != nil {
			t.Errorf("with %q between: %q, %v", between, got, err)
		}
	}
	if got, err := ParseKind("ground/meat"); err == nil {
		t.Errorf("with a stroke: %q", got)
	}
}
