package check

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
)

// network writes down what a task waits for in a play: "from the end of soup/chop + 30".
func network(p *planner.Party, plan *planner.Plan, k planner.TaskKey) []string {
	y := newPlay(p, plan)
	var out []string
	for _, t := range y.tasks {
		if t.key != k {
			continue
		}
		for _, a := range t.before {
			end := "end"
			if a.fromStart {
				end = "start"
			}
			out = append(out, fmt.Sprintf("%s of %s%+g", end, y.tasks[a.task].key, a.lag))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func withStep(p *planner.Party, d planner.DishKey, s planner.StepKey, do func(*planner.Step)) {
	do(p.Dish(d).Step(s))
}

// TestWhatWaitsForWhat: the network of the plan made by hand, and of parties that differ in one thing: food with its
// shortest waits, rounds, chores by their anchors, hands and ways out, and things of which there are too few.
func TestWhatWaitsForWhat(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(p *planner.Party, plan *planner.Plan)
		task planner.TaskKey
		want string
	}{
		{"food, and what has to be done by then", nil, "soup/chop", "end of shopping+0, end of shopping+30"},
		{"food alone", nil, "soup/simmer", "end of soup/chop+0"},
		{"food with a shortest wait", nil, "soup/reheat", "end of soup/blend+60"},
		{"food, and hands", nil, "tart/fill", "end of tart/bake+30, end of tart/custard+0, end of tart/dough+0"},
		{"an oven's other setting", nil, "braise/braise", "end of braise/brown+0, end of tart/bake+9"},
		{"hands, rounds and food", nil, "fritters/fry.2",
			"end of fritters/batter+0, end of fritters/batter+15, end of fritters/fry+0, end of tart/custard+0, " +
				"end of tart/dough+0, end of tart/fill+0, start of fritters/fry+6"},
		{"a burner too few", func(p *planner.Party, _ *planner.Plan) { p.Kitchen.Burners = 1 }, "tart/custard",
			"end of soup/simmer+0, end of tart/dough+0"},
		{"from start to start", func(p *planner.Party, _ *planner.Plan) {
			withStep(p, "tart", "bake", func(s *planner.Step) {
				s.After = append(s.After, planner.After{Dish: "soup", Step: "chop", FromStart: true, Wait: planner.Wait{Least: 7}})
			})
		}, "tart/bake", "end of tart/dough+60, start of soup/chop+7"},
		{"a chore from a task", func(p *planner.Party, _ *planner.Plan) {
			p.Chore("wine").From = &planner.Anchor{Task: "tart/fill", Offset: 12}
		}, "wine", "end of tart/fill+12"},
		{"a chore from all rounds", func(p *planner.Party, plan *planner.Plan) {
			p.Chore("wine").From = &planner.Anchor{Task: "fritters/fry", Offset: 12}
			w := plan.Placed("wine")
			w.Start, w.End = w.Start.Add(24*time.Hour), w.End.Add(24*time.Hour)
		}, "wine", "end of fritters/fry+12, end of fritters/fry.2+12"},
		{"all rounds by a chore", func(p *planner.Party, _ *planner.Plan) {
			p.Chore("wine").By = []planner.Anchor{{Task: "fritters/fry", Offset: -3}}
		}, "fritters/fry",
			"end of fritters/batter+0, end of fritters/batter+15, end of tart/custard+0, end of tart/dough+0, " +
				"end of tart/fill+0, end of wine+3"},
		{"away, and in charge of it", func(p *planner.Party, plan *planner.Plan) {
			p.Chore("wine").Away = true
			w := plan.Placed("wine")
			w.Start, w.End = w.Start.Add(-time.Hour), w.End.Add(-time.Hour)
			withStep(p, "bread", "bake", func(s *planner.Step) { s.Away = true })
		}, "bread/bake", "end of bread/proof+0, end of soup/chop+0, end of table+0, end of wine+0"},
		{"what has begun waits for nothing", func(p *planner.Party, plan *planner.Plan) {
			start := plan.Placed("tart/fill").Start
			p.Work = append(p.Work, planner.Work{Task: "tart/fill", Progress: planner.Started, Start: &start})
		}, "tart/fill", ""},
		{"straight on, of several rounds the last", func(p *planner.Party, plan *planner.Plan) {
			d := p.Dish("fritters")
			d.Steps = append(d.Steps, planner.Step{Key: "drain", Do: "Drain them", Attention: planner.Unattended,
				Time: partygen.Exactly(2), After: []planner.After{{Step: "fry"}}})
			start := plan.Placed("fritters/fry.2").End
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: "fritters/drain", Start: start,
				End: start.Add(2 * time.Minute), People: []planner.PersonKey{"cleo"}})
		}, "fritters/drain", "end of fritters/fry.2+0"},
		{"a casserole until a later step", func(p *planner.Party, _ *planner.Plan) {
			withStep(p, "braise", "gravy", func(s *planner.Step) {
				s.Uses = []planner.Use{{What: planner.AVessel,
					Name: "casserole"}}
			})
		}, "braise/gravy", "end of braise/braise+0, end of braise/brown+0, end of shopping+0, " +
			"end of soup/blend+0, end of soup/chop+0, end of table+0"},
	} {
		p, plan := partygen.Rich()
		if c.do != nil {
			c.do(p, plan)
		}
		if got := strings.Join(network(p, plan, c.task), ", "); got != c.want {
			t.Errorf("%s: %s waits for\n  %s, want\n  %s", c.name, c.task, got, c.want)
		}
	}
}

