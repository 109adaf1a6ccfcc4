package solve_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/safety"
	"tureen/planner/solve"
)

// The instants below are the tz database's (2026a rules, stated from memory and compared with package time
// here): the European Union changes at 01:00 UTC on the last Sunday of March and of October, the United
// States at 02:00 local time on the second Sunday of March and the first of November.
var changes = []struct {
	zone, date string
	change     string // UTC
	before     time.Duration
	after      time.Duration // offset from UTC
	hours      int           // of the local day
}{
	{"Europe/Lisbon", "2027-03-28", "2027-03-28T01:00:00Z", 0, time.Hour, 23},
	{"Europe/Lisbon", "2026-10-25", "2026-10-25T01:00:00Z", time.Hour, 0, 25},
	{"America/New_York", "2027-03-14", "2027-03-14T07:00:00Z", -5 * time.Hour, -4 * time.Hour, 23},
	{"America/New_York", "2026-11-01", "2026-11-01T06:00:00Z", -4 * time.Hour, -5 * time.Hour, 25},
}

// changeParty is a party at 19:00 on a day when the clocks change, with a day of prep.
func changeParty(t *testing.T, zone, date string) (*planner.Party, func(day, hour, minute int) time.Time) {
	t.Helper()
	loc, err := time.LoadLocation(zone)
	if err != nil {
		t.Fatal(err)
	}
	d, err := time.ParseInLocation(time.DateOnly, date, loc)
	if err != nil {
		t.Fatal(err)
	}
	y, m, dd := d.Date()
	at := func(day, hour, minute int) time.Time { return time.Date(y, m, dd+day, hour, minute, 0, 0, loc).UTC() }
	return &planner.Party{Zone: zone, Arrival: at(0, 19, 0), Covers: 4, PrepDays: 1,
		WorkHours: planner.DayHours{From: 0, Until: 30 * 60},
		Courses:   []planner.Course{{Key: "main", Servings: []planner.Serving{{At: at(0, 19, 30), Late: 10}}}},
		People: []planner.Person{{Key: "ana", Name: "Ana", Role: planner.Host,
			Cooks: planner.DayHours{From: 0, Until: 24 * 60}, Home: planner.DayHours{From: 0, Until: 24 * 60}}},
		Kitchen: planner.HomeKitchen(),
	}, at
}

func TestDaysOfTheClockChange(t *testing.T) {
	for _, c := range changes {
		t.Run(c.zone+" "+c.date, func(t *testing.T) {
			p, _ := changeParty(t, c.zone, c.date)
			change, err := time.Parse(time.RFC3339, c.change)
			if err != nil {
				t.Fatal(err)
			}
			for instant, want := range map[time.Time]time.Duration{change.Add(-time.Second): c.before, change: c.after} {
				if _, offset := instant.In(p.Location()).Zone(); time.Duration(offset)*time.Second != want {
					t.Errorf("offset at %v: got %d s, want %v", instant, offset, want)
				}
			}
			hours := p.CookingHours(&p.People[0])
			if len(hours) != 1 {
				t.Fatalf("got cooking hours %v, want one stretch over both days", hours)
			}
			if got := hours[0].To.Sub(hours[0].From); got != time.Duration(24+c.hours)*time.Hour {
				t.Errorf("a day and the day of the change: got %v, want %d h", got, 24+c.hours)
			}
			if got := p.Day().Sub(p.Opens()); got != 24*time.Hour {
				t.Errorf("the prep day: got %v, want 24 h", got)
			}
			// From midnight to six is five hours in spring, and seven in autumn.
			p.People[0].Cooks, p.PrepDays = planner.DayHours{From: 0, Until: 6 * 60}, 0
			p.People[0].Days = []planner.OtherDay{{Date: c.date, Cooks: []planner.DayHours{{From: 0, Until: 6 * 60}}}}
			if w := p.CookingHours(&p.People[0])[0]; w.To.Sub(w.From) != time.Duration(6+c.hours-24)*time.Hour {
				t.Errorf("midnight to six: got %v, want %d h", w.To.Sub(w.From), 6+c.hours-24)
			}
		})
	}
}

// Waits and clocks run in real minutes: a night with a change is an hour shorter or longer than its clock says.
func TestWaitsOverTheClockChange(t *testing.T) {
	for _, c := range changes {
		t.Run(c.zone+" "+c.date, func(t *testing.T) {
			p, at := changeParty(t, c.zone, c.date)
			night := (10*60+30)*time.Minute + time.Duration(c.hours-24)*time.Hour // 23:30 to 10:00
			food := planner.Food{Perishable: true, Kind: safety.Cooked}
			p.Dishes = []planner.Dish{{Key: "pie", Name: "Pie", Course: "main", Serves: 4, Steps: []planner.Step{
				{Key: "fill", Do: "Fill", Attention: planner.Hands, Time: partygen.Exactly(30), Where: planner.Counter,
					Leaves: food},
				{Key: "bake", Do: "Bake", Attention: planner.Watch, Time: partygen.Exactly(60), Where: planner.Heat, Cooks: true,
					Leaves: food,
					After:  []planner.After{{Step: "fill", Wait: planner.Wait{State: planner.Refrigerator}}},
					Serve:  &planner.Wait{State: planner.Refrigerator}},
			}}}
			plan := &planner.Plan{Made: at(-1, 8, 0), Served: []planner.Served{{Course: "main", At: at(0, 19, 30)}},
				Tasks: []planner.Placed{
					{Task: "pie/fill", Start: at(-1, 23, 0), End: at(-1, 23, 30), People: []planner.PersonKey{"ana"}},
					{Task: "pie/bake", Start: at(0, 10, 0), End: at(0, 11, 0), People: []planner.PersonKey{"ana"}}}}
			wait := &p.Dishes[0].Steps[1].After[0].Wait
			for _, row := range []struct {
				min, max time.Duration
				ok       bool
			}{{night, night, true}, {night + time.Minute, 0, false}, {0, night - time.Minute, false}} {
				wait.Least, wait.Longest = planner.Minutes(row.min/time.Minute), planner.Minutes(row.max/time.Minute)
				got := check.Plan(p, plan)
				if row.ok && len(got) != 0 || !row.ok && (len(got) != 1 || got[0].Rule != check.RuleWaits) {
					t.Errorf("a wait of %v to %v over a night of %v: got %+v", row.min, row.max, night, got)
				}
			}
			// Spare time runs to the end of the wait, in real minutes too.
			wait.Least, wait.Longest = 60, 0
			if space, why := check.SpareOf(p, plan, "pie/fill"); space != 90 { // the counter's two hours, less filling
				t.Errorf("room: got %d (%s), want 90", space, why)
			}
		})
	}
}

