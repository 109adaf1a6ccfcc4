package solve_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/propose"
	"tureen/planner/solve"
)

// fishParty is a fish on Saturday at eight, and a way to the shop that the hosts have put before an instant; marinated
// says for how many minutes the fish lies raw in the refrigerator after its first step.
func fishParty(food string, keep int, shop time.Time, raw planner.Minutes) *planner.Party {
	eight := time.Date(2026, time.November, 7, 20, 0, 0, 0, time.UTC)
	day := planner.DayHours{From: 8 * 60, Until: 22 * 60}
	return &planner.Party{Name: "Supper", Zone: "UTC", Arrival: eight.Add(-time.Hour), Covers: 4, PrepDays: 6,
		Kitchen: planner.HomeKitchen(), People: []planner.Person{{Key: "ana", Role: planner.Host, Cooks: day}},
		Courses: []planner.Course{{Key: "main", Name: "Main", Servings: []planner.Serving{{At: eight, Late: 15}}}},
		Dishes: []planner.Dish{{Key: "fish", Name: "Fish", Course: "main", Serves: 4,
			Ingredients: []planner.Ingredient{{Name: food, Amount: "1 kg", KeepDays: keep}},
			Steps: []planner.Step{{Key: "season", Do: "Season it", Attention: planner.Hands, Where: planner.Counter,
				Time: partygen.Exactly(10)}, {Key: "fry", Do: "Fry it", Attention: planner.Hands, Where: planner.Heat,
				Cooks: true, Time: partygen.Exactly(20), After: []planner.After{{Step: "season",
					Wait: planner.Wait{State: planner.Refrigerator, Least: raw, Longest: raw + 60}}},
				Serve: &planner.Wait{State: planner.Counter, Longest: 15}}}}},
		Chores: []planner.Chore{{Key: "shop", Kind: planner.Shop, Do: "Go shopping", Attention: planner.Hands, Away: true,
			Time: partygen.Exactly(30), By: []planner.Anchor{{At: &shop, Within: 60}}}}}
}

// TestKeeping: days from purchase bind a way to a shop that the hosts have put on a day (USDA FoodKeeper by
// food/shelf.tsv:
// lean fish 1 to 2 days, whole cuts of beef 3 to 5, eggs 3 weeks and more). Planner and checker agree hour by hour: the
// plan of a trip that is late enough, with the trip moved back, breaks the rule exactly where there is no plan.
func TestKeeping(t *testing.T) {
	for _, c := range []struct {
		food string
		keep int
		raw  planner.Minutes
		most planner.Minutes // from the trip's end to the first step; 0: nothing binds
	}{
		{"cod", 0, 0, 2 * 1440}, {"cod", 1, 0, 1440}, {"cod", 9, 0, 2 * 1440}, {"cod", 0, 600, 2*1440 - 670},
		{"beef", 0, 0, 5 * 1440}, {"butter", 0, 0, 0}, {"butter", 2, 0, 2 * 1440}, {"potatoes", 0, 0, 0},
	} {
		late := fishParty(c.food, c.keep, time.Date(2026, time.November, 7, 9, 0, 0, 0, time.UTC), c.raw)
		base, clash, err := solve.Make(context.Background(), late, solve.Ask{Now: late.Opens(), FirstOnly: true})
		if err != nil || base == nil {
			t.Fatalf("%s: %v %+v", c.food, err, clash)
		}
		agreed := map[bool]int{}
		for back := range 12 {
			shop := time.Date(2026, time.November, 7, 9, 0, 0, 0, time.UTC).Add(-time.Duration(back) * 12 * time.Hour)
			if h := shop.Hour(); h < 9 {
				shop = shop.Add(-time.Hour)
			}
			p := fishParty(c.food, c.keep, shop, c.raw)
			plan, clash, err := solve.Make(context.Background(), p, solve.Ask{Now: p.Opens(), FirstOnly: true})
			if err != nil {
				t.Fatal(err)
			}
			moved := *base
			moved.Made, moved.Tasks = p.Opens(), append([]planner.Placed(nil), base.Tasks...)
			use := time.Time{}
			for i := range moved.Tasks {
				if x := &moved.Tasks[i]; x.Task == planner.ChoreTask("shop") {
					x.Start, x.End = shop.Add(-30*time.Minute), shop
				} else if x.Task == planner.StepTask("fish", "season", 1) {
					use = x.Start
				}
			}
			kept := true
			for _, b := range check.Plan(p, &moved) {
				if b.Rule == check.RuleKeeping {
					kept = false
					if !strings.Contains(strings.ToLower(b.Text), c.food) {
						t.Errorf("%s is not named: %s", c.food, b.Text)
					}
				}
			}
			// The steps stand as late as they can: what they cannot keep, no plan does.
			if want := c.most == 0 || use.Sub(shop) <= c.most.Duration(); kept != want || (plan != nil) != want {
				t.Errorf("%s (%d days), bought %s before: the checker says %v, the planner %v, want %v: %+v", c.food, c.keep,
					use.Sub(shop), kept, plan != nil, want, clash)
			} else if agreed[want]++; plan != nil {
				for _, b := range check.Plan(p, plan) {
					t.Errorf("%s: a plan that breaks rule %d: %s", c.food, b.Rule, b.Text)
				}
			} else if !slices.ContainsFunc(clash.Requirements, func(r solve.Requirement) bool {
				return strings.HasPrefix(strings.ToLower(r.Text), c.food+": within ")
			}) {
				t.Errorf("%s is not named: %+v", c.food, clash.Requirements)
			}
		}
		if agreed[true] == 0 || c.most > 0 && c.most < 5*1440 && agreed[false] == 0 {
			t.Errorf("%s: %v", c.food, agreed)
		}
		for i := range late.Chores {
			late.Chores[i].Proposed = true
		}
		if len(propose.Keeping(late)) > 0 {
			t.Error("what is proposed hangs on its things already")
		}
	}
}

