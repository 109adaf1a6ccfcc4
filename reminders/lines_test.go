package reminders

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/store"
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
		return planner.Wait{State: s, Hold: &planner.Use{What: planner.ASource, Name: name}}
	}
	for _, c := range []struct{ got, want string }{
		{PlainStamps(opening("Peel the beets.", noon, 0, zone)), "Peel the beets now."},
		{PlainStamps(opening("Peel the beets", noon, time.Minute, zone)), "Peel the beets at 12:00."},
		{PlainStamps(opening("Peel, cut and salt", noon, time.Minute, zone)), "At 12:00: Peel, cut and salt."},
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
		{question("browned at the rim."), "Browned at the rim?"}, {question("soft?"), "Soft?"},
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

// served is the line of a dish in the word about its course.
func served(t *testing.T, p *planner.Party, plan *planner.Plan, dish string) string {
	t.Helper()
	for _, r := range byKind(For(p, plan), Service) {
		for line := range strings.Lines(PlainStamps(r.Text)) {
			if line = strings.TrimSpace(line); strings.HasPrefix(line, dish) {
				return line
			}
		}
	}
	return ""
}

// TestToServe: a dish is where it waits, each place once, or what is still done to it, and on what it is served.
func TestToServe(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(p *planner.Party, plan *planner.Plan)
		want string
	}{
		{"as it is", func(*planner.Party, *planner.Plan) {}, "Pear tart: on the counter."},
		{"on a dish", func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Ware = "oval plate" },
			"Pear tart: on the counter; on the oval plate."},
		{"a part of it", func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Steps[2].Component = "crust" },
			"Pear tart: the crust on the counter."},
		{"two parts in one place", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[0].Component, p.Dishes[0].Steps[0].Serve = "", &planner.Wait{State: planner.Counter}
		}, "Pear tart: on the counter."},
		{"straight to the table", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].Serve = &planner.Wait{State: planner.Straight}
		}, "Pear tart."},
		{"done as the word comes", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("pear-tart/bake").End = at(20, 45)
		}, "Pear tart: on the counter."},
		{"still in the oven then", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("pear-tart/bake").End = at(20, 46)
		}, "Pear tart: bake the tart until 20:46."},
		{"not in the plan", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks = plan.Tasks[:3] }, "Pear tart."},
	} {
		p, plan := tart()
		c.do(p, plan)
		if got := served(t, p, plan, "Pear tart"); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// TestLongCourses: of a course with many dishes eight are named, and how many more there are; one that is left out is
// not, and a course that is left out altogether is not announced. A group is named.
func TestLongCourses(t *testing.T) {
	for dishes := 7; dishes <= 11; dishes++ {
		p, plan := tart()
		plan.Served[0].Group = "toddlers"
		for n := len(p.Dishes); n < dishes; n++ {
			p.Dishes = append(p.Dishes, planner.Dish{Key: planner.DishKey(fmt.Sprintf("dish-%d", n)), Name: "Bowl",
				Course: "dessert", Serves: 8})
		}
		p.Dishes = append(p.Dishes, planner.Dish{Key: "soup", Name: "Soup", Course: "starter", Serves: 8})
		r := byKind(For(p, plan), Service)
		if len(r) != 1 || !strings.HasPrefix(r[0].Text, "Dessert for toddlers in 15 minutes") {
			t.Fatalf("got %q", told(r))
		}
		lines := strings.Split(r[0].Text, "\n")[1:]
		if last := lines[len(lines)-1]; dishes > 8 {
			if len(lines) != 9 || last != fmt.Sprintf("and %d more", dishes-8) {
				t.Errorf("%d dishes: %q", dishes, lines)
			}
		} else if len(lines) != dishes || strings.Contains(last, "more") {
			t.Errorf("%d dishes: %q", dishes, lines)
		}
	}
	p, plan := tart()
	plan.Soft, plan.Without = true, []planner.LeftOut{{Dish: "pear-tart"}}
	if r := byKind(For(p, plan), Service); len(r) != 0 {
		t.Errorf("nothing of the course comes to the table: %q", told(r))
	}
	p.Dishes = nil
	if r := byKind(For(p, plan), Service); len(r) != 1 {
		t.Errorf("a course that has no dishes is served all the same: %q", told(r))
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
	if got := v.called(v.tasks["chore/cream"]); got != "Buy cream" {
		t.Errorf("a chore: %q", got)
	}
	p.Dishes[0].Course = "nothing"
	if got := v.called(&task); !strings.HasPrefix(got, "Bake the tart (Pear tart, round") {
		t.Errorf("without a course: %q", got)
	}
}

// dayOf is Ada's list, with so many tasks on the party's day; each is called by its number.
func dayOf(tasks int) (*planner.Party, *planner.Plan) {
	p, plan := tart()
	p.Chores, plan.Tasks = nil, nil
	for n := range tasks {
		key := planner.ChoreKey(fmt.Sprintf("chore-%02d", n))
		p.Chores = append(p.Chores, planner.Chore{Key: key, Kind: planner.Other, Do: fmt.Sprintf("Number %d.", n+1),
			Attention: planner.Hands, Time: span(5)})
		start := at(10, 10*n)
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.ChoreTask(key), Start: start,
			End: start.Add(5 * time.Minute), People: []planner.PersonKey{"ada"}})
	}
	return p, plan
}