// From 23:30 to 02:30 on the counter: two hours in spring, four in autumn.
func TestCounterTimeOverTheClockChange(t *testing.T) {
	for _, c := range changes[:2] { // Lisbon's changes lie in between
		t.Run(c.zone+" "+c.date, func(t *testing.T) {
			p, at := changeParty(t, c.zone, c.date)
			p.Arrival = at(0, 1, 0).Add(90 * time.Minute) // a night party
			p.Courses[0].Servings[0] = planner.Serving{At: at(0, 2, 30)}
			p.Dishes = []planner.Dish{{Key: "broth", Name: "Broth", Course: "main", Serves: 4, Steps: []planner.Step{
				{Key: "boil", Do: "Boil", Attention: planner.Watch, Time: partygen.Exactly(30), Where: planner.Heat, Cooks: true,
					Leaves: planner.Food{Perishable: true, Kind: safety.Soup}}}}}
			plan := &planner.Plan{Made: at(-1, 8, 0), Served: []planner.Served{{Course: "main", At: at(0, 2, 30)}},
				Tasks: []planner.Placed{{Task: "broth/boil", Start: at(-1, 23, 0), End: at(-1, 23, 30),
					People: []planner.PersonKey{"ana"}}}}
			got := check.Plan(p, plan)
			spring := c.hours == 23
			if spring && len(got) != 0 || !spring && (len(got) != 1 || got[0].Rule != check.RuleClocks) {
				t.Errorf("got %+v", got)
			}
		})
	}
}

// Plans of the days on which the clocks change keep the rules, and use the hour that is there.
func TestPlansOverTheClockChange(t *testing.T) {
	for _, c := range changes {
		t.Run(c.zone+" "+c.date, func(t *testing.T) {
			p, at := changeParty(t, c.zone, c.date)
			night := planner.Minutes(10*60 + 60*(c.hours-24)) // 22:00 to 8:00
			eve := at(-1, 0, 0).In(p.Location()).Format(time.DateOnly)
			p.People[0].Days = []planner.OtherDay{{Date: eve, Cooks: []planner.DayHours{{From: 21 * 60, Until: 22 * 60}}},
				{Date: c.date, Cooks: []planner.DayHours{{From: 8 * 60, Until: 9 * 60}}}}
			food := planner.Food{Perishable: true, Kind: safety.Cooked, Millilitres: 1000}
			p.Dishes = []planner.Dish{{Key: "pie", Name: "Pie", Course: "main", Serves: 4, Steps: []planner.Step{
				{Key: "fill", Do: "Fill", Attention: planner.Hands, Time: partygen.Exactly(30), Where: planner.Counter,
					Leaves: food},
				{Key: "bake", Do: "Bake", Attention: planner.Hands, Time: partygen.Exactly(60), Where: planner.Heat, Cooks: true,
					Leaves: food,
					After: []planner.After{{Step: "fill", Wait: planner.Wait{State: planner.Refrigerator, Least: night,
						Longest: night}}},
					Serve: &planner.Wait{State: planner.Refrigerator}},
			}}}
			ask := solve.Ask{Now: at(-1, 8, 0)}
			plan, clash, err := solve.Make(t.Context(), p, ask)
			if err != nil || plan == nil {
				t.Fatalf("got %+v, %v, want a plan: just the night lies between 22:00 and 8:00", clash, err)
			}
			if got := check.Plan(p, plan); len(got) > 0 {
				t.Errorf("got %+v", got)
			}
			fill, bake := plan.Placed("pie/fill"), plan.Placed("pie/bake")
			if !fill.End.Equal(at(-1, 22, 0)) || !bake.Start.Equal(at(0, 8, 0)) {
				t.Errorf("got %v to %v, want the end of the evening to the start of the morning", fill.End, bake.Start)
			}
			p.Dishes[0].Steps[1].After[0].Wait.Longest = night - 1
			p.Dishes[0].Steps[1].After[0].Wait.Least = 0
			plan, clash, err = solve.Make(t.Context(), p, ask)
			if err != nil || plan != nil || clash.Unproved {
				t.Errorf("a minute less than the night: got %s %+v %v, want a clash", partygen.Show(plan), clash, err)
			}
		})
	}
}
