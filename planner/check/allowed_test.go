package check_test

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
)

// settle notes a task as it stands in the plan.
func (s *spoiler) settle(k planner.TaskKey, progress planner.Progress) {
	t := s.task(k)
	start, end := t.Start, t.End
	w := planner.Work{Task: k, Progress: progress}
	switch progress {
	case planner.Started:
		w.Start = &start
	case planner.Done:
		w.Start, w.End = &start, &end
	case planner.Skipped:
		w.End = &end
		t.Start, t.Uses, t.People = end, nil, nil
	}
	s.p.Work = append(slices.DeleteFunc(s.p.Work, func(o planner.Work) bool { return o.Task == k }), w)
}

// Each row looks like a break and is none, by the words of the rules.
func TestCheckAllowsWhatTheRulesAllow(t *testing.T) {
	rows := []struct {
		name string
		edit func(s *spoiler)
	}{
		{"a gap of exactly the longest wait", func(s *spoiler) { s.step("fritters", "fry").After[0].Wait.Longest = 68 }},
		{"two hours on the counter to the minute", func(s *spoiler) {
			s.step("fritters", "fry").After[0].Wait.Longest = 0
			s.move("fritters/batter", -36)
		}},
		{"food that is not perishable has no clock", func(s *spoiler) {
			for k, do := range map[planner.StepKey]string{"batter": "Mix the sugar and spices",
				"fry": "Toast the spiced sugar"} {
				s.step("fritters", k).Do, s.step("fritters", k).Leaves = do, planner.Food{}
			}
			s.step("fritters", "fry").After[0].Wait.Longest = 0
			s.move("fritters/batter", -200)
		}},
		{"hot holding is no counter time", func(s *spoiler) {
			s.step("soup", "reheat").Serve.Longest = 0
			s.move("soup/reheat", -150)
		}},
		{"raw days end where the cooking begins", func(s *spoiler) {
			// Minced meat keeps two days; 47 h raw, then 24 h 50 min cooked.
			s.step("soup", "chop").Leaves = planner.Food{Perishable: true, Kind: "ground-meat"}
			s.step("soup", "simmer").After[0].Wait = planner.Wait{State: planner.Refrigerator}
			s.p.PrepDays = 4
			s.plan.Made = s.plan.Made.Add(-48 * time.Hour)
			s.move("soup/chop", -47*60)
			s.give("soup/chop", "ana", "ben")
			s.p.Chore("shopping").By = nil
		}},
		{"an equal setting needs no change-over", func(s *spoiler) { s.warmPlate("oven", 150, 1, saturday(19, 50)) }},
		{"a door opens as it shuts", func(s *spoiler) { s.warmPlate("oven", 150, 1, saturday(17, 20).Add(-10*time.Minute)) }},
		{"a setting within the tolerance", func(s *spoiler) { s.task("braise/braise").Uses[0].C = 160 }},
		{"short work off the marks", func(s *spoiler) { s.move("soup/blend", 1) }},
		{"straight on off the marks", func(s *spoiler) {
			s.step("soup", "chop").Time = partygen.Exactly(27)
			s.retime("soup/chop", s.task("soup/chop").Start, s.task("soup/chop").Start.Add(27*time.Minute))
			s.move("soup/simmer", -3)
		}},
		{"off the marks on the party's day", func(s *spoiler) { s.move("tart/custard", 1) }},
		{"hands up to the end of the hours", func(s *spoiler) { s.worksLate(); s.move("tart/dough", 4*60+40) }},
		{"a watch handed from one to the other", func(s *spoiler) {
			s.p.People[1].Home, s.p.People[1].Cooks = planner.DayHours{}, planner.DayHours{}
			s.p.People[1].Days = []planner.OtherDay{
				{Date: "2026-09-25", Cooks: []planner.DayHours{{From: 17 * 60, Until: 18 * 60}}},
				{Date: "2026-09-26", Cooks: []planner.DayHours{{From: 14 * 60, Until: 14*60 + 45},
					{From: 15 * 60, Until: 21 * 60}}}}
		}},
		{"in charge while busy", func(s *spoiler) { s.give("soup/reheat", "ana"); s.move("soup/reheat", 0) }},
		{"settled work keeps odd hours", func(s *spoiler) { s.give("shopping", "ben"); s.settle("shopping", planner.Done) }},
		{"settled work before the plan", func(s *spoiler) {
			s.settle("shopping", planner.Started)
			s.plan.Made = s.task("shopping").Start.Add(30 * time.Minute)
		}},
		{"settled work has its own length", func(s *spoiler) {
			s.retime("shopping", s.task("shopping").Start, s.task("shopping").End.Add(17*time.Minute))
			s.settle("shopping", planner.Done)
		}},
		{"a skipped step is passed over", func(s *spoiler) { s.settle("tart/bake", planner.Skipped) }},
		{"a skipped last step leaves the others to be served", func(s *spoiler) {
			s.settle("tart/chill", planner.Skipped)
			s.fillLate()
		}},
		{"a skipped round", func(s *spoiler) {
			s.settle("fritters/fry.2", planner.Skipped)
		}},
		{"a chore hung on skipped work", func(s *spoiler) {
			s.p.Chore("shopping").By[0].Offset = -5000
			for _, k := range []planner.TaskKey{"soup/chop", "soup/simmer", "soup/blend"} {
				s.settle(k, planner.Skipped)
			}
		}},
		{"an evening plan serves late", func(s *spoiler) { s.plan.Soft = true; s.served(3, 120) }},
		{"an evening plan passes a floor", func(s *spoiler) {
			s.plan.Soft = true
			s.step("sorbet", "freeze").Serve.WorthUntil = 1000
		}},
		{"an evening plan misses the clock", func(s *spoiler) { s.plan.Soft = true; s.p.Chore("table").By[0].Within = 1 }},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			p, plan := partygen.Rich()
			row.edit(&spoiler{t, p, plan})
			for _, b := range check.Plan(p, plan) {
				t.Errorf("rule %d, %s: %s", b.Rule, b.Task, b.Text)
			}
		})
	}
}

