package reminders

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// TestTurn: an oven is turned on, off, up or down, and named where there are others.
func TestTurn(t *testing.T) {
	for _, c := range []struct {
		name            string
		ovens, from, to int
		want            string
	}{
		{"oven", 1, 0, 180, "Turn the oven on"}, {"oven", 1, 180, 0, "Turn the oven off"},
		{"oven", 1, 180, 181, "Turn the oven up"}, {"oven", 1, 181, 180, "Turn the oven down"},
		{"small oven", 1, 0, 180, "Turn the oven on"}, {"small oven", 2, 0, 180, "Turn the small oven on"},
		{"", 2, 200, 150, "Turn the oven down"},
	} {
		if got := turn(&planner.Oven{Name: c.name}, c.ovens, c.from, c.to); got != c.want {
			t.Errorf("%q of %d, %d to %d °C: got %q, want %q", c.name, c.ovens, c.from, c.to, got, c.want)
		}
	}
}

// TestCut: what fits stays as it is; what does not becomes as long as it may be, with a mark of what is missing.
func TestCut(t *testing.T) {
	for n := range 12 {
		whole := strings.Repeat("é", n)
		got := []rune(cut(whole, 8))
		if n <= 8 && string(got) != whole {
			t.Errorf("%d characters of 8: got %q", n, string(got))
		}
		if n > 8 && string(got) != strings.Repeat("é", 7)+"…" {
			t.Errorf("%d characters of 8: got %q", n, string(got))
		}
	}
	if got := cut("roast the beets", 7); got != "roast…" {
		t.Errorf("got %q, want no space before the mark", got)
	}
	for _, c := range []struct {
		what string
		most int
		in   func(string) string
	}{{"a name", longestName, named}, {"what to do", longestDo, trimStop}} {
		fits, long := strings.Repeat("x", c.most), strings.Repeat("x", c.most+1)
		if c.in(fits) != fits || len([]rune(c.in(long))) != c.most {
			t.Errorf("%s of %d characters: %q, of one more: %q", c.what, c.most, c.in(fits), c.in(long))
		}
	}
}

