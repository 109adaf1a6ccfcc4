package planner_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/safety"
)

// stove is a party of so many covers in a kitchen of known measures, with one dish for eight of one step.
func stove(covers int, s planner.Step) (*planner.Party, *planner.Dish, *planner.Step) {
	s.Key, s.Do = "do", "Do it"
	p := &planner.Party{Covers: covers, Kitchen: planner.Kitchen{
		Ovens: []planner.Oven{{Name: "oven", Shelves: 2, MinC: 50, MaxC: 250}, {Name: "small oven", Shelves: 1, MinC: 50,
			MaxC: 200}}, Burners: 3, Grills: 1,
		Appliances: []planner.Ware{{Name: "processor", Count: 1, Millilitres: 2000}},
		Vessels: []planner.Ware{{Name: "pan", Count: 2}, {Name: "pot", Count: 4, Millilitres: 5000},
			{Name: "tin", Count: 1}},
	}, Dishes: []planner.Dish{{Key: "dish", Name: "Dish", Serves: 8, Steps: []planner.Step{s}}}}
	return p, &p.Dishes[0], &p.Dishes[0].Steps[0]
}

// TestFit: rounds, vessels and times by the rules' text ("Rounds"), worked out by hand.
func TestFit(t *testing.T) {
	oven := func(shelves, enough int) planner.Use {
		return planner.Use{What: planner.AnOven, C: 220, Amount: shelves, For: enough}
	}
	vessel := func(name string, enough int) planner.Use {
		return planner.Use{What: planner.AVessel, Name: name, For: enough}
	}
	burner := planner.Use{What: planner.ABurner}
	bowl := planner.Use{What: planner.AnAppliance, Name: "processor"}
	for _, c := range []struct {
		what   string
		step   planner.Step
		covers int
		want   string // rounds × covers, minutes, amounts, lacks
	}{
		{"one tray", planner.Step{Attention: planner.Watch, Time: partygen.Exactly(40), Uses: []planner.Use{oven(1, 8)}}, 8,
			"1×8 40 [1]"},
		{"two trays at once", planner.Step{Attention: planner.Watch, Time: partygen.Exactly(40),
			Uses: []planner.Use{oven(1, 8)}}, 10, "1×10 40 [2]"},
		{"the third does not fit", planner.Step{Attention: planner.Watch, Time: partygen.Exactly(40),
			Uses: []planner.Use{oven(1, 8)}}, 23, "2×12 40 [2]"},
		{"nobody has said", planner.Step{Attention: planner.Watch, Time: partygen.Exactly(40),
			Uses: []planner.Use{oven(1, 0)}}, 23, "1×23 40 [1]"},
		{"the small oven", planner.Step{Attention: planner.Watch, Time: partygen.Exactly(40),
			Uses: []planner.Use{{What: planner.AnOven, Name: "small oven", C: 180, For: 8}}}, 10, "2×5 40 [1]"},
		{"too hot for the small oven alone", planner.Step{Attention: planner.Watch, Time: partygen.Exactly(40),
			Uses: []planner.Use{oven(2, 8)}}, 16, "2×8 40 [2]"},
		// 3000 ml for eight, 2 l in the bowl: five covers a time, two times as the dish has it.
		{"a bowl", planner.Step{Attention: planner.Hands, Time: partygen.Exactly(10), Leaves: planner.Food{Millilitres: 3000},
			Uses: []planner.Use{bowl}}, 8, "1×8 10 [1] batches 2"},
		{"more bowls", planner.Step{Attention: planner.Hands, Time: partygen.Exactly(10),
			Leaves: planner.Food{Millilitres: 3000}, Uses: []planner.Use{bowl}}, 23, "1×23 25 [1] batches 5"},
		{"a bowl, with the batch", planner.Step{Attention: planner.Hands, Grows: planner.InProportionToCovers,
			Time: partygen.Exactly(10), Leaves: planner.Food{Millilitres: 3000}, Uses: []planner.Use{bowl}}, 23,
			"1×23 29 [1] batches 5"},
		{"a bowl that nobody stands at", planner.Step{Attention: planner.Watch, Time: partygen.Exactly(10),
			Leaves: planner.Food{Millilitres: 3000}, Uses: []planner.Use{bowl}}, 23, "5×5 5 [1]"},
		{"peeling", planner.Step{Attention: planner.Hands, Grows: planner.InProportionToCovers, Time: partygen.Exactly(20)},
			23, "1×23 58 []"},
		{"frying", planner.Step{Attention: planner.Hands, Time: partygen.Exactly(6),
			Uses: []planner.Use{burner, vessel("pan", 4)}}, 10, "2×5 6 [2 2]"},
		{"said in rounds", planner.Step{Attention: planner.Hands, Grows: planner.InRounds, PerRound: 4,
			Time: partygen.Exactly(6), Uses: []planner.Use{burner, vessel("pan", 0)}}, 10, "3×4 6 [1 1]"},
		// 4 l for eight, 5 l a pot: ten covers a pot; no more than three have a burner.
		{"pots", planner.Step{Attention: planner.Watch, Time: partygen.Exactly(30), Leaves: planner.Food{Millilitres: 4000},
			Uses: []planner.Use{burner, vessel("pot", 0)}}, 23, "1×23 30 [3 3]"},
		{"more pots than burners", planner.Step{Attention: planner.Watch, Time: partygen.Exactly(30),
			Leaves: planner.Food{Millilitres: 4000}, Uses: []planner.Use{burner, vessel("pot", 0)}}, 40, "2×20 30 [2 2]"},
		{"a tin to borrow", planner.Step{Attention: planner.Watch, Time: partygen.Exactly(30),
			Uses: []planner.Use{oven(1, 12), vessel("tin", 8)}}, 20, "1×20 30 [2 1] lacks tin 3 of 1"},
		{"a tin kept until later", planner.Step{Attention: planner.Hands, Time: partygen.Exactly(30),
			Uses: []planner.Use{{What: planner.AVessel, Name: "tin", For: 8, Through: "later"}}}, 20,
			"1×20 30 [1] lacks tin 3 of 1"},
	} {
		p, d, s := stove(c.covers, c.step)
		f := p.Fit(d, s)
		var amounts []int
		for i := range f.Uses {
			amounts = append(amounts, f.Uses[i].Units())
		}
		got := fmt.Sprintf("%d×%d %d %v", f.Rounds, f.Covers, f.Time.Likely, amounts)
		if f.Batches > 1 {
			got += fmt.Sprintf(" batches %d", f.Batches)
		}
		for _, l := range f.Lacks {
			got += fmt.Sprintf(" lacks %s %d of %d", l.Name, l.Wanted, l.Have)
		}
		if got != c.want {
			t.Errorf("%s for %d: got %s, want %s", c.what, c.covers, got, c.want)
		}
	}
}

