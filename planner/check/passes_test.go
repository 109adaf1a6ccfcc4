package check_test

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/safety"
)

// A dish of two cooked parts that are mixed and then left on the counter until it is served: the clock of 120 minutes
// is rule 2's (USDA FSIS, "Danger Zone"), the times are made up.
func passing() (*planner.Party, func(step planner.StepKey, from, to int)) {
	arrival := time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC)
	food := planner.Food{Perishable: true, Kind: safety.Cooked}
	one := func(key planner.StepKey, after ...planner.StepKey) planner.Step {
		s := planner.Step{Key: key, Do: string(key), Attention: planner.Hands, Where: planner.Counter, Leaves: food,
			Time: planner.Span{Low: 5, Likely: 10, High: 20}}
		for _, k := range after {
			s.After = append(s.After, planner.After{Step: k, Wait: planner.Wait{State: planner.Counter}})
		}
		return s
	}
	last := one("mix", "beans", "peas")
	last.Serve = &planner.Wait{State: planner.Counter}
	p := &planner.Party{Name: "Supper", Zone: "UTC", Arrival: arrival, Covers: 4,
		Courses: []planner.Course{{Key: "main", Name: "main", Servings: []planner.Serving{{At: arrival.Add(time.Hour)}}}},
		Dishes: []planner.Dish{{Key: "salad", Name: "Salad", Course: "main",
			Steps: []planner.Step{one("beans"), one("peas"), last}}}}
	return p, func(step planner.StepKey, from, to int) {
		start, end := arrival.Add(time.Duration(from)*time.Minute), arrival.Add(time.Duration(to)*time.Minute)
		p.Work = append(p.Work, planner.Work{Task: planner.StepTask("salad", step, 1), Progress: planner.Done,
			Start: &start, End: &end})
	}
}

// TestPasses: what waits on the counter passes its limit two hours after the part that stood longest came there, stays
// added up; and who said so counts.
func TestPasses(t *testing.T) {
	p, done := passing()
	if _, ok := check.Passes(p, "salad"); ok {
		t.Error("nothing is done, and something stands")
	}
	if _, ok := check.Passes(p, "soup"); ok {
		t.Error("there is no such dish")
	}
	done("beans", -70, -60) // has been there for ten minutes
	at, ok := check.Passes(p, "salad")
	if want := p.Arrival.Add(50 * time.Minute); !ok || !at.At.Equal(want) || !at.Told || at.Step.Key != "beans" ||
		at.Next == nil || at.Next.Key != "mix" {
		t.Errorf("beans: got %+v, %v, want their end at %v, before the mixing", at, ok, want)
	}
	done("peas", -40, -30)
	if again, _ := check.Passes(p, "salad"); again != at {
		t.Errorf("with the peas, which came later: got %+v, want %+v", again, at)
	}
	done("mix", -10, 0)
	at, ok = check.Passes(p, "salad")
	if want := p.Arrival.Add(50 * time.Minute); !ok || !at.At.Equal(want) || at.Step.Key != "mix" || at.Next != nil {
		t.Errorf("mixed: got %+v, %v, want the beans' end at %v, and nothing to come", at, ok, want)
	}
}

// TestPassesAssumed: where two parts stood for as long, and of one nobody said so, that is not known.
func TestPassesAssumed(t *testing.T) {
	for _, assumed := range []planner.StepKey{"beans", "peas"} {
		p, done := passing()
		done("beans", -70, -60)
		done("peas", -70, -60)
		done("mix", -10, 0)
		p.WorkOn(planner.StepTask("salad", assumed, 1)).Assumed = true
		if at, ok := check.Passes(p, "salad"); !ok || at.Told {
			t.Errorf("%s taken as planned: got %+v, %v, want that nobody said when", assumed, at, ok)
		}
	}
}

