package check_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/safety"
)

// placedAt puts the passing salad's steps into a plan, each for ten minutes from so many after the arrival.
func placedAt(p *planner.Party, starts map[planner.StepKey]int) *planner.Plan {
	plan := &planner.Plan{Served: []planner.Served{{Course: "main", At: p.Courses[0].Servings[0].At}}}
	for step, at := range starts {
		start := p.Arrival.Add(time.Duration(at) * time.Minute)
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.StepTask("salad", step, 1), Start: start,
			End: start.Add(10 * time.Minute)})
	}
	return plan
}

// TestTableUntil: what is left of a dish has what its food has not yet stood: from its end where it waits on the
// counter, from its service where it waits in the cold, twice as long as a raw dough, the least of several; what keeps
// and what is not served has none.
func TestTableUntil(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(p *planner.Party, plan *planner.Plan)
		want   int // minutes after the arrival; 0: none
	}{
		{"the beans stand from -70", nil, 50},
		{"the peas sooner", func(_ *planner.Party, plan *planner.Plan) {
			for i := range plan.Tasks {
				if strings.HasSuffix(string(plan.Tasks[i].Task), "peas") {
					plan.Tasks[i].Start = plan.Tasks[i].Start.Add(-47 * time.Minute)
					plan.Tasks[i].End = plan.Tasks[i].End.Add(-47 * time.Minute)
				}
			}
		}, 33},
		{"it waits in the cold, from an hour", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].Serve.State = planner.Refrigerator
		}, 60 + 120 - 70},
		{"it is not served", func(_ *planner.Party, plan *planner.Plan) { plan.Served = nil }, 0},
		{"another course is", func(p *planner.Party, plan *planner.Plan) {
			p.Courses = append(p.Courses, planner.Course{Key: "sweet", Servings: p.Courses[0].Servings})
			p.Dishes[0].Course, plan.Served[0].Course = "sweet", "main"
		}, 0},
		{"it keeps", func(p *planner.Party, _ *planner.Plan) {
			for i := range p.Dishes[0].Steps {
				p.Dishes[0].Steps[i].Leaves = planner.Food{}
			}
			p.Dishes[0].Ingredients = []planner.Ingredient{{Name: "sugar", Amount: "1 kg", Step: "beans"}}
		}, 0},
	} {
		p, _ := passing()
		p.Dishes[0].Steps[2].Serve.State = planner.Counter
		plan := placedAt(p, map[planner.StepKey]int{"beans": -70, "peas": -40, "mix": -10})
		if c.change != nil {
			c.change(p, plan)
		}
		until, ok := check.AgesOf(p, plan).TableUntil(&p.Dishes[0])
		if got := int(until.Sub(p.Arrival) / time.Minute); ok != (c.want != 0) || ok && got != c.want {
			t.Errorf("%s: %d, %v, want %d", c.name, got, ok, c.want)
		}
	}
	for _, c := range []struct {
		name   string
		change func(p *planner.Party)
		want   int
	}{
		{"brought", func(*planner.Party) {}, 60 + 120 - 25},
		{"in the cold", func(p *planner.Party) { p.Dishes[0].Travels = planner.Refrigerator }, 60 + 120},
		{"nobody has said by whom", func(p *planner.Party) { p.Dishes[0].BroughtBy = "" }, 0},
		{"of no course", func(p *planner.Party) { p.Dishes[0].Course = "none" }, 0},
		{"sugar", func(p *planner.Party) { p.Dishes[0].Name = "Sugar" }, 0},
		{"with steps here", func(p *planner.Party) { p.Dishes[0].Steps = []planner.Step{{Key: "warm"}} }, 0},
		{"not served", func(p *planner.Party) { p.Courses[0].Key, p.Dishes[0].Course = "sweet", "sweet" }, 0},
	} {
		p, _ := passing()
		p.Dishes[0] = planner.Dish{Key: "salad", Name: "Rice salad", Course: "main", BroughtBy: "Zoe", TravelTime: 25}
		c.change(p)
		plan := &planner.Plan{Served: []planner.Served{{Course: "main", At: p.Courses[0].Servings[0].At}}}
		until, ok := check.AgesOf(p, plan).TableUntil(&p.Dishes[0])
		if got := int(until.Sub(p.Arrival) / time.Minute); ok != (c.want != 0) || ok && got != c.want {
			t.Errorf("%s: %d, %v, want %d", c.name, got, ok, c.want)
		}
	}
}

