package bot

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/sheet"
	"tureen/planner/solve"
	"tureen/planner/words"
	"tureen/store"
)

// What becomes of the plan in force when something changes.
//
//   - Where it still keeps every rule with the party as it is now, it stays.
//   - Where only words on tasks have changed (claimed, started, done, skipped, more time), it is made to
//     fit: first by moving what is settled to where it was and giving claimed tasks to who has claimed
//     them; where that breaks a rule, by planning anew with as little change as can be. On the party's
//     day service may then be late, as little as can be, so that there is always a plan.
//   - Otherwise it is out of date, and the reply says what it breaks. The hosts say when to plan anew.

// settlePlan brings the plan in line with the change, or says that it no longer holds.
func (t *Turn) settlePlan(ctx context.Context) {
	if t.Plan == nil {
		return
	}
	t.followWork()
	broken := check.Plan(t.Party, t.Plan)
	shaped := store.Shapes(&t.snapshot.Party, t.Party)
	if len(broken) == 0 {
		if shaped || t.Plan.Revision < t.snapshot.Shaped {
			if shaped && t.Plan.Revision <= t.snapshot.Revision { // else it was made by this command
				t.holds = true
			}
			t.Plan.Revision = t.snapshot.Revision + 1
			t.Plan.Tables, t.Plan.Outdated = check.Tables(), nil
		}
		return
	}
	fits := t.Plan.Revision >= t.snapshot.Shaped && !shaped // but for what people have said of tasks
	if t.replan && fits {
		plan, clash, ticked := t.planAnew(ctx)
		if plan != nil {
			for _, s := range t.withoutSection(plan) {
				for _, line := range s.Lines {
					t.notes = append(t.notes, s.Title+": "+line)
				}
			}
			t.notes = append(t.notes, t.changes(t.Plan, plan)...)
			t.tickedNote(ticked)
			t.askedNotes()
			t.carryTold(t.Plan, plan)
			t.Plan = plan
			return
		}
		if clash != nil && len(clash.Requirements) > 0 {
			t.notes = append(t.notes, t.noPlanLines(clash)...)
		}
	}
	t.coolAtOnce()
	t.next = "Next: /plan make makes the plan anew; /undo takes this back"
	if was := t.snapshot.Plan; was == nil || len(check.Plan(&t.snapshot.Party, was)) > 0 {
		t.notes = append(t.notes, "The plan is still out of date.")
		return
	}
	t.notes = append(t.notes, "The plan is out of date now. "+talk.Sentence(broken[0].Text))
	if n := len(broken) - 1; n > 0 {
		t.notes = append(t.notes, words.CountAs(n, "more thing no longer holds.", "more things no longer hold."))
	}
}

// noPlanLines say what nothing fits for any more, and the nearest way out.
func (t *Turn) noPlanLines(clash *solve.Clash) []string {
	var dishes []string
	said := clash.Requirements[0]
	for _, r := range clash.Requirements {
		d, _, _, _, _ := r.Task.Split()
		if x := t.Party.Dish(d); x != nil && !slices.Contains(dishes, x.Name) {
			if dishes = append(dishes, x.Name); len(dishes) == 1 {
				said = r
			}
		}
	}
	head := "No plan fits any more"
	if len(dishes) > 0 {
		head += " for " + words.And(dishes)
	}
	lines := []string{head + ": " + talk.Sentence(words.Lower(said.Text))}
	if len(clash.Mends) > 0 {
		var parts []string
		for _, m := range append([]planner.Mend{clash.Mends[0]}, clash.Mends[0].With...) {
			part := strings.TrimRight(m.Text, ".")
			if m.Do != "" {
				part += ": /" + m.Do
			}
			parts = append(parts, part)
		}
		lines = append(lines, "The nearest way out (tried): "+strings.Join(parts, ", and ")+"; then /plan make.")
	}
	return lines
}

func (t *Turn) tickedNote(ticked []string) {
	for _, s := range tickedSection(ticked) {
		t.notes = append(append(t.notes, s.Title+":"), s.Lines...)
	}
}

// planTicked plans the rest with what should have been over by now taken as done, on any day: nobody ticks everything,
// and one word about one task is no reason to do the others again, nor to give them to somebody else. There is no plan
// where nothing was to be taken so, or where nothing fits then; what people have said stands as before.
func (t *Turn) planTicked(ctx context.Context) (*planner.Plan, []string) {
	said := slices.Clone(t.Party.Work)
	ask := solve.Ask{Now: wholeMinute(t.Now), InForce: t.Plan}
	plan, _, ticked, err := t.planPast(ctx, ask)
	if len(ticked) == 0 {
		t.Party.Work = said
		return nil, nil
	}
	if ask.Soft = true; err == nil && plan == nil {
		plan, _, err = t.keeping(ctx, ask)
	}
	if err == nil && plan != nil {
		return plan, ticked
	}
	t.Party.Work = said
	return nil, nil
}

