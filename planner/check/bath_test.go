package check_test

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cooling"
	"tureen/planner/partygen"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// TestABathIsHalfOnTheCounter: of a step that cools food, by the estimate, what it takes to 21 °C counts on the
// counter and the rest of it in the cold.
func TestABathIsHalfOnTheCounter(t *testing.T) {
	cool := &planner.Cooling{Place: safety.PlaceStirredIce, MadeOf: safety.Metal, Consistency: safety.Thick, DepthCM: 8}
	est, err := safety.CoolTime(safety.Pot{MadeOf: cool.MadeOf, DepthCM: cool.DepthCM, Litres: 4,
		Consistency: cool.Consistency, Place: cool.Place})
	if err != nil || est.StageOne < 10 || est.Whole < est.StageOne+10 || est.StageOne > 110 {
		t.Fatalf("%+v, %v", est, err)
	}
	for _, c := range []struct {
		how   planner.CoolHow
		long  int // of the step
		stood int // of it on the counter
	}{{"", est.Whole, est.StageOne}, {planner.CoolBath, est.StageOne, est.StageOne}} {
		for more, breaks := range map[int]bool{120 - c.stood: false, 121 - c.stood: true} {
			p, d := potful("minced beef")
			p.Work, p.Chores, p.PrepDays = nil, nil, 3
			d.Steps[0].Serve = nil
			d.Steps = append(d.Steps, planner.Step{Key: "cool", Do: "Stir it over ice", Attention: planner.Touch,
				Where: planner.Counter, Time: partygen.Exactly(planner.Minutes(c.long)),
				Leaves: planner.Food{Perishable: true, Kind: safety.Cooked, Millilitres: 4000},
				After:  []planner.After{{Step: "cook", Wait: planner.Wait{State: planner.Counter}}},
				Serve:  &planner.Wait{State: planner.Counter}})
			bath := *cool
			bath.How = c.how
			d.Steps[1].Cool = &bath
			served := p.Courses[0].Servings[0].At
			end := served.Add(-time.Duration(more) * time.Minute)
			start := end.Add(-time.Duration(c.long) * time.Minute)
			plan := &planner.Plan{Made: start.Add(-9 * time.Hour), Served: []planner.Served{{Course: "main", At: served}},
				Tasks: []planner.Placed{
					{Task: "pot/cook", Start: start.Add(-time.Hour), End: start},
					{Task: "pot/cool", Start: start, End: end}}}
			var broken []string
			for _, b := range check.Plan(p, plan) {
				if b.Rule == check.RuleClocks {
					broken = append(broken, b.Text)
				}
				if b.Rule == check.RuleLengths {
					t.Errorf("%q: %s", c.how, b.Text)
				}
			}
			if (len(broken) > 0) != breaks {
				t.Errorf("%q, %d minutes after it: %s", c.how, more, strings.Join(broken, "\n"))
			}
			for sort, minutes := range check.AgesOf(p, plan).Cold("pot", "cool") {
				if minutes != c.long-c.stood {
					t.Errorf("%q: %v has been in the cold for %d minutes, want %d", c.how, sort, minutes, c.long-c.stood)
				}
			}
			if len(check.AgesOf(p, plan).Cold("pot", "cool")) == 0 {
				t.Error("no clock runs in the cold")
			}
		}
	}
}

// TestSoonCold: at the end of the step after which it goes into the cold, cooked food has so much of its two hours left
// as it takes to steam off, and rice of its one (FSA).
func TestSoonCold(t *testing.T) {
	for food, c := range map[string]struct {
		minutes int
		says    string
	}{"minced beef": {120, "cooked food has"}, "rice": {60, "cooked rice, or what it was mixed with, has"}} {
		for more, breaks := range map[int]bool{0: false, 1: true} {
			p, d := potful(food)
			p.Work, p.Chores, p.PrepDays = nil, nil, 3
			season := d.Steps[0]
			d.Steps[0].Serve = nil
			season.Key, season.Do, season.Attention, season.Where, season.Cooks = "season", "Season it", planner.Hands,
				planner.Counter, false
			season.Time = partygen.Exactly(5)
			season.After = []planner.After{{Step: "cook", Wait: planner.Wait{State: planner.Counter}}}
			d.Steps = append(d.Steps, season)
			served := p.Courses[0].Servings[0].At
			cooked := served.Add(-20 * time.Hour)
			end := cooked.Add(time.Duration(c.minutes-cooling.SteamOff+more) * time.Minute)
			plan := &planner.Plan{Made: cooked.Add(-9 * time.Hour), Served: []planner.Served{{Course: "main", At: served}},
				Tasks: []planner.Placed{{Task: "pot/cook", Start: cooked.Add(-time.Hour), End: cooked},
					{Task: "pot/season", Start: end.Add(-5 * time.Minute), End: end}}}
			var broken []string
			for _, b := range check.Plan(p, plan) {
				if b.Rule == check.RuleClocks {
					broken = append(broken, b.Text)
				}
			}
			if (len(broken) > 0) != breaks || breaks && !strings.Contains(broken[0], c.says) {
				t.Errorf("%s, %d minutes too many: %q", food, more, broken)
			}
		}
	}
}