// TestJourneysToTheMinute: what is brought may be on its way for two hours, and where it stands out on a buffet it and
// its time there for two hours together; on the evening itself it is there.
func TestJourneysToTheMinute(t *testing.T) {
	for _, c := range []struct {
		name  string
		way   planner.Minutes
		out   planner.YesNo
		steps bool
		soft  bool
		said  string
	}{
		{"two hours", 120, planner.No, false, false, ""},
		{"a minute more", 121, planner.No, false, false,
			"On its way Rice salad is out of the cold for 2 h 1 min; the limit is at most 2 h"},
		{"on the evening", 121, planner.No, false, true, ""},
		{"an hour, and an hour on the table", 60, planner.Yes, false, false, ""},
		{"a minute more, and an hour on the table", 61, planner.Yes, false, false,
			"On its way and on the table Rice salad is out of the cold for 2 h 1 min; the limit is at most 2 h"},
		{"long, and something is done with it here", 121, planner.Yes, true, false,
			"On its way Rice salad is out of the cold for"},
		{"not long, and something is done with it here", 61, planner.Yes, true, false, ""},
	} {
		p, _ := passing()
		p.Dishes[0] = planner.Dish{Key: "salad", Name: "Rice salad", Course: "main", BroughtBy: "Zoe", TravelTime: c.way,
			Out: c.out}
		if c.steps {
			p.Dishes[0].Steps = []planner.Step{{Key: "warm", Do: "Warm it", Attention: planner.Watch, Where: planner.Heat,
				Time: planner.Span{Low: 5, Likely: 5, High: 5}}}
		}
		plan := &planner.Plan{Soft: c.soft, Served: []planner.Served{{Course: "main", At: p.Courses[0].Servings[0].At}}}
		var got []string
		for _, b := range check.Plan(p, plan) {
			if strings.Contains(b.Text, "On its way") {
				got = append(got, b.Text)
			}
			if strings.Contains(b.Text, "On its way") && b.Rule != check.RuleClocks {
				t.Errorf("%s: rule %d", c.name, b.Rule)
			}
		}
		if len(got) > 1 || (c.said == "") != (len(got) == 0) || len(got) == 1 && !strings.HasPrefix(got[0], c.said) {
			t.Errorf("%s: %q, want %q", c.name, got, c.said)
		}
	}
}

// TestByTables: of what a plan breaks only the rules that rest on tables are named, clocks and what does not keep.
func TestByTables(t *testing.T) {
	p, _ := passing()
	p.Courses[0].Servings[0].At = p.Arrival.Add(50 * time.Minute)
	plan := placedAt(p, map[planner.StepKey]int{"beans": -70, "peas": -5, "mix": -10}) // the peas come after the mixing
	all := check.Plan(p, plan)
	rules := map[check.Rule]bool{}
	for _, b := range all {
		rules[b.Rule] = true
	}
	if !rules[check.RuleWaits] || rules[check.RuleClocks] {
		t.Fatalf("%+v", all)
	}
	if got := check.ByTables(p, plan); len(got) != 0 {
		t.Errorf("%+v", got)
	}
	plan = placedAt(p, map[planner.StepKey]int{"beans": -71, "peas": -5, "mix": -10})
	if got := check.ByTables(p, plan); len(got) != 1 || got[0].Rule != check.RuleClocks {
		t.Errorf("%+v", got)
	}
}

