package check_test

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/safety"
)

// spoiler changes a valid plan, or its party, so that one rule breaks.
type spoiler struct {
	t    *testing.T
	p    *planner.Party
	plan *planner.Plan
}

func (s *spoiler) task(k planner.TaskKey) *planner.Placed {
	if placed := s.plan.Placed(k); placed != nil {
		return placed
	}
	s.t.Fatalf("no task %q in the plan", k)
	return nil
}

func (s *spoiler) step(d planner.DishKey, k planner.StepKey) *planner.Step {
	return s.p.Dish(d).Step(k)
}

// move moves a task with what it holds from its start and from or to its end.
func (s *spoiler) move(k planner.TaskKey, minutes int) {
	t := s.task(k)
	s.retime(k, t.Start.Add(time.Duration(minutes)*time.Minute), t.End.Add(time.Duration(minutes)*time.Minute))
}

func (s *spoiler) retime(k planner.TaskKey, start, end time.Time) {
	t := s.task(k)
	follow := func(at time.Time) time.Time {
		switch {
		case at.Equal(t.Start):
			return start
		case at.Equal(t.End):
			return end
		}
		return at
	}
	for i := range t.Uses {
		t.Uses[i].From, t.Uses[i].To = follow(t.Uses[i].From), follow(t.Uses[i].To)
	}
	t.Start, t.End = start, end
}

func (s *spoiler) give(k planner.TaskKey, people ...planner.PersonKey) { s.task(k).People = people }

// served moves a serving, by its place in the plan.
func (s *spoiler) served(i, minutes int) {
	s.plan.Served[i].At = s.plan.Served[i].At.Add(time.Duration(minutes) * time.Minute)
}

// saturday is an instant of the party's day, in Lisbon's summer time.
func saturday(hour, minute int) time.Time {
	return time.Date(2026, time.September, 26, hour-1, minute, 0, 0, time.UTC)
}

// chore adds a chore to party and plan.
func (s *spoiler) chore(c planner.Chore, start time.Time, people []planner.PersonKey, held ...planner.Held) {
	c.Kind, c.Do = planner.Other, "Do something else"
	s.p.Chores = append(s.p.Chores, c)
	end := start.Add(c.Time.Likely.Duration())
	for i := range held {
		held[i].From, held[i].To = start, end
	}
	s.plan.Tasks = append(s.plan.Tasks, planner.Placed{Task: planner.ChoreTask(c.Key), Start: start, End: end,
		People: people, Uses: held})
}

// warmPlate adds a rest in an oven.
func (s *spoiler) warmPlate(oven string, c, shelves int, start time.Time) {
	s.chore(planner.Chore{Key: "plates", Attention: planner.Unattended, Time: partygen.Exactly(10),
		Uses: []planner.Use{{What: planner.AnOven, Name: oven, C: c, Amount: shelves}}},
		start, []planner.PersonKey{"ben"}, planner.Held{What: planner.AnOven, Name: oven, Amount: shelves, C: c})
}

// dropHeld takes the held things of a kind from a task.
func (s *spoiler) dropHeld(k planner.TaskKey, drop func(planner.Held) bool) {
	s.task(k).Uses = slices.DeleteFunc(s.task(k).Uses, drop)
}

