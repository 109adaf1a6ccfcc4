package reminders

import (
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// plated is the tart with cream piped on before it is served, at 21:00 or up to ten minutes later.
func plated() (*planner.Party, *planner.Plan) {
	p, plan := tart()
	d := &p.Dishes[0]
	d.Steps[2].Serve = nil
	d.Steps = append(d.Steps, planner.Step{Key: "pipe", Do: "Pipe cream on", Attention: planner.Hands, Time: span(10),
		After: []planner.After{{Step: "bake", Wait: planner.Wait{State: planner.Counter}}},
		Serve: &planner.Wait{State: planner.Straight}})
	plan.Tasks = append(plan.Tasks, planner.Placed{Task: "pear-tart/pipe", Start: at(20, 50), End: at(21, 0),
		People: []planner.PersonKey{"ben"}})
	return p, plan
}

// TestCourseGoes: who does the last of a course's final steps is asked, shortly before it is to begin, whether the
// table is ready, with how long it may wait; and is not told the same task twice.
func TestCourseGoes(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(p *planner.Party, plan *planner.Plan)
		want string // empty: nobody is asked
	}{
		{"as it is", func(*planner.Party, *planner.Plan) {}, "20:45 ben: Table ready for the dessert? It goes on at 20:50.|" +
			"Pipe cream on (Pear tart), 10 min: on the table at 21:00.|On the counter: the pear tart.|" +
			"It may wait until 21:00; after that the dessert is past its window."},
		{"its food bears less", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[3].After[0].Wait.WorthUntil = 160
		}, "20:45 ben: Table ready for the dessert? It goes on at 20:50.|" +
			"Pipe cream on (Pear tart), 10 min: on the table at 21:00.|On the counter: the pear tart.|" +
			"It may wait until 20:55; after that the pear tart would have waited longer than it may."},
		{"late already", func(_ *planner.Party, plan *planner.Plan) { plan.Served[0].At = at(21, 10) },
			"20:45 ben: Table ready for the dessert? It goes on at 20:50.|" +
				"Pipe cream on (Pear tart), 10 min: on the table at 21:10.|On the counter: the pear tart.|" +
				"It cannot wait: if it goes on later, the dessert is past its window."},
		{"begun", func(p *planner.Party, _ *planner.Plan) {
			p.Work = []planner.Work{{Task: "pear-tart/pipe", Person: "ben", Progress: planner.Started,
				Start: instantOf(at(20, 50))}}
		}, ""},
		{"long before", func(_ *planner.Party, plan *planner.Plan) {
			plan.Tasks[4].Start, plan.Tasks[4].End = at(20, 19), at(20, 29)
		}, ""},
		{"nobody's hands", func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Steps[3].Attention = planner.Watch }, ""},
	} {
		p, plan := plated()
		c.do(p, plan)
		list := For(p, plan)
		got := ""
		for _, r := range byKind(list, Go) {
			got += r.Due.In(p.Location()).Format("15:04 ") + string(r.Person) + ": " +
				strings.ReplaceAll(words.PlainStamps(r.Text), "\n", "|")
			if r.Silent || r.Buttons[0].Label != "Dessert now" || r.Buttons[1].Do != "late task:pear-tart/pipe by:10 party:1" {
				t.Errorf("%s: %+v", c.name, r)
			}
		}
		if got != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
		told := 0
		for _, r := range list {
			if r.Task == "pear-tart/pipe" && (r.Kind == Go || begins(r.Kind)) {
				told++
			}
		}
		if told != 1 && len(p.Work) == 0 {
			t.Errorf("%s: told %d times", c.name, told)
		}
	}
}

// TestServing: a course's message names who finishes one of its dishes within the last minutes before it, or carries it
// in, in the party's order; where the plan names nobody, or there is none, the hosts.
func TestServing(t *testing.T) {
	carry := planner.Placed{Task: planner.ChoreTask("serve-dessert"), Start: at(21, 0), End: at(21, 10),
		People: []planner.PersonKey{"ada"}}
	for _, c := range []struct {
		name string
		do   func(p *planner.Party, plan *planner.Plan)
		want string
	}{
		{"who pipes the cream", func(*planner.Party, *planner.Plan) {}, "Ben"},
		{"who carries it in besides", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks = append(plan.Tasks, carry) },
			"Ada Ben"},
		{"another course's bearer is none", func(_ *planner.Party, plan *planner.Plan) {
			other := carry
			other.Task = planner.ChoreTask("serve-main")
			plan.Tasks = append(plan.Tasks, other)
		}, "Ben"},
		{"just within", func(_ *planner.Party, plan *planner.Plan) {
			plan.Tasks[4].Start, plan.Tasks[4].End = at(20, 0), at(21, 0).Add(-finishWithin)
		}, "Ben"},
		{"ready long before", func(_ *planner.Party, plan *planner.Plan) {
			plan.Tasks[4].Start, plan.Tasks[4].End = at(20, 0), at(21, 0).Add(-finishWithin-1)
		}, "Ada"},
		{"only begun after it", func(_ *planner.Party, plan *planner.Plan) {
			plan.Tasks[4].Start, plan.Tasks[4].End = at(21, 1), at(21, 11)
		}, "Ada"},
		{"a dish of another course", func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Course = "main" }, "Ada"},
	} {
		p, plan := plated()
		c.do(p, plan)
		row := store.Row{Reminder: store.Reminder{Key: "service/dessert/0", At: at(21, 0)}}
		if got := names(serving(p, plan, &row)); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		if got := names(serving(p, nil, &row)); got != "Ada" {
			t.Errorf("%s, without a plan: %q", c.name, got)
		}
	}
}

func names(list []planner.Person) string {
	var out []string
	for _, x := range list {
		out = append(out, x.Name)
	}
	return strings.Join(out, " ")
}