// TestPassesEdges: what stands on the counter in a step's own time counts from when it was begun; what came from a step
// that nobody knows, from another dish or from no food does not.
func TestPassesEdges(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(p *planner.Party)
		start  int
		want   int
	}{
		{"begun at -40", nil, -40, 80}, {"begun at -10", nil, -10, 110},
		{"a dish before it is gone", func(p *planner.Party) {
			mix := &p.Dishes[0].Steps[2]
			mix.After = slices.Concat([]planner.After{{Step: "gone"}, {Dish: "soup", Step: "beans"}}, mix.After)
		}, -10, 110},
	} {
		p, done := passing()
		p.Dishes[0].Steps[0].Leaves, p.Dishes[0].Steps[1].Leaves = planner.Food{}, planner.Food{}
		if c.change != nil {
			c.change(p)
		}
		done("mix", c.start, 0)
		at, ok := check.Passes(p, "salad")
		if got := int(at.At.Sub(p.Arrival) / time.Minute); !ok || got != c.want {
			t.Errorf("%s: %d, %v, want %d", c.name, got, ok, c.want)
		}
	}
	// With the peas before it in the list, of which nobody has ticked anything off, the beans count.
	p, done := passing()
	mix := &p.Dishes[0].Steps[2]
	slices.Reverse(mix.After)
	done("beans", -70, -60)
	done("mix", -10, 0)
	if at, ok := check.Passes(p, "salad"); !ok || !at.At.Equal(p.Arrival.Add(50*time.Minute)) {
		t.Errorf("the beans alone: %+v, %v", at, ok)
	}
}

// TestKeepingIsChecked: what the hosts' own way brings too early breaks rule 12 by the minute, and not where its use is
// over, or the way or its use is not in the plan.
func TestKeepingIsChecked(t *testing.T) {
	party := func() (*planner.Party, *planner.Plan) {
		p, _ := passing()
		d := &p.Dishes[0]
		d.Ingredients = []planner.Ingredient{{Name: "beans", Amount: "1 kg", Step: "beans", Shop: "market", KeepDays: 1}}
		d.Steps[0].Leaves = planner.Food{Perishable: true, Kind: safety.Cooked}
		p.Chores = []planner.Chore{{Key: "market", Kind: planner.Shop, Shop: "market", Do: "Go to the market",
			Attention: planner.Hands, Away: true, Time: planner.Span{Low: 30, Likely: 30, High: 30}}}
		return p, placedAt(p, map[planner.StepKey]int{"beans": -70, "peas": -40, "mix": -10})
	}
	for _, c := range []struct {
		name   string
		before int // minutes from the end of the way to the use
		change func(p *planner.Party, plan *planner.Plan)
		breaks bool
	}{
		{"a day", 24 * 60, nil, false}, {"a minute more", 24*60 + 1, nil, true},
		{"a minute more, and it is used", 24*60 + 1, func(p *planner.Party, plan *planner.Plan) {
			pl := plan.Placed("salad/beans")
			p.Work = []planner.Work{{Task: pl.Task, Progress: planner.Done, Start: &pl.Start, End: &pl.End}}
		}, false},
		{"a minute more, and it is not used", 24*60 + 1, func(p *planner.Party, _ *planner.Plan) {
			p.Work = []planner.Work{{Task: "salad/beans", Progress: planner.Skipped}}
		}, false},
	} {
		p, plan := party()
		end := plan.Placed("salad/beans").Start.Add(-time.Duration(c.before) * time.Minute)
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: "market", Start: end.Add(-30 * time.Minute), End: end})
		if c.change != nil {
			c.change(p, plan)
		}
		var got []string
		for _, b := range check.Plan(p, plan) {
			if b.Rule == check.RuleKeeping {
				got = append(got, b.Text)
			}
		}
		if (len(got) == 1) != c.breaks || c.breaks && (!strings.Contains(got[0], "too long before") ||
			!strings.Contains(got[0], "Beans: within 1 day of buying")) {
			t.Errorf("%s: %q", c.name, got)
		}
	}
}

