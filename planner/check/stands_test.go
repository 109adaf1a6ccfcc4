package check_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// done ticks off the tasks of a plan at the times that it has for them.
func done(p *planner.Party, plan *planner.Plan) {
	for i := range plan.Tasks {
		t := &plan.Tasks[i]
		p.Work = append(p.Work, planner.Work{Task: t.Task, Progress: planner.Done, Start: &t.Start, End: &t.End})
	}
}

// TestPassesAgreesWithThePlan: what has been done as planned passes the counter's limit, by what was ticked off, in the
// very minute after which a plan would break rule 2 by waiting longer; and where nothing is said to pass one, no wait
// breaks it.
func TestPassesAgreesWithThePlan(t *testing.T) {
	const never = 3000
	seen := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t)
		last := len(l.do) - 1
		if rapid.IntRange(0, 9).Draw(t, "keeps") == 0 {
			l.foods = []string{"salt"}
		}
		bird := rapid.SampledFrom([]string{"", "", "1.6 kg", "3 kg"}).Draw(t, "a bird of")
		joins := rapid.IntRange(0, last).Draw(t, "joins at")
		l.waits[last] = planner.Counter
		change := func(d *planner.Dish) {
			if bird != "" {
				d.Ingredients = append(d.Ingredients[:1:1], planner.Ingredient{Name: "chicken", Amount: bird, Step: "0"})
				d.Ingredients[0].Step = planner.StepKey(string(rune('0' + joins)))
			}
		}
		l.gaps[last] = 0
		if l.breaks(change) {
			return
		}
		p, plan := l.plan(change)
		done(p, plan)
		at, ok := check.Passes(p, "d")
		seen[ok]++
		waits := func(n int) bool {
			l := l
			l.gaps = append(slices.Clone(l.gaps[:last]), planner.Minutes(n))
			return l.breaks(change)
		}
		if !ok {
			if waits(never) {
				t.Errorf("%+v: nothing passes a limit, and it may not wait", l)
			}
			return
		}
		end := plan.Tasks[0].End // the plan is made from its end
		n := int(at.At.Sub(end) / time.Minute)
		if waits(n) || !waits(n+1) {
			t.Errorf("%+v, %s: by what is ticked off it passes its limit after %d minutes; by the plan %v, a minute later %v", l,
				bird, n, waits(n), waits(n+1))
		}
		if !at.Told || at.Step != p.Dishes[0].Step(planner.StepKey(string(rune('0'+last)))) || at.Next != nil {
			t.Errorf("%+v: %+v", l, at)
		}
	})
	if seen[true] == 0 || seen[false] == 0 {
		t.Errorf("something passes a limit %d times, and does not %d times", seen[true], seen[false])
	}
}

// TestSpareAgreesWithThePlan: so many minutes as are said to be left can a step of a line start later, with all that
// comes after it, and not one more; where no limit is said to end it, none does.
func TestSpareAgreesWithThePlan(t *testing.T) {
	const never = 100 * 24 * 60
	seen := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		l := drawLine(t)
		if rapid.IntRange(0, 9).Draw(t, "keeps") == 0 {
			l.foods = []string{"salt"}
		}
		at := rapid.IntRange(0, len(l.do)-1).Draw(t, "step")
		if at > 0 {
			l.gaps[at-1] = max(l.gaps[at-1], 1)
		}
		same := func(*planner.Dish) {}
		p, plan := l.plan(same)
		left, ok := check.AgesOf(p, plan).Spare("d", planner.StepKey(string(rune('0'+at))))
		if at == 0 && ok {
			t.Errorf("%+v: nothing waits for its first step, and it has %d minutes", l, left)
		}
		if at == 0 || l.breaks(same) {
			return
		}
		later := func(n int) bool {
			l := l
			l.gaps = slices.Clone(l.gaps)
			l.gaps[at-1] += planner.Minutes(n)
			return l.breaks(same)
		}
		seen[string(l.waits[at-1])]++
		if !ok {
			seen["no limit"]++
			if later(never) {
				t.Errorf("%+v, step %d: no limit is said to end its wait", l, at)
			}
			return
		}
		if left < 0 || later(left) || !later(left+1) {
			t.Errorf("%+v, step %d: %d minutes are said to be left; so much later breaks a limit: %v, a minute more: %v", l, at,
				left, left < 0 || later(left), later(left+1))
		}
	})
	if seen["no limit"] == 0 || seen[string(planner.Counter)] == 0 || seen[string(planner.Refrigerator)] == 0 {
		t.Errorf("seen: %v", seen)
	}
	p, plan := planned{do: []string{"Mix it"}, foods: spoils[:1], long: []planner.Minutes{5},
		waits: []planner.State{planner.Counter}, gaps: []planner.Minutes{0}}.plan(func(*planner.Dish) {})
	if n, ok := check.AgesOf(p, plan).Spare("d", "none"); ok {
		t.Errorf("no such step has %d minutes", n)
	}
}

