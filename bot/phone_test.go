package bot

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/reminders"
	"tureen/store"
)

// eightStories are parties of ready dishes, each planned as anybody's.
var eightStories = []struct{ name, courses, dishes, coHosts string }{
	{"roast chicken", "starter 19:30, main 20:15, dessert 21:15",
		"leek and potato soup|roast chicken|rosemary roast potatoes|lemon tart", "Ben"},
	{"braise ahead", "starter 19:30, main 20:15, dessert 21:15",
		"onion tart|beef braised|celeriac mash|chocolate pots", "Ben"},
	{"fish", "starter 19:30, main 20:15, dessert 21:15",
		"roast tomato soup|cod with tomatoes|herbed rice|lemon posset", "Ben, Cleo"},
	{"alone", "main 20:00, dessert 21:00",
		"fish pie|ginger cake", ""},
	{"vegetables", "starter 19:30, main 20:15, dessert 21:15",
		"pumpkin soup|mushroom and barley|red cabbage|baked apples", "Ben"},
	{"turkey", "starter 19:30, main 20:30, dessert 21:30",
		"potted smoked mackerel|roast turkey|roast roots|gravy made ahead|pears in spiced wine", "Ben, Cleo"},
	{"lasagne", "nibbles 19:15, main 20:15, dessert 21:15",
		"rosemary almonds|courgette and ricotta|leaves with mustard|chocolate pots", "Ben"},
	{"pork", "starter 19:30, main 20:15, dessert 21:15",
		"roast peppers|roast pork|potatoes baked in cream|baked cheesecake", "Ben"},
}

// story plans one of them.
func (tb *table) story(n int) (*planner.Party, *planner.Plan) {
	s := eightStories[n]
	tb.must("Ana", "/party new name:"+s.name+" date:2026-09-26 arrive:19:00 covers:8 zone:Europe/Lisbon courses:"+
		s.courses)
	for _, who := range strings.Split(s.coHosts, ", ") {
		if who != "" {
			tb.must("Ana", "/people add name:"+who+" role:co-host cooks:15:00-23:00")
		}
	}
	for _, d := range strings.Split(s.dishes, "|") {
		if rep := tb.say("Ana", "/repertoire add dish:"+d); rep.Refused {
			tb.must("Ana", "/repertoire add course:starter dish:"+d)
		}
	}
	tb.must("Ana", "/plan make")
	snap := tb.party()
	agreed := *snap.Plan
	agreed.Draft = false
	return &snap.Party, &agreed
}

// TestSoundingMessages counts, over eight stories, what rings on whose telephone where nobody ticks anything: who hosts
// hears at most two messages before the last four hours of a day and six in them, a co-host four a day, beside those
// that safety, an oven or a service decides; and each of those moments has one at most five minutes before it.
func TestSoundingMessages(t *testing.T) {
	var lines []string
	for n, s := range eightStories {
		tb := newTable(t)
		p, plan := tb.story(n)
		list := reminders.For(p, plan)
		zone, lastHours := p.Location(), p.Arrival.Add(-planner.LateOn)
		for _, x := range p.People {
			counts := map[string]*[3]int{} // by day: sounding, decided, silent
			var days []string
			for _, r := range list {
				if r.Person != x.Key && r.Person != "" || r.Kind == reminders.Told || r.Kind == reminders.Unsaid {
					continue
				}
				day := r.Due.In(zone).Format("Mon")
				if x.Role == planner.Host && !r.Due.Before(lastHours) {
					day = "last hours"
				}
				c := counts[day]
				if c == nil {
					c = &[3]int{}
					counts[day] = c
					days = append(days, day)
				}
				switch {
				case r.Silent:
					c[2]++
				case decides(p, plan, &r):
					c[1]++
				default:
					c[0]++
				}
				if first, _, _ := strings.Cut(words.PlainStamps(r.Text), "\n"); r.Live && len([]rune(first)) > 60 {
					t.Errorf("%s: first line of %d: %s", s.name, len([]rune(first)), first)
				}
			}
			for _, day := range days {
				c, most := counts[day], 2
				if day == "last hours" {
					most = 6
				} else if x.Role != planner.Host {
					most = 4
				}
				lines = append(lines, fmt.Sprintf("%-14s %-5s %-10s %8d of %d %8d %8d", s.name, x.Name, day, c[0], most, c[1],
					c[2]))
				if c[0] > most {
					t.Errorf("%s, %s, %s: %d messages ring", s.name, x.Name, day, c[0])
				}
			}
		}
		everyMoment(t, s.name, p, plan, list)
	}
	t.Log("\nstory          who   day         sounding      decided   silent\n" + strings.Join(lines, "\n"))
}

// decides says of a reminder, by itself, that an oven, a limit or a service decides when it comes.
func decides(p *planner.Party, plan *planner.Plan, r *store.Reminder) bool {
	switch r.Kind {
	case reminders.Preheat, reminders.AtLimit, reminders.Service, reminders.Go, reminders.Fallen, reminders.Last:
		return true
	case reminders.Check:
		return slices.ContainsFunc(plan.Placed(r.Task).Uses, func(h planner.Held) bool {
			return h.What == planner.AnOven || h.What == planner.AGrill
		})
	}
	return false
}

// everyMoment looks for a sounding message within five minutes before everything comes out of an oven, every service,
// and every limit of food that somebody has made.
func everyMoment(t *testing.T, name string, p *planner.Party, plan *planner.Plan, list []store.Reminder) {
	rings := func(list []store.Reminder, at time.Time, what string, kinds ...store.ReminderKind) {
		if !slices.ContainsFunc(list, func(r store.Reminder) bool {
			return !r.Silent && slices.Contains(kinds, r.Kind) && !r.Due.After(at) && at.Sub(r.Due) <= 5*time.Minute
		}) {
			t.Errorf("%s: nothing rings within five minutes before %s at %s", name, what,
				at.In(p.Location()).Format("Mon 15:04"))
		}
	}
	for _, s := range plan.Served {
		rings(list, s.At, "the "+string(s.Course), reminders.Service)
	}
	for _, task := range planner.Tasks(p) {
		pl := plan.Placed(task.Key)
		_, s := p.StepOf(&task)
		if pl == nil || s == nil || !slices.ContainsFunc(s.Uses, func(u planner.Use) bool {
			return u.What == planner.AnOven
		}) {
			continue
		}
		out := pl.End
		if s.Until != "" {
			out = pl.Start.Add(min(task.Time.Low.Duration(), pl.End.Sub(pl.Start)))
		}
		if task.Attention != planner.Hands {
			rings(list, out, string(task.Key)+" out of the oven", reminders.Check)
		}
		for _, u := range s.Uses {
			for _, stage := range u.Then {
				rings(list, pl.Start.Add(stage.After.Duration()), string(task.Key)+"'s next heat", reminders.Preheat)
			}
		}
	}
	for _, pl := range plan.Tasks {
		if d, _, _, _, _ := pl.Task.Split(); d == "" {
			continue
		}
		made := *p
		for _, o := range plan.Tasks {
			if !o.End.After(pl.End) {
				start, end := o.Start, o.End
				made.Work = append(made.Work, planner.Work{Task: o.Task, Person: o.People[0], Progress: planner.Done,
					Start: &start, End: &end})
			}
		}
		all := reminders.For(&made, plan)
		for _, r := range all {
			if r.Kind == reminders.AtLimit {
				rings(all, r.At, "the limit of "+string(r.Task), reminders.AtLimit)
			}
		}
	}
}