// TestAgesSpareInTheCold: the refrigerator's days, rule 2's other clock, are added up to the service too: cooked food
// has three there by USDA FSIS ("Leftovers and Food Safety": 3 to 4 days) for a party in the United States.
func TestAgesSpareInTheCold(t *testing.T) {
	const hour, day = 60, 24 * 60
	// two days lie before the mixing, less the ten minutes that it takes outside
	for served, want := range map[int]int{day - hour: hour + 10, day - 2*hour: 2*hour + 10, day + hour: -hour + 10} {
		p, _ := passing()
		p.Country = safety.UnitedStates
		steps := p.Dishes[0].Steps
		p.Dishes[0].Steps = append(steps[:0:0], steps[0], steps[2])
		mix := &p.Dishes[0].Steps[1]
		mix.After = []planner.After{{Step: "beans", Wait: planner.Wait{State: planner.Refrigerator}}}
		mix.Serve = &planner.Wait{State: planner.Refrigerator}
		p.Courses[0].Servings[0].At = p.Arrival.Add(time.Duration(served) * time.Minute)
		plan := &planner.Plan{Served: []planner.Served{{Course: "main", At: p.Courses[0].Servings[0].At}}}
		for step, at := range map[planner.StepKey]int{"beans": -2*day - 10, "mix": -10} {
			start := p.Arrival.Add(time.Duration(at) * time.Minute)
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.StepTask("salad", step, 1), Start: start,
				End: start.Add(10 * time.Minute)})
		}
		if got, ok := check.AgesOf(p, plan).Spare("salad", "mix"); !ok || got != want {
			t.Errorf("served at %d: it can start %d minutes later, %v, want %d", served, got, ok, want)
		}
	}
}

// TestWhyOfABrokenPlan: of a plan that breaks a rule there is nothing to explain but that.
func TestWhyOfABrokenPlan(t *testing.T) {
	p, plan := partygen.Rich()
	s := &spoiler{t, p, plan}
	s.move("tart/bake", -600)
	broken := check.Plan(p, plan)
	if len(broken) == 0 {
		t.Fatal("nothing is broken")
	}
	for _, k := range []planner.TaskKey{"tart/bake", "soup/reheat"} {
		if _, err := check.Why(p, plan, k); err == nil || !strings.Contains(err.Error(), broken[0].Text) {
			t.Errorf("%s: %v, want %q", k, err, broken[0].Text)
		}
	}
	if _, err := check.Why(p, plan, "tart/none"); err == nil || !strings.Contains(err.Error(), "no task tart/none") {
		t.Errorf("no such task: %v", err)
	}
}

// TestAgesSpare: how much later a step may start is what the clock has left at the end of all that comes after it.
func TestAgesSpare(t *testing.T) {
	for served, want := range map[int]int{30: 20, 45: 5, 70: -20} { // the beans lie there since -70, for 120 minutes
		p, _ := passing()
		p.Dishes[0].Steps = append(p.Dishes[0].Steps, p.Dishes[0].Steps[2])
		last := &p.Dishes[0].Steps[3]
		last.Key, last.After = "plate", []planner.After{{Step: "mix", Wait: planner.Wait{State: planner.Counter}}}
		p.Dishes[0].Steps[2].Serve = nil
		p.Courses[0].Servings[0].At = p.Arrival.Add(time.Duration(served) * time.Minute)
		plan := &planner.Plan{Served: []planner.Served{{Course: "main", At: p.Courses[0].Servings[0].At}}}
		for step, at := range map[planner.StepKey]int{"beans": -70, "peas": -40, "mix": -20, "plate": -5} {
			start := p.Arrival.Add(time.Duration(at) * time.Minute)
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.StepTask("salad", step, 1), Start: start,
				End: start.Add(10 * time.Minute)})
		}
		if got, ok := check.AgesOf(p, plan).Spare("salad", "mix"); !ok || got != want {
			t.Errorf("served at %d: it can start %d minutes later, %v, want %d", served, got, ok, want)
		}
	}
}
