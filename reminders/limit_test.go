package reminders

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/cooling"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// beanSalad is a dish of which the beans stand on the counter from 17:00 and are mixed by Ben at 18:30, for 20:00. The
// two hours on the counter are rule 2's.
func beanSalad() (*planner.Party, *planner.Plan) {
	cooked := planner.Food{Perishable: true, Kind: safety.Cooked}
	p := &planner.Party{ID: 1, Name: "Supper", Zone: "Europe/Lisbon", Arrival: at(19, 0), Covers: 4,
		Courses: []planner.Course{{Key: "main", Name: "main", Servings: []planner.Serving{{At: at(20, 0)}}}},
		People: []planner.Person{{Key: "cleo", Name: "Cleo", Role: planner.CoHost},
			{Key: "ada", Name: "Ada", Role: planner.Host}, {Key: "ben", Name: "Ben", Role: planner.CoHost}},
		Dishes: []planner.Dish{{Key: "salad", Name: "Salad", Course: "main", Serves: 4, Steps: []planner.Step{
			{Key: "beans", Do: "Drain the beans.", Attention: planner.Hands, Where: planner.Counter, Leaves: cooked,
				Time: span(10)},
			{Key: "mix", Do: "Mix it", Attention: planner.Hands, Where: planner.Counter, Leaves: cooked, Time: span(10),
				After: []planner.After{{Step: "beans", Wait: planner.Wait{State: planner.Counter}}},
				Serve: &planner.Wait{State: planner.Counter}},
		}}}}
	return p, &planner.Plan{Made: at(8, 0), Revision: 1, Tasks: []planner.Placed{
		{Task: "salad/beans", Start: at(17, 0), End: at(17, 10), People: []planner.PersonKey{"cleo"}},
		{Task: "salad/mix", Start: at(18, 30), End: at(18, 40), People: []planner.PersonKey{"ben"}},
	}, Served: []planner.Served{{Course: "main", At: at(20, 0)}}}
}

func doneAt(k planner.TaskKey, from, to time.Time) planner.Work {
	return planner.Work{Task: k, Progress: planner.Done, Start: &from, End: &to}
}

// atLimitOf are the messages about food at its limit, each as when, to whom, which buttons and what it says.
func atLimitOf(t *testing.T, p *planner.Party, plan *planner.Plan) []string {
	t.Helper()
	v := see(p, plan)
	var out []string
	for _, r := range append(v.atLimits(), v.notCold()...) {
		if r.Kind != AtLimit || r.Key != "limit/"+string(r.Task)+"/"+string(r.Person) || !r.Until.Equal(r.At.Add(time.Hour)) {
			t.Errorf("%+v", r)
		}
		var do []string
		for _, b := range r.Buttons {
			do = append(do, b.Do)
		}
		out = append(out, r.Due.In(v.zone).Format("15:04 ")+string(r.Person)+" "+r.At.In(v.zone).Format("15:04 ")+
			strings.Join(do, ", ")+"|"+words.PlainStamps(r.Text))
	}
	return out
}