// TestABirdIsHotByItself: what is left of the minutes in which a bird is hot by itself counts where it goes on on the
// counter, whatever else goes through the cold meanwhile; where it comes out of the cold nothing is left of them.
func TestABirdIsHotByItself(t *testing.T) {
	const rest = 10
	breaks := func(between planner.State, other bool, wait int) bool {
		p, d := potful("chicken")
		p.Work, p.Chores, p.PrepDays = nil, nil, 3
		d.Ingredients[0].Amount = "1.6 kg"
		d.Steps[0].Do, d.Steps[0].Serve, d.Steps[0].Leaves = "Roast the chicken", nil, planner.Food{}
		d.Steps = append(d.Steps, planner.Step{Key: "rest", Do: "Let it rest", Attention: planner.Unattended,
			Where: planner.Counter, Time: partygen.Exactly(rest), Serve: &planner.Wait{State: planner.Counter},
			After: []planner.After{{Step: "cook", Wait: planner.Wait{State: between}}}})
		served := p.Courses[0].Servings[0].At
		end := served.Add(-time.Duration(wait) * time.Minute)
		cooked := end.Add(-rest * time.Minute)
		if between == planner.Refrigerator {
			cooked = cooked.Add(-time.Hour)
		}
		plan := &planner.Plan{Made: cooked.Add(-9 * time.Hour), Served: []planner.Served{{Course: "main", At: served}},
			Tasks: []planner.Placed{{Task: "pot/cook", Start: cooked.Add(-time.Hour), End: cooked},
				{Task: "pot/rest", Start: end.Add(-rest * time.Minute), End: end}}}
		if other {
			step := planner.Step{Key: "a", Do: "Whisk it", Attention: planner.Hands, Where: planner.Counter,
				Time: partygen.Exactly(5)}
			next := step
			next.Key, next.After = "b", []planner.After{{Step: "a", Wait: planner.Wait{State: planner.Refrigerator}}}
			p.Dishes = append(p.Dishes, planner.Dish{Key: "e", Course: "main",
				Ingredients: []planner.Ingredient{{Name: "salt"}}, Steps: []planner.Step{step, next}})
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: "e/a", Start: cooked.Add(-time.Hour),
				End: cooked.Add(-55 * time.Minute)}, planner.Placed{Task: "e/b", Start: end, End: end.Add(5 * time.Minute)})
		}
		for _, b := range check.Plan(p, plan) {
			if b.Rule == check.RuleClocks {
				return true
			}
		}
		return false
	}
	p, d := potful("chicken")
	d.Ingredients[0].Amount, d.Steps[0].Do, d.Steps[0].Leaves = "1.6 kg", "Roast the chicken", planner.Food{}
	hot := cooling.StillHot(p, trace.Of(p))["pot/cook"]
	if hot < 20 {
		t.Fatalf("it is hot by itself for %d minutes", hot)
	}
	for _, other := range []bool{false, true} {
		for between, most := range map[planner.State]int{planner.Counter: 120 - rest + hot,
			planner.Refrigerator: 120 - rest} {
			if breaks(between, other, most) || !breaks(between, other, most+1) {
				t.Errorf("%s, with another dish %v: %v at %d minutes, %v a minute later", between, other,
					breaks(between, other, most), most, breaks(between, other, most+1))
			}
		}
	}
}

// TestInstead: what else its course has, by name and in the menu's order; what is left out is not it, nor is another
// course's.
func TestInstead(t *testing.T) {
	p, _ := potful("minced beef")
	p.Courses[0].Name = "Main course"
	for _, x := range []struct {
		key    planner.DishKey
		course planner.CourseKey
	}{{"bread", "main"}, {"fool", "dessert"}, {"greens", "main"}, {"slaw", "main"}} {
		p.Dishes = append(p.Dishes, planner.Dish{Key: x.key, Name: strings.ToUpper(string(x.key)), Course: x.course})
	}
	plan := &planner.Plan{Without: []planner.LeftOut{{Dish: "greens"}}}
	for _, c := range []struct {
		p    *planner.Party
		plan *planner.Plan
		dish string
		want string
	}{
		{p, plan, "pot", "Without it the main course still has BREAD and SLAW."},
		{p, plan, "bread", "Without it the main course still has Pot and SLAW."},
		{p, nil, "pot", ""}, {p, plan, "fool", ""}, // of a course that is none
	} {
		if got := check.Instead(c.p, c.plan, c.p.Dish(planner.DishKey(c.dish))); got != c.want {
			t.Errorf("%s: %q, want %q", c.dish, got, c.want)
		}
	}
	p.Dishes = p.Dishes[:1]
	if got := check.Instead(p, plan, &p.Dishes[0]); got !=
		"For the main course there is nothing else: /repertoire list says what is quick to make." {
		t.Errorf("alone: %q", got)
	}
}
