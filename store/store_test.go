package store

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	_ "time/tzdata"

	"tureen/planner"
)

const home Community = "home"

var (
	ada = Actor{"u1", "Ada"}
	ben = Actor{"u2", "Ben"}
	t0  = time.Date(2026, 9, 20, 10, 0, 0, 0, time.UTC)
)

// open0 opens a store in a new folder, which is closed when the test ends.
func open0(t testing.TB) *Store {
	t.Helper()
	s, err := Open(context.Background(), filepath.Join(t.TempDir(), "party.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

func supper() planner.Party {
	return planner.Party{
		Name: "Autumn supper", Zone: "Europe/Lisbon", Arrival: t0.Add(6 * 24 * time.Hour), Covers: 8, PrepDays: 2,
		Kitchen: planner.HomeKitchen(), Channel: "kitchen",
		Courses: []planner.Course{{Key: "main", Name: "Main",
			Servings: []planner.Serving{{At: t0.Add(6*24*time.Hour + 2*time.Hour)}}}},
		People: []planner.Person{
			{Key: "ada", Name: "Ada", Chat: "u1", Role: planner.Host},
			{Key: "ben", Name: "Ben", Chat: "u2", Role: planner.CoHost},
		},
		Guests: []planner.Guest{{Name: "Cy"}, {Name: "Cy", Diets: []string{"vegan"}}},
		Dishes: []planner.Dish{dish("bean-stew"), dish("flatbread")},
		Drinks: []planner.Drink{{Name: "Vinho verde", Kind: planner.White, Bottles: 4}},
	}
}

func dish(key planner.DishKey) planner.Dish {
	return planner.Dish{Key: key, Name: string(key), Course: "main", Serves: 8,
		Steps: []planner.Step{{Key: "cook", Do: "Cook it", Attention: planner.Hands,
			Time: planner.Span{Low: 10, Likely: 20, High: 30}}}}
}

func planFor(p *planner.Party, revision int64) *planner.Plan {
	plan := &planner.Plan{Made: t0, Revision: revision, Status: planner.Feasible,
		Served: []planner.Served{{Course: "main", At: p.Arrival.Add(2 * time.Hour)}},
		Levels: []planner.Level{{Name: planner.OnTime}}}
	for i, d := range p.Dishes {
		start := p.Arrival.Add(time.Duration(i) * time.Hour)
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.StepTask(d.Key, "cook", 1), Start: start,
			End:    start.Add(20 * time.Minute),
			People: []planner.PersonKey{"ada"}})
	}
	return plan
}

// edit loads a party, changes it and saves it.
func edit(t testing.TB, s *Store, c Community, id planner.PartyID, by Actor, what string, do func(*Change)) Snapshot {
	t.Helper()
	snap, err := s.Load(context.Background(), c, id)
	if err != nil {
		t.Fatal(err)
	}
	ch := Change{Base: snap.Revision, Actor: by, At: t0, What: what, Party: snap.Party, Plan: snap.Plan,
		KeepReminders: true}
	do(&ch)
	out, err := s.Save(context.Background(), c, ch)
	if err != nil {
		t.Fatal(err)
	}
	again, err := s.Load(context.Background(), c, id)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(again, out); d != "" {
		t.Fatalf("Save answers something other than Load (-load +save):\n%s", d)
	}
	return out
}

func create(t testing.TB, s *Store, c Community, p planner.Party) Snapshot {
	t.Helper()
	out, err := s.Create(context.Background(), c, ada, t0, p)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestCreateAndLoad(t *testing.T) {
	s := open0(t)
	p := supper()
	made := create(t, s, home, p)
	got, err := s.Load(context.Background(), home, made.Party.ID)
	if err != nil {
		t.Fatal(err)
	}
	p.ID = made.Party.ID
	if d := cmp.Diff(Snapshot{Party: p, Revision: 1, Shaped: 1}, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	list, err := s.List(context.Background(), home)
	want := []Summary{{ID: p.ID, Name: p.Name, Zone: p.Zone, Channel: "kitchen", Arrival: p.Arrival, Covers: 8,
		Revision: 1}}
	if d := cmp.Diff(want, list); d != "" || err != nil {
		t.Errorf("list: %v (-want +got):\n%s", err, d)
	}
}

func TestSavePlanAndOrder(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	snap := edit(t, s, home, id, ada, "planned", func(c *Change) { c.Plan = planFor(&c.Party, 2) })
	if snap.Shaped != 1 || snap.Revision != 2 {
		t.Errorf("a plan alone gave revision %d, shaped %d, want 2, 1", snap.Revision, snap.Shaped)
	}
	if d := cmp.Diff(planFor(&snap.Party, 2), snap.Plan); d != "" {
		t.Errorf("plan (-want +got):\n%s", d)
	}
	snap = edit(t, s, home, id, ben, "put the salad first", func(c *Change) {
		c.Party.Dishes = append([]planner.Dish{dish("salad")}, c.Party.Dishes...)
	})
	if got := snap.Party.Dishes[0].Key; got != "salad" || snap.Shaped != 3 {
		t.Errorf("first dish %q, shaped %d, want salad, 3", got, snap.Shaped)
	}
	list, err := s.Journal(context.Background(), home, id, 1)
	if err != nil {
		t.Fatal(err)
	}
	if len(list) != 1 || len(list[0].Touched) != 1 || list[0].Touched[0].Key != "salad" ||
		list[0].Touched[0].Before != nil {
		t.Errorf("journal: %+v, want the one new piece", list)
	}
	if list[0].Actor != ben || list[0].What != "put the salad first" || !list[0].At.Equal(t0) {
		t.Errorf("journal says %+v", list[0])
	}
}

func TestSaveWithoutChange(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	if snap := edit(t, s, home, id, ada, "nothing", func(*Change) {}); snap.Revision != 1 {
		t.Errorf("revision %d, want 1", snap.Revision)
	}
}
