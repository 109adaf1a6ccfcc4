package solve_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// What was said to begin no sooner than an instant does not, whatever is planned, until it has begun.
func TestWhatSlippedBeginsNoSooner(t *testing.T) {
	now := partygen.ClockOn(23)(18, 0)
	p := partygen.Dinner(8)
	plan := mustMake(t, p, solve.Ask{Now: now, Work: 3_000_000})
	was := plan.Placed("gratin/layer").Start
	soonest := was.Add(10 * 60e9)
	p.Work = append(p.Work, planner.Work{Task: "gratin/layer", NotBefore: &soonest})
	broken := check.Plan(p, plan)
	if !slices.ContainsFunc(broken, func(b check.Broken) bool {
		return b.Rule == check.RulePast && b.Task == "gratin/layer"
	}) {
		t.Errorf("the plan before breaks %+v, want rule 9 among it", broken)
	}
	again := mustMake(t, p, solve.Ask{Now: now, InForce: plan, Work: 3_000_000})
	if got := again.Placed("gratin/layer").Start; got.Before(soonest) {
		t.Errorf("it begins at %v, was said to begin at %v at the earliest", got, soonest)
	}
	late := p.LastService()
	p.Work[len(p.Work)-1].NotBefore = &late
	plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now, Work: 3_000_000})
	if err != nil || plan != nil || clash == nil {
		t.Fatalf("got %v, %v, %v; want a clash", plan, clash, err)
	}
	if !slices.ContainsFunc(clash.Requirements, func(r solve.Requirement) bool {
		return strings.Contains(r.Text, "is to begin at")
	}) {
		t.Errorf("what was said is not among what clashes: %+v", clash.Requirements)
	}
	if !slices.ContainsFunc(clash.Mends, func(m planner.Mend) bool { return m.Do == "late task:gratin/layer by:0" }) {
		t.Errorf("that it may begin sooner after all is not proposed: %+v", clash.Mends)
	}
	// What has begun is past that.
	for i := range p.Work {
		if w := &p.Work[i]; w.Task == "gratin/layer" {
			w.Progress, w.Start = planner.Started, &was
		}
	}
	if b := check.Plan(p, again); slices.ContainsFunc(b, func(b check.Broken) bool {
		return strings.Contains(b.Text, "soonest")
	}) {
		t.Errorf("it has begun, and still: %+v", b)
	}
}

// What was said to be done on a day is, in another plan than an evening's, or it says that it cannot be.
func TestOnItsDay(t *testing.T) {
	now := partygen.ClockOn(23)(18, 0)
	p := partygen.Dinner(8)
	plan := mustMake(t, p, solve.Ask{Now: now, Work: 3_000_000})
	const layer planner.TaskKey = "gratin/layer"
	before := plan.Placed(layer).Start
	p.Work = append(p.Work, planner.Work{Task: layer, NotAfter: &before})
	if !slices.ContainsFunc(check.Plan(p, plan), func(b check.Broken) bool {
		return b.Rule == check.RulePast && b.Task == layer
	}) {
		t.Error("the plan before has it too late, and is not said to")
	}
	again := mustMake(t, p, solve.Ask{Now: now, InForce: plan, Work: 3_000_000})
	if got := again.Placed(layer).Start; !got.Before(before) {
		t.Errorf("it begins at %v, was said to begin before %v", got, before)
	}
	soon := planner.Later(now, p.Opens()).Add(time.Minute)
	p.Work[len(p.Work)-1].NotAfter = &soon
	plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now, Work: 3_000_000})
	if err != nil || plan != nil || clash == nil {
		t.Fatalf("got %v, %v, %v; want a clash", plan, clash, err)
	}
	if !slices.ContainsFunc(clash.Requirements, func(r solve.Requirement) bool {
		return strings.Contains(r.Text, "is to begin before")
	}) {
		t.Errorf("what was said is not among what clashes: %+v", clash.Requirements)
	}
	if !slices.ContainsFunc(clash.Mends, func(m planner.Mend) bool { return m.Do == "late task:gratin/layer by:0" }) {
		t.Errorf("that it may begin when it suits is not proposed: %+v", clash.Mends)
	}
	mustMake(t, p, solve.Ask{Now: soon, Work: 3_000_000}) // the instant has passed
}

