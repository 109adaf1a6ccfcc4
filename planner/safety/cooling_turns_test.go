package safety

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// TestChillRounds: times go up to five minutes, and what takes more than a week never chills.
func TestChillRounds(t *testing.T) {
	for _, c := range []struct {
		hours float64
		want  int
	}{
		{0, 0}, {0.01, 5}, {5.0 / 60, 5}, {5.1 / 60, 10}, {1, 60}, {167.5, 10050}, {168, NeverCools}, {1e9, NeverCools},
		{math.Inf(1), NeverCools}, {math.NaN(), NeverCools},
	} {
		if got := minutesUp(c.hours); got != c.want {
			t.Errorf("%v hours: %d minutes, want %d", c.hours, got, c.want)
		}
	}
}

// TestColdOfPlaces: water and air at 18 to 21 °C, a freezer's -18 (as published: 0 °F), ice at 0; and nothing cools
// below what is around it.
func TestColdOfPlaces(t *testing.T) {
	for place, want := range map[Place]float64{PlaceCounter: 21, PlaceTapWater: 18, PlaceFreezer: -18, PlaceIceBath: 0,
		PlaceStirredIce: 0, PlaceColdRoom: refrigeratorC} {
		p := Pot{MadeOf: Metal, DepthCM: 5, Litres: 1, Consistency: Thin, Place: place}
		if got := p.cold(); got != want {
			t.Errorf("%s: %v °C, want %v", place, got, want)
		}
		if !math.IsInf(p.hours(startC, want), 1) {
			t.Errorf("%s: it comes to %v °C", place, want)
		}
		if got := p.hours(startC, want+1); math.IsInf(got, 0) || got <= 0 {
			t.Errorf("%s: it takes %v hours to a degree above", place, got)
		}
	}
}

// TestChillTurns: what should cool faster does: shallower, uncovered, thinner, in metal, stirred, colder, and less of
// it where it is stirred.
func TestChillTurns(t *testing.T) {
	base := Pot{MadeOf: Metal, DepthCM: 8, Litres: 1.5, Consistency: Thick, Place: PlaceRefrigerator}
	with := func(do func(*Pot)) Pot { p := base; do(&p); return p }
	stirred := func(do func(*Pot)) Pot { p := base; p.Place = PlaceStirredIce; do(&p); return p }
	for _, c := range []struct {
		name         string
		slower, fast Pot
	}{
		{"deeper", with(func(p *Pot) { p.DepthCM = 9 }), base},
		{"covered", with(func(p *Pot) { p.Covered = true }), base},
		{"in plastic", with(func(p *Pot) { p.MadeOf = Plastic }), base},
		{"warmer", base, with(func(p *Pot) { p.Place = PlaceFreezer })},
		{"still air", base, with(func(p *Pot) { p.Place = PlaceColdRoom })},
		{"air", base, with(func(p *Pot) { p.Place = PlaceIceBath })},
		{"not stirred", with(func(p *Pot) { p.Place = PlaceIceBath }), stirred(func(*Pot) {})},
		{"thick, stirred", stirred(func(*Pot) {}), stirred(func(p *Pot) { p.Consistency = Thin })},
		{"in glass, stirred", stirred(func(p *Pot) { p.MadeOf = Glass }), stirred(func(*Pot) {})},
		{"in plastic, stirred", stirred(func(p *Pot) { p.MadeOf = Plastic }), stirred(func(p *Pot) { p.MadeOf = Glass })},
		{"more of it, stirred", stirred(func(p *Pot) { p.Litres = 8 }), stirred(func(p *Pot) { p.Litres = 4 })},
		{"tap water", with(func(p *Pot) { p.Place = PlaceTapWater }), stirred(func(*Pot) {})},
	} {
		if s, f := c.slower.hours(startC, stageOneC), c.fast.hours(startC, stageOneC); !(s > f) {
			t.Errorf("%s: %v hours against %v", c.name, s, f)
		}
	}
	least, most := stirred(func(p *Pot) { p.Litres = 0.05 }), stirred(func(p *Pot) { p.Litres = stirredAtLitres })
	if least.hours(startC, wholeC) != most.hours(startC, wholeC) {
		t.Error("less than was measured cools no faster than that")
	}
	eight := stirred(func(p *Pot) { p.Litres = stirredAtLitres * 8 })
	if math.Abs(most.hours(startC, wholeC)-eight.hours(startC, wholeC)/2) > 1e-9 {
		t.Error("eight times as much takes twice as long: surface to volume")
	}
}

