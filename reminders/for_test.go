package reminders

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	_ "time/tzdata"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/words"
	"tureen/store"
)

// Saturday 26 September 2026; Lisbon is an hour ahead of UTC.
func at(hour, minute int) time.Time { return time.Date(2026, 9, 26, hour-1, minute, 0, 0, time.UTC) }

func instantOf(t time.Time) *time.Time { return &t }

// tart is a party with one dish that has nearly everything a reminder may speak of, and its plan.
func tart() (*planner.Party, *planner.Plan) {
	p := &planner.Party{
		ID: 1, Name: "Autumn supper", Zone: "Europe/Lisbon", Arrival: at(19, 0), Covers: 8, Kitchen: planner.HomeKitchen(),
		Courses: []planner.Course{{Key: "dessert", Name: "dessert", Servings: []planner.Serving{{At: at(21, 0), Late: 10}}}},
		People: []planner.Person{
			{Key: "ada", Name: "Ada", Role: planner.Host, Cooks: planner.DayHours{From: 540, Until: 1320}},
			{Key: "ben", Name: "Ben", Role: planner.CoHost, Cooks: planner.DayHours{From: 540, Until: 1320}},
		},
		Dishes: []planner.Dish{{Key: "pear-tart", Name: "Pear tart", Course: "dessert", Serves: 8, Steps: []planner.Step{
			{Key: "rub", Do: "Rub the butter into the flour", Component: "pastry", Attention: planner.Hands, Time: span(20),
				Where: planner.Counter},
			{Key: "roll", Do: "Roll out the pastry", Component: "shell", Attention: planner.Hands,
				Time:  planner.Span{Low: 15, Likely: 20, High: 30},
				Where: planner.Counter, After: []planner.After{{Step: "rub",
					Wait: planner.Wait{State: planner.Refrigerator, Least: 60}}}},
			{Key: "bake", Do: "Bake the tart", Attention: planner.Watch, Time: planner.Span{Low: 35, Likely: 45, High: 55},
				Where: planner.Heat, Cooks: true,
				Until: "browned at the rim", Uses: []planner.Use{{What: planner.AnOven, C: 180}},
				After: []planner.After{{Step: "roll", Wait: planner.Wait{State: planner.Counter}}},
				Serve: &planner.Wait{State: planner.Counter, Least: 30}},
		}}},
		Chores: []planner.Chore{{Key: "cream", Kind: planner.Shop, Do: "Buy cream", Attention: planner.Hands, Time: span(30),
			Away: true,
			By:   []planner.Anchor{{Task: "pear-tart/bake"}}}},
	}
	hands := func(k planner.TaskKey, start time.Time, minutes int, who ...planner.PersonKey) planner.Placed {
		return planner.Placed{Task: k, Start: start, End: start.Add(time.Duration(minutes) * time.Minute), People: who}
	}
	bake := hands("pear-tart/bake", at(17, 30), 45, "ben")
	bake.Uses = []planner.Held{{What: planner.AnOven, Name: "oven", Amount: 1, C: 180, From: bake.Start, To: bake.End}}
	plan := &planner.Plan{Made: at(8, 0), Revision: 1, Tasks: []planner.Placed{
		hands("pear-tart/rub", at(10, 0), 20, "ada"),
		hands("cream", at(11, 0), 30, "ben"),
		hands("pear-tart/roll", at(16, 0), 20, "ada"),
		bake,
	}, Served: []planner.Served{{Course: "dessert", At: at(21, 0)}}}
	return p, plan
}

func span(m planner.Minutes) planner.Span { return planner.Span{Low: m, Likely: m, High: m} }

// told renders reminders one a line: due in Lisbon, person, kind, task, first line.
func told(list []store.Reminder) []string {
	zone, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		panic(err) // the zones are embedded
	}
	var out []string
	for _, r := range list {
		first, _, _ := strings.Cut(words.PlainStamps(r.Text), "\n")
		out = append(out, strings.Join([]string{r.Due.In(zone).Format("Mon 15:04"), string(r.Person), string(r.Kind),
			string(r.Task), first}, "|"))
	}
	return out
}

func find(t *testing.T, list []store.Reminder, key string) store.Reminder {
	t.Helper()
	for _, r := range list {
		if r.Key == key {
			return r
		}
	}
	t.Fatalf("no reminder %q among %q", key, told(list))
	return store.Reminder{}
}