// TestSpareCountsTheWaitBeforeTheFire: what waits between a step and the cooking that ends the raw food's clocks is
// part of what it has left.
func TestSpareCountsTheWaitBeforeTheFire(t *testing.T) {
	for state, most := range map[planner.State]int{planner.Counter: 120 - 5 - 5 - 40, planner.Refrigerator: 2*24*60 - 70} {
		l := planned{foods: []string{"chicken thighs"}, do: []string{"Mix it", "Mix it", "Simmer it until tender"},
			long: []planner.Minutes{5, 5, 30}, waits: []planner.State{state, state, planner.Counter},
			gaps: []planner.Minutes{20, 50, 0}}
		if state == planner.Counter {
			l.gaps[1] = 20
		}
		p, plan := l.plan(func(*planner.Dish) {})
		if got, ok := check.AgesOf(p, plan).Spare("d", "1"); !ok || got != most {
			t.Errorf("%s: %d, %v, want %d", state, got, ok, most)
		}
	}
}

// TestStandsOutOnTheTable: what stands out at a buffet counts an hour more on the counter than what is served (common
// practice, no source; the two hours are USDA FSIS's), and only where it spoils.
func TestStandsOutOnTheTable(t *testing.T) {
	l := planned{foods: []string{"minced beef"}, do: []string{"Brown it", "Let it rest"},
		long: []planner.Minutes{20, 10}, waits: []planner.State{planner.Counter, planner.Counter}}
	for _, c := range []struct {
		out    planner.YesNo
		keeps  bool
		gap    planner.Minutes
		breaks bool
	}{
		{planner.No, false, 110, false}, {planner.No, false, 111, true}, {planner.Yes, false, 50, false},
		{planner.Yes, false, 51, true}, {planner.Yes, true, 51, false},
	} {
		l.gaps = []planner.Minutes{0, c.gap}
		p, plan := l.plan(func(d *planner.Dish) {
			if d.Out = c.out; c.keeps {
				d.Ingredients[0].Name = "salt"
			}
		})
		broken := slices.DeleteFunc(check.Plan(p, plan), func(b check.Broken) bool { return b.Rule != check.RuleClocks })
		if (len(broken) > 0) != c.breaks || len(broken) > 1 {
			t.Errorf("%+v: %+v", c, broken)
		}
		if len(broken) == 1 && c.out == planner.Yes &&
			!strings.HasPrefix(broken[0].Text, "With 1 hour that it stands out, the food after") {
			t.Errorf("%+v: %s", c, broken[0].Text)
		}
	}
}

// TestStandsOutFromTheCold: what comes from the refrigerator has the whole of the two hours on the table, whatever is
// served after it.
func TestStandsOutFromTheCold(t *testing.T) {
	for after, more := range map[time.Duration]planner.Minutes{time.Hour: 0, 2 * time.Hour: 0, 59 * time.Minute: 1} {
		l := planned{foods: []string{"ricotta"}, do: []string{"Spread it out"}, long: []planner.Minutes{more},
			waits: []planner.State{planner.Refrigerator}, gaps: []planner.Minutes{30}}
		p, plan := l.plan(func(d *planner.Dish) { d.Out = planner.Yes })
		at := p.Courses[0].Servings[0].At.Add(after)
		p.Courses = append(p.Courses, planner.Course{Key: "last", Servings: []planner.Serving{{At: at}}})
		plan.Served = append(plan.Served, planner.Served{Course: "last", At: at})
		for _, b := range check.Plan(p, plan) {
			if b.Rule == check.RuleClocks {
				t.Errorf("%d minutes of work, the last course %v later: %s", more, after, b.Text)
			}
		}
	}
}