// TestBoughtIsAgeing: days from purchase count from the day of the trip, whoever made it and whoever proposed it: cod
// keeps for two days less 70 minutes raw to the minute, and no longer; butter has no limit.
func TestBoughtIsAgeing(t *testing.T) {
	use := time.Date(2026, time.November, 7, 19, 30, 0, 0, time.UTC) // the latest start: half an hour of steps
	for _, c := range []struct {
		what, food string
		end        time.Time
		plans      bool
	}{
		{"within two days, less what it lies raw after", "cod", use.Add(-46 * time.Hour), true},
		{"two days and an hour before", "cod", use.Add(-49 * time.Hour), false},
		{"butter, three days before", "butter", use.Add(-72 * time.Hour), true},
	} {
		for _, proposed := range []bool{false, true} {
			p := fishParty(c.food, 0, use.Add(-48*time.Hour), 0)
			p.Chores[0].Proposed = proposed
			p.Work = []planner.Work{{Task: "shop", Person: "ana", Progress: planner.Done, End: &c.end, Noted: true}}
			p.Bought = []planner.Purchase{{Item: planner.ItemOf(c.food, false), Name: c.food,
				Got: []planner.Got{{Amounts: []string{"1 kg"}, Trip: "shop"}}}}
			now := c.end.Add(time.Hour)
			plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now, FirstOnly: true})
			if err != nil || (plan != nil) != c.plans {
				t.Errorf("%s, proposed %v: %v, %+v, %v", c.what, proposed, partygen.Show(plan), clash, err)
				continue
			}
			if plan == nil {
				if !slices.ContainsFunc(clash.Requirements, func(r solve.Requirement) bool {
					return r.Limit && strings.Contains(r.Text, "Cod: within 2 days of buying")
				}) {
					t.Errorf("%s: %+v", c.what, clash.Requirements)
				}
				continue
			}
			if c.food != "cod" {
				continue
			}
			first := plan.Placed("fish/season").Start
			for _, late := range []time.Duration{0, time.Minute} { // bought so that it is just in time, and a minute sooner
				end := first.Add(-(48*60-70)*time.Minute - late)
				p.Work[0].End = &end
				for i := range plan.Tasks {
					if x := &plan.Tasks[i]; x.Task == "shop" {
						x.Start, x.End = end.Add(-30*time.Minute), end
					}
				}
				broken := 0
				for _, b := range check.Plan(p, plan) {
					if b.Rule == check.RuleKeeping {
						broken++
					}
				}
				if (broken > 0) != (late > 0) {
					t.Errorf("bought %v too early: %d breaks", late, broken)
				}
			}
		}
	}
}