// TestPlayedLengths: a length lies in proportion to what the plan gives it; what is over is as long as it was, and what
// has begun is no shorter than it has lasted.
func TestPlayedLengths(t *testing.T) {
	const k = "tart/fill" // planned for 10 minutes
	ranged := planner.Span{Low: 10, Likely: 20, High: 50}
	for _, c := range []struct {
		name            string
		span            planner.Span
		work            *planner.Work
		since           int // minutes from its start to the plan's making
		low, mode, high float64
		fixed           bool
	}{
		{"as it is", planner.Span{Low: 10, Likely: 10, High: 10}, nil, -60, 10, 10, 10, false},
		{"half as long for two", ranged, nil, -60, 5, 10, 25, false},
		{"a range that is none", planner.Span{Low: 30, Likely: 20, High: 10}, nil, -60, 10, 10, 10, false},
		{"nothing said", planner.Span{}, nil, -60, 10, 10, 10, false},
		{"begun just now", ranged, &planner.Work{Progress: planner.Started}, 0, 5, 10, 25, false},
		{"begun a while ago", ranged, &planner.Work{Progress: planner.Started}, 7, 7, 10, 25, false},
		{"begun, and past its likely end", ranged, &planner.Work{Progress: planner.Started}, 12, 12, 12, 25, false},
		{"begun, and longer than ever", ranged, &planner.Work{Progress: planner.Started}, 40, 40, 40, 40, false},
		{"over", ranged, &planner.Work{Progress: planner.Done}, 40, 10, 10, 10, true},
	} {
		p, plan := partygen.Rich()
		withStep(p, "tart", "fill", func(s *planner.Step) { s.Time = c.span })
		plan.Made = plan.Placed(k).Start.Add(time.Duration(c.since) * time.Minute)
		if c.work != nil {
			c.work.Task = k
			p.Work = append(p.Work, *c.work)
		}
		for _, x := range newPlay(p, plan).tasks {
			if x.key == k && (x.low != c.low || x.mode != c.mode || x.high != c.high || x.fixed != c.fixed ||
				x.start != float64(-c.since) || x.end != float64(10-c.since)) {
				t.Errorf("%s: got %+v, want %g, %g, %g", c.name, x, c.low, c.mode, c.high)
			}
		}
	}
}

// TestPlayedServices: a course waits for its dishes, with their shortest waits, and for the group's course before it.
func TestPlayedServices(t *testing.T) {
	p, plan := partygen.Rich()
	y := newPlay(p, plan)
	var got []string
	for _, s := range y.serves {
		line := fmt.Sprintf("%s%s in %g of %g", s.course, s.group, s.latest-s.at, s.at-y.serves[0].at)
		if s.beforeServe >= 0 {
			line += fmt.Sprintf(", %g after %s%s", s.apart, y.serves[s.beforeServe].course, y.serves[s.beforeServe].group)
		}
		for _, a := range s.before {
			line += fmt.Sprintf(", %s%+g", y.tasks[a.task].key, a.lag)
		}
		got = append(got, line)
	}
	want := []string{
		"starter in 10 of 0, soup/reheat+0, fritters/fry+0, fritters/fry.2+0, bread/bake+20",
		"maintoddlers in 10 of 15, braise/braise+0, braise/gravy+0",
		"main in 15 of 45, 15 after starter, braise/braise+0, braise/gravy+0",
		"dessert in 15 of 105, 15 after main, tart/chill+0, sorbet/freeze+0",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n  %s\nwant\n  %s", strings.Join(got, "\n  "), strings.Join(want, "\n  "))
	}
	plan.Served[3].At = plan.Served[2].At.Add(10 * time.Minute)
	if y := newPlay(p, plan); y.serves[3].apart != 10 || y.serves[3].latest != y.serves[3].at+65 {
		t.Errorf("planned ten minutes after: %+v", y.serves[3])
	}
	plan.Served[3].At = plan.Served[3].At.Add(3 * time.Hour)
	if y := newPlay(p, plan); y.serves[3].latest != y.serves[3].at {
		t.Errorf("planned late: it is on time as it is planned: %+v", y.serves[3])
	}
}

