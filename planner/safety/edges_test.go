package safety

import (
	"math"
	"strings"
	"testing"
)

// TestChillEdges: what is just within the bounds of the estimate is estimated, what is just beyond is refused.
func TestCoolEdges(t *testing.T) {
	for _, c := range []struct {
		depth, litres float64
		ok            bool
	}{
		{0.5, 1, true}, {math.Nextafter(0.5, 0), 1, false}, {60, 1, true}, {math.Nextafter(60, 61), 1, false},
		{5, 0.05, true}, {5, math.Nextafter(0.05, 0), false}, {5, 100, true}, {5, math.Nextafter(100, 101), false},
		{5, math.NaN(), false}, {5, math.Inf(1), false}, {-5, 1, false}, {5, -1, false},
	} {
		_, err := CoolTime(Pot{MadeOf: Metal, DepthCM: c.depth, Litres: c.litres, Consistency: Thin, Place: PlaceFreezer})
		if (err == nil) != c.ok {
			t.Errorf("%v cm, %v l: %v, want ok %t", c.depth, c.litres, err, c.ok)
		}
	}
}

// TestConflictOnce: a word is told once, and as sure where it is sure.
func TestConflictOnce(t *testing.T) {
	for _, ingredient := range []string{"butter, melted butter", "chicken stock with chicken",
		"milk and cream and milk"} {
		for _, diet := range []Diet{Vegan, Vegetarian, Halal, Kosher} {
			found, ok := Against(diet, ingredient)
			if !ok {
				t.Fatalf("%s is no diet", diet)
			}
			seen := map[string]bool{}
			for _, c := range found {
				if seen[c.Word] {
					t.Errorf("%s, %s: %q is told twice", ingredient, diet, c.Word)
				}
				seen[c.Word] = true
			}
		}
	}
}

// TestWithoutEnds: what a food is free of ends with the words that join another to it.
func TestWithoutEnds(t *testing.T) {
	for _, c := range []struct {
		text string
		want bool // dairy is in it
	}{
		{"dairy-free spread", false},
		{"dairy-free butter", false},
		{"dairy-free spread or butter", true},
		{"dairy-free spread and butter", true},
		{"dairy-free spread with butter", true},
		{"dairy-free spread plus butter", true},
		{"dairy-free spread, butter", true},
		{"butter or dairy-free spread", true},
		{"butter plus dairy-free spread", true},
	} {
		if found, _ := Against(Vegan, c.text); (len(found) > 0) != c.want {
			t.Errorf("%q: %v, want milk in it %t", c.text, found, c.want)
		}
	}
}

// TestChillFigures: what the estimate comes to, for each way that it is made: neither less careful than it was
// weighed to
// be against the studies, nor so careful that nobody would cool anything. Minutes to 21 °C, and to the
// refrigerator's.
func TestCoolFigures(t *testing.T) {
	for _, c := range []struct {
		pot        Pot
		first, all int
		ice        float64
	}{
		{Pot{MadeOf: Metal, DepthCM: 5, Litres: 2, Consistency: Thick, Place: PlaceRefrigerator}, 345, 980, 0},
		{Pot{MadeOf: Metal, DepthCM: 5, Litres: 2, Consistency: Thick, Place: PlaceRefrigerator, Covered: true}, 465, 1340,
			0},
		{Pot{MadeOf: Metal, DepthCM: 5, Litres: 20, Consistency: Thick, Place: PlaceRefrigerator}, 355, 1210, 0},
		{Pot{MadeOf: Glass, DepthCM: 5, Litres: 2, Consistency: Thin, Place: PlaceFreezer}, 180, 325, 0},
		{Pot{MadeOf: Plastic, DepthCM: 5, Litres: 2, Consistency: Thin, Place: PlaceFreezer, Covered: true}, 270, 485, 0},
		{Pot{MadeOf: Metal, DepthCM: 2.5, Litres: 1, Consistency: Thin, Place: PlaceRefrigerator}, 150, 435, 0},
		{Pot{MadeOf: Metal, DepthCM: 5, Litres: 2, Consistency: Thin, Place: PlaceColdRoom}, 140, 405, 0},
		{Pot{MadeOf: Metal, DepthCM: 10, Litres: 4, Consistency: Thick, Place: PlaceIceBath}, 380, 845, 4.5},
		{Pot{MadeOf: Metal, DepthCM: 10, Litres: 4, Consistency: Thin, Place: PlaceIceBath}, 325, 795, 4.5},
		{Pot{MadeOf: Metal, DepthCM: 10, Litres: 4, Consistency: Thick, Place: PlaceStirredIce}, 65, 155, 4.5},
		{Pot{MadeOf: Glass, DepthCM: 10, Litres: 4, Consistency: Thin, Place: PlaceStirredIce}, 75, 175, 4.5},
		{Pot{MadeOf: Plastic, DepthCM: 10, Litres: 0.5, Consistency: Thin, Place: PlaceStirredIce}, 85, 205, 1},
		{Pot{MadeOf: Metal, DepthCM: 10, Litres: 20, Consistency: Thin, Place: PlaceStirredIce}, 55, 135, 22},
		{Pot{MadeOf: Metal, DepthCM: 10, Litres: 4, Consistency: Thin, Place: PlaceTapWater}, 165, NeverCools, 0},
		{Pot{MadeOf: Metal, DepthCM: 10, Litres: 4, Consistency: Thick, Place: PlaceTapWater}, 325, NeverCools, 0},
		{Pot{MadeOf: Metal, DepthCM: 5, Litres: 2, Consistency: Thin, Place: PlaceCounter}, 1600, NeverCools, 0},
	} {
		got, err := CoolTime(c.pot)
		if err != nil || got.StageOne != c.first || got.Whole != c.all || got.IceKG != c.ice {
			t.Errorf("%+v: %d, %d minutes, %v kg (%v), want %d, %d, %v", c.pot, got.StageOne, got.Whole, got.IceKG, err,
				c.first, c.all, c.ice)
		}
	}
}

