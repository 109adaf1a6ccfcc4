package store

import (
	"context"
	"errors"
	"testing"

	"tureen/planner"
)

// TestUndoOfWhatOthersUse: a dish or chore that is taken back again is kept for what others have said of its own tasks
// since, and for nothing else.
func TestUndoOfWhatOthersUse(t *testing.T) {
	say := func(task planner.TaskKey) func(*Change) {
		return func(c *Change) {
			c.Party.Work = append(c.Party.Work, planner.Work{Task: task, Person: "ben"})
		}
	}
	addDish := func(c *Change) { c.Party.Dishes = append(c.Party.Dishes, dish("salad")) }
	addChore := func(c *Change) {
		c.Party.Chores = append(c.Party.Chores, planner.Chore{Key: "salad", Do: "Lay it", Attention: planner.Hands})
	}
	for _, c := range []struct {
		name   string
		before planner.TaskKey // what Ben has said of before
		add    func(*Change)
		since  planner.TaskKey // what Ben says of after
		kept   bool
	}{
		{"nothing said", "", addDish, "", false},
		{"of its own task", "", addDish, "salad/cook", true},
		{"of another dish's", "", addDish, "flatbread/cook", false},
		{"of a chore of that name", "", addDish, planner.ChoreTask("salad"), false},
		{"before it came", "salad/cook", addDish, "", false},
		{"of a chore", "", addChore, planner.ChoreTask("salad"), true},
		{"of another chore", "", addChore, planner.ChoreTask("table"), false},
		{"of a dish of the chore's name", "", addChore, "salad/cook", false},
		{"of a chore, before it came", planner.ChoreTask("salad"), addChore, "", false},
	} {
		s := open0(t)
		id := create(t, s, home, supper()).Party.ID
		if c.before != "" {
			edit(t, s, home, id, ben, "took it on", say(c.before))
		}
		edit(t, s, home, id, ada, "added it", c.add)
		if c.since != "" {
			edit(t, s, home, id, ben, "took it on", say(c.since))
		}
		e, snap, err := s.Undo(context.Background(), home, id, ada, after(1), nil)
		var touched *TouchedError
		switch {
		case c.kept:
			if !errors.As(err, &touched) || len(touched.Since) != 1 || touched.Since[0].Actor != ben ||
				touched.What != "added it" {
				t.Errorf("%s: %v, want that Ben is named", c.name, err)
			}
		case err != nil:
			t.Errorf("%s: %v", c.name, err)
		case e.What != "added it" || len(snap.Party.Dishes) != 2 || len(snap.Party.Chores) != 0:
			t.Errorf("%s: took back %q: %+v", c.name, e.What, snap.Party)
		}
	}
}

// TestUndoIsEachOnesOwn: who has nothing standing has nothing to take back, and an undo can be done again until its
// person changes something else.
func TestUndoIsEachOnesOwn(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	id := create(t, s, home, supper()).Party.ID
	more := func(c *Change) { c.Party.Covers++ }
	covers := func(want int) {
		t.Helper()
		if snap, err := s.Load(ctx, home, id); err != nil || snap.Party.Covers != want {
			t.Errorf("%d covers (%v), want %d", snap.Party.Covers, err, want)
		}
	}
	undo := func(by Actor, want error) {
		t.Helper()
		if _, _, err := s.Undo(ctx, home, id, by, after(1), nil); !errors.Is(err, want) {
			t.Errorf("undo: %v, want %v", err, want)
		}
	}
	redo := func(by Actor, want error) {
		t.Helper()
		if _, _, err := s.Redo(ctx, home, id, by, after(1), nil); !errors.Is(err, want) {
			t.Errorf("redo: %v, want %v", err, want)
		}
	}
	undo(ada, ErrNothing) // to start a party is no change
	redo(ada, ErrNothing)
	edit(t, s, home, id, ada, "one more", more)
	undo(ben, ErrNothing)
	redo(ada, ErrNothing)
	undo(ada, nil)
	covers(8)
	redo(ben, ErrNothing)
	redo(ada, nil)
	covers(9)
	redo(ada, ErrNothing)
	undo(ada, nil)
	undo(ada, ErrNothing)
	edit(t, s, home, id, ben, "his own", func(c *Change) { c.Party.Channel = "garden" })
	redo(ada, nil) // what others have done since is no matter
	covers(9)
	undo(ada, nil)
	edit(t, s, home, id, ada, "something else", func(c *Change) { c.Party.PrepDays++ })
	redo(ada, ErrNothing)
	edit(t, s, home, id, House, "by itself", more)
	redo(ada, ErrNothing)
	undo(ada, nil) // the house's
	covers(8)
	redo(House, ErrNothing)
}
