package reminders

import (
	"fmt"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// theSession is the message that tells a person's session, by the task that it is about.
func theSession(t *testing.T, p *planner.Party, plan *planner.Plan, k planner.TaskKey) (store.Reminder, string) {
	t.Helper()
	for _, r := range For(p, plan) {
		if r.Live && r.Task == k {
			return r, words.PlainStamps(r.Text)
		}
	}
	t.Fatalf("nothing tells %s: %q", k, told(For(p, plan)))
	return store.Reminder{}, ""
}

// TestLongSessions: ten tasks are listed, and of more how many there are.
func TestLongSessions(t *testing.T) {
	for n, more := range map[int]string{sessionLines: "", sessionLines + 1: "\nand 1 more",
		sessionLines + 3: "\nand 3 more"} {
		var starts []int
		for i := range n {
			starts = append(starts, 20*i)
		}
		p, plan := chores(starts...)
		_, text := theSession(t, p, plan, "chore-00")
		if got := strings.Count(text, "\n[ ]"); got != sessionLines || strings.Contains(text, "more") != (more != "") ||
			!strings.Contains(text, more) {
			t.Errorf("%d tasks, want %q:\n%s", n, more, text)
		}
	}
}

// TestSessionLineSays: a task's round, its dish, how long hands are in it or until when it stands, and who shares it.
func TestSessionLineSays(t *testing.T) {
	for _, c := range []struct {
		task   planner.TaskKey
		change func(p *planner.Party, plan *planner.Plan, task *planner.Task)
		want   string
	}{
		{"pear-tart/rub", nil, "[ ] 10:00 Rub the butter into the flour (Pear tart), 20 min"},
		{"pear-tart/bake", nil, "[ ] 17:30 Bake the tart (Pear tart) until 18:15"},
		{"cream", func(_ *planner.Party, _ *planner.Plan, task *planner.Task) { task.Attention = planner.Unattended },
			"[ ] 11:00 Buy cream, 30 min"},
		{"pear-tart/rub", func(_ *planner.Party, _ *planner.Plan, task *planner.Task) { task.Round, task.Rounds = 2, 3 },
			"[ ] 10:00 Rub the butter into the flour (Pear tart, round 2 of 3), 20 min"},
		{"pear-tart/rub", func(_ *planner.Party, _ *planner.Plan, task *planner.Task) { task.Round, task.Rounds = 1, 1 },
			"[ ] 10:00 Rub the butter into the flour (Pear tart), 20 min"},
		{"pear-tart/roll", func(p *planner.Party, plan *planner.Plan, _ *planner.Task) {
			plan.Placed("pear-tart/roll").People = []planner.PersonKey{"ada", "ben"}
			p.Work = []planner.Work{{Task: "pear-tart/roll", Progress: planner.Started}}
		}, "[>] 16:00 Roll out the pastry (Pear tart), 20 min: Ada and Ben together"},
	} {
		p, plan := tart()
		v := see(p, plan)
		task := *v.tasks[c.task]
		if v.tasks[c.task] = &task; c.change != nil {
			c.change(p, plan, &task)
		}
		if got := words.PlainStamps(v.sessionLine(plan.Placed(c.task))); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// TestSessionSaysWhere: food that a session's tasks take up is named with its place, unless the session makes it first.
func TestSessionSaysWhere(t *testing.T) {
	for _, c := range []struct {
		name  string
		rub   int // when the pastry is made, in minutes after ten
		done  bool
		where bool
	}{{"made before", 0, false, true}, {"made in the session", 320, false, false}, {"ticked off", 320, true, true}} {
		p, plan := tart()
		p.Arrival = at(21, 0)
		rub, roll := plan.Placed("pear-tart/rub"), plan.Placed("pear-tart/roll")
		rub.Start, rub.End = at(10, c.rub), at(10, c.rub+20)
		p.Chores = append(p.Chores, planner.Chore{Key: "wipe", Kind: planner.Other, Do: "Wipe", Attention: planner.Hands,
			Time: span(10)})
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: "wipe", Start: at(15, 50), End: at(16, 0), People: roll.People})
		if c.done {
			p.Work = []planner.Work{{Task: "pear-tart/rub", Progress: planner.Done}}
		}
		text := ""
		for _, r := range For(p, plan) {
			if r.Live && strings.Contains(r.Text, "Roll out") {
				text = words.PlainStamps(r.Text)
			}
		}
		if got := strings.Contains(text, "\nThe pastry in the refrigerator."); got != c.where {
			t.Errorf("%s: where it is said: %t, want %t:\n%s", c.name, got, c.where, text)
		}
	}
}

// TestSessionWithAWay: a session that begins with a way to a shop says what for, with a button for the list.
func TestSessionWithAWay(t *testing.T) {
	p, plan := shopped()
	plan.Tasks[0].People, plan.Tasks[2].People = []planner.PersonKey{"ben"}, []planner.PersonKey{"ben"}
	plan.Tasks[0].Start, plan.Tasks[0].End = at(12, 0), at(12, 20)
	r, text := theSession(t, p, plan, "shop-supermarket")
	if !strings.Contains(text, "\nBuy ") || r.Buttons[len(r.Buttons)-1].Do != "shopping list shop:supermarket party:1" {
		t.Errorf("%+v\n%s", r.Buttons, text)
	}
	p.Work = []planner.Work{{Task: "shop-supermarket", Progress: planner.Done}}
	if _, text := theSession(t, p, plan, "pear-tart/rub"); strings.Contains(text, "\nBuy ") {
		t.Errorf("after the way:\n%s", text)
	}
}

// TestSessionUnderWay: what somebody has in hand comes before what is to begin, with its own buttons; a session is over
// at its last end.
func TestSessionUnderWay(t *testing.T) {
	p, plan := chores(0, 20)
	p.Work = []planner.Work{{Task: "chore-00", Progress: planner.Started}}
	r, text := theSession(t, p, plan, "chore-00")
	if !strings.HasPrefix(text, "Under way since 10:00: do number 1.\nUntil 10:40") || r.Over || r.Kind != Session ||
		len(r.Buttons) != 3 || r.Buttons[0].Do != "task done task:chore-00 party:1" || r.Until.Before(at(10, 40)) {
		t.Errorf("until %v, %+v\n%s", r.Until, r.Buttons, text)
	}
	p.Chores[0].Attention = planner.Watch // nobody has it in hand: the next is what matters
	if r, text = theSession(t, p, plan, "chore-01"); !strings.HasPrefix(text, "Do number 2 at 10:20.\n") ||
		!r.Due.Equal(at(10, 15)) {
		t.Errorf("due %v\n%s", r.Due, text)
	}
	p.Work = append(p.Work, planner.Work{Task: "chore-01", Progress: planner.Done})
	if r, text = theSession(t, p, plan, "chore-00"); !r.Over || !strings.HasPrefix(text, "Under way since 10:00") {
		t.Errorf("over %t\n%s", r.Over, text)
	}
	p.Chores[1].Attention = planner.Watch // both are started: hands first
	p.Chores[0].Attention = planner.Hands
	p.Work[1].Progress = planner.Started
	if _, text = theSession(t, p, plan, "chore-00"); !strings.HasPrefix(text, "Under way since 10:00") {
		t.Errorf("both\n%s", text)
	}
}

// TestLeftovers: who puts what is left into the cold hears until when each dish may be, of those that have been served
// by then and whose time is not long over.
func TestLeftovers(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(p *planner.Party, plan *planner.Plan)
		want   string
	}{
		{"two hours from when it is mixed", nil, "Salad until 20:30"},
		{"an hour after its end", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks[2].Start = at(21, 30) }, ""},
		{"not an hour after it", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks[2].Start = at(21, 29) },
			"Salad until 20:30"},
		{"it is served then", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks[2].Start = at(20, 0) }, ""},
		{"of another course", func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Course = "dessert" }, ""},
		{"left out", func(_ *planner.Party, plan *planner.Plan) {
			plan.Without = []planner.LeftOut{{Dish: "salad"}}
		}, ""},
		{"it keeps", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[0].Leaves = planner.Food{}
			p.Dishes[0].Ingredients = []planner.Ingredient{{Name: "sugar", Amount: "100 g", Step: "mix"}}
		}, ""},
	} {
		p, plan := beanSalad()
		p.Dishes[0].Steps = p.Dishes[0].Steps[1:] // mixed from 18:30 to 18:40, of nothing that stood before
		p.Dishes[0].Steps[0].After = nil
		p.Chores = []planner.Chore{{Key: "leftovers", Kind: planner.Other, Do: "Put it away", Attention: planner.Hands,
			Time: span(10)}}
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: "leftovers", Start: at(20, 30), End: at(20, 40),
			People: []planner.PersonKey{"ada"}})
		if c.change != nil {
			c.change(p, plan)
		}
		v := see(p, plan)
		got := words.PlainStamps(v.coldBy(v.tasks["leftovers"]))
		if want := fmt.Sprintf("By the plan, what is left may be put away so long (%s): %s. What has stood "+
			"longer is thrown away.",
			p.CounterLimit(), c.want); c.want != "" && got != want || c.want == "" && got != "" {
			t.Errorf("%s: %q", c.name, got)
		}
	}
}
