package check_test

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/words"
)

func levels(p *planner.Party, plan, inForce *planner.Plan) map[planner.LevelName]int {
	out := map[planner.LevelName]int{}
	for _, l := range check.Of(p).Figures(plan, inForce) {
		out[l.Name] = l.Value
	}
	return out
}

// The figures were worked out by hand from the definitions in planner/levels.go.
func TestFiguresOfThePlanMadeByHand(t *testing.T) {
	p, plan := partygen.Rich()
	want := map[planner.LevelName]int{
		planner.OnTime:   0,
		planner.HostFree: 2, // Ana's gravy, 19:55 to 20:05, touches two quarters
		planner.AtBest:   2, // the first fritters wait 12 minutes, the braise 55 for the last group
		planner.Steady:   0,
		// Saturday's hands: table 2 quarters, brown 2, batter, gravy, custard, fill and two rounds of fritters 1 each;
		// what is watched: braise 3 hours, reheat, proof and both bakes 1 each; the wine 1. The tart is baked by 15:30,
		// custard, fill, table and brown are done by 18:30: 2 + 4 + 4 + 8 + 8, and 8 times 11 for the rest.
		planner.Ahead: 114,
		// 13, in fours. On Friday three sessions of 2; on Saturday Ana afternoon, evening; Ben too; Cleo 1; Ben fries 19:42
		// to 19:54: 2
		planner.Calm:   4,
		planner.Shared: 5, // Ana: 60+30+10+15+25+10 minutes
		planner.Spare:  6, // shell, custard, brown, braise, and both rounds of fritters
	}
	got := levels(p, plan, nil)
	for name, w := range want {
		if got[name] != w {
			t.Errorf("%s: got %d, want %d", name, got[name], w)
		}
	}
}

func TestFiguresFollowThePlan(t *testing.T) {
	shift := func(plan *planner.Plan, k planner.TaskKey, d time.Duration) {
		plan.Placed(k).Start = plan.Placed(k).Start.Add(d)
		plan.Placed(k).End = plan.Placed(k).End.Add(d)
	}
	rows := []struct {
		name  string
		level planner.LevelName
		edit  func(p *planner.Party, plan *planner.Plan)
		want  int
	}{
		{"one minute late is a band", planner.OnTime, func(_ *planner.Party, plan *planner.Plan) {
			plan.Served[0].At = plan.Served[0].At.Add(time.Minute)
		}, 1},
		{"five minutes early is one band", planner.OnTime, func(_ *planner.Party, plan *planner.Plan) {
			plan.Served[0].At = plan.Served[0].At.Add(-5 * time.Minute)
		}, 1},
		{"six minutes early are two bands", planner.OnTime, func(_ *planner.Party, plan *planner.Plan) {
			plan.Served[0].At = plan.Served[0].At.Add(-6 * time.Minute)
		}, 2},
		{"nothing in hand", planner.HostFree, func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[3].Steps[2].Attention = planner.Watch // no gravy in hand
		}, 0},
		{"dressing does not count", planner.HostFree, func(p *planner.Party, plan *planner.Plan) {
			p.Chore("table").Kind = planner.Dress
			shift(plan, "table", 3*time.Hour) // 19:00 to 19:15, Ana's
		}, 2},
		{"laying the table then does", planner.HostFree, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "table", 3*time.Hour)
		}, 3},
		// Ben fries 19:42 to 19:54
		{"two hosts", planner.HostFree, func(p *planner.Party, _ *planner.Plan) { p.People[1].Role = planner.Host }, 2 + 2},
		{"a long wait past the best", planner.AtBest, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "tart/chill", -6*time.Hour)
		}, 2 + 0},
		{"a longer wait past the best", planner.AtBest, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "tart/chill", -10*time.Hour)
		}, 2 + 2},
		{"a day past the best", planner.AtBest, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "tart/chill", -30*time.Hour)
		}, 2 + 3},
		{"ended at the mark", planner.Ahead, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "tart/custard", -5*time.Minute)
		}, 114 - 2},
		{"in the morning", planner.Ahead, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "table", -5*time.Hour)
		}, 114 - 6},
		{"on another day", planner.Ahead, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "braise/braise", -24*time.Hour)
		}, 114 - 24},
		{"an early party has no morning", planner.Ahead, func(p *planner.Party, _ *planner.Plan) {
			p.Arrival = p.Arrival.Add(-4 * time.Hour) // 15:30: the marks are 11:30, 11:30 and 14:30
		}, 8 * (1 + 1 + 1 + 1 + 2 + 2 + 1 + 2 + 1 + 1 + 3 + 1 + 1)},
		{"begun work is past", planner.Ahead, func(p *planner.Party, plan *planner.Plan) {
			p.Work = []planner.Work{{Task: "braise/braise", Progress: planner.Started}}
		}, 114 - 24},
		// of Friday: chop 4 (an hour's work for two), simmer 1, blend 1, dough 2; shopping is for no dish
		{"all on the same day", planner.Ahead, func(p *planner.Party, _ *planner.Plan) { p.Ahead = planner.SameDay }, 8},
		// 13, two nights, Ana's five half hours over two, and twice 2 since it ends late
		{"work at night", planner.Calm, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "soup/chop", 5*time.Hour)
		}, 8},
		{"work over midnight is one night", planner.Calm, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "tart/dough", 6*time.Hour+50*time.Minute)
		}, 5},
		// Ben's session moves to Thursday, and is one more
		{"farther from the eve", planner.Calm, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "tart/dough", -24*time.Hour)
			shift(plan, "soup/chop", -24*time.Hour) // Ana then has two, Cleo's is farther too
		}, 5},
		{"an errand is no session", planner.Calm, func(_ *planner.Party, plan *planner.Plan) {
			shift(plan, "shopping", -3*time.Hour-10*time.Minute)
		}, 4},
		// 13, a session on Thursday 3, and 2 since it begins at 6:50
		{"before breakfast", planner.Calm, func(p *planner.Party, plan *planner.Plan) {
			shift(plan, "shopping", -3*time.Hour-10*time.Minute)
			p.Chore("shopping").Away = false
		}, 5},
		{"half an hour more", planner.Shared, func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("braise/gravy").End = plan.Placed("braise/gravy").End.Add(time.Minute)
		}, 6},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			p, plan := partygen.Rich()
			row.edit(p, plan)
			if got := levels(p, plan, nil)[row.level]; got != row.want {
				t.Errorf("%s: got %d, want %d", row.level, got, row.want)
			}
		})
	}
}