// worksLate lets work on the days before go on until 23:00, so that people's own hours bind.
func (s *spoiler) worksLate() { s.p.WorkHours = planner.DayHours{From: 0, Until: 23 * 60} }

// fillLate lets the tart be filled so late that it may stand on the counter until dessert.
func (s *spoiler) fillLate() {
	s.retime("tart/fill", saturday(21, 0), saturday(21, 10))
	s.retime("tart/custard", saturday(20, 30), saturday(20, 45))
}

// An evening plan relaxes service, floors and the clock's By, and nothing else.
func TestCheckOfAnEveningPlanHoldsTheRest(t *testing.T) {
	rows := []struct {
		name  string
		rule  check.Rule
		spoil func(s *spoiler)
	}{
		{"served early", check.RuleService, func(s *spoiler) { s.served(3, -11) }},
		{"longest wait", check.RuleWaits, func(s *spoiler) { s.move("tart/custard", -70) }},
		{"counter time", check.RuleClocks, func(s *spoiler) { s.p.RoomTemperatureC = 35 }},
		{"by a course", check.RuleAnchors, func(s *spoiler) { s.p.Chore("wine").By[0].Offset = -31 }},
		{"straight on", check.RuleWaits, func(s *spoiler) { s.move("bread/bake", 5) }},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			p, plan := partygen.Rich()
			plan.Soft = true
			row.spoil(&spoiler{t, p, plan})
			got := check.Plan(p, plan)
			if len(got) == 0 || slices.ContainsFunc(got, func(b check.Broken) bool { return b.Rule != row.rule }) {
				t.Errorf("got %+v, want rule %d alone", got, row.rule)
			}
		})
	}
}

// A started task's hands and burner are not free for others, though its own hours and past are not judged.
func TestCheckKeepsOthersOffWhatStartedWorkHolds(t *testing.T) {
	p, plan := partygen.Rich()
	s := &spoiler{t, p, plan}
	start := saturday(14, 50)
	s.p.Kitchen.Vessels = slices.DeleteFunc(s.p.Kitchen.Vessels, func(w planner.Ware) bool { return w.Name == "saucepan" })
	s.p.Kitchen.Vessels = append(s.p.Kitchen.Vessels, planner.Ware{Name: "saucepan", Count: 1})
	s.chore(planner.Chore{Key: "jam", Attention: planner.Hands, Time: partygen.Exactly(60),
		Uses: []planner.Use{{What: planner.AVessel, Name: "saucepan"}}},
		start, []planner.PersonKey{"ben"})
	s.p.Work = append(s.p.Work, planner.Work{Task: "jam", Person: "ben", Progress: planner.Started, Start: &start})
	got := check.Plan(p, plan)
	count := map[check.Rule]int{}
	for _, b := range got {
		count[b.Rule]++
	}
	// Ben cooks the custard and fills the shell meanwhile, and the saucepan is in use.
	if len(got) != 3 || count[check.RuleHands] != 2 || count[check.RuleEquipment] != 1 {
		t.Errorf("got %+v, want two clashes of Ben's hands and one over the saucepan", got)
	}
}
