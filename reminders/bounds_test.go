package reminders

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// bounds writes down what bounds a task, as "16:30 what happens then", without the stamps.
type bounds struct {
	zone *time.Location
	list []string
}

func (b *bounds) add(end time.Time, then string) {
	b.list = append(b.list, end.In(b.zone).Format("15:04 ")+words.PlainStamps(then))
}

// boundsOf is what one of the ways to bound a task says.
func boundsOf(p *planner.Party, plan *planner.Plan, ask func(v *view, add func(time.Time, string))) []string {
	v := see(p, plan)
	b := &bounds{zone: v.zone}
	ask(v, b.add)
	return b.list
}

// TestBoundByFollowers: what comes after a step, whichever dish it is of, has to start in time, its shortest wait
// counted; with FromStart that runs from the step's start.
func TestBoundByFollowers(t *testing.T) {
	const late = `"Bake the tart" comes late (Pear tart, dessert)`
	for _, c := range []struct {
		name string
		do   func(p *planner.Party, plan *planner.Plan)
		want []string
	}{
		{"as it is", func(*planner.Party, *planner.Plan) {}, []string{"17:30 " + late}},
		{"a shortest wait", func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Steps[2].After[0].Wait.Least = 15 },
			[]string{"17:15 " + late}},
		{"from its start", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].After[0].FromStart, p.Dishes[0].Steps[2].After[0].Wait.Least = true, 30
		}, []string{"17:20 " + late}}, // it starts by 17:00, and takes 20 minutes
		{"not in the plan", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks = plan.Tasks[:3] }, nil},
		{"another dish's step of that name", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].After[0].Dish = "other"
		}, nil},
		{"its own dish, named", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].After[0].Dish = "pear-tart"
		}, []string{"17:30 " + late}},
		{"another dish that goes on with it", func(p *planner.Party, plan *planner.Plan) {
			p.Dishes = append(p.Dishes, planner.Dish{Key: "sauce", Name: "Sauce", Course: "dessert", Serves: 8,
				Steps: []planner.Step{{Key: "stir", Do: "Stir", Attention: planner.Hands, Time: span(5),
					After: []planner.After{{Dish: "pear-tart", Step: "roll", Wait: planner.Wait{State: planner.Counter}}}}}})
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: "sauce/stir", Start: at(20, 0), End: at(20, 5),
				People: []planner.PersonKey{"ada"}})
		}, []string{"17:30 " + late, `20:00 "Stir" comes late (Sauce, dessert)`}},
		{"another dish with the same steps", func(p *planner.Party, _ *planner.Plan) {
			twin := p.Dishes[0]
			twin.Key = "plum-tart"
			p.Dishes = append(p.Dishes, twin)
		}, []string{"17:30 " + late}},
		{"straight on: as far as that can go", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].After[0].Wait.State = planner.Straight
		}, []string{"19:45 dessert would be late"}},
	} {
		p, plan := tart()
		c.do(p, plan)
		got := boundsOf(p, plan, func(v *view, add func(time.Time, string)) {
			v.boundByFollowers(&v.p.Dishes[0], &v.p.Dishes[0].Steps[1], longestChain,
				func(end time.Time, then string, _ bool) { add(end, then) })
		})
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// TestLongChains: a chain of steps that go straight on is followed for as many steps as it may be long, and what is
// beyond that bounds it as if it could not move.
func TestLongChains(t *testing.T) {
	for _, steps := range []int{2, longestChain + 1, longestChain + 2, longestChain + 3} {
		p, plan := tart()
		p.Chores, plan.Tasks = nil, nil
		d := &p.Dishes[0]
		d.Steps = nil
		for n := range steps {
			s := planner.Step{Key: planner.StepKey(fmt.Sprintf("s%d", n)), Do: fmt.Sprintf("Do %d", n),
				Attention: planner.Unattended, Time: span(5)}
			if n > 0 {
				s.After = []planner.After{{Step: planner.StepKey(fmt.Sprintf("s%d", n-1)),
					Wait: planner.Wait{State: planner.Straight}}}
			}
			d.Steps = append(d.Steps, s)
			start := at(16, 5*n)
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.StepTask(d.Key, s.Key, 1), Start: start,
				End: start.Add(5 * time.Minute), People: []planner.PersonKey{"ada"}})
		}
		v := see(p, plan)
		first := &plan.Tasks[0]
		last, then := v.lastStart(v.tasks[first.Task], first)
		want, why := at(21, -5*steps), "dessert would be late"
		if steps > longestChain+1 {
			want, why = first.Start, "comes late"
		}
		if !last.Equal(want) || !strings.Contains(then, why) {
			t.Errorf("%d steps: the first by %v, then %q, want %v", steps, last, then, want)
		}
	}
}