// What the kitchen has not, or no more, is a clash before the party's day; on the evening itself the rest is planned.
func TestWhatTheKitchenLacksLeavesTheRest(t *testing.T) {
	p := partygen.Dinner(4)
	p.Dish("soup").Steps[1].Uses = append(p.Dish("soup").Steps[1].Uses,
		planner.Use{What: planner.AVessel, Name: "cauldron"})
	_, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: partygen.ClockOn(23)(18, 0)})
	if err != nil || clash == nil || !strings.Contains(clash.Requirements[0].Text, "cauldron") {
		t.Fatalf("got %+v, %v; want a clash over the cauldron", clash, err)
	}
	plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: partygen.ClockOn(23)(18, 0), Soft: true})
	if err != nil || clash != nil {
		t.Fatalf("got %+v, %v; want a plan", clash, err)
	}
	if len(plan.Without) != 1 || plan.Without[0].Dish != "soup" || !strings.Contains(plan.Without[0].Why, "cauldron") {
		t.Errorf("left out: %+v, want the soup, for want of a cauldron", plan.Without)
	}
	for _, x := range p.Validate() {
		if !x.Lacks {
			t.Errorf("%+v is no lack", x)
		}
	}
}

// A plan that breaks a rule is no plan; what it breaks is said in words, never by a number.
func TestAnUnsoundPlanIsAClash(t *testing.T) {
	p := partygen.Dinner(8)
	plan := mustMake(t, p, solve.Ask{Now: partygen.ClockOn(23)(18, 0), Work: 3_000_000})
	plan.Tasks[0].Start = plan.Tasks[0].Start.AddDate(0, 0, -9)
	err := solve.Unsound(check.Plan(p, plan))
	clash := solve.AsClash(err)
	if clash == nil || len(clash.Requirements) == 0 || clash.Requirements[0].Task == "" {
		t.Fatalf("got %+v", clash)
	}
	for _, word := range []string{"rule ", "fault"} {
		if strings.Contains(err.Error(), word) {
			t.Errorf("%q speaks of %q", err, word)
		}
	}
}

// Evenings under way in which a task slips have a plan that keeps every rule, and to what was said; or a clash in
// words.
func TestTinyEveningsKeepToWhatSlipped(t *testing.T) {
	t.Parallel()
	var slipped, planned int
	for seed := range uint64(partygen.Parties(t, 40)) {
		d := partygen.Seeded(880_000 + seed)
		p, now := partygen.Tiny(d)
		settleDown(p)
		plan, _, err := solve.Make(t.Context(), p, solve.Ask{Now: now, FirstOnly: true})
		if err != nil || plan == nil {
			continue
		}
		ask := solve.Ask{Now: partygen.UnderWay(d, p, plan), InForce: plan, Soft: true}
		var open []planner.TaskKey
		for _, x := range plan.Tasks {
			if p.Progress(x.Task) == planner.Waiting {
				open = append(open, x.Task)
			}
		}
		if len(open) == 0 {
			continue
		}
		key := open[d.Roll(0, len(open)-1)]
		soonest := plan.Placed(key).Start
		if soonest.Before(ask.Now) {
			soonest = ask.Now
		}
		soonest = soonest.Add(time.Duration(d.Roll(1, 60)) * time.Minute)
		if w := p.WorkOn(key); w != nil {
			w.NotBefore = &soonest
		} else {
			p.Work = append(p.Work, planner.Work{Task: key, NotBefore: &soonest})
		}
		slipped++
		again, clash, err := solve.Make(t.Context(), p, ask)
		switch {
		case err != nil:
			t.Errorf("seed %d: %v", seed, err)
		case again == nil && len(clash.Requirements) == 0:
			t.Errorf("seed %d: neither a plan nor why there is none", seed)
		case again == nil:
		default:
			planned++
			if broken := check.Plan(p, again); len(broken) > 0 {
				t.Errorf("seed %d: %+v", seed, broken)
			}
			if x := again.Placed(key); x != nil && x.Start.Before(soonest) {
				t.Errorf("seed %d: %s begins at %v, was said to begin at %v at the earliest", seed, key, x.Start, soonest)
			}
		}
	}
	if slipped < 10 || planned*4 < slipped*3 {
		t.Errorf("%d tasks slipped and %d evenings were planned; the test looks at too little", slipped, planned)
	}
}
