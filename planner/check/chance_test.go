package check_test

import (
	"math"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// line is a party of one course whose dishes are steps of 10 to 30, likely 20 minutes, each dish by a person of its own
// and ending just when it is served, with so many minutes' grace.
func line(grace planner.Minutes, dishes ...int) (*planner.Party, *planner.Plan) {
	at := partygen.ClockOn(26)(20, 0)
	p := &planner.Party{Zone: "UTC", Arrival: at.Add(-time.Hour), Covers: 2,
		Courses: []planner.Course{{Key: "main", Name: "Main", Servings: []planner.Serving{{At: at, Late: grace}}}}}
	plan := &planner.Plan{Made: at.Add(-5 * time.Hour), Served: []planner.Served{{Course: "main", At: at}}}
	for i, steps := range dishes {
		who := planner.PersonKey(rune('a' + i))
		p.People = append(p.People, planner.Person{Key: who, Name: string(who), Role: planner.Host,
			Cooks: partygen.Hours(10, 23), Home: partygen.Hours(10, 23)})
		d := planner.Dish{Key: planner.DishKey("dish-" + string(who)), Name: "Dish", Course: "main", Serves: 2}
		for k := range steps {
			s := planner.Step{Key: planner.StepKey(rune('p' + k)), Do: "Do it", Attention: planner.Hands,
				Where: planner.Counter,
				Time:  planner.Span{Low: 10, Likely: 20, High: 30}}
			if k > 0 {
				s.After = []planner.After{{Step: d.Steps[k-1].Key, Wait: planner.Wait{State: planner.Counter}}}
			}
			d.Steps = append(d.Steps, s)
			from := at.Add(time.Duration(k-steps) * 20 * time.Minute)
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.StepTask(d.Key, s.Key, 1), Start: from,
				End: from.Add(20 * time.Minute), People: []planner.PersonKey{who}})
		}
		p.Dishes = append(p.Dishes, d)
	}
	return p, plan
}

// The chances are what the theory of the triangular distribution says they are: P(X ≤ x) = 1 - (c-x)²/((c-a)(c-b))
// for
// x ≥ b (Kotz and van Dorp, "Beyond Beta", 2004, chapter 1; from memory). A task never begins before it is planned,
// so
// two in a row are late by the excess of the first, if any, and that of the second.
func TestChancesAgreeWithTheory(t *testing.T) {
	within := func(x float64) float64 { // of one task
		return 1 - (30-x)*(30-x)/200
	}
	inARow := func(grace float64) float64 { // by numeric integration over the first task's excess
		p, parts := 0.5*within(20+grace), 1000 // half of the time the first is not late
		for i := range parts {
			e := 10 * (float64(i) + 0.5) / float64(parts)
			density := (10 - e) / 100 // of the first one's length at 20+e
			left := grace - e
			second := within(20 + left)
			if left < 0 { // the second has to make up for it
				second = math.Pow(10+left, 2) / 200
			}
			p += density * 10 / float64(parts) * second
		}
		return p
	}
	rows := []struct {
		name   string
		grace  planner.Minutes
		dishes []int
		want   float64
	}{
		{"one task, no grace", 0, []int{1}, within(20)},
		{"one task, five minutes' grace", 5, []int{1}, within(25)},
		{"one task that always fits", 10, []int{1}, 1},
		{"two side by side", 5, []int{1, 1}, within(25) * within(25)},
		{"two in a row", 5, []int{2}, inARow(5)},
	}
	for _, row := range rows {
		p, plan := line(row.grace, row.dishes...)
		if broken := check.Plan(p, plan); len(broken) > 0 {
			t.Fatalf("%s: %+v", row.name, broken)
		}
		got := check.ChancesOf(p, plan, 20_000, 1).Courses[0]
		if math.Abs(got.OnTime-row.want) > 0.015 {
			t.Errorf("%s: %.3f, want %.3f", row.name, got.OnTime, row.want)
		}
		if again := check.ChancesOf(p, plan, 20_000, 1).Courses[0]; again != got {
			t.Errorf("%s: the same seed gives %+v and %+v", row.name, got, again)
		}
	}
}

// What threatens a course is named, and that starting it earlier helps, where that can be.
func TestChancesNameTheThreat(t *testing.T) {
	p, plan := line(2, 1, 1)
	p.Dishes[1].Steps[0].Time = planner.Span{Low: 19, Likely: 20, High: 21} // this one hardly varies
	got := check.ChancesOf(p, plan, 4000, 1).Courses[0]
	if got.Threat != "dish-a/p" || got.Earlier != "dish-a/p" || got.With < 0.95 || got.OnTime > 0.75 {
		t.Errorf("%+v, want dish-a/p as the threat, and a quarter of an hour before it to help", got)
	}
	p.People[0].Days = []planner.OtherDay{{Date: "2026-09-26",
		Cooks: []planner.DayHours{{From: 18*60 + 40, Until: 23 * 60}}}}
	if got := check.ChancesOf(p, plan, 4000, 1).Courses[0]; got.Threat != "dish-a/p" || got.Earlier != "" {
		t.Errorf("%+v, want no earlier start: nobody is there yet", got)
	}
}

