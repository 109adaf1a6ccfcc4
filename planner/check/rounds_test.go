package check

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/safety"
)

// drawStep draws a kitchen, and a dish of one step in it with all that makes rounds.
func drawStep(r *rand.Rand) *planner.Party {
	some := func(list ...int) int { return list[r.IntN(len(list))] }
	p := &planner.Party{Zone: "UTC", Covers: some(0, 1, 4, 7, 8, 12, 20)}
	p.Kitchen = planner.Kitchen{Burners: some(0, 1, 2, 4), Grills: some(0, 1), Counter: some(1, 2, 3),
		Ovens: []planner.Oven{{Name: "oven", Shelves: some(1, 2, 3), MinC: 50, MaxC: some(180, 250)},
			{Name: "small oven", Shelves: some(1, 2), MinC: some(50, 150), MaxC: 250}},
		Vessels: []planner.Ware{{Name: "lid", Count: 9, Millilitres: 1}, {Name: "pot", Count: some(0, 1, 2, 3, 5),
			Millilitres: some(0, 500, 2000)}},
		Appliances: []planner.Ware{{Name: "mill", Count: 9, Millilitres: 1}, {Name: "blender", Count: some(1, 2),
			Millilitres: some(0, 300, 2000)}},
		HotPlaces: []planner.Ware{{Name: "tray", Count: some(1, 2)}}}
	s := planner.Step{Key: "do", Time: planner.Span{Low: 5, Likely: planner.Minutes(some(10, 17, 20, 45)), High: 90},
		Attention: []planner.Attention{planner.Hands, planner.Watch, planner.Unattended}[r.IntN(3)],
		Grows:     []planner.Growth{"", planner.InProportionToCovers, planner.InRounds}[r.IntN(3)],
		PerRound:  some(0, 1, 3, 4, 8),
		Leaves:    planner.Food{Millilitres: some(0, 100, 1500, 6000, 100+r.IntN(9000)), Flat: some(0, 1, 2)}}
	uses := []planner.Use{
		{What: planner.AVessel, Name: "pot", For: some(0, 0, 2, 4), Amount: some(0, 1, 2)},
		{What: planner.AnAppliance, Name: "blender", For: some(0, 3, 4)},
		{What: planner.ABurner, Amount: some(0, 1, 2), For: some(0, 0, 4)},
		{What: planner.AnOven, C: some(0, 160, 200, 240), Tolerance: some(0, 20), For: some(0, 0, 4),
			Name: []string{"", "oven", "small oven"}[r.IntN(3)]},
		{What: planner.AGrill}, {What: planner.ACounter, For: some(0, 4)},
		{What: planner.AHotPlace, Name: "tray", For: some(0, 4)},
	}
	r.Shuffle(len(uses), func(i, j int) { uses[i], uses[j] = uses[j], uses[i] })
	s.Uses = uses[:r.IntN(5)]
	if r.IntN(4) == 0 {
		for i := range s.Uses {
			if s.Uses[i].What == planner.AVessel {
				s.Uses[i].Through = "serve"
			}
		}
	}
	if r.IntN(3) == 0 {
		s.Attention = planner.Touch
	}
	if r.IntN(3) == 0 {
		s.Cool = &planner.Cooling{Place: safety.PlaceStirredIce, MadeOf: safety.Metal, Consistency: safety.Thin, DepthCM: 5}
		if r.IntN(2) == 0 {
			s.Cool.How = planner.CoolBath
		}
	}
	p.Dishes = []planner.Dish{{Key: "dish", Serves: some(0, 1, 4, 6, 8), Covers: some(0, 0, 3, 10),
		Steps: []planner.Step{s, {Key: "serve", After: []planner.After{{Step: "do"}}}}}}
	return p
}

