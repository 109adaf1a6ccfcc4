package reminders

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/words"
	"tureen/store"
)

var noon = time.Date(2026, 9, 24, 12, 0, 0, 0, time.UTC)

// older opens a store with a plan in force by which raw chicken stands on the counter for so many minutes.
func older(t *testing.T, now time.Time, stands int, tables string) (*store.Store, store.Snapshot) {
	t.Helper()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "party.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	p := planner.Party{Name: "Supper", Zone: "UTC", Arrival: now.Add(30 * time.Hour), Covers: 4,
		Kitchen: planner.HomeKitchen(),
		Courses: []planner.Course{{Key: "main", Name: "Main", Servings: []planner.Serving{{At: now.Add(31 * time.Hour)}}}},
		People: []planner.Person{{Key: "ben", Name: "Ben", Role: planner.CoHost},
			{Key: "ada", Name: "Ada", Role: planner.Host}},
		Dishes: []planner.Dish{{Key: "chicken", Name: "Chicken", Course: "main", Serves: 4,
			Ingredients: []planner.Ingredient{{Name: "chicken thighs", Amount: "1 kg"}},
			Steps: []planner.Step{
				{Key: "rub", Do: "Rub the chicken with salt", Attention: planner.Hands, Where: planner.Counter,
					Time: planner.Span{Low: 10, Likely: 10, High: 10}},
				{Key: "roast", Do: "Roast the chicken", Attention: planner.Watch, Where: planner.Heat, Cooks: true,
					Time:  planner.Span{Low: 60, Likely: 60, High: 60},
					After: []planner.After{{Step: "rub", Wait: planner.Wait{State: planner.Counter}}},
					Serve: &planner.Wait{State: planner.Straight}},
			}}}}
	snap, err := s.Create(context.Background(), home, ada, now, p)
	if err != nil {
		t.Fatal(err)
	}
	roast := now.Add(30 * time.Hour)
	rub := roast.Add(-time.Duration(stands) * time.Minute)
	plan := &planner.Plan{Made: now, Revision: snap.Revision + 1, Tables: tables, Tasks: []planner.Placed{
		{Task: "chicken/rub", Start: rub, End: rub.Add(10 * time.Minute), People: []planner.PersonKey{"ben"}},
		{Task: "chicken/roast", Start: roast, End: roast.Add(time.Hour), People: []planner.PersonKey{"ben"}},
	}, Served: []planner.Served{{Course: "main", At: now.Add(31 * time.Hour)}}}
	snap, err = s.Save(context.Background(), home, store.Change{Base: snap.Revision, Actor: ada, At: now,
		What: "planned", Party: snap.Party, Plan: plan, Reminders: For(&snap.Party, plan)})
	if err != nil {
		t.Fatal(err)
	}
	return s, snap
}

// TestNewerTables: a plan made with other tables is held against those of now when the program starts. What breaks goes
// to the host once, with what mends it, whatever is started or saved again; a plan that keeps its limits to the minute,
// or was made with these tables, is left alone.
func TestNewerTables(t *testing.T) {
	for _, c := range []struct {
		what   string
		stands int
		tables string
		says   int
	}{{"a minute too long", 121, "older", 1}, {"made before tables had names", 121, "", 1},
		{"just so long", 120, "older", 0}, {"made with these", 121, check.Tables(), 0}} {
		s, _ := older(t, noon, c.stands, c.tables)
		p := &post{}
		for start := range 3 {
			d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
			now := noon.Add(time.Duration(start) * time.Hour)
			if _, err := d.Tick(t.Context(), now); err != nil {
				t.Fatal(err)
			}
			snap, err := s.Load(t.Context(), home, 1)
			if err != nil {
				t.Fatal(err)
			}
			snap.Party.Place = time.Duration(start).String()
			if _, err := s.Save(t.Context(), home, store.Change{Base: snap.Revision, Actor: ada, At: now,
				What: "saved", Party: snap.Party, Plan: snap.Plan, Reminders: For(&snap.Party, snap.Plan)}); err != nil {
				t.Fatal(err)
			}
			if _, err := d.Tick(t.Context(), now); err != nil {
				t.Fatal(err)
			}
		}
		var said []Note
		for _, n := range p.arrived {
			if n.Kind == Outdated {
				said = append(said, n)
			}
		}
		if len(said) != c.says {
			t.Errorf("%s: %d messages, want %d: %q", c.what, len(said), c.says, p.lines())
			continue
		}
		if c.says == 0 {
			continue
		}
		text := words.PlainStamps(said[0].Text)
		if said[0].Person == nil || said[0].Person.Name != "Ada" || !strings.Contains(text, "2 h 1 min") ||
			!strings.HasPrefix(text, "Make the plan of Supper anew: by newer tables of foods and limits it breaks 1 rule.") ||
			len(said[0].Buttons) != 1 || said[0].Buttons[0].Do != "plan make party:1" {
			t.Errorf("%s: to %v, %+v:\n%s", c.what, said[0].Person, said[0].Buttons, text)
		}
	}
}

// TestNewerTablesTakenBack: who takes back what was noted is not told again.
func TestNewerTablesTakenBack(t *testing.T) {
	s, _ := older(t, noon, 121, "older")
	p := &post{}
	for start := range 2 {
		d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
		now := noon.Add(time.Duration(start) * time.Hour)
		if _, err := d.Tick(t.Context(), now); err != nil {
			t.Fatal(err)
		}
		snap, err := s.Load(t.Context(), home, 1)
		if err != nil {
			t.Fatal(err)
		}
		snap.Plan.Tables, snap.Plan.Outdated = "older", nil
		if _, err := s.Save(t.Context(), home, store.Change{Base: snap.Revision, Actor: ada, At: now, What: "took it back",
			Party: snap.Party, Plan: snap.Plan, Reminders: For(&snap.Party, snap.Plan)}); err != nil {
			t.Fatal(err)
		}
	}
	if len(p.arrived) != 1 {
		t.Errorf("%d messages: %q", len(p.arrived), p.lines())
	}
}

// TestNewerTablesForHalfADay: a plan is held against newer tables until twelve hours after the guests have come.
func TestNewerTablesForHalfADay(t *testing.T) {
	for _, c := range []struct {
		after time.Duration
		held  bool
	}{{12*time.Hour - time.Minute, true}, {12 * time.Hour, false}} {
		s, snap := older(t, noon, 121, "older")
		d := &Dispatcher{Store: s, Deliverer: &post{}, Log: quietLog()}
		d.recheck(t.Context(), snap.Party.Arrival.Add(c.after))
		now, err := s.Load(t.Context(), home, snap.Party.ID)
		if err != nil || (now.Plan.Outdated != nil) != c.held {
			t.Errorf("%v after: %+v (%v)", c.after, now.Plan.Outdated, err)
		}
	}
}