// Hands and things are handed on in the order of the plan: with one cook, or one pan, what runs over delays the next.
func TestChancesKeepTheOrderOfHandsAndThings(t *testing.T) {
	free, plan := line(5, 1, 2) // dish-a/p beside dish-b/q, after dish-b/p
	alone := check.ChancesOf(free, plan, 4000, 1).Courses[0].OnTime
	p, plan := line(5, 1, 2)
	pan := []planner.Use{{What: planner.AVessel, Name: "pan"}}
	p.Kitchen.Vessels = []planner.Ware{{Name: "pan", Count: 1}}
	p.Dishes[1].Steps[0].Uses = pan
	p.Dishes[0].Steps[0].Uses = pan
	for i := range plan.Tasks {
		if k := plan.Tasks[i].Task; k == "dish-b/p" || k == "dish-a/p" {
			plan.Tasks[i].Uses = []planner.Held{{What: planner.AVessel, Name: "pan", Amount: 1,
				From: plan.Tasks[i].Start, To: plan.Tasks[i].End}}
		}
	}
	if broken := check.Plan(p, plan); len(broken) > 0 {
		t.Fatalf("%+v", broken)
	}
	if got := check.ChancesOf(p, plan, 4000, 1).Courses[0].OnTime; got >= alone-0.005 {
		t.Errorf("with one pan for both %.3f, with a pan each %.3f", got, alone)
	}
}

// A whole dinner: chances lie between 0 and 1, longer windows never make them less, and what is sure is sure.
func TestChancesOfADinner(t *testing.T) {
	p := partygen.Dinner(8)
	plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: partygen.ClockOn(23)(18, 0), Work: 2_000_000})
	if err != nil || plan == nil {
		t.Fatalf("%+v, %v", clash, err)
	}
	was := check.ChancesOf(p, plan, 1000, 3)
	if len(was.Courses) != 3 {
		t.Fatalf("%+v", was)
	}
	for i := range p.Courses {
		p.Courses[i].Servings[0].Late += 15
	}
	for i, c := range check.ChancesOf(p, plan, 1000, 3).Courses {
		if c.OnTime < was.Courses[i].OnTime || c.OnTime > 1 || was.Courses[i].OnTime < 0 {
			t.Errorf("%s: %.3f, and with a quarter of an hour more %.3f", c.Course, was.Courses[i].OnTime, c.OnTime)
		}
	}
	for i := range p.Dishes {
		for k := range p.Dishes[i].Steps {
			s := &p.Dishes[i].Steps[k]
			s.Time.Low, s.Time.High = s.Time.Likely, s.Time.Likely
		}
	}
	for i := range p.Chores {
		p.Chores[i].Time = partygen.Exactly(p.Chores[i].Time.Likely)
	}
	for _, c := range check.ChancesOf(p, plan, 50, 3).Courses {
		if c.OnTime != 1 || c.Threat != "" {
			t.Errorf("with lengths that are certain: %+v", c)
		}
	}
}

// With lengths that are certain every plan goes as it is planned, whatever is in it: what the play has a task wait for
// never contradicts a plan that keeps every rule. The same evenings under way.
func TestCertainPlansGoAsPlanned(t *testing.T) {
	played := 0
	for seed := uint64(0); seed < uint64(partygen.Parties(t, 40)); seed++ {
		d := partygen.Seeded(600_000 + seed)
		p, now := partygen.Draw(d, partygen.Size{Dishes: [2]int{2, 6}, People: [2]int{1, 4}})
		for i := range p.Dishes {
			for k := range p.Dishes[i].Steps {
				s := &p.Dishes[i].Steps[k]
				s.Time = partygen.Exactly(s.Time.Likely)
			}
		}
		for i := range p.Chores {
			p.Chores[i].Time = partygen.Exactly(p.Chores[i].Time.Likely)
		}
		plan, _, err := solve.Make(t.Context(), p, solve.Ask{Now: now, Work: 200_000, FirstOnly: true})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if plan == nil {
			continue
		}
		certain := func(plan *planner.Plan) {
			played++
			for _, c := range check.ChancesOf(p, plan, 3, seed).Courses {
				if c.OnTime != 1 || c.Threat != "" {
					t.Errorf("seed %d: %+v, want it to be certain\n%s", seed, c, partygen.Show(plan))
				}
			}
		}
		certain(plan)
		again, _, err := solve.Make(t.Context(), p, solve.Ask{Now: partygen.UnderWay(d, p, plan), InForce: plan,
			Soft: true, Work: 200_000, FirstOnly: true})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if again != nil {
			certain(again)
		}
	}
	if played < 20 {
		t.Errorf("only %d plans", played)
	}
}