// planAnew makes a plan that changes little for people. On the party's day what should have been over is taken as
// done first. Where there is no plan so, it is left open, and service may be late, on the party's day; and where that
// does not help either, or it is an earlier day, what nobody has ticked off is taken as done. ticked says what was
// taken so. A plan that leaves a dish out is taken only where none of these ways has one for all.
func (t *Turn) planAnew(ctx context.Context) (plan *planner.Plan, clash *solve.Clash, ticked []string) {
	t.askCold()
	said := slices.Clone(t.Party.Work)
	type way struct {
		plan   *planner.Plan
		ticked []string
		work   []planner.Work
	}
	var fewer *way // the first of them that leaves a dish out
	whole := func() bool {
		if plan != nil && len(plan.Without) > 0 {
			if fewer == nil {
				fewer = &way{plan, ticked, t.Party.Work}
			}
			plan, ticked, t.Party.Work = nil, nil, slices.Clone(said)
		}
		return plan != nil
	}
	if plan, ticked = t.planTicked(ctx); whole() {
		plan.Revision = t.snapshot.Revision + 1
		return plan, nil, ticked
	}
	ask := solve.Ask{Now: wholeMinute(t.Now), InForce: t.Plan}
	plan, clash, err := t.keeping(ctx, ask)
	if err == nil && plan == nil && !t.Now.Before(t.Party.Day()) {
		ask.Soft = true
		plan, _, err = makePlan(ctx, t.Party, ask)
	}
	if err == nil && !whole() {
		first := clash
		plan, clash, ticked, err = t.planUnderWay(ctx)
		if !whole() {
			t.Party.Work, ticked = slices.Clone(said), nil
			if clash == nil || len(clash.Requirements) == 0 {
				clash = first
			}
		}
	}
	if err == nil && plan == nil && fewer != nil {
		plan, ticked, t.Party.Work = fewer.plan, fewer.ticked, fewer.work
	}
	if err != nil {
		t.bot.log.WarnContext(ctx, "planning anew", "party", t.Party.ID, "error", err)
		return nil, nil, nil
	}
	if plan != nil {
		plan.Revision = t.snapshot.Revision + 1
	}
	return plan, clash, ticked
}

// followWork puts settled tasks where people say they were, and claimed tasks to who has them.
func (t *Turn) followWork() {
	tasks := map[planner.TaskKey]planner.Task{}
	for _, task := range planner.Tasks(t.Party) {
		tasks[task.Key] = task
	}
	for i := range t.Plan.Tasks {
		pl := &t.Plan.Tasks[i]
		w, task := t.Party.WorkOn(pl.Task), tasks[pl.Task]
		if w == nil || task.Key == "" {
			continue
		}
		if w.Person != "" {
			takeCharge(pl, w.Person)
		}
		if w.Progress != planner.Waiting {
			settle(pl, w, task.Length(len(pl.People)), t.Plan.Made)
		}
	}
	slices.SortStableFunc(t.Plan.Tasks, byStart)
}

func byStart(a, b planner.Placed) int {
	return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Task, b.Task))
}

// takeCharge makes somebody the first of a task's people.
func takeCharge(pl *planner.Placed, who planner.PersonKey) {
	if i := slices.Index(pl.People, who); i >= 0 {
		pl.People[0], pl.People[i] = pl.People[i], pl.People[0]
		return
	}
	if len(pl.People) == 0 {
		pl.People = []planner.PersonKey{who}
		return
	}
	pl.People[0] = who
}

// settle moves a task to where it was, by the rules of package planner.
func settle(pl *planner.Placed, w *planner.Work, length planner.Minutes, made time.Time) {
	from, to := pl.Start, pl.End
	switch {
	case w.Progress == planner.Started && w.Start != nil:
		pl.Start = w.Start.Truncate(time.Minute)
		pl.End = pl.Start.Add((length + w.Extra).Duration())
		if m := wholeMinute(made); pl.End.Before(m) {
			pl.End = m
		}
	case w.Progress == planner.Done && w.End != nil:
		pl.End = wholeMinute(*w.End)
		pl.Start = pl.End.Add(-length.Duration())
		if w.Start != nil {
			pl.Start = w.Start.Truncate(time.Minute)
		}
	case w.Progress == planner.Skipped && w.End != nil:
		pl.Start, pl.End, pl.Uses = wholeMinute(*w.End), wholeMinute(*w.End), nil
	}
	for i := range pl.Uses {
		h := &pl.Uses[i]
		switch {
		case h.From.Equal(from):
			h.From = pl.Start
			if h.To.Equal(to) {
				h.To = pl.End
			}
		case h.From.Equal(to): // held by the wait after it
			h.From = pl.End
		}
		if h.To.Before(h.From) {
			h.To = h.From
		}
	}
}

// changes says what is different between two plans, for those who were told the first.
func (t *Turn) changes(old, new *planner.Plan) []string {
	lines := sheet.Changes(t.Party, old, new, t.format())
	if len(lines) == 0 {
		return []string{"Nothing else moves by more than five minutes."}
	}
	return append([]string{"The rest moves to fit:"},
		firstLines(lines, mostChanges, "/plan show has the whole plan")...)
}

func (t *Turn) personName(k planner.PersonKey) string {
	if x := t.Party.Person(k); x != nil {
		return x.Name
	}
	return "somebody who has left"
}

// taskName is a task as people call it: "Roll out the pastry (Pear tart)".
func (t *Turn) taskName(k planner.TaskKey) string {
	if task := taskOf(t.Party, k); task != nil {
		return t.nameOf(task)
	}
	return string(k)
}

// longName is how long the name of a task may be: a recipe's whole sentence stands in /task show.
const longName = 64

// nameOf is what is done, and for which dish.
func (t *Turn) nameOf(task *planner.Task) string {
	name := words.Brief(talk.Clean(task.Do, false), longName)
	if name == "" {
		name = string(task.Key)
	}
	if d := t.Party.Dish(task.Dish); d != nil {
		name += " (" + d.Name
		if task.Rounds > 1 {
			name += fmt.Sprintf(", round %d of %d", task.Round, task.Rounds)
		}
		name += ")"
	}
	return name
}