// TestCoolingTakesTheEstimate: a step that cools takes the time of safety.CoolTime for what each vessel holds, and
// counts on the counter only until 21 °C; one that is said to be a bath ends there.
func TestCoolingTakesTheEstimate(t *testing.T) {
	step := planner.Step{Attention: planner.Touch, Every: 10, Time: partygen.Exactly(30), Where: planner.Counter,
		Leaves: planner.Food{Millilitres: 4000},
		Uses:   []planner.Use{{What: planner.AVessel, Name: "pan", For: 8}},
		Cool:   &planner.Cooling{Place: safety.PlaceStirredIce, MadeOf: safety.Metal, Consistency: safety.Thick, DepthCM: 5}}
	for covers, litres := range map[int]float64{8: 4, 16: 4, 24: 6} { // two pans, and then fuller ones
		p, d, s := stove(covers, step)
		want, err := safety.CoolTime(safety.Pot{Place: safety.PlaceStirredIce, MadeOf: safety.Metal,
			Consistency: safety.Thick, DepthCM: 5, Litres: litres})
		if err != nil {
			t.Fatal(err)
		}
		f := p.Fit(d, s)
		if f.Cool == nil || int(f.Time.Likely) != want.Whole || f.Warm(int(f.Time.Likely)) != want.StageOne {
			t.Errorf("%d covers: %+v and %d minutes on the counter, want %d and %d", covers, f.Time, f.Warm(int(f.Time.Likely)),
				want.Whole, want.StageOne)
		}
		s.Cool.How = planner.CoolBath
		if f := p.Fit(d, s); int(f.Time.Likely) != want.StageOne || f.Warm(int(f.Time.Likely)) != want.StageOne {
			t.Errorf("a bath for %d covers: %+v, want %d", covers, f.Time, want.StageOne)
		}
		s.Cool.How = ""
	}
	step.Leaves.Millilitres = 0
	if p, d, s := stove(8, step); p.Fit(d, s).Time.Likely != 30 {
		t.Error("nobody has said how much there is, and yet there is an estimate")
	}
}

