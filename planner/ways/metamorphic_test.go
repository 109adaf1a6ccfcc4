package ways_test

import (
	"cmp"
	"fmt"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/recipe"
	"tureen/planner/solve"
	"tureen/planner/ways"
)

// tellers are recipes of dishes of many ways, whose last sentence may be followed by a remark of the whole.
var tellers = []string{braise, soup, gratin, roast, cod, salad, cake, bread, peppers, cream,
	"Lentil stew\nServes 6\n400 g green lentils\n2 carrots, diced\n1 onion, diced\n1 l vegetable stock\n\n" +
		"Sweat the onion and the carrots for 8 minutes. Add the lentils and the stock and simmer for 35 minutes. ",
	"Lasagne\nServes 6\n500 g minced beef\n800 g tinned tomatoes\n12 lasagne sheets\n500 ml milk\n40 g flour\n40 g " +
		"butter\n" +
		"\nBrown the beef for 8 minutes, add the tomatoes and simmer for 40 minutes. Cook the butter, flour and milk to a " +
		"sauce, 8 minutes. Layer the sheets with both sauces in a dish. Bake at 180 °C for 45 minutes. "}

// planned is the plan of a party in the ways that it is made now.
func planned(t *testing.T, p *planner.Party, now time.Time) (*planner.Plan, string) {
	t.Helper()
	ways.Renew(p, now)
	plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now})
	if err != nil {
		t.Fatal(err)
	}
	if plan == nil {
		return nil, fmt.Sprintf("no plan: %+v", clash.Requirements)
	}
	return plan, fmt.Sprintf("%s %+v", p.Dishes[0].Taken, plan.Levels)
}

// worse compares two plans' first five levels in their order, as far as both are proved: positive where the second is
// worse. Which way is taken looks no further.
func worse(a, b *planner.Plan) int {
	for i, x := range a.Levels[:5] {
		y := b.Levels[i]
		if !x.Proved || !y.Proved || x.Name == planner.Spare {
			return 0
		}
		if c := cmp.Compare(y.Value, x.Value); c != 0 {
			return c
		}
	}
	return 0
}

// drawnSupper is a supper of one or two of the dishes, with hours on some of the days before.
func drawnSupper(t *testing.T, d partygen.Dice, remark string) (*planner.Party, time.Time) {
	t.Helper()
	text := tellers[d.Roll(0, len(tellers)-1)]
	p, _, now := supper(t, text+remark)
	if d.Roll(0, 1) == 1 {
		other := tellers[d.Roll(0, len(tellers)-1)]
		if r, err := recipe.Read(other); err == nil && other != text {
			dish, _ := r.Dish("main", 0)
			dish.Key += "-too"
			p.Dishes = append(p.Dishes, dish)
		}
	}
	ana := &p.People[0]
	for n := 0; n <= p.PrepDays; n++ {
		day := planner.OtherDay{Date: p.Day().AddDate(0, 0, -n).Format(time.DateOnly)}
		from := planner.Minutes(60 * d.Roll(9, 19))
		until := from + planner.Minutes(15*d.Roll(2, 16))
		if n == 0 {
			from, until = planner.Minutes(60*d.Roll(10, 16)), 23*60
		}
		if n == 0 || d.Roll(1, 3) > 1 {
			day.Cooks = []planner.DayHours{{From: from, Until: until}}
			day.Home = day.Cooks
		}
		ana.Days = append(ana.Days, day)
	}
	return p, now
}

// More free time makes no plan worse, though dishes may then be made in other ways.
func TestMoreFreeTimeNeverHurts(t *testing.T) {
	t.Parallel()
	var same, better, rescued, other int
	for seed := range uint64(partygen.Parties(t, 40)) {
		less, now := drawnSupper(t, partygen.Seeded(3_000_000+seed), "")
		more, _ := drawnSupper(t, partygen.Seeded(3_000_000+seed), "")
		for i := range more.People[0].Days {
			if day := &more.People[0].Days[i]; len(day.Cooks) > 0 && seed%2 == 0 {
				day.Cooks = []planner.DayHours{{From: day.Cooks[0].From - 60, Until: min(day.Cooks[0].Until+60, 24*60)}}
				day.Home = day.Cooks
			} else if seed%2 == 1 && len(day.Cooks) == 0 {
				day.Cooks = []planner.DayHours{{From: 18 * 60, Until: 20 * 60}}
				day.Home = day.Cooks
			}
		}
		before, said := planned(t, less, now)
		after, then := planned(t, more, now)
		if less.Dishes[0].Taken != more.Dishes[0].Taken {
			other++
		}
		switch {
		case before == nil && after == nil:
		case before == nil:
			rescued++
		case after == nil:
			t.Errorf("seed %d: %s; with more time %s", seed, said, then)
		case worse(before, after) > 0:
			t.Errorf("seed %d: %s:\n%s\nwith more time %s:\n%s", seed, said, partygen.Show(before), then, partygen.Show(after))
		case worse(before, after) < 0:
			better++
		default:
			same++
		}
	}
	t.Logf("%d plans stayed as good, %d became better, %d became possible; %d in another way", same, better, rescued,
		other)
	if same == 0 || better == 0 || other == 0 {
		t.Error("the suppers are all of one sort")
	}
}

// A recipe that says "two days ahead", or the like, is never planned later than without it.
func TestNeverLaterForARemark(t *testing.T) {
	t.Parallel()
	remarks := []string{"Can be made two days ahead.", "Can be made up to 2 days in advance.", "Make this the day before.",
		"Better the next day.", "Keeps for 3 days in the refrigerator.", "Freezes well for up to a month."}
	var earlier, same int
	for seed := range uint64(partygen.Parties(t, 40)) {
		without, now := drawnSupper(t, partygen.Seeded(4_000_000+seed), "")
		with, _ := drawnSupper(t, partygen.Seeded(4_000_000+seed), remarks[seed%uint64(len(remarks))])
		before, said := planned(t, without, now)
		after, then := planned(t, with, now)
		if before == nil || after == nil {
			if before != nil {
				t.Errorf("seed %d: %s; with the remark %s", seed, said, then)
			}
			continue
		}
		at := func(plan *planner.Plan) planner.Level {
			for _, l := range plan.Levels {
				if l.Name == planner.Ahead {
					return l
				}
			}
			return planner.Level{}
		}
		switch a, b := at(before), at(after); {
		case a.Proved && b.Proved && b.Value > a.Value:
			t.Errorf("seed %d, %q: work ahead is at %d without, at %d with it\n%s\n%s\n%s\n%s", seed,
				remarks[seed%uint64(len(remarks))], a.Value, b.Value, said, partygen.Show(before), then, partygen.Show(after))
		case b.Value < a.Value:
			earlier++
		default:
			same++
		}
	}
	t.Logf("%d plans are earlier with the remark, %d as early", earlier, same)
	if earlier == 0 || same == 0 {
		t.Error("the suppers are all of one sort")
	}
}