// TestSkippedStaysWhereItWas: what was left out at an instant, or at none, is past, and is held where it was.
func TestSkippedStaysWhereItWas(t *testing.T) {
	for name, move := range map[string]int{"where it was left out": 0, "a minute later": 1} {
		p, plan := partygen.Rich()
		pl := plan.Placed("tart/fill")
		at := pl.Start.Add(time.Duration(move) * time.Minute)
		p.Work = append(p.Work, planner.Work{Task: "tart/fill", Progress: planner.Skipped, End: &at})
		pl.End = pl.Start
		past := 0
		for _, b := range check.Plan(p, plan) {
			if b.Rule == check.RulePast {
				past++
			}
		}
		if (past > 0) != (move > 0) {
			t.Errorf("%s: %d times past", name, past)
		}
	}
}

// TestPartCookedIsServed: what is part-cooked is neither kept cold before it is served nor frozen, however shortly.
func TestPartCookedIsServed(t *testing.T) {
	for _, c := range []struct {
		name   string
		state  planner.State
		served int // minutes after the mixing's end
		breaks bool
	}{{"cold", planner.Refrigerator, 30, true}, {"cold, a minute", planner.Refrigerator, 1, true},
		{"cold, no time", planner.Refrigerator, 0, false}, {"frozen", planner.Freezer, 30, true},
		{"hot", planner.HotHold, 30, false}, {"counter", planner.Counter, 30, false}} {
		p, _ := passing()
		mix := &p.Dishes[0].Steps[2]
		mix.Leaves.PartCooked, mix.Serve = true, &planner.Wait{State: c.state}
		p.Courses[0].Servings[0].At = p.Arrival.Add(time.Duration(c.served) * time.Minute)
		plan := placedAt(p, map[planner.StepKey]int{"beans": -70, "peas": -40, "mix": -10})
		said := false
		for _, b := range check.Plan(p, plan) {
			said = said || strings.Contains(b.Text, "part-cooked")
		}
		if said != c.breaks {
			t.Errorf("%s: named %v", c.name, said)
		}
	}
}

// TestNothingEndsIt: what nothing comes after, and nobody has in charge, can run over by a day at most.
func TestNothingEndsIt(t *testing.T) {
	p, plan := partygen.Rich()
	p.Chores = append(p.Chores, planner.Chore{Key: "stock", Kind: planner.Other, Do: "Let it stand",
		Attention: planner.Unattended, Time: planner.Span{Low: 10, Likely: 10, High: 10}})
	start := plan.Placed("tart/fill").Start
	plan.Tasks = append(plan.Tasks, planner.Placed{Task: "stock", Start: start, End: start.Add(10 * time.Minute),
		People: plan.Placed("tart/fill").People})
	if spare, ends := check.SpareOf(p, plan, "stock"); spare != 24*60 || ends != "" {
		t.Errorf("%d minutes, then %q", spare, ends)
	}
}

// TestSpareOfABuffet: what stands out to the end of a buffet has that much less to spare.
func TestSpareOfABuffet(t *testing.T) {
	for out, want := range map[planner.YesNo]int{planner.No: 20, planner.Yes: 20 - 60} {
		p, _ := passing()
		p.Dishes[0].Out = out
		p.Courses[0].Servings[0].At = p.Arrival.Add(30 * time.Minute)
		plan := placedAt(p, map[planner.StepKey]int{"beans": -70, "peas": -40, "mix": -10})
		if got, ok := check.AgesOf(p, plan).Spare("salad", "mix"); !ok || got != want {
			t.Errorf("standing out %s: %d, %v, want %d", out, got, ok, want)
		}
	}
}

// TestNothingToSpareInABrokenPlan: what breaks already is said, and nothing is to spare, of whichever task.
func TestNothingToSpareInABrokenPlan(t *testing.T) {
	p, plan := partygen.Rich()
	plan.Placed("table").People = nil
	broken := check.Plan(p, plan)
	if len(broken) == 0 {
		t.Fatalf("nobody lays the table, and nothing is broken")
	}
	if spare, ends := check.SpareOf(p, plan, "wine"); spare != 0 || ends != broken[0].Text {
		t.Errorf("%d minutes, then %q, want none, then %q", spare, ends, broken[0].Text)
	}
}
