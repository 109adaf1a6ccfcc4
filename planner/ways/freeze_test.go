package ways_test

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/solve"
	"tureen/planner/ways"
)

// evenings has the host cook on a few days only: so many days before the party's, from six to nine in the evening.
func evenings(p *planner.Party, before ...int) {
	ana := &p.People[0]
	ana.Days = nil
	for n := 1; n <= p.PrepDays; n++ {
		day := planner.OtherDay{Date: p.Day().AddDate(0, 0, -n).Format(time.DateOnly),
			Home: []planner.DayHours{{From: 18 * 60, Until: 24 * 60}}}
		if slices.Contains(before, n) {
			day.Cooks = []planner.DayHours{{From: 18 * 60, Until: 21 * 60}}
		} else if n == 1 { // time to take something out of the freezer
			day.Cooks = []planner.DayHours{{From: 18 * 60, Until: 18*60 + 25}}
			day.Home = day.Cooks
		} else {
			day.Home = nil
		}
		ana.Days = append(ana.Days, day)
	}
	ana.Days = append(ana.Days, planner.OtherDay{Date: p.Day().Format(time.DateOnly),
		Cooks: []planner.DayHours{{From: 15 * 60, Until: 23 * 60}},
		Home:  []planner.DayHours{{From: 15 * 60, Until: 23 * 60}}})
}

const (
	freezes = "Freezes well for up to a month. "
	cake    = "Lemon cake\nServes 6\n200 g butter\n200 g sugar\n4 eggs\n200 g flour\n\nBeat the butter with the sugar. " +
		"Beat in the eggs and fold in the flour. Bake at 180 °C for 40 minutes. Cool. "
)

// TestFrozen: what freezes well is made a week before, where nobody cooks on the days for which it keeps otherwise or
// those are full; thawed in the refrigerator, and finished; with every rule kept.
func TestFrozen(t *testing.T) {
	for _, row := range []struct {
		name, text string
		before     []int
		want       planner.Way
		change     func(p *planner.Party)
	}{
		{"a soup, a free evening in time", soup, []int{6, 5, 2, 1}, planner.MadeAhead, nil},
		{"a soup, free evenings a week before", soup, []int{6, 7}, planner.Frozen, nil},
		{"a soup that the recipe lets freeze", soup + freezes, []int{6, 7}, planner.Frozen, nil},
		{"a gratin, of which no table says so", gratin, []int{6, 7}, planner.ForService, nil},
		{"a gratin that the recipe lets freeze", gratin + freezes, []int{6, 7}, planner.Frozen, nil},
		{"a kitchen without a freezer", soup, []int{6, 7}, planner.ForService, func(p *planner.Party) {
			p.Kitchen.Freezer = planner.Cold{Given: true}
		}},
		{"nothing is wanted ahead", soup, []int{6, 7}, planner.ForService, func(p *planner.Party) {
			p.Ahead = planner.SameDay
		}},
		{"the host's own word", soup, []int{6, 5, 2, 1}, planner.Frozen, func(p *planner.Party) {
			p.Dishes[0].Way = planner.Frozen
		}},
		{"full days before", soup, []int{7, 6, 1}, planner.Frozen, func(p *planner.Party) {
			for i := range 5 {
				busy := p.Dishes[0]
				busy.Key = planner.DishKey("busy-" + string(rune('a'+i)))
				busy.Steps = []planner.Step{{Key: "cut", Do: "Cut the fruit", Attention: planner.Hands, Where: planner.Counter,
					Time: planner.Span{Low: 60, Likely: 60, High: 60}, Serve: &planner.Wait{State: planner.Refrigerator}}}
				busy.Ingredients = nil
				p.Dishes = append(p.Dishes, busy)
			}
		}},
	} {
		p, _, now := supper(t, row.text)
		now = now.AddDate(0, 0, -4)
		evenings(p, row.before...)
		if row.change != nil {
			row.change(p)
		}
		d := &p.Dishes[0]
		got := ways.Of(p, d, now)
		if got.Way != row.want {
			t.Errorf("%s: %q, since %q; want %q", row.name, got.Way, got.Why, row.want)
		}
		if got.Way != planner.Frozen {
			continue
		}
		ways.Renew(p, now)
		plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now})
		if err != nil || clash != nil {
			t.Errorf("%s: no plan: %v %v", row.name, err, clash)
			continue
		}
		if broken := check.Plan(p, plan); len(broken) > 0 {
			t.Errorf("%s: %v", row.name, broken)
		}
		thaw := slices.IndexFunc(d.Steps, func(s planner.Step) bool { return s.ThawsBy() != "" })
		if thaw < 1 {
			t.Errorf("%s: nothing thaws: %+v", row.name, d.Steps)
			continue
		}
		at := func(i int) *planner.Placed { return plan.Placed(planner.StepTask(d.Key, d.Steps[i].Key, 1)) }
		if gap := at(thaw).Start.Sub(at(thaw - 1).End); gap < 24*time.Hour {
			t.Errorf("%s: thawed %v after it was made", row.name, gap)
		}
	}
}