// TestStays: of each dish the sort of food that is nearest to its limit in the refrigerator, counted to the end of its
// last wait; of those as near the one whose kind is the stricter; nothing of a dish that is never in it.
func TestStays(t *testing.T) {
	const hour = 60
	for _, c := range []struct {
		name  string
		foods []string
		do    string
		gap   planner.Minutes
		wait  planner.State
		kind  safety.Kind
		long  int
	}{
		{"cooked", []string{"minced beef"}, "Simmer it until tender", 10 * hour, planner.Refrigerator, safety.Cooked,
			10 * hour},
		{"a minute", []string{"minced beef"}, "Simmer it until tender", 1, planner.Refrigerator, safety.Cooked, 1},
		{"on the counter", []string{"minced beef"}, "Simmer it until tender", 10, planner.Counter, "", 0},
		{"raw", []string{"cod fillet"}, "Spread it out", 10 * hour, planner.Refrigerator, safety.Fish, 10 * hour},
		{"nothing that spoils", []string{"salt"}, "Spread it out", 10 * hour, planner.Refrigerator, "", 0},
	} {
		for twice := range 2 { // in a step before too
			l := planned{foods: c.foods, do: []string{c.do, "Let it rest"}, long: []planner.Minutes{30, 5},
				waits: []planner.State{planner.Counter, c.wait}, gaps: []planner.Minutes{0, c.gap}}
			want := c.long
			if twice == 1 && c.wait == planner.Refrigerator && c.kind != "" {
				l.waits[0], l.gaps[0] = planner.Refrigerator, 2*hour
				want += 2 * hour
			}
			p, plan := l.plan(func(*planner.Dish) {})
			ages := check.AgesOf(p, plan)
			stays, counted := ages.Stays()
			if counted.Any != (c.name != "nothing that spoils") {
				t.Errorf("%s: food was followed: %v", c.name, counted)
			}
			if c.kind == "" {
				if len(stays) > 0 {
					t.Errorf("%s: %+v", c.name, stays)
				}
				continue
			}
			if len(stays) != 1 || stays[0].Sort.Kind != c.kind || stays[0].Minutes != want || stays[0].Dish != &p.Dishes[0] ||
				stays[0].Limit != p.RefrigeratorLimit(c.kind) {
				t.Errorf("%s: %+v, want %d minutes of %s", c.name, stays, want, c.kind)
			}
			before := 0
			for _, minutes := range ages.Cold("d", "1") {
				before = max(before, minutes)
			}
			if before != want-c.long {
				t.Errorf("%s: by the end of the last step it has been in the cold for %d minutes, want %d", c.name, before,
					want-c.long)
			}
			if got := ages.Cold("d", "none"); len(got) > 0 {
				t.Errorf("no such step: %v", got)
			}
		}
	}
}

// TestStaysOfSeveral: of two sorts in one dish the one that has used more of its days is named.
func TestStaysOfSeveral(t *testing.T) {
	l := planned{foods: []string{"cod fillet", "bacon"}, do: []string{"Spread it out"}, long: []planner.Minutes{10},
		waits: []planner.State{planner.Refrigerator}, gaps: []planner.Minutes{600}}
	p, plan := l.plan(func(*planner.Dish) {})
	other := p.Dishes[0]
	other.Key, other.Name = "e", "Other"
	other.Ingredients = []planner.Ingredient{{Name: "bacon", Amount: "500 g"}}
	p.Dishes = append(p.Dishes, other)
	for _, x := range slices.Clone(plan.Tasks) {
		x.Task = planner.StepTask("e", "0", 1)
		plan.Tasks = append(plan.Tasks, x)
	}
	sorts := check.AgesOf(p, plan).Leaves("d", "0").Colds()
	if len(sorts) != 2 {
		t.Fatalf("sorts of food: %v", sorts)
	}
	least := slices.MinFunc(sorts, func(a, b trace.Cold) int {
		return p.RefrigeratorLimit(a.Kind).Minutes - p.RefrigeratorLimit(b.Kind).Minutes
	})
	got, _ := check.AgesOf(p, plan).Stays()
	if len(got) != 2 || got[0].Sort.Kind != least.Kind || got[0].Dish.Key != "d" || got[1].Dish.Key != "e" {
		t.Errorf("%+v, want %s", got, least.Kind)
	}
}
