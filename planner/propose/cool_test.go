package propose_test

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cooling"
	"tureen/planner/propose"
	"tureen/planner/solve"
)

// coldSupper is a party whose stew is cooked ahead and goes cold.
func coldSupper(t *testing.T) (*planner.Party, *planner.Plan, planner.ChoreKey) {
	t.Helper()
	p := shelfParty(10, "beef braised in red wine")
	propose.Renew(p, p.Opens())
	key := cooling.Key("beef-braised-in-red-wine", "braise")
	c := p.Chore(key)
	if c == nil || c.Kind != planner.Cool || c.Time.Likely > 10 || c.Attention != planner.Hands ||
		!strings.Contains(c.Do, "shallow trays") {
		t.Fatalf("got %+v of %v", c, p.Chores)
	}
	plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: p.Opens(), FirstOnly: true})
	if err != nil || clash != nil {
		t.Fatal(err, clash)
	}
	return p, plan, key
}

// TestColdSoon: the chore is over half an hour after the heat at the latest; a minute later breaks rule 7, also for a
// task that is done, then half an hour after the plan's making.
func TestColdSoon(t *testing.T) {
	p, plan, key := coldSupper(t)
	if b := check.Plan(p, plan); len(b) > 0 {
		t.Fatalf("%+v", b)
	}
	braise := plan.Placed(planner.StepTask("beef-braised-in-red-wine", "braise", 1))
	chore := plan.Placed(planner.ChoreTask(key))
	if late := chore.End.Sub(braise.End); late < 0 || late > cooling.SteamOff*time.Minute {
		t.Errorf("put away %v after the heat", late)
	}
	soon := func() string {
		for _, b := range check.Plan(p, plan) {
			if b.Rule == check.RuleAnchors && b.Task == chore.Task {
				return b.Text
			}
		}
		return ""
	}
	length := chore.End.Sub(chore.Start)
	move := func(end time.Time) { chore.Start, chore.End = end.Add(-length), end }
	move(braise.End.Add(cooling.SteamOff * time.Minute))
	if got := soon(); got != "" {
		t.Errorf("after half an hour: %s", got)
	}
	move(braise.End.Add((cooling.SteamOff + 1) * time.Minute))
	if got := soon(); !strings.Contains(got, "more than 30 minutes after") {
		t.Errorf("after 31 minutes: %q", got)
	}
	start, end := braise.Start, braise.End
	p.Work = append(p.Work, planner.Work{Task: braise.Task, Progress: planner.Done, Start: &start, End: &end})
	plan.Made = end.Add(time.Hour)
	move(plan.Made.Add(cooling.SteamOff * time.Minute))
	if got := soon(); got != "" {
		t.Errorf("half an hour after the plan was made again: %s", got)
	}
	move(plan.Made.Add((cooling.SteamOff + 1) * time.Minute))
	if got := soon(); !strings.Contains(got, "more than 30 minutes after") {
		t.Errorf("31 minutes after the plan was made again: %q", got)
	}
	plan.Soft = true
	if got := soon(); got != "" {
		t.Errorf("in an evening plan: %s", got)
	}
}

// TestColdDoneLate: whoever ticks the cooking hours late still gets a plan, with the food put away at once.
func TestColdDoneLate(t *testing.T) {
	p, plan, key := coldSupper(t)
	braise := plan.Placed(planner.StepTask("beef-braised-in-red-wine", "braise", 1))
	const early = 5 * time.Hour // before it was planned, so that there is time
	for _, pl := range plan.Tasks {
		if pl.End.After(braise.End) {
			continue
		}
		start, end := pl.Start.Add(-early), pl.End.Add(-early)
		p.Work = append(p.Work, planner.Work{Task: pl.Task, Progress: planner.Done, Start: &start, End: &end})
	}
	now := braise.End.Add(50*time.Minute - early)
	again, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now, InForce: plan, FirstOnly: true})
	if err != nil || clash != nil {
		t.Fatal(err, clash)
	}
	if b := check.Plan(p, again); len(b) > 0 {
		t.Errorf("%+v", b)
	}
	if end := again.Placed(planner.ChoreTask(key)).End; end.After(now.Add(cooling.SteamOff * time.Minute)) {
		t.Errorf("put away at %v, asked at %v", end, now)
	}
}

// TestDeclinedCoolingStaysAway: what the host calls little gets no chore, and nothing else that was proposed goes.
func TestDeclinedCoolingStaysAway(t *testing.T) {
	p, _, key := coldSupper(t)
	before := len(p.Chores)
	propose.Decline(p, key)
	propose.Renew(p, p.Opens())
	if p.Chore(key) != nil || len(p.Chores) != before-1 {
		t.Errorf("got %v", p.Chores)
	}
}