// TestRoundsStandTwice: rounds, and what each takes, are worked out here and by package planner from the same text; the
// two agree on whatever a kitchen, a dish and a step say.
func TestRoundsStandTwice(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	many, chilled, batches := 0, 0, 0
	for n := range 20_000 {
		p := drawStep(r)
		d := &p.Dishes[0]
		s := &d.Steps[0]
		want := p.Fit(d, s)
		w := &workStep{dish: d, step: s, sized: sized{warm: -1}}
		length := newChecker(p, &planner.Plan{}).size(w)
		same := w.rounds == want.Rounds && length == int(want.Time.Likely) && w.ml == want.Millilitres &&
			w.flat == want.Flat && len(w.uses) == len(want.Uses)
		for i := range w.uses {
			same = same && w.uses[i].Units() == want.Uses[i].Units()
		}
		if w.warm >= 0 {
			chilled++
			same = same && want.Cool != nil && w.warm == want.Cool.StageOne
		} else {
			same = same && want.Cool == nil
		}
		if !same {
			t.Fatalf("draw %d: %d rounds of %d minutes, %d ml, %d flat, warm %d, uses %+v;\npackage planner has %+v\nof %+v "+
				"for %d covers, with %+v", n, w.rounds, length, w.ml, w.flat, w.warm, w.uses, want, *d, p.Covers, p.Kitchen)
		}
		if want.Rounds > 1 {
			many++
		}
		if want.Batches > 1 {
			batches++
		}
	}
	if many < 2000 || chilled < 500 || batches < 200 {
		t.Errorf("%d with rounds, %d that chill, %d in batches: too few to tell", many, chilled, batches)
	}
}

// TestTooMuch: each stretch in which more is taken than there is is named once, with what begins it, unless all of it
// is settled.
func TestTooMuch(t *testing.T) {
	base := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	at := func(m int) time.Time { return base.Add(time.Duration(m) * time.Minute) }
	span := func(from, to, size int, fixed bool) stretch { return stretch{at(from), at(to), size, fixed} }
	type found struct{ i, n, at int }
	for _, c := range []struct {
		name  string
		spans []stretch
		have  int
		want  []found
	}{
		{"nothing", nil, 0, nil},
		{"as much as there is", []stretch{span(0, 10, 1, false), span(5, 15, 1, false)}, 2, nil},
		{"one too many", []stretch{span(0, 10, 1, false), span(5, 15, 1, false)}, 1, []found{{1, 2, 5}}},
		{"one after the other", []stretch{span(0, 10, 1, false), span(10, 15, 1, false)}, 1, nil},
		{"no time at all", []stretch{span(5, 5, 9, false)}, 1, nil},
		{"all settled", []stretch{span(0, 10, 1, true), span(5, 15, 1, true)}, 1, nil},
		{"one of them settled", []stretch{span(5, 15, 1, true), span(0, 10, 1, false)}, 1, []found{{0, 2, 5}}},
		{"goes on: named once", []stretch{span(0, 10, 2, false), span(5, 15, 2, false)}, 1, []found{{0, 2, 0}}},
		{"twice, with a pause", []stretch{span(0, 20, 1, false), span(2, 4, 1, false), span(6, 8, 1, false)}, 1,
			[]found{{1, 2, 2}, {2, 2, 6}}},
		{"more by its size", []stretch{span(0, 10, 3, false)}, 2, []found{{0, 3, 0}}},
	} {
		var got []found
		tooMuch(c.spans, c.have, func(i, n int, when time.Time) { got = append(got, found{i, n, gap(base, when)}) })
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

// TestBest: how far a wait lies outside its best time, in bands of an hour, six hours and a day.
func TestBest(t *testing.T) {
	for _, c := range []struct {
		from, until planner.Minutes
		gap, want   int
	}{
		{0, 0, 10_000, 0}, {0, 10, 10, 0}, {0, 10, 11, 1}, {0, 10, 70, 1}, {0, 10, 71, 2}, {0, 10, 370, 2},
		{0, 10, 371, 3}, {0, 10, 1450, 3}, {0, 10, 1451, 4}, {30, 0, 30, 0}, {30, 0, 29, 1}, {30, 0, 10_000, 0},
		{30, 60, 45, 0}, {30, 60, 61, 1}, {100, 200, 39, 2}, {100, 200, 40, 1},
	} {
		if got := missesBest(&planner.Wait{BestFrom: c.from, BestUntil: c.until}, c.gap); got != c.want {
			t.Errorf("best from %d until %d, after %d: %d, want %d", c.from, c.until, c.gap, got, c.want)
		}
	}
}