// TestTriangular is the inverse of the distribution function: the ends, the likeliest length, and the middle of each
// side (Kotz and van Dorp, "Beyond Beta", 2004, chapter 1; from memory).
func TestTriangular(t *testing.T) {
	for _, c := range []struct{ u, low, mode, high, want float64 }{
		{0, 10, 20, 50, 10}, {1, 10, 20, 50, 50}, {0.25, 10, 20, 50, 20}, {0.0625, 10, 20, 50, 15}, {0.8125, 10, 20, 50, 35},
		{0.3, 10, 10, 10, 10}, {0.3, 20, 15, 10, 15}, {0, 10, 10, 20, 10}, {1, 10, 20, 20, 20}, {0.25, 10, 20, 20, 15},
	} {
		if got := triangular(c.u, c.low, c.mode, c.high); got < c.want-1e-9 || got > c.want+1e-9 {
			t.Errorf("%g of %g, %g, %g: %g, want %g", c.u, c.low, c.mode, c.high, got, c.want)
		}
	}
}

// TestChoresGiveBackAtTheirEnd: a chore has no later steps, whatever its use says of one.
func TestChoresGiveBackAtTheirEnd(t *testing.T) {
	p, plan := partygen.Rich()
	pan := planner.Use{What: planner.AVessel, Name: "saucepan", Through: "fill"}
	p.Kitchen.Vessels = append(p.Kitchen.Vessels[:0:0], planner.Ware{Name: "saucepan", Count: 1})
	p.Chore("shopping").Uses = []planner.Use{pan}
	pl := plan.Placed("shopping")
	pl.Uses = []planner.Held{{What: pan.What, Name: pan.Name, Amount: 1, From: pl.Start, To: pl.End}}
	if got := network(p, plan, "tart/custard"); !slices.Contains(got, "end of shopping+0") {
		t.Errorf("the custard waits for %v, want the chore that has its pan", got)
	}
}

// TestTriangularSides: below the likeliest length the share of shorter ones grows with the square of the distance
// from the shortest, above it that of longer ones from the longest: (x-a)²/((b-a)(c-a)) and (b-x)²/((b-a)(b-c)) (Kotz
// and van Dorp, as above).
func TestTriangularSides(t *testing.T) {
	const low, mode, high = 10.0, 20.0, 50.0
	for i := 1; i < 100; i++ {
		u := float64(i) / 100
		x := triangular(u, low, mode, high)
		share := (x - low) * (x - low) / (high - low) / (mode - low)
		if x > mode {
			share = 1 - (high-x)*(high-x)/(high-low)/(high-mode)
		}
		if share < u-1e-9 || share > u+1e-9 {
			t.Errorf("%g are up to %g long, want %g", share, x, u)
		}
	}
}

// TestThreats: whoever is to blame for any lateness is a threat, the most first, the first of equal ones.
func TestThreats(t *testing.T) {
	r := played{blame: [][]float64{{0.5, 0, 2, 0.5, 1e-3}, {0, 0, 0, 0, 0}}}
	if got := r.threats(0); !slices.Equal(got, []int{2, 0, 3, 4}) {
		t.Errorf("got %v", got)
	}
	if got := r.threats(1); len(got) != 0 {
		t.Errorf("of none: %v", got)
	}
}

// TestGivenBack: a thing comes free with its task, with the step that its food goes on to, or with the later step that
// it stays occupied to; what is held until service is waited for by nobody.
func TestGivenBack(t *testing.T) {
	p, plan := partygen.Rich()
	b := &playBuilder{c: newChecker(p, plan)}
	job, fill := b.c.byKey["tart/custard"], b.c.find("tart", "fill")
	held := func(u *planner.Use, later time.Duration, then *workStep) *holding {
		return &holding{need: need{job: job, use: u, from: job.start.Add(later), to: job.end, then: then}}
	}
	pan := &planner.Use{What: planner.AVessel, Name: "saucepan"}
	until := &planner.Use{What: planner.AVessel, Name: "saucepan", Through: "fill"}
	back := &planner.Use{What: planner.AVessel, Name: "saucepan", Through: "dough"} // over by then
	for _, c := range []struct {
		name string
		h    *holding
		want []givenBack
	}{
		{"with its task", held(pan, 0, nil), []givenBack{{job, false}}},
		{"with the next step's start", held(pan, time.Minute, fill), []givenBack{{fill.jobs[0], true}}},
		{"with a later step", held(until, 0, nil), []givenBack{{fill.jobs[0], false}}},
		{"with a step that is over before", held(back, 0, nil), []givenBack{{job, false}}},
		{"when it is served", held(pan, time.Minute, nil), nil},
	} {
		if got := b.givesBack(c.h); !slices.Equal(got, c.want) {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
}