// TestRemembered: an answer that was worked out before is the same answer, however many have been since.
func TestRemembered(t *testing.T) {
	was := slabHours(0.05, films[PlaceFreezer], startC, wholeC, freezerC)
	for i := range mostSlabs + 1 {
		slabHours(0.001, film{float64(i + 1), 100}, 30, 29, 0)
	}
	slabs.Lock()
	kept := len(slabs.hours)
	slabs.Unlock()
	if kept > mostSlabs {
		t.Errorf("%d answers are kept, at most %d are to be", kept, mostSlabs)
	}
	if again := slabHours(0.05, films[PlaceFreezer], startC, wholeC, freezerC); again != was {
		t.Errorf("%v hours, and %v before", again, was)
	}
	for i := range mostTold + 1 {
		tell("butter " + strconv.Itoa(i))
	}
	told.Lock()
	kept = len(told.by)
	told.Unlock()
	if kept > mostTold {
		t.Errorf("what %d texts tell is kept, at most %d are to be", kept, mostTold)
	}
}

// TestContactSources: each way has its own advice and its own source.
func TestContactSources(t *testing.T) {
	seen := map[string]bool{}
	for by, want := range map[Contact]string{ByOil: "oil of its own", ByMachine: "machine", ByBoard: "boards, knives"} {
		do, source := ContactAdvice(by)
		if !strings.Contains(do, want) || seen[do] || source == "" {
			t.Errorf("%s: %q (%s)", by, do, source)
		}
		seen[do] = true
	}
	if _, source := ContactAdvice(ByMachine); !strings.Contains(source, "Coventry") {
		t.Errorf("on machines: %s", source)
	}
}

// TestMentionsWholeWords: a word is found wherever it stands, all of its parts side by side.
func TestMentionsWholeWords(t *testing.T) {
	for _, c := range []struct {
		in, word string
		want     bool
	}{
		{"Strawberries, halved", "strawberry", true}, {"halved strawberries", "strawberry", true},
		{"strawberry", "straw", false}, {"red kidney beans", "kidney bean", true}, {"kidney", "kidney bean", false},
		{"beans, kidney", "kidney bean", false}, {"kidney and bean", "kidney bean", false},
		{"kidney kidney beans", "kidney bean", true}, {"beans", "", false}, {"", "bean", false},
	} {
		if got := Mentions(c.in, c.word); got != c.want {
			t.Errorf("%q in %q: %t", c.word, c.in, got)
		}
	}
}

// TestSurest: of what is found the surest stands for an allergen, and a sentence says what to check.
func TestSurest(t *testing.T) {
	for _, text := range []string{"chocolate and butter", "butter and chocolate", "chocolate, butter, chocolate"} {
		f, ok := AllergenIn(text, AllergenNuts, AllergenMilk)
		if !ok || f.Certainty != Contains || f.Allergen != AllergenMilk || f.Word != "butter" {
			t.Errorf("%s: got %+v, %t", text, f, ok)
		}
	}
	if f, ok := AllergenIn("butter", AllergenNuts); ok {
		t.Errorf("butter has nuts: %v", f)
	}
	f := Finding{Allergen: AllergenMilk, Certainty: MayContain, Word: "crisps", Note: "read the label"}
	if got := f.String(); !strings.HasSuffix(got, " milk (crisps): read the label") {
		t.Errorf("got %q", got)
	}
}

// TestSlabThatHardlyCools: what has not come there in months never does.
func TestSlabThatHardlyCools(t *testing.T) {
	if got := workSlab(0.6, film{1e-6, 1e-6}, startC, wholeC, freezerC); !math.IsInf(got, 1) {
		t.Errorf("%v hours", got)
	}
}

// TestShelfFigures: a range of days as people say it.
func TestShelfFigures(t *testing.T) {
	for _, c := range []struct {
		from, to int
		want     string
	}{{1, 1, "1 day"}, {0, 1, "1 day"}, {2, 2, "2 days"}, {1, 2, "1 to 2 days"}, {3, 5, "3 to 5 days"}} {
		if got := (ShelfLife{From: c.from, To: c.to}).Figure(); got != c.want {
			t.Errorf("%d to %d: %q, want %q", c.from, c.to, got, c.want)
		}
	}
}
