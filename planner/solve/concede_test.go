package solve_test

import (
	"reflect"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// The first mend that is proposed is the smallest set of changes there is, and the mildest among those: compared with
// every single change and every two together, each planned anew, for tiny parties without a plan.
func TestTheSmallestChangeIsProposed(t *testing.T) {
	t.Parallel()
	clashes, singles, pairs, none := 0, 0, 0, 0
	for seed := uint64(0); clashes < partygen.Parties(t, 40); seed++ {
		p, now := partygen.Tiny(partygen.Seeded(seed))
		ask := solve.Ask{Now: now}
		if ok, sure := solve.Possible(t.Context(), p, ask); ok || !sure {
			continue
		}
		clashes++
		mends, err := solve.Concessions(t.Context(), p, ask)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		grades := solve.EveryGrade(p)
		mild := map[string]int{}
		for _, g := range grades {
			mild[g.Text] = g.Mild
		}
		size, cost := 0, 0 // of what is proposed
		if len(mends) > 0 {
			for _, m := range append([]planner.Mend{mends[0]}, mends[0].With...) {
				if _, known := mild[m.Text]; !known {
					t.Errorf("seed %d: %q is no change that a host would make", seed, m.Text)
				}
				size, cost = size+1, cost+mild[m.Text]
			}
		}
		wantSize, wantCost := leastOf(t, p, ask, grades)
		switch wantSize {
		case 0:
			none++
			if size == 1 || size == 2 {
				t.Errorf("seed %d: %+v is proposed, but no two changes are enough", seed, mends[0])
			}
			continue
		case 1:
			singles++
		case 2:
			pairs++
		}
		if size != wantSize || cost != wantCost {
			t.Errorf("seed %d: proposed %d changes that cost %d (%+v); %d that cost %d are enough", seed, size, cost,
				mends, wantSize, wantCost)
		}
	}
	t.Logf("%d clashes: one change mends %d, two together %d, neither %d", clashes, singles, pairs, none)
	if singles < 5 || pairs < 3 {
		t.Errorf("too few mends to tell anything")
	}
}

// leastOf tries every change and every two of different kinds, and gives the size and cost of the least that is enough.
func leastOf(t *testing.T, p *planner.Party, ask solve.Ask, grades []solve.Grade) (size, cost int) {
	try := func(set ...solve.Grade) {
		sum := 0
		for _, g := range set {
			sum += g.Mild
		}
		if size > 0 && (len(set) > size || sum >= cost) {
			return
		}
		if q := solve.Changed(p, set...); q != nil {
			if ok, _ := solve.Possible(t.Context(), q, ask); ok {
				size, cost = len(set), sum
			}
		}
	}
	for _, g := range grades {
		try(g)
	}
	if size > 0 {
		return size, cost
	}
	for i, g := range grades {
		for _, h := range grades[:i] {
			if g.Kind != h.Kind {
				try(h, g)
			}
		}
	}
	return size, cost
}

// No change that is ever proposed touches what a published limit hangs on: the food, where it is, and how long it may
// wait.
func TestNoChangeTouchesALimit(t *testing.T) {
	changes := 0
	for seed := uint64(0); seed < 30; seed++ {
		p, _ := partygen.Draw(partygen.Seeded(seed), partygen.AnySize)
		for _, g := range solve.EveryGrade(p) {
			q := solve.Changed(p, g)
			if q == nil {
				continue
			}
			changes++
			if q.RoomTemperatureC != p.RoomTemperatureC || len(q.Dishes) != len(p.Dishes) {
				t.Errorf("seed %d, %s: the room's temperature or the menu is another", seed, g.Text)
			}
			for i := range p.Dishes {
				for k := range p.Dishes[i].Steps {
					was, is := p.Dishes[i].Steps[k], q.Dishes[i].Steps[k]
					if was.Where != is.Where || was.Leaves != is.Leaves || was.Cooks != is.Cooks ||
						was.Time != is.Time ||
						!reflect.DeepEqual(limitsOf(&was), limitsOf(&is)) {
						t.Errorf("seed %d, %s: changes what %s leaves, or how long it may wait", seed, g.Text, was.Do)
					}
				}
			}
		}
	}
	if changes < 300 {
		t.Errorf("only %d changes", changes)
	}
}

func limitsOf(s *planner.Step) (out []planner.Minutes) {
	for _, a := range s.After {
		out = append(out, a.Wait.Least, a.Wait.Longest)
	}
	if s.Serve != nil {
		out = append(out, s.Serve.Least, s.Serve.Longest)
	}
	return out
}

// Where two things are missing, both are named together, and the party with both has a plan; a dish less is offered
// beside it only where that is enough by itself.
func TestTwoChangesTogether(t *testing.T) {
	p := partygen.Dinner(8)
	p.Kitchen.Burners, p.Kitchen.Refrigerator.Flat = 0, 0
	ask := solve.Ask{Now: partygen.ClockOn(23)(18, 0)}
	_, clash, err := solve.Make(t.Context(), p, ask)
	if err != nil || clash == nil || len(clash.Mends) == 0 {
		t.Fatalf("got %+v, %v, want a clash with mends", clash, err)
	}
	m := clash.Mends[0]
	if len(m.With) != 1 {
		t.Fatalf("got %+v, want two changes together", m)
	}
	both := m.Do + "\n" + m.With[0].Do
	if !strings.Contains(both, "kitchen fittings burners:1") || !strings.Contains(both, "kitchen space flat:1") {
		t.Errorf("got %q, want a burner and a flat place", both)
	}
	p.Kitchen.Burners, p.Kitchen.Refrigerator.Flat = 1, 1
	plan, _, err := solve.Make(t.Context(), p, ask)
	if err != nil || plan == nil || len(check.Plan(p, plan)) > 0 {
		t.Errorf("with both there is no plan that keeps every rule: %v", err)
	}
}
