package solve

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cp"
	"tureen/planner/partygen"
)

// modelOf is the model of a party.
func modelOf(t *testing.T, p *planner.Party, ask Ask) *model {
	t.Helper()
	g, err := newGraph(p, ask)
	if err != nil {
		t.Fatal(err)
	}
	return newModel(g, false, nil)
}

// shown is a plan's tasks and servings, one a line, without the order of what a task holds.
func shown(plan *planner.Plan) []string {
	var out []string
	for _, t := range plan.Tasks {
		var uses []string
		for _, u := range t.Uses {
			uses = append(uses, fmt.Sprintf("%s %s ×%d %d °C %s-%s", u.What, u.Name, u.Amount, u.C, u.From.Format("15:04"),
				u.To.Format("15:04")))
		}
		slices.Sort(uses)
		out = append(out, fmt.Sprintf("%s %s-%s %v %s", t.Task, t.Start.Format("02 15:04:05"), t.End.Format("02 15:04:05"),
			t.People, strings.Join(uses, ", ")))
	}
	for _, s := range plan.Served {
		out = append(out, fmt.Sprintf("%s %s %s", s.Course, s.Group, s.At.Format("02 15:04:05")))
	}
	return out
}

// TestAPlanComesBack: a plan that is put into the model and read back is the same plan: times, people with the one in
// charge first, ovens with their settings, what waits hold, and servings.
func TestAPlanComesBack(t *testing.T) {
	settle := func(p *planner.Party, plan *planner.Plan, k planner.TaskKey, progress planner.Progress) {
		pl := plan.Placed(k)
		start, end := pl.Start, pl.End
		w := planner.Work{Task: k, Progress: progress, Start: &start}
		if progress == planner.Done {
			w.End = &end
		}
		p.Work = append(p.Work, w)
	}
	for _, c := range []struct {
		name string
		do   func(p *planner.Party, plan *planner.Plan) time.Time // when it is made
	}{
		{"before anything", func(_ *planner.Party, plan *planner.Plan) time.Time { return plan.Made }},
		{"a second before the minute", func(_ *planner.Party,
			plan *planner.Plan) time.Time {
			return plan.Made.Add(-time.Second)
		}},
		{"another in charge", func(_ *planner.Party, plan *planner.Plan) time.Time {
			plan.Placed("soup/chop").People = []planner.PersonKey{"cleo", "ana"}
			return plan.Made
		}},
		{"another in charge, who has claimed it", func(p *planner.Party, plan *planner.Plan) time.Time {
			plan.Placed("table").People = []planner.PersonKey{"cleo", "ana"}
			p.Work = append(p.Work, planner.Work{Task: "table", Person: "cleo"})
			return plan.Made
		}},
		{"one of two is enough", func(p *planner.Party, plan *planner.Plan) time.Time {
			pl := plan.Placed("table")
			pl.People, pl.End = []planner.PersonKey{"cleo"}, pl.Start.Add(30*time.Minute)
			return plan.Made
		}},
		{"the last day, under way", func(p *planner.Party, plan *planner.Plan) time.Time {
			for _, k := range []planner.TaskKey{"shopping", "soup/chop", "soup/simmer", "soup/blend", "tart/dough",
				"sorbet/freeze",
				"tart/bake", "tart/custard", "tart/fill"} {
				settle(p, plan, k, planner.Done)
			}
			settle(p, plan, "tart/chill", planner.Started)
			return plan.Placed("tart/chill").Start.Add(5 * time.Minute)
		}},
		{"another temperature", func(_ *planner.Party, plan *planner.Plan) time.Time {
			plan.Placed("braise/braise").Uses[0].C = 155
			return plan.Made
		}},
		{"another oven", func(p *planner.Party, plan *planner.Plan) time.Time {
			plan.Placed("tart/bake").Uses[0].Name = "small oven"
			return plan.Made
		}},
		{"the second group a quarter of an hour later", func(p *planner.Party, plan *planner.Plan) time.Time {
			plan.Served[2].At = plan.Served[2].At.Add(10 * time.Minute)
			u := plan.Placed("braise/braise").Uses
			u[1].To = u[1].To.Add(10 * time.Minute)
			return plan.Made
		}},
	} {
		p, plan := partygen.Rich()
		now := c.do(p, plan)
		plan.Made = now
		if now.Second() != 0 {
			plan.Made = now.Truncate(time.Minute).Add(time.Minute)
		}
		if broken := check.Plan(p, plan); len(broken) > 0 {
			t.Fatalf("%s: %+v", c.name, broken)
		}
		m := modelOf(t, p, Ask{Now: now, InForce: plan})
		v := m.values(plan)
		if err := cp.Check(&m.cp, v); err != nil {
			t.Errorf("%s: the model refuses it: %v", c.name, err)
		}
		got := m.plan(v)
		for _, pl := range plan.Tasks { // of what is over it is not asked who held what
			if w := p.WorkOn(pl.Task); w != nil && w.Progress == planner.Done {
				if g := got.Placed(pl.Task); g == nil || !g.Start.Equal(pl.Start) || !g.End.Equal(pl.End) {
					t.Errorf("%s: %s is moved to %+v", c.name, pl.Task, g)
				} else {
					*g = pl
				}
			}
		}
		was, is := shown(plan), shown(got)
		for i := range was {
			if i >= len(is) || was[i] != is[i] {
				t.Errorf("%s: was\n  %s\nis\n  %s", c.name, was[i], strings.Join(is[i:min(i+1, len(is))], ""))
			}
		}
		if len(is) != len(was) || !got.Made.Equal(plan.Made) {
			t.Errorf("%s: %d lines of %d, made %v", c.name, len(is), len(was), got.Made)
		}
	}
}

