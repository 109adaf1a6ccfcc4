package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/solve"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// When the guests come later, food that was to stand for an hour stands for two. Before a plan does without such a dish
// it goes into the cold, as whoever stands beside it would put it there; and where nobody has said that it was begun,
// it is said how it would begin later.

// putAway is how long it takes to cover a dish and to find it room in the refrigerator; common practice, no source.
var putAway = planner.Span{Low: 2, Likely: 5, High: 10}

// intoTheCold plans again with the dishes put into the refrigerator that a plan leaves out because they would stand too
// long, where that keeps them. It says which they are, and whether the plan is an evening plan still.
func (t *Turn) intoTheCold(ctx context.Context, ask solve.Ask, plan *planner.Plan) (*planner.Plan, bool, []string) {
	var lines []string
	soft := ask.Soft
	for _, l := range plan.Without {
		d := t.Party.Dish(l.Dish)
		if d == nil || !l.Limit || !plan.LeavesOut(l.Dish) {
			continue
		}
		at, stands := check.Passes(t.Party, l.Dish)
		if !stands || !at.At.After(t.Now) || trace.Of(t.Party).Leaves(d.Key, at.Step.Key).Hot {
			continue // over its limit already, or to be eaten hot
		}
		before := t.Party
		t.Party = before.Clone()
		if t.Party == nil || !chill(t.Party.Dish(l.Dish), at.Step.Key) {
			t.Party = before
			continue
		}
		var cold *planner.Plan
		var clash *solve.Clash
		var err error
		for _, ask.Soft = range []bool{false, true} {
			if cold, clash, err = makePlan(ctx, t.Party, ask); err == nil && clash == nil {
				break
			}
		}
		if err != nil || clash != nil || cold.LeavesOut(l.Dish) || len(cold.Without) >= len(plan.Without) {
			t.Party = before
			continue
		}
		plan, soft = cold, ask.Soft
		lines = append(lines, fmt.Sprintf("%s goes into the refrigerator first: it would stand too long. The plan has a "+
			"step for it.", talk.Clean(d.Name, false)))
	}
	return plan, soft, lines
}

// chill gives a dish a step that puts what waits on the counter after another into the refrigerator, and says whether
// anything waits there.
func chill(d *planner.Dish, after planner.StepKey) bool {
	s := d.Step(after)
	if d.Step("put-away") != nil {
		return false
	}
	away := planner.Step{Key: "put-away", Do: "Put the " + strings.TrimPrefix(words.Lower(d.Name), "the ") +
		" into the refrigerator", Attention: planner.Hands, Time: putAway, Where: planner.Counter, Component: s.Component,
		Leaves: s.Leaves, After: []planner.After{{Step: after, Wait: planner.Wait{State: planner.Counter}}}}
	cold := func(w planner.Wait) planner.Wait {
		w.State, w.Hold = planner.Refrigerator, nil
		return w
	}
	found, followed := false, false
	for i := range d.Steps {
		for j := range d.Steps[i].After {
			a := &d.Steps[i].After[j]
			if a.Step != after || a.Dish != "" && a.Dish != d.Key || a.FromStart {
				continue
			}
			followed = true
			if a.Wait.State == planner.Counter || a.Wait.State == planner.Warm {
				a.Step, a.Wait, found = away.Key, cold(a.Wait), true
			}
		}
	}
	switch {
	case s.Serve != nil && (s.Serve.State == planner.Counter || s.Serve.State == planner.Warm):
		w := cold(*s.Serve)
		away.Serve, s.Serve, found = &w, nil, true
	case s.Serve == nil && !followed:
		away.Serve, found = &planner.Wait{State: planner.Refrigerator}, true
	}
	i := slices.IndexFunc(d.Steps, func(s planner.Step) bool { return s.Key == after })
	d.Steps = slices.Insert(d.Steps, i+1, away)
	return found
}

// notBegun says of the dishes that a plan leaves out, and of which something was only taken as begun, what to type
// where it has not: then it begins later.
func (t *Turn) notBegun(plan *planner.Plan, taken []planner.TaskKey) []string {
	var lines []string
	if !t.has("guests") {
		return nil
	}
	guests := fmt.Sprintf("guests:%d ", t.values["guests"].Span.High)
	for _, l := range plan.Without {
		for _, k := range taken {
			if dish, _, _, _, ok := k.Split(); !ok || dish != l.Dish || !l.Limit {
				continue
			}
			lines = append(lines, fmt.Sprintf("%s: /undo, then /late %stask:%s by:%d begins it later.", t.taskName(k),
				guests, k, t.laterBy(k)))
			break
		}
	}
	return lines
}

// laterBy is by how much a task that has not begun is put off, so that it begins as much later as the guests come.
func (t *Turn) laterBy(k planner.TaskKey) planner.Minutes {
	by := t.values["guests"].Span.High
	if pl := t.Plan.Placed(k); pl != nil { // what is counted from is the planned start, or now where that is past
		if past := planner.Minutes(t.Now.Sub(pl.Start) / time.Minute); past > 0 {
			by = max(1, by-past)
		}
	}
	return by
}
