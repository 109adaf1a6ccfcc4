package check

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
)

// TestReachToTheMinute: a task can go just as far as is said, in steps of a minute, either way; a minute further breaks
// what is named.
func TestReachToTheMinute(t *testing.T) {
	p, plan := partygen.Rich()
	wine := plan.Placed("wine") // by an odd minute, so that what ends its time lies between the longer steps
	wine.Start, wine.End = wine.Start.Add(2*time.Minute), wine.End.Add(2*time.Minute)
	r := newSpareFinder(p, plan)
	beyond := 0
	for i := range plan.Tasks {
		if testing.Short() && plan.Tasks[i].Task != "wine" {
			continue
		}
		block := r.block(plan.Tasks[i].Task)
		for _, way := range []planner.Minutes{-1, 1} {
			far, why := r.reach(block, way)
			if far >= whyFar-whyStep {
				continue
			}
			if got := r.shifted(block, way*far); far > 0 && len(got) > 0 {
				t.Errorf("%s by %d: %q", block[0], way*far, got)
			}
			if r.onMark(block[0], way, far+1) < far+1 {
				continue // another mark is too far
			}
			if got := r.shifted(block, way*(far+1)); len(got) == 0 || !slices.Equal(got, why) {
				t.Errorf("%s by %d: %q, said %q", block[0], way*(far+1), got, why)
			}
			if far > whyNear && far%whyStep != 0 {
				beyond++
			}
		}
	}
	if beyond == 0 {
		t.Error("nothing ends between the steps")
	}
}

// TestServedAlone: where one serving of a course is not in the plan the others are played all the same.
func TestServedAlone(t *testing.T) {
	p, plan := partygen.Rich()
	all := len(newPlay(p, plan).serves)
	plan.Served = slices.DeleteFunc(plan.Served, func(s planner.Served) bool { return s.Group == "toddlers" })
	y := newPlay(p, plan)
	if len(y.serves) != all-1 || y.serves[1].course != "main" || y.serves[1].beforeServe != 0 {
		t.Errorf("%+v", y.serves)
	}
}

// TestBlameIsForOverruns: of what leads to a late service only what took longer than planned is to blame, by as much;
// what is only late behind it is not.
func TestBlameIsForOverruns(t *testing.T) {
	exact := func(start float64, before ...playedArc) playedTask {
		return playedTask{start: start, end: start + 10, low: 10, mode: 10, high: 10, before: before}
	}
	y := &play{tasks: []playedTask{{start: 0, end: 10, low: 30, mode: 30, high: 30}, exact(10, playedArc{task: 0}),
		exact(10)}, serves: []playedServe{{at: 20, latest: 25, beforeServe: -1, before: []playedArc{{task: 1}, {task: 2}}},
		{at: 30, latest: 30, beforeServe: 0, apart: 10}, {at: 50, latest: 50, beforeServe: 0, apart: 10}}}
	got := y.run(4, 1)
	for i, want := range [][]float64{{80, 0, 0}, {80, 0, 0}, {0, 0, 0}} {
		if !slices.Equal(got.blame[i], want) {
			t.Errorf("%d: to blame are %v, want %v", i, got.blame[i], want)
		}
	}
	if !slices.Equal(got.late, []float64{15, 20, 0}) || !slices.Equal(got.onTime, []float64{0, 0, 1}) {
		t.Errorf("late by %v, on time %v", got.late, got.onTime)
	}
}

// TestOvenThatIsGone: what holds an oven that the kitchen has no more keeps nobody waiting.
func TestOvenThatIsGone(t *testing.T) {
	p, plan := partygen.Rich()
	b := &playBuilder{c: newChecker(p, plan)}
	use := &planner.Use{What: planner.AnOven, Name: "gone", C: 180}
	at := func(k planner.TaskKey) *holding {
		j := b.c.byKey[k]
		return &holding{need: need{job: j, use: use, from: j.start, to: j.end}, name: "gone", amount: 1}
	}
	if lag, waits := b.takesOver(nil, at("tart/bake"), at("braise/braise")); lag != 0 || waits {
		t.Errorf("after %g, %t", lag, waits)
	}
}

// TestNextInTheDish: of what waits on the counter the next is what comes after it in the same dish, with its food.
func TestNextInTheDish(t *testing.T) {
	end := time.Date(2026, 10, 10, 18, 0, 0, 0, time.UTC)
	counter := planner.Wait{State: planner.Counter}
	for _, c := range []struct {
		name  string
		after planner.After
		next  bool
	}{
		{"after it", planner.After{Step: "boil", Wait: counter}, true},
		{"after it, by its dish", planner.After{Dish: "stew", Step: "boil", Wait: counter}, true},
		{"after another's", planner.After{Dish: "soup", Step: "boil", Wait: counter}, false},
		{"after another step", planner.After{Step: "chop", Wait: counter}, false},
		{"from its start", planner.After{Step: "boil", FromStart: true, Wait: counter}, false},
		{"in the cold", planner.After{Step: "boil", Wait: planner.Wait{State: planner.Refrigerator}}, false},
	} {
		p := &planner.Party{Zone: "UTC", Arrival: end, Dishes: []planner.Dish{{Key: "stew", Name: "Stew",
			Steps: []planner.Step{{Key: "chop"}, {Key: "boil"}, {Key: "plate", After: []planner.After{c.after}}}}},
			Work: []planner.Work{{Task: "stew/boil", Progress: planner.Done, End: &end}}}
		h := newHistory(p, &p.Dishes[0])
		if next, _ := h.standsAfter(&p.Dishes[0].Steps[1]); (next != nil) != c.next {
			t.Errorf("%s: next is %v", c.name, next)
		}
	}
}
