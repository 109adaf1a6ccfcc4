package check_test

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
)

func TestEdgesOfEquipment(t *testing.T) {
	ware := func(list func(*planner.Kitchen) *[]planner.Ware, name string) func(*spoiler, int) {
		return func(s *spoiler, n int) {
			l := list(&s.p.Kitchen)
			*l = append(slices.DeleteFunc(*l, func(w planner.Ware) bool { return w.Name == name }),
				planner.Ware{Name: name, Count: n, Millilitres: 9000})
		}
	}
	vessels := func(k *planner.Kitchen) *[]planner.Ware { return &k.Vessels }
	appliances := func(k *planner.Kitchen) *[]planner.Ware { return &k.Appliances }
	sources := func(k *planner.Kitchen) *[]planner.Ware { return &k.HotPlaces }
	oven := func(i int, do func(o *planner.Oven, n int)) func(*spoiler, int) {
		return func(s *spoiler, n int) { do(&s.p.Kitchen.Ovens[i], n) }
	}
	first := func(o *planner.Oven) int { return int(o.PreheatTo(180)) }
	holds(t, []edge{
		{"burners", check.RuleEquipment, func(s *spoiler, n int) { s.p.Kitchen.Burners = n }, 2, 1, []string{"2 × burner",
			"has 1"}},
		{"counter", check.RuleEquipment, func(s *spoiler, n int) { s.p.Kitchen.Counter = n }, 2, 1,
			[]string{"Fri 17:00", "2 × counter", "has 1"}},
		{"vessels", check.RuleEquipment, ware(vessels, "casserole"), 1, 0, []string{"Sat 16:55", "1 × casserole", "has 0"}},
		{"appliances", check.RuleEquipment, ware(appliances, "blender"), 1, 0, []string{"1 × blender", "has 0"}},
		{"sources", check.RuleEquipment, ware(sources, "warming tray"), 1, 0, []string{"Sat 19:50", "1 × warming tray",
			"has 0"}},
		{"shelves", check.RuleEquipment, func(s *spoiler, n int) {
			s.step("braise", "braise").Uses[0].Shut = false
			s.warmPlate("oven", 150, n, saturday(18, 0))
		}, 1, 2, []string{"Sat 18:00", "3 shelves of oven", "has 2"}},
		{"tolerance above", check.RuleEquipment, func(s *spoiler, n int) { s.task("braise/braise").Uses[0].C = n }, 160, 161,
			[]string{"Braise the meat", "wants 150 °C", "to 161 °C"}},
		{"tolerance below", check.RuleEquipment, func(s *spoiler, n int) { s.task("braise/braise").Uses[0].C = n }, 140, 139,
			[]string{"Braise the meat", "wants 150 °C", "to 139 °C"}},
		{"the oven's most", check.RuleEquipment, oven(0, func(o *planner.Oven, n int) { o.MaxC = n }), 180, 179,
			[]string{"Bake the shell", "180 °C", "oven does not reach", "50 to 179"}},
		{"the oven's least", check.RuleEquipment, oven(0, func(o *planner.Oven, n int) { o.MinC = n }), 150, 151,
			[]string{"Braise the meat", "150 °C", "oven does not reach", "151 to 250"}},
		{"the oven's least within a step", check.RuleEquipment, oven(1, func(o *planner.Oven, n int) { o.MinC = n }), 200,
			201,
			[]string{"Bake the bread", "200 °C", "small oven does not reach", "201 to 240"}},
		{"off, and occupied", check.RuleEquipment, func(s *spoiler, n int) {
			s.warmPlate("oven", 0, 1, saturday(15, 10))
			s.task("plates").Uses[0].C = n
		}, 0, 100, []string{"wants 0 °C", "to 100 °C"}},
		{"change-over before", check.RuleEquipment, func(s *spoiler, n int) {
			o := &s.p.Kitchen.Ovens[0]
			s.warmPlate("oven", 200, 1, saturday(17, 20).Add(-o.Change(200,
				150).Duration()-10*time.Minute+time.Duration(n)*time.Minute))
		}, 0, 1, []string{"Braise the meat", "goes into oven", "14 minutes after", "Do something else", "200 to 150 °C",
			"15 minutes"}},
		{"change-over after", check.RuleEquipment, func(s *spoiler, n int) {
			o := &s.p.Kitchen.Ovens[0]
			s.warmPlate("oven", 200, 1, saturday(19, 50).Add(o.Change(150, 200).Duration()+time.Duration(n)*time.Minute))
		}, 0, -1, []string{"Do something else", "goes into oven", "5 minutes after", "Braise the meat", "150 to 200 °C",
			"6 minutes"}},
		{"change-over after the last setting", check.RuleEquipment, func(s *spoiler, n int) {
			o := &s.p.Kitchen.Ovens[1]
			s.warmPlate("small oven", 230, 1, saturday(19, 25).Add(o.Change(200, 230).Duration()+time.Duration(n)*time.Minute))
		}, 0, -1, []string{"Do something else", "goes into small oven", "200 to 230 °C"}},
		{"the door shuts", check.RuleEquipment, func(s *spoiler, n int) { s.warmPlate("oven", 150, 1, saturday(17, 10+n)) },
			0, 1,
			[]string{"Do something else", "opens oven at Sat 17:21", "Braise the meat"}},
		{"the door opens", check.RuleEquipment, func(s *spoiler, n int) { s.warmPlate("oven", 150, 1, saturday(19, 50+n)) },
			0, -1,
			[]string{"Do something else", "opens oven at Sat 19:49", "Braise the meat"}},
		{"alone", check.RuleEquipment, func(s *spoiler, n int) {
			s.p.Kitchen.Ovens[1].Rise, s.p.Kitchen.Ovens[1].Fall, s.p.Kitchen.Ovens[1].Shelves = 0, 0, 3
			s.warmPlate("small oven", 230, 1, saturday(18, 35+n))
		}, 0, 1, []string{"Bake the bread", "small oven at Sat 18:45", "changes its temperature"}},
		{"two settings", check.RuleEquipment, func(s *spoiler, n int) {
			s.warmPlate("oven", 150+n, 1, saturday(19,
				50-10*n))
		}, 0, 1,
			[]string{"Braise the meat", "at 150 °C", "Do something else", "at 151 °C", "in oven together at Sat 19:40"}},
		{"preheating", check.RuleEquipment, func(s *spoiler, n int) {
			s.plan.Made = saturday(9, 50).Add(-48 * time.Hour)
			s.p.People[1].Cooks.From = 0
			s.warmPlate("oven", 180, 1, s.plan.Made.Add(time.Duration(first(&s.p.Kitchen.Ovens[0])+n)*time.Minute))
		}, 0, -1, []string{"Do something else", "goes into oven", "Thu 10:04", "15 minutes from Thu 09:50"}},
		{"it was on", check.RuleEquipment, func(s *spoiler, n int) {
			s.plan.Made = saturday(9, 50).Add(-48 * time.Hour)
			s.p.People[1].Cooks.From = 0
			s.plan.Heating = []planner.Held{{What: planner.AnOven, Name: "small oven", C: 180},
				{What: planner.AnOven, Name: "oven", C: 150, From: s.plan.Made, To: s.plan.Made.Add(2 * time.Minute)}}
			s.warmPlate("oven", 180, 1, s.plan.Made.Add(time.Duration(2+int(s.p.Kitchen.Ovens[0].Change(150,
				180))+n)*time.Minute))
		}, 0, -1, []string{"Do something else", "goes into oven"}},
		{"held for a wait to its end", check.RuleEquipment, func(s *spoiler, n int) {
			u := s.task("braise/braise").Uses
			u[1].To = u[1].To.Add(time.Duration(n) * time.Minute)
		}, 0, -1, []string{"Braise the meat", "the warming tray", "Sat 19:50", "Sat 20:45"}},
		{"held from the start", check.RuleEquipment, func(s *spoiler, n int) {
			u := s.task("tart/custard").Uses
			u[0].From = u[0].From.Add(time.Duration(n) * time.Minute)
		}, 0, 1, []string{"Cook the custard", "burner", "Sat 15:20", "Sat 15:35"}},
		{"so many of it", check.RuleEquipment, func(s *spoiler, n int) { s.task("tart/custard").Uses[0].Amount = n }, 1, 2,
			[]string{"Cook the custard", "burner", "Sat 15:20", "Sat 15:35"}},
	})
}