// TestSmallPhrases: what a sentence is put together from.
func TestSmallPhrases(t *testing.T) {
	zone := time.UTC
	noon := time.Date(2026, 9, 26, 12, 0, 0, 0, zone)
	hold := func(s planner.State, name string) planner.Wait {
		return planner.Wait{State: s, Hold: &planner.Use{What: planner.AHotPlace, Name: name}}
	}
	asked := func(sign string) string {
		p := &planner.Party{Dishes: []planner.Dish{{Key: "tart", Name: "Pear tart"}}}
		return (&view{p: p}).question(&planner.Task{Dish: "tart"}, sign)
	}
	for _, c := range []struct{ got, want string }{
		{words.PlainStamps(opening("Peel the beets.", noon, 0, zone)), "Peel the beets now."},
		{words.PlainStamps(opening("Peel the beets", noon, time.Minute, zone)), "Peel the beets at 12:00."},
		{words.PlainStamps(opening("Peel, cut and salt", noon, time.Minute, zone)), "At 12:00: Peel, cut and salt."},
		{opening("Peel (thinly)", noon, 0, zone), "Now: Peel (thinly)."},
		{waiting(planner.Wait{State: planner.Counter}), "on the counter"},
		{waiting(planner.Wait{State: planner.Refrigerator}), "in the refrigerator"},
		{waiting(planner.Wait{State: planner.Freezer}), "in the freezer"},
		{waiting(planner.Wait{State: planner.Straight}), ""},
		{waiting(planner.Wait{State: planner.Warm}), "kept warm"},
		{waiting(hold(planner.Warm, "warming tray")), "kept warm in the warming tray"},
		{waiting(hold(planner.HotHold, "warming tray")), "kept hot in the warming tray"},
		{waiting(hold(planner.HotHold, "")), "kept hot"},
		{waiting(hold(planner.Counter, "tray")), "on the counter"},
		{asked("browned at the rim."), "Pear tart: browned at the rim?"}, {asked("soft?"), "Pear tart: soft?"},
		{undone("Put the ham into the oven"), "Take the ham out of the oven"},
		{undone("Put the ham away"), "Put the ham away"}, {undone("Fold it into the cream"), "Fold it into the cream"},
		{strings.Join(addNew(addNew(addNew(nil, "a"), "b"), "a"), " "), "a b"},
		{equipment(&planner.Held{What: planner.ABurner}), string(planner.ABurner)},
		{equipment(&planner.Held{What: planner.AVessel, Name: "large pot"}), "large pot"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// TestSpread: a range is told in minutes below an hour, in words from there, and shared by those who do it.
func TestSpread(t *testing.T) {
	long := func(low, high planner.Minutes) *planner.Task {
		return &planner.Task{Attention: planner.Hands, Hands: 1, MaxHands: 2,
			Time: planner.Span{Low: low, Likely: low, High: high}}
	}
	for _, c := range []struct {
		low, high planner.Minutes
		people    int
		want      string
	}{
		{20, 20, 1, ""}, {15, 30, 1, " (15 to 30)"}, {15, 59, 1, " (15 to 59)"},
		{15, 60, 1, " (15 minutes to 1 hour)"}, {30, 60, 2, " (15 to 30)"},
	} {
		if got := spread(long(c.low, c.high), c.people); got != c.want {
			t.Errorf("%d to %d minutes for %d: got %q, want %q", c.low, c.high, c.people, got, c.want)
		}
	}
}

// TestOftenTouched: what wants a hand more than six times is told once.
func TestOftenTouched(t *testing.T) {
	for _, c := range []struct {
		attention planner.Attention
		every     planner.Minutes
		likely    planner.Minutes
		want      bool
	}{
		{planner.Touch, 10, 60, false}, {planner.Touch, 10, 61, true}, {planner.Touch, 0, 61, false},
		{planner.Watch, 10, 61, false}, {planner.Touch, 1, 7, true},
	} {
		task := &planner.Task{Attention: c.attention, Time: span(c.likely)}
		if got := oftenTouched(task, &planner.Step{Every: c.every}); got != c.want {
			t.Errorf("every %d of %d minutes, %s: %t", c.every, c.likely, c.attention, got)
		}
	}
}

// TestRound: a round says which it is, of how many.
func TestRound(t *testing.T) {
	p, plan := tart()
	v := see(p, plan)
	task := *v.tasks["pear-tart/bake"]
	if got := v.called(&task); got != "Bake the tart (Pear tart, dessert)" {
		t.Errorf("the only round: %q", got)
	}
	task.Round, task.Rounds = 2, 2
	if got := v.called(&task); got != "Bake the tart (Pear tart, dessert, round 2 of 2)" {
		t.Errorf("one of two: %q", got)
	}
	if got := v.called(v.tasks["cream"]); got != "Buy cream" {
		t.Errorf("a chore: %q", got)
	}
	p.Dishes[0].Course = "nothing"
	if got := v.called(&task); !strings.HasPrefix(got, "Bake the tart (Pear tart, round") {
		t.Errorf("without a course: %q", got)
	}
}

// TestWhereFoodWaits: what a task works on is named with where it waits, from whichever dish it comes; what comes out
// of the cold is said first.
func TestWhereFoodWaits(t *testing.T) {
	sauce := func(w planner.Wait) func(p *planner.Party, plan *planner.Plan) {
		return func(p *planner.Party, plan *planner.Plan) {
			p.Dishes = append(p.Dishes, planner.Dish{Key: "sauce", Name: "Plum sauce", Course: "dessert",
				Steps: []planner.Step{{Key: "stir", Do: "Stir", Attention: planner.Hands, Time: span(5)}}})
			roll := &p.Dishes[0].Steps[1]
			roll.After = append(roll.After, planner.After{Dish: "sauce", Step: "stir", Wait: w})
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: "sauce/stir", Start: at(15, 0), End: at(15, 5),
				People: []planner.PersonKey{"ada"}})
		}
	}
	cold := planner.Wait{State: planner.Refrigerator}
	for _, c := range []struct {
		name        string
		do          func(p *planner.Party, plan *planner.Plan)
		cold, where string
	}{
		{"as it is", func(*planner.Party, *planner.Plan) {}, "the pastry out of the refrigerator",
			"In the refrigerator: the pastry."},
		{"two dishes in one place", sauce(cold), "the pastry and the plum sauce out of the refrigerator",
			"In the refrigerator: the pastry and the plum sauce."},
		{"two dishes in two places", sauce(planner.Wait{State: planner.Freezer}),
			"the pastry out of the refrigerator and the plum sauce out of the freezer",
			"In the refrigerator: the pastry. In the freezer: the plum sauce."},
		{"one on the counter", sauce(planner.Wait{State: planner.Counter}), "the pastry out of the refrigerator",
			"In the refrigerator: the pastry. On the counter: the plum sauce."},
		{"it does not wait", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("pear-tart/rub").End = at(16, 0)
		}, "", ""},
		{"a minute's wait", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("pear-tart/rub").End = at(15, 59)
		}, "the pastry out of the refrigerator", "In the refrigerator: the pastry."},
		{"from the start: no food waits", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[1].After[0].FromStart = true
		}, "", ""},
		{"a dish that is gone comes first", func(p *planner.Party, _ *planner.Plan) {
			roll := &p.Dishes[0].Steps[1]
			roll.After = append([]planner.After{{Dish: "gone", Step: "stir", Wait: cold},
				{Step: "gone", Wait: cold}}, roll.After...)
		}, "the pastry out of the refrigerator", "In the refrigerator: the pastry."},
		{"it is not in the plan", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks = plan.Tasks[1:] }, "", ""},
		{"the last of its rounds counts", func(_ *planner.Party, plan *planner.Plan) {
			second := *plan.Placed("pear-tart/rub")
			second.Task, second.End = "pear-tart/rub.2", at(16, 0)
			plan.Tasks = append(plan.Tasks, second)
		}, "", ""},
	} {
		p, plan := tart()
		c.do(p, plan)
		v := see(p, plan)
		d := &p.Dishes[0]
		pl := v.at["pear-tart/roll"]
		if got := v.outOfTheCold(d, &d.Steps[1], pl); got != c.cold {
			t.Errorf("%s: out of the cold: got %q, want %q", c.name, got, c.cold)
		}
		if got := v.whereNow(d, &d.Steps[1], pl); got != c.where {
			t.Errorf("%s: got %q, want %q", c.name, got, c.where)
		}
	}
}
