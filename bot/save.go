package bot

import (
	"context"
	"fmt"
	"reflect"
	"slices"

	"tureen/planner"
	"tureen/reminders"
	"tureen/store"
)

// save checks what the command has made of the party, sees what becomes of the plan, and stores it all.
func (t *Turn) save(ctx context.Context) error {
	t.dropLostWork()
	if err := t.newProblem(); err != nil {
		return err
	}
	t.settlePlan(ctx)
	change := store.Change{
		Base: t.snapshot.Revision, Actor: t.actor(), At: t.Now, What: t.what,
		Party: *t.Party, Plan: t.Plan, Reminders: reminders.For(t.Party, t.Plan),
	}
	_, err := t.bot.store.Save(ctx, t.community(), change)
	return err
}

// dropLostWork forgets what was said about tasks that are no more.
func (t *Turn) dropLostWork() {
	if len(t.Party.Work) == 0 {
		return
	}
	there := map[planner.TaskKey]bool{}
	for _, task := range planner.Tasks(t.Party) {
		there[task.Key] = true
	}
	t.Party.Work = slices.DeleteFunc(t.Party.Work, func(w planner.Work) bool { return !there[w.Task] })
}

// newProblem is the first thing that makes no sense in the party and did not stand there before.
func (t *Turn) newProblem() error {
	now := t.Party.Validate()
	if len(now) == 0 {
		return nil
	}
	before := t.snapshot.Party.Validate()
	for _, p := range now {
		if !slices.Contains(before, p) {
			return refuse(t.command.Example, "%s", p.Text)
		}
	}
	return nil
}

// settlePlan sees whether the plan in force still holds after the change, and if not, says so.
func (t *Turn) settlePlan(ctx context.Context) {
	if t.Plan == nil {
		return
	}
	broken := planner.Check(t.Party, t.Plan)
	if len(broken) == 0 {
		if t.Plan.Revision < t.snapshot.Shaped || t.shaped() {
			t.Plan.Revision = t.snapshot.Revision + 1
		}
		return
	}
	if len(planner.Check(&t.snapshot.Party, t.snapshot.Plan)) == 0 {
		t.notes = append(t.notes, "The plan is out of date now: "+lowerFirst(broken[0].Text)+more(len(broken)-1))
	} else {
		t.notes = append(t.notes, "The plan is still out of date; /plan make makes it anew.")
	}
}

// shaped reports whether the change touched anything that a plan depends on.
func (t *Turn) shaped() bool {
	a, b := t.snapshot.Party, *t.Party
	a.Work, b.Work = nil, nil
	return !reflect.DeepEqual(a, b)
}

func more(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf(" (and %d more)", n)
}

// rebuilt is what follows from a party that a change was taken back on: its plan, and the reminders of both.
// It is the [store.Rebuild] of undo and redo.
func (b *Bot) rebuilt(snap store.Snapshot) (store.Rebuilt, error) {
	if snap.Plan != nil && snap.Plan.Revision < snap.Shaped && len(planner.Check(&snap.Party, snap.Plan)) == 0 {
		snap.Plan.Revision = snap.Revision
	}
	return store.Rebuilt{Plan: snap.Plan, Reminders: reminders.For(&snap.Party, snap.Plan)}, nil
}
