package check_test

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/safety"
)

// planned is a dish whose steps follow each other, and when they are in a plan.
type planned struct {
	foods []string
	do    []string
	long  []planner.Minutes
	waits []planner.State
	gaps  []planner.Minutes // behind each step, the last before service
}

var spoils = strings.Split("chicken thighs|minced beef|cod fillet|mackerel|eggs|double cream|prawns|bacon|ricotta", "|")

func drawLine(t *rapid.T) planned {
	var l planned
	l.foods = rapid.SliceOfN(rapid.SampledFrom(spoils), 1, 3).Draw(t, "foods")
	for range rapid.IntRange(1, 4).Draw(t, "steps") {
		l.do = append(l.do, rapid.SampledFrom([]string{"Mix it", "Simmer it until tender", "Brown it", "Let it rest",
			"Warm it through", "Roast it to 75 °C", "Spread it out"}).Draw(t, "do"))
		l.long = append(l.long, planner.Minutes(rapid.IntRange(5, 100).Draw(t, "long")))
		l.waits = append(l.waits, rapid.SampledFrom([]planner.State{planner.Counter, planner.Counter,
			planner.Refrigerator}).Draw(t, "wait"))
		gap := rapid.IntRange(0, 130).Draw(t, "gap")
		if l.waits[len(l.waits)-1] == planner.Refrigerator {
			gap *= rapid.SampledFrom([]int{1, 10, 40}).Draw(t, "times")
		}
		l.gaps = append(l.gaps, planner.Minutes(gap))
	}
	return l
}

// breaks says whether the line, as it is planned, passes a published limit; change may say more of it.
func (l planned) breaks(change func(*planner.Dish)) bool {
	for _, b := range check.Plan(l.plan(change)) {
		if b.Rule == check.RuleClocks {
			return true
		}
	}
	return false
}

// plan is the line as a party and its plan.
func (l planned) plan(change func(*planner.Dish)) (*planner.Party, *planner.Plan) {
	serve := time.Date(2026, 9, 26, 19, 0, 0, 0, time.UTC)
	d := planner.Dish{Key: "d", Name: "Dish", Course: "main", Serves: 4}
	for _, f := range l.foods {
		d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: f, Amount: "500 g"})
	}
	plan := &planner.Plan{Served: []planner.Served{{Course: "main", At: serve}}}
	at := serve
	for i := len(l.do) - 1; i >= 0; i-- {
		end := at.Add(-l.gaps[i].Duration())
		at = end.Add(-l.long[i].Duration())
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.StepTask("d", planner.StepKey(strconv.Itoa(i)), 1),
			Start: at, End: end, People: []planner.PersonKey{"ana"}})
	}
	for i := range l.do {
		s := planner.Step{Key: planner.StepKey(strconv.Itoa(i)), Do: l.do[i], Attention: planner.Watch,
			Where: planner.Counter, Time: partygen.Exactly(l.long[i])}
		if i > 0 {
			s.After = []planner.After{{Step: planner.StepKey(strconv.Itoa(i - 1)), Wait: planner.Wait{State: l.waits[i-1]}}}
		}
		if i == len(l.do)-1 {
			s.Serve = &planner.Wait{State: l.waits[i]}
		}
		d.Steps = append(d.Steps, s)
	}
	change(&d)
	p := &planner.Party{Zone: "UTC", Arrival: serve, Covers: 4, Kitchen: planner.HomeKitchen(), PrepDays: 30,
		Courses: []planner.Course{{Key: "main", Name: "Main", Servings: []planner.Serving{{At: serve}}}},
		People:  []planner.Person{{Key: "ana", Role: planner.Host}}, Dishes: []planner.Dish{d}}
	plan.Made = at.Add(-time.Hour)
	return p, plan
}

// TestOptionTakenAwayIsNotLooser: what passes a limit with what an option says in its favour (that it keeps, that it is
// in the cold here) passes one without the option too.
func TestOptionTakenAwayIsNotLooser(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t)
		at := rapid.IntRange(0, len(l.do)-1).Draw(t, "at")
		keeps := rapid.Bool().Draw(t, "keeps")
		for i := range l.waits {
			if !keeps { // a step in the cold is on the other clock
				l.waits[i], l.gaps[i] = planner.Counter, min(l.gaps[i], 130)
			}
		}
		with := l.breaks(func(d *planner.Dish) {
			if s := &d.Steps[at]; keeps {
				s.Leaves = planner.Food{Kind: safety.None}
			} else {
				s.Where = planner.Refrigerator
			}
		})
		if with && !l.breaks(func(*planner.Dish) {}) {
			t.Errorf("%+v: it is looser without what was said of step %d (keeps: %v)", l, at, keeps)
		}
	})
}

// TestIngredientAddedIsNotLooser: what passes a limit passes one with one more food that spoils, too.
func TestIngredientAddedIsNotLooser(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t)
		more := rapid.SampledFrom(spoils).Draw(t, "one more")
		if l.breaks(func(*planner.Dish) {}) && !l.breaks(func(d *planner.Dish) {
			d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: more, Amount: "300 g"})
		}) {
			t.Errorf("%+v: it is looser with %s", l, more)
		}
	})
}
