package solve_test

import (
	"cmp"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// tinyParties are enough of both sorts, and small enough to be decided.
func tinyParties(t *testing.T, usual int, each func(seed uint64, p *planner.Party, now time.Time)) {
	t.Helper()
	for seed := range uint64(partygen.Parties(t, usual)) {
		p, now := partygen.Tiny(partygen.Seeded(1_000_000 + seed))
		each(seed, p, now)
	}
}

// answer is what Make says, without its names: whether there is a plan, and its figures as far as proved.
func answer(t *testing.T, p *planner.Party, ask solve.Ask) (plan *planner.Plan, text string) {
	t.Helper()
	plan, clash, err := solve.Make(t.Context(), p, ask)
	switch {
	case err != nil:
		return nil, "error " + err.Error()
	case plan == nil && clash.Unproved:
		return nil, "unknown"
	case plan == nil:
		return nil, "no plan"
	}
	var b strings.Builder
	for _, l := range plan.Levels {
		if l.Name != planner.Spare {
			fmt.Fprintf(&b, "%s %d %v; ", l.Name, l.Value, l.Proved)
		}
	}
	return plan, b.String()
}

func TestAnAddedHelperNeverHurts(t *testing.T) {
	t.Parallel()
	var planned, rescued, none int
	tinyParties(t, 80, func(seed uint64, p *planner.Party, now time.Time) {
		ask := solve.Ask{Now: now, FirstOnly: true}
		before, said := answer(t, p, ask)
		p.People = append(p.People, planner.Person{Key: "zoe", Name: "Zoe", Role: planner.CoHost,
			Cooks: planner.DayHours{From: 0, Until: 24 * 60}, Home: planner.DayHours{From: 0, Until: 24 * 60}})
		after, then := answer(t, p, ask)
		switch {
		case before != nil && after == nil:
			t.Errorf("seed %d: a plan without the helper, and with one %s:\n%s", seed, then, partygen.Show(before))
		case before == nil && said == "no plan" && after != nil:
			rescued++
		case before != nil:
			planned++
		default:
			none++
		}
	})
	t.Logf("%d planned with and without a helper, %d only with one, %d with neither", planned, rescued, none)
	if planned == 0 || rescued == 0 {
		t.Error("the parties are all of one sort")
	}
}

// More of anything in the kitchen makes no plan worse, level by level in their order.
func TestMoreKitchenNeverHurts(t *testing.T) {
	t.Parallel()
	grow := []func(k *planner.Kitchen){
		func(k *planner.Kitchen) { k.Burners++ },
		func(k *planner.Kitchen) { k.Ovens[0].Shelves++ },
		func(k *planner.Kitchen) { k.Ovens[0].Preheat, k.Ovens[0].Rise, k.Ovens[0].Fall = 1, 1, 1 },
		func(k *planner.Kitchen) { k.Vessels[0].Count++ },
		func(k *planner.Kitchen) { k.HotPlaces[0].Count++ },
		func(k *planner.Kitchen) { k.Refrigerator = planner.Cold{Millilitres: 9000, Flat: 5} },
		func(k *planner.Kitchen) {
			k.Ovens = append(k.Ovens, planner.Oven{Name: "neighbour's oven", Shelves: 2, MinC: 50, MaxC: 200, Preheat: 4,
				Rise: 2, Fall: 3})
		},
	}
	var same, better, rescued int
	tinyParties(t, 80, func(seed uint64, p *planner.Party, now time.Time) {
		before, said := answer(t, p, solve.Ask{Now: now})
		for i, more := range grow { // one thing, or all of them
			if chosen := seed % uint64(len(grow)+2); chosen >= uint64(len(grow)) || chosen == uint64(i) {
				more(&p.Kitchen)
			}
		}
		after, then := answer(t, p, solve.Ask{Now: now})
		switch {
		case before == nil && after != nil:
			rescued++
		case before != nil && after == nil:
			t.Errorf("seed %d: a plan (%s), and with more in the kitchen %s", seed, said, then)
		case before == nil:
		case compareProved(before, after) < 0:
			t.Errorf("seed %d: got %s, with more in the kitchen only %s", seed, said, then)
		case compareProved(before, after) > 0:
			better++
		default:
			same++
		}
	})
	t.Logf("%d plans stayed as good, %d became better, %d became possible", same, better, rescued)
	if same == 0 || better+rescued == 0 {
		t.Error("the parties are all of one sort")
	}
}

// More free time makes no plan worse, level by level in their order: people's hours on each day, and the hours of the
// days before in which work may lie.
func TestMoreFreeTimeNeverHurts(t *testing.T) {
	t.Parallel()
	longer := func(hours []planner.DayHours) (out []planner.DayHours) {
		for _, h := range hours {
			out = append(out, planner.DayHours{From: max(0, h.From-4), Until: h.Until + 4})
		}
		return out
	}
	var same, better, rescued int
	tinyParties(t, 120, func(seed uint64, p *planner.Party, now time.Time) {
		before, said := answer(t, p, solve.Ask{Now: now})
		if seed%3 != 1 {
			for i := range p.People {
				for k := range p.People[i].Days {
					d := &p.People[i].Days[k]
					d.Cooks, d.Home = longer(d.Cooks), longer(d.Home)
				}
			}
		}
		if seed%3 != 0 {
			p.WorkHours = planner.DayHours{From: 0, Until: 24 * 60}
		}
		after, then := answer(t, p, solve.Ask{Now: now})
		switch {
		case before == nil && after != nil:
			rescued++
		case before != nil && after == nil:
			t.Errorf("seed %d: a plan (%s), and with more time %s", seed, said, then)
		case before == nil:
		case compareProved(before, after) < 0:
			t.Errorf("seed %d: got %s, with more time only %s", seed, said, then)
		case compareProved(before, after) > 0:
			better++
		default:
			same++
		}
	})
	t.Logf("%d plans stayed as good, %d became better, %d became possible", same, better, rescued)
	if same == 0 || better+rescued == 0 {
		t.Error("the parties are all of one sort")
	}
}

// compareProved compares two plans' levels in their order, as far as both are proved.
func compareProved(a, b *planner.Plan) int {
	for i, x := range a.Levels {
		y := b.Levels[i]
		if !x.Proved || !y.Proved || x.Name == planner.Spare {
			return 0
		}
		if c := cmp.Compare(x.Value, y.Value); c != 0 {
			return c
		}
	}
	return 0
}

// A party a week later (no clock changes in between) has the same plan a week later.
func TestAWeekLaterChangesNothing(t *testing.T) {
	t.Parallel()
	const week = 7 * 24 * time.Hour
	planned := 0
	each := func(seed uint64, p *planner.Party, now time.Time, work int64) {
		ask := solve.Ask{Now: now, Work: work, Seed: seed}
		first, said := answer(t, p, ask)
		p.Arrival = p.Arrival.Add(week)
		for i := range p.Courses {
			for k := range p.Courses[i].Servings {
				s := &p.Courses[i].Servings[k]
				s.At = s.At.Add(week)
			}
		}
		for i := range p.People {
			for k := range p.People[i].Days {
				d := &p.People[i].Days[k]
				date, err := time.Parse(time.DateOnly, d.Date)
				if err != nil {
					t.Fatal(err)
				}
				d.Date = date.Add(week).Format(time.DateOnly)
			}
		}
		ask.Now = now.Add(week)
		then, again := answer(t, p, ask)
		if said != again {
			t.Errorf("seed %d: got %q, a week later %q", seed, said, again)
			return
		}
		if first == nil {
			return
		}
		planned++
		for i, was := range first.Tasks {
			is := then.Tasks[i]
			if was.Task != is.Task || !was.Start.Add(week).Equal(is.Start) || !was.End.Add(week).Equal(is.End) ||
				!reflect.DeepEqual(was.People, is.People) {
				t.Errorf("seed %d: got %+v, a week later %+v", seed, was, is)
			}
		}
	}
	tinyParties(t, 60, func(seed uint64, p *planner.Party, now time.Time) { each(seed, p, now, 0) })
	for seed := range uint64(partygen.Parties(t, 40)) {
		p, now := partygen.Draw(partygen.Seeded(seed), partygen.Size{Dishes: [2]int{2, 4}, People: [2]int{1, 3}})
		if month := p.Arrival.Month(); month == time.October || month == time.November {
			continue // the clocks change in between
		}
		each(seed, p, now, 50_000)
	}
	t.Logf("%d plans moved by a week", planned)
	if planned < 20 {
		t.Errorf("only %d of the parties had a plan", planned)
	}
}

// Names mean nothing: people, dishes and steps under other names have plans that are as good.
func TestOtherNamesChangeNothing(t *testing.T) {
	t.Parallel()
	planned := 0
	tinyParties(t, 120, func(seed uint64, p *planner.Party, now time.Time) {
		ask := solve.Ask{Now: now}
		first, said := answer(t, p, ask)
		rename(p)
		if problems := p.Validate(); len(problems) > 0 {
			t.Fatalf("seed %d: %+v", seed, problems)
		}
		if _, again := answer(t, p, ask); !strings.HasPrefix(said, "error") && said != again {
			t.Errorf("seed %d: got %q, under other names %q", seed, said, again)
		}
		if first != nil {
			planned++
		}
	})
	if planned < 20 {
		t.Errorf("only %d of the parties had a plan", planned)
	}
}

// rename gives everything another name, in another order of the alphabet.
func rename(p *planner.Party) {
	person := func(k *planner.PersonKey) {
		if *k != "" {
			*k = "z" + planner.PersonKey(fmt.Sprint(1000-len(*k)-int((*k)[0]))) // ana and ben change places
		}
	}
	dish := func(k *planner.DishKey) {
		if *k != "" {
			*k = planner.DishKey(fmt.Sprintf("q%d", 'z'-(*k)[len(*k)-1]))
		}
	}
	step := func(k *planner.StepKey) {
		if *k != "" {
			*k = "s" + (*k)[1:] + (*k)[:1]
		}
	}
	task := func(k *planner.TaskKey) {
		d, s, round, _, ok := k.Split()
		if ok && d != "" {
			dish(&d)
			step(&s)
			*k = planner.StepTask(d, s, round)
		}
	}
	for i := range p.People {
		person(&p.People[i].Key)
	}
	for i := range p.Dishes {
		d := &p.Dishes[i]
		dish(&d.Key)
		for j := range d.Steps {
			s := &d.Steps[j]
			step(&s.Key)
			person(&s.Who.Person)
			for k := range s.Uses {
				step(&s.Uses[k].Through)
			}
			for k := range s.After {
				dish(&s.After[k].Dish)
				step(&s.After[k].Step)
			}
		}
	}
	for i := range p.Chores {
		c := &p.Chores[i]
		person(&c.Who.Person)
		if c.From != nil {
			task(&c.From.Task)
		}
		for k := range c.By {
			task(&c.By[k].Task)
		}
	}
	for i := range p.Work {
		task(&p.Work[i].Task)
		person(&p.Work[i].Person)
	}
}
