package store

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tureen/planner"
)

// same fails when a party is not as wanted, but for its revision.
func same(t *testing.T, s *Store, id planner.PartyID, want Snapshot) {
	t.Helper()
	got, err := s.Load(context.Background(), home, id)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]any{want.Party, want.Plan}, []any{got.Party, got.Plan}); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func turn(t *testing.T, s *Store,
	f func(context.Context, Community, planner.PartyID, Actor, time.Time, Rebuild) (Entry, Snapshot, error),
	id planner.PartyID, by Actor) (Entry, Snapshot) {
	t.Helper()
	e, snap, err := f(context.Background(), home, id, by, t0, nil)
	if err != nil {
		t.Fatal(err)
	}
	same(t, s, id, snap)
	return e, snap
}

// What the house does by itself, anybody takes back, as if it were their own; the undo is theirs.
func TestUndoOfTheHouse(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	one := edit(t, s, home, id, ada, "more covers", func(c *Change) { c.Party.Covers = 9 })
	two := edit(t, s, home, id, House, "took off the stew", func(c *Change) { c.Party.Dishes = c.Party.Dishes[1:] })
	if e, _ := turn(t, s, s.Undo, id, ben); e.What != "took off the stew" {
		t.Errorf("undid %q", e.What)
	}
	same(t, s, id, one)
	if _, _, err := s.Undo(t.Context(), home, id, ben, t0, nil); !errors.Is(err, ErrNothing) {
		t.Errorf("Ada's change, by Ben: %v, want ErrNothing", err)
	}
	turn(t, s, s.Redo, id, ben)
	same(t, s, id, two)
}

func TestUndoAndRedo(t *testing.T) {
	s := open0(t)
	zero := create(t, s, home, supper())
	id := zero.Party.ID
	one := edit(t, s, home, id, ada, "took the stew off", func(c *Change) { c.Party.Dishes = c.Party.Dishes[1:] })
	two := edit(t, s, home, id, ada, "planned", func(c *Change) { c.Plan = planFor(&c.Party, 3) })

	if e, _ := turn(t, s, s.Undo, id, ada); e.What != "planned" {
		t.Errorf("undid %q, want planned", e.What)
	}
	same(t, s, id, one)
	turn(t, s, s.Undo, id, ada)
	same(t, s, id, zero) // the stew is first again
	if _, _, err := s.Undo(t.Context(), home, id, ada, t0, nil); !errors.Is(err, ErrNothing) {
		t.Errorf("a third undo: %v, want ErrNothing", err)
	}
	if e, _ := turn(t, s, s.Redo, id, ada); e.What != "took back: took the stew off" {
		t.Errorf("redid %q", e.What)
	}
	same(t, s, id, one)
	turn(t, s, s.Redo, id, ada)
	same(t, s, id, two)
	if _, _, err := s.Redo(t.Context(), home, id, ada, t0, nil); !errors.Is(err, ErrNothing) {
		t.Errorf("a third redo: %v, want ErrNothing", err)
	}
	turn(t, s, s.Undo, id, ada)
	same(t, s, id, one)

	edit(t, s, home, id, ada, "more covers", func(c *Change) { c.Party.Covers = 10 })
	if _, _, err := s.Redo(t.Context(), home, id, ada, t0, nil); !errors.Is(err, ErrNothing) {
		t.Errorf("redo after going on: %v, want ErrNothing", err)
	}
	list, err := s.Journal(t.Context(), home, id, 100)
	if err != nil || len(list) != 9 {
		t.Fatalf("%d entries (%v), want 9", len(list), err)
	}
	if list[1].Kind != Undone || list[1].Of != list[2].Revision || list[2].BackBy != list[1].Revision ||
		list[2].Kind != Redone {
		t.Errorf("an undo and what it turned back: %+v, %+v", list[1], list[2])
	}
}

// Each takes back what is one's own; what others did elsewhere stays.
func TestUndoLeavesOthersAlone(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	edit(t, s, home, id, ada, "more covers", func(c *Change) { c.Party.Covers = 10 })
	edit(t, s, home, id, ben, "added a salad", func(c *Change) { c.Party.Dishes = append(c.Party.Dishes, dish("salad")) })
	edit(t, s, home, id, ben, "planned", func(c *Change) { c.Plan = planFor(&c.Party, 4) })
	_, snap := turn(t, s, s.Undo, id, ada)
	if snap.Party.Covers != 8 || snap.Party.Dish("salad") == nil || snap.Plan == nil {
		t.Errorf("covers %d, salad %v, plan %v; want 8, and both there", snap.Party.Covers, snap.Party.Dish("salad"),
			snap.Plan)
	}
}

func TestUndoRefusesToOverwrite(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	edit(t, s, home, id, ada, "set the covers to 10", func(c *Change) { c.Party.Covers = 10 })
	edit(t, s, home, id, ben, "set the covers to 12", func(c *Change) { c.Party.Covers = 12 })
	before, err := s.Load(t.Context(), home, id)
	if err != nil {
		t.Fatal(err)
	}
	_, _, err = s.Undo(t.Context(), home, id, ada, t0, nil)
	var touched *TouchedError
	if !errors.As(err, &touched) || len(touched.Since) != 1 || touched.Since[0].Actor != ben ||
		touched.What != "set the covers to 10" {
		t.Fatalf("%v, want a TouchedError that names Ben", err)
	}
	if !strings.Contains(err.Error(), "Ben (set the covers to 12)") {
		t.Errorf("it says %q", err)
	}
	same(t, s, id, before)
	turn(t, s, s.Undo, id, ben)
	_, snap := turn(t, s, s.Undo, id, ada) // nobody's any more
	if snap.Party.Covers != 8 {
		t.Errorf("covers %d, want 8", snap.Party.Covers)
	}
}