// TestDigest: a day's list has twelve tasks, says how many more there are, leaves out what is over, and is kept until
// the last of it ends.
func TestDigest(t *testing.T) {
	for _, c := range []struct {
		tasks int
		head  string
		lines int
		last  string
	}{
		{1, "Your day: 1 task at 10:00, number 1.", 1, "10:00 Number 1, 5 minutes"},
		{2, "Your day: 2 tasks, the first at 10:00, number 1.", 2, "10:10 Number 2, 5 minutes"},
		{12, "Your day: 12 tasks, the first at 10:00, number 1.", 12, "11:50 Number 12, 5 minutes"},
		{13, "Your day: 13 tasks, the first at 10:00, number 1.", 13, "and 1 more"},
		{15, "Your day: 15 tasks, the first at 10:00, number 1.", 13, "and 3 more"},
	} {
		p, plan := dayOf(c.tasks)
		list := byKind(For(p, plan), Digest)
		if len(list) != 1 || list[0].Person != "ada" || !list[0].Due.Equal(at(8, 0)) ||
			!list[0].Until.Equal(plan.Tasks[c.tasks-1].End) {
			t.Fatalf("%d tasks: %+v", c.tasks, list)
		}
		lines := strings.Split(PlainStamps(list[0].Text), "\n")
		if lines[0] != c.head || len(lines) != c.lines+1 || lines[len(lines)-1] != c.last {
			t.Errorf("%d tasks: %q", c.tasks, lines)
		}
	}
	p, plan := dayOf(4)
	p.Work = []planner.Work{{Task: plan.Tasks[0].Task, Progress: planner.Done},
		{Task: plan.Tasks[1].Task, Progress: planner.Started}, {Task: plan.Tasks[3].Task, Progress: planner.Skipped}}
	plan.Tasks[2].Start = at(24+10, 0) // tomorrow's
	got := DigestOf(p, plan, &p.People[0], at(15, 0))
	if PlainStamps(got) != "Your day: 1 task at 10:10, number 2.\n10:10 Number 2, 5 minutes" {
		t.Errorf("what is over, or tomorrow's, is listed: %q", got)
	}
	if got := DigestOf(p, plan, &p.People[1], at(15, 0)); got != "" {
		t.Errorf("Ben has nothing to do: %q", got)
	}
	if got := DigestOf(p, nil, &p.People[0], at(15, 0)); got != "" {
		t.Errorf("there is no plan: %q", got)
	}
}

