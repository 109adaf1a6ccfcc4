package safety

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

const inchCM = 2.54

// TestStudiesThatFailed: no case that the studies saw fail is called within
// the rule, whatever the body is said to be. testdata/cooling_outcomes.csv
// names the study in each row. What passed there may be refused here.
func TestStudiesThatFailed(t *testing.T) {
	failed := 0
	for _, r := range testdata(t, "cooling_outcomes.csv") {
		depth := number(t, r["depth_in"]) * inchCM
		for _, litres := range []float64{0.5, 1, 4, 11} {
			for _, body := range []Consistency{Thick, Thin} {
				if body != Consistency(r["body"]) && r["food"] != "meatless tomato sauce" {
					continue // nobody calls chili or rice thin
				}
				c, err := CoolTime(Pot{MadeOf: Metal, DepthCM: depth, Litres: litres, Consistency: body, Place: Place(r["place"])})
				if err != nil {
					t.Fatal(err)
				}
				if r["outcome"] == "fail" {
					failed++
					if c.Within {
						t.Errorf("%s, %s in, %s, %s: %d and %d minutes are called within the rule; it failed in %s", r["food"],
							r["depth_in"], r["place"], body, c.StageOne, c.Whole, r["source"])
					}
				}
			}
		}
	}
	if failed < 80 {
		t.Errorf("only %d failing cases were looked at", failed)
	}
	// In a home refrigerator, which has no fan, the same depths fail as well.
	for _, depth := range []float64{2, 2.5, 3, 4, 9} {
		c, err := CoolTime(Pot{MadeOf: Metal, DepthCM: depth * inchCM, Litres: 1, Consistency: Thick,
			Place: PlaceRefrigerator})
		if err != nil || c.Within {
			t.Errorf("%v in thick in a home refrigerator: %+v, %v; want outside the rule", depth, c, err)
		}
	}
}

// TestMeasuredTimes: the estimate is never quicker than a measurement
// (testdata/cooling_checks.csv, each row with its source). Where the
// measurement does not give the depth, the one taken is stated here.
func TestMeasuredTimes(t *testing.T) {
	taken := map[string]Pot{
		// "Varying solids, standard household handling", 13 to over 22 h: 2 to 4 in.
		"home_fridge_best":  {MadeOf: Metal, DepthCM: 2 * inchCM, Litres: 2, Consistency: Thick, Place: PlaceRefrigerator},
		"home_fridge_worst": {MadeOf: Metal, DepthCM: 4 * inchCM, Litres: 2, Consistency: Thick, Place: PlaceRefrigerator},
		"home_fridge_fan":   {MadeOf: Metal, DepthCM: 2 * inchCM, Litres: 2, Consistency: Thick, Place: PlaceColdRoom},
		// Containers of 8 and 14 gallons: as deep as a cube of that volume is wide.
		"white_sauce_8gal": {MadeOf: Metal, DepthCM: 31, Litres: 30, Consistency: Thick, Place: PlaceRefrigerator},
		"beef_stew_14gal":  {MadeOf: Metal, DepthCM: 37, Litres: 53, Consistency: Thick, Place: PlaceRefrigerator},
		// A pot of soup: 10 cm deep.
		"soup_pot_fridge":      {MadeOf: Metal, DepthCM: 10, Litres: 2, Consistency: Thin, Place: PlaceRefrigerator},
		"soup_pot_counter":     {MadeOf: Metal, DepthCM: 10, Litres: 2, Consistency: Thin, Place: PlaceCounter},
		"soup_pot_then_fridge": {MadeOf: Metal, DepthCM: 10, Litres: 2, Consistency: Thin, Place: PlaceRefrigerator},
		"ice_bath_stainless":   {MadeOf: Metal, DepthCM: 10, Litres: 2.37, Consistency: Thin, Place: PlaceStirredIce},
		"ice_bath_glass":       {MadeOf: Glass, DepthCM: 10, Litres: 2.37, Consistency: Thin, Place: PlaceStirredIce},
		"ice_bath_plastic":     {MadeOf: Plastic, DepthCM: 10, Litres: 2.37, Consistency: Thin, Place: PlaceStirredIce},
		"copper_pot_tap_water": {MadeOf: Metal, DepthCM: 5 * inchCM, Litres: 3.5, Consistency: Thin, Place: PlaceTapWater},
		"stew_sink":            {MadeOf: Metal, DepthCM: 3 * inchCM, Litres: 3, Consistency: Thick, Place: PlaceTapWater},
	}
	celsius := func(f float64) float64 { return (f - 32) * 5 / 9 }
	seen := 0
	for _, r := range testdata(t, "cooling_checks.csv") {
		from, to, measured := celsius(number(t, r["t1_f"])), celsius(number(t, r["t2_f"])), number(t, r["hours"])
		var got float64
		if r["id"] == "stew_outdoors" {
			// Frost is no place of ours; the slab in it, covered, is.
			got = slabHours(3*inchCM/100, film{films[PlaceRefrigerator].top * coverHolds, films[PlaceRefrigerator].bottom}, from,
				to, celsius(23))
		} else {
			p, ok := taken[r["id"]]
			if !ok {
				t.Errorf("%s: no pot is taken for this row", r["id"])
				continue
			}
			got = p.hours(from, to)
		}
		seen++
		if got < measured {
			t.Errorf("%s: estimated %.2f h, measured %.2f h (%s)", r["id"], got, measured, r["source"])
		}
	}
	if seen != 14 {
		t.Errorf("%d rows compared, want 14", seen)
	}
}

