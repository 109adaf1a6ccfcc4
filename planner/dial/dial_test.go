package dial

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
)

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
// changes its temperature, nor where the plan would break.
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
		Turn(check.Of(p), p, plan)
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

// TestOvenLoadsInOrder: loads are listed by when they go in, whatever the order of the plan's tasks, each with the oven
// that its food then waits in.
func TestOvenLoadsInOrder(t *testing.T) {
	p, plan := partygen.Rich()
	warm := planner.Use{What: planner.AnOven, C: 80}
	p.Dish("tart").Step("bake").Serve = &planner.Wait{State: planner.HotHold, Hold: &warm}
	forth := ovenLoads(p, plan)
	slices.Reverse(plan.Tasks)
	back := ovenLoads(p, plan)
	if len(forth) < 2 || len(back) != len(forth) {
		t.Fatalf("%d and %d loads", len(forth), len(back))
	}
	held := 0
	for i, l := range back {
		if i > 0 && l.held.From.Before(back[i-1].held.From) {
			t.Errorf("load %d goes in at %v, after one of %v", i, l.held.From, back[i-1].held.From)
		}
		if l.next != nil {
			held++
			if l.next.C != 80 {
				t.Errorf("load %d: then at %d °C", i, l.next.C)
			}
		}
	}
	if held != 1 {
		t.Errorf("%d loads are kept warm afterwards, want the tart", held)
	}
	begun := plan.Tasks[0].Start.Add(-time.Hour)
	for i := range plan.Tasks {
		p.Work = append(p.Work, planner.Work{Task: plan.Tasks[i].Task, Progress: planner.Started, Start: &begun})
	}
	if got := ovenLoads(p, plan); len(got) > 0 {
		t.Errorf("all has begun, and %d loads can still be turned", len(got))
	}
}