// byKind keeps the reminders of one kind.
func byKind(list []store.Reminder, kind store.ReminderKind) []store.Reminder {
	return slices.DeleteFunc(slices.Clone(list), func(r store.Reminder) bool { return r.Kind != kind })
}

func TestForOneDish(t *testing.T) {
	p, plan := tart()
	expect(t, told(each(p, plan)),
		"Fri 20:00|ada|digest||Your Saturday: 2 tasks from 10:00.",
		"Fri 20:00|ben|digest||Your Saturday: 2 tasks from 11:00.",
		"Sat 09:55|ada|due|pear-tart/rub|Rub the butter into the flour at 10:00.",
		"Sat 10:30|ben|shop|cream|Buy cream at 11:00.",
		"Sat 14:40|ada|last|pear-tart/rub|Last moment to start: rub the butter into the flour.",
		"Sat 16:00|ada|out|pear-tart/roll|Take the pastry out of the refrigerator now.",
		"Sat 17:00|ben|last|cream|Last moment to start: buy cream.",
		"Sat 17:10|ada|last|pear-tart/roll|Last moment to start: roll out the pastry.",
		"Sat 17:15|ben|preheat|pear-tart/bake|Turn the oven on to 180 °C now.",
		"Sat 17:30|ben|due|pear-tart/bake|Bake the tart now.",
		"Sat 18:05|ben|check|pear-tart/bake|Pear tart: browned at the rim?",
		"Sat 18:15|ada|unticked||Done, though not ticked off? 1 task.",
		"Sat 18:30||guests||Guests in 30 minutes: they come at 19:00.",
		"Sat 19:45|ben|last|pear-tart/bake|Not started yet? Then this is the last moment: bake the tart.",
		"Sat 20:55||service||Dessert in 5 minutes, at 21:00.")
}

func TestWordsOfAReminder(t *testing.T) {
	p, plan := tart()
	list := each(p, plan)
	for key, want := range map[string]string{
		"due/pear-tart/roll/ada": "Take the pastry out of the refrigerator now.\nThen: Roll out the pastry. Pear tart, " +
			"dessert. About 20 minutes (15 to 30).\n" +
			`It can wait until 17:10; after that "Bake the tart" comes late (Pear tart, dessert).` +
			"\nNot ticked off: rub the butter into the flour.",
		"due/pear-tart/bake/ben": "Bake the tart now.\nPear tart, dessert. About 45 minutes (35 to 55).\nOn the " +
			"counter: the shell.\nIt can wait until 19:45; after that dessert would be late.\nNot ticked off: buy cream.",
		"preheat/pear-tart/bake/ben": "Turn the oven on to 180 °C now.\nIt takes 15 minutes. At 17:30 it is wanted: Bake " +
			"the tart (Pear tart, dessert).\nA cold oven would make the dessert late.",
		"check/pear-tart/bake/0/ben": "Pear tart: browned at the rim?\nBake the tart (Pear tart, dessert), planned from " +
			"17:30. It can " +
			"be from 18:05 on and is likely at 18:15.",
		"service/dessert/": "Dessert in 5 minutes, at 21:00.\nPear tart: on the counter.",
		"digest/2026-09-26/ben": "Your Saturday: 2 tasks from 11:00.\n11:00 Buy cream, 30 minutes\n" +
			"17:30 Bake the tart (Pear tart, dessert), 45 minutes",
	} {
		if got := words.PlainStamps(find(t, list, key).Text); got != want {
			t.Errorf("%s: got\n%s\nwant\n%s", key, got, want)
		}
	}
}