// TestShelfSaysTheStricter: where a published limit is stricter than the shelf life, the sentence has its days.
func TestShelfSaysTheStricter(t *testing.T) {
	stricter := 0
	for _, name := range strings.Split("chicken,minced beef,ground turkey,beef,pork "+
		"chops,salmon,cod,prawns,eggs,cream,milk,ham", ",") {
		s := Shelf(name)
		if s == nil || !s.Stricter.Applies() {
			continue
		}
		stricter++
		want := "; taken as 2 days ("
		if s.Days == 1 {
			want = "; taken as 1 day ("
		}
		if s.Days > 2 || !strings.Contains(s.String(), want+s.Stricter.Source+")") {
			t.Errorf("%s, %d days: %s", name, s.Days, s)
		}
	}
	if stricter == 0 {
		t.Error("no limit is stricter than a shelf life")
	}
}

// TestThawRates: each time to thaw names the published rate that it goes by.
func TestThawRates(t *testing.T) {
	for _, c := range []struct {
		grams  int
		method ThawMethod
		want   string
	}{
		{1, InRefrigerator, "thaw-fridge-small"}, {1800, InRefrigerator, "thaw-fridge-small"}, {1830, InRefrigerator,
			"thaw-fridge"},
		{9000, InRefrigerator, "thaw-fridge"}, {450, InColdWater, "thaw-water-small"}, {460, InColdWater,
			"thaw-water-packs"},
		{1800, InColdWater, "thaw-water-packs"}, {1830, InColdWater, "thaw-water"},
	} {
		if _, rate, err := ThawTime(c.grams, c.method); err != nil || rate.ID != c.want {
			t.Errorf("%d g in %s: by %s (%v), want %s", c.grams, c.method, rate.ID, err, c.want)
		}
	}
}

// TestIce: ice by the litre, in half kilograms, for pots up to the largest.
func TestIce(t *testing.T) {
	for litres, want := range map[float64]float64{1: 1.5, 60: 66, 100: 109.5} {
		if got := iceFor(litres); got != want {
			t.Errorf("%v l: %v kg, want %v", litres, got, want)
		}
	}
}

// TestRefrigeratorIsLoaded: a refrigerator that takes in more than 2 litres of hot food is taken to be warmer.
func TestRefrigeratorIsLoaded(t *testing.T) {
	for litres, want := range map[float64]float64{1: refrigeratorC, 2: refrigeratorC, 2.01: loadedC, 50: loadedC} {
		if got := (Pot{Place: PlaceRefrigerator, Litres: litres}).cold(); got != want {
			t.Errorf("%v l: %v °C, want %v", litres, got, want)
		}
	}
}

// TestShelfPlainWords: what is said of a thing does not change how long it keeps; what makes another thing of it does.
func TestShelfPlainWords(t *testing.T) {
	leeks := Shelf("leeks")
	if leeks == nil {
		t.Fatal("nothing is known of leeks")
	}
	same := func(s *ShelfLife) bool { return s != nil && *s == *leeks }
	plain := "fresh ripe large small medium raw firm organic boneless skinless lean good unwaxed baby young"
	for _, w := range strings.Fields(plain) {
		if s := Shelf(w + " leeks"); !same(s) {
			t.Errorf("%s leeks: got %v, want what leeks have", w, s)
		}
	}
	if !same(Shelf("free range leeks")) || !same(Shelf("leeks (young), sliced")) {
		t.Error("words before a name, or after it, are taken wrong")
	}
	for _, w := range strings.Fields("dried tinned canned cooked pickled roasted") {
		if s := Shelf(w + " leeks"); s != nil {
			t.Errorf("%s leeks: got %v, want nothing known", w, s)
		}
	}
}

// TestFreeFrom: what a thing is said to be free from is not in it, whichever way it is said.
func TestFreeFrom(t *testing.T) {
	for text, want := range map[string]bool{
		"butter free from dairy": false, "butter free from milk": false, "butter": true, "butter free from nuts": true,
		"milk free range": true,
	} {
		if found, _ := Against(Vegan, text); (len(found) > 0) != want {
			t.Errorf("%q: %v, want milk in it %t", text, found, want)
		}
	}
}

// TestHeaviestToThaw: fifty kilograms are the heaviest that anybody is told a time for, and a gram the lightest.
func TestHeaviestToThaw(t *testing.T) {
	for grams, ok := range map[int]bool{0: false, 1: true, 50_000: true, 50_001: false} {
		for _, m := range []ThawMethod{InRefrigerator, InColdWater} {
			if _, _, err := ThawTime(grams, m); (err == nil) != ok {
				t.Errorf("%d g in %s: %v", grams, m, err)
			}
		}
	}
}