// Each row breaks one rule of a valid plan; that rule must be named, and no other.
func TestCheckNamesTheBrokenRuleAndOnlyIt(t *testing.T) {
	bowl := func(s *spoiler, end time.Time) { s.task("fritters/batter").Uses[0].To = end }
	rows := []struct {
		name  string
		rule  check.Rule
		spoil func(s *spoiler)
	}{
		{"a task is missing", check.RuleComplete, func(s *spoiler) {
			s.plan.Tasks = slices.DeleteFunc(s.plan.Tasks, func(t planner.Placed) bool { return t.Task == "wine" })
		}},
		{"a task stands twice", check.RuleComplete, func(s *spoiler) {
			s.plan.Tasks = append(s.plan.Tasks, *s.task("wine"))
		}},
		{"a task is unknown", check.RuleComplete, func(s *spoiler) {
			s.plan.Tasks = append(s.plan.Tasks, planner.Placed{Task: "soup/eat", Start: saturday(20, 0), End: saturday(21, 0)})
		}},
		{"a round too many", check.RuleComplete, func(s *spoiler) {
			s.plan.Tasks = append(s.plan.Tasks, planner.Placed{Task: "fritters/fry.3", Start: saturday(20, 0),
				End: saturday(21, 0)})
		}},
		{"a person is unknown", check.RuleComplete, func(s *spoiler) { s.give("sorbet/freeze", "zoe") }},
		{"half a minute", check.RuleComplete, func(s *spoiler) {
			s.task("sorbet/freeze").Start = s.task("sorbet/freeze").Start.Add(30 * time.Second)
		}},
		{"ends before it starts", check.RuleComplete, func(s *spoiler) {
			s.task("sorbet/freeze").End = s.task("sorbet/freeze").Start.Add(-time.Hour)
		}},
		{"service at half a minute", check.RuleComplete, func(s *spoiler) {
			s.plan.Served[3].At = s.plan.Served[3].At.Add(time.Second)
		}},

		{"shortest wait", check.RuleWaits, func(s *spoiler) { s.move("tart/bake", 10) }},
		{"before the step before it", check.RuleWaits, func(s *spoiler) {
			s.move("tart/custard", 10)
			s.give("tart/custard", "ana")
		}},
		{"longest wait", check.RuleWaits, func(s *spoiler) { s.move("tart/custard", -70) }},
		{"floor", check.RuleWaits, func(s *spoiler) { s.step("sorbet", "freeze").Serve.WorthUntil = 1000 }},
		{"straight on", check.RuleWaits, func(s *spoiler) { s.move("bread/bake", 5) }},
		{"part-cooked straight on", check.RuleWaits, func(s *spoiler) { s.move("braise/brown", -5) }},
		{"from start to start, too soon", check.RuleWaits, func(s *spoiler) {
			f := s.step("tart", "fill")
			f.After = append(f.After, planner.After{Step: "custard", FromStart: true, Wait: planner.Wait{Least: 21}})
		}},
		{"from start to start, too late", check.RuleWaits, func(s *spoiler) {
			f := s.step("tart", "fill")
			f.After = append(f.After, planner.After{Step: "custard", FromStart: true, Wait: planner.Wait{Longest: 19}})
		}},
		{"another dish's step", check.RuleWaits, func(s *spoiler) {
			f := s.step("tart", "custard")
			f.After = append(f.After, planner.After{Dish: "soup", Step: "chop", Wait: planner.Wait{State: planner.Counter,
				Longest: 60}})
			s.step("soup", "chop").Leaves = planner.Food{} // else a day on the counter breaks rule 2 too
		}},
		{"gap between rounds", check.RuleWaits, func(s *spoiler) {
			s.move("fritters/fry.2", -1)
			s.give("fritters/fry.2", "ana")
			bowl(s, saturday(19, 53))
		}},
		{"rounds in disorder", check.RuleWaits, func(s *spoiler) { s.move("fritters/fry", 6); s.move("fritters/fry.2", -6) }},
		{"a later round waits too long", check.RuleWaits, func(s *spoiler) {
			s.step("fritters", "fry").After[0].Wait.Longest = 65
		}},
		{"shortest wait for service", check.RuleWaits, func(s *spoiler) {
			s.move("bread/proof", 20)
			s.move("bread/bake", 20)
		}},
		{"longest wait for service", check.RuleWaits, func(s *spoiler) {
			s.move("fritters/fry", -20)
			s.move("fritters/fry.2", -20)
			bowl(s, saturday(19, 34))
		}},
		{"longest wait for the last service", check.RuleWaits, func(s *spoiler) {
			s.step("braise", "gravy").Serve.Longest = 35
		}},
		{"straight to the table", check.RuleWaits, func(s *spoiler) { s.step("braise", "gravy").Serve = &planner.Wait{} }},

		{"counter time over waits and cooking", check.RuleClocks, func(s *spoiler) {
			s.step("fritters", "fry").After[0].Wait.Longest = 0
			s.move("fritters/batter", -40)
		}},
		{"a hot day", check.RuleClocks, func(s *spoiler) { s.p.RoomTemperatureC = 35 }},
		{"counter time at work", check.RuleClocks, func(s *spoiler) {
			s.step("tart", "fill").After[1].Wait.Longest = 0
			s.move("tart/custard", -106)
			s.give("tart/custard", "ana")
		}},
		{"counter time before a straight chain", check.RuleClocks, func(s *spoiler) {
			s.step("soup", "blend").After[0].Wait.Longest = 0
			s.move("soup/blend", 70)
		}},
		{"days in the refrigerator", check.RuleClocks, func(s *spoiler) {
			s.step("soup", "reheat").After[0].Wait.Longest = 0
			for _, k := range []planner.TaskKey{"soup/chop", "soup/simmer", "soup/blend"} {
				s.move(k, -24*60)
			}
			s.give("soup/chop", "ana", "ben")
		}},
		{"hours in the refrigerator at rest", check.RuleClocks, func(s *spoiler) {
			// Whipped cream keeps a day; four hours of rest and 23 h 10 min of waiting are more.
			f := s.step("sorbet", "freeze")
			f.Where, f.Leaves = planner.Refrigerator, planner.Food{Perishable: true, Kind: safety.WhippedCream}
			f.Serve = &planner.Wait{State: planner.Refrigerator}
		}},
		{"a mixture is as old as its oldest part", check.RuleClocks, func(s *spoiler) {
			// The cream waits for 21 h 10 min and keeps a day; warmed with its shell it is cream still, and what is
			// filled waits for four hours more.
			s.step("tart", "dough").Do = "Whip the cream"
			s.step("tart", "bake").Do, s.step("tart", "bake").Cooks = "Warm the shells", false
		}},
		{"hot hold without heat", check.RuleClocks, func(s *spoiler) {
			s.step("soup", "reheat").Serve.Hold = nil
			s.dropHeld("soup/reheat", func(h planner.Held) bool { return h.From.Equal(saturday(19, 40)) })
		}},
		{"part-cooked food waits", check.RuleClocks, func(s *spoiler) {
			s.step("braise", "braise").After[0].Wait.State = planner.Refrigerator
			s.move("braise/brown", -10)
		}},

		{"too few hands", check.RuleHands, func(s *spoiler) { s.step("tart", "dough").Hands = 2 }},
		{"too many hands", check.RuleHands, func(s *spoiler) { s.give("tart/fill", "ben", "cleo") }},
		{"two for a watch", check.RuleHands, func(s *spoiler) { s.give("soup/simmer", "ana", "ben") }},
		{"nobody in charge", check.RuleHands, func(s *spoiler) { s.give("sorbet/freeze") }},
		{"hands outside the hours", check.RuleHands, func(s *spoiler) { s.give("shopping", "ben") }},
		{"hands past the hours", check.RuleHands, func(s *spoiler) { s.worksLate(); s.move("tart/dough", 4*60+45) }},
		{"in charge outside the hours", check.RuleHands, func(s *spoiler) {
			s.move("sorbet/freeze", 150)
			s.give("sorbet/freeze", "cleo")
		}},
		{"two things in hand", check.RuleHands, func(s *spoiler) { s.give("soup/chop", "ana", "ben") }},
		{"nobody watches", check.RuleHands, func(s *spoiler) {
			s.worksLate()
			s.step("sorbet", "freeze").Attention = planner.Watch
			s.move("sorbet/freeze", 60) // to 23:35; Ana sleeps from 23:00
		}},
		{"all are away", check.RuleHands, func(s *spoiler) {
			s.chore(planner.Chore{Key: "walk", Attention: planner.Hands, Hands: 3, Away: true, Time: partygen.Exactly(20)},
				saturday(17, 50), []planner.PersonKey{"ana", "ben", "cleo"})
		}},
		{"in charge from afar", check.RuleHands, func(s *spoiler) {
			s.step("sorbet", "freeze").Serve.WorthUntil = 0
			s.move("sorbet/freeze", -(32*60 + 5)) // Thursday 10:30, while Ana shops
		}},
		{"another person's task", check.RuleHands, func(s *spoiler) { s.step("tart", "fill").Who.Person = "ana" }},
		{"a skill is wanted", check.RuleHands, func(s *spoiler) {
			s.give("tart/dough", "ana")
			s.give("soup/chop", "ben", "cleo")
		}},
		{"a looker works", check.RuleHands, func(s *spoiler) { s.give("sorbet/freeze", "dan") }},

		{"burners", check.RuleEquipment, func(s *spoiler) { s.p.Kitchen.Burners = 1 }},
		{"counter places", check.RuleEquipment, func(s *spoiler) { s.p.Kitchen.Counter = 1 }},
		{"appliances", check.RuleEquipment, func(s *spoiler) { s.p.Kitchen.Appliances = nil }},
		{"sources", check.RuleEquipment, func(s *spoiler) { s.p.Kitchen.HotPlaces = nil }},
		{"a vessel occupied until later", check.RuleEquipment, func(s *spoiler) {
			s.chore(planner.Chore{Key: "beans", Attention: planner.Hands, Time: partygen.Exactly(10),
				Uses: []planner.Use{{What: planner.AVessel, Name: "casserole"}}},
				saturday(18, 0), []planner.PersonKey{"ben"}, planner.Held{What: planner.AVessel, Name: "casserole", Amount: 1})
		}},
		{"nothing is held", check.RuleEquipment, func(s *spoiler) {
			s.dropHeld("tart/custard", func(h planner.Held) bool { return h.What == planner.ABurner })
		}},
		{"held too short", check.RuleEquipment, func(s *spoiler) {
			s.task("braise/brown").Uses[1].To = s.task("braise/brown").End
		}},
		{"held for no wait", check.RuleEquipment, func(s *spoiler) {
			s.dropHeld("braise/braise", func(h planner.Held) bool { return h.What == planner.AHotPlace })
		}},
		{"held without need", check.RuleEquipment, func(s *spoiler) {
			t := s.task("tart/custard")
			t.Uses = append(t.Uses, planner.Held{What: planner.AGrill, Amount: 1, From: t.Start, To: t.End})
		}},
		{"the wrong vessel", check.RuleEquipment, func(s *spoiler) { s.task("tart/custard").Uses[1].Name = "large pot" }},
		{"an oven that is none", check.RuleEquipment, func(s *spoiler) { s.task("tart/bake").Uses[0].Name = "big oven" }},
		{"outside the tolerance", check.RuleEquipment, func(s *spoiler) { s.task("braise/braise").Uses[0].C = 161 }},
		{"beyond the oven's range", check.RuleEquipment, func(s *spoiler) { s.p.Kitchen.Ovens[0].MaxC = 170 }},
		{"a change beyond the range", check.RuleEquipment, func(s *spoiler) {
			s.step("bread", "bake").Uses[0].Then[0].C = 245
		}},
		{"two settings at once", check.RuleEquipment, func(s *spoiler) { s.warmPlate("oven", 180, 1, saturday(18, 0)) }},
		{"shut door", check.RuleEquipment, func(s *spoiler) { s.warmPlate("oven", 150, 1, saturday(18, 0)) }},
		{"shelves", check.RuleEquipment, func(s *spoiler) {
			s.step("braise", "braise").Uses[0].Shut = false
			s.warmPlate("oven", 150, 2, saturday(18, 0))
		}},
		// 30 minutes to fall, out at 16:51
		{"change-over", check.RuleEquipment, func(s *spoiler) { s.warmPlate("oven", 250, 1, saturday(16, 41)) }},
		{"change-over from the last setting", check.RuleEquipment, func(s *spoiler) {
			s.warmPlate("small oven", 230, 1, saturday(19, 27))
		}},
		{"alone in the oven", check.RuleEquipment, func(s *spoiler) { s.warmPlate("small oven", 230, 1, saturday(18, 45)) }},
		{"preheating", check.RuleEquipment, func(s *spoiler) {
			s.plan.Made = saturday(9, 50).Add(-48 * time.Hour)
			s.p.People[1].Cooks.From = 0
			s.warmPlate("oven", 180, 1, saturday(10, 4).Add(-48*time.Hour)) // 15 minutes from 9:50
		}},

		{"refrigerator's litres", check.RuleStorage, func(s *spoiler) { s.p.Kitchen.Refrigerator.Millilitres = 8499 }},
		{"refrigerator's flat places", check.RuleStorage, func(s *spoiler) { s.p.Kitchen.Refrigerator.Flat = 0 }},
		{"freezer's litres", check.RuleStorage, func(s *spoiler) { s.p.Kitchen.Freezer.Millilitres = 999 }},
		{"freezer's flat places", check.RuleStorage, func(s *spoiler) { s.p.Kitchen.Freezer.Flat = 0 }},
		{"room that grows with the covers", check.RuleStorage, func(s *spoiler) { s.p.Dish("tart").Covers = 17 }}, // 3188 ml

		{"served late", check.RuleService, func(s *spoiler) { s.served(3, 16) }},
		{"served early", check.RuleService, func(s *spoiler) { s.served(3, -11) }},
		{"not ready", check.RuleService, func(s *spoiler) { s.retime("sorbet/freeze", saturday(17, 46), saturday(21, 46)) }},
		{"not ready for the first group", check.RuleService, func(s *spoiler) {
			s.served(1, -10)
			s.step("braise", "gravy").Serve.Longest = 0
			s.move("braise/gravy", 2)
		}},
		{"a serving is missing", check.RuleService, func(s *spoiler) { s.plan.Served = s.plan.Served[:3] }},
		{"a serving stands twice", check.RuleService, func(s *spoiler) {
			s.plan.Served = append(s.plan.Served, s.plan.Served[3])
		}},
		{"a serving is unknown", check.RuleService, func(s *spoiler) {
			s.plan.Served = append(s.plan.Served, planner.Served{Course: "dessert", Group: "toddlers", At: saturday(21, 0)})
		}},
		// 14 minutes after the main
		{"courses on each other's heels", check.RuleService, func(s *spoiler) {
			s.p.Courses[2].Servings[0].Early = 60
			s.served(3, -46)
		}},

		{"a chore before its time", check.RuleAnchors, func(s *spoiler) {
			at := s.task("shopping").Start.Add(time.Minute)
			s.p.Chore("shopping").From = &planner.Anchor{At: &at}
		}},
		{"a chore before a task is done", check.RuleAnchors, func(s *spoiler) {
			s.p.Chore("wine").From = &planner.Anchor{Task: "bread/proof", Offset: -74}
		}},
		{"a chore before all rounds are done", check.RuleAnchors, func(s *spoiler) {
			s.p.Chore("wine").From = &planner.Anchor{Task: "fritters/fry", Offset: -143}
		}},
		{"a chore past a time", check.RuleAnchors, func(s *spoiler) {
			at := s.task("shopping").End.Add(-time.Minute)
			s.p.Chore("shopping").By = []planner.Anchor{{At: &at}}
		}},
		{"a chore past the arrival", check.RuleAnchors, func(s *spoiler) { s.p.Chore("table").By[0].Offset = -196 }},
		{"a chore past a course", check.RuleAnchors, func(s *spoiler) { s.p.Chore("wine").By[0].Offset = -31 }},
		{"a chore past a task", check.RuleAnchors, func(s *spoiler) { s.p.Chore("shopping").By[0].Offset = -1801 }},
		{"a chore too early", check.RuleAnchors, func(s *spoiler) { s.p.Chore("table").By[0].Within = 194 }},

		{"a chore at a closed shop", check.RuleAnchors, func(s *spoiler) {
			at := s.task("shopping").Start.In(s.p.Location())
			s.p.Chore("shopping").Open = planner.DayHours{From: planner.Minutes(at.Hour()*60+at.Minute()) + 1, Until: 24 * 60}
		}},
		{"a chore past closing time", check.RuleAnchors, func(s *spoiler) {
			at := s.task("shopping").End.In(s.p.Location())
			s.p.Chore("shopping").Open = planner.DayHours{From: 60, Until: planner.Minutes(at.Hour()*60+at.Minute()) - 1}
		}},

		{"another does a claimed task", check.RuleClaims, func(s *spoiler) { s.give("fritters/batter", "cleo") }},
		{"a claim of a second pair of hands", check.RuleClaims, func(s *spoiler) {
			s.p.Work = append(s.p.Work, planner.Work{Task: "soup/chop", Person: "cleo"})
		}},

		{"before the plan was made", check.RulePast, func(s *spoiler) {
			s.plan.Made = s.task("shopping").Start.Add(time.Second)
		}},
		{"before the prep days", check.RulePast, func(s *spoiler) { s.p.PrepDays = 1 }},
		{"finished work is moved", check.RulePast, func(s *spoiler) {
			start, end := s.task("shopping").Start, s.task("shopping").End.Add(time.Minute)
			s.p.Work = append(s.p.Work, planner.Work{Task: "shopping", Person: "ana", Progress: planner.Done, Start: &start,
				End: &end})
		}},
		{"started work is moved", check.RulePast, func(s *spoiler) {
			start := s.task("shopping").Start.Add(time.Minute)
			s.p.Work = append(s.p.Work, planner.Work{Task: "shopping", Progress: planner.Started, Start: &start})
		}},
		{"started work takes more", check.RulePast, func(s *spoiler) {
			start := s.task("shopping").Start
			s.p.Work = append(s.p.Work, planner.Work{Task: "shopping", Progress: planner.Started, Start: &start, Extra: 5})
		}},

		{"off the five-minute marks", check.RuleMarks, func(s *spoiler) { s.move("tart/dough", 1) }},

		{"hands in the night", check.RuleNights, func(s *spoiler) { s.move("tart/dough", 4*60+15) }},
		{"hands before the hours of the hosts", check.RuleNights, func(s *spoiler) {
			s.p.WorkHours = planner.DayHours{From: 17*60 + 1, Until: 22 * 60}
		}},

		{"too short", check.RuleLengths, func(s *spoiler) {
			s.retime("sorbet/freeze", s.task("sorbet/freeze").Start, s.task("sorbet/freeze").End.Add(-time.Minute))
		}},
		{"too long", check.RuleLengths, func(s *spoiler) {
			s.retime("sorbet/freeze", s.task("sorbet/freeze").Start, s.task("sorbet/freeze").End.Add(time.Minute))
		}},
		{"grown with the batch", check.RuleLengths, func(s *spoiler) { s.p.Dish("soup").Serves = 8 }},
		{"divided over the hands", check.RuleLengths, func(s *spoiler) { s.give("table", "ana") }},
	}
	seen := map[check.Rule]int{}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			p, plan := partygen.Rich()
			row.spoil(&spoiler{t, p, plan})
			for _, problem := range p.Validate() {
				if row.name != "hot hold without heat" && row.rule != check.RuleClocks && row.rule != check.RuleEquipment {
					t.Errorf("the spoiled party makes no sense: %s: %s", problem.Where, problem.Text)
				}
			}
			got := check.Plan(p, plan)
			if len(got) == 0 {
				t.Errorf("rule %d is broken and was not named", row.rule)
			}
			said := map[string]bool{}
			for _, b := range got {
				if b.Rule != row.rule {
					t.Errorf("got rule %d, want only %d: %s", b.Rule, row.rule, b.Text)
				}
				if said[b.Text] {
					t.Errorf("named twice: %s", b.Text)
				}
				said[b.Text] = true
			}
			if !t.Failed() {
				t.Logf("%d: %s", len(got), got[0].Text)
			}
		})
		seen[row.rule]++
	}
	for r := check.RuleComplete; r <= check.RuleLengths; r++ {
		if seen[r] == 0 {
			t.Errorf("rule %d is never broken here", r)
		}
	}
}