func TestEdgesOfStorageAndService(t *testing.T) {
	holds(t, []edge{
		{"refrigerator", check.RuleStorage, func(s *spoiler, n int) { s.p.Kitchen.Refrigerator.Millilitres = n }, 8500, 8499,
			[]string{"refrigerator", "8500 ml", "8499 ml"}},
		{"freezer", check.RuleStorage, func(s *spoiler, n int) { s.p.Kitchen.Freezer.Millilitres = n }, 1000, 999,
			[]string{"freezer", "1000 ml", "999 ml"}},
		{"no freezer", check.RuleStorage, func(s *spoiler, n int) { s.p.Kitchen.Freezer.Millilitres = n }, 1000, 0,
			[]string{"freezer", "1000 ml", "0 ml"}},
		{"flat in the refrigerator", check.RuleStorage, func(s *spoiler, n int) { s.p.Kitchen.Refrigerator.Flat = n }, 1, 0,
			[]string{"flat in 1 places of the refrigerator", "has 0"}},
		{"flat in the freezer", check.RuleStorage, func(s *spoiler, n int) { s.p.Kitchen.Freezer.Flat = n }, 1, 0,
			[]string{"flat in 1 places of the freezer", "has 0"}},
		{"served late", check.RuleService, func(s *spoiler, n int) { s.served(3, n) }, 15, 16,
			[]string{"Dessert is served at Sat 22:01, after Sat 22:00"}},
		{"served early", check.RuleService, func(s *spoiler, n int) { s.served(3, n) }, -10, -11,
			[]string{"Dessert is served at Sat 21:34, before Sat 21:35"}},
		{"a group, late", check.RuleService, func(s *spoiler, n int) {
			s.step("braise", "gravy").Serve.Longest, s.step("braise", "braise").Serve.Longest = 0, 0
			s.served(1, n)
		}, 10, 11, []string{"Main is served to the toddlers at Sat 20:26, after Sat 20:25"}},
		{"courses apart", check.RuleService, func(s *spoiler, n int) {
			s.p.Courses[2].Servings[0].Early = 60
			s.served(3, -n)
		}, 45, 46, []string{"Dessert is served", "14 minutes after", "Main", "15 minutes is the least"}},
		{"courses as far apart as their targets", check.RuleService, func(s *spoiler, n int) {
			s.p.Courses[2].Servings[0].At = s.p.Courses[1].Servings[1].At.Add(10 * time.Minute)
			s.plan.Served[3].At = s.p.Courses[2].Servings[0].At.Add(time.Duration(-n) * time.Minute)
		}, 0, 1, []string{"Dessert is served", "9 minutes after", "Main", "10 minutes is the least"}},
		{"ready when served", check.RuleService, func(s *spoiler, n int) {
			s.retime("sorbet/freeze", saturday(17, 45+n), saturday(21, 45+n))
		}, 0, 1, []string{"Freeze the sorbet", "not ready at Sat 21:45", "dessert", "Sat 21:46"}},
	})
}