// TestBestMark: the mark within all tolerances that is nearest to what is asked for in sum, the lower of two; none
// where the tolerances leave none.
func TestBestMark(t *testing.T) {
	use := func(c, tolerance int) *planner.Use {
		return &planner.Use{What: planner.AnOven, C: c, Tolerance: tolerance}
	}
	load := func(u, next *planner.Use) turned {
		return turned{held: &planner.Held{Name: "oven"}, use: u, next: next}
	}
	for _, c := range []struct {
		name  string
		loads []turned
		want  int
		ok    bool
	}{
		{"its own", []turned{load(use(180, 20), nil)}, 180, true},
		{"its own is no mark", []turned{load(use(182, 20), nil)}, 180, true},
		{"above", []turned{load(use(183, 20), nil)}, 185, true},
		{"as near to both", []turned{load(use(180, 10), nil), load(use(170, 10), nil)}, 170, true},
		{"two that differ", []turned{load(use(180, 10), nil), load(use(168, 10), nil)}, 170, true},
		{"three", []turned{load(use(180, 20), nil), load(use(170, 20), nil), load(use(170, 20), nil)}, 170, true},
		{"no mark between", []turned{load(use(182, 1), nil)}, 0, false},
		{"one mark, at its edge", []turned{load(use(181, 1), nil)}, 180, true},
		{"one mark, at its other edge", []turned{load(use(184, 1), nil)}, 185, true},
		{"nothing in common", []turned{load(use(180, 4), nil), load(use(190, 4), nil)}, 0, false},
		{"below what the oven has", []turned{load(use(50, 20), nil)}, 60, true},
		{"above what the oven has", []turned{load(use(250, 20), nil)}, 240, true},
		{"it stays in there afterwards", []turned{load(use(100, 30), use(80, 5))}, 85, true},
		{"it cannot stay in there", []turned{load(use(180, 10), use(80, 5))}, 180, true},
	} {
		p := &planner.Party{Kitchen: planner.Kitchen{Ovens: []planner.Oven{{Name: "oven", MinC: 60, MaxC: 240}}}}
		if got, ok := bestMark(p, c.loads); got != c.want || ok != c.ok {
			t.Errorf("%s: %d °C, %t, want %d, %t", c.name, got, ok, c.want, c.ok)
		}
	}
	if _, ok := bestMark(&planner.Party{}, []turned{load(use(180, 20), nil)}); ok {
		t.Error("an oven that there is not has a mark")
	}
}

// TestSharing: who shares an oven and its setting, one overlapping the next, is turned together.
func TestSharing(t *testing.T) {
	noon := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	load := func(name string, c, from, to int) turned {
		return turned{held: &planner.Held{Name: name, C: c, Amount: from, From: noon.Add(time.Duration(from) * time.Minute),
			To: noon.Add(time.Duration(to) * time.Minute)}}
	}
	starts := func(list []turned) []int {
		out := []int{}
		for _, l := range list {
			out = append(out, l.held.Amount)
		}
		return out
	}
	together, rest := sharing([]turned{load("a", 180, 0, 60), load("a", 180, 10, 20), load("b", 180, 11, 20), load("a",
		170, 12, 20),
		load("a", 180, 30, 90), load("a", 180, 89, 95), load("a", 180, 95, 99)})
	if got := starts(together); !slices.Equal(got, []int{0, 10, 30, 89}) {
		t.Errorf("together: %v", got)
	}
	if got := starts(rest); !slices.Equal(got, []int{11, 12, 95}) {
		t.Errorf("the rest: %v", got)
	}
}