// TestAtLimits: food that was made, and that nobody has gone on with, is asked about five minutes before its two hours
// are over, of who is to go on and of the first host; at its limit itself where the next task's own reminder came then.
func TestAtLimits(t *testing.T) {
	const next, go1 = "Has “Mix it” begun? Salad waits for it on the counter, and nobody has ticked it off.\n",
		"Go on with it or put it into the refrigerator by then; what has stood longer throw away, " +
			"unless you know that it was in the cold."
	const mix = "task start task:salad/mix party:1, task done task:salad/mix party:1|"
	beans := doneAt("salad/beans", at(17, 0), at(17, 10))
	mixed := doneAt("salad/mix", at(18, 30), at(18, 40))
	for _, c := range []struct {
		what  string
		set   func(p *planner.Party, plan *planner.Plan)
		begin []string // of each message
		says  []string // in each
	}{
		{"nothing is done", func(p *planner.Party, _ *planner.Plan) { p.Work = nil }, nil, nil},
		{"the beans wait", func(*planner.Party, *planner.Plan) {}, []string{"18:55 ben 19:00 ", "18:55 ada 19:00 "},
			[]string{mix, next, "By what was ticked off the food is at its limit there at 19:00", "at most 2 h (USDA", go1,
				"For the main there is nothing else"}},
		{"as planned", func(p *planner.Party, _ *planner.Plan) { p.Work[0].Assumed = true },
			[]string{"18:55 ben 19:00 ", "18:55 ada 19:00 "},
			[]string{"Nobody said since when it has stood; by the plan the food is at its limit"}},
		{"mixed ten minutes before the limit", func(_ *planner.Party, plan *planner.Plan) {
			plan.Tasks[1].Start = at(18, 50)
		},
			[]string{"18:55 ben 19:00 ", "18:55 ada 19:00 "}, nil},
		{"mixed nine minutes before the limit", func(_ *planner.Party, plan *planner.Plan) {
			plan.Tasks[1].Start = at(18, 51)
		},
			[]string{"19:00 ben 19:00 ", "19:00 ada 19:00 "}, nil},
		{"the host goes on", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks[1].People = []planner.PersonKey{"ada"} },
			[]string{"18:55 ada 19:00 "}, nil},
		{"nobody goes on", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks[1].People = nil },
			[]string{"18:55 ada 19:00 "}, nil},
		{"no host", func(p *planner.Party, _ *planner.Plan) { p.People = p.People[2:] }, []string{"18:55 ben 19:00 "}, nil},
		{"mixed", func(p *planner.Party, _ *planner.Plan) { p.Work = append(p.Work, mixed) },
			[]string{"18:55 ben 19:00 |", "18:55 ada 19:00 |"},
			[]string{"Is Salad on the table? It waits on the counter for that.\n", "Serve it or put it into the refrigerator"}},
		{"mixed late, at its own time", func(p *planner.Party, plan *planner.Plan) {
			p.Work, plan.Tasks[1].Start = append(p.Work, mixed), at(18, 52)
		}, []string{"18:55 ben 19:00 |", "18:55 ada 19:00 |"}, nil},
		{"begun", func(p *planner.Party, _ *planner.Plan) {
			p.Work = append(p.Work, planner.Work{Task: "salad/mix", Progress: planner.Started})
		}, nil, nil},
		{"left out", func(_ *planner.Party, plan *planner.Plan) {
			plan.Without = []planner.LeftOut{{Dish: "salad"}}
		}, nil, nil},
		{"not in the plan", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks = plan.Tasks[:1] }, nil, nil},
		{"long eaten", func(_ *planner.Party, plan *planner.Plan) { plan.Served[0].At = at(12, 0) }, nil, nil},
		{"something else", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes = append(p.Dishes, planner.Dish{Key: "bread", Name: "Bread", Course: "main"},
				planner.Dish{Key: "fool", Name: "Fool", Course: "dessert"})
		}, []string{"18:55 ben 19:00 ", "18:55 ada 19:00 "}, []string{"Without it the main still has Bread."}},
		{"else the one left out", func(p *planner.Party, plan *planner.Plan) {
			p.Dishes = append(p.Dishes, planner.Dish{Key: "bread", Name: "Bread", Course: "main"})
			plan.Without = []planner.LeftOut{{Dish: "bread"}}
		}, []string{"18:55 ben 19:00 ", "18:55 ada 19:00 "}, []string{"For the main there is nothing else"}},
	} {
		p, plan := beanSalad()
		p.Work = []planner.Work{beans}
		c.set(p, plan)
		got := atLimitOf(t, p, plan)
		if len(got) != len(c.begin) {
			t.Errorf("%s: %d messages, want %d: %q", c.what, len(got), len(c.begin), got)
			continue
		}
		for i, text := range got {
			if !strings.HasPrefix(text, c.begin[i]) {
				t.Errorf("%s: got %q, want it to begin %q", c.what, text, c.begin[i])
			}
			for _, part := range c.says {
				if !strings.Contains(text, part) {
					t.Errorf("%s: %q lacks %q", c.what, text, part)
				}
			}
		}
	}
}

