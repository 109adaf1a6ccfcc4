package safety

import (
	"math"
	"testing"
)

// TestChillEdges: what is just within the bounds of the estimate is estimated, what is just beyond is refused.
func TestChillEdges(t *testing.T) {
	for _, c := range []struct {
		depth, litres float64
		ok            bool
	}{
		{0.5, 1, true}, {math.Nextafter(0.5, 0), 1, false}, {60, 1, true}, {math.Nextafter(60, 61), 1, false},
		{5, 0.05, true}, {5, math.Nextafter(0.05, 0), false}, {5, 100, true}, {5, math.Nextafter(100, 101), false},
		{5, math.NaN(), false}, {5, math.Inf(1), false}, {-5, 1, false}, {5, -1, false},
	} {
		_, err := ChillTime(Pot{Vessel: Metal, DepthCM: c.depth, Litres: c.litres, Body: Thin, Place: PlaceFreezer})
		if (err == nil) != c.ok {
			t.Errorf("%v cm, %v l: %v, want ok %t", c.depth, c.litres, err, c.ok)
		}
	}
}

func TestSpan(t *testing.T) {
	for _, c := range []struct {
		minutes int
		want    string
	}{
		{0, "0 min"}, {1, "1 min"}, {59, "59 min"}, {60, "1 h"}, {61, "61 min"}, {90, "90 min"}, {119, "119 min"}, {120, "2 h"},
		{121, "2 h 1 min"}, {150, "2 h 30 min"}, {24*60 - 1, "23 h 59 min"}, {24 * 60, "1 day"}, {24*60 + 1, "24 h 1 min"},
		{36 * 60, "36 h"}, {48*60 - 1, "47 h 59 min"}, {48 * 60, "2 days"}, {49 * 60, "49 h"}, {72 * 60, "3 days"},
	} {
		if got := span(c.minutes); got != c.want {
			t.Errorf("%d minutes: got %q, want %q", c.minutes, got, c.want)
		}
	}
}

// TestConflictOnce: a word is told once, and as sure where it is sure.
func TestConflictOnce(t *testing.T) {
	for _, ingredient := range []string{"butter, melted butter", "chicken stock with chicken", "milk and cream and milk"} {
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
