package solve_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// drawDinner varies the dinner: fewer dishes, covers, people with odd hours, a smaller kitchen, claims.
func drawDinner(t *rapid.T) *planner.Party {
	p := partygen.Dinner(12)
	var dishes []planner.Dish
	for _, d := range p.Dishes {
		if d.Key == "lamb" && rapid.IntRange(0, 2).Draw(t, "lamb") > 0 || rapid.Bool().Draw(t, string(d.Key)) &&
			d.Key != "sauce" {
			dishes = append(dishes, d)
		}
	}
	p.Dishes = dishes
	for i := range p.Chores { // what hangs on a dish that is left out hangs on nothing
		c := &p.Chores[i]
		c.By = slices.DeleteFunc(c.By, func(a planner.Anchor) bool {
			d, _, _, _, ok := a.Task.Split()
			return ok && d != "" && p.Dish(d) == nil
		})
	}
	p.Chores[0].By = nil // shopping
	for _, d := range dishes {
		p.Chores[0].By = append(p.Chores[0].By, planner.Anchor{Task: planner.StepTask(d.Key, d.Steps[0].Key, 1)})
	}
	p.Covers = rapid.IntRange(2, 12).Draw(t, "covers")
	p.PrepDays = rapid.IntRange(0, 3).Draw(t, "prep days")
	p.RoomTemperatureC = rapid.SampledFrom([]int{0, 20, 34}).Draw(t, "room")
	k := &p.Kitchen
	k.Ovens[0].Shelves = rapid.IntRange(2, 3).Draw(t, "shelves")
	if rapid.Bool().Draw(t, "second oven") {
		second := k.Ovens[0]
		second.Name, second.Shelves = "small oven", 1
		k.Ovens = append(k.Ovens, second)
	}
	k.Burners = rapid.IntRange(1, 4).Draw(t, "burners")
	k.Counter = rapid.IntRange(1, 3).Draw(t, "counter")
	k.Refrigerator = planner.Cold{Millilitres: rapid.IntRange(5, 30).Draw(t, "litres") * 1000,
		Flat: rapid.IntRange(1, 3).Draw(t, "flat")}
	p.People = p.People[:rapid.IntRange(1, 3).Draw(t, "people")]
	for i := range p.People {
		from := rapid.IntRange(8, 16).Draw(t, "from")
		p.People[i].Cooks = partygen.Hours(planner.Minutes(from), 22)
		p.People[i].Home = partygen.Hours(planner.Minutes(from-1), 23)
		if rapid.IntRange(0, 3).Draw(t, "host") == 0 {
			p.People[i].Role = planner.Host
		}
	}
	for i := range p.Dishes {
		for s := range p.Dishes[i].Steps {
			st := &p.Dishes[i].Steps[s]
			switch rapid.IntRange(0, 12).Draw(t, "twist") {
			case 0:
				if st.Attention == planner.Hands {
					st.MaxHands = 2
				}
			case 1:
				if st.Attention == planner.Hands && st.Grows == planner.Fixed {
					st.Grows, st.PerRound, st.RoundGap = planner.InRounds, 6, 5
				}
			case 2:
				st.Who.Person = p.People[len(p.People)-1].Key
			case 3:
				for u := range st.Uses {
					if st.Uses[u].What == planner.AnOven {
						st.Uses[u].Shut = true
					}
				}
			case 4:
				p.Work = append(p.Work, planner.Work{Task: planner.StepTask(p.Dishes[i].Key, st.Key, 1), Person: p.People[0].Key})
			}
		}
	}
	return p
}

// judge checks a plan by every means there is.
func judge(t *testing.T, seed int, p *planner.Party, ask solve.Ask, plan *planner.Plan) {
	if broken := check.Plan(p, plan); len(broken) > 0 {
		t.Errorf("seed %d: the plan breaks rules: %+v", seed, broken)
	}
	if err := solve.Admits(p, ask, plan); err != nil {
		t.Errorf("seed %d: the model refuses its own plan: %v", seed, err)
	}
	model, err := solve.ModelLevels(p, ask, plan)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range check.Of(p).Figures(plan, ask.InForce) {
		if v, ok := model[l.Name]; ok && v != l.Value {
			t.Errorf("seed %d, level %s: the model says %d, the figure is %d", seed, l.Name, v, l.Value)
		}
	}
	for _, l := range plan.Levels {
		if l.Value < l.Bound || l.Proved != (l.Value == l.Bound) && l.Name != planner.Spare {
			t.Errorf("seed %d, level %+v: value, bound and proof do not fit", seed, l)
		}
	}
}

// evening is a random party, the moment at which it is planned anew, and how late people are by then.
type evening struct {
	party *planner.Party
	now   time.Time
	slip  time.Duration
}

func drawEvening(t *rapid.T) evening {
	return evening{
		party: drawDinner(t),
		now:   partygen.ClockOn(26)(10, 0).Add(time.Duration(rapid.IntRange(0, 12*60).Draw(t, "now")) * time.Minute),
		slip:  time.Duration(rapid.IntRange(-5, 45).Draw(t, "slip")) * time.Minute,
	}
}

// Random dinners are planned, and planned anew in the evening when people are late: then there is a plan, if
// need be without a dish.
func TestRandomDinnersAndTheirEvenings(t *testing.T) {
	plans, clashes, unknown, evenings, fewer := 0, 0, 0, 0, 0
	draw := rapid.Custom(drawEvening)
	for seed := range partygen.Parties(t, 25) {
		e := draw.Example(seed)
		p := e.party
		if faults := p.Validate(); len(faults) > 0 {
			t.Logf("seed %d: %s", seed, faults[0].Text)
			continue
		}
		ask := solve.Ask{Now: partygen.ClockOn(23)(18, 0), Work: 2_000_000}
		plan, clash, err := solve.Make(t.Context(), p, ask)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if clash != nil {
			if clash.Unproved {
				unknown++
			} else {
				clashes++
			}
			continue
		}
		plans++
		judge(t, seed, p, ask, plan)
		live(p, plan, e.now, e.slip)
		again := solve.Ask{Now: e.now, InForce: plan, Soft: true, Work: 2_000_000}
		replanned, clash, err := solve.Make(t.Context(), p, again)
		if err != nil {
			t.Fatalf("seed %d, at %v: %v", seed, e.now, err)
		}
		if clash != nil {
			t.Errorf("seed %d, at %v no plan: %+v", seed, e.now, clash)
			continue
		}
		evenings++
		judge(t, seed, p, again, replanned)
		if len(replanned.Without) > 0 {
			fewer++
		}
	}
	t.Logf("%d plans, %d clashes, %d unknown; %d evenings replanned, %d of them without a dish", plans, clashes, unknown,
		evenings, fewer)
	if plans < 5 || evenings < 5 {
		t.Errorf("%d plans and %d evenings: too few to say anything", plans, evenings)
	}
}