// TestNotCold: cooked food that goes into the cold is asked about five minutes before its two hours out of it are over.
func TestNotCold(t *testing.T) {
	const buttons = "task start task:cool-pear-tart-bake party:1, task done task:cool-pear-tart-bake party:1|"
	for _, c := range []struct {
		what string
		set  func(p *planner.Party, plan *planner.Plan)
		want []string
	}{
		{"it stands there", func(*planner.Party, *planner.Plan) {}, []string{"20:10 ben 20:15 ", "20:10 ada 20:15 "}},
		{"somebody is at it", func(p *planner.Party, plan *planner.Plan) {
			p.Work = append(p.Work, planner.Work{Task: plan.Tasks[4].Task, Progress: planner.Started})
		}, nil},
		{"it is done", func(p *planner.Party, plan *planner.Plan) {
			p.Work = append(p.Work, planner.Work{Task: plan.Tasks[4].Task, Progress: planner.Done})
		}, nil},
		{"somebody has left it", func(p *planner.Party, plan *planner.Plan) {
			p.Work = append(p.Work, planner.Work{Task: plan.Tasks[4].Task, Progress: planner.Skipped})
		}, nil},
		{"it was taken as left by itself", func(p *planner.Party, plan *planner.Plan) {
			p.Work = append(p.Work, planner.Work{Task: plan.Tasks[4].Task, Progress: planner.Skipped, Assumed: true})
		}, nil},
		{"claimed alone", func(p *planner.Party, plan *planner.Plan) {
			p.Work = append(p.Work, planner.Work{Task: plan.Tasks[4].Task, Person: "ben"})
		}, []string{"20:10 ben 20:15 ", "20:10 ada 20:15 "}},
		{"not baked", func(p *planner.Party, _ *planner.Plan) { p.Work = nil }, nil},
		{"left out", func(_ *planner.Party, plan *planner.Plan) {
			plan.Without = []planner.LeftOut{{Dish: "pear-tart"}}
		}, nil},
		{"not in the plan", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks = plan.Tasks[:4] }, nil},
		{"no such task", func(p *planner.Party, _ *planner.Plan) { p.Chores = p.Chores[:1] }, nil},
		{"little", func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Steps[2].Leaves.Millilitres = 1200 }, nil},
		{"straight to the table", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].Serve.State = planner.Counter
		}, nil},
	} {
		p, plan := tart()
		d := &p.Dishes[0]
		bake := &d.Steps[2]
		d.Name, bake.Do, bake.Serve.State = "Leek stew", "Bake the leeks", planner.Refrigerator
		bake.Leaves = planner.Food{Perishable: true, Kind: safety.Cooked, Millilitres: 4000}
		key := cooling.Key(d.Key, bake.Key)
		p.Chores = append(p.Chores, planner.Chore{Key: key, Kind: planner.Cool, Do: "Put it into shallow trays",
			Attention: planner.Hands, Time: span(10), From: &planner.Anchor{Task: "pear-tart/bake", Within: 30}})
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.ChoreTask(key), Start: at(18, 20), End: at(18, 30),
			People: []planner.PersonKey{"ben"}})
		p.Work = []planner.Work{doneAt("pear-tart/bake", at(17, 30), at(18, 15))}
		c.set(p, plan)
		got := slices.DeleteFunc(atLimitOf(t, p, plan), func(s string) bool { return strings.Contains(s, "Is Leek stew on") })
		if len(got) != len(c.want) {
			t.Errorf("%s: %d messages, want %d: %q", c.what, len(got), len(c.want), got)
			continue
		}
		for i, text := range got {
			for _, part := range []string{c.want[i], buttons, "Is Leek stew in the cold? Nobody has ticked it off.\n",
				"Its 2 h out of it (USDA", "end at 20:15: put it into the refrigerator by then"} {
				if !strings.Contains(text, part) {
					t.Errorf("%s: %q lacks %q", c.what, text, part)
				}
			}
		}
	}
}

// TestOutdatedSaysFive: the host hears of five rules that break, and of how many more there are.
func TestOutdatedSaysFive(t *testing.T) {
	for n, more := range map[int]string{1: "", 5: "", 6: "and 1 more", 8: "and 3 more"} {
		p, plan := beanSalad()
		plan.Tables, plan.Outdated = "new", &planner.Outdated{At: at(18, 30)}
		for i := range n {
			plan.Outdated.Breaks = append(plan.Outdated.Breaks, "break "+string(rune('a'+i)))
		}
		r := find(t, For(p, plan), "tables/new")
		lines := strings.Split(r.Text, "\n")
		want := min(n, 5) + 1
		if more != "" {
			want++
		}
		if len(lines) != want || more != "" && lines[want-1] != more || lines[1] != "break a" || r.Person != "ada" ||
			!r.Due.Equal(at(18, 30)) || !r.Until.Equal(at(19, 30)) || !r.At.Equal(r.Due) {
			t.Errorf("%d: %+v", n, r)
		}
		plan.Outdated.At = at(9, 0)
		if r := find(t, For(p, plan), "tables/new"); !r.Until.Equal(p.Arrival) {
			t.Errorf("found in the morning: it is of use until %v", r.Until)
		}
	}
	p, plan := beanSalad()
	plan.Outdated = &planner.Outdated{At: at(18, 30), Breaks: []string{"a"}}
	p.People[1].Role = planner.CoHost
	if got := see(p, plan).outdated(); len(got) > 0 {
		t.Errorf("there is no host: %+v", got)
	}
}