// TestFitHolds: whatever a step takes, its rounds are enough for the covers, none takes more than the kitchen has, the
// rounds of fewer covers are never more, and the checker counts as many.
func TestFitHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := planner.Step{Attention: rapid.SampledFrom([]planner.Attention{planner.Hands, planner.Watch}).Draw(t,
			"attention"),
			Grows:  rapid.SampledFrom([]planner.Growth{planner.Fixed, planner.InProportionToCovers}).Draw(t, "growth"),
			Time:   partygen.Exactly(planner.Minutes(rapid.IntRange(1, 90).Draw(t, "time"))),
			Leaves: planner.Food{Millilitres: rapid.IntRange(0, 9000).Draw(t, "ml")}}
		for _, u := range []planner.Use{{What: planner.AnOven, C: 180}, {What: planner.ABurner},
			{What: planner.AVessel, Name: "pan"}, {What: planner.AVessel, Name: "pot"},
			{What: planner.AnAppliance, Name: "processor"}} {
			if rapid.Bool().Draw(t, string(u.What)+u.Name) {
				u.For, u.Amount = rapid.IntRange(0, 12).Draw(t, "for"), rapid.IntRange(0, 2).Draw(t, "amount")
				if u.What == planner.AnAppliance {
					u.Amount = 0
				}
				step.Uses = append(step.Uses, u)
			}
		}
		covers := rapid.IntRange(1, 40).Draw(t, "covers")
		p, d, s := stove(covers, step)
		f := p.Fit(d, s)
		if f.Rounds*f.Covers < covers || (f.Rounds-1)*f.Covers >= covers {
			t.Fatalf("%d rounds of %d for %d covers", f.Rounds, f.Covers, covers)
		}
		for i := range f.Uses {
			if u := &f.Uses[i]; u.Units() > s.Uses[i].Units() && u.Units() > stockOf(&p.Kitchen, u) {
				t.Fatalf("a round takes %d of %s %s", u.Units(), u.What, u.Name)
			}
		}
		if covers > 1 {
			p.Covers--
			if less := p.Fit(d, s); less.Rounds > f.Rounds {
				t.Fatalf("%d rounds for %d covers, %d for one fewer", f.Rounds, covers, less.Rounds)
			}
			p.Covers++
		}
		if tasks := planner.Tasks(p); len(tasks) != f.Rounds {
			t.Fatalf("%d tasks for %d rounds", len(tasks), f.Rounds)
		}
		for _, b := range check.Plan(p, &planner.Plan{Tasks: placedAll(p)}) {
			if b.Rule == check.RuleComplete || b.Rule == check.RuleLengths {
				t.Fatalf("the checker counts otherwise: %s", b.Text)
			}
		}
	})
}

func stockOf(k *planner.Kitchen, u *planner.Use) int {
	switch u.What {
	case planner.AnOven:
		return 2
	case planner.ABurner:
		return k.Burners
	}
	for _, w := range append(append([]planner.Ware(nil), k.Vessels...), k.Appliances...) {
		if w.Name == u.Name {
			return w.Count
		}
	}
	return 0
}

// placedAll puts every task of a party on the clock for as long as it takes, one after the other.
func placedAll(p *planner.Party) []planner.Placed {
	var out []planner.Placed
	at := p.Arrival
	for _, task := range planner.Tasks(p) {
		end := at.Add(task.Length(task.Hands).Duration())
		out = append(out, planner.Placed{Task: task.Key, Start: at, End: end})
		at = end
	}
	return out
}