// TestOvensAreTurnedToMarks: each load of a plan to its own mark where it is alone; not what has begun, nor what
// changes
// its temperature, nor where the plan would break.
func TestOvensAreTurnedToMarks(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(p *planner.Party, plan *planner.Plan)
		want int // of the braise, which may be between 140 and 160 °C
	}{
		{"off its mark", func(_ *planner.Party, plan *planner.Plan) { plan.Placed("braise/braise").Uses[0].C = 157 }, 150},
		{"what has begun", func(p *planner.Party, plan *planner.Plan) {
			pl := plan.Placed("braise/braise")
			pl.Uses[0].C = 157
			p.Work = append(p.Work, planner.Work{Task: pl.Task, Progress: planner.Started, Start: &pl.Start})
		}, 157},
		{"what has been said, and has not begun", func(p *planner.Party, plan *planner.Plan) {
			plan.Placed("braise/braise").Uses[0].C = 157
			p.Work = append(p.Work, planner.Work{Task: "braise/braise", Person: "ana"})
		}, 150},
		{"a dish that is gone", func(p *planner.Party, plan *planner.Plan) {
			plan.Placed("braise/braise").Uses[0].C = 157
			p.Dishes = slices.DeleteFunc(p.Dishes, func(d planner.Dish) bool { return d.Key == "braise" })
		}, 157},
		{"it would break the plan", func(p *planner.Party, plan *planner.Plan) {
			plan.Placed("braise/braise").Uses[0].C = 160
			o := &p.Kitchen.Ovens[0]
			o.Rise, o.Fall = 0, 250 // 5 minutes a degree, from the shell at 180 of 15:05 to 17:20
			late := plan.Placed("tart/bake")
			d := 36 * time.Minute
			late.Start, late.End = late.Start.Add(d), late.End.Add(d)
			late.Uses[0].From, late.Uses[0].To = late.Uses[0].From.Add(d), late.Uses[0].To.Add(d)
		}, 160},
	} {
		p, plan := partygen.Rich()
		c.do(p, plan)
		markOvens(p, plan)
		if got := plan.Placed("braise/braise").Uses[0].C; got != c.want {
			t.Errorf("%s: the braise stands at %d °C, want %d", c.name, got, c.want)
		}
		if got := plan.Placed("bread/bake").Uses[0].C; got != 230 {
			t.Errorf("%s: the bread changes its own temperature, and is turned to %d °C", c.name, got)
		}
	}
}

// TestOvenThatFoodWaitsIn: in its own step, in a wait for service, or in a wait for a step of whichever dish.
func TestOvenThatFoodWaitsIn(t *testing.T) {
	warm := planner.Use{What: planner.AnOven, C: 80}
	hold := planner.Wait{State: planner.HotHold, Hold: &warm}
	for _, c := range []struct {
		name string
		do   func(p *planner.Party)
		want int
	}{
		{"nowhere", func(*planner.Party) {}, 0},
		{"for service", func(p *planner.Party) { p.Dish("tart").Step("bake").Serve = &hold }, 80},
		{"for service, elsewhere", func(p *planner.Party) {
			p.Dish("tart").Step("bake").Serve = &planner.Wait{Hold: &planner.Use{What: planner.AHotPlace}}
		}, 0},
		{"for the next step", func(p *planner.Party) { p.Dish("tart").Step("fill").After[0].Wait = hold }, 80},
		{"for the next step, the dish named", func(p *planner.Party) {
			p.Dish("tart").Step("fill").After[0] = planner.After{Dish: "tart", Step: "bake", Wait: hold}
		}, 80},
		{"for another dish's step", func(p *planner.Party) {
			a := &p.Dish("soup").Step("reheat").After
			*a = append(*a, planner.After{Dish: "tart", Step: "bake", Wait: hold})
		}, 80},
		{"another dish's step of that name", func(p *planner.Party) {
			p.Dish("bread").Step("bake").After[0] = planner.After{Step: "bake", Wait: hold}
		}, 0},
		{"after another step", func(p *planner.Party) { p.Dish("tart").Step("fill").After[1].Wait = hold }, 0},
	} {
		p, _ := partygen.Rich()
		c.do(p)
		d := p.Dish("tart")
		got := 0
		if u := usedFor(p, d, d.Step("bake"), false); u != nil {
			got = u.C
		}
		if got != c.want {
			t.Errorf("%s: %d °C, want %d", c.name, got, c.want)
		}
		if u := usedFor(p, d, d.Step("bake"), true); u == nil || u.C != 180 {
			t.Errorf("%s: baked at %+v", c.name, u)
		}
		if u := usedFor(p, d, d.Step("custard"), true); u != nil {
			t.Errorf("%s: the custard is in an oven: %+v", c.name, u)
		}
	}
}
