package bot

import (
	"context"
	"slices"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/check"
	"tureen/reminders"
	"tureen/store"
)

// save checks what the command has made of the party, sees what becomes of the plan, and stores it all.
func (t *Turn) save(ctx context.Context) error {
	t.dropLostWork()
	if err := t.tooMany(); err != nil {
		return err
	}
	if err := t.newProblem(); err != nil {
		return err
	}
	return t.keep(ctx)
}

// keep stores the party as it is, with what becomes of the plan and the reminders that follow.
func (t *Turn) keep(ctx context.Context) error {
	t.settleShopping() // what was bought grows old from now on, and the plan has to keep to that
	t.settlePlan(ctx)
	t.settleShopping() // for what the plan has taken as done
	change := store.Change{
		Base: t.snapshot.Revision, Actor: t.actor(), At: t.Now, What: t.what,
		Party: *t.Party, Plan: t.Plan, Reminders: reminders.For(t.Party, t.Plan),
	}
	saved, err := t.bot.store.Save(ctx, t.community(), change)
	t.saved = saved.Revision
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

// tooMany refuses what makes a list of the party longer than anybody could read, or tureen plan in good time.
// The limits are ours.
func (t *Turn) tooMany() error {
	now, before := t.Party, &t.snapshot.Party
	for _, l := range []struct {
		what        string
		now, before int
		most        int
	}{
		{"courses", len(now.Courses), len(before.Courses), 20},
		{"dishes", len(now.Dishes), len(before.Dishes), 40},
		{"people", len(now.People), len(before.People), 40},
		{"guests", len(now.Guests), len(before.Guests), planner.MaxCovers},
		{"chores", len(now.Chores), len(before.Chores), 80},
		{"drinks", len(now.Drinks), len(before.Drinks), 60},
		{"notes about things to buy", len(now.Goods), len(before.Goods), 300},
		{"ovens", len(now.Kitchen.Ovens), len(before.Kitchen.Ovens), 10},
		{"kinds of vessels", len(now.Kitchen.Vessels), len(before.Kitchen.Vessels), 80},
		{"kinds of appliances", len(now.Kitchen.Appliances), len(before.Kitchen.Appliances), 80},
		{"kinds of plates and glasses", len(now.Kitchen.Plates), len(before.Kitchen.Plates), 80},
		{"things to keep food hot", len(now.Kitchen.HotPlaces), len(before.Kitchen.HotPlaces), 80},
	} {
		if l.now > l.most && l.now > l.before {
			return talk.Refuse("", "There are %d %s, and no more can be noted; remove some first.", l.before, l.what)
		}
	}
	return nil
}

// newProblem is the first thing that makes no sense in the party and did not stand there before.
func (t *Turn) newProblem() error {
	now := t.Party.Validate()
	if len(now) == 0 {
		return nil
	}
	before := t.snapshot.Party.Validate()
	for _, p := range now {
		lacked := func(o planner.Problem) bool { return o.Lacks && o.Where == p.Where }
		if p.Lacks && (t.command.MayLack || slices.ContainsFunc(before, lacked)) {
			continue // things break; what can still be served says the next plan
		}
		if !slices.Contains(before, p) {
			return talk.Refuse(t.command.Example, "%s", p.Text)
		}
	}
	return nil
}

// rebuilt is what follows from a party that a change was taken back on: its plan, and the reminders of both.
// It is the [store.Rebuild] of undo and redo.
func (b *Bot) rebuilt(snap store.Snapshot) (store.Rebuilt, error) {
	if snap.Plan != nil && snap.Plan.Revision < snap.Shaped && len(check.Plan(&snap.Party, snap.Plan)) == 0 {
		snap.Plan.Revision = snap.Revision
	}
	return store.Rebuilt{Plan: snap.Plan, Reminders: reminders.For(&snap.Party, snap.Plan)}, nil
}