func TestEdgesOfChoresAndMarks(t *testing.T) {
	at := func(s *spoiler, t time.Time, n int) *time.Time {
		t = t.Add(time.Duration(n) * time.Minute)
		return &t
	}
	local := func(s *spoiler, t time.Time) int {
		t = t.In(s.p.Location())
		return t.Hour()*60 + t.Minute()
	}
	holds(t, []edge{
		{"from the clock", check.RuleAnchors, func(s *spoiler, n int) {
			s.p.Chore("shopping").From = &planner.Anchor{At: at(s, s.task("shopping").Start, n)}
		}, 0, 1, []string{"Shop for the party", "Thu 10:00", "before Thu 10:01"}},
		{"by the clock", check.RuleAnchors, func(s *spoiler, n int) {
			s.p.Chore("shopping").By = []planner.Anchor{{At: at(s, s.task("shopping").End, n)}}
		}, 0, -1, []string{"Shop for the party", "Thu 11:00", "after Thu 10:59"}},
		// The bread proofs until 18:45, the wine is chilled from 17:30.
		{"from a task", check.RuleAnchors, func(s *spoiler, n int) {
			s.p.Chore("wine").From = &planner.Anchor{Task: "bread/proof", Offset: minutes(n)}
		}, -75, -74, []string{"Chill the wine", "Sat 17:30", "before Sat 17:31"}},
		{"from all rounds", check.RuleAnchors, func(s *spoiler, n int) {
			s.p.Chore("wine").From = &planner.Anchor{Task: "fritters/fry", Offset: minutes(n)}
		}, -144, -143, []string{"Chill the wine", "Sat 17:30", "before Sat 17:31"}},
		{"from one round", check.RuleAnchors, func(s *spoiler, n int) {
			s.p.Chore("wine").From = &planner.Anchor{Task: "fritters/fry.2", Offset: minutes(n)}
		}, -144, -143, []string{"Chill the wine"}},
		{"by a task", check.RuleAnchors, func(s *spoiler, n int) { s.p.Chore("shopping").By[0].Offset = minutes(n) }, -1800,
			-1801,
			[]string{"Shop for the party", "Thu 11:00", "after Thu 10:59"}},
		{"by the first round", check.RuleAnchors, func(s *spoiler, n int) { // fried from 19:42, chilled until 19:30
			s.p.Chore("wine").By = []planner.Anchor{{Task: "fritters/fry", Offset: minutes(n)}}
		}, -12, -13, []string{"Chill the wine", "Sat 19:30", "after Sat 19:29"}},
		{"by the arrival", check.RuleAnchors, func(s *spoiler, n int) { s.p.Chore("table").By[0].Offset = minutes(n) },
			-195, -196,
			[]string{"Lay the table", "Sat 16:15", "after Sat 16:14"}},
		{"by a course", check.RuleAnchors, func(s *spoiler, n int) { s.p.Chore("wine").By[0].Offset = minutes(n) }, -30, -31,
			[]string{"Chill the wine", "Sat 19:30", "after Sat 19:29"}},
		{"by the first group", check.RuleAnchors, func(s *spoiler, n int) {
			s.p.Chore("wine").By[0] = planner.Anchor{Course: "main", Offset: minutes(n)}
		}, -45, -46, []string{"Chill the wine"}},
		{"not long before", check.RuleAnchors, func(s *spoiler, n int) { s.p.Chore("table").By[0].Within = minutes(n) },
			195, 194,
			[]string{"Lay the table", "Sat 16:15", "3 h 14 min", "before Sat 19:30"}},
		{"a shop opens", check.RuleAnchors, func(s *spoiler, n int) {
			s.p.Chore("shopping").Open = planner.DayHours{From: minutes(local(s, s.task("shopping").Start) + n),
				Until: 24 * 60}
		}, 0, 1, []string{"Shop for the party", "Thu 10:00", "11:00"}},
		{"a shop shuts", check.RuleAnchors, func(s *spoiler, n int) {
			s.p.Chore("shopping").Open = planner.DayHours{From: 1, Until: minutes(local(s, s.task("shopping").End) + n)}
		}, 0, -1, []string{"Shop for the party", "Thu 10:00", "11:00"}},
		{"not before the plan", check.RulePast, func(s *spoiler, n int) {
			s.plan.Made = *at(s, s.task("shopping").Start, n)
		}, 0, 1, []string{"Shop for the party", "Thu 10:00", "made at Thu 10:01"}},
		{"not before people said", check.RulePast, func(s *spoiler, n int) {
			s.p.Work = append(s.p.Work, planner.Work{Task: "shopping", NotBefore: at(s, s.task("shopping").Start,
				n)})
		}, 0, 1, []string{"Shop for the party", "Thu 10:00", "at Thu 10:01"}},
		{"hands over in the evening", check.RuleNights, func(s *spoiler, n int) { s.move("tart/dough", 4*60+10+n) },
			0, 5, []string{"Make the dough", "Fri 21:35", "before the party's day", "Fri 07:00", "Fri 21:30"}},
		{"a quarter of an hour on a mark", check.RuleMarks, func(s *spoiler, n int) {
			s.step("tart", "dough").Time = partygen.Exactly(minutes(n))
			start := s.task("tart/dough").Start.Add(time.Minute)
			s.retime("tart/dough", start, start.Add(time.Duration(n)*time.Minute))
		}, 14, 15, []string{"Make the dough", "Fri 17:01"}},
		{"a mark is five minutes", check.RuleMarks, func(s *spoiler, n int) { s.move("tart/dough", n) }, 5, 6,
			[]string{"Make the dough", "Fri 17:06"}},
		{"a length", check.RuleLengths, func(s *spoiler, n int) {
			s.retime("sorbet/freeze", s.task("sorbet/freeze").Start,
				s.task("sorbet/freeze").End.Add(time.Duration(n)*time.Minute))
		}, 0, 1, []string{"Freeze the sorbet", "takes 4 hours", "4 h 1 min"}},
		{"a length for two", check.RuleLengths, func(s *spoiler, n int) {
			s.step("soup",
				"chop").Time = partygen.Exactly(minutes(n))
		}, 30, 31,
			[]string{"Chop the vegetables", "31 minutes", "30 minutes"}},
		{"what settled work said", check.RulePast, func(s *spoiler, n int) {
			k := planner.TaskKey("shopping")
			s.settle(k, planner.Done)
			s.p.Work[len(s.p.Work)-1].End = at(s, s.task(k).End, n)
		}, 0, 1, []string{"Shop for the party", "ends at Thu 11:01", "Thu 11:00"}},
		{"when settled work began", check.RulePast, func(s *spoiler, n int) {
			k := planner.TaskKey("shopping")
			s.settle(k, planner.Done)
			s.p.Work[len(s.p.Work)-1].Start = at(s, s.task(k).Start, n)
		}, 0, 1, []string{"Shop for the party", "started at Thu 10:01", "Thu 10:00"}},
		{"what was said to take longer", check.RulePast, func(s *spoiler, n int) {
			k := planner.TaskKey("shopping")
			s.settle(k, planner.Started)
			s.p.Work[len(s.p.Work)-1].Extra = minutes(n)
		}, 0, 1, []string{"Shop for the party", "ends at Thu 11:01", "Thu 11:00"}},
		{"what has begun lasts until now", check.RulePast, func(s *spoiler, n int) {
			k := planner.TaskKey("shopping")
			s.settle(k, planner.Started)
			s.plan.Made = *at(s, s.task(k).End, n)
		}, 0, 1, []string{"Shop for the party", "ends at Thu 11:01", "Thu 11:00"}},
	})
}
