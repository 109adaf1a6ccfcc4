package bot

import (
	"context"
	"fmt"
	"slices"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/safety"
	"tureen/planner/solve"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// Cooked food is told of when it is ticked off, whatever has become of the plan: how it goes cold, by when, how long it
// keeps. What nobody ticked is not taken as done where food safety hangs on it: it is asked about.

// keepLine says to who has ticked off a step that cooks how its food is kept from now on, and until when.
func (t *Turn) keepLine(task *planner.Task) string {
	d := t.Party.Dish(task.Dish)
	if d == nil {
		return ""
	}
	if w, ok := check.GoesCold(t.Party, d, task.Step); ok {
		return fmt.Sprintf("\nNow: %s, by %s at the latest: %s out of the cold (%s).%s", words.Lower(w.Do()),
			t.dayClock(w.By), words.Short(w.Limit.Minutes), w.Limit.Source, t.keepsTo(d, task))
	}
	l := trace.OfDish(t.Party, d).Leaves(d.Key, task.Step)
	at, stands := check.Passes(t.Party, d.Key)
	if !l.Hot || !l.Perishable || !stands || at.Step.Key != task.Step || t.Plan != nil && t.stale() == "" {
		return "" // or the plan in force says what is done with it
	}
	limit := t.Party.CounterLimit()
	return fmt.Sprintf("\nIt may be out of the cold until %s, %s in all (%s): serve it, keep it %s or put it into the "+
		"refrigerator by then.", t.dayClock(at.At), words.Short(limit.Minutes), limit.Source, safety.HotHold().Figure())
}

// keepsTo is until when what a step has cooked for the first time keeps in the refrigerator.
func (t *Turn) keepsTo(d *planner.Dish, task *planner.Task) string {
	w := t.Party.WorkOn(task.Key)
	l := trace.OfDish(t.Party, d).Leaves(d.Key, task.Step)
	if w == nil || w.End == nil || !l.Hot || slices.ContainsFunc(d.Step(task.Step).After, func(a planner.After) bool {
		return a.Dish != "" || slices.ContainsFunc(trace.OfDish(t.Party, d).Leaves(d.Key, a.Step).Parts,
			func(p trace.Part) bool { return p.Cooked })
	}) {
		return "" // it counts from a cooking before
	}
	var most safety.Limit
	for _, c := range l.Colds() {
		if x := t.Party.RefrigeratorLimit(c.Kind); x.Applies() && (!most.Applies() || x.Minutes < most.Minutes) {
			most = x
		}
	}
	if !most.Applies() {
		return ""
	}
	return fmt.Sprintf(" Use it by %s: %s.", t.dayClock(w.End.Add(time.Duration(most.Minutes)*time.Minute)), most)
}

// askCold leaves out of what is planned again what should have put food into the cold long ago: it is asked about.
func (t *Turn) askCold() {
	for _, w := range check.StillWarm(t.Party) {
		if by := w.By; !by.After(t.Now) {
			o := t.workOn(w.Chore())
			o.Progress, o.End, o.Assumed = planner.Skipped, &by, true
		}
	}
}

// coldSection asks about cooked food of which nobody has said in time that it went into the cold.
func (t *Turn) coldSection() []talk.Section {
	var lines []string
	for _, w := range check.StillWarm(t.Party) {
		if w.By.After(t.Now) {
			continue
		}
		by := ""
		if !w.Told {
			by = "by the plan "
		}
		lines = append(lines, fmt.Sprintf("%s: nobody has said that it went into the cold. Its %s out of it (%s) ended %sat "+
			"%s: throw it away unless you know that it went into the cold before then. If it was put away, say when: "+
			"/task done task:%s at:…; else /dish remove dish:%s, and /repertoire list course:%s has other dishes.",
			talk.Clean(w.Dish.Name, false),
			words.Short(w.Limit.Minutes), w.Limit.Source, by, t.dayClock(w.By), w.Chore(), w.Dish.Key, w.Dish.Course))
	}
	if len(lines) == 0 {
		return nil
	}
	return []talk.Section{{Title: "Is it in the cold?", Lines: lines}}
}

// putAwayLate says of a chore that puts food into the cold, and was done after its time, what that means; said is
// whether somebody has said when it was.
func (t *Turn) putAwayLate(task *planner.Task, at time.Time, said bool) string {
	for _, w := range check.StillWarm(t.Party) {
		if w.Chore() != task.Key || !at.After(w.By) {
			continue
		}
		limit := fmt.Sprintf("%s out of the cold (%s) ended at %s", words.Short(w.Limit.Minutes), w.Limit.Source,
			t.dayClock(w.By))
		if said {
			return fmt.Sprintf("\nBy that it went into the cold too late: its %s. Throw it away; /dish remove dish:%s, and "+
				"/repertoire list course:%s has other dishes.", limit, w.Dish.Key, w.Dish.Course)
		}
		return fmt.Sprintf("\nIts %s. If it went in after that, throw it away; if before, the limit was kept, which is no "+
			"promise.", limit)
	}
	return ""
}

// hangsOn says of a task that nobody ticked off on a day that is over whether food safety hangs on it.
func (t *Turn) hangsOn(task *planner.Task, pl *planner.Placed) bool {
	d := t.Party.Dish(task.Dish)
	if d == nil || !pl.End.Before(talk.DayOf(t.Now.In(t.zone())).In(t.zone())) {
		return false
	}
	l := trace.OfDish(t.Party, d).Leaves(d.Key, task.Step)
	return l.Perishable || slices.ContainsFunc(l.In, func(p trace.Part) bool { return p.Kind != safety.None })
}

// planPast plans with what should have been over by now taken as done; clash is empty where nothing was.
func (t *Turn) planPast(ctx context.Context, ask solve.Ask) (plan *planner.Plan, clash *solve.Clash, ticked []string,
	err error) {
	clash = &solve.Clash{}
	ticked, _ = t.tickPast("", false)
	if len(ticked) > 0 {
		plan, clash, err = t.keeping(ctx, ask)
	}
	if err == nil && plan == nil && len(t.unsure) > 0 {
		more, _ := t.tickPast("", true)
		ticked = append(ticked, more...)
		t.askCold()
		plan, clash, err = t.keeping(ctx, ask)
	}
	return plan, clash, ticked, err
}

// unsureSection asks about what was not taken as done for that.
func (t *Turn) unsureSection() []talk.Section {
	if len(t.unsure) == 0 {
		return nil
	}
	var lines []string
	for _, k := range t.unsure {
		if w := t.Party.WorkOn(k); w != nil && w.Progress != planner.Waiting && !w.Assumed {
			continue
		}
		lines = append(lines, fmt.Sprintf("%s: /task done task:%s at:… says when, if it was", t.taskName(k), k))
	}
	if len(lines) == 0 {
		return nil
	}
	goesOn := "until somebody says so, it is planned again"
	if t.asIf {
		goesOn = "the plan counts on it"
	}
	return []talk.Section{{Title: "Was this done? How long the food keeps hangs on it; " + goesOn,
		Lines: firstLines(lines, mostTicked, "/task list has them all")}}
}

// coolAtOnce moves, in a plan that is out of date, what puts food into the cold to where that is due now, so that its
// reminder comes in time.
func (t *Turn) coolAtOnce() {
	for _, w := range check.StillWarm(t.Party) {
		pl, done := t.Plan.Placed(w.Chore()), t.Party.WorkOn(planner.StepTask(w.Dish.Key, w.Step.Key, 1))
		if pl == nil || done == nil || done.End == nil || t.Party.Progress(w.Chore()) != planner.Waiting {
			continue
		}
		long := pl.End.Sub(pl.Start)
		pl.Start = wholeMinute(*done.End)
		pl.End = pl.Start.Add(long)
	}
	slices.SortStableFunc(t.Plan.Tasks, byStart)
}

// askedSections are the questions of who plans anew.
func (t *Turn) askedSections() []talk.Section { return append(t.coldSection(), t.unsureSection()...) }

// askedNotes are the same as notes.
func (t *Turn) askedNotes() {
	for _, s := range t.askedSections() {
		t.notes = append(t.notes, s.Title+":")
		t.notes = append(t.notes, s.Lines...)
	}
}
