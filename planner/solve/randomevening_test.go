package solve_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// An evening that has slipped always has a plan, if need be without a dish; and it keeps every rule that an evening
// plan may not miss.
func TestTinyEveningsHaveAPlan(t *testing.T) {
	t.Parallel()
	var planned, strict, fewer, none int
	for seed := range uint64(partygen.Parties(t, 80)) {
		d := partygen.Seeded(700_000 + seed)
		p, now := partygen.Tiny(d)
		settleDown(p)
		plan, _, err := solve.Make(t.Context(), p, solve.Ask{Now: now, FirstOnly: true})
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if plan == nil {
			none++
			continue
		}
		ask := solve.Ask{Now: partygen.UnderWay(d, p, plan).Add(time.Duration(d.Roll(0, 40)) * time.Minute),
			InForce: plan, Soft: true}
		again, clash, err := solve.Make(t.Context(), p, ask)
		switch {
		case err != nil:
			t.Errorf("seed %d: %v", seed, err)
		case again != nil:
			planned++
			if broken := check.Plan(p, again); len(broken) > 0 {
				t.Errorf("seed %d: %+v", seed, broken)
			}
			if len(again.Without) > 0 {
				fewer++
				if keepsAll(t, p, ask) != nil {
					t.Errorf("seed %d at %v: a dish is left out, and need not be: %+v", seed, ask.Now, again.Without)
				}
				continue
			}
			if strictly := keepsAll(t, p, ask); strictly != nil {
				strict++
				if got, want := again.Levels[0].Value, strictly.Levels[0].Value; got > want {
					t.Errorf("seed %d at %v: service misses by %d bands, and need miss by %d:\n%s", seed, ask.Now,
						got, want, partygen.Show(again))
				}
				again.Soft = false
				for _, b := range check.Plan(p, again) {
					// People stay on, and service is in bands.
					if b.Rule != check.RuleHands && b.Rule != check.RuleService {
						t.Errorf("seed %d at %v: nothing need be missed, and the plan breaks rule %d: %s\n%s", seed,
							ask.Now, b.Rule, b.Text, partygen.Show(again))
					}
				}
			}
		default:
			t.Errorf("seed %d at %v: no plan: %+v\n%s", seed, ask.Now, clash, partygen.Show(plan))
		}
	}
	t.Logf("%d evenings planned, %d of them without a miss since there need be none, %d without a dish; %d parties "+
		"without a plan to begin with",
		planned, strict, fewer, none)
}

// keepsAll is a plan that keeps even what an evening plan may miss; nil when there is none.
func keepsAll(t *testing.T, p *planner.Party, ask solve.Ask) *planner.Plan {
	ask.Soft = false
	plan, _, err := solve.Make(t.Context(), p, ask)
	if err != nil {
		return nil
	}
	return plan
}

// The same with dinners of several dishes, planned anew once: in the middle, some of it late.
func TestCheckEveningsOfRandomParties(t *testing.T) {
	t.Parallel()
	var planned, fewer, unknown int
	for seed := range uint64(partygen.Parties(t, 25)) {
		d := partygen.Seeded(800_000 + seed)
		p, now := partygen.Draw(d, partygen.Size{Dishes: [2]int{2, 6}, People: [2]int{1, 4}})
		plan, _, err := solve.Make(t.Context(), p, solve.Ask{Now: now, Work: 200_000, FirstOnly: true})
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if plan == nil {
			continue
		}
		ask := solve.Ask{Now: partygen.UnderWay(d, p, plan).Add(time.Duration(d.Roll(0, 20)) * time.Minute),
			InForce: plan, Soft: true, Work: 200_000}
		again, clash, err := solve.Make(t.Context(), p, ask)
		switch {
		case err != nil:
			t.Errorf("seed %d: %v", seed, err)
		case again != nil:
			planned++
			if broken := check.Plan(p, again); len(broken) > 0 {
				t.Errorf("seed %d: %+v", seed, broken)
			}
			if len(again.Without) > 0 {
				fewer++
			}
		case clash.Unproved:
			unknown++
		default:
			t.Errorf("seed %d at %v: no plan: %+v", seed, ask.Now, clash)
		}
	}
	t.Logf("%d evenings planned, %d of them without a dish, %d unknown", planned, fewer, unknown)
}

// settleDown takes from a tiny party what an evening cannot mend: people who leave before the meal, too little space to
// keep food hot or cold while others are late, and food that is held hot in the oven that its next step wants at
// another temperature.
func settleDown(p *planner.Party) {
	p.Kitchen.HotPlaces[0].Count = 4
	p.Kitchen.Refrigerator.Millilitres = 20000
	for i := range p.People {
		for k := range p.People[i].Days {
			day := &p.People[i].Days[k]
			for h := range day.Cooks {
				if day.Date == p.Day().Format(time.DateOnly) && day.Cooks[h].From >= 18*60 {
					day.Cooks[h].Until = 19 * 60
				}
			}
		}
	}
	toTray := func(w *planner.Wait) {
		if w != nil && w.Hold != nil && w.Hold.What == planner.AnOven {
			w.Hold = &planner.Use{What: planner.AHotPlace, Name: "tray"}
		}
	}
	for i := range p.Dishes {
		for k := range p.Dishes[i].Steps {
			s := &p.Dishes[i].Steps[k]
			toTray(s.Serve)
			for a := range s.After {
				toTray(&s.After[a].Wait)
			}
		}
	}
}

// Work that was ticked off in any order, late or by mistake: there is a plan or a clash, and never a fault.
func TestCheckPlansAfterAMuddle(t *testing.T) {
	t.Parallel()
	var planned, clashes int
	each := func(seed uint64, d partygen.Dice, p *planner.Party, now time.Time) {
		plan, _, err := solve.Make(t.Context(), p, solve.Ask{Now: now, Work: 100_000, FirstOnly: true})
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if plan == nil {
			return
		}
		ask := solve.Ask{Now: partygen.Muddle(d, p, plan), Soft: d.Roll(0, 3) > 0, Work: 100_000}
		if d.Roll(0, 3) > 0 {
			ask.InForce = plan
		}
		again, _, err := solve.Make(t.Context(), p, ask)
		switch {
		case err != nil:
			t.Errorf("seed %d: %v\n%s%+v", seed, err, partygen.Show(plan), p.Work)
		case again == nil:
			clashes++
		default:
			planned++
			if broken := check.Plan(p, again); len(broken) > 0 {
				t.Errorf("seed %d: %+v", seed, broken)
			}
		}
	}
	for seed := range uint64(partygen.Parties(t, 60)) {
		d := partygen.Seeded(900_000 + seed)
		p, now := partygen.Tiny(d)
		settleDown(p)
		each(seed, d, p, now)
		d = partygen.Seeded(950_000 + seed)
		p, now = partygen.Draw(d, partygen.Size{Dishes: [2]int{1, 4}, People: [2]int{1, 4}})
		each(950_000+seed, d, p, now)
	}
	t.Logf("%d planned after a muddle, %d clashes", planned, clashes)
	if planned == 0 {
		t.Error("nothing could be planned")
	}
}