// TestSlab compares the steps in time with a table computed apart from them
// (conductivity 0.5 W/mK, 3900 kJ/m³K, from 135 °F in 37 °F), to 3 %.
func TestSlab(t *testing.T) {
	for _, c := range []struct {
		inches     float64
		f          film
		one, whole float64 // hours
	}{
		{1, film{10, 6}, 2.1, 5.9},
		{2, film{10, 6}, 4.6, 13.0},
		{3, film{10, 6}, 7.5, 20.9},
		{4, film{10, 6}, 10.8, 29.9},
		{2, film{20, 12}, 2.7, 7.5},
		{4, film{20, 12}, 6.9, 18.7},
	} {
		one := slabHours(c.inches*inchCM/100, c.f, startC, stageOneC, refrigeratorC)
		whole := slabHours(c.inches*inchCM/100, c.f, startC, wholeC, refrigeratorC)
		if math.Abs(one/c.one-1) > 0.03 || math.Abs(whole/c.whole-1) > 0.03 {
			t.Errorf("%v in, %v: got %.2f and %.2f h, want %.1f and %.1f", c.inches, c.f, one, whole, c.one, c.whole)
		}
	}
}

// TestCoolGrows: deeper, more, covered and in plastic never cool quicker,
// and thick never quicker than thin.
func TestCoolGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Pot{
			MadeOf:      rapid.SampledFrom([]Material{Metal, Glass, Plastic}).Draw(t, "vessel"),
			DepthCM:     rapid.Float64Range(0.5, 40).Draw(t, "depth"),
			Litres:      rapid.Float64Range(0.05, 60).Draw(t, "litres"),
			Consistency: rapid.SampledFrom([]Consistency{Thick, Thin}).Draw(t, "body"),
			Place: rapid.SampledFrom([]Place{PlaceRefrigerator, PlaceColdRoom, PlaceFreezer, PlaceIceBath, PlaceStirredIce,
				PlaceTapWater, PlaceCounter}).Draw(t, "place"),
		}
		worse := p
		switch rapid.IntRange(0, 3).Draw(t, "what") {
		case 0:
			worse.DepthCM *= 1.5
		case 1:
			worse.Litres *= 1.5
		case 2:
			worse.Covered = true
		case 3:
			worse.MadeOf = Plastic
		}
		a, err := CoolTime(p)
		if err != nil {
			t.Fatal(err)
		}
		b, err := CoolTime(worse)
		if err != nil {
			t.Fatal(err)
		}
		if b.StageOne < a.StageOne || b.Whole < a.Whole || b.Within && !a.Within {
			t.Fatalf("%+v takes %d and %d minutes, %+v takes %d and %d", p, a.StageOne, a.Whole, worse, b.StageOne, b.Whole)
		}
		if a.StageOne > a.Whole || !a.Limit.Applies() {
			t.Fatalf("%+v: %+v", p, a)
		}
	})
}

func TestCoolSays(t *testing.T) {
	stew := Pot{MadeOf: Metal, DepthCM: 15, Litres: 5, Consistency: Thick, Place: PlaceRefrigerator, Covered: true}
	c, err := CoolTime(stew)
	if err != nil || c.Within {
		t.Errorf("a deep stew in the refrigerator: %+v, %v", c, err)
	}
	stew.Place = PlaceStirredIce
	if c, err = CoolTime(stew); err != nil || !c.Within || c.IceKG < 4 {
		t.Errorf("the same in stirred ice water: %+v, %v", c, err)
	}
	if c, err = CoolTime(Pot{MadeOf: Metal, DepthCM: 5, Litres: 1, Consistency: Thin, Place: PlaceCounter}); err != nil ||
		c.Whole != NeverCools || c.Within {
		t.Errorf("on the counter: %+v, %v", c, err)
	}
	for _, bad := range []Pot{
		{},
		{MadeOf: Metal, DepthCM: 5, Litres: 1, Consistency: Thin, Place: "moon"},
		{MadeOf: Metal, DepthCM: 5, Litres: 1, Consistency: "gas", Place: PlaceFreezer},
		{MadeOf: "paper", DepthCM: 5, Litres: 1, Consistency: Thin, Place: PlaceFreezer},
		{MadeOf: Metal, DepthCM: 0, Litres: 1, Consistency: Thin, Place: PlaceFreezer},
		{MadeOf: Metal, DepthCM: math.NaN(), Litres: 1, Consistency: Thin, Place: PlaceFreezer},
		{MadeOf: Metal, DepthCM: 5, Litres: 1e9, Consistency: Thin, Place: PlaceFreezer},
	} {
		if c, err := CoolTime(bad); err == nil {
			t.Errorf("%+v: got %+v, want a refusal", bad, c)
		}
	}
}

func testdata(t *testing.T, name string) []map[string]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return records(name, string(text))
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