func TestSteadyCountsWhatPeopleNotice(t *testing.T) {
	rows := []struct {
		name string
		edit func(p *planner.Party, plan *planner.Plan)
		want int
	}{
		{"nothing moved", func(*planner.Party, *planner.Plan) {}, 0},
		{"half an hour is nothing", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("table").Start = plan.Placed("table").Start.Add(30 * time.Minute)
		}, 0},
		{"half an hour earlier is nothing", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("table").Start = plan.Placed("table").Start.Add(-30 * time.Minute)
		}, 0},
		{"more than half an hour later", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("table").Start = plan.Placed("table").Start.Add(31 * time.Minute)
		}, 1},
		{"nobody any more", func(_ *planner.Party, plan *planner.Plan) { plan.Placed("tart/fill").People = nil }, 0},
		{"more than half an hour", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("table").Start = plan.Placed("table").Start.Add(-31 * time.Minute)
		}, 1},
		{"another day", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("tart/dough").Start = plan.Placed("tart/dough").Start.Add(-24 * time.Hour)
		}, 3},
		{"another person", func(_ *planner.Party, plan *planner.Plan) { plan.Placed("tart/fill").People[0] = "ana" }, 2},
		{"another second person", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("soup/chop").People[1] = "ben"
		}, 0},
		{"settled work does not count", func(p *planner.Party, plan *planner.Plan) {
			start := plan.Placed("tart/dough").Start.Add(-24 * time.Hour)
			plan.Placed("tart/dough").Start = start
			p.Work = append(p.Work, planner.Work{Task: "tart/dough", Progress: planner.Started, Start: &start})
		}, 0},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			_, inForce := partygen.Rich()
			p, plan := partygen.Rich()
			row.edit(p, plan)
			if got := levels(p, plan, inForce)[planner.Steady]; got != row.want {
				t.Errorf("got %d, want %d", got, row.want)
			}
		})
	}
}

// Time to spare was worked out by hand from the plan and the rules.
func TestSpareSaysHowLongAndWhatEndsIt(t *testing.T) {
	rows := []struct {
		task  planner.TaskKey
		spare planner.Minutes
		why   string
	}{
		{"shopping", 660, "outside the hours"},             // Ana cooks until 22:00
		{"soup/chop", 11, "Blend the soup"},                // simmering goes straight on, blending at 18:21
		{"soup/blend", 39, "in the cold"},                  // 30 chopping, 11 waiting, 10 blending, 39, and 30 of steam
		{"tart/bake", 5, "30 minutes is the least"},        // out at 15:05, filled from 15:40 on
		{"tart/fill", 75, "in the cold"},                   // 5 waiting, 10 filling, 75, and 30 in which it steams off
		{"tart/chill", 235, "dessert is served"},           // 17:50 to 21:45
		{"table", 40, "Brown the meat"},                    // Ana's next hands work is at 16:55
		{"braise/brown", 5, "Make the gravy"},              // braising moves along, to 19:55
		{"wine", 20, "after Sat 19:50"},                    // its By
		{"bread/proof", 15, "20 minutes is the least"},     // baking moves along
		{"fritters/batter", 47, "15 minutes is the least"}, // fried from 19:42 on
		{"fritters/fry", 0, "round 2"},                     // round 2 is Ben's too, at once
		{"braise/gravy", 10, "main is served"},             // toddlers eat at 20:15
	}
	p, plan := partygen.Rich()
	p.WorkHours = planner.DayHours{From: 0, Until: 23 * 60} // people's own hours bind
	for _, row := range rows {
		spare, why := check.SpareOf(p, plan, row.task)
		if spare != row.spare || !strings.Contains(words.PlainStamps(why), row.why) {
			t.Errorf("%s: got %d, %q, want %d, …%s…", row.task, spare, why, row.spare, row.why)
		}
	}
	if spare, _ := check.SpareOf(p, plan, "soup/eat"); spare != 0 {
		t.Errorf("a task that is not in the plan has %d minutes to spare, want 0", spare)
	}
}
