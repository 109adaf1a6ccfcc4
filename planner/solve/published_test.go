package solve_test

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cooling"
	"tureen/planner/partygen"
	"tureen/planner/safety"
	"tureen/planner/solve"
)

// published is a rule with its source, and a dish that keeps it with one figure and breaks it with the next.
type published struct {
	rule, source string
	keeps        planner.Minutes
	set          func(p *planner.Party, n planner.Minutes)
}

// food gives the dish its ingredient, and its one step the words and the wait before service.
func food(name, do string, cooks bool, state planner.State) func(*planner.Party, planner.Minutes) {
	return func(p *planner.Party, n planner.Minutes) {
		d := &p.Dishes[0]
		d.Ingredients = []planner.Ingredient{{Name: name, Amount: "500 g", Step: "make"}}
		d.Steps[0].Do, d.Steps[0].Serve = do, &planner.Wait{State: state, Least: n}
		if cooks {
			d.Steps[0].Where, d.Steps[0].Cooks, d.Steps[0].Time = planner.Heat, true, partygen.Exactly(30)
		}
	}
}

// twice lets the dish wait, raw, on the counter before it is cooked, and again for service.
func twice(name string, before planner.Minutes) func(*planner.Party, planner.Minutes) {
	return func(p *planner.Party, n planner.Minutes) {
		d := &p.Dishes[0]
		food(name, "Roast it", true, planner.Counter)(p, n)
		d.Steps = append(d.Steps, planner.Step{Key: "bone", Do: "Bone it", Attention: planner.Hands,
			Where: planner.Counter, Time: partygen.Exactly(1)})
		d.Steps[0].After = []planner.After{{Step: "bone", Wait: planner.Wait{State: planner.Counter, Least: before}}}
		d.Ingredients[0].Step = "bone"
	}
}

func and(all ...func(*planner.Party, planner.Minutes)) func(*planner.Party, planner.Minutes) {
	return func(p *planner.Party, n planner.Minutes) {
		for _, f := range all {
			f(p, n)
		}
	}
}

func hot(p *planner.Party, _ planner.Minutes) { p.RoomTemperatureC = 33 }

func in(c safety.Country) func(*planner.Party, planner.Minutes) {
	return func(p *planner.Party, _ planner.Minutes) { p.Country = c }
}

func atRisk(p *planner.Party, _ planner.Minutes) {
	p.Guests = []planner.Guest{{Name: "Iris", Diets: []string{string(safety.Pregnant)}}}
}

// TestPublishedToTheMinute: each rule of the clocks with a plan that keeps it and one that breaks it by a minute, by
// planner and by judge: what the planner finds the judge accepts, and what it refuses it refuses for the limit.
func TestPublishedToTheMinute(t *testing.T) {
	const (
		danger = `USDA FSIS, "Danger Zone" (40F - 140F) fact sheet`
		own    = "our own margin, no source; compare FSANZ's 2-hour/4-hour guide"
		chart  = "foodsafety.gov Cold Food Storage Chart, low figure"
		day    = 24 * 60
	)
	for _, c := range []published{
		{"cooked food on the counter", danger, 120, food("chicken thighs", "Roast them", true, planner.Counter)},
		{"above 32 °C", danger, 60, and(food("chicken thighs", "Roast them", true, planner.Counter), hot)},
		{"raw food on the counter, its work included", danger, 110, food("prawns", "Dress them", false, planner.Counter)},
		{"raw, cooked: the clock begins anew", own, 120, twice("chicken thighs", 119)},
		{"fish that forms histamine: 2 h in all", "FDA Fish and Fishery Products Hazards and Controls, ch. 7, from memory",
			20,
			twice("mackerel", 99)},
		{"a guest at risk: 2 h in all", own, 20, and(twice("chicken thighs", 99), atRisk)},
		{"on its way and on the clock", danger, 40, and(food("chicken salad", "Dress it", false, planner.Counter),
			func(p *planner.Party, _ planner.Minutes) {
				p.Dishes[0].BroughtBy, p.Dishes[0].Travels, p.Dishes[0].TravelTime = "Olaf", planner.Counter, 70
			})},
		{"on its way alone", danger, 120, func(p *planner.Party, n planner.Minutes) {
			d := &p.Dishes[0]
			d.Name, d.Steps, d.BroughtBy, d.Travels, d.TravelTime = "Crab tart", nil, "Olaf", planner.Counter, n
		}},
		{"cooked food in the US", chart, 3 * day, and(food("chicken thighs", "Roast them", true, planner.Refrigerator),
			in(safety.UnitedStates))},
		{"cooked food in the UK", "Food Standards Agency", 2 * day,
			and(food("chicken thighs", "Roast them", true, planner.Refrigerator), in(safety.UnitedKingdom))},
		{"rice in the UK", "Food Standards Agency", day, and(food("rice", "Boil it", true, planner.Refrigerator),
			in(safety.UnitedKingdom))},
		{"raw mince", "foodsafety.gov Cold Food Storage Chart", 2 * day,
			food("minced beef", "Shape it", false, planner.Refrigerator)},
	} {
		for more := range planner.Minutes(2) {
			arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
			p := &planner.Party{Zone: "Europe/Paris", Arrival: arrival, Covers: 4, Kitchen: planner.HomeKitchen(), PrepDays: 6,
				Courses: []planner.Course{{Key: "main", Name: "Main", Servings: []planner.Serving{{At: arrival.Add(time.Hour)}}}},
				People:  []planner.Person{{Key: "ana", Role: planner.Host, Cooks: planner.DayHours{From: 7 * 60, Until: 23 * 60}}},
				Dishes: []planner.Dish{{Key: "dish", Name: "Dish", Course: "main", Serves: 4, Steps: []planner.Step{{Key: "make",
					Attention: planner.Hands, Where: planner.Counter, Time: partygen.Exactly(10)}}}}}
			c.set(p, c.keeps+more)
			plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: arrival.Add(-8 * day * time.Minute)})
			switch {
			case err != nil || (more == 0) != (plan != nil):
				t.Errorf("%s (%s), %d and %d min: %v, %+v, %v", c.rule, c.source, c.keeps, more, partygen.Show(plan), clash, err)
			case plan != nil:
				for _, b := range check.Plan(p, plan) {
					t.Errorf("%s (%s): %s", c.rule, c.source, b.Text)
				}
			case !clash.Requirements[0].Limit:
				t.Errorf("%s (%s): refused for %+v", c.rule, c.source, clash.Requirements)
			}
		}
	}
}