// TestDigestComesInTheMorning: at the end of quiet hours, or at eight; and not where all is over by then.
func TestDigestComesInTheMorning(t *testing.T) {
	for _, c := range []struct {
		quiet planner.DayHours
		due   time.Time
	}{
		{planner.DayHours{}, at(8, 0)}, {planner.DayHours{From: 600, Until: 600}, at(8, 0)},
		{planner.DayHours{From: 22 * 60, Until: 7 * 60}, at(7, 0)}, {planner.DayHours{From: 60, Until: 24 * 60}, at(0, 0)},
		{planner.DayHours{From: 60, Until: 10*60 + 5}, at(10, 5)},
		{planner.DayHours{From: 60, Until: 10*60 + 6}, time.Time{}}, // the only task ends at 10:05
	} {
		p, plan := dayOf(1)
		p.People[0].Quiet = c.quiet
		var got time.Time
		if list := byKind(For(p, plan), Digest); len(list) > 0 {
			got = list[0].Due
		}
		if !got.Equal(c.due) {
			t.Errorf("quiet %+v: at %v, want %v", c.quiet, got, c.due)
		}
	}
}

// due is a row due at an instant and stale after another.
func dueRow(id int64, due, until time.Time) store.Row {
	return store.Row{ID: id, Reminder: store.Reminder{Due: due, Until: until, Text: fmt.Sprintf("Do %d now.\nMore.", id)}}
}

// TestMessagesSayThatTheyAreLate: from two minutes on; and what is of no use any more is folded into one.
func TestMessagesSayThatTheyAreLate(t *testing.T) {
	noon := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	soon, hour := dueRow(1, noon, noon), dueRow(1, noon, noon.Add(time.Hour))
	for _, c := range []struct {
		row   store.Row
		after time.Duration
		want  string
	}{
		{hour, 0, "Do 1 now.\nMore."}, {hour, 119 * time.Second, "Do 1 now.\nMore."},
		{hour, 2 * time.Minute, "Do 1 now.\nMore.\nThis comes 2 minutes late; it was due at Sat 12:00."},
		{hour, time.Hour, "Do 1 now.\nMore.\nThis comes 1 hour late; it was due at Sat 12:00."},
		{hour, time.Hour + time.Second, "A reminder comes too late to act on. Look at what has to be done now.\n" +
			"Sat 12:00: Do 1 now."},
		{soon, time.Minute, "Do 1 now.\nMore."},
		{soon, 2 * time.Minute, "A reminder comes too late to act on. Look at what has to be done now.\n" +
			"Sat 12:00: Do 1 now."},
	} {
		if got := PlainStamps(text([]store.Row{c.row}, time.UTC, noon.Add(c.after))); got != c.want {
			t.Errorf("%v late: got %q, want %q", c.after, got, c.want)
		}
	}
	for _, n := range []int{2, 12, 13, 15} {
		var rows []store.Row
		for i := range n {
			rows = append(rows, dueRow(int64(i+1), noon, noon))
		}
		lines := strings.Split(PlainStamps(text(rows, time.UTC, noon.Add(time.Hour))), "\n")
		if !strings.HasPrefix(lines[0], fmt.Sprintf("%d reminders", n)) || len(lines) != 1+min(n, 13) ||
			lines[min(n, 12)] != fmt.Sprintf("Sat 12:00: Do %d now.", min(n, 12)) ||
			n > 12 && lines[13] != fmt.Sprintf("and %d more", n-12) {
			t.Errorf("%d rows: %q", n, lines)
		}
	}
	batch := hour
	batch.Batch = 7
	if got := text([]store.Row{batch}, time.UTC, noon); !strings.HasPrefix(got, "A reminder comes too late") {
		t.Errorf("what is left of a batch: %q", got)
	}
}

// TestGroup: what went out together stays together, what is stale is folded by party and person, the rest is alone.
func TestGroup(t *testing.T) {
	noon := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	row := func(id, batch int64, party planner.PartyID, who planner.PersonKey, useful, unsure bool) store.Row {
		r := dueRow(id, noon, noon)
		if useful {
			r.Until = noon.Add(2 * time.Hour)
		}
		r.Batch, r.Party, r.Person, r.Unsure = batch, party, who, unsure
		return r
	}
	rows := []store.Row{
		row(1, 0, 1, "ada", false, false), row(2, 0, 1, "ada", true, false), row(3, 0, 1, "ben", false, false),
		row(4, 0, 1, "ada", false, false), row(5, 0, 2, "ada", false, false), row(6, 9, 1, "ada", false, true),
		row(7, 0, 1, "ada", false, true), row(8, 9, 1, "ben", true, true), row(9, 0, 1, "ada", true, false),
	}
	var got []string
	for _, g := range (&Dispatcher{}).group(rows, noon.Add(time.Hour)) {
		var ids []string
		for _, r := range g {
			ids = append(ids, fmt.Sprint(r.ID))
		}
		got = append(got, strings.Join(ids, "+"))
	}
	expect(t, got, "1+4", "2", "3", "5", "6+8", "7", "9")
}