// What has been said of a task decides which of its reminders are left.
func TestForFollowsProgress(t *testing.T) {
	for _, c := range []struct {
		name string
		work planner.Work
		want []string
	}{
		{"waiting", planner.Work{}, []string{"17:15 preheat", "17:30 due", "18:05 check", "19:45 last"}},
		{"started on time", planner.Work{Progress: planner.Started, Start: instantOf(at(17, 30))}, []string{"18:05 check"}},
		{"started late", planner.Work{Progress: planner.Started, Start: instantOf(at(17, 50))}, []string{"18:25 check"}},
		{"ten minutes more", planner.Work{Progress: planner.Started, Start: instantOf(at(17, 30)), Extra: 10},
			[]string{"18:25 check"}},
		{"done", planner.Work{Progress: planner.Done}, nil},
		{"skipped", planner.Work{Progress: planner.Skipped}, nil},
	} {
		p, plan := tart()
		c.work.Task = "pear-tart/bake"
		p.Work = append(p.Work, c.work)
		var got []string
		for _, r := range each(p, plan) {
			if r.Task == c.work.Task {
				got = append(got, r.Due.In(p.Location()).Format("15:04 ")+string(r.Kind))
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// More time asks again: the question has another key, so that it comes although the first was sent.
func TestMoreTimeAsksAgain(t *testing.T) {
	p, plan := tart()
	first := byKind(each(p, plan), Check)
	p.Work = []planner.Work{{Task: "pear-tart/bake", Progress: planner.Started, Start: instantOf(at(17, 30)), Extra: 5}}
	second := byKind(each(p, plan), Check)
	if len(first) != 1 || len(second) != 1 || first[0].Key == second[0].Key {
		t.Errorf("got %q and %q, want one question each, of different keys", told(first), told(second))
	}
}

func TestQuietHours(t *testing.T) {
	quiet := planner.DayHours{From: 16 * 60, Until: 17 * 60} // an unlikely nap, over the rolling
	for _, c := range []struct {
		name string
		do   func(p *planner.Party, plan *planner.Plan)
		want string // when Ada is told to take the pastry out
	}{
		{"hands planned in them", func(*planner.Party, *planner.Plan) {}, "16:00"},
		{"moved to their end", func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Steps[1].Attention = planner.Watch },
			"17:00"},
		{"stale by then: told before", func(p *planner.Party, plan *planner.Plan) {
			p.Dishes[0].Steps[1].Attention = planner.Watch
			plan.Tasks[3].Start = at(16, 20)
		}, "15:59"},
		{"no room left by then: told before", func(p *planner.Party, plan *planner.Plan) {
			p.Dishes[0].Steps[1].Attention = planner.Watch
			for i := range plan.Tasks { // it goes on for so long that it cannot start at five
				if plan.Tasks[i].Task == "pear-tart/roll" {
					plan.Tasks[i].End = at(17, 25)
				}
			}
		}, "15:59"},
		{"between hands work: up anyway", func(p *planner.Party, plan *planner.Plan) {
			p.Dishes[0].Steps[1].Attention = planner.Watch
			for i := range plan.Tasks {
				if plan.Tasks[i].Task == "pear-tart/rub" {
					plan.Tasks[i].Start, plan.Tasks[i].End = at(15, 20), at(15, 40)
				}
			}
		}, "16:00"},
		{"accepted", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[1].Attention = planner.Watch
			p.Work = []planner.Work{{Task: "pear-tart/roll", Person: "ada", AtNight: true}}
		}, "16:00"},
		{"the party's evening", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[1].Attention = planner.Watch
			p.Arrival = at(16, 10)
		}, "16:00"},
	} {
		p, plan := tart()
		p.People[0].Quiet = quiet
		c.do(p, plan)
		r := find(t, each(p, plan), "due/pear-tart/roll/ada")
		if got := r.Due.In(p.Location()).Format("15:04"); got != c.want {
			t.Errorf("%s: told at %s, want %s", c.name, got, c.want)
		}
		first, _, _ := strings.Cut(r.Text, "\n")
		if early := c.want == "15:59"; early != strings.Contains(r.Text, "This comes early") ||
			early == strings.HasSuffix(first, " now.") {
			t.Errorf("%s: told at %s: %q", c.name, c.want, r.Text)
		}
	}
}

// Quiet hours end by the clock on the wall on the nights when it is set: the European rule sets it back at
// 01:00 UTC on the last Sunday of October and forward on the last Sunday of March (Directive 2000/84/EC).
func TestQuietHoursOverClockChange(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	who := &planner.Person{Quiet: planner.DayHours{From: 22 * 60, Until: 7 * 60}}
	for _, c := range []struct {
		in   time.Time
		long time.Duration
	}{
		{time.Date(2026, 10, 25, 3, 0, 0, 0, time.UTC), 10 * time.Hour},
		{time.Date(2026, 3, 29, 3, 0, 0, 0, time.UTC), 8 * time.Hour},
		{time.Date(2026, 9, 26, 3, 0, 0, 0, time.UTC), 9 * time.Hour},
	} {
		w, quiet := quietAt(who, c.in, zone)
		if long := w.To.Sub(w.From); !quiet || long != c.long || w.To.In(zone).Hour() != 7 {
			t.Errorf("%v: %v of quiet until %v, want %v until 7:00", c.in, long, w.To.In(zone), c.long)
		}
	}
}

// Whatever a party has, reminders fit where they go: keys are different, a lock screen's line is short,
// a button's message fits a chat's limit.
func TestRemindersFit(t *testing.T) {
	p, plan := partygen.Rich()
	seen := map[string]bool{}
	list := each(p, plan)
	for _, r := range list {
		if seen[r.Key] {
			t.Errorf("two have the key %s", r.Key)
		}
		seen[r.Key] = true
		first, _, _ := strings.Cut(words.PlainStamps(r.Text), "\n")
		if n := len([]rune(first)); n == 0 || n > 90 {
			t.Errorf("%s: a first line of %d characters: %q", r.Key, n, first)
		}
		for _, b := range r.Buttons {
			if len(b.Do) > 88 || len([]rune(b.Label)) > 80 || strings.HasPrefix(b.Do, "/") {
				t.Errorf("%s: button %+v does not fit", r.Key, b)
			}
		}
		if r.Due.After(r.Until) {
			t.Errorf("%s is due at %v and stale at %v", r.Key, r.Due, r.Until)
		}
	}
	if len(list) < 50 {
		t.Errorf("%d reminders, want a rich party's", len(list))
	}
}

// Names as long as people can make them still leave messages that a chat takes (Discord: 2000 characters,
// https://discord.com/developers/docs/resources/message, from memory), with the stamps as it writes them.
func TestLongNamesFit(t *testing.T) {
	p, plan := partygen.Rich()
	long := strings.Repeat("Beurre à la façon 🧈 ", 15)
	p.Name = long
	for i := range p.Courses {
		p.Courses[i].Name = long + p.Courses[i].Name
	}
	for i := range p.Dishes {
		p.Dishes[i].Name = long + p.Dishes[i].Name
		for j := range p.Dishes[i].Steps {
			s := &p.Dishes[i].Steps[j]
			s.Do, s.Component, s.Until = long+s.Do, long, long
		}
	}
	for i := range p.People {
		p.People[i].Name = long + p.People[i].Name
	}
	for i := range plan.Tasks { // one person has it all, on one day
		plan.Tasks[i].People = []planner.PersonKey{p.People[0].Key}
	}
	for _, r := range each(p, plan) {
		drawn := words.RenderStamps(r.Text, func(i words.Instant) string {
			return fmt.Sprintf("<t:%d:%c>", i.At.Unix(), i.Style)
		})
		if n := len([]rune(drawn)); n > 1950 {
			t.Errorf("%s has %d characters", r.Key, n)
		}
	}
}

// The last moment in a reminder is never after what the planner's own search for time to spare says.
func TestLastStartPromisesNoMoreThanSpare(t *testing.T) {
	p, plan := partygen.Rich()
	v := see(p, plan)
	exact := 0
	for i := range plan.Tasks {
		pl := &plan.Tasks[i]
		last, _ := v.lastStart(v.tasks[pl.Task], pl)
		room, decider := check.SpareOf(p, plan, pl.Task)
		got := planner.Minutes(last.Sub(pl.Start) / time.Minute)
		if got > room {
			t.Errorf("%s: %d minutes, but there is room for %d: %s", pl.Task, got, room, decider)
		}
		if got == room {
			exact++
		}
	}
	if exact < len(plan.Tasks)*2/3 {
		t.Errorf("only %d of %d agree", exact, len(plan.Tasks))
	}
}

func TestStagesOfAnOven(t *testing.T) {
	p, plan := partygen.Rich()
	expect(t, told(byKind(each(p, plan), Preheat)),
		"Sat 14:15|ben|preheat|tart/bake|Turn the oven on to 180 °C now.",
		"Sat 17:07|ana|preheat|braise/braise|Turn the oven on to 150 °C now.",
		"Sat 18:31|cleo|preheat|bread/bake|Turn the small oven on to 230 °C now.",
		"Sat 19:00|cleo|preheat|bread/bake|Turn the small oven down to 200 °C now.")
}

// each lists what every task wants by itself, before it is gathered by session.
func each(p *planner.Party, plan *planner.Plan) []store.Reminder {
	v := see(p, plan)
	return v.inOrder(v.each(plan))
}