// TestCoolingToTheCentimetre: what is refused of a way of cooling, by a centimetre or a hundred grams, with its source.
func TestCoolingToTheCentimetre(t *testing.T) {
	const (
		nevada = "Southern Nevada Health District, Cool Foods Quickly and Safely"
		fsis   = "USDA FSIS, Turkey Basics: Safe Cooking; Leftovers and Food Safety"
	)
	for _, c := range []struct {
		rule, source, food, do string
		keeps, breaks          planner.Cooling
	}{
		{"thick food is 5 cm deep", nevada, "dried beans", "Simmer the stew",
			planner.Cooling{How: planner.CoolTrays, Consistency: safety.Thick, DepthCM: 5},
			planner.Cooling{How: planner.CoolTrays, Consistency: safety.Thick, DepthCM: 6}},
		{"thin food 10 cm", nevada, "chicken carcasses", "Simmer the chicken stock",
			planner.Cooling{How: planner.CoolTrays, Consistency: safety.Thin, DepthCM: 10},
			planner.Cooling{How: planner.CoolTrays, Consistency: safety.Thin, DepthCM: 11}},
		{"meat in pieces of 1.8 kg", nevada, "beef brisket", "Roast the joint",
			planner.Cooling{How: planner.CoolPieces, Consistency: safety.Thick, Grams: 1800},
			planner.Cooling{How: planner.CoolPieces, Consistency: safety.Thick, Grams: 1900}},
		{"and of 10 cm", nevada, "beef brisket", "Roast the joint",
			planner.Cooling{How: planner.CoolPieces, Consistency: safety.Thick, Grams: 1500, DepthCM: 10},
			planner.Cooling{How: planner.CoolPieces, Consistency: safety.Thick, Grams: 1500, DepthCM: 11}},
		{"birds are taken apart", fsis, "turkey", "Roast the bird",
			planner.Cooling{How: planner.CoolSliced, Consistency: safety.Thick, DepthCM: 1.5},
			planner.Cooling{How: planner.CoolAsItIs, Consistency: safety.Thick, DepthCM: 5}},
	} {
		name := "Dish"
		if _, made, ok := strings.Cut(c.do, "Simmer the "); ok {
			name = made
		}
		p := &planner.Party{Covers: 8, Kitchen: planner.HomeKitchen(), Dishes: []planner.Dish{{Key: "dish", Name: name,
			Serves: 8, Ingredients: []planner.Ingredient{{Name: c.food, Amount: "4 kg"}},
			Steps: []planner.Step{{Key: "cook", Do: c.do, Where: planner.Heat, Cooks: true, Attention: planner.Watch,
				Time: partygen.Exactly(60), Serve: &planner.Wait{State: planner.Refrigerator, Least: 720}}}}}}
		all := cooling.Of(p, &p.Dishes[0])
		if len(all) != 1 {
			t.Errorf("%s: %d foods go cold", c.rule, len(all))
			continue
		}
		c.keeps.Place, c.breaks.Place = safety.PlaceRefrigerator, safety.PlaceRefrigerator
		c.keeps.MadeOf, c.breaks.MadeOf = safety.Metal, safety.Metal
		if got := cooling.Refused(&all[0].Food, &c.keeps); got != "" {
			t.Errorf("%s (%s): refused: %s", c.rule, c.source, got)
		}
		if got := cooling.Refused(&all[0].Food, &c.breaks); got == "" {
			t.Errorf("%s (%s): not refused", c.rule, c.source)
		}
	}
}