// A dish that somebody has a task of is not taken from under them.
func TestUndoKeepsADishThatIsWorkedOn(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	edit(t, s, home, id, ada, "added a salad", func(c *Change) { c.Party.Dishes = append(c.Party.Dishes, dish("salad")) })
	edit(t, s, home, id, ben, "claimed the salad", func(c *Change) {
		c.Party.Work = append(c.Party.Work, planner.Work{Task: "salad/cook", Person: "ben"})
	})
	_, _, err := s.Undo(t.Context(), home, id, ada, t0, nil)
	var touched *TouchedError
	if !errors.As(err, &touched) || touched.Since[0].What != "claimed the salad" {
		t.Errorf("%v, want a TouchedError that names the claim", err)
	}
}

// The plan follows from the rest: it never stands in the way of an undo, comes back where it can, and
// else the caller makes it anew.
func TestUndoAndThePlan(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	edit(t, s, home, id, ada, "planned", func(c *Change) { c.Plan = planFor(&c.Party, 2) })
	old := edit(t, s, home, id, ada, "nothing yet", func(*Change) {})
	edit(t, s, home, id, ada, "added a salad", func(c *Change) {
		c.Party.Dishes = append(c.Party.Dishes, dish("salad"))
		c.Plan = planFor(&c.Party, 3)
	})
	turn(t, s, s.Undo, id, ada)
	same(t, s, id, old)
	turn(t, s, s.Redo, id, ada)

	latest := edit(t, s, home, id, ben, "planned again", func(c *Change) { c.Plan.Made = c.Plan.Made.Add(time.Hour) })
	var given Snapshot
	made := planFor(&old.Party, latest.Revision+1)
	_, snap, err := s.Undo(t.Context(), home, id, ada, t0, func(at Snapshot) (Rebuilt, error) {
		given = at
		return Rebuilt{Plan: made, Reminders: []Reminder{{Key: "k", Due: t0.Add(time.Hour), Text: "k"}}}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(latest.Plan, given.Plan); d != "" || given.Party.Dish("salad") != nil ||
		given.Revision != latest.Revision+1 {
		t.Errorf("rebuild saw salad %v, revision %d; plan (-want +got):\n%s", given.Party.Dish("salad"), given.Revision, d)
	}
	if d := cmp.Diff(made, snap.Plan); d != "" {
		t.Errorf("plan (-want +got):\n%s", d)
	}
	if rows, err := s.Reminders(t.Context(), home, id); err != nil || len(rows) != 1 {
		t.Errorf("%d reminders (%v), want the rebuilt one", len(rows), err)
	}
}

func TestUndoRefusedByRebuildChangesNothing(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	want := edit(t, s, home, id, ada, "more covers", func(c *Change) { c.Party.Covers = 10 })
	no := errors.New("no")
	if _, _, err := s.Undo(t.Context(), home, id, ada, t0,
		func(Snapshot) (Rebuilt, error) { return Rebuilt{}, no }); !errors.Is(err, no) {
		t.Errorf("%v, want the rebuild's own error", err)
	}
	same(t, s, id, want)
}

// An edit is taken back where the thing is now, not where it was.
func TestUndoOfAnEditKeepsThePlace(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	edit(t, s, home, id, ada, "noted", func(c *Change) { c.Party.Dishes[0].Note = "less salt" })
	edit(t, s, home, id, ben, "moved the stew to the end", func(c *Change) {
		c.Party.Dishes = append(c.Party.Dishes[1:], c.Party.Dishes[0])
	})
	_, snap := turn(t, s, s.Undo, id, ada)
	if last := snap.Party.Dishes[1]; last.Key != "bean-stew" || last.Note != "" {
		t.Errorf("last is %s with note %q, want bean-stew without", last.Key, last.Note)
	}
}

// A plan that was only noted as holding for a later revision is still the same plan.
func TestUndoKnowsAPlanAgain(t *testing.T) {
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	noted := func(at Snapshot) (Rebuilt, error) {
		if at.Plan != nil {
			at.Plan.Revision = at.Revision
		}
		return Rebuilt{Plan: at.Plan}, nil
	}
	first := edit(t, s, home, id, ada, "planned", func(c *Change) { c.Plan = planFor(&c.Party, 2) })
	edit(t, s, home, id, ada, "added a salad", func(c *Change) { c.Party.Dishes = append(c.Party.Dishes, dish("salad")) })
	second := edit(t, s, home, id, ada, "planned again", func(c *Change) { c.Plan = planFor(&c.Party, 4) })
	for _, step := range []struct {
		do   func(context.Context, Community, planner.PartyID, Actor, time.Time, Rebuild) (Entry, Snapshot, error)
		want Snapshot
	}{{s.Undo, first}, {s.Undo, first}, {s.Redo, first}, {s.Redo, second}} {
		_, got, err := step.do(t.Context(), home, id, ada, t0, noted)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(step.want.Plan.Tasks, got.Plan.Tasks); d != "" {
			t.Errorf("tasks of the plan (-want +got):\n%s", d)
		}
	}
}