// TestKeysOfMessages: every message and round has its own, a batch its own again, all within 25 characters.
func TestKeysOfMessages(t *testing.T) {
	seen := map[string]bool{}
	for _, id := range []int64{1, 2, 35, 36, 1<<63 - 1} {
		for _, batch := range []int64{0, id} {
			for _, round := range []int{0, 1, 1 << 20} {
				r := store.Row{ID: id, Batch: batch, Round: round}
				k := keyOf([]store.Row{r, {ID: 5}})
				if seen[k] || len(k) > 25 {
					t.Errorf("%+v: %q, of %d characters; had before: %t", r, k, len(k), seen[k])
				}
				seen[k] = true
			}
		}
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

// TestLeads: who works with hands hears five minutes before, who goes out half an hour before, the others on time; and
// who takes part, that another is in charge.
func TestLeads(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(p *planner.Party)
		due  time.Time
	}{
		{"hands", func(*planner.Party) {}, at(9, 55)},
		{"hands, elsewhere", func(p *planner.Party) { p.Dishes[0].Steps[0].Away = true }, at(9, 30)},
		{"a watch", func(p *planner.Party) { p.Dishes[0].Steps[0].Attention = planner.Watch }, at(10, 0)},
	} {
		p, plan := tart()
		plan.Placed("pear-tart/rub").People = []planner.PersonKey{"ada", "ben"}
		c.do(p)
		list := For(p, plan)
		first, second := find(t, list, "due/pear-tart/rub/ada"), find(t, list, "due/pear-tart/rub/ben")
		for _, r := range []store.Reminder{first, second} {
			if !r.Due.Equal(c.due) || !r.At.Equal(at(10, 0)) || !strings.Contains(r.Text, "Ada and Ben together") {
				t.Errorf("%s: %v, %q", c.name, r.Due, r.Text)
			}
		}
		const charge = "Ada is in charge."
		if strings.Contains(first.Text, charge) || !strings.Contains(second.Text, charge) {
			t.Errorf("%s: who is in charge is told so: %q, %q", c.name, first.Text, second.Text)
		}
		// The last moment: Ben shops from 11:00; without hands, the pastry is cold for an hour by 16:00.
		if last := map[bool]time.Time{true: at(10, 40), false: at(14, 40)}[c.name != "a watch"]; !first.Until.Equal(last) {
			t.Errorf("%s: of use until %v", c.name, first.Until)
		}
	}
}

// TestLastMomentIsWorthTelling: from a quarter of an hour of room on.
func TestLastMomentIsWorthTelling(t *testing.T) {
	for minutes, want := range map[int]int{14: 0, 15: 1, 16: 1} {
		p, plan := tart()
		plan.Placed("pear-tart/bake").Start = at(16, 20+minutes) // the rolling ends at 16:20
		n := 0
		for _, r := range byKind(For(p, plan), Last) {
			if r.Task == "pear-tart/roll" {
				n++
				if !r.Due.Equal(at(16, minutes)) || !r.Until.Equal(at(16, minutes+20)) {
					t.Errorf("%d minutes of room: at %v until %v", minutes, r.Due, r.Until)
				}
			}
		}
		if n != want {
			t.Errorf("%d minutes of room: told %d times, want %d", minutes, n, want)
		}
	}
}

// TestOvenStaysOn: over a pause of up to 45 minutes an oven is left on, so that a load at the same setting asks for
// nothing; after a longer one it is cold.
func TestOvenStaysOn(t *testing.T) {
	for _, c := range []struct {
		pause, celsius int
		want           []string // when it is to be set, and how
	}{
		{0, 180, nil}, {45, 180, nil}, {46, 180, []string{"18:46 Turn the oven on"}},
		{10, 200, []string{"18:17 Turn the oven up"}}, {5, 200, []string{"18:15 Turn the oven up"}},
		{10, 130, []string{"18:15 Turn the oven down"}}, {46, 200, []string{"18:44 Turn the oven on"}},
	} {
		p, plan := tart()
		p.Kitchen.Ovens = []planner.Oven{{Name: "oven", Shelves: 2, MinC: 50, MaxC: 250, Preheat: 15, Rise: 20, Fall: 20}}
		p.Chores = append(p.Chores, planner.Chore{Key: "warm", Do: "Warm the plates", Attention: planner.Rest, Time: span(5)})
		start := at(18, 15+c.pause)
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: "chore/warm", Start: start, End: start.Add(5 * time.Minute),
			People: []planner.PersonKey{"ada"}, Uses: []planner.Held{{What: planner.AnOven, Name: "oven", Amount: 1,
				C: c.celsius, From: start, To: start.Add(5 * time.Minute)}}})
		var got []string
		for _, r := range byKind(For(p, plan), Preheat) {
			if r.Task == "chore/warm" {
				first, _, _ := strings.Cut(r.Text, " to ")
				got = append(got, r.Due.In(p.Location()).Format("15:04 ")+first)
				if r.Person != "ada" || !r.At.Equal(start) || strings.Contains(r.Text, "cold oven") {
					t.Errorf("%d minutes' pause: %+v", c.pause, r)
				}
			}
		}
		heat := p.Kitchen.Ovens[0].PreheatTo(c.celsius)
		if c.pause == 46 { // from cold
			c.want = []string{start.Add(-heat.Duration()).In(p.Location()).Format("15:04 ") + "Turn the oven on"}
		}
		if strings.Join(got, ", ") != strings.Join(c.want, ", ") {
			t.Errorf("%d minutes' pause, %d °C: got %q, want %q", c.pause, c.celsius, got, c.want)
		}
	}
}