// TestBoundByFood: food waits no longer than its wait allows, than is worth it, and than what is published for the
// counter: 2 hours, or 1 above 32 °C (USDA FSIS, from memory).
func TestBoundByFood(t *testing.T) {
	// The pastry is rubbed until 10:20 and rolled, for 20 minutes, at 16:00. All its stays count for the published limit:
	// 4 h 35 min more until it is served.
	for _, c := range []struct {
		name       string
		wait       planner.Wait
		perishable bool
		roomC      int
		want       string // when the rolling ends at the latest; with a star for the published limit's sake
	}{
		{"two days in the refrigerator", planner.Wait{State: planner.Refrigerator}, true, 0, "10:40*"},
		{"a longest wait", planner.Wait{State: planner.Refrigerator, Longest: 400}, true, 0, "17:20 10:40*"},
		{"worth it until", planner.Wait{State: planner.Refrigerator, WorthUntil: 400}, false, 0, "17:20"},
		{"the shorter of both", planner.Wait{State: planner.Refrigerator, Longest: 400, WorthUntil: 360}, false, 0, "16:40"},
		{"the shorter of both, the other way", planner.Wait{State: planner.Refrigerator, Longest: 360, WorthUntil: 400},
			false, 0,
			"16:40"},
		{"on the counter", planner.Wait{State: planner.Counter}, true, 0, "08:05*"},
		{"kept warm", planner.Wait{State: planner.Warm}, true, 0, "08:05*"},
		{"on the counter, nothing that perishes", planner.Wait{State: planner.Counter}, false, 0, ""},
		{"on a hot day", planner.Wait{State: planner.Counter}, true, 33, "07:05*"},
		{"on a warm day", planner.Wait{State: planner.Counter}, true, 32, "08:05*"},
		{"shorter than published", planner.Wait{State: planner.Counter, Longest: 90}, true, 0, "12:10 08:05*"},
		{"longer than published", planner.Wait{State: planner.Counter, Longest: 150}, true, 0, "13:10 08:05*"},
		{"once more", planner.Wait{State: planner.Counter, Longest: 90}, true, 0, "12:10 08:05*"},
	} {
		p, plan := tart()
		p.RoomTemperatureC = c.roomC
		steps := p.Dishes[0].Steps
		steps[0].Leaves.Perishable, steps[1].After[0].Wait = c.perishable, c.wait
		got := boundsOf(p, plan, func(v *view, add func(time.Time, string)) {
			v.boundByFood(&v.p.Dishes[0], &v.p.Dishes[0].Steps[1], v.at["pear-tart/roll"], add)
		})
		var want []string
		for at := range strings.FieldsSeq(c.want) {
			if at, published := strings.CutSuffix(at, "*"); published {
				want = append(want, at+" its food would pass a published limit")
			} else {
				want = append(want, at+" the pastry would have waited longer than it may")
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: got %q, want %q", c.name, got, want)
		}
	}
}

// TestBoundByServing: a step that nothing comes after is served, and so is one that says so; both by each serving of
// their own course.
func TestBoundByServing(t *testing.T) {
	for _, c := range []struct {
		name string
		step int
		do   func(p *planner.Party, plan *planner.Plan)
		want []string
	}{
		{"it says so", 2, func(*planner.Party, *planner.Plan) {}, []string{"20:30"}},
		{"nothing comes after", 2, func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Steps[2].Serve = nil },
			[]string{"21:00"}},
		{"something comes after", 1, func(*planner.Party, *planner.Plan) {}, nil},
		{"something comes after its start alone", 1, func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].After[0].FromStart = true
		}, []string{"21:00"}},
		{"another dish comes after", 1, func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].After = nil
			p.Dishes = append(p.Dishes, planner.Dish{Key: "x", Steps: []planner.Step{{Key: "y",
				After: []planner.After{{Dish: "pear-tart", Step: "roll"}}}}})
		}, nil},
		{"another dish has such steps", 2, func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].Serve = nil
			p.Dishes = append(p.Dishes, planner.Dish{Key: "x", Steps: []planner.Step{{Key: "y",
				After: []planner.After{{Step: "bake"}}}}})
		}, []string{"21:00"}},
		{"two groups, and another course", 2, func(_ *planner.Party, plan *planner.Plan) {
			plan.Served = append(plan.Served, planner.Served{Course: "main", At: at(19, 0)},
				planner.Served{Course: "dessert", Group: "toddlers", At: at(20, 0)})
		}, []string{"20:30", "19:30"}},
	} {
		p, plan := tart()
		c.do(p, plan)
		got := boundsOf(p, plan, func(v *view, add func(time.Time, string)) {
			v.boundByServing(&v.p.Dishes[0], &v.p.Dishes[0].Steps[c.step], add)
		})
		for i := range got {
			got[i] = strings.TrimSuffix(got[i], " dessert would be late")
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// TestBoundByPeople: hands end within their people's hours, a charge begins in them; and who is wanted next, for work
// with hands or to be in charge, is not kept longer.
func TestBoundByPeople(t *testing.T) {
	const hours = "Ada has no more time for it that day"
	next := func(a planner.Attention, start time.Time, who ...planner.PersonKey) func(*planner.Party, *planner.Plan) {
		return func(p *planner.Party, plan *planner.Plan) {
			p.Chores = append(p.Chores, planner.Chore{Key: "next", Do: "Do the next", Attention: a, Time: span(10)})
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: "next", Start: start,
				End: start.Add(10 * time.Minute), People: who})
		}
	}
	both := func(fs ...func(*planner.Party, *planner.Plan)) func(*planner.Party, *planner.Plan) {
		return func(p *planner.Party, plan *planner.Plan) {
			for _, f := range fs {
				f(p, plan)
			}
		}
	}
	rolling := func(do func(*planner.Step)) func(*planner.Party, *planner.Plan) {
		return func(p *planner.Party, _ *planner.Plan) { do(&p.Dishes[0].Steps[1]) }
	}
	watch := rolling(func(s *planner.Step) { s.Attention = planner.Watch })
	away := rolling(func(s *planner.Step) { s.Attention, s.Away = planner.Unattended, true })
	for _, c := range []struct {
		name string
		do   func(*planner.Party, *planner.Plan)
		want []string
	}{
		{"hands", func(*planner.Party, *planner.Plan) {}, []string{"22:00 " + hours}},
		{"in charge of a watch", watch, []string{"22:19 " + hours}}, // it begins at 21:59 at the latest
		{"outside the hours", func(p *planner.Party, _ *planner.Plan) {
			p.People[0].Cooks.From = 16*60 + 1
		}, nil},
		{"from the first minute of the hours", func(p *planner.Party, _ *planner.Plan) {
			p.People[0].Cooks.From = 16 * 60
		}, []string{"22:00 " + hours}},
		{"of two, both have hours", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("pear-tart/roll").People = []planner.PersonKey{"ada", "ben"}
		}, []string{"22:00 " + hours, "22:00 Ben has no more time for it that day"}},
		{"of two at a watch, one is in charge", both(watch, func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("pear-tart/roll").People = []planner.PersonKey{"ada", "ben"}
		}), []string{"22:19 " + hours}},
		{"wanted next", next(planner.Hands, at(16, 20), "ben", "ada"),
			[]string{"22:00 " + hours, `16:20 Ada is wanted for "Do the next"`}},
		{"wanted before it ends", next(planner.Hands, at(16, 19), "ada"), []string{"22:00 " + hours}},
		{"another is wanted", next(planner.Hands, at(17, 0), "ben"), []string{"22:00 " + hours}},
		{"wanted for no hands", next(planner.Watch, at(17, 0), "ada"), []string{"22:00 " + hours}},
		{"away: wanted to be in charge", both(away, next(planner.Watch, at(17, 0), "ada", "ben")),
			[]string{"22:19 " + hours, `17:00 Ada is wanted for "Do the next"`}},
		{"away: another is in charge", both(away, next(planner.Watch, at(17, 0), "ben", "ada")),
			[]string{"22:19 " + hours}},
		{"no hands: wanted next", both(watch, next(planner.Hands, at(17, 0), "ada")), []string{"22:19 " + hours}},
	} {
		p, plan := tart()
		c.do(p, plan)
		got := boundsOf(p, plan, func(v *view, add func(time.Time, string)) {
			v.boundByPeople(v.tasks["pear-tart/roll"], v.at["pear-tart/roll"], add)
		})
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// TestBoundByEquipment: who wants a thing next gets it in time, an oven with its change of setting; not where the
// kitchen has enough for both.
func TestBoundByEquipment(t *testing.T) {
	pot := planner.Held{What: planner.AVessel, Name: "pot", Amount: 1}
	hot := planner.Held{What: planner.AnOven, Name: "oven", Amount: 1, C: 180}
	for _, c := range []struct {
		name        string
		held, then  planner.Held
		from        time.Time // when the next takes it
		pots        int
		end         time.Time // until when the first is held; its task ends at 18:15
		others      int       // more of it that others hold meanwhile
		want        string
		missing     bool // the next is no task any more
		shelves     int
		sameSetting bool
	}{
		{name: "the only one", held: pot, then: pot, from: at(19, 0), pots: 1, end: at(18, 15), want: "19:00"},
		{name: "at once", held: pot, then: pot, from: at(18, 15), pots: 1, end: at(18, 15), want: "18:15"},
		{name: "taken before", held: pot, then: pot, from: at(18, 14), pots: 1, end: at(18, 15)},
		{name: "enough for both", held: pot, then: pot, from: at(19, 0), pots: 2, end: at(18, 15)},
		{name: "enough, but for others", held: pot, then: pot, from: at(19, 0), pots: 2, end: at(18, 15), others: 1,
			want: "19:00"},
		{name: "enough for all", held: pot, then: pot, from: at(19, 0), pots: 3, end: at(18, 15), others: 1},
		{name: "given back before the end", held: pot, then: pot, from: at(19, 0), pots: 1, end: at(18, 5),
			want: "19:10"},
		{name: "given back later", held: pot, then: pot, from: at(19, 0), pots: 1, end: at(18, 16)},
		{name: "no task any more", held: pot, then: pot, from: at(19, 0), pots: 1, end: at(18, 15), missing: true},
		// 20 degrees more, at 20 minutes for 50, take 8
		{name: "another oven setting", held: hot, then: hot, from: at(19, 0), end: at(18, 15), want: "18:52", shelves: 2},
		{name: "the same setting, with shelves", held: hot, then: hot, from: at(19, 0), end: at(18, 15), shelves: 2,
			sameSetting: true},
		{name: "the same setting, without", held: hot, then: hot, from: at(19, 0), end: at(18, 15), shelves: 1,
			sameSetting: true, want: "19:00"},
	} {
		p, plan := tart()
		p.Kitchen.Vessels = []planner.Ware{{Name: "lid", Count: 9}, {Name: "pot", Count: c.pots}}
		p.Kitchen.Ovens = []planner.Oven{{Name: "oven", Shelves: c.shelves, MinC: 50, MaxC: 250, Preheat: 15, Rise: 20,
			Fall: 20}}
		p.Chores = append(p.Chores, planner.Chore{Key: "next", Do: "Do the next", Time: span(10)})
		if !c.sameSetting && c.then.C > 0 {
			c.then.C = 200
		}
		bake := plan.Placed("pear-tart/bake")
		c.held.From, c.held.To = bake.Start, c.end
		c.then.From, c.then.To = c.from, c.from.Add(10*time.Minute)
		bake.Uses = []planner.Held{c.held}
		lid := planner.Held{What: planner.AVessel, Name: "lid", Amount: 1, From: c.from, To: c.then.To}
		next := planner.Placed{Task: "next", Start: c.from, End: c.then.To, Uses: []planner.Held{lid, c.then}}
		if c.missing {
			next.Task = "gone"
		}
		plan.Tasks = append(plan.Tasks, next)
		for range c.others {
			o := c.then
			o.From, o.To = c.from, c.from.Add(time.Minute)
			before := o
			before.From, before.To = c.from.Add(-time.Minute), c.from // back by then
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: "other", Uses: []planner.Held{o, before}})
		}
		got := boundsOf(p, plan, func(v *view, add func(time.Time, string)) {
			v.boundByEquipment(v.at["pear-tart/bake"], add)
		})
		var want []string
		if c.want != "" {
			want = []string{fmt.Sprintf(`%s the %s is wanted for "Do the next"`, c.want, c.held.Name)}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: got %q, want %q", c.name, got, want)
		}
	}
}

