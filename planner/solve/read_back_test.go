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

// TestServedWhenWanted: of a plan that does not say when a course is served it is served when it is wanted.
func TestServedWhenWanted(t *testing.T) {
	p, _ := partygen.Rich()
	m := modelOf(t, p, Ask{Now: p.Arrival.Add(-48 * time.Hour)})
	v := m.values(&planner.Plan{})
	for c := range p.Courses {
		for s, want := range p.Courses[c].Servings {
			if got := m.instant(v[m.serve[c][s]]); !got.Equal(want.At) {
				t.Errorf("%s, %d: %v, want %v", p.Courses[c].Key, s, got, want.At)
			}
		}
	}
}