// TestStagesFollowTheStart: a change of temperature comes so long after the step has begun, and not once it is over.
func TestStagesFollowTheStart(t *testing.T) {
	for _, c := range []struct {
		work planner.Work
		want []string
	}{
		{planner.Work{}, []string{"17:45 Turn the oven down to 150 °C now.", "17:55 Turn the oven up to 190 °C now.",
			"18:05 Turn the oven off now."}},
		{planner.Work{Progress: planner.Started, Start: instantOf(at(17, 40))}, []string{
			"17:55 Turn the oven down to 150 °C now.", "18:05 Turn the oven up to 190 °C now.",
			"18:15 Turn the oven off now."}},
		{planner.Work{Progress: planner.Done}, nil},
	} {
		p, plan := tart()
		p.Dishes[0].Steps[2].Uses[0].Then = []planner.HeatStage{{After: 15, C: 150}, {After: 25, C: 190}, {After: 35}}
		c.work.Task = "pear-tart/bake"
		p.Work = []planner.Work{c.work}
		var got []string
		for _, r := range For(p, plan) {
			if strings.HasPrefix(r.Key, "stage/") {
				first, _, _ := strings.Cut(r.Text, "\n")
				got = append(got, r.Due.In(p.Location()).Format("15:04 ")+first)
			}
		}
		if strings.Join(got, ", ") != strings.Join(c.want, ", ") {
			t.Errorf("%+v: got %q, want %q", c.work, got, c.want)
		}
	}
}

// TestStampsAreThoseOfWords: the marks that stand under names of this package are read again.
func TestStampsAreThoseOfWords(t *testing.T) {
	noon := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	if got := PlainStamps(StampAs(noon, Clock, "noon")); got != "noon" {
		t.Errorf("an instant as it was said: %q", got)
	}
	if got := PlainStamps(Key("pear-tart")); !strings.Contains(got, "pear-tart") || got == Key("pear-tart") {
		t.Errorf("a key: %q", got)
	}
}