// TestBoundByCooling: a chore that puts this step's food into the cold goes on after it, and can wait as long as its
// food may stand; no other chore, and none that is not in the plan or beyond the longest chain.
func TestBoundByCooling(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(p *planner.Party, plan *planner.Plan)
		chain  int
		want   string
	}{
		{"as it is", nil, 1, `18:15 "Put it into the cold" comes late`},
		{"five minutes after it", func(p *planner.Party, _ *planner.Plan) { p.Chores[1].From.Offset = 5 }, 1,
			`18:15 "Put it into the cold" comes late`},
		{"the chain is at its end", nil, 0, ""},
		{"another chore", func(p *planner.Party, _ *planner.Plan) { p.Chores[1].Kind = planner.Other }, 1, ""},
		{"after nothing", func(p *planner.Party, _ *planner.Plan) { p.Chores[1].From = nil }, 1, ""},
		{"after another step", func(p *planner.Party, _ *planner.Plan) { p.Chores[1].From.Task = "pear-tart/roll" }, 1, ""},
		{"not in the plan", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks = plan.Tasks[:4] }, 1, ""},
	} {
		p, plan := tart()
		p.Chores = append(p.Chores, planner.Chore{Key: "cool", Kind: planner.Cool, Do: "Put it into the cold",
			Attention: planner.Hands, Time: span(10), From: &planner.Anchor{Task: "pear-tart/bake", Within: 10}})
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: "cool", Start: at(18, 15), End: at(18, 25),
			People: []planner.PersonKey{"ben"}})
		if c.change != nil {
			c.change(p, plan)
		}
		d := &p.Dishes[0]
		got := strings.Join(boundsOf(p, plan, func(v *view, add func(time.Time, string)) {
			v.boundByCooling(d, &d.Steps[2], c.chain, add)
		}), "; ")
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
