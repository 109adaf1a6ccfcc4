package reminders

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
	"tureen/store"
)

// Whatever party and plan there is: everybody who has a task to start hears of it once, no later than it
// starts unless their quiet hours say so; nobody hears of work that is not theirs; and what is begun at the
// last moment that is told breaks no rule.
func TestRemindersOfRandomParties(t *testing.T) {
	const parties = 20
	planned := 0
	for seed := range uint64(parties) {
		p, now := partygen.Draw(partygen.Seeded(seed), partygen.Size{Dishes: [2]int{1, 4}, People: [2]int{1, 4}})
		plan, _, err := solve.Make(t.Context(), p, solve.Ask{Now: now, FirstOnly: true})
		if err != nil || plan == nil {
			continue
		}
		planned++
		list := each(p, plan)
		if again := each(p, plan); !slices.EqualFunc(list, again,
			func(a, b store.Reminder) bool { return fmt.Sprint(a) == fmt.Sprint(b) }) {
			t.Fatalf("seed %d: asked twice, answered otherwise", seed)
		}
		told := map[string]store.Reminder{}
		for _, r := range list {
			if _, twice := told[r.Key]; twice {
				t.Errorf("seed %d: two have the key %s", seed, r.Key)
			}
			told[r.Key] = r
			if pl := plan.Placed(r.Task); r.Task != "" && (pl == nil || !slices.Contains(pl.People, r.Person)) {
				t.Errorf("seed %d: %s goes to %s, who has no part in it", seed, r.Key, r.Person)
			}
		}
		for _, pl := range plan.Tasks {
			for _, who := range pl.People {
				r, ok := told[fmt.Sprintf("due/%s/%s", pl.Task, who)]
				_, quiet := quietAt(p.Person(who), pl.Start, p.Location())
				if !ok || r.Due.After(pl.Start) && !quiet {
					t.Errorf("seed %d: %s hears of %s at %v (%v), it starts at %v", seed, who, pl.Task, r.Due, ok, pl.Start)
				}
			}
			if last, ok := told[fmt.Sprintf("last/%s/%s", pl.Task, pl.People[0])]; ok {
				by := planner.Minutes(last.At.Sub(pl.Start) / time.Minute)
				// What goes straight on after another step moves with that one's end: it is asked how long it may run over.
				if spare, _ := check.SpareOf(p, plan, pl.Task); by <= spare {
					continue
				}
				if why := check.LaterBreaks(p, plan, pl.Task, by); why != "" {
					t.Errorf("seed %d: %s is begun at the last moment, %d minutes later: %s", seed, pl.Task, by, why)
				}
			}
		}
	}
	if planned < parties/2 {
		t.Errorf("only %d of %d parties have a plan", planned, parties)
	}
}
